/**
 * Times that run by the clock on the wall after a step: made of its wait, and how each stands at a moment. Nothing is counted
 * down, so a reload, a dead battery or a night changes nothing. Pure: the moment is handed in. Needs job_tasks.js and
 * job_kept.js.
 */

/**
 * @typedef {{what: "over" | "closing" | "late" | "look" | "warm", at: string, by?: string}} Heard
 * @typedef {{sort: "wait" | "watch" | "hand", step?: string, say?: string, begun: string, offset?: number, least: number, most?: number,
 *   by?: string, heard?: Heard[], ended?: string, ended_by?: string}} Timer
 * @typedef {{every: number, look: string, cold: string, warm: string, warm_do: string, warn: number, late: string}} Watching
 * @typedef {"" | "look" | "over" | "closing" | "late"} Alarm
 * @typedef {{state: "early" | "running" | "over" | "window" | "late" | "ended", alarm: Alarm, begun: number, over: number, closes: number | null,
 *   look: number | null, left: number}} Standing  All moments in milliseconds; `left` until the next of them.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const MINUTE = 60000;
  const SECOND = 1000;
  /** Clocks of two devices differ by so much, and nobody set one back. */
  const SLACK = MINUTE;

  /** A moment as the job file writes it, with seconds, by a clock that is so far ahead of universal time. @param {number} now @param {number} [offset] */
  function stamp(now, offset) {
    return new Date(now + (offset === undefined ? offsetAt(now) : offset) * MINUTE).toISOString().slice(0, 19);
  }

  /** How far the clock on the wall is ahead of universal time, in minutes. @param {number} now */
  function offsetAt(now) {
    return -new Date(now).getTimezoneOffset();
  }

  /** The moment that a job file's text means; without an offset by this device's own zone. @param {string} text @param {number} [offset] */
  function momentOf(text, offset) {
    if (offset === undefined) return Date.parse(text);
    const plain = Date.parse(`${text.length === 16 ? `${text}:00` : text}Z`);
    return plain - offset * MINUTE;
  }

  /** @param {Timer} timer */
  function begunAt(timer) {
    return momentOf(timer.begun, timer.offset);
  }

  /** What tells timers of a job apart; nothing of it ever changes. @param {Timer} timer */
  function nameOf({ sort, step, say, begun }) {
    return [sort, step || say || "", begun].join(" ");
  }

  /** A timer that begins now. @param {Omit<Timer, "begun" | "offset">} about @param {number} now @returns {Timer} */
  function begin(about, now) {
    const { sort, step, say, least, most, by } = about;
    return {
      sort, ...(step ? { step } : {}), ...(say ? { say } : {}), begun: stamp(now), offset: offsetAt(now), least,
      ...(most ? { most } : {}), ...(by ? { by } : {}), heard: [],
    };
  }

  /** What a step's wait asks for, at the shop's temperature; null where it has none. What works that out may come after the first
   * step: until then it is as written. @param {any} state @param {{id: string, step: any, also?: string[]}} row */
  function asked(state, { id, step, also }) {
    if (!step?.wait) return null;
    const sort = /** @type {"wait" | "watch"} */ (step.watch ? "watch" : "wait");
    const { least, most } = step.wait;
    if (!seambook.jobTasks || !seambook.jobWaits) return { sort, least, most: most || undefined, isCold: false, isWritten: true };
    const library = { book: state.book, procedures: state.library.procedures || state.library };
    const { wait, isCold } = seambook.jobTasks.waitOf({ id, step, also: also || [] }, state.job, library);
    return { sort, least: wait.least, most: wait.most || undefined, isCold, isWritten: false };
  }

  /** @param {Timer} timer @param {Heard["what"]} what */
  function isHeard(timer, what) {
    return (timer.heard || []).some((one) => one.what === what);
  }

  /** When a watch is to be looked at next: so long after it began or was looked at last. @param {Timer} timer @param {Watching | null} watching */
  function nextLook(timer, watching) {
    if (timer.sort !== "watch" || !watching?.every) return null;
    const looks = (timer.heard || []).filter(({ what }) => what === "look").map(({ at }) => momentOf(at, timer.offset));
    return Math.max(begunAt(timer), ...looks) + watching.every * MINUTE;
  }

  /** How a timer stands. @param {Timer} timer @param {number} now @param {Watching | null} watching @returns {Standing} */
  function standing(timer, now, watching) {
    const begun = begunAt(timer);
    const over = begun + timer.least * MINUTE;
    const closes = timer.most ? begun + timer.most * MINUTE : null;
    const look = nextLook(timer, watching);
    const said = { begun, over, closes, look };
    if (timer.ended) return { ...said, state: "ended", alarm: "", left: 0 };
    if (now < begun - SLACK) return { ...said, state: "early", alarm: "", left: over - begun };
    if (now < over) return { ...said, state: "running", alarm: look !== null && look <= now ? "look" : "", left: over - now };
    if (closes !== null && now >= closes) return { ...said, state: "late", alarm: isHeard(timer, "late") ? "" : "late", left: now - closes };
    if (closes === null) return { ...said, state: "over", alarm: isHeard(timer, "over") ? "" : "over", left: 0 };
    return { ...said, state: "window", alarm: windowAlarm(timer, now, over, closes, watching), left: closes - now };
  }

  /** The warning before a window closes comes once it has been heard that it is open. @param {Timer} timer @param {number} now
   * @param {number} over @param {number} closes @param {Watching | null} watching @returns {Alarm} */
  function windowAlarm(timer, now, over, closes, watching) {
    if (!isHeard(timer, "over")) return "over";
    const warns = closes - (watching?.warn || 0) * MINUTE;
    return warns > over && now >= warns && !isHeard(timer, "closing") ? "closing" : "";
  }

  /** Whether it is still to be shown: of a step whose tick was taken back, or that went with its procedure, it is not.
   * @param {any} job @param {Timer} timer */
  function isOn(job, timer) {
    if (timer.ended || (timer.sort === "wait" && !timer.most && isHeard(timer, "over"))) return false;
    return timer.sort !== "wait" || !timer.step || seambook.jobKept.has(job.done, timer.step);
  }

  /** The timers that are shown: what calls first, then by what comes next. @param {any} job @param {number} now @param {Watching | null} watching
   * @returns {{timer: Timer, at: Standing}[]} */
  function shown(job, now, watching) {
    const all = /** @type {Timer[]} */ (job.timers || []).filter((timer) => isOn(job, timer));
    return all.map((timer) => ({ timer, at: standing(timer, now, watching) }))
      .sort((one, other) => rankOf(one.timer, one.at) - rankOf(other.timer, other.at) || one.at.left - other.at.left);
  }

  /** A watch that calls before anything else, since a fire does not wait; then what calls, what is late, what runs, what is open.
   * @param {Timer} timer @param {Standing} at */
  function rankOf({ sort }, { state, alarm }) {
    if (alarm) return sort === "watch" ? 0 : alarm === "late" ? 1 : alarm === "closing" ? 2 : 3;
    return state === "late" ? 4 : state === "window" ? 6 : 5;
  }

  /** The timer of a step, the last one begun. @param {any} job @param {{id: string, also?: string[]}} row @returns {Timer | null} */
  function ofStep(job, row) {
    const own = /** @type {Timer[]} */ (job.timers || []).filter(({ step }) => !!step && seambook.jobKept.names(row).includes(step));
    return own.filter(({ sort }) => sort !== "hand").pop() || null;
  }

  /** Whether a tick is of a later time than the timer: it was taken back and given again where no timers are. @param {Timer} timer @param {any} done */
  function isOfEarlierTick(timer, done) {
    return timer.sort === "wait" && !!done && Date.parse(done.at) > begunAt(timer) + SLACK;
  }

  /** Until when a step's wait keeps the next one, in milliseconds; null where it is over. A timer knows it to the second. A watch ends
   * by its answer, so it may keep longer than its time. @param {any} state @param {{id: string, step: any, also?: string[], done?: any}} row
   * @param {number} now @returns {number | null} */
  function waitsUntil(state, row, now) {
    const timer = ofStep(state.job, row);
    if (timer && !isOfEarlierTick(timer, row.done)) {
      const until = begunAt(timer) + timer.least * MINUTE;
      return (timer.sort === "watch" ? isHeard(timer, "over") : now >= until) ? null : until;
    }
    const wait = row.done && asked(state, row);
    const until = wait ? Date.parse(row.done.at) + wait.least * MINUTE : 0;
    return until > now ? until : null;
  }

  seambook.bayClock = { MINUTE, SECOND, stamp, momentOf, nameOf, begin, asked, isHeard, standing, shown, isOn, ofStep, isOfEarlierTick, waitsUntil, begunAt };
})();
