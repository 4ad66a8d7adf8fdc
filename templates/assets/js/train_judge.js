/**
 * A practical test: numbers drawn for it, and the calculator's judgement of what was measured or worked out by hand. Touches
 * no page. Needs numbers.js, formula.js, answers.js.
 */
(function () {
  "use strict";

  /** @typedef {any} Test */
  /** @typedef {{output: string, say: string, found: string, wanted: string, ok: boolean, note: string}} Row */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const [OFFSET, PRIME] = [0x811c9dc5, 0x01000193];

  /** A text's number: FNV-1a with 32 bits (Fowler, Noll and Vo, from memory), its upper half mixed into the lower. @param {string} text @returns {number} */
  function numberOf(text) {
    let hash = OFFSET;
    for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, PRIME);
    return (hash ^ (hash >>> 15)) >>> 0;
  }

  /** What is given in a test; where there are several values, the sheet's number says which. @param {Test} test @param {string} seed @returns {Record<string, string>} */
  function draw(test, seed) {
    const entries = /** @type {[string, string[]][]} */ (Object.entries(test.given || {}));
    return Object.fromEntries(entries.map(([input, values]) => {
      const all = [values].flat();
      return [input, String(all[numberOf(`${seed}/${test.key}/${input}`) % all.length])];
    }));
  }

  /** Numbers for a try that differ from those of the last one, where there are others. @param {Test} test @param {() => string} next @param {string} before @returns {string} */
  function freshSeed(test, next, before) {
    const last = before ? JSON.stringify(draw(test, before)) : "";
    let seed = next();
    for (let tries = 0; tries < 20 && JSON.stringify(draw(test, seed)) === last; tries += 1) seed = next();
    return seed;
  }

  /** @param {any} calculator @param {string} id */
  function inputOf(calculator, id) {
    return calculator.inputs.find((/** @type {any} */ one) => one.id === id);
  }

  /** @param {any} calculator @param {string} id */
  function outputOf(calculator, id) {
    return calculator.outputs.find((/** @type {any} */ one) => one.id === id);
  }

  /** What somebody worked out, in base units; a bare number stands in the output's own unit. @param {any} output @param {string} typed @returns {number | string} what is wrong, where it is none */
  function own(output, typed) {
    if (!typed.trim()) return "Nothing is written here.";
    const written = seambook.numbers.readWritten(typed);
    if (typeof written === "string") return `“${typed.trim()}” cannot be used: ${written}.`;
    const units = [output.unit, ...(output.units || [])].filter(Boolean);
    const unit = units.find((/** @type {any} */ one) => one.name === (written.unit || output.unit.name));
    if (!unit) return `The unit “${written.unit}” is not one of ${units.map((/** @type {any} */ one) => one.name).filter(Boolean).join(", ") || "this answer's: write the number alone"}.`;
    return seambook.numbers.toFloat(seambook.numbers.toBase(written.number, unit));
  }

  /** @param {any} result */
  function told(result) {
    return result.value === null ? `no answer${result.why ? `: ${result.why}` : ""}` : `${result.text}${result.unit ? ` ${result.unit}` : ""}`;
  }

  /** Whether an output says what a test asks for. @param {any} result @param {string} answer */
  function says(result, answer) {
    if (result.value === null) return false;
    const plain = typeof result.value === "number" ? seambook.numbers.plain(result.value) : result.value;
    return [plain, result.text].includes(String(answer));
  }

  /** The words for an answer that a test asks for. @param {any} calculator @param {string} output @param {string} answer */
  function answerWords(calculator, output, answer) {
    const step = calculator.steps.find((/** @type {any} */ one) => one.name === output);
    const branch = step && (step.decide || []).find((/** @type {any} */ one) => one.answer === answer);
    const { labels, unit } = outputOf(calculator, output);
    return branch ? branch.say : labels?.[answer] || `${answer}${unit?.name ? ` ${unit.name}` : ""}`;
  }

  /** @param {Test} test @param {any} calculator @param {any} answer @returns {Row[]} */
  function judged(test, calculator, answer) {
    return Object.entries(test.passes || {}).map(([output, wanted]) => {
      const result = answer.outputs[output];
      const { say } = outputOf(calculator, output);
      return { output, say, found: told(result), wanted: answerWords(calculator, output, wanted), ok: says(result, wanted), note: result.because || "" };
    });
  }

  /** How far an answer may be off, in words. @param {string} text @param {number} tolerance */
  function within(text, tolerance) {
    return tolerance > 0 ? `within ${text}` : "exactly";
  }

  /** @param {Test} test @param {any} calculator @param {any} answer @param {Record<string, string>} typed @param {Record<string, string>} faults @returns {Row[]} */
  function compared(test, calculator, answer, typed, faults) {
    return Object.entries(test.compare || {}).flatMap(([id, { text, tolerance }]) => {
      const output = outputOf(calculator, id);
      const value = own(output, typed[id] || "");
      if (typeof value === "string") {
        faults[id] = value;
        return [];
      }
      const worked = answer.values[id];
      const ok = typeof worked === "number" && Math.abs(value - worked) <= tolerance * (1 + 1e-9);
      const found = `${typed[id].trim()}${/[a-z\u00b0%]/i.test(typed[id]) ? "" : ` ${output.unit.name}`}`.trim();
      return [{ output: id, say: output.say, found, wanted: `${told(answer.outputs[id])}, ${within(text, tolerance)}`, ok, note: "" }];
    });
  }

  /** What is wrong with an entry, in words. @param {any} calculator @param {string} id @param {{message: string, do: string}} fault */
  function explain(calculator, id, fault) {
    const said = fault.message.replace(`${id}: `, "").replace(`${id} is missing: `, "Missing: ");
    return `${said}; ${fault.do || `write ${inputOf(calculator, id).admits}`}.`;
  }

  /**
   * Judge what was measured and worked out. Where something cannot be used, `faults` says so by input or output, and nothing is judged.
   * @param {Test} test @param {any} calculator @param {{given: Record<string, string>, measured: Record<string, string>, own: Record<string, string>}} typed
   * @returns {{faults: Record<string, string>, rows: Row[], warnings: any[], ok: boolean}}
   */
  function judge(test, calculator, typed) {
    /** @type {Record<string, string>} */
    const faults = {};
    for (const { input } of test.measured || []) if (!(typed.measured[input] || "").trim()) faults[input] = "Nothing is written here.";
    const answer = seambook.formula.run(calculator, { ...typed.given, ...typed.measured });
    for (const [id, fault] of Object.entries(answer.faults)) faults[id] = faults[id] || explain(calculator, id, /** @type {any} */ (fault));
    const isWorked = !Object.keys(answer.faults).length;
    const rows = isWorked ? [...judged(test, calculator, answer), ...compared(test, calculator, answer, typed.own, faults)] : [];
    const isUsable = !Object.keys(faults).length;
    const warnings = isUsable ? answer.warnings.filter((/** @type {any} */ one) => one.holds) : [];
    return { faults, rows: isUsable ? rows : [], warnings, ok: isUsable && rows.length > 0 && rows.every((one) => one.ok) };
  }

  seambook.trainJudge = { draw, freshSeed, judge, inputOf, outputOf, told, within };
})();
