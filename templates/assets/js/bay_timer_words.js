/* Timers in words: what each is for, whose step it belongs to, how long yet, and what to do. Pure. Needs bay_clock.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { MINUTE, SECOND } = seambook.bayClock;
  const HOUR = 60 * MINUTE;
  const DAY = 24 * HOUR;
  const words = seambook.jobWords;

  /** How long, as it is read from two steps away: `12:34`, `1 h 04`, `2 d 3 h`. @param {number} ms */
  function left(ms) {
    const seconds = Math.max(0, Math.ceil(ms / SECOND));
    const two = (/** @type {number} */ value) => String(value).padStart(2, "0");
    if (seconds * SECOND < HOUR) return `${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
    const minutes = Math.ceil(seconds / 60);
    if (minutes * MINUTE < DAY) return `${Math.floor(minutes / 60)} h ${two(minutes % 60)}`;
    return `${Math.floor(minutes / 1440)} d ${Math.floor((minutes % 1440) / 60)} h`;
  }

  /** The same as it is spoken. @param {number} ms */
  function spoken(ms) {
    const minutes = Math.max(0, Math.ceil(ms / MINUTE));
    const hours = Math.floor(minutes / 60);
    const rest = words.counted(minutes % 60, "minute");
    if (!hours) return rest;
    return minutes % 60 ? `${words.counted(hours, "hour")} ${rest}` : words.counted(hours, "hour");
  }

  /** A moment by the clock, with its day where that is not today. @param {number} ms @param {number} now */
  function when(ms, now) {
    return words.midnight(ms) === words.midnight(now) ? words.clock(ms) : words.moment(ms);
  }

  /** @param {any} state as the views have it @param {Timer} timer */
  function what(state, timer) {
    const step = timer.step ? seambook.jobRows.stepOf(state, timer.step) : null;
    const said = timer.say || (timer.sort !== "hand" && step?.wait?.for) || (timer.sort === "hand" ? "Timer" : "Wait");
    return said.charAt(0).toUpperCase() + said.slice(1);
  }

  /** @param {any} state @param {Timer} timer */
  function where(state, timer) {
    return timer.step ? seambook.jobRows.named(state, timer.step) : "set by hand";
  }

  /** How it stands, beside the time. @param {Timer} timer @param {Standing} at @param {number} now @returns {string} */
  function standing(timer, at, now) {
    if (at.state === "early") return `begun ${when(at.begun, now)} by another clock than this device has now`;
    if (at.state === "running") return running(timer, at, now);
    if (at.state === "window") return `may go on now; window closes ${when(at.closes || 0, now)}`;
    if (at.state === "late") return `too late: the window closed ${when(at.closes || 0, now)}`;
    return timer.sort === "wait" ? `may go on now; over since ${when(at.over, now)}` : `time is up since ${when(at.over, now)}`;
  }

  /** @param {Timer} timer @param {Standing} at @param {number} now */
  function running(timer, at, now) {
    if (timer.sort === "wait") return `may go on ${when(at.over, now)}`;
    const look = at.look !== null && at.look < at.over ? at.look <= now ? "look now, " : `look at ${when(at.look, now)}, ` : "";
    return `${look}until ${when(at.over, now)}`;
  }

  /** What the big figure shows: the time yet, or how long it has been too late. @param {Standing} at */
  function figure(at) {
    if (at.state === "over") return "0:00";
    return at.state === "late" ? `+${left(at.left - SECOND + 1)}` : left(at.left);
  }

  /** What the figure means, for who hears it. @param {Standing} at */
  function figureSaid(at) {
    if (at.state === "over") return "no time left";
    if (at.state === "late") return `${spoken(at.left)} too late`;
    return `${spoken(at.left)} ${at.state === "window" ? "until the window closes" : "left"}`;
  }

  /** What an alarm says, in a word or two, after what it is for. @param {Timer} timer @param {Alarm} alarm */
  function alarm(timer, alarm) {
    if (alarm === "look") return "look now";
    if (alarm === "closing") return "window closes soon";
    if (alarm === "late") return "window closed";
    return timer.sort === "wait" ? "over, may go on" : "time is up";
  }

  /** What stands in the browser's title. @param {any} state @param {Timer} timer @param {Standing} at */
  function title(state, timer, at) {
    const time = at.alarm === "over" ? "0:00" : at.alarm === "look" ? left(at.left) : figure(at);
    return `${time} ${what(state, timer)}${at.alarm === "over" ? " over" : `: ${alarm(timer, at.alarm)}`}`;
  }

  /** A step's wait as it is written, where another time was worked out of it. @param {any} state @param {Timer} timer */
  function workedOut(state, timer) {
    const step = timer.sort !== "hand" && timer.step ? seambook.jobRows.stepOf(state, timer.step) : null;
    if (!step?.wait) return "";
    const span = (/** @type {number} */ least, /** @type {number | undefined} */ most) => `${words.span(least)}${most ? ` to ${words.span(most)}` : ""}`;
    const { least, most, at } = step.wait;
    const written = `Written: ${span(least, most)}${at === undefined ? "" : ` at ${words.number(at)} °C`}.`;
    const isOther = timer.least !== least || (timer.most || 0) !== (most || 0);
    return isOther ? `${written} At this job's ${words.number(state.job.climate.temperature)} °C: ${span(timer.least, timer.most)}.` : written;
  }

  seambook.bayTimerWords = { left, spoken, when, what, where, standing, figure, figureSaid, alarm, title, workedOut };
})();
