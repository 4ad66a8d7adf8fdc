/* The readings of a step: a key for each that opens the keypad, its limits and its verdict. Needs bay_keypad.js, bay_release.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;
  const GAUGE = "bay_gauge";

  /** @param {any} bay @param {AsBuiltRow} one */
  function enter(bay, one) {
    const edit = seambook.jobStepCard.entering(bay.state, one.id, one.kept, GAUGE);
    const value = one.found === null ? "" : String(one.found);
    const limits = seambook.jobParts.limits({ low: one.low, high: one.high, unit: one.unit });
    seambook.bayKeypad.ask({ title: one.name, unit: one.unit, limits, value, low: one.low, high: one.high }, (/** @type {string} */ text) => {
      bay.change((/** @type {any} */ job) => edit(job, text));
    });
  }

  /** @param {any} bay @param {AsBuiltRow} one @param {number} n */
  function measure(bay, one, n) {
    const isRead = one.found !== null;
    const unread = seambook.bayStand.notMeasured(one.name);
    const isExcused = !isRead && (seambook.jobKept.of(bay.state.job.notes_by_step, bay.row) || "").includes(unread);
    const said = seambook.bayKeypad.said(one.found, one);
    const value = isRead ? `${words.number(Number(one.found))} ${one.unit}` : isExcused ? "not measured" : "Enter";
    return el("div", { class: `bay-measure${one.holds ? " is-out" : ""}` },
      el("button", { type: "button", class: "control bay-reading", id: `bay_measure-${n}`, on: { click: () => enter(bay, one) } },
        el("span", { class: "bay-reading-name", text: one.name }), el("span", { class: "bay-reading-value", text: value })),
      el("p", { class: "bay-limits" }, el("span", { text: seambook.jobParts.limits({ low: one.low, high: one.high, unit: one.unit }) }),
        isRead ? el("strong", { class: `found-verdict ${said.style}`, text: said.text }) : null),
      one.released ? el("p", { class: "note", text: `Released by ${one.released.by}: ${one.released.reason || ""}` }) : null,
      one.holds ? seambook.bayRelease.reading(bay, one.id, n) : null,
      isRead || isExcused ? null : excuse(bay, unread, n));
  }

  /** A reading that cannot be taken is not left out in silence. @param {any} bay @param {string} start @param {number} n */
  function excuse(bay, start, n) {
    const id = `bay_unread-${n}`;
    const take = () => {
      const why = entries.valueOf(id);
      if (!why) return entries.fault(id, "Say why.");
      return bay.note(start + why);
    };
    return el("details", { class: "bay-fold", id: `${id}_fold` }, el("summary", { text: "It cannot be measured, because\u2026" }),
      entries.field({ id, label: "Why it is not measured", most: 1000 }), el("button", { type: "button", class: "control", id: `${id}_take`, text: "Put this down", on: { click: take } }));
  }

  /** What the readings were taken with; kept with each of them. @param {any} bay @param {AsBuiltRow[]} all */
  function gauge(bay, all) {
    const tools = (bay.row.step.tools || []).map((/** @type {string} */ id) => bay.state.book.tools?.[id]?.title || id);
    if (!tools.length) return null;
    const kept = all.find((one) => one.gauge)?.gauge || "";
    /** @type {[string, string][]} */
    const choices = [["", "not said"], ...[...new Set([kept, ...tools])].filter(Boolean).map((/** @type {string} */ one) => /** @type {[string, string]} */ ([one, one]))];
    const edit = (/** @type {any} */ job, /** @type {string} */ text) => {
      for (const { id } of all) if (job.readings?.[id]) job.readings[id].gauge = text;
    };
    return entries.choice({ id: GAUGE, label: "Measured with", value: kept, choices, edit });
  }

  /** @param {any} bay */
  function block(bay) {
    const all = seambook.asBuilt.ofStep(bay.state, bay.row);
    if (!all.length) return null;
    return el("section", { class: "bay-measures" }, el("h3", { text: "Readings" }), ...all.map((/** @type {AsBuiltRow} */ one, /** @type {number} */ n) => measure(bay, one, n)), gauge(bay, all));
  }

  seambook.bayMeasures = { block };
})();
