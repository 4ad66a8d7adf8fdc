/* Which line of the timeline a step stands in: its procedure's, or the line of each pair of hands it takes. Pure. */

/**
 * @typedef {{id: string, label: string, parts: [number, number][], end: number, until: number, lanes: string[], critical: boolean,
 *   done: boolean, isWaiting: boolean, hold: string, attended: boolean, told: string}} Bar
 * @typedef {{id: string, title: string}} Lane
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const HOLD_LETTERS = /** @type {Record<string, string>} */ ({ hold: "H", witness: "W" });

  /** @param {any[]} rows  As jobRows gives them. @returns {Bar[]} */
  function bars(rows) {
    return rows.map((row) => ({
      id: row.id, label: row.number, parts: row.parts.length ? row.parts : [[row.start, row.end]], end: row.end, until: row.until,
      lanes: [row.run], critical: row.critical, done: !!row.done, isWaiting: !!row.waiting,
      hold: row.step.hold ? HOLD_LETTERS[row.step.hold.sort] || "" : "", attended: !!row.step.wait?.attended,
      told: `${row.number} ${row.step.do}`,
    }));
  }

  /** A line for each procedure and side, in the order in which they begin. @param {any[]} rows @returns {{lanes: Lane[], bars: Bar[]}} */
  function byProcedure(rows) {
    /** @type {Map<string, Lane>} */
    const lanes = new Map();
    for (const { run, title } of rows) if (!lanes.has(run)) lanes.set(run, { id: run, title });
    return { lanes: [...lanes.values()], bars: bars(rows) };
  }

  /**
   * A line for each pair of hands. Who was free longest takes the next step; a wait that somebody stays with keeps them.
   * @param {any[]} rows @param {number | null} hands @returns {{lanes: Lane[], bars: Bar[]}}
   */
  function byHands(rows, hands) {
    /** @type {number[]} */
    const free = Array.from({ length: hands || 1 }, () => -Infinity);
    const made = bars(rows).map((bar, at) => ({ bar, needed: rows[at].step.hands || 0 }));
    made.sort((one, other) => one.bar.parts[0][0] - other.bar.parts[0][0]);
    for (const { bar, needed } of made) {
      const start = bar.parts[0][0];
      const busy = bar.attended ? Math.max(bar.until, bar.end) : bar.end;
      const ready = free.map((at, hand) => ({ at, hand })).filter(({ at }) => at <= start).sort((one, other) => other.at - one.at);
      while (ready.length < needed) ready.push({ at: start, hand: free.push(-Infinity) - 1 });
      const taken = ready.slice(0, needed);
      for (const { hand } of taken) free[hand] = busy;
      bar.lanes = taken.map(({ hand }) => `hand-${hand}`);
    }
    const lanes = free.map((_, hand) => ({ id: `hand-${hand}`, title: `Technician ${hand + 1}` }));
    return { lanes, bars: made.map(({ bar }) => bar).filter(({ lanes: stands }) => stands.length) };
  }

  seambook.jobLanes = { byProcedure, byHands };
})();
