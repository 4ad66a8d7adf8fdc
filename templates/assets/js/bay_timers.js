/**
 * The timers of the job that is open in the bay: begun when a step is done, kept in the job, shown, called out and answered. A
 * step's wait, its window and a watch begin by themselves; a watch can be begun before its step is done, and minutes can be set by
 * hand. Needs the other scripts of timers.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const clock = seambook.bayClock;
  const said = seambook.bayTimerWords;
  const view = seambook.bayTimerView;
  const TICK = 1000;

  /** What is shown where. @type {{place: HTMLElement, state: any, go: ((id: string) => void) | null} | null} */
  let current = null;
  /** The plan whose ticks were looked through. @type {any} */
  let adopted = null;
  let ticking = 0;
  let drawn = "";
  let isAll = false;
  let stopping = "";
  /** Steps whose timers were begun with the time as written. @type {Set<string>} */
  const unsure = new Set();
  /** Rows that are unfolded, and what was announced in this page, by name. @type {Set<string>} */
  const opened = new Set();
  /** @type {Set<string>} */
  const told = new Set();
  /** Read out where it stands; it stays in the page, so that readers of the screen know it. */
  const live = el("p", { class: "unseen", role: "status", id: "bay_timers_said" });

  /** @param {any} state @returns {Watching | null} */
  function watchingOf(state) {
    return state.book.planning?.watching || null;
  }

  /** The job as words need it: procedures by name. @param {any} state */
  function named(state) {
    return { ...state, library: state.library.procedures || state.library };
  }

  /** Change the timers of the job, save it, and show them. @param {any} state @param {(job: any) => void} edit
   * @param {boolean} [isStepLeft] whether the step on the screen is left as it is, because it was drawn just now */
  function change(state, edit, isStepLeft = false) {
    state.change(edit, { redraw: !isStepLeft });
    show();
  }

  /** @param {any} job @param {Timer} timer @param {(own: any) => void} edit */
  function on(job, timer, edit) {
    const own = (job.timers || []).find((/** @type {Timer} */ one) => clock.nameOf(one) === clock.nameOf(timer));
    if (own) edit(own);
  }

  /** @param {any} own @param {number} now @param {Heard["what"]} what */
  function hear(own, now, what) {
    const by = seambook.jobEntries.name();
    own.heard = [...(own.heard || []), { what, at: clock.stamp(now, own.offset), ...(by ? { by } : {}) }];
  }

  /** @param {any} own @param {number} now */
  function end(own, now) {
    const by = seambook.jobEntries.name();
    own.ended = clock.stamp(now, own.offset);
    if (by) own.ended_by = by;
  }

  /** @param {any} job @param {any} timer */
  function add(job, timer) {
    job.timers = [...(job.timers || []), timer];
  }

  /** A step was ticked: what it was waited for is over, and its own wait begins. @param {any} state @param {JobRow} row */
  function stepDone(state, row) {
    const now = Date.now();
    const asked = clock.asked(state, row);
    const before = clock.ofStep(state.job, row);
    const isKept = asked?.sort === "watch" && before && isSinceWorkBefore(state, row, before) && (!before.ended || clock.isHeard(before, "over"));
    const waited = waitedFor(state, row);
    if (!asked && !waited.length && (!before || before.ended)) return;
    change(state, (job) => {
      for (const timer of waited) on(job, timer, (own) => end(own, now));
      if (isKept) return;
      if (before && !before.ended) on(job, before, (own) => end(own, now));
      if (asked) add(job, clock.begin({ ...asked, step: row.id, by: seambook.jobEntries.name() }, now));
    }, true);
    if (asked?.isWritten) unsure.add(row.id);
  }

  /** What works waits out has come: put those right that were begun before. @param {any} state */
  function settle(state) {
    if (!unsure.size || !seambook.jobTasks || !seambook.jobWaits) return;
    const found = [...unsure].map((id) => ({ id, step: seambook.jobRows.stepOf(named(state), id) })).filter(({ step }) => step);
    unsure.clear();
    window.setTimeout(() => change(state, (job) => {
      for (const row of found) {
        const { least, most } = clock.asked(state, row);
        const timer = clock.ofStep(job, row);
        if (timer && !timer.ended) Object.assign(timer, { least }, most ? { most } : {});
      }
    }), 0);
  }

  /** Whether a watch was begun after the last work before it: a watch that came before a spark is none.
   * @param {any} state @param {JobRow} row @param {Timer} timer */
  function isSinceWorkBefore(state, row, timer) {
    const before = seambook.jobRows.before(named(state)).get(row.id) || [];
    return before.every((/** @type {string} */ id) => {
      const done = state.job.done?.[id];
      return !done || Date.parse(done.at) <= clock.begunAt(timer);
    });
  }

  /** The timers whose wait this step was, and that wait for no other any more. @param {any} state @param {JobRow} row @returns {Timer[]} */
  function waitedFor(state, row) {
    const before = seambook.jobRows.before(named(state));
    const now = Date.now();
    const ids = before.get(row.id) || [];
    const rows = /** @type {TimerRow[]} */ (clock.shown(state.job, now, watchingOf(state)));
    return rows.filter(({ timer, at }) => {
      if (timer.sort !== "wait" || !["over", "window", "late"].includes(at.state) || !ids.includes(timer.step)) return false;
      return isWindowUsed(state, timer, row);
    }).map(({ timer }) => timer);
  }

  /** Whether all that had to be begun within a window is done with this step; without a plan that is not known.
   * @param {any} state @param {{step?: string}} timer @param {JobRow | null} row */
  function isWindowUsed(state, timer, row) {
    const { nodes = [], limits = [] } = state.planned?.merged || {};
    const { names, has } = seambook.jobKept;
    const own = /** @type {number[][]} */ (limits).filter(([from]) => nodes[from] && names(nodes[from]).includes(timer.step));
    return own.map(([, to]) => nodes[to]).every((node) => node.id === row?.id || names(node).some((/** @type {string} */ id) => has(state.job.done, id)));
  }

  /** Steps that were ticked elsewhere, and whose wait or window runs yet, get their timers from their ticks. A watch does not:
   * nobody knows whether its tick is its beginning or its end. @param {any} state @returns {any[]} */
  function missed(state) {
    const now = Date.now();
    return (state.planned?.merged?.nodes || []).flatMap((/** @type {any} */ node) => {
      const done = node.step.wait && !node.step.watch && seambook.jobKept.of(state.job.done, node);
      const before = done && clock.ofStep(state.job, node);
      if (!done || (before && !clock.isOfEarlierTick(before, done))) return [];
      const asked = clock.asked(state, node);
      const begun = Date.parse(done.at);
      const over = begun + asked.least * clock.MINUTE;
      const isWindow = asked.most && now < begun + asked.most * clock.MINUTE && !isWindowUsed(state, { step: node.id }, null);
      if (!(begun <= now) || !(now < over || isWindow)) return [];
      const timer = clock.begin({ ...asked, step: node.id, by: done.by }, begun);
      if (now >= over) timer.heard = [{ what: "over", at: clock.stamp(over, timer.offset) }]; // nobody is called for what was long over
      return [timer];
    });
  }

  /** @param {any} job @param {any[]} found */
  function addMissed(job, found) {
    const now = Date.now();
    for (const timer of found) {
      const before = clock.ofStep(job, { id: timer.step });
      if (before && !before.ended) end(before, now);
      add(job, timer);
    }
  }

  /** Once for each plan. @param {any} state */
  function adopt(state) {
    if (!state.planned || state.planned === adopted || !seambook.jobTasks) return;
    adopted = state.planned;
    const found = missed(state);
    if (found.length) window.setTimeout(() => change(state, (job) => addMissed(job, found)), 0);
  }

  /** Begin the watch of a step before it is ticked: who keeps it reads the step, stays, and ticks when it is over. @param {any} state @param {JobRow} row */
  function beginWatch(state, row) {
    const asked = clock.asked(state, row);
    if (!asked) return;
    const now = Date.now();
    change(state, (job) => {
      const before = clock.ofStep(job, row);
      if (before && !before.ended) end(before, now);
      add(job, clock.begin({ ...asked, step: row.id, by: seambook.jobEntries.name() }, now));
    });
    seambook.bayAlarm.open();
  }

  /** Minutes set by hand. @param {any} state @param {number} minutes @param {string} say @param {string} [step] */
  function setByHand(state, minutes, say, step) {
    const about = { sort: /** @type {"hand"} */ ("hand"), least: minutes, say, step, by: seambook.jobEntries.name() };
    change(state, (job) => add(job, clock.begin(about, Date.now())));
    seambook.bayAlarm.open();
  }

  /** An answer to what calls. Something warm begins the watch again. @param {Timer} timer @param {Heard["what"]} what */
  function heard(timer, what) {
    if (!current) return;
    const now = Date.now();
    const { state } = current;
    const isLast = what === "late" || what === "warm" || (what === "over" && (timer.sort !== "wait" || !timer.most));
    change(state, (job) => on(job, timer, (own) => {
      hear(own, now, what);
      if (isLast) end(own, now);
      if (what !== "warm") return;
      const by = seambook.jobEntries.name();
      add(job, clock.begin({ sort: own.sort, step: own.step, say: own.say, least: own.least, by }, now));
    }));
    if (what === "warm") say(watchingOf(state)?.warm_do || "The watch begins again.");
    document.getElementById(view.idOf(timer))?.focus();
  }

  /** Asked twice: the second press does it. @param {Timer} timer */
  function stop(timer) {
    const name = clock.nameOf(timer);
    if (stopping !== name || !current) {
      stopping = name;
      return show();
    }
    stopping = "";
    change(current.state, (job) => on(job, timer, (own) => end(own, Date.now())));
  }

  /** @param {string} name */
  function toggle(name) {
    if (!opened.delete(name)) opened.add(name);
    stopping = "";
    show();
  }

  /** @param {string} text */
  function say(text) {
    live.textContent = text;
  }

  /** Announce each alarm once; a watch's looks are alarms of their own. @param {any} state @param {TimerRow[]} rows */
  function announce(state, rows) {
    const fresh = rows.filter(({ timer, at }) => at.alarm && !told.has(alarmName(timer, at)));
    if (!fresh.length) return;
    for (const { timer, at } of fresh) told.add(alarmName(timer, at));
    say(fresh.map(({ timer }) => timer).map((timer, n) => `${said.what(state, timer)}: ${said.alarm(timer, fresh[n].at.alarm)}. ${said.where(state, timer)}.`).join(" "));
  }

  /** @param {Timer} timer @param {Standing} at */
  function alarmName(timer, at) {
    return `${clock.nameOf(timer)} ${at.alarm} ${at.alarm === "look" ? at.look : ""}`;
  }

  /** Call for the first of those that call. @param {any} state @param {TimerRow[]} rows */
  function call(state, rows) {
    const first = rows.find(({ at }) => at.alarm);
    seambook.bayAlarm.call(first ? { sort: first.at.alarm, title: said.title(state, first.timer, first.at) } : null);
    announce(state, rows);
  }

  /** Whatever makes rows look otherwise than a second before. @param {TimerRow[]} rows @param {number} back */
  function signature(rows, back) {
    const of = rows.map(({ timer, at }) => [clock.nameOf(timer), at.state, at.alarm, (timer.heard || []).length]);
    return JSON.stringify([of, back, isAll, stopping, [...opened], seambook.bayAlarm.isOpen()]);
  }

  /** Look at the clock and show what is so now. */
  function show() {
    if (!current?.place.isConnected) return void rest();
    const { place, go } = current;
    const state = named(current.state);
    const now = Date.now();
    const watching = watchingOf(state);
    const back = seambook.bayWall.look(now, window.performance.now());
    const rows = clock.shown(state.job, now, watching);
    const is = signature(rows, back);
    if (is === drawn) view.tick(place, state, rows, now);
    else {
      drawn = is;
      const acts = { toggle, go, heard, stop, seen, more, sound: seambook.bayAlarm.tryIt };
      seambook.dom.redraw(place, () => place.replaceChildren(...view.all(state, rows, { watching, acts, opened, stopping, isAll, back, now })));
    }
    call(state, rows);
    window.clearTimeout(ticking);
    ticking = window.setTimeout(tick, TICK - (now % TICK) + 20);
  }

  /** A second later; where a time is over by then, what the step on the screen says of waiting is another too. */
  function tick() {
    const before = drawn;
    show();
    if (drawn !== before) seambook.bayDesk?.draw();
  }

  /** Nothing is shown any more: nobody is called. */
  function rest() {
    window.clearTimeout(ticking);
    seambook.bayAlarm.call(null);
  }

  function seen() {
    seambook.bayWall.seen();
    show();
  }

  function more() {
    isAll = !isAll;
    show();
  }

  /** Show the timers of a job. @param {HTMLElement} place @param {any} state @param {{go?: (id: string) => void}} [how] */
  function draw(place, state, { go } = {}) {
    if (!live.isConnected) document.body.append(live);
    const isOther = !current || current.place !== place || current.state.job.id !== state.job.id;
    if (isOther || !place.firstElementChild) drawn = "";
    current = { place, state, go: go || null };
    show();
    settle(state);
    adopt(state);
    seambook.bayAwake?.start();
  }

  document.addEventListener("visibilitychange", () => current && show());
  seambook.bayAlarm.onChange(() => current && show());

  seambook.bayTimers = { stepDone, draw, beginWatch, setByHand };
})();
