/* The traveller: all steps of a job in order on paper, with boxes for tick, initials and readings. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;

  /** A danger in full where it first arises on the paper, and by name after that. @param {any} book @param {string} id @param {Set<string>} told */
  function danger(book, id, told) {
    const hazard = book.hazards?.[id];
    if (!hazard) return null;
    const isTold = told.has(id);
    told.add(id);
    return el("p", { class: `traveller-danger${isTold ? " is-told" : ""}` }, el("strong", { text: hazard.say || hazard.signal }), ` ${hazard.title}${isTold ? "" : `: ${hazard.avoid || hazard.danger || ""}`}`);
  }

  /** @param {any} state @param {JobRow} row */
  function readings(state, row) {
    return (row.step.measures || []).map((/** @type {any} */ measure) => {
      const kept = seambook.jobKept.of(state.job.readings, row, `/${measure.name}`);
      return el("div", { class: "traveller-reading" }, el("span", { text: `${measure.name}: ${seambook.jobParts.limits(measure)}` }),
        el("span", { class: "box wide", text: kept && Number.isFinite(kept.found) ? `${words.number(kept.found)} ${measure.say || measure.unit}` : "" }));
    });
  }

  /** @param {any} state @param {JobRow} row */
  function hold(state, row) {
    const point = row.step.hold;
    if (!point) return null;
    const release = seambook.jobKept.of(state.job.releases, row);
    return el(
      "div", { class: "traveller-hold" }, el("p", {}, el("strong", { text: `${point.sort} point. ` }), [point.proof, point.releases ? `Released by: ${point.releases}` : ""].filter(Boolean).join(" ")),
      release ? el("p", { text: `Released ${words.said(release.at)} by ${release.by}${release.reason ? `: ${release.reason}` : ""}` })
        : el("p", { class: "traveller-signs" }, el("span", { class: "box wide", text: "Name" }), el("span", { class: "box wide", text: "Date, time" }))
    );
  }

  /** @param {any} state @param {JobRow} row @param {Set<string>} told */
  function line(state, row, told) {
    const { step, done } = row;
    const place = state.book.planning?.places?.[step.place]?.say || step.place;
    const about = [
      row.title, seambook.jobStatus.word(row), words.span(row.minutes), step.hands > 1 ? `${step.hands} people` : "", place,
      row.until > row.end ? `then wait until ${words.moment(row.until)}` : "", row.critical ? "critical" : "", row.waiting ? "waits for the customer" : "",
    ].filter(Boolean).join(" \u00b7 ");
    const written = seambook.jobKept.of(state.job.notes_by_step, row);
    return el(
      "article", { class: "traveller-step" },
      el("div", { class: "traveller-time" }, el("strong", { text: words.clock(row.start) }), el("span", { text: row.number })),
      el("div", { class: "traveller-body" }, ...(step.hazards || []).map((/** @type {string} */ id) => danger(state.book, id, told)),
        el("p", { class: "traveller-do", text: step.do }), step.key_point ? el("p", { class: "traveller-key", text: step.key_point }) : null,
        el("p", { class: "note", text: about }), ...readings(state, row), step.photo ? el("p", {}, el("strong", { text: "Photograph: " }), step.photo) : null,
        hold(state, row), written ? el("p", {}, el("strong", { text: "Note: " }), written) : null),
      el("div", { class: "traveller-boxes" }, el("span", { class: "box tick-box", text: done ? "\u2713" : "" }), el("span", { class: "box", text: done ? `${done.by || "nobody named"}${typeof done.minutes === "number" ? `, ${done.minutes} min` : ""}` : "Initials" }))
    );
  }

  /** @param {any} state @param {JobRow[]} rows @returns {Node[]} */
  function make(state, rows) {
    /** @type {Set<string>} */
    const told = new Set();
    /** @type {Node[]} */
    const parts = [el("h2", { class: "traveller-title", text: "Traveller" })];
    let day = "";
    for (const row of rows) {
      if (words.day(row.start) !== day) parts.push(el("h3", { class: "traveller-day", text: (day = words.day(row.start)) }));
      parts.push(line(state, row, told));
    }
    return parts;
  }

  seambook.jobTraveller = { make };
})();
