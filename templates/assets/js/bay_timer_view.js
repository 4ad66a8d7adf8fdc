/**
 * Timers as rows to be read from two steps away: what each is for, its time, and the answer where it calls. Needs job_dom.js and
 * bay_timer_words.js. What is pressed is handed on.
 */

/**
 * @typedef {{toggle: (name: string) => void, go: ((id: string) => void) | null, heard: (timer: Timer, what: Heard["what"]) => void,
 *   stop: (timer: Timer) => void, more: () => void, seen: () => void, sound: () => void}} TimerActs
 * @typedef {{timer: Timer, at: Standing}} TimerRow
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const clock = seambook.bayClock;
  const said = seambook.bayTimerWords;
  const words = seambook.jobWords;
  /** Rows that call are all shown, of the others so many. */
  const FEW = 2;

  /** @param {Timer} timer */
  function idOf(timer) {
    return `bay_timer_${clock.nameOf(timer).replace(/[^\w-]/g, "_")}`;
  }

  /** @param {any} state @param {TimerRow} row @param {number} now */
  function head(state, { timer, at }, now) {
    return [
      el("span", { class: "bay-timer-figure", role: "timer" }, el("span", { "data-figure": "", "aria-hidden": "true", text: said.figure(at) }), el("span", { class: "unseen", "data-spoken": "", text: said.figureSaid(at) })),
      el("span", { class: "bay-timer-what" }, el("strong", { text: said.what(state, timer) }), el("span", { class: "bay-timer-how", "data-how": "", text: said.standing(timer, at, now) }),
        el("span", { class: "bay-timer-where", text: said.where(state, timer) })),
    ];
  }

  /** What may be answered: where it calls, and to a watch at any time. @param {Timer} timer @param {Standing} at @param {Watching | null} watching @param {TimerActs} acts
   * @param {boolean} isFirst of those that call: what is to be done next */
  function answers(timer, at, watching, acts, isFirst) {
    const at_ = idOf(timer);
    const next = isFirst && at.alarm ? "primary" : "control";
    const press = (/** @type {string} */ text, /** @type {Heard["what"]} */ what, /** @type {string} */ style) =>
      el("button", { type: "button", class: style, id: `${at_}_${what}`, on: { click: () => acts.heard(timer, what) }, text });
    if (timer.sort === "watch") {
      const cold = at.state === "over" ? "over" : "look";
      return el("div", { class: "bay-timer-answers" }, watching?.look ? el("p", { class: "bay-timer-ask", text: watching.look }) : null,
        el("p", { class: "bay-timer-press" }, press(`${watching?.cold || "Looked"}${cold === "over" ? ": end it" : ""}`, cold, next), press(watching?.warm || "Not in order: begin again", "warm", "control")));
    }
    const late = at.alarm === "late" && watching?.late ? el("p", { class: "bay-timer-ask", text: watching.late }) : null;
    return el("div", { class: "bay-timer-answers" }, late, el("p", { class: "bay-timer-press" }, press("Heard", at.alarm === "late" ? "late" : at.alarm === "closing" ? "closing" : "over", next)));
  }

  /** What is to be known of it besides, and the way to its step. @param {any} state @param {TimerRow} row @param {Watching | null} watching
   * @param {TimerActs} acts @param {boolean} isStopping @param {number} now */
  function more(state, { timer, at }, watching, acts, isStopping, now) {
    const id = idOf(timer);
    const told = [`Begun ${said.when(at.begun, now)}${timer.by ? ` by ${timer.by}` : ""}.`, said.workedOut(state, timer), coldOf(state, timer)].filter(Boolean);
    const looks = (timer.heard || []).filter(({ what }) => what === "look");
    if (timer.sort === "watch" && looks.length) told.push(`Looked at ${looks.map((one) => words.clock(clock.momentOf(one.at, timer.offset))).join(", ")}.`);
    const stop = isStopping ? "Yes, put it away" : timer.sort === "watch" ? "Break the watch off" : "Put it away";
    return el("div", { class: "bay-timer-more", id: `${id}_more` }, ...told.map((text) => el("p", { text })),
      isStopping ? el("p", { class: "bay-timer-ask", text: timer.sort === "hand" ? "It will not call any more." : "It will not call any more; what the step waits for stays as it is." }) : null,
      el("p", { class: "bay-timer-press" }, timer.step && acts.go ? el("button", { type: "button", class: "control", id: `${id}_go`, on: { click: () => acts.go?.(timer.step || "") }, text: "Go to its step" }) : null,
        el("button", { type: "button", class: "control", id: `${id}_stop`, on: { click: () => acts.stop(timer) }, text: stop })));
  }

  /** Where it is too cold for what cures, the written time says nothing. @param {any} state @param {Timer} timer */
  function coldOf(state, timer) {
    const step = timer.sort === "wait" && timer.step ? seambook.jobRows.stepOf(state, timer.step) : null;
    const isCold = step && clock.asked(state, { id: timer.step, step })?.isCold;
    return isCold ? `This job's ${words.number(state.job.climate.temperature)} °C are too cold for it: the time is as written and may not be enough. ${state.book.planning?.curing?.cold || ""}`.trim() : "";
  }

  /** @param {any} state @param {TimerRow} row @param {any} about @param {number} n */
  function row(state, row, { watching, acts, opened, stopping, now }, n) {
    const { timer, at } = row;
    const [id, name] = [idOf(timer), clock.nameOf(timer)];
    const isOpen = opened.has(name);
    const style = `bay-timer is-${at.state}${at.alarm ? " is-calling" : ""}`;
    return el("li", { class: style, "data-timer": name },
      el("button", { type: "button", class: "bay-timer-head", id, "aria-expanded": String(isOpen), "aria-controls": isOpen ? `${id}_more` : null, on: { click: () => acts.toggle(name) } }, ...head(state, row, now)),
      at.alarm || (isOpen && timer.sort === "watch") ? answers(timer, at, watching, acts, n === 0) : null, isOpen ? more(state, row, watching, acts, stopping === name, now) : null);
  }

  /** @param {number} back how far the clock was set back @param {TimerActs} acts */
  function setBack(back, acts) {
    if (!back) return null;
    return el("div", { class: "bay-timer-told", role: "alert" },
      el("p", {}, el("strong", { text: `This device's clock was set back by ${said.spoken(Math.round(back / clock.MINUTE) * clock.MINUTE)}.` }), " A wait begun before that now ends later than is true, and its window closes earlier than is shown: go by another clock for these."),
      el("p", { class: "bay-timer-press" }, el("button", { type: "button", class: "control", id: "bay_clock_seen", on: { click: acts.seen }, text: "I have seen it" })));
  }

  /** @param {TimerActs} acts */
  function soundOff(acts) {
    const { canSound, isOpen } = seambook.bayAlarm;
    if (isOpen()) return null;
    if (!canSound()) return el("p", { class: "bay-timer-told note", text: "This browser makes no sound: look at the screen, or set the phone's own timer too." });
    return el("div", { class: "bay-timer-told" }, el("p", { text: "Sound is off until you touch the screen." }), el("p", { class: "bay-timer-press" }, el("button", { type: "button", class: "control", id: "bay_sound", on: { click: acts.sound }, text: "Turn the sound on" })));
  }

  /** All of it. @param {any} state @param {TimerRow[]} rows
   * @param {{watching: Watching | null, acts: TimerActs, opened: Set<string>, stopping: string, isAll: boolean, back: number, now: number}} about */
  function all(state, rows, about) {
    if (!rows.length && !about.back) return [];
    const calling = rows.filter(({ at }) => at.alarm).length;
    const count = about.isAll ? rows.length : Math.max(calling, Math.min(rows.length, FEW));
    const rest = rows.length - count;
    const fold = rest || (about.isAll && rows.length > FEW)
      ? el("button", { type: "button", class: "control bay-timer-rest", id: "bay_timer_rest", "aria-expanded": String(about.isAll), on: { click: about.acts.more }, text: rest ? `${words.counted(rest, "more timer", "more timers")}` : "Fewer timers" }) : null;
    return [el("section", { class: "bay-timer-rows", "aria-label": "Timers" }, setBack(about.back, about.acts), rows.length ? soundOff(about.acts) : null,
      rows.length ? el("ul", {}, ...rows.slice(0, count).map((one, n) => row(state, one, about, n))) : null, fold)];
  }

  /** Put the time of each row anew and leave all else. @param {HTMLElement} place @param {any} state @param {TimerRow[]} rows @param {number} now */
  function tick(place, state, rows, now) {
    for (const { timer, at } of rows) {
      const shown = place.querySelector(`[data-timer="${CSS.escape(clock.nameOf(timer))}"]`);
      if (!shown) continue;
      put(shown, "[data-figure]", said.figure(at));
      put(shown, "[data-spoken]", said.figureSaid(at));
      put(shown, "[data-how]", said.standing(timer, at, now));
    }
  }

  /** @param {Element} shown @param {string} which @param {string} text */
  function put(shown, which, text) {
    const found = shown.querySelector(which);
    if (found && found.textContent !== text) found.textContent = text;
  }

  seambook.bayTimerView = { all, tick, idOf };
})();
