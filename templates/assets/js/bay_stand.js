/**
 * Where the work of a job stands: what may be done now, what holds the rest and until when. Pure but for the clock that it is
 * handed. Needs job_rows.js, job_ticks.js and, for waits at the shop's temperature, job_waits.js.
 */

/**
 * @typedef {{rows: JobRow[], at: Map<string, number>, states: Map<string, any>, holds: JobRow[], readings: AsBuiltRow[],
 *   count: number, isSketch: boolean}} Stand
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const MINUTE = 60000;

  /** Waits worked out before: the same step at the same temperature waits as long. @type {WeakMap<any, {temperature: number, least: number}>} */
  const known = new WeakMap();

  /** The least time that must pass after a step, in minutes. @param {any} state @param {any} step @returns {number} */
  function leastOf(state, step) {
    if (!step.wait) return 0;
    const { jobWaits } = seambook;
    const { temperature } = state.job.climate;
    if (!jobWaits) return step.wait.least;
    const before = known.get(step);
    if (before && before.temperature === temperature) return before.least;
    const { least } = jobWaits.waitOf(step, state.book.planning, temperature).wait;
    known.set(step, { temperature, least });
    return least;
  }

  /** The waits that keep a step, by what it comes after. A tick that this device's clock has not reached tells nothing of how long
   * ago it was. @param {any} state @param {Map<string, JobRow>} byId @param {number} now @returns {Map<string, {id: string, until: number}[]>} */
  function waits(state, byId, now) {
    const { nodes = [], arcs = [] } = state.planned?.merged || {};
    /** @type {Map<string, {id: string, until: number}[]>} */
    const found = new Map();
    for (const { from, to, lag } of arcs) {
      const row = lag ? byId.get(nodes[from]?.id) : null;
      const at = row?.done ? Date.parse(row.done.at) : NaN;
      if (!row || !(at <= now)) continue;
      const until = seambook.bayClock ? seambook.bayClock.waitsUntil(state, row, now) : at + leastOf(state, row.step) * MINUTE;
      const id = nodes[to].id;
      if (until !== null && (until > now || row.step.watch)) found.set(id, [...(found.get(id) || []), { id: row.id, until }]);
    }
    return found;
  }

  /** A moment as it is said today: on another day with the day. @param {number} at */
  function clock(at) {
    const words = seambook.jobWords;
    return words.day(at) === words.day(Date.now()) ? words.clock(at) : words.moment(at);
  }

  /** @param {any} state @param {number} now @returns {Stand} */
  function of(state, now) {
    const rows = seambook.jobRows.of(state);
    const byId = new Map(rows.map((/** @type {JobRow} */ row) => [row.id, row]));
    const { holds, readings } = seambook.jobTicks.open(state, rows);
    const states = seambook.jobTicks.states(state, rows, { holds, readings });
    for (const [id, kept] of waits(state, byId, now)) {
      const own = states.get(id);
      if (own?.sort !== "next") continue;
      const why = kept.map((one) => ({ say: one.until > now ? `Wait until ${clock(one.until)}, after` : "It is still to be said that all is in order, above, after", id: one.id }));
      states.set(id, { sort: "wait", why, until: Math.max(...kept.map(({ until }) => until)) });
    }
    return {
      rows, at: new Map(rows.map((/** @type {JobRow} */ row, /** @type {number} */ n) => [row.id, n])), states, holds, readings,
      count: rows.filter((/** @type {JobRow} */ row) => row.done).length, isSketch: !!state.planned?.isSketch,
    };
  }

  /** The steps that may be done now, in the order of the plan. @param {Stand} stand */
  function ready({ rows, states }) {
    return rows.filter(({ id }) => states.get(id)?.sort === "next");
  }

  /** What is done after a step: what may be done behind it, else before it, else whatever is not done.
   * @param {Stand} stand @param {number} from @returns {JobRow | null} */
  function after(stand, from) {
    const behindFirst = [...stand.rows.slice(from + 1), ...stand.rows.slice(0, from + 1)];
    const isReady = (/** @type {JobRow} */ row) => stand.states.get(row.id)?.sort === "next";
    return behindFirst.find(isReady) || soonest(stand) || stand.rows.find((row) => !row.done && !row.waiting) || stand.rows.find((row) => !row.done) || null;
  }

  /** Of the steps that wait for nothing but the clock the one that may be done first. @param {Stand} stand @returns {JobRow | null} */
  function soonest({ rows, states }) {
    const waiting = rows.filter(({ id }) => states.get(id)?.sort === "wait");
    return waiting.reduce((/** @type {JobRow | null} */ best, row) => (best && states.get(best.id).until <= states.get(row.id).until ? best : row), null);
  }

  /** Where to begin. @param {Stand} stand */
  function first(stand) {
    return after(stand, -1) || stand.rows[stand.rows.length - 1] || null;
  }

  /** What of a step is still to be put down before it is done: `sort` says what. @param {any} state @param {JobRow} row
   * @returns {{sort: "reading" | "out" | "photo", name: string, id: string}[]} */
  function missing(state, row) {
    const said = (/** @type {string} */ name) => (seambook.jobKept.of(state.job.notes_by_step, row) || "").includes(notMeasured(name));
    const readings = seambook.asBuilt.ofStep(state, row).flatMap((/** @type {AsBuiltRow} */ one) => {
      if (one.holds) return [{ sort: "out", name: one.name, id: one.id }];
      return one.verdict === "missing" && !said(one.name) ? [{ sort: "reading", name: one.name, id: one.id }] : [];
    });
    const isPhotographed = !row.step.photo || seambook.jobKept.all(state.job.photos, row).length > 0;
    return [...readings, ...(isPhotographed ? [] : [{ sort: "photo", name: row.step.photo, id: "" }])];
  }

  /** How a note begins that says why something was not measured. @param {string} name */
  function notMeasured(name) {
    return `${name} was not measured: `;
  }

  seambook.bayStand = { of, ready, after, first, missing, notMeasured, leastOf, clock };
})();
