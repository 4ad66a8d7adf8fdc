/**
 * Questions of the sort "work": what does a calculator give for these numbers? Right is what the calculator's own program
 * gives. A number may be off by half of the last digit that the calculator shows, which its rounding hides, or by 1 %,
 * whichever is more; what is counted may not be off at all. A decision is asked for by its own rows. Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{calculator: Calculator, output: Output, given: Given, run: any, system: string, href: string}} Worked
   */

  const SHARE = 0.01;
  const OTHERS = 3;
  const TRIES = 12;
  const DRAWS = 24;
  /** Answers behind these are by-products. */
  const FIRST = 3;
  const FIGURES = 5;
  const MOST_STEPS = 5;

  /** @param {any} lesson @param {Chance} chance @param {string} system */
  function make(lesson, chance, system) {
    const all = lesson.questions.calculators.filter((/** @type {any} */ { id }) => isFit((seambook.calculators || {})[id]));
    for (let n = 0; n < TRIES && all.length; n += 1) {
      const { id, from } = chance.pick(all);
      const calculator = seambook.calculators[id];
      const outputs = calculator.outputs.filter((/** @type {Output} */ output) => isNumber(output) || answersOf(calculator, output).length > 1);
      if (!outputs.length) continue;
      const found = of(calculator, chance.pick(outputs.slice(0, FIRST)), from || {}, chance, system);
      if (found) return found;
    }
    return null;
  }

  /** Calculators that work on a table of measured points are asked for on their own pages. @param {Calculator | undefined} calculator */
  function isFit(calculator) {
    return !!calculator && !calculator.points;
  }

  /** @param {Output} output */
  function isNumber({ unit, labels }) {
    return !!unit && !Object.keys(labels).length;
  }

  /** What an output may say, where it is no number: the rows of its decision, or its labels. @param {Calculator} calculator @param {Output} output @returns {{id: string, text: string, because: string}[]} */
  function answersOf({ steps }, { id, labels }) {
    const step = steps.find(({ name }) => name === id);
    const rows = ((step && step.decide) || []).map(({ answer, say, because }) => ({ id: answer, text: say, because }));
    const all = rows.length ? rows : Object.entries(labels).map(([value, text]) => ({ id: value, text, because: "" }));
    return [...new Map(all.map((one) => [one.text, one])).values()];
  }

  /** @param {Calculator} calculator @param {Output} output @param {Bounds} bounds @param {Chance} chance @param {string} system */
  function of(calculator, output, bounds, chance, system) {
    const answers = isNumber(output) ? [] : answersOf(calculator, output);
    const wanted = answers.length ? chance.pick(answers).text : "";
    const found = worked(calculator, output, bounds, wanted, chance, system);
    if (!found) return null;
    return answers.length ? choosing(found, answers, chance) : counting(found);
  }

  /** Numbers that the calculator takes, without what it would stop for, or with the answer that is wanted; else the last that it takes. @param {Calculator} calculator @param {Output} output @param {Bounds} bounds @param {string} wanted @param {Chance} chance @param {string} system @returns {Worked | null} */
  function worked(calculator, output, bounds, wanted, chance, system) {
    /** @type {Worked | null} */
    let last = null;
    for (let n = 0; n < DRAWS; n += 1) {
      const given = seambook.questionNumbers.draw(calculator, bounds, chance, system, !!wanted);
      const run = given && seambook.formula.run(calculator, given);
      if (!run || !isAnswered(run, output, calculator)) continue;
      const href = `calculators/${calculator.id}.html${seambook.links.write(Object.entries(given))}`;
      last = { calculator, output, given, run, system, href };
      const isStopped = run.warnings.some((/** @type {any} */ { level, holds }) => level === "stop" && holds !== false);
      if (wanted ? run.outputs[output.id].text === wanted : !isStopped) break;
    }
    return last;
  }

  /** Whether there is an answer that is worth asking for: not nothing, and none of the numbers given. @param {any} run @param {Output} output @param {Calculator} calculator */
  function isAnswered(run, output, calculator) {
    const found = run.outputs[output.id];
    if (!found || found.value === null) return false;
    if (!isNumber(output)) return true;
    const base = run.values[output.id];
    return Number(found.text) !== 0 && !calculator.inputs.some(({ id }) => run.values[id] === base);
  }

  /** @param {Worked} worked */
  function question({ calculator, output, given, system, href }) {
    const shown = calculator.inputs.filter(({ id, otherwise }) => otherwise === null || !(Number(given[id]) <= 0));
    return {
      id: `work:${calculator.id}:${output.id}:${calculator.inputs.map(({ id }) => given[id]).join(",")}`, sort: "work",
      of: { text: calculator.title, href: `calculators/${calculator.id}.html`, calculator: calculator.id, output: output.id },
      given, system, worked: href,
      items: shown.map((input) => ({ id: input.id, text: itemOf(input, given[input.id]) })),
      words: seambook.questionSteps.wordsOf([output.say, ...shown.map(({ ask }) => ask)]),
    };
  }

  /** What is given, with what the calculator's page says beside its field. @param {Input} input @param {string} text */
  function itemOf({ ask, help, ...input }, text) {
    const told = `${ask}${ask.endsWith("?") ? "" : ":"} ${seambook.questionNumbers.told(input, text)}`;
    return help ? `${told} (${help.replace(/\.$/, "")})` : told;
  }

  /** Where the answer is a number. @param {Worked} worked */
  function counting(worked) {
    const { output, run, system } = worked;
    const field = fieldOf(output, system);
    const right = numberIn(run.values[output.id], field.unit);
    return {
      ...question(worked), form: "number", ask: `Work out: ${output.say}`, note: "By hand, or with the calculator of this book.",
      field: { unit: field.unit.name, sign: seambook.questionNumbers.signOf(field.unit.name), digits: field.digits },
      right, off: offBy(output, right, field.digits),
      explain: { whole: [rightTold(worked, right, field), stepsTold(worked)].filter(({ text }) => text) },
    };
  }

  /** In which unit, and with how many digits, an output is told to a reader of this system. @param {Output} output @param {string} system @returns {{unit: Unit, digits: number}} */
  function fieldOf({ unit, digits, other }, system) {
    if (other && other.system === system) return { unit: other.unit, digits: other.digits ?? digits };
    return { unit: /** @type {Unit} */ (unit), digits };
  }

  /** @param {number} base @param {Unit} unit */
  function numberIn(base, unit) {
    const { exact, fromBase, toFloat } = seambook.numbers;
    return toFloat(fromBase(exact(base), unit));
  }

  /** By how much an answer may be off. @param {Output} output @param {number} right @param {number} digits */
  function offBy({ unit }, right, digits) {
    const isCount = !!unit && unit.name === "" && digits === 0;
    return isCount ? 0 : Math.max(0.5 * 10 ** -digits, SHARE * Math.abs(right));
  }

  /** @param {Worked} worked @param {number} right @param {{unit: Unit, digits: number}} field @returns {Told} */
  function rightTold({ output, href }, right, { unit, digits }) {
    return { text: `${output.say}: ${seambook.questionNumbers.withSign(seambook.numbers.fixed(right, digits), unit.name)}`, href };
  }

  /** What the calculator works out on the way. @param {Worked} worked @returns {Told} */
  function stepsTold({ calculator, output, run, system, href }) {
    const until = calculator.steps.findIndex(({ name }) => name === output.id);
    const told = calculator.steps.slice(0, until + 1).flatMap(({ name, shown }) => {
      const value = run.values[name];
      if (!shown || typeof value !== "number" || isFlag(value, shown)) return [];
      const other = shown.other && shown.other.system === system ? shown.other : null;
      const unit = other ? other.unit : shown.unit;
      const digits = other ? other.digits : shown.digits;
      const number = numberIn(value, unit);
      const text = digits === null || digits === undefined ? seambook.numbers.plain(number, FIGURES) : seambook.numbers.fixed(number, digits);
      return [`${name.replace(/_/g, " ")} ${seambook.questionNumbers.withSign(text, unit.name)}`];
    });
    return { text: told.length > 1 ? `Worked out on the way: ${told.slice(-MOST_STEPS).join("; ")}` : "", href };
  }

  /** What only says yes or no on the way. @param {number} value @param {Shown} shown */
  function isFlag(value, { unit }) {
    return unit.name === "" && (value === 0 || value === 1);
  }

  /** Where the answer is one of several texts. @param {Worked} worked @param {{id: string, text: string, because: string}[]} answers @param {Chance} chance */
  function choosing(worked, answers, chance) {
    const { output, run } = worked;
    const found = run.outputs[output.id];
    const right = answers.find(({ text }) => text === found.text);
    if (!right) return null;
    const shown = chance.shuffle([right, ...chance.some(answers.filter((one) => one !== right), OTHERS)]);
    const told = [{ text: [`${output.say}: ${right.text}`, right.because].filter(Boolean).join(" "), href: worked.href }, stepsTold(worked)].filter(({ text }) => text);
    return {
      ...question(worked), form: "answer", ask: `${output.say}: which answer is right?`, note: "By hand, or with the calculator of this book.",
      choices: shown.map(({ id, text }) => ({ id, text })), right: right.id,
      explain: Object.fromEntries(shown.map((one) => [one.id, one === right ? told : [elsewhere(one), ...told]])),
    };
  }

  /** @param {{text: string, because: string}} answer @returns {Told} */
  function elsewhere({ text, because }) {
    return { text: because ? `“${text}” is the answer to other numbers: ${because}` : `“${text}” is the answer to other numbers` };
  }

  /** @param {any} question @param {string} answer @returns {{ok: boolean, unread?: boolean, say: Told[]}} */
  function judge(question, answer) {
    const { calculators, numbers } = seambook;
    const output = calculators[question.of.calculator].outputs.find((/** @type {Output} */ one) => one.id === question.of.output);
    const field = fieldOf(output, question.system);
    const written = numbers.readWritten(withName(answer, [field.unit, ...output.units]));
    if (typeof written === "string") return { ok: false, unread: true, say: [{ text: `Write a number: ${written}.` }] };
    const unit = written.unit ? output.units.find((/** @type {Unit} */ { name }) => name === written.unit) : field.unit;
    if (!unit) return { ok: false, unread: true, say: [{ text: `Write the number alone: the unit “${written.unit}” is not used here.` }] };
    const value = numbers.toFloat(numbers.fromBase(numbers.toBase(written.number, unit), field.unit));
    const ok = Math.abs(value - question.right) <= question.off + 1e-9 * Math.max(1, Math.abs(question.right));
    return { ok, say: ok ? [] : question.explain.whole };
  }

  /** What was typed, with a unit's name in place of its sign. @param {string} text @param {Unit[]} units */
  function withName(text, units) {
    const typed = text.trim();
    const found = units.find(({ name }) => {
      const sign = seambook.questionNumbers.signOf(name);
      return sign && sign !== name && typed.endsWith(sign);
    });
    return found ? `${typed.slice(0, -seambook.questionNumbers.signOf(found.name).length)} ${found.name}` : typed;
  }

  seambook.questionWork = { make, judge };
})();
