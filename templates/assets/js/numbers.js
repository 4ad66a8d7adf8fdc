/**
 * Numbers as people write and read them, exactly: fractions of whole numbers from text, and text from floats. Units
 * are factors and offsets as fractions. The builder's `formula/numbers.py` and `formula/units.py` mean the same.
 */

/**
 * @typedef {{n: bigint, d: bigint}} Ratio  An exact fraction; d is above nothing.
 * @typedef {{name: string, factor: number, offset: number, exact: string[]}} Unit
 *   A value in the unit becomes base units by value * factor + offset; `exact` holds both as whole-number fractions.
 */

(function () {
  "use strict";

  const page = /** @type {any} */ (window);
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  const FIGURES = 6;
  const LONGEST = 40;

  /** @param {bigint} n @param {bigint} d @returns {Ratio} */
  function ratio(n, d) {
    return d < 0n ? { n: -n, d: -d } : { n: n, d: d };
  }

  /** @param {bigint} n */
  function magnitude(n) {
    return n < 0n ? -n : n;
  }

  /** Read a decimal that has no spaces. @param {string} text @returns {Ratio} */
  function decimal(text) {
    const parts = text.toLowerCase().split("e");
    const digits = parts[0].split(".");
    const behind = digits[1] || "";
    const power = Number(parts[1] || 0) - behind.length;
    const whole = BigInt((digits[0] + behind).replace(/^[+-]/, "") || "0");
    const n = text.charAt(0) === "-" ? -whole : whole;
    return power < 0 ? { n: n, d: 10n ** BigInt(-power) } : { n: n * 10n ** BigInt(power), d: 1n };
  }

  /** The shortest decimal that reads back as this float. @param {number} value */
  function exact(value) {
    return decimal(String(value));
  }

  /**
   * Round once: forty figures and, where more follow, one that breaks every tie; the engine rounds the rest rightly.
   * @param {Ratio} value
   */
  function toFloat(value) {
    const size = magnitude(value.n);
    const shift = LONGEST - (String(size).length - String(value.d).length);
    const n = shift > 0 ? size * 10n ** BigInt(shift) : size;
    const d = shift > 0 ? value.d : value.d * 10n ** BigInt(-shift);
    const figures = String(n / d) + (n % d === 0n ? "0" : "1");
    return Number((value.n < 0n ? "-" : "") + figures + "e" + (-shift - 1)) + 0;
  }

  /** @param {Ratio} value @param {Unit} unit @returns {Ratio} */
  function toBase(value, unit) {
    const [fn, fd, on, od] = unit.exact.map(BigInt);
    return ratio(value.n * fn * od + on * value.d * fd, value.d * fd * od);
  }

  /** @param {Ratio} base @param {Unit} unit @returns {Ratio} */
  function fromBase(base, unit) {
    const [fn, fd, on, od] = unit.exact.map(BigInt);
    return ratio((base.n * od - on * base.d) * fd, base.d * od * fn);
  }

  /**
   * Write with so many decimal places, halves away from zero; below 0 it is rounded to tens.
   * @param {number} value @param {number} digits
   */
  function fixed(value, digits) {
    const of = exact(value);
    const n = magnitude(of.n) * 10n ** BigInt(Math.max(0, digits));
    const d = of.d * 10n ** BigInt(Math.max(0, -digits));
    const whole = (2n * n + d) / (2n * d);
    const text = String(whole).padStart(digits + 1, "0");
    const sign = value < 0 && whole > 0n ? "-" : "";
    if (digits < 0 && whole > 0n) return sign + text + "0".repeat(-digits);
    return sign + (digits > 0 ? text.slice(0, -digits) + "." + text.slice(-digits) : text);
  }

  /**
   * Write so many significant figures, no trailing zeros; figures before the point all stand.
   * @param {number} value @param {number} [figures]
   */
  function plain(value, figures) {
    if (!Number.isFinite(value)) {
      return "too large a number";
    }
    const of = exact(value);
    const size = magnitude(of.n);
    let before = -FIGURES;
    while (before < 0 ? size * 10n ** BigInt(-before) >= of.d : size >= of.d * 10n ** BigInt(before)) {
      before += 1;
    }
    const text = fixed(value, Math.max(0, (figures || FIGURES) - before));
    return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
  }

  const WRITTEN = new RegExp(
    "^([+-]?(?:[0-9]+[ ]+)?[0-9]+/[0-9]+" +
      "|[+-]?(?:[0-9]+(?:[.,][0-9]+)*[.,]?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3}(?![0-9]))?)" +
      "[ ]*(|[^ 0-9.,/+-].*|1/.*)$"
  );
  const DECIMAL = /^[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?$/;
  const FRACTION = /^([+-]?)(?:([0-9]+)[ ]+)?([0-9]+)\/([0-9]+)$/;
  const THOUSANDS = /^[+-]?[1-9][0-9]{0,2}(?:,[0-9]{3})+$/;

  /** Read a decimal or a fraction; what is wrong where that fails. @param {string} text @returns {Ratio | string} */
  function readNumber(text) {
    if (text.length > LONGEST) {
      return "a number has at most " + LONGEST + " characters";
    }
    if (THOUSANDS.test(text)) {
      return "the comma could part thousands or decimals; write the number with a point or without a comma";
    }
    if (DECIMAL.test(text)) {
      return decimal(text.replace(",", "."));
    }
    const found = FRACTION.exec(text);
    if (!found) {
      return "this is not a number";
    }
    const below = BigInt(found[4]);
    if (below === 0n) {
      return "a fraction cannot have 0 below its line";
    }
    const above = BigInt(found[2] || "0") * below + BigInt(found[3]);
    return ratio(found[1] === "-" ? -above : above, below);
  }

  /** Read `12.5`, `12,5`, `3/16 inch`, `1 3/16 inch`, `20degC`. @param {string} text */
  function readWritten(text) {
    if (text.length > 2 * LONGEST) {
      return "this is too long for a number and a unit";
    }
    const found = WRITTEN.exec(text.replace(/\u2212/g, "-").replace(/[ \t\u00a0\u2009\u202f]+/g, " ").trim());
    if (!found) {
      return "this is not a number with a unit";
    }
    const number = readNumber(found[1]);
    return typeof number === "string" ? number : { number: number, unit: found[2].trim() };
  }

  seambook.numbers = {
    exact: exact,
    fixed: fixed,
    fromBase: fromBase,
    plain: plain,
    readWritten: readWritten,
    toBase: toBase,
    toFloat: toFloat,
  };
})();
