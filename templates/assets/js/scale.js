/**
 * Round numbers that divide a range. Needs numbers.js. The builder's `formula/ticks.py` means the same.
 */

/**
 * @typedef {{lead: number, power: number, first: number, last: number}} Ticks
 *   Every multiple of a step from the first to the last; the step is lead * 10 ** power, exactly.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const ROUND = [1, 2, 5];
  const SLACK = 1e-9;

  /** @param {number} power */
  function ten(power) {
    return Number(`1e${power}`);
  }

  /** @param {Ticks} ticks @param {number} at */
  function value(ticks, at) {
    const whole = at * ticks.lead;
    return ticks.power >= 0 ? whole * ten(ticks.power) : whole / ten(-ticks.power);
  }

  /** @param {Ticks} ticks @returns {number[]} */
  function values(ticks) {
    const found = [];
    for (let at = ticks.first; at <= ticks.last; at += 1) found.push(value(ticks, at));
    return found;
  }

  /** @param {Ticks} ticks @returns {string[]} */
  function texts(ticks) {
    return values(ticks).map((one) => seambook.numbers.fixed(one, Math.max(0, -ticks.power)));
  }

  /** The smallest round step that is no less. @param {number} least @returns {[number, number]} */
  function step(least) {
    let power = 0;
    while (ten(power + 1) <= least) power += 1;
    while (ten(power) > least) power -= 1;
    const lead = ROUND.find((one) => value({ lead: one, power, first: 0, last: 0 }, 1) >= least);
    return lead === undefined ? [1, power + 1] : [lead, power];
  }

  /** @param {number} low @param {number} high @param {number} divisions @returns {Ticks} */
  function around(low, high, divisions) {
    const room = low < high ? 0 : Math.abs(low) / 10 || 1;
    const [start, end] = [low - room, high + room];
    const [lead, power] = step((end - start) / divisions);
    const size = value({ lead, power, first: 0, last: 0 }, 1);
    return { lead, power, first: Math.floor(start / size + SLACK), last: Math.ceil(end / size - SLACK) };
  }

  /** @param {number} low @param {number} high @param {number} divisions @returns {Ticks} */
  function within(low, high, divisions) {
    const [lead, power] = step((high - low) / divisions);
    const size = value({ lead, power, first: 0, last: 0 }, 1);
    return { lead, power, first: Math.ceil(low / size - SLACK), last: Math.floor(high / size + SLACK) };
  }

  seambook.scale = { around, within, value, values, texts };
})();
