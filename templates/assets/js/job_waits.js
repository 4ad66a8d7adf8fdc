/**
 * How long a wait takes at the shop's temperature, worked out by the book's own calculators (planning.yaml says which).
 * Least times to the careful side, and a window never longer than written. Needs answers.js and these calculators.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const HOUR = 60;
  const SECONDS = 60;
  const NO_TIME = { least: null, most: null };

  /** @param {number} minutes */
  function hours(minutes) {
    return `${minutes / HOUR} h`;
  }

  /** @param {any} answer @param {string} name minutes, or null where there is no answer */
  function minutesOf(answer, name) {
    const value = answer.values[name];
    return typeof value === "number" && Number.isFinite(value) ? value / SECONDS : null;
  }

  /**
   * @param {{least: number, most?: number, at?: number}} wait minutes as written @param {any} curing of planning
   * @param {number} temperature of the shop, degC
   * @returns {{least: number | null, most: number | null}} nothing where it does not cure at this temperature
   */
  function atShop(wait, curing, temperature) {
    const given = {
      shop_temperature: `${temperature} degC`, least_temperature: `${curing.least_temperature} degC`,
      sheet_temperature: `${wait.at === undefined ? curing.sheet_temperature : wait.at} degC`,
    };
    if (wait.most) {
      const answer = seambook.formula.run(seambook.calculators[curing.window],
        { ...given, applied_ago: "0 h", least: hours(wait.least), most: hours(wait.most) });
      const least = minutesOf(answer, curing.window_least);
      const most = minutesOf(answer, curing.window_most);
      return least === null || most === null || least > most ? NO_TIME : { least: Math.ceil(least - 1e-6), most: Math.floor(most + 1e-6) };
    }
    const answer = seambook.formula.run(seambook.calculators[curing.cure],
      { ...given, sheet_time: hours(wait.least), factor: String(curing.factor) });
    const least = minutesOf(answer, curing.cure_answer);
    return least === null ? NO_TIME : { least: Math.max(wait.least, Math.ceil(least - 1e-6)), most: null };
  }

  /** A step's wait as it is planned. @param {any} step @param {any} planning @param {number} temperature */
  function waitOf(step, planning, temperature) {
    if (!step.wait) return { wait: null, isCold: false };
    const { least, most, attended } = step.wait;
    if (!step.cures || !planning) return { wait: { least, most: most || null, attended: !!attended }, isCold: false };
    const found = atShop(step.wait, planning.curing, temperature);
    if (found.least === null) return { wait: { least, most: most || null, attended: !!attended }, isCold: true };
    return { wait: { ...found, attended: !!attended }, isCold: false };
  }

  seambook.jobWaits = { atShop, waitOf };
})();
