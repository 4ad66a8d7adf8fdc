/**
 * Every measure of a job with what was found: what it should be, whether it is within, and whether it holds the job. Pure.
 * Needs job_rows.js and job_kept.js.
 */

/**
 * @typedef {"within" | "low" | "high" | "noted" | "missing" | "gone"} Verdict
 * @typedef {{id: string, step: string, run: string, number: string, title: string, side: string, href: string, on: string[], name: string, unit: string, kept: string,
 *   expected: number | null, low: number | null, high: number | null, source: string, found: number | null, by: string, at: string,
 *   gauge: string, verdict: Verdict, off: number, released: any, holds: boolean}} AsBuiltRow
 * @typedef {{name: string, unit: string, side: string, rows: AsBuiltRow[], change: number | null}} BeforeAndAfter
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** How a reading stands to its limits. @param {number | null | undefined} found @param {number | null | undefined} low @param {number | null | undefined} high
   * @returns {{verdict: Verdict, off: number}}  `off` is how far beyond the nearer limit, with its sign. */
  function judge(found, low, high) {
    if (typeof found !== "number" || !Number.isFinite(found)) return { verdict: "missing", off: 0 };
    if (typeof low === "number" && found < low) return { verdict: "low", off: rounded(found - low) };
    if (typeof high === "number" && found > high) return { verdict: "high", off: rounded(found - high) };
    return { verdict: typeof low === "number" || typeof high === "number" ? "within" : "noted", off: 0 };
  }

  /** Differences of decimal readings without the tail that binary fractions leave. @param {number} value */
  function rounded(value) {
    return Number(value.toFixed(6));
  }

  /** The steps of a job in the order of its plan; without a plan, as its procedures have them. @param {any} state */
  function steps(state) {
    const nodes = state.planned?.merged?.nodes;
    if (nodes?.length) return nodes.map((/** @type {any} */ node) => ({ id: node.id, step: node.step, also: node.also || [] }));
    return (state.job.runs || []).flatMap((/** @type {any} */ run) =>
      (state.library[run.procedure]?.steps || []).map((/** @type {any} */ step) => ({ id: `${run.procedure}@${run.side || ""}#${step.key}`, step, also: [] })));
  }

  /** What is measured at one step. @param {any} state @param {{id: string, step: any, also?: string[]}} row @returns {AsBuiltRow[]} */
  function ofStep(state, { id, step, also }) {
    const { readings = {} } = state.job;
    return (step.measures || []).map((/** @type {any} */ measure) => {
      const key = seambook.jobKept.keyOf(readings, { id, also }, `/${measure.name}`);
      return rowOf(state, id, step, measure, key, readings[key] || {});
    });
  }

  /** @param {any} state @returns {AsBuiltRow[]} */
  function rows(state) {
    const { readings = {} } = state.job;
    const found = steps(state).flatMap((/** @type {any} */ row) => ofStep(state, row));
    const known = new Set(found.map((/** @type {AsBuiltRow} */ { id }) => id));
    const gone = Object.keys(readings).filter((key) => !known.has(key)).map((key) => goneRow(state, key, readings[key]));
    return [...found, ...gone];
  }

  /** @param {any} state @param {string} id @param {any} step @param {any} measure @param {string} key @param {any} reading @returns {AsBuiltRow} */
  function rowOf(state, id, step, measure, key, reading) {
    const { run, side } = seambook.jobRows.runOf(id);
    const [low, high] = [measure.low ?? null, measure.high ?? null];
    const { verdict, off } = judge(reading.found, low, high);
    const isOut = verdict === "low" || verdict === "high";
    return {
      id: key, step: id, run, number: String(step.number || ""), title: seambook.jobRows.runTitle(state, id), side, href: seambook.jobRows.hrefOf(state, id),
      on: step.on || [], name: measure.name, unit: measure.say || measure.unit, kept: measure.unit, expected: low !== null && high !== null ? rounded((low + high) / 2) : null, low, high,
      source: measure.source || "", found: verdict === "missing" ? null : reading.found, by: reading.by || "", at: reading.at || "", gauge: reading.gauge || "",
      verdict, off, released: isOut ? reading.released || null : null, holds: isOut && !reading.released,
    };
  }

  /** A reading that the present book has no measure for: it stays, and judges nothing. @param {any} state @param {string} key @param {any} reading @returns {AsBuiltRow} */
  function goneRow(state, key, reading) {
    const at = key.indexOf("/");
    const [id, name] = at < 0 ? [key, key] : [key.slice(0, at), key.slice(at + 1)];
    const { run, side, key: step } = seambook.jobRows.runOf(id);
    return {
      id: key, step: id, run, number: step, title: seambook.jobRows.runTitle(state, id), side, href: "", on: [], name, unit: reading.unit || "", kept: reading.unit || "", expected: null,
      low: null, high: null, source: "", found: reading.found ?? null, by: reading.by || "", at: reading.at || "", gauge: reading.gauge || "", verdict: "gone",
      off: 0, released: null, holds: false,
    };
  }

  /** The same measure of the same thing at different steps, first to last, with how far it has moved.
   * What has one limit alone, as a thickness or a dew point, has no place that it could move from. @param {AsBuiltRow[]} all @returns {BeforeAndAfter[]} */
  function beforeAndAfter(all) {
    /** @type {BeforeAndAfter[]} */
    const groups = [];
    for (const row of all.filter(({ verdict, expected }) => verdict !== "gone" && expected !== null)) {
      const same = groups.find((group) =>
        group.name === row.name && group.unit === row.unit && group.side === row.side &&
        group.rows.some((other) => other.step !== row.step && other.on.some((one) => row.on.includes(one))));
      if (same) same.rows.push(row);
      else groups.push({ name: row.name, unit: row.unit, side: row.side, rows: [row], change: null });
    }
    return groups.filter((group) => group.rows.length > 1).map((group) => {
      const read = group.rows.filter(({ found }) => found !== null);
      const [first, last] = [read[0], read[read.length - 1]];
      const change = read.length > 1 ? rounded(Number(last.found) - Number(first.found)) : null;
      return { ...group, change };
    });
  }

  /** How many of each verdict. @param {AsBuiltRow[]} all */
  function counts(all) {
    const count = (/** @type {(row: AsBuiltRow) => boolean} */ test) => all.filter(test).length;
    return {
      all: all.length, entered: count(({ found }) => found !== null), out: count(({ off }) => off !== 0),
      holding: count(({ holds }) => holds), missing: count(({ verdict }) => verdict === "missing"),
    };
  }

  seambook.asBuilt = { judge, rows, ofStep, beforeAndAfter, counts };
})();
