/**
 * Timers that somebody begins: the watch of a step before it is ticked, and minutes set by hand with the big keys. Needs
 * bay_timers.js; the keys come from bay_keypad.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const LONGEST = 1440;

  /** At a step that is itself a watch: begun here, since its tick says that it is over. @param {any} state @param {JobRow} row
   * @param {() => void} [after] */
  function watchPoint(state, row, after) {
    const asked = row.done ? null : seambook.bayClock.asked(state, row);
    if (asked?.sort !== "watch") return null;
    const timer = seambook.bayClock.ofStep(state.job, row);
    const isKept = timer && seambook.bayClock.isHeard(timer, "over");
    if (timer && (isKept || !timer.ended)) {
      const text = isKept ? "The watch was kept to its end. The step can be ticked." : "The watch runs: see the timer at the top. Tick the step when it is over.";
      return el("p", { class: "bay-watch bay-watch-told", text });
    }
    const begin = () => {
      seambook.bayTimers.beginWatch(state, row);
      after?.();
    };
    return el("div", { class: "bay-watch" }, el("p", { text: `The time is ${words.span(asked.least)}, and it runs from here. A tick without it begins the time then.` }),
      el("button", { type: "button", class: "control bay-watch-begin", id: "bay_watch", text: "Begin the watch now", on: { click: begin } }));
  }

  /** Minutes by the big keys. @param {any} state @param {JobRow | null} row at which it is set @param {() => void} [after] */
  function byHand(state, row, after) {
    const about = { title: "Set a timer", unit: "min", limits: `Whole or part minutes, up to ${words.span(LONGEST)}.`, value: "", least: 0, high: LONGEST, label: "Start it", plain: true };
    seambook.bayKeypad.ask(about, (/** @type {string} */ text) => {
      const minutes = words.typed(text);
      if (minutes === null || minutes <= 0 || minutes > LONGEST) return;
      seambook.bayTimers.setByHand(state, minutes, `Timer of ${words.number(minutes)} min`, row?.id || "");
      after?.();
    });
  }

  seambook.bayTimerSet = { watchPoint, byHand };
})();
