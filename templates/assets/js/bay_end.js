/* What is shown when every step is done: what is still open, and what becomes of the record. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;

  /** @param {any} bay @returns {(Node | null)[]} */
  function parts(bay) {
    const { state, stand } = bay;
    const counts = seambook.asBuilt.counts(seambook.asBuilt.rows(state));
    const job = `${state.root}jobs.html#job=${encodeURIComponent(state.job.id)}&view=`;
    const said = [
      ["Steps done", `${stand.count} of ${stand.rows.length}`], ["Readings", `${counts.entered} of ${counts.all}`],
      ["Out of tolerance, released", String(counts.out - counts.holding)], ["Photographs", String(Object.values(state.job.photos || {}).flat().filter((/** @type {any} */ one) => one.data).length)],
    ];
    return [el("article", { class: "bay-step bay-end" }, el("h2", { class: "do", id: "bay_do", tabindex: "-1", text: "All steps are done" }),
      el("dl", { class: "rows" }, said.map(([label, text]) => el("div", {}, el("dt", { text: label }), el("dd", { text })))),
      seambook.bayWays.stands(bay),
      el("p", { text: "Save the file: it holds every tick, reading, release, note and photograph." }),
      el("div", { class: "bay-list" },
        el("button", { type: "button", class: "control bay-wide", id: "bay_end-save", text: "Save the file", on: { click: () => bay.saveFile() } }),
        el("a", { class: "control bay-wide", href: `${job}as-built`, text: "The sheet of readings" }), el("a", { class: "control bay-wide", href: `${job}print`, text: "Print" }),
        state.job.alone ? el("button", { type: "button", class: "control bay-wide", id: "bay_end-afresh", text: "Begin this procedure afresh", on: { click: () => bay.afresh() } }) : null),
      state.job.changed ? el("p", { class: "note", text: `Last changed ${words.said(state.job.changed)}.` }) : null)];
  }

  seambook.bayEnd = { parts };
})();
