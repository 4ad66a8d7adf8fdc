/**
 * A calculator's form: works out as one types, explains a bad entry beside its field, opens with the values that a
 * link's `#in=length:1060~mm,...` carries. Needs formula.js, answers.js, entries.js and the calculator's own script;
 * what else of the page goes with the answer hears of it by the event "seambook:answer".
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

  /** @param {string} hash @returns {Record<string, string>} inputs as text, by id; empty where the hash is another */
  function readFragment(hash) {
    /** @type {Record<string, string>} */
    const given = {};
    if (hash.indexOf("#in=") !== 0) return given;
    for (const part of hash.slice(4).split(",")) {
      const colon = part.indexOf(":");
      if (colon < 1) continue;
      try {
        given[part.slice(0, colon)] = decodeURIComponent(part.slice(colon + 1)).replace(/~/g, " ");
      } catch {
        /* A broken escape: that input keeps what stands in its field. */
      }
    }
    return given;
  }

  /** @param {Record<string, string | undefined>} given */
  function writeFragment(given) {
    const parts = Object.keys(given)
      .filter((id) => given[id] !== undefined)
      .map((id) => `${id}:${encodeURIComponent(String(given[id]).trim().replace(/ /g, "~"))}`);
    return `#in=${parts.join(",")}`;
  }

  /** @param {Fault} fault @param {Entry} entry */
  function explain(fault, { id, field, input, isOther }) {
    const own = input ? input.admits : "";
    const told = isOther && input?.other ? fault.do.replace(own, input.other.admits || own) : fault.do;
    if (!field.value.trim()) return `Nothing is written here: ${told}.`;
    const message = fault.message.replace(`${id}: `, "");
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

  /** @param {Entry[]} entries @param {Record<string, string>} given */
  function fillFields(entries, given) {
    for (const entry of entries) {
      const text = given[entry.id];
      if (text !== undefined) seambook.entries.tell(entry, text, true);
    }
  }

  /** @param {Entry[]} entries @param {Record<string, Fault>} faults */
  function showEntries(entries, faults) {
    for (const entry of entries) {
      const { id, field, sign } = entry;
      const place = document.getElementById(`ask_${id}-fault`);
      const fault = faults[id];
      if (sign && field instanceof HTMLInputElement) sign.hidden = seambook.entries.hasOwnUnit(field.value);
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

  /** @param {HTMLElement} place @param {Output} output @param {Result | undefined} result */
  function showAnswer(place, output, result) {
    place.textContent = "";
    if (!result) {
      place.append("–");
    } else if (result.value === null) {
      place.append("no answer");
      if (result.why) place.append(" ", element(result.why, "note"));
    } else {
      const text = seambook.entries.isShown(output.other) ? seambook.formula.inOther(output, result) : result.text;
      place.append(text + (typeof result.value === "number" ? seambook.units.signOf(place) : ""));
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

  /** @param {HTMLFormElement} form @param {HTMLElement} list @param {HTMLElement} spoken @param {Calculator} calculator */
  function start(form, list, spoken, calculator) {
    /** @type {Entry[]} */
    const fields = seambook.entries.entriesOf(form, calculator);
    const answers = calculator.outputs.flatMap((output) => {
      const place = document.getElementById(`answer_${output.id}`);
      return place ? [{ output, place }] : [];
    });
    let timer = 0;

    function show() {
      const given = readFields(fields);
      const answer = (seambook.measuring || seambook.formula).run(calculator, given);
      showEntries(fields, answer.faults);
      for (const { output, place } of answers) showAnswer(place, output, answer.outputs[output.id]);
      const items = cautionItems(answer.warnings);
      list.replaceChildren(...items);
      document.dispatchEvent(new CustomEvent("seambook:answer", { detail: { calculator, answer } }));
      window.clearTimeout(timer);
      timer = window.setTimeout(() => {
        const said = answers.map(({ output, place }) => `${output.say} ${place.textContent}`);
        const cautions = items.map((item) => item.textContent);
        const faults = Object.keys(answer.faults).length ? ["An entry cannot be used."] : [];
        const parts = [...faults, ...(faults.length ? [] : said), ...cautions];
        spoken.textContent = parts.map((part) => (part || "").replace(/[.]?$/, ".")).join(" ");
      }, UNHURRIED);
      return given;
    }

    function keep() {
      const given = show();
      try {
        window.history.replaceState(null, "", writeFragment(given));
      } catch {
        /* Refused where the page is opened from some apps; the form works without. */
      }
    }

    function open() {
      fillFields(fields, readFragment(window.location.hash));
      show();
    }

    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", keep);
    window.addEventListener("hashchange", open);
    document.addEventListener("seambook:points", show);
    document.addEventListener("seambook:units", () => {
      seambook.entries.retell(fields);
      show();
    });
    form.querySelectorAll("fieldset").forEach((set) => (set.disabled = false));
    document.querySelectorAll(".no-script").forEach((note) => note.remove());
    open();
  }
})();
