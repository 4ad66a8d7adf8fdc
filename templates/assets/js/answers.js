/**
 * Answers a calculator: from what is given, as text, its outputs and warnings. `seambook.formula.run` is the entry
 * point. Needs numbers.js and formula.js; touches no page. The builder's `formula/run.py` means the same.
 */

/**
 * @typedef {{id: string, ask: string, unit: string, units: Offered[], choices: Record<string, string> | null,
 *   start: string | null, otherwise: string | null, low: number | null, high: number | null, whole: boolean,
 *   oneOf: number[], admits: string, help: string | null, other: Other | null}} Input
 *   The first of `units` is the author's own. `otherwise` is taken where nothing is given. Limits are in base units.
 *   `other` is what stands for the unit in the other system of units.
 * @typedef {Unit & {admits?: string, digits?: number}} Offered
 *   A unit that a reader may choose: with what is admitted in it, or with how many decimal places it is shown.
 * @typedef {{system: string, unit: Unit, admits?: string, digits?: number}} Other
 * @typedef {(v: any, F: any, t: any) => any} Work
 * @typedef {{holds: Work | null, answer: string, say: string, because: string}} Branch
 * @typedef {{name: string, work?: Work, decide?: Branch[], shown: Shown | null}} Step
 * @typedef {{unit: Unit, digits: number | null, other: Other | null}} Shown
 *   How a step's number is shown; without digits, with as many as five figures need.
 * @typedef {{id: string, say: string, unit: Unit | null, digits: number, labels: Record<string, string>,
 *   units: Offered[], other: Other | null}} Output
 * @typedef {{level: string, say: string, holds: Work}} Warning
 * @typedef {{id: string, title: string, inputs: Input[], fixed: Record<string, number>, tables: Record<string, Table>,
 *   steps: Step[], outputs: Output[], warnings: Warning[], charts: ChartData[], sketch: SketchData | null,
 *   points?: PointTable}} Calculator
 * @typedef {{value: number | string}} Taken  A value in base units, or the id of a choice.
 * @typedef {{message: string, do: string}} Fault
 * @typedef {{value: number | string | null, unit: string, text: string, why: string | null, because: string | null}} Result
 * @typedef {{level: string, say: string, holds: boolean | null, why: string | null}} Judged
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const formula = seambook.formula;
  const numbers = seambook.numbers;
  const LEAST_FIGURES = 4;
  const MOST_FIGURES = 6;

  /** @param {Input} input @param {string} given @param {string} why @param {string} [instead] @returns {Fault} */
  function refused(input, given, why, instead) {
    return { message: input.id + ': "' + given + '" ' + why, do: instead || "write " + input.admits };
  }

  /**
   * Read what is given for one input: a number alone (then in the author's unit), a number with one of the offered
   * units, or the id of a choice.
   * @param {Input} input @param {string} given @returns {Taken | Fault}
   */
  function read(input, given) {
    if (input.choices) {
      return Object.prototype.hasOwnProperty.call(input.choices, given)
        ? { value: given }
        : refused(input, given, "is none of the choices");
    }
    const written = numbers.readWritten(given);
    if (typeof written === "string") {
      return refused(input, given, "cannot be used: " + written);
    }
    const unit = input.units.find((offered) => offered.name === (written.unit || input.unit));
    if (!unit) {
      const names = input.units.map((offered) => offered.name).filter(Boolean).join(", ");
      const why = 'cannot be used: the unit "' + written.unit + '" is not offered here';
      return refused(input, given, why, names ? "write one of " + names : "write the number alone");
    }
    const base = numbers.toBase(written.number, unit);
    const value = numbers.toFloat(base);
    const own = numbers.fromBase(base, input.units[0]);
    if (!Number.isFinite(value) || !Number.isFinite(numbers.toFloat(own))) {
      return refused(input, given, "cannot be used: the number is too large");
    }
    const why = misfit(input, value, own);
    return why ? refused(input, given, why) : { value: value };
  }

  /** Take a value in base units. @param {Input} input @param {number} value @returns {Taken | Fault} */
  function readBase(input, value) {
    const unit = input.units[0];
    const number = numbers.toFloat(numbers.fromBase(numbers.exact(value), unit));
    if (!Number.isFinite(number)) return refused(input, "", "cannot be used: the number is too large");
    const why = misfit(input, value, numbers.exact(number));
    return why ? refused(input, `${numbers.plain(number)} ${unit.name}`.trim(), why) : { value: value };
  }

  /** @param {Input} input @param {number} value @param {Ratio} own @returns {string | null} */
  function misfit(input, value, own) {
    if (input.low !== null && value < input.low) {
      return "is too small";
    }
    if (input.high !== null && value > input.high) {
      return "is too large";
    }
    if (input.whole && !isWhole(own)) {
      return "is not a whole number";
    }
    if (input.oneOf.length && !input.oneOf.some((admitted) => formula.isSame(value, admitted))) {
      return "is not admitted";
    }
    return null;
  }

  /** @param {Ratio} own */
  function isWhole(own) {
    const size = own.n < 0n ? -own.n : own.n;
    const rest = size % own.d;
    const away = 2n * rest > own.d ? own.d - rest : rest;
    const whole = (size + own.d / 2n) / own.d;
    return away * 1000000000n <= own.d * (whole > 1n ? whole : 1n);
  }

  /** @param {Output} output @param {any} value @param {Branch | undefined} branch @returns {Result} */
  function result(output, value, branch) {
    const unit = output.unit ? output.unit.name : "";
    if (value instanceof formula.NoAnswer) {
      return { value: null, unit: unit, text: "", why: value.why, because: null };
    }
    if (typeof value === "string" || !output.unit) {
      const label = Object.prototype.hasOwnProperty.call(output.labels, value) ? output.labels[value] : value;
      const text = branch ? branch.say : label;
      return { value: value, unit: "", text: text, why: null, because: branch ? branch.because : null };
    }
    const number = numbers.toFloat(numbers.fromBase(numbers.exact(value), output.unit));
    if (!Number.isFinite(number)) {
      return { value: null, unit: unit, text: "", why: "the number is too large", because: null };
    }
    const told = output.labels[numbers.plain(number)];
    const text = told === undefined ? numbers.fixed(number, output.digits) : told;
    return { value: number, unit: unit, text: text, why: null, because: null };
  }

  /** What a fit would give where there are no points. @param {Calculator} calculator @returns {Record<string, any>} */
  function unmeasured({ points }) {
    const names = points ? [...points.counts, ...points.lengths] : [];
    return Object.fromEntries(names.map((name) => [name, new formula.NoAnswer("no points were given")]));
  }

  /** What is given is text, or a value in base units, or no answer.
   * @param {Calculator} calculator @param {Record<string, any>} given @param {Record<string, any>} [measured] */
  function take(calculator, given, measured) {
    const values = Object.assign(Object.create(null), calculator.fixed, measured || unmeasured(calculator));
    /** @type {Record<string, Fault>} */
    const faults = {};
    for (const input of calculator.inputs) {
      const own = Object.prototype.hasOwnProperty.call(given, input.id) ? given[input.id] : undefined;
      const text = own === undefined ? input.otherwise : own;
      if (text instanceof formula.NoAnswer) {
        values[input.id] = text;
        continue;
      }
      const taken =
        text === null
          ? { message: input.id + " is missing: " + input.ask, do: "give " + input.admits }
          : typeof text === "number" ? readBase(input, text) : read(input, text);
      if ("value" in taken) {
        values[input.id] = taken.value;
      } else {
        faults[input.id] = taken;
      }
    }
    return { values: values, faults: faults };
  }

  /** @param {Step} step @param {any} values @param {any} tables @param {Record<string, Branch>} branches */
  function workStep(step, values, tables, branches) {
    const F = formula.F;
    if (step.work) {
      return step.work(values, F, tables);
    }
    for (const branch of step.decide || []) {
      if (!branch.holds || branch.holds(values, F, tables)) {
        branches[step.name] = branch;
        return branch.answer;
      }
    }
    return null;
  }

  /** @param {Calculator} calculator @param {any} values  Grows by what every formula gives. */
  function workAll(calculator, values) {
    /** @type {Record<string, Branch>} */
    const branches = {};
    for (const step of calculator.steps) {
      values[step.name] = formula.settled(() => workStep(step, values, calculator.tables, branches));
    }
    return branches;
  }

  /**
   * Work an answer's values out again with another value, in base units, of one input that admits it.
   * @param {Calculator} calculator @param {Record<string, any>} values @param {string} name @param {number} value
   * @returns {Record<string, any>}
   */
  function rework(calculator, values, name, value) {
    const again = Object.assign(Object.create(null), values, { [name]: value });
    workAll(calculator, again);
    return again;
  }

  /**
   * Answer a calculator. Where an input is at fault, `faults` holds it by id, and there are no outputs.
   * @param {Calculator} calculator @param {Record<string, any>} given
   * @param {Record<string, any>} [measured]  In base units what a fit of points gives to formulas.
   * @returns {{outputs: Record<string, Result>, warnings: Judged[], faults: Record<string, Fault>,
   *   values: Record<string, any>, rows: Record<string, number>}}
   *   `rows` says of each decision that has an answer which of its rows gave it, counted from 0.
   */
  function run(calculator, given, measured) {
    const { values, faults } = take(calculator, given, measured);
    if (Object.keys(faults).length) {
      return { outputs: {}, warnings: [], faults: faults, values: {}, rows: {} };
    }
    const branches = workAll(calculator, values);
    /** @type {Record<string, Result>} */
    const outputs = {};
    for (const output of calculator.outputs) {
      outputs[output.id] = result(output, values[output.id], branches[output.id]);
    }
    const warnings = calculator.warnings.map((warning) => {
      const holds = formula.settled(() => warning.holds(values, formula.F, calculator.tables));
      return holds instanceof formula.NoAnswer
        ? { level: warning.level, say: warning.say, holds: null, why: holds.why }
        : { level: warning.level, say: warning.say, holds: holds, why: null };
    });
    /** @type {Record<string, number>} */
    const rows = {};
    for (const { name, decide } of calculator.steps) {
      if (decide && branches[name]) rows[name] = decide.indexOf(branches[name]);
    }
    return { outputs: outputs, warnings: warnings, faults: faults, values: values, rows: rows };
  }

  /**
   * Tell a field's text in another of its units, as a number alone; null where it cannot be told.
   * A number that stands in that unit already is left as it was written.
   * @param {Input} input @param {string} given @param {string} unitName @returns {string | null}
   */
  function convert(input, given, unitName) {
    const written = numbers.readWritten(given);
    const unit = input.units.find((offered) => offered.name === unitName);
    const own = input.units.find((offered) => offered.name === (written.unit || input.unit));
    if (typeof written === "string" || !unit || !own) {
      return null;
    }
    if (own === unit) {
      const text = given.trim();
      return written.unit ? text.slice(0, text.lastIndexOf(written.unit)).trim() : text;
    }
    const number = numbers.toFloat(numbers.fromBase(numbers.toBase(written.number, own), unit));
    return numbers.plain(Number(number.toPrecision(figures(given))));
  }

  /** How many figures of an entry are told in another unit. @param {string} given */
  function figures(given) {
    const digits = given.replace(/[^0-9.,]/g, "").replace(/^[0.,]+/, "").replace(/[.,]/g, "");
    return Math.min(MOST_FIGURES, Math.max(LEAST_FIGURES, digits.length));
  }

  /**
   * Tell a number in another unit of its kind. It is rounded once, from what was worked out; nothing at all has no last
   * digit that could be lost, and stays 0.
   * @param {number} number @param {Unit} own @param {Unit} unit @param {number} digits
   */
  function told(number, own, unit, digits) {
    if (number === 0 && !own.offset && !unit.offset) {
      return "0";
    }
    return numbers.fixed(numbers.toFloat(numbers.fromBase(numbers.toBase(numbers.exact(number), own), unit)), digits);
  }

  Object.assign(formula, { run: run, read: read, convert: convert, told: told, take: take, rework: rework });
})();
