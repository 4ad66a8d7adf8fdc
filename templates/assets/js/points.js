/**
 * Answers a calculator that works on points: `seambook.points.run` is the entry point. Needs answers.js, point_rows.js
 * and point_fit.js; touches no page. The builder's `formula/points/answers.py` means the same.
 */

/** @typedef {Calculator & {points: PointTable}} PointCalculator */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { exact, toBase, fromBase, toFloat, fixed } = seambook.numbers;

  /** Lengths in base units, as formulas take them. @param {PointTable} table @param {Record<string, number>} facts */
  function inBase(table, facts) {
    /** @type {Record<string, number>} */
    const based = {};
    for (const name of Object.keys(facts)) {
      const value = facts[name];
      based[name] = table.lengths.includes(name) ? toFloat(toBase(exact(value), table.unit)) : value;
    }
    return based;
  }

  /**
   * Fit the points, then work the calculator out. Where an input is at fault the answer says so; where no fit can be
   * made every output has no answer, and says why.
   * @param {PointCalculator} calculator @param {MeasuredPoint[]} points @param {Record<string, string | undefined>} given
   */
  function run(calculator, points, given) {
    const table = calculator.points;
    const input = calculator.inputs.find((one) => one.id === table.tolerance);
    const text = given[table.tolerance] === undefined ? input?.otherwise : given[table.tolerance];
    const taken = input && typeof text === "string" ? seambook.formula.read(input, text) : {};
    if (!("value" in taken)) return { answer: seambook.formula.run(calculator, given), fitted: null };
    const tolerance = toFloat(fromBase(exact(taken.value), table.unit));
    const fitted = seambook.pointFit.compare(points, tolerance, table.leastBreadth, table.mirror);
    if (!fitted.refused) return { answer: seambook.formula.run(calculator, given, inBase(table, fitted.facts)), fitted };
    const why = new seambook.formula.NoAnswer(table.refuse[fitted.refused]);
    const nothing = Object.fromEntries([...table.counts, ...table.lengths].map((name) => [name, why]));
    const answer = seambook.formula.run(calculator, given, nothing);
    return { answer: Object.assign(answer, { warnings: [] }), fitted };
  }

  /** @param {PointTable} table @param {Deviation} row @param {(value: number) => string} shown  Writes a length. */
  function verdict(table, row, shown) {
    const said = table.verdicts;
    const word = row.isBeyond ? said.beyond : said.within;
    if (!row.isDoubtful) return word;
    const why = `${said.alone} ${shown(row.alone || 0)}, ${said.rest} ${shown(row.rest || 0)}`;
    return `${word}. ${said.doubtful}: ${why}.${row.isFirst ? ` ${said.first}` : ""}`;
  }

  /** A length of the table alone, in its own or in the other unit.
   * @param {PointTable} table @param {number} value @param {boolean} isOther */
  function lengthText(table, value, isOther) {
    if (!isOther || !table.other) return fixed(value, table.digits);
    const other = toFloat(fromBase(toBase(exact(value), table.unit), table.other.unit));
    return fixed(other, table.other.digits);
  }

  seambook.points = { run, verdict, lengthText };
})();
