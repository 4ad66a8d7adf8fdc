/**
 * A job and its merged steps -> the problem that schedule.js plans: minutes with rust and lone hands, waits at the shop's
 * temperature, places, what may not go on at once, what is done already. Pure. Needs job_words.js, job_waits.js,
 * job_days.js and job_kept.js.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const MINUTE = 60000;

  const WATCH = "(watch)";

  /** Year, month, day, hour and minute of a moment as the job file writes it. @param {string} text `2026-11-30T08:00` @returns {number[] | null} */
  function partsOf(text) {
    const found = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}):(\d{2}))?/.exec(text || "");
    return found && found.slice(1).map((one) => Number(one || 0));
  }

  /** Elapsed minutes from the start, by the clock on the wall. @param {string} start @param {string} text */
  function elapsed(start, text) {
    const [from, to] = [partsOf(start), partsOf(text)];
    const plain = (/** @type {number[]} */ [year, month, day, hour, minute]) => Date.UTC(year, month - 1, day, hour, minute);
    return from && to ? Math.round((plain(to) - plain(from)) / MINUTE) : null;
  }

  /** The moment so many minutes after the start, by the clock on the wall. @param {string} start @param {number} minutes */
  function momentOf(start, minutes) {
    const found = partsOf(start);
    if (!found) return minutes * MINUTE;
    const [year, month, day, hour, minute] = found;
    return new Date(year, month - 1, day, hour, minute + minutes).getTime();
  }

  /** The minute of the day and the day of the week at which a job begins. @param {string} start @param {number} opens */
  function beginning(start, opens) {
    const found = partsOf(start);
    if (!found) return { minute: opens, day: 1 };
    return { minute: start.includes("T") ? found[3] * 60 + found[4] : opens, day: seambook.jobWords.weekday(momentOf(start, 0)) };
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

  /** The wait after a step and what is done with it, at the job's temperature. @param {any} node @param {any} job @param {any} library
   * @returns {{wait: {least: number, most: number | null, attended: boolean} | null, isCold: boolean}} */
  function waitOf(node, job, library) {
    const { wait, isCold } = seambook.jobWaits.waitOf(node.step, library.book.planning, job.climate.temperature);
    const others = stepsOf(node, library).map((one) => (one.wait && !one.cures ? one.wait.least : 0));
    return { wait: wait && { ...wait, least: Math.max(wait.least, ...others) }, isCold };
  }

  /** @param {any} node @param {any} job @param {any} library @param {"low" | "likely" | "high"} how */
  function taskOf(node, job, library, how) {
    const { planning } = library.book;
    const steps = stepsOf(node, library);
    const step = node.step;
    const { wait, isCold } = waitOf(node, job, library);
    const least = Math.max(wait ? wait.least : 0, ...steps.map((one) => (one.wait && !one.cures ? one.wait.least : 0)));
    return {
      task: {
        id: node.id, minutes: Math.max(...steps.map((one) => minutesOf(one, job, planning, how))),
        hands: Math.min(Math.max(...steps.map((one) => one.hands || 1)), job.hands),
        places: step.place ? [step.place] : [], chain: node.id.split("#")[0], split: !!step.split,
        traits: [...(step.traits || []), ...(step.watch ? [WATCH] : [])],
        linger: planning ? lingerOf(step, planning, least) : {},
        wait, earliest: 0, done: /** @type {any} */ (null),
      },
      isCold, isAlone: !!step.needs_two && job.hands < 2,
    };
  }

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
    const now = pastOf(tasks, job, merged.nodes);
    for (const task of tasks) if (!task.done) task.earliest = now;
    const [opens, closes] = [job.hours.opens, job.hours.closes].map((text) => seambook.jobWords.minuteIn(text, 0));
    const hours = opens < closes && job.hours.days.length ? { opens, closes, days: job.hours.days } : null;
    const arcs = arcsOf(merged, tasks);
    const days = seambook.jobDays.daysOf(merged.days, tasks, arcs, hours);
    return {
      problem: {
        tasks, arcs, limits: [...limitsOf(merged, tasks), ...days.limits], hands: job.hands, places: placesOf(job, planning),
        clashes: planning ? planning.clashes.map((/** @type {any} */ one) => one.between) : [], watch: WATCH,
        hours, start: beginning(job.start, opens),
        passes: 0, seed: 1,
      },
      again: days.again.map((/** @type {any[]} */ [from, to, state]) => ({ id: tasks[to].id, maker: tasks[from].id, state })),
      cold: made.flatMap((/** @type {any} */ one) => (one.isCold ? [one.task.id] : [])),
      alone: made.flatMap((/** @type {any} */ one) => (one.isAlone ? [one.task.id] : [])),
    };
  }

  seambook.jobTasks = { problemOf, momentOf, stepOf, waitOf };
})();
