/**
 * A length in mm as readers see it, in both systems of units. Needs numbers.js and units.js. The builder's
 * `view/lengths.py` says the same.
 */

/**
 * @typedef {{text: string, other: string}} BothSaid  What is shown now, and in the other system; the same where it is one.
 * @typedef {{unit: Unit, sign: string, digits: number, other?: {unit: Unit, sign: string, digits: number,
 *   isFirst: boolean}}} LengthData
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { numbers, units } = seambook;

  /** @param {string} number @param {string} sign @param {boolean} isBare */
  function told(number, sign, isBare) {
    return isBare ? number : `${number}\u00a0${sign}`;
  }

  /** @param {LengthData} data @param {number} millimetres @param {boolean} [isBare] @returns {BothSaid} */
  function say(data, millimetres, isBare) {
    const own = told(numbers.fixed(millimetres, data.digits).replace(/\.0+$/, ""), data.sign, !!isBare);
    if (!data.other) return { text: own, other: own };
    const inOther = numbers.fromBase(numbers.toBase(numbers.exact(millimetres), data.unit), data.other.unit);
    const number = millimetres ? numbers.fixed(numbers.toFloat(inOther), data.other.digits) : "0";
    const other = told(number, data.other.sign, !!isBare);
    const isSwapped = data.other.isFirst !== (units.system() !== units.first);
    return isSwapped ? { text: other, other: own } : { text: own, other };
  }

  /** @param {...(string | BothSaid)} parts @returns {BothSaid} */
  function join(...parts) {
    const all = parts.map((part) => (typeof part === "string" ? { text: part, other: part } : part));
    return { text: all.map(({ text }) => text).join(""), other: all.map(({ other }) => other).join("") };
  }

  /** The unit alone. @param {LengthData} data @returns {BothSaid} */
  function unitOf({ sign, other }) {
    if (!other) return { text: sign, other: sign };
    const isSwapped = other.isFirst !== (units.system() !== units.first);
    return isSwapped ? { text: other.sign, other: sign } : { text: sign, other: other.sign };
  }

  seambook.lengths = { say, join, unitOf };
})();
