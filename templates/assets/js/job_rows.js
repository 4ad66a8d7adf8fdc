/* The planned steps as the views speak of them: whose step, its number, its page, what comes before it. Pure. */

/**
 * @typedef {{id: string, run: string, step: any, title: string, side: string, number: string, href: string, minutes: number,
 *   start: number, end: number, until: number, parts: [number, number][], critical: boolean, waiting: string | null,
 *   done: any, also: string[]}} JobRow
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  const FINDING = "finding";
  /** What names say, by the name: each is asked for at every drawing. @type {Map<string, {run: string, procedure: string, side: string, key: string}>} */
  const runs = new Map();

  /** The procedure and the side in a run or in a step's id. @param {string} id */
  function runOf(id) {
    const known = runs.get(id);
    if (known) return known;
    const [run, key] = id.split("#");
    const [procedure, side] = run.split("@");
    const found = { run, procedure, side: side || "", key: key || "" };
    runs.set(id, found);
    return found;
  }

  /** @param {any} state @param {string} id */
  function runTitle(state, id) {
    const { procedure, side } = runOf(id);
    if (procedure === FINDING) return "Finding";
    const kept = (state.job.runs || []).find((/** @type {any} */ one) => one.procedure === procedure && (one.side || "") === side);
    const title = state.library[procedure]?.title || kept?.title || procedure;
    return side ? `${title}, ${side}` : title;
  }

  /** The page of a step, with its place on it. @param {any} state  `root` leads to the book's own folder. @param {string} id */
  function hrefOf(state, id) {
    const { procedure, key } = runOf(id);
    const path = state.library[procedure]?.path;
    return path ? `${state.root || ""}${path}${key ? `#${key}` : ""}` : "";
  }

  /** All planned steps in the order in which they begin. @param {any} state @returns {JobRow[]} */
  function of(state) {
    const tasks = new Map((state.planned?.problem?.tasks || []).map((/** @type {any} */ task) => [task.id, task]));
    const rows = state.planned?.rows || [];
    const ticks = seambook.jobKept.ticks(state.job, state.planned?.merged?.nodes || rows.map((/** @type {any} */ { node }) => node));
    return rows.map((/** @type {any} */ row) => {
      const { run, side } = runOf(row.id);
      const { step, also } = row.node;
      return {
        id: row.id, run, step, side, title: runTitle(state, row.id), number: String(step.number || ""), href: hrefOf(state, row.id),
        minutes: tasks.get(row.id)?.minutes ?? step.minutes ?? 0,
        start: row.start, end: row.end, until: row.until || row.end, parts: row.parts || [], critical: !!row.critical,
        waiting: row.waiting || null, done: ticks.get(row.id) || null, also: also || [],
      };
    });
  }

  /** A step in a few words: whose it is and its number. @param {any} state @param {string} id */
  function named(state, id) {
    const step = stepOf(state, id);
    if (runOf(id).procedure === FINDING) return "the work of a finding";
    return `${runTitle(state, id)}, step ${step ? step.number : runOf(id).key}`;
  }

  /** @param {any} state @param {string} id */
  function stepOf(state, id) {
    const { procedure, key } = runOf(id);
    const steps = state.library[procedure]?.steps || [];
    return steps.find((/** @type {any} */ step) => step.key === key) || null;
  }

  /** Found before: the same merged steps have the same arcs. @type {WeakMap<any, Map<string, string[]>>} */
  const known = new WeakMap();

  /** What must be done before each step, by id. @param {any} state @returns {Map<string, string[]>} */
  function before(state) {
    const merged = state.planned?.merged;
    const met = merged && known.get(merged);
    if (met) return met;
    const ids = (merged?.nodes || []).map((/** @type {any} */ node) => node.id);
    const idOf = (/** @type {any} */ end) => (typeof end === "number" ? ids[end] : end);
    /** @type {Map<string, string[]>} */
    const found = new Map(ids.map((/** @type {string} */ id) => [id, []]));
    for (const { from, to } of merged?.arcs || []) found.get(idOf(to))?.push(idOf(from));
    if (merged) known.set(merged, found);
    return found;
  }

  seambook.jobRows = { of, runOf, runTitle, hrefOf, named, stepOf, before };
})();
