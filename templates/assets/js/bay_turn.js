/* What the large key of the bay does at a step: what is to be put down first, the tick, the release, or the way to what is next. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { jobTicks, jobKept, bayStand } = seambook;

  /** @param {string} id */
  function press(id) {
    const found = document.getElementById(id);
    found?.scrollIntoView({ block: "center" });
    found?.focus({ preventScroll: true });
    return found;
  }

  /** What is missing before a step can be ticked, as the key says it. @param {any} bay @param {any[]} missing @returns {Turn} */
  function first(bay, missing) {
    const [one] = missing;
    if (one.sort === "photo") return { label: "Photograph first", take: () => void press("bay_photo")?.click() };
    const n = seambook.asBuilt.ofStep(bay.state, bay.row).findIndex((/** @type {AsBuiltRow} */ { id }) => id === one.id);
    if (one.sort === "reading") return { label: `Measure: ${one.name}`, take: () => void press(`bay_measure-${n}`)?.click() };
    return { label: "Out: measure or release", take: () => void press(`bay_out-${n}-by`) };
  }

  /** The way on from a step that is not to be ticked now. @param {any} bay @returns {Turn} */
  function onward(bay) {
    const { stand, row, go } = bay;
    const next = bayStand.after(stand, stand.at.get(row.id) ?? 0);
    if (!next) return { label: "All steps are done", take: () => bay.end() };
    if (next.id !== row.id && stand.states.get(next.id).sort === "next") return { label: `Go to step ${next.number || "+"}`, take: () => go(next.id) };
    const [held] = stand.holds;
    if (held && held.id !== row.id) return { label: `Release step ${held.number}`, take: () => go(held.id) };
    const [out] = stand.readings;
    if (out && out.step !== row.id) return { label: `Out of tolerance: ${out.name}`, take: () => go(out.step) };
    if (row.done && next.id !== row.id) return { label: `Go to step ${next.number || "+"}`, take: () => go(next.id) };
    const until = stand.states.get(row.id)?.until;
    if (until && until <= Date.now()) return { label: "Answer the watch", take: () => void /** @type {any} */ (document.querySelector("#bay_timers .is-calling .bay-timer-press button"))?.focus() };
    return { label: until ? `Wait until ${bayStand.clock(until)}` : "Where to?", isQuiet: true, take: () => bay.where() };
  }

  /** @param {any} bay @returns {Turn} */
  function of(bay) {
    const { row, status, stand, state } = bay;
    if (!row) return { label: "Where to?", isQuiet: true, take: () => bay.where() };
    const isHeld = jobTicks.isHold(row.step) && row.done && !jobKept.of(state.job.releases, row);
    if (isHeld) return { label: "Release, next", take: () => bay.release() };
    if (row.done) return onward(bay);
    if (stand.isSketch) return { label: "Working out the order\u2026", isQuiet: true, take: () => bay.say("The order of the whole job is being worked out. A moment.") };
    if (status.sort !== "next") {
      const own = bayStand.missing(state, row).filter((/** @type {any} */ { sort }) => sort === "out");
      return own.length ? first(bay, own) : onward(bay);
    }
    const missing = bayStand.missing(state, row);
    if (missing.length) return first(bay, missing);
    return { label: jobTicks.isHold(row.step) ? "Done, then release" : "Done, next", take: () => bay.done() };
  }

  seambook.bayTurn = { of };
})();
