/**
 * The way to the answers: beside each formula what it gives, and of each decision the row that holds, as one types.
 * Hears of an answer by "seambook:answered". Needs numbers.js, formula.js and units.js. What a value is shown with is said
 * by the builder's `formula/step_units.py`.
 */

(function () {
  "use strict";

  const FIGURES = 5;
  const TRUTHS = { true: "yes", false: "no" };
  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook || {};

  /**
   * @param {Calculator} calculator @param {Step} step @param {any} value
   * @returns {{text: string, isNumber: boolean, why: string}}
   */
  function said(calculator, step, value) {
    const { shown } = step;
    if (value === undefined) return { text: "–", isNumber: false, why: "" };
    if (value instanceof seambook.formula.NoAnswer) return { text: "no answer", isNumber: false, why: value.why };
    if (typeof value === "boolean") return { text: TRUTHS[value ? "true" : "false"], isNumber: false, why: "" };
    if (typeof value === "string" || !shown) return { text: labelOf(calculator, value), isNumber: false, why: "" };
    const number = seambook.numbers.toFloat(seambook.numbers.fromBase(seambook.numbers.exact(value), shown.unit));
    if (!Number.isFinite(number)) return { text: "no answer", isNumber: false, why: "the number is too large" };
    return { text: written(shown, number), isNumber: true, why: "" };
  }

  /** A number of the record's own unit in the unit that is shown. @param {Shown} shown @param {number} number */
  function written(shown, number) {
    const isOther = !!shown.other && shown.other.system === seambook.units.system();
    const { fixed, plain } = seambook.numbers;
    if (shown.digits === null) return plain(isOther ? convert(shown, number) : number, FIGURES);
    if (!isOther || !shown.other) return fixed(number, shown.digits);
    return seambook.formula.told(number, shown.unit, shown.other.unit, shown.other.digits);
  }

  /** @param {Shown} shown @param {number} number */
  function convert({ unit, other }, number) {
    const { exact, fromBase, toBase, toFloat } = seambook.numbers;
    return toFloat(fromBase(toBase(exact(number), unit), /** @type {Other} */ (other).unit));
  }

  /** An id has one meaning within a calculator. @param {Calculator} calculator @param {string} id */
  function labelOf(calculator, id) {
    const input = calculator.inputs.find(({ choices }) => choices && Object.prototype.hasOwnProperty.call(choices, id));
    return input && input.choices ? input.choices[id] : id;
  }

  /** @param {HTMLElement} place @param {{text: string, isNumber: boolean, why: string}} found */
  function put(place, { text, isNumber, why }) {
    place.textContent = text + (isNumber ? seambook.units.signOf(place) : "");
    if (!why) return;
    const note = document.createElement("span");
    note.className = "note";
    note.textContent = why;
    place.append(" ", note);
  }

  /** @param {string} name @param {number | undefined} won */
  function mark(name, won) {
    document.querySelectorAll(`#rows_${name} > li`).forEach((row, at) => {
      row.classList.toggle("won", at === won);
      const word = row.querySelector("strong");
      if (word) word.hidden = at !== won;
    });
  }

  document.addEventListener("seambook:answered", (event) => {
    const { calculator, answer } = /** @type {CustomEvent} */ (event).detail;
    for (const step of calculator.steps) {
      const place = document.getElementById(`step_${step.name}`);
      if (step.decide) mark(step.name, answer.rows[step.name]);
      if (!place) continue;
      place.hidden = !!step.decide && answer.rows[step.name] !== undefined;
      put(place, said(calculator, step, answer.values[step.name]));
    }
  });
})();
