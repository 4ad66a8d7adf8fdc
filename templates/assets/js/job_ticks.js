/* What may be done next in a job and what holds it: ticks, hold points, readings out of tolerance, findings. Pure. */

/**
 * @typedef {{say: string, id: string}} Reason
 * @typedef {{sort: "done" | "next" | "held" | "waiting" | "later", why: Reason[]}} StepState
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  const kept = seambook.jobKept;

  /** Whether a step is a point that stops the work until somebody lets it go on. @param {any} step */
  function isHold(step) {
    return step?.hold?.sort === "hold";
  }

  /** The hold points that are done and not released, and the readings that are out and not released.
   * @param {any} state @param {JobRow[]} rows @returns {{holds: JobRow[], readings: AsBuiltRow[]}} */
  function open(state, rows) {
    const holds = rows.filter((row) => isHold(row.step) && row.done && !kept.of(state.job.releases, row));
    return { holds, readings: seambook.asBuilt.rows(state).filter((/** @type {AsBuiltRow} */ row) => row.holds) };
  }

  /** @param {any} state @param {JobRow[]} rows @param {{holds: JobRow[], readings: AsBuiltRow[]}} [stops] where they are known already
   * @returns {Map<string, StepState>} */
  function states(state, rows, stops = open(state, rows)) {
    const done = new Set(rows.flatMap((row) => (row.done ? [row.id] : [])));
    const { holds, readings } = stops;
    const held = new Set(holds.map(({ id }) => id));
    const before = seambook.jobRows.before(state);
    const outside = readings.map((/** @type {AsBuiltRow} */ row) => ({ say: `${row.name} is out of tolerance`, id: row.step }));
    return new Map(rows.map((row) => {
      if (row.done) return [row.id, /** @type {StepState} */ ({ sort: "done", why: [] })];
      if (row.waiting) return [row.id, { sort: "waiting", why: [{ say: "Waits for the customer's answer", id: "" }] }];
      const all = before.get(row.id) || [];
      const first = all.filter((/** @type {string} */ id) => !done.has(id)).map((/** @type {string} */ id) => ({ say: "Comes after", id }));
      const unreleased = all.filter((/** @type {string} */ id) => held.has(id)).map((/** @type {string} */ id) => ({ say: "Not released", id }));
      const why = [...first, ...unreleased, ...outside];
      return [row.id, { sort: !why.length ? "next" : first.length ? "later" : "held", why }];
    }));
  }

  /** The readings of a step that are still to be entered. @param {any} job @param {JobRow} row */
  function missing(job, row) {
    return (row.step.measures || []).filter((/** @type {any} */ measure) => !Number.isFinite(kept.of(job.readings, row, `/${measure.name}`)?.found));
  }

  /** Tick a step and whatever is done with it; what was ticked for one of them before stays as it was. The first takes the minutes.
   * @param {any} job @param {JobRow} row @param {{at: string, by: string, minutes: number | null}} said */
  function tick(job, row, said) {
    job.done = job.done || {};
    const open = kept.names(row).filter((/** @type {string} */ one) => !kept.has(job.done, one));
    open.forEach((/** @type {string} */ one, /** @type {number} */ at) => {
      job.done[one] = at && said.minutes !== null ? { ...said, minutes: 0 } : { ...said };
    });
    seambook.jobSeen?.done(row);
  }

  /** Take a tick back, and with it the release of its hold point. @param {any} job @param {JobRow} row */
  function untick(job, row) {
    for (const one of kept.names(row)) {
      delete job.done[one];
      if (job.releases) delete job.releases[one];
    }
  }

  /** Release a hold point, or a reading that is out of tolerance; another reading in its place is not released with it.
   * @param {any} job @param {string} id  A step's, or with a slash and a name that of a reading. @param {{by: string, at: string, reason: string}} said */
  function release(job, id, said) {
    if (!id.includes("/")) job.releases = { ...job.releases, [id]: said };
    else if (job.readings?.[id]) job.readings[id].released = said;
  }

  seambook.jobTicks = { isHold, open, states, missing, tick, untick, release };
})();
