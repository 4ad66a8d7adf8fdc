/**
 * A job and its merged steps -> the problem that schedule.js plans: minutes with rust and lone hands, waits at the shop's
 * temperature, places, what may not go on at once, what is done already. Pure. Needs job_waits.js, job_days.js and job_kept.js.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const MINUTE = 60000;
  const DAY = 1440;

  /** The clock on the wall as a number of ms, however the year's clocks are set. @param {string} text `2026-11-30T08:00` @returns {number | null} */
  function clockOf(text) {
    const found = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2}))?/.exec(text || "");
    if (!found) return null;
    const [year, month, day, hour, minute] = found.slice(1).map((one) => Number(one || 0));
    return new Date(year, month - 1, day, hour, minute).getTime();
  }

  /** Elapsed minutes from the start, by the clock on the wall. @param {string} start @param {string} text */
  function elapsed(start, text) {
    const plain = (/** @type {string} */ one) => {
      const found = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2}))?/.exec(one || "");
      return found ? Date.UTC(+found[1], +found[2] - 1, +found[3], +(found[4] || 0), +(found[5] || 0)) : null;
    };
    const from = plain(start);
    const to = plain(text);
    return from === null || to === null ? null : Math.round((to - from) / MINUTE);
  }

  /** The moment so many minutes after the start, by the clock on the wall. @param {string} start @param {number} minutes */
  function momentOf(start, minutes) {
    const found = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2}))?/.exec(start || "");
    if (!found) return minutes * MINUTE;
    return new Date(+found[1], +found[2] - 1, +found[3], +(found[4] || 0), +(found[5] || 0) + minutes).getTime();
  }

  /** @param {string} text `08:00` */
  function minuteOf(text) {
    const [hour, minute] = String(text).split(":").map(Number);
    return hour * 60 + (minute || 0);
  }

  /** The longest of what is done at once. @param {any} node @param {any} library @returns {any[]} */
  function stepsOf(node, library) {
    return [node.step, ...node.also.map((/** @type {string} */ id) => stepOf(id, library)).filter(Boolean)];
  }

  /** @param {string} id @param {any} library */
  function stepOf(id, library) {
    const [run, key] = id.split("#");
    const data = library.procedures[run.split("@")[0]];
    return data ? data.steps.find((/** @type {any} */ step) => step.key === key) : null;
  }

  /** @param {any} job @param {any} planning @param {"low" | "likely" | "high"} how */
  function rustOf(job, planning, how) {
    const known = planning && planning.rust;
    return seambook.jobKept.has(known, job.rust) ? known[job.rust][how] : 1;
  }

  /** Hands-on minutes of a step. @param {any} step @param {any} job @param {any} planning @param {"low" | "likely" | "high"} how */
  function minutesOf(step, job, planning, how) {
    const plain = how === "likely" ? step.minutes : (step[how] === undefined ? step.minutes : step[how]);
    const rust = step.rusty ? rustOf(job, planning, how) : 1;
    const lone = planning && step.hands > job.hands ? planning.lone_hand.factor : 1;
    return Math.round(plain * rust * lone);
  }

  /** @param {any} step @param {any} planning @param {number} least */
  function lingerOf(step, planning, least) {
    /** @type {Record<string, number>} */
    const linger = {};
    for (const id of step.traits || []) {
      const trait = planning.traits[id];
      const minutes = (trait.through_wait ? least : 0) + trait.lingers;
      if (minutes) linger[id] = minutes;
    }
    return linger;
  }

  /** @param {any} node @param {any} job @param {any} library @param {"low" | "likely" | "high"} how */
  function taskOf(node, job, library, how) {
    const { planning } = library.book;
    const steps = stepsOf(node, library);
    const step = node.step;
    const { wait, isCold } = seambook.jobWaits.waitOf(step, planning, job.climate.temperature);
    const least = Math.max(wait ? wait.least : 0, ...steps.map((one) => (one.wait && !one.cures ? one.wait.least : 0)));
    return {
      task: {
        id: node.id, minutes: Math.max(...steps.map((one) => minutesOf(one, job, planning, how))),
        hands: Math.min(Math.max(...steps.map((one) => one.hands || 1)), job.hands),
        places: step.place ? [step.place] : [], chain: node.id.split("#")[0], split: !!step.split,
        traits: [...(step.traits || []), ...(step.watch ? [WATCH] : [])],
        linger: planning ? lingerOf(step, planning, least) : {},
        wait: wait ? { ...wait, least } : null, earliest: 0, done: /** @type {any} */ (null),
      },
      isCold, isAlone: !!step.needs_two && job.hands < 2,
    };
  }

  const WATCH = "(watch)";

  /** What was ticked lies in the past, by the moment it was ticked at and the minutes it took. @param {any} tasks @param {any} job @param {any[]} nodes */
  function pastOf(tasks, job, nodes) {
    const ticks = seambook.jobKept.ticks(job, nodes);
    let now = 0;
    for (const task of tasks) {
      const done = ticks.get(task.id);
      const at = done ? elapsed(job.start, done.at) : null;
      if (at === null) continue;
      const end = Math.max(at, 0);
      task.done = { start: Math.max(end - (done.minutes || task.minutes), 0), end };
      now = Math.max(now, end);
    }
    return now;
  }

  /** Waits, as lags of what comes after. @param {any} merged @param {any[]} tasks */
  function arcsOf(merged, tasks) {
    return merged.arcs.map((/** @type {any} */ { from, to, lag }) => {
      const { wait } = tasks[from];
      return [from, to, lag && wait ? wait.least : lag];
    });
  }

  /** Windows: what must be begun before a wait's most is over. @param {any} merged @param {any[]} tasks */
  function limitsOf(merged, tasks) {
    return merged.limits.flatMap((/** @type {number[]} */ [from, to]) => {
      const { wait } = tasks[from];
      return wait && wait.most && !(tasks[from].done && tasks[to].done) ? [[from, to, wait.most]] : [];
    });
  }

  /** @param {any} job @param {any} planning */
  function placesOf(job, planning) {
    /** @type {Record<string, number>} */
    const places = {};
    for (const [id, one] of Object.entries((planning && planning.places) || {})) {
      places[id] = job.places && job.places[id] !== undefined ? job.places[id] : /** @type {any} */ (one).count;
    }
    return places;
  }

  /**
   * @param {any} job @param {any} merged @param {{book: any, procedures: any}} library @param {"low" | "likely" | "high"} how
   * @returns {{problem: any, again: {id: string, maker: string, state: string}[], cold: string[], alone: string[]}}
   */
  function problemOf(job, merged, library, how) {
    const { planning } = library.book;
    const made = merged.nodes.map((/** @type {any} */ node) => taskOf(node, job, library, how));
    const tasks = made.map((/** @type {any} */ one) => one.task);
    const now = Math.max(pastOf(tasks, job, merged.nodes), job.from ? elapsed(job.start, job.from) || 0 : 0);
    for (const task of tasks) if (!task.done) task.earliest = now;
    const opens = minuteOf(job.hours.opens);
    const closes = minuteOf(job.hours.closes);
    const start = clockOf(job.start);
    const day = start === null ? 1 : new Date(start).getDay() || 7;
    const hours = opens < closes && job.hours.days.length ? { opens, closes, days: job.hours.days } : null;
    const arcs = arcsOf(merged, tasks);
    const days = seambook.jobDays.daysOf(merged.days, tasks, arcs, hours);
    return {
      problem: {
        tasks, arcs, limits: [...limitsOf(merged, tasks), ...days.limits], hands: job.hands, places: placesOf(job, planning),
        clashes: planning ? planning.clashes.map((/** @type {any} */ one) => one.between) : [], watch: WATCH,
        hours,
        start: { minute: start === null ? opens : minuteOf(job.start.slice(11) || job.hours.opens) % DAY, day },
        passes: 0, seed: 1,
      },
      again: days.again.map((/** @type {any[]} */ [from, to, state]) => ({ id: tasks[to].id, maker: tasks[from].id, state })),
      cold: made.flatMap((/** @type {any} */ one) => (one.isCold ? [one.task.id] : [])),
      alone: made.flatMap((/** @type {any} */ one) => (one.isAlone ? [one.task.id] : [])),
    };
  }

  seambook.jobTasks = { problemOf, minutesOf, elapsed, momentOf, stepOf };
})();
