/**
 * Fresh numbers for a calculator: near the values that its record starts with, or within the bounds that a lesson sets,
 * as round as people measure. Needs answers.js. Pure.
 */

/**
 * @typedef {Record<string, [number, number]>} Bounds  Of inputs, in their own units.
 * @typedef {Record<string, string>} Given  Of inputs, as text.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** What is drawn lies between these parts of the starting value; further apart where an answer is sought. */
  const CLOSE = [0.6, 1.5];
  const WIDE = [0.25, 2.5];
  /** So many values, about, there are to be drawn from. */
  const GRID = 50;
  const LEAST = 2;
  const LEAST_MEASURED = 5;
  /** A starting value with more decimals than this belongs to the matter, such as how much steel grows, and not to the job. */
  const FEW_DECIMALS = 2;

  /** @param {Calculator} calculator @param {Bounds} bounds @param {Chance} chance @param {string} system @param {boolean} [isWide] @returns {Given | null} */
  function draw(calculator, bounds, chance, system, isWide) {
    /** @type {Given} */
    const given = {};
    for (const input of calculator.inputs) {
      const text = drawn(input, bounds[input.id], chance, !!isWide);
      if (text === null) return null;
      given[input.id] = inSystem(input, text, system);
    }
    return given;
  }

  /** What need not be given stays as it is; where an answer is sought it may be chosen otherwise. @param {Input} input @param {[number, number] | undefined} bound @param {Chance} chance @param {boolean} isWide */
  function drawn(input, bound, chance, isWide) {
    const start = input.start === null ? input.otherwise : input.start;
    const isChosen = !!input.choices && isWide;
    if (!bound && input.otherwise !== null && !isChosen) return start;
    if (input.choices) return chance.pick(Object.keys(input.choices));
    if (input.oneOf.length) return written(input, plainOf(input, chance.pick(input.oneOf)));
    const value = start === null ? NaN : Number(start.replace(",", "."));
    if (!bound && !Number.isFinite(value)) return null;
    const parts = isWide ? WIDE : CLOSE;
    const ends = bound || [value * parts[0], value * parts[1]].sort((one, other) => one - other);
    const places = decimals(bound ? bound.map(String) : [String(start)]);
    if (!bound && (value === 0 || places > FEW_DECIMALS)) return start;
    return written(input, onGrid(input, ends, places, chance));
  }

  /** @param {Input} input @param {string} number */
  function written(input, number) {
    return `${number} ${input.unit}`.trim();
  }

  /** @param {Input} input @param {number} base */
  function plainOf(input, base) {
    const { exact, fromBase, plain, toFloat } = seambook.numbers;
    return plain(toFloat(fromBase(exact(base), input.units[0])));
  }

  /** @param {string[]} texts */
  function decimals(texts) {
    return Math.max(...texts.map((text) => (text.split(".")[1] || "").length));
  }

  /** A value between two ends, as round as it can be with about so many to draw from. @param {Input} input @param {number[]} ends @param {number} places @param {Chance} chance */
  function onGrid(input, [low, high], places, chance) {
    const few = input.unit ? LEAST_MEASURED : LEAST;
    const digits = input.whole || (high - low) * 10 ** places >= few || high === low ? places : places + 1;
    const least = 10 ** -(input.whole ? 0 : digits);
    const step = Math.max(least, rounded((high - low) / GRID));
    const from = Math.ceil(low / step - 1e-9);
    const until = Math.floor(high / step + 1e-9);
    const number = until < from ? low : (from + chance.below(until - from + 1)) * step;
    return seambook.numbers.plain(Number(number.toFixed(Math.max(0, digits))));
  }

  /** The next of 1, 2, 5, 10 above, at any power of ten. @param {number} width */
  function rounded(width) {
    if (!(width > 0)) return 0;
    const power = 10 ** Math.floor(Math.log10(width));
    return (([1, 2, 5, 10].find((one) => one * power >= width * (1 - 1e-9)) || 10) * power);
  }

  /** What is given as a reader of this system of units measures it. @param {Input} input @param {string} text @param {string} system */
  function inSystem(input, text, system) {
    const other = input.other && input.other.system === system ? input.other.unit.name : "";
    const number = other ? seambook.formula.convert(input, text, other) : null;
    return number === null ? text : `${number} ${other}`;
  }

  const RAISED = /** @type {Record<string, string>} */ ({ "-": "⁻", 0: "⁰", 1: "¹", 2: "²", 3: "³", 4: "⁴", 5: "⁵", 6: "⁶", 7: "⁷", 8: "⁸", 9: "⁹" });

  /** A unit's sign, as the builder's `model/signs.py` makes it. @param {string} name */
  function signOf(name) {
    const { signs } = seambook.training;
    const words = name.replace(/[A-Za-z_]+/g, (word) => signs[word] || word);
    return words.replace(/\*\*(-?\d+)/g, (_, power) => power.replace(/./g, (/** @type {string} */ one) => RAISED[one])).replace(/\*/g, "·");
  }

  /** A number with its sign. @param {string} number @param {string} name of the unit */
  function withSign(number, name) {
    const sign = signOf(name);
    return sign === "" || sign === "°" ? `${number}${sign}` : `${number}\u00a0${sign}`;
  }

  /** What is given for an input, in words. @param {Input} input @param {string} text */
  function told(input, text) {
    if (input.choices) return input.choices[text] || text;
    const written = seambook.numbers.readWritten(text);
    return typeof written === "string" ? text : withSign(text.slice(0, text.length - written.unit.length).trim(), written.unit || input.unit);
  }

  seambook.questionNumbers = { draw, told, withSign, signOf };
})();
