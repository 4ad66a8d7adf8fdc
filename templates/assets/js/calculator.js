/**
 * A calculator's form: works out as one types, explains a bad entry beside its field, opens with the values that a
 * link's `#in=length:1060~mm,...` carries. What else of the page goes with the answer hears of it by the event
 * "seambook:answered". Needs entries.js, shown.js, links.js and the calculator's own script.
 */

(function () {
  "use strict";

  const LEVELS = [
    { level: "stop", word: "Stop" },
    { level: "care", word: "Take care" },
    { level: "note", word: "Note" },
  ];
  const UNHURRIED = 700;
  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};

  // Without the page.

  /** @param {Fault} fault @param {Entry} entry */
  function explain(fault, entry) {
    const { id, field, input, unit } = entry;
    const own = input ? input.admits : "";
    const shown = input?.units.find((one) => one.name === unit);
    const told = shown ? fault.do.replace(own, () => shown.admits || own) : fault.do;
    if (!field.value.trim()) return `Nothing is written here: ${told}.`;
    const typed = `"${field.value.trim()}"`;
    const message = fault.message.replace(`${id}: `, "").replace(`"${seambook.entries.textOf(entry)}"`, () => typed);
    return `${message}; ${told}.`;
  }

  // On the page.

  /** @param {Entry[]} entries */
  function readFields(entries) {
    /** @type {Record<string, string | undefined>} */
    const given = {};
    for (const entry of entries) {
      given[entry.id] = entry.isOptional && !entry.field.value.trim() ? undefined : seambook.entries.textOf(entry);
    }
    return given;
  }

  /** @param {Entry[]} entries @param {Record<string, Fault>} faults */
  function showEntries(entries, faults) {
    for (const entry of entries) {
      const { id, field } = entry;
      const place = document.getElementById(`ask_${id}-fault`);
      const fault = faults[id];
      if (fault) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
      if (!place) continue;
      place.hidden = !fault;
      place.textContent = fault ? explain(fault, entry) : "";
    }
  }

  /** @param {string} text @param {string} [style] @param {string} [tag] */
  function element(text, style, tag) {
    const made = document.createElement(tag || "span");
    if (style) made.className = style;
    made.textContent = text;
    return made;
  }

  /** @param {ShownAnswer} answer @param {Result | undefined} result */
  function showAnswer(answer, result) {
    const { place, choice } = answer;
    const isNumber = typeof result?.value === "number";
    if (choice && choice.parentElement) choice.parentElement.hidden = !isNumber;
    place.textContent = "";
    if (!result) {
      place.append("–");
    } else if (result.value === null) {
      place.append("no answer");
      if (result.why) place.append(" ", element(result.why, "note"));
    } else {
      place.append(seambook.shown.textOf(answer, result));
      if (isNumber) place.append(element(seambook.shown.behind(answer), "sign"));
      if (result.because) place.append(" ", element(result.because, "note"));
    }
  }

  /** @param {ReadonlyArray<Judged>} warnings */
  function cautionItems(warnings) {
    return LEVELS.flatMap(({ level, word }) =>
      warnings
        .filter((warning) => warning.level === level && warning.holds !== false)
        .map((warning) => {
          const item = element("", `caution-${level}`, "li");
          const said = element(warning.say, "", "div");
          if (warning.holds === null) said.append(" ", element("It cannot be judged from these values.", "note"));
          item.append(element(word, "", "strong"), " ", said);
          return item;
        })
    );
  }

  const form = document.getElementById("ask_form");
  const list = document.getElementById("answer_cautions");
  const spoken = document.getElementById("answer_said");
  if (!(form instanceof HTMLFormElement) || !list || !spoken || !seambook.formula) return;
  /** @type {Calculator | undefined} */
  const calculator = (seambook.calculators || {})[form.dataset.calculator || ""];
  if (!calculator) return;
  start(form, list, spoken, calculator);

  /** @param {HTMLFormElement} form @param {Entry[]} fields @param {ShownAnswer[]} answers @param {() => void} keep */
  function listen(form, fields, answers, keep) {
    form.addEventListener("input", (event) => {
      const entry = fields.find(({ field, choice }) => field === event.target || choice === event.target);
      if (entry && entry.field === event.target) seambook.entries.follow(entry);
      else if (entry) seambook.entries.choose(entry);
      keep();
    });
    for (const answer of answers) {
      answer.choice?.addEventListener("input", () => {
        if (answer.choice) seambook.shown.take(answer, answer.choice.value);
        keep();
      });
    }
  }

  /** @param {HTMLFormElement} form @param {HTMLElement} list @param {HTMLElement} spoken @param {Calculator} calculator */
  function start(form, list, spoken, calculator) {
    /** @type {Entry[]} */
    const fields = seambook.entries.entriesOf(form, calculator);
    /** @type {ShownAnswer[]} */
    const answers = seambook.shown.answersOf(calculator);
    let timer = 0;

    function show() {
      const given = readFields(fields);
      const answer = (seambook.measuring || seambook.formula).run(calculator, given);
      showEntries(fields, answer.faults);
      for (const shown of answers) showAnswer(shown, answer.outputs[shown.output.id]);
      const items = cautionItems(answer.warnings);
      list.replaceChildren(...items);
      const detail = { calculator, given, answer, entries: fields, answers };
      document.dispatchEvent(new CustomEvent("seambook:answered", { detail }));
      window.clearTimeout(timer);
      timer = window.setTimeout(() => {
        const said = answers.map(({ output, place }) => `${output.say} ${place.textContent}`);
        const cautions = items.map((item) => item.textContent);
        const faults = Object.keys(answer.faults).length ? ["An entry cannot be used."] : [];
        const parts = [...faults, ...(faults.length ? [] : said), ...cautions];
        spoken.textContent = parts.map((part) => (part || "").replace(/[.]?$/, ".")).join(" ");
      }, UNHURRIED);
    }

    function keep() {
      show();
      seambook.folder.keep(seambook.links.fragmentOf(fields, answers));
    }

    function open() {
      const fault = seambook.links.fill(fields, answers, window.location.hash);
      const place = document.getElementById("link_fault");
      if (place) {
        place.hidden = !fault;
        place.textContent = fault;
      }
      show();
    }

    form.addEventListener("submit", (event) => event.preventDefault());
    listen(form, fields, answers, keep);
    window.addEventListener("hashchange", open);
    document.addEventListener("seambook:points", show);
    document.addEventListener("seambook:units", () => {
      seambook.entries.retell(fields);
      seambook.shown.retell(answers);
      show();
    });
    form.querySelectorAll("fieldset").forEach((set) => (set.disabled = false));
    document.querySelectorAll(".no-script").forEach((note) => note.remove());
    open();
  }
})();
