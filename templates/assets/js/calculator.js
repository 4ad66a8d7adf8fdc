/**
 * A calculator's form: works out as one types, explains a bad entry beside its field, opens with the values that a
 * link's `#in=length:1060~mm,...` carries. Needs formula.js, answers.js and the calculator's own script.
 */

(function () {
  "use strict";

  const NO_BREAK = "\u00a0";
  const LEVELS = [
    { level: "stop", word: "Stop" },
    { level: "care", word: "Take care" },
    { level: "note", word: "Note" },
  ];
  const UNHURRIED = 700;

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

  /** What stands behind a printed number. @param {string} printed @param {string} number @param {string} unit */
  function signOf(printed, number, unit) {
    if (number && printed.indexOf(number) === 0) return printed.slice(number.length);
    return unit ? NO_BREAK + unit : "";
  }

  /** @param {Fault} fault @param {string} id @param {string} given */
  function explain(fault, id, given) {
    if (!given.trim()) return `Nothing is written here: ${fault.do}.`;
    const message = fault.message.replace(`${id}: `, "");
    return `${message}; ${fault.do}.`;
  }

  /** Whether an entry brings its own unit, as `68 degF` does. @param {string} text */
  function hasOwnUnit(text) {
    return /[a-z%\u00b0\u00b5\u03a9]/i.test(text.replace(/[0-9.][eE][+-]?[0-9]/, ""));
  }

  // On the page.

  /** @param {HTMLFormElement} form */
  function fieldsOf(form) {
    /** @type {Array<{id: string, field: HTMLInputElement | HTMLSelectElement, isOptional: boolean}>} */
    const fields = [];
    form.querySelectorAll(".ask").forEach((ask) => {
      const field = ask.querySelector("input, select");
      if (!(ask instanceof HTMLElement)) return;
      if (!(field instanceof HTMLInputElement || field instanceof HTMLSelectElement)) return;
      fields.push({ id: ask.dataset.input || "", field, isOptional: "optional" in ask.dataset });
    });
    return fields;
  }

  /** @param {ReturnType<typeof fieldsOf>} fields */
  function readFields(fields) {
    /** @type {Record<string, string | undefined>} */
    const given = {};
    for (const { id, field, isOptional } of fields) {
      given[id] = isOptional && !field.value.trim() ? undefined : field.value;
    }
    return given;
  }

  /** @param {ReturnType<typeof fieldsOf>} fields @param {Record<string, string>} given */
  function fillFields(fields, given) {
    for (const { id, field } of fields) {
      const text = given[id];
      if (text === undefined) continue;
      if (field instanceof HTMLInputElement) field.value = text;
      else if (Array.from(field.options).some((option) => option.value === text)) field.value = text;
    }
  }

  /** @param {ReturnType<typeof fieldsOf>} fields @param {Record<string, Fault>} faults */
  function showEntries(fields, faults) {
    for (const { id, field } of fields) {
      const place = document.getElementById(`ask_${id}-fault`);
      const unit = document.getElementById(`ask_${id}-unit`);
      const fault = faults[id];
      if (unit && field instanceof HTMLInputElement) unit.hidden = hasOwnUnit(field.value);
      if (fault) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
      if (!place) continue;
      place.hidden = !fault;
      place.textContent = fault ? explain(fault, id, field.value) : "";
    }
  }

  /** @param {string} text @param {string} [style] @param {string} [tag] */
  function element(text, style, tag) {
    const made = document.createElement(tag || "span");
    if (style) made.className = style;
    made.textContent = text;
    return made;
  }

  /** @param {HTMLElement} place @param {Result | undefined} result @param {string} sign */
  function showAnswer(place, result, sign) {
    place.textContent = "";
    if (!result) {
      place.append("–");
    } else if (result.value === null) {
      place.append("no answer");
      if (result.why) place.append(" ", element(result.why, "note"));
    } else {
      place.append(result.text + (typeof result.value === "number" ? sign : ""));
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
  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};
  if (!(form instanceof HTMLFormElement) || !list || !spoken || !seambook.formula) return;
  /** @type {Calculator | undefined} */
  const calculator = (seambook.calculators || {})[form.dataset.calculator || ""];
  if (!calculator) return;
  start(form, list, spoken, calculator);

  /** @param {HTMLFormElement} form @param {HTMLElement} list @param {HTMLElement} spoken @param {Calculator} calculator */
  function start(form, list, spoken, calculator) {
    const fields = fieldsOf(form);
    const first = seambook.formula.run(calculator, readFields(fields)).outputs;
    const answers = calculator.outputs.flatMap((output) => {
      const place = document.getElementById(`answer_${output.id}`);
      if (!place) return [];
      const unit = output.unit ? output.unit.name : "";
      const printed = (place.firstChild && place.firstChild.textContent) || "";
      return [{ id: output.id, say: output.say, place, sign: signOf(printed, first[output.id]?.text || "", unit) }];
    });
    let timer = 0;

    function show() {
      const given = readFields(fields);
      const answer = seambook.formula.run(calculator, given);
      showEntries(fields, answer.faults);
      for (const { id, place, sign } of answers) showAnswer(place, answer.outputs[id], sign);
      const items = cautionItems(answer.warnings);
      list.replaceChildren(...items);
      window.clearTimeout(timer);
      timer = window.setTimeout(() => {
        const said = answers.map(({ say, place }) => `${say} ${place.textContent}`);
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
    form.querySelectorAll("fieldset").forEach((set) => (set.disabled = false));
    document.querySelectorAll(".no-script").forEach((note) => note.remove());
    open();
  }
})();
