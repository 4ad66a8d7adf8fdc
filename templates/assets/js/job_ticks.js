/* What may be done next in a job and what holds it: ticks, hold points, readings out of tolerance, findings. Pure. */

/**
 * @typedef {{say: string, id: string}} Reason
 * @typedef {{sort: "done" | "next" | "held" | "waiting" | "later", why: Reason[]}} StepState
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** Whether a step is a point that stops the work until somebody lets it go on. @param {any} step */
  function isHold(step) {
    return step?.hold?.sort === "hold";
  }

  /** The hold points that are done and not released, and the readings that are out and not released.
   * @param {any} state @param {JobRow[]} rows @returns {{holds: JobRow[], readings: AsBuiltRow[]}} */
  function open(state, rows) {
    const { done = {}, releases = {} } = state.job;
    const holds = rows.filter(({ id, step }) => isHold(step) && done[id] && !releases[id]);
    return { holds, readings: seambook.asBuilt.rows(state).filter((/** @type {AsBuiltRow} */ row) => row.holds) };
  }

  /** @param {any} state @param {JobRow[]} rows @returns {Map<string, StepState>} */
  function states(state, rows) {
    const { done = {} } = state.job;
    const { holds, readings } = open(state, rows);
    const held = new Set(holds.map(({ id }) => id));
    const before = seambook.jobRows.before(state);
    const outside = readings.map((/** @type {AsBuiltRow} */ row) => ({ say: `${row.name} is out of tolerance`, id: row.step }));
    return new Map(rows.map((row) => {
      if (done[row.id]) return [row.id, /** @type {StepState} */ ({ sort: "done", why: [] })];
      if (row.waiting) return [row.id, { sort: "waiting", why: [{ say: "Waits for the customer's answer", id: "" }] }];
      const all = before.get(row.id) || [];
      const first = all.filter((/** @type {string} */ id) => !done[id]).map((/** @type {string} */ id) => ({ say: "Comes after", id }));
      const unreleased = all.filter((/** @type {string} */ id) => held.has(id)).map((/** @type {string} */ id) => ({ say: "Not released", id }));
      const why = [...first, ...unreleased, ...outside];
      return [row.id, { sort: !why.length ? "next" : first.length ? "later" : "held", why }];
    }));
  }

  /** The readings of a step that are still to be entered. @param {any} job @param {JobRow} row */
  function missing(job, { id, step }) {
    return (step.measures || []).filter((/** @type {any} */ measure) => !Number.isFinite(job.readings?.[`${id}/${measure.name}`]?.found));
  }

  /** Tick a step and whatever is done with it. @param {any} job @param {JobRow} row @param {{at: string, by: string, minutes: number | null}} said */
  function tick(job, { id, also }, said) {
    job.done = job.done || {};
    job.done[id] = said;
    for (const other of also) job.done[other] = { ...said, minutes: 0 };
  }

  /** Take a tick back, and with it the release of its hold point. @param {any} job @param {JobRow} row */
  function untick(job, { id, also }) {
    for (const one of [id, ...also]) delete job.done[one];
    if (job.releases) delete job.releases[id];
  }

  /** Release a hold point, or a reading that is out of tolerance; another reading in its place is not released with it.
   * @param {any} job @param {string} id  A step's, or with a slash and a name that of a reading. @param {{by: string, at: string, reason: string}} said */
  function release(job, id, said) {
    if (!id.includes("/")) job.releases = { ...job.releases, [id]: said };
    else if (job.readings?.[id]) job.readings[id].released = said;
  }

  seambook.jobTicks = { isHold, open, states, missing, tick, untick, release };
})();
