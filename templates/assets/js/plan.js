/**
 * A method's plan on one segment, worked out again: `seambook.plan.work`. Needs answers.js, turns.js, and the scripts of
 * the method and of its calculators; touches no page. The builder's `work/methods.py` and `work/workings.py` mean the same.
 */

/**
 * @typedef {(v: any, F: any) => any} Formula
 * @typedef {{calculator: string, name: string | null, when: Formula | null, isQuiet: boolean, otherwise: string,
 *   show: string[], given: Record<string, Formula | number | string>}} Working
 *   What is given is a formula, a value in base units, or the id of a choice.
 * @typedef {{id: string, fixed: Record<string, number>, plan: Working[], limits: {level: string, holds: Formula}[],
 *   places: {count: Formula, first: Formula, spacing: Formula, order?: Formula} | null}} Method
 * @typedef {{at: number, working: Working, calculator: Calculator, outputs: Record<string, Result>, warnings: Judged[],
 *   fragment: string}} WorkedOut
 * @typedef {{length: number, count: number, first: number, spacing: number, order: number[]}} WeldRow
 *   Lengths in mm; `order` says when each weld is made, counted from 1.
 * @typedef {{worked: WorkedOut[], limits: Array<boolean | null>, row: WeldRow | null}} Plan
 *   A limit that cannot be judged is null.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { NoAnswer, F, settled } = seambook.formula;
  const { exact, fromBase, plain, toFloat } = seambook.numbers;
  const LEFT_OUT = new NoAnswer("it does not apply here");
  const UNKNOWN = new NoAnswer("it is unknown");
  const MILLIMETRE = 0.001;

  /** What formulas may name of a segment. @param {Record<string, any>} facts @param {Method} method */
  function known(facts, method) {
    const values = Object.assign(Object.create(null), facts, method.fixed);
    for (const name of Object.keys(facts)) if (values[name] === null) values[name] = UNKNOWN;
    return values;
  }

  /** @param {Working} working @param {Calculator} calculator @param {Record<string, any>} values */
  function givenOf(working, calculator, values) {
    return Object.fromEntries(Object.entries(working.given).map(([id, given]) => {
      if (typeof given !== "function") return [id, given];
      const found = settled(() => given(values, F));
      const input = calculator.inputs.find((one) => one.id === id);
      const isForeign = found === "unknown" && !(input && input.choices && "unknown" in input.choices);
      return [id, isForeign ? UNKNOWN : found];
    }));
  }

  /** The inputs as the address of the calculator's page carries them.
   * @param {Calculator} calculator @param {string[]} ids @param {Record<string, any>} values */
  function fragmentOf(calculator, ids, values) {
    const parts = calculator.inputs.filter(({ id }) => ids.includes(id)).sort((a, b) => ids.indexOf(a.id) - ids.indexOf(b.id));
    return `in=${parts.flatMap(({ id, units }) => {
      const value = values[id];
      if (value instanceof NoAnswer) return [];
      if (typeof value === "string") return [`${id}:${value}`];
      const unit = units[0];
      return [`${id}:${plain(toFloat(fromBase(exact(value), unit)))}${unit.name ? `~${unit.name}` : ""}`];
    }).join(",")}`;
  }

  /** @param {Working} working @param {Calculator} calculator @param {Record<string, any>} values  In base units, by output. */
  function namedAnswers({ name }, calculator, values) {
    if (!name) return {};
    return Object.fromEntries(calculator.outputs.map(({ id }) => [`${name}_${id}`, id in values ? values[id] : LEFT_OUT]));
  }

  /** What is given and not admitted is no answer. @param {Calculator} calculator @param {Record<string, any>} given */
  function run(calculator, given) {
    const { faults } = seambook.formula.take(calculator, given);
    const lost = Object.entries(faults).map(([id, fault]) => {
      const { message, do: told } = /** @type {Fault} */ (fault);
      return [id, new NoAnswer(`${message}; ${told}`)];
    });
    return seambook.formula.run(calculator, { ...given, ...Object.fromEntries(lost) });
  }

  /**
   * Work a plan out over what is known of a segment, in base units; null is unknown.
   * @param {Method} method @param {Record<string, any>} facts @returns {Plan}
   */
  function work(method, facts) {
    const values = known(facts, method);
    /** @type {WorkedOut[]} */
    const worked = [];
    method.plan.forEach((working, at) => {
      /** @type {Calculator} */
      const calculator = seambook.calculators[working.calculator];
      const when = working.when;
      let named = namedAnswers(working, calculator, {});
      if (!when || settled(() => when(values, F)) !== false) {
        const answer = run(calculator, givenOf(working, calculator, values));
        const fragment = fragmentOf(calculator, Object.keys(working.given), answer.values);
        const warnings = working.isQuiet ? [] : answer.warnings;
        worked.push({ at, working, calculator, outputs: answer.outputs, warnings, fragment });
        named = namedAnswers(working, calculator, answer.values);
      }
      Object.assign(values, named);
    });
    const limits = method.limits.map(({ holds }) => {
      const found = settled(() => holds(values, F));
      return found instanceof NoAnswer ? null : found;
    });
    return { worked: worked.filter(({ working }) => working.show.length), limits, row: rowOf(method, values) };
  }

  /** @param {Method} method @param {Record<string, any>} values @returns {WeldRow | null} */
  function rowOf({ places }, values) {
    if (!places) return null;
    const [count, first, spacing] = [places.count, places.first, places.spacing].map((formula) => settled(() => formula(values, F)));
    const length = values.length;
    if (![count, first, length].every((one) => typeof one === "number") || count < 1) return null;
    if (count > 1 && !(typeof spacing === "number" && spacing)) return null;
    const told = places.order;
    const order = told ? settled(() => told(values, F)) : "";
    const turns = typeof order === "string" ? seambook.turnsOf(order) : [];
    const [along, start, between] = [length, first, typeof spacing === "number" ? spacing : 0].map((one) => millimetres(one));
    const welds = Math.round(count);
    return { length: along, count: welds, first: start, spacing: between, order: turns.length === welds ? turns : [] };
  }

  /** @param {number} base */
  function millimetres(base) {
    return toFloat(fromBase(exact(base), { name: "mm", factor: MILLIMETRE, offset: 0, exact: ["1", "1000", "0", "1"] }));
  }

  seambook.plan = { work };
})();
