/**
 * The answers of a calculator, each in a unit of its own: the one its reader chose for it, else the one that stands for
 * the record's in the system shown. Needs entries.js.
 */

/**
 * @typedef {{output: Output, place: HTMLElement, choice: HTMLSelectElement | null, unit: string, isSet: boolean}} ShownAnswer
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;

  /** @param {Calculator} calculator @returns {ShownAnswer[]} */
  function answersOf(calculator) {
    return calculator.outputs.flatMap((output) => {
      const place = document.getElementById(`answer_${output.id}`);
      const choice = document.getElementById(`answer_${output.id}-unit`);
      if (!place) return [];
      const select = choice instanceof HTMLSelectElement ? choice : null;
      if (select && select.parentElement) select.parentElement.hidden = false;
      place.classList.toggle("has-choice", !!select);
      const answer = { output, place, choice: select, unit: "", isSet: false };
      retell([answer]);
      return [answer];
    });
  }

  /** @param {ShownAnswer} answer */
  function unitOfSystem({ output }) {
    if (!output.unit) return "";
    return output.other && seambook.entries.isShown(output.other) ? output.other.unit.name : output.unit.name;
  }

  /** After the units of the book were switched. @param {ShownAnswer[]} answers */
  function retell(answers) {
    for (const answer of answers) {
      if (!answer.isSet) answer.unit = unitOfSystem(answer);
      if (answer.choice) answer.choice.value = answer.unit;
    }
  }

  /** Show an answer in a unit that is offered. @param {ShownAnswer} answer @param {string} unit @returns {boolean} */
  function take(answer, unit) {
    if (!answer.output.units.some((one) => one.name === unit)) return false;
    answer.unit = unit;
    answer.isSet = unit !== unitOfSystem(answer);
    if (answer.choice) answer.choice.value = unit;
    return true;
  }

  /** The unit as it is shown. @param {ShownAnswer} answer @returns {Offered | null} */
  function offeredOf({ output, unit }) {
    return output.units.find((one) => one.name === unit) || null;
  }

  /** What stands behind a number, its blank included. @param {ShownAnswer} answer */
  function behind({ choice, place }) {
    const option = choice && choice.selectedOptions[0];
    return option ? withBlank(option.textContent || "") : place.dataset.sign || "";
  }

  /** @param {string} sign */
  function withBlank(sign) {
    return sign === "" || sign === "°" ? sign : `\u00a0${sign}`;
  }

  /** An answer's number in the unit shown, rounded once from what was worked out.
   * @param {ShownAnswer} answer @param {Result} found */
  function textOf(answer, found) {
    const offered = offeredOf(answer);
    if (!answer.output.unit || !offered || offered.name === answer.output.unit.name || typeof found.value !== "number") {
      return found.text;
    }
    return seambook.formula.told(found.value, answer.output.unit, offered, offered.digits);
  }

  seambook.shown = { answersOf, retell, take, offeredOf, behind, withBlank, textOf };
})();
