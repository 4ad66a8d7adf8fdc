/* One step as the bay shows it: danger first, what to do, how it is known to be right, then what is put down. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;

  /** Words of the book, in the reader's units. @param {string} style @param {string | undefined} html */
  function piece(style, html) {
    if (!html) return null;
    const made = el("div", { class: style }, ...seambook.folder.nodes(html));
    swapUnits(made);
    return made;
  }

  /** The book is written in one system of units; what is put into the page later follows the reader's choice.
   * @param {HTMLElement} place */
  function swapUnits(place) {
    const { units } = seambook;
    if (!units || units.system() === units.first) return;
    for (const one of place.querySelectorAll("[data-q]")) {
      const other = one.getAttribute("data-q") || "";
      one.setAttribute("data-q", one.textContent || "");
      one.textContent = other;
    }
  }

  /** The pieces of a step. @param {string} id */
  function partsOf(id) {
    const { procedure, key } = seambook.jobRows.runOf(id);
    const all = seambook.bayParts?.[procedure];
    return { banner: all?.banner || "", hazards: all?.hazards || {}, step: all?.steps?.[key] || null };
  }

  /** Every danger of a step, gravest first, also of the procedures that it is done for as well. @param {any} bay */
  function dangers({ row, state }) {
    const known = Object.assign({}, ...[...row.also, row.id].map((/** @type {string} */ id) => partsOf(id).hazards));
    const rank = (/** @type {string} */ id) => state.book.hazards?.[id]?.rank || 9;
    const ids = [...(row.step.hazards || [])].sort((one, other) => rank(one) - rank(other));
    return ids.map((id) => (known[id] ? piece("bay-danger", known[id]) : seambook.jobParts.danger(state.book, id)));
  }

  /** What to do, while its words are still being loaded and for work of a finding: as the job has it. @param {JobRow} row */
  function plain({ step }) {
    return el("div", { class: "bay-told" }, el("h2", { class: "do", id: "bay_do", tabindex: "-1", text: step.do }),
      step.key_point ? el("div", { class: "key", text: step.key_point }) : null,
      step.expect ? el("div", { class: "expect" }, el("span", { class: "label", text: "You should see" }), ` ${step.expect}`) : null);
  }

  /** Whose step it is, and which part of the work. @param {any} bay */
  function where({ row, state }) {
    const { procedure } = seambook.jobRows.runOf(row.id);
    const phase = state.library[procedure]?.phases?.[row.step.phase || 0] || "";
    return el("p", { class: "bay-where" }, el("span", { text: state.job.alone ? phase : [row.title, phase].filter(Boolean).join(" \u00b7 ") }));
  }

  /** A tick, or why there can be none yet. @param {any} bay */
  function standing(bay) {
    const { row, status, go, state } = bay;
    if (row.done) {
      return el("div", { class: "bay-standing" }, el("p", { class: "ticked", text: `\u2713 Done ${words.said(row.done.at)}${row.done.by ? ` by ${row.done.by}` : ""}` }),
        el("button", { type: "button", class: "control", id: "bay_undo", text: "Take the tick back", on: { click: () => bay.untick() } }));
    }
    if (status.sort === "next") return null;
    const reasons = status.why.slice(0, 4).map((/** @type {Reason} */ { say, id }, /** @type {number} */ n) => el("li", {}, el("span", { text: id ? `${say}:` : say }),
      id ? el("button", { type: "button", class: "control bay-reason", id: `bay_why-${n}`, text: seambook.jobRows.named(state, id), on: { click: () => go(id) } }) : null));
    const more = status.why.length - reasons.length;
    return el("section", { class: "bay-standing bay-not-yet", "aria-label": "Not yet" }, el("p", { class: "label", text: "Not yet" }),
      el("ul", { class: "list" }, reasons, more > 0 ? el("li", { text: `and ${more} more` }) : null),
      status.sort === "waiting" ? el("p", {}, el("a", { class: "control", href: `${state.root}jobs.html#job=${encodeURIComponent(state.job.id)}&view=findings`, text: "Findings and answers" })) : null,
      status.sort === "wait" ? early(bay) : null);
  }

  /** Whoever sees that a wait is over before the clock says so, answers for it. @param {any} bay */
  function early(bay) {
    const take = () => {
      const why = entries.valueOf("bay_early");
      if (!why) return entries.fault("bay_early", "Say why it need not wait.");
      return bay.done(`Done before the wait was over: ${why}`);
    };
    return el("details", { class: "bay-fold", id: "bay_early_fold" }, el("summary", { text: "Done all the same, because\u2026" }),
      entries.field({ id: "bay_early", label: "Why it need not wait", most: 1000 }), el("button", { type: "button", class: "control", id: "bay_early_take", text: "Done all the same", on: { click: take } }));
  }

  /** Everything that a step says, from the danger to the note. @param {any} bay @returns {(Node | null)[]} */
  function parts(bay) {
    const { row, state } = bay;
    const { step: own, banner } = partsOf(row.id);
    const drawing = el("div", { class: "bay-drawing" });
    void seambook.bayDrawing.fill(drawing, row.step, own?.draws || "");
    const made = el("article", { class: `bay-step${row.done ? " is-done" : ""}`, "aria-labelledby": "bay_do" },
      banner && !seambook.jobStatus ? el("p", { class: "banner", role: "note", text: banner }) : null, where(bay), standing(bay), dangers(bay),
      el("p", { class: "bay-number-of", "aria-hidden": "true", text: row.number || "+" }),
      own ? piece("bay-told", own.told) : plain(row), drawing,
      seambook.bayTimerSet?.watchPoint(state, row), seambook.bayMeasures.block(bay), seambook.bayPhoto.wanted(bay), seambook.bayRelease.point(bay, row), seambook.bayPhoto.note(bay),
      piece("bay-beside", own?.beside),
      row.href ? el("p", { class: "bay-more" }, el("a", { class: "control", href: row.href, text: "This step on its page" })) : null,
      el("p", { class: "bay-more" }, el("button", { type: "button", class: "control", id: "bay_on", text: "Look on without a tick", on: { click: () => bay.lookOn() } })));
    seambook.jobStatus?.mark(made, state, row);
    seambook.jobSeen?.mark(made, state, row);
    return [made];
  }

  seambook.bayStep = { parts };
})();
