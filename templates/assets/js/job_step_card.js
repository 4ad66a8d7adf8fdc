/* One step of a job as it is worked from: dangers first, what to do, readings, the hold point, notes, and its tick. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;
  const ticks = seambook.jobTicks;
  const { danger, limits, link, verdict } = seambook.jobParts;

  /** @param {any} state @param {JobRow} row */
  function timing(state, { step, minutes, until, end }) {
    const place = state.book.planning?.places?.[step.place]?.say || step.place;
    const waits = step.wait ? `${words.span(step.wait.least)}${step.wait.most ? ` to ${words.span(step.wait.most)}` : ""}${step.wait.for ? `, ${step.wait.for}` : ""}` : "";
    const said = [
      ["Time", `${words.span(minutes)}${step.hands > 1 ? `, ${step.hands} people` : ""}`], place && ["Place", place],
      waits && ["Then wait", until > end ? `${waits}; until ${words.moment(until)}` : waits],
      step.on?.length && ["On", step.on.join(", ")],
    ].filter(Boolean);
    return el("dl", { class: "rows timing" }, ...said.map((/** @type {any} */ [label, text]) => el("div", {}, el("dt", { text: label }), el("dd", { text }))));
  }

  /** What the job's reading of a measure says. @param {any} state @param {JobRow} row @param {any} measure @returns {AsBuiltRow | undefined} */
  function readingOf(state, row, measure) {
    const all = state.asBuilt || seambook.asBuilt.rows(state);
    return all.find((/** @type {AsBuiltRow} */ one) => one.step === row.id && one.name === measure.name);
  }

  /** Put what was found down, with who and when; an empty field takes it out. @param {any} state @param {string} key @param {string} unit @param {string} gaugeId */
  function entering(state, key, unit, gaugeId) {
    return (/** @type {any} */ job, /** @type {string} */ text) => {
      job.readings = job.readings || {};
      const found = words.typed(text);
      if (found === null) return void (text.trim() ? null : delete job.readings[key]);
      const { released, ...before } = job.readings[key] || {};
      if (released && before.found === found) before.released = released;
      job.readings[key] = { ...before, found, unit, by: entries.name(), at: words.stamp(Date.now()), gauge: entries.valueOf(gaugeId) || before.gauge || "" };
    };
  }

  /** The fields of a step's measures. @param {any} state @param {JobRow} row @param {string} at  What the ids begin with. */
  function readings(state, row, at) {
    const measures = row.step.measures || [];
    if (!measures.length) return null;
    const gaugeId = `${at}_gauge`;
    const kept = measures.map((/** @type {any} */ measure) => readingOf(state, row, measure));
    const gauge = kept.find((/** @type {any} */ one) => one?.gauge)?.gauge || "";
    const tools = (row.step.tools || []).map((/** @type {string} */ id) => state.book.tools?.[id]?.title || id);
    const setGauge = (/** @type {any} */ job, /** @type {string} */ text) => {
      for (const one of kept) if (one && job.readings?.[one.id]) job.readings[one.id].gauge = text.trim();
    };
    return el(
      "fieldset", { class: "job-readings" }, el("legend", { text: "Readings" }),
      ...measures.map((/** @type {any} */ measure, /** @type {number} */ index) => reading(state, measure, kept[index], `${at}_reading-${index}`, gaugeId)),
      entries.field({ id: gaugeId, label: "Measured with", value: gauge, edit: setGauge, list: tools, note: tools.length ? `For instance: ${tools.slice(0, 3).join(", ")}` : "" })
    );
  }

  /** @param {any} state @param {any} measure @param {AsBuiltRow | undefined} kept @param {string} id @param {string} gaugeId */
  function reading(state, measure, kept, id, gaugeId) {
    const said = kept && kept.found !== null ? verdict(kept) : null;
    const made = entries.field({
      id, label: measure.name, value: kept && kept.found !== null ? words.number(kept.found) : "", unit: measure.say || measure.unit, number: true,
      note: limits(measure), edit: kept ? entering(state, kept.id, kept.kept, gaugeId) : undefined, style: "job-reading",
    });
    if (said) made.append(el("p", { class: `found-verdict ${said.style}`, text: said.text }));
    return made;
  }

  /** @param {any} state @param {JobRow} row @param {string} at */
  function hold(state, row, at) {
    const point = row.step.hold;
    if (!point) return null;
    const release = seambook.jobKept.of(state.job.releases, row);
    const said = [
      el("p", { class: "hold-word" }, el("strong", { text: point.sort }), point.releases ? el("span", { text: `Released by: ${point.releases}` }) : null),
      point.proof ? el("p", { text: point.proof }) : null,
    ];
    const form = !ticks.isHold(row.step) ? null : release ? released(state, row, release) : row.done ? releaseForm(row.id, at, "What it was released on") : el("p", { class: "note", text: "To be released when the step is done." });
    return el("div", { class: "hold" }, el("div", { class: "hold-sheet" }, ...said, form));
  }

  /** @param {any} state @param {JobRow} row @param {any} release */
  function released(state, row, release) {
    const isOwn = row.done?.by && row.done.by === release.by;
    const said = `Released ${words.said(release.at)} by ${release.by}${isOwn ? ", who did the step" : ""}${release.reason ? `: ${release.reason}` : ""}`;
    return el("p", { class: "released" }, el("strong", { text: said }));
  }

  /** A name and a reason, and the button that releases. @param {string} key @param {string} at @param {string} label */
  function releaseForm(key, at, label) {
    const [who, why] = [`${at}_release-by`, `${at}_release-why`];
    const go = () => {
      if (!entries.valueOf(who)) return entries.fault(who, "Say who releases it.");
      if (!entries.valueOf(why)) return entries.fault(why, "Say what it is released on.");
      const said = { by: entries.valueOf(who), at: words.stamp(Date.now()), reason: entries.valueOf(why) };
      return entries.change((/** @type {any} */ job) => ticks.release(job, key, said), "job_next");
    };
    return el(
      "div", { class: "job-release" }, entries.field({ id: who, label: "Released by" }), entries.field({ id: why, label, most: 1000 }),
      el("button", { type: "button", class: "control", id: `${at}_release`, text: "Release", on: { click: go } })
    );
  }

  /** @param {any} state @param {JobRow} row @param {StepState} status @param {string} at */
  function tick(state, row, status, at) {
    if (row.done) {
      const taken = typeof row.done.minutes === "number" ? `, ${words.span(row.done.minutes)} of ${words.span(row.minutes)} planned` : "";
      return el(
        "div", { class: "job-tick" }, el("p", { class: "ticked", text: `\u2713 Done ${words.said(row.done.at)} by ${row.done.by || "nobody named"}${taken}` }),
        el("button", { type: "button", class: "control", id: `${at}_back`, text: "Take the tick back", on: { click: () => entries.change((/** @type {any} */ job) => ticks.untick(job, row), `${at}_done`) } })
      );
    }
    if (status.sort !== "next") return reasons(state, status);
    return doneForm(state, row, at);
  }

  /** @param {any} state @param {JobRow} row @param {string} at */
  function doneForm(state, row, at) {
    const [who, took] = [`${at}_by`, `${at}_minutes`];
    const go = () => {
      const [by, text] = [entries.valueOf(who), entries.valueOf(took)];
      if (!by) return entries.fault(who, "Say who did it.");
      const minutes = text ? words.typed(text) : null;
      if (text && (minutes === null || minutes < 0)) return entries.fault(took, "Write the minutes as a number.");
      entries.keepName(by);
      const said = { at: words.stamp(Date.now()), by, minutes };
      entries.change((/** @type {any} */ job) => ticks.tick(job, row, said), ticks.isHold(row.step) ? "job_held" : "job_next");
      return state.say?.(`Step ${row.number} is done.`);
    };
    return el(
      "div", { class: "job-tick" },
      el("div", { class: "job-tick-fields" }, entries.field({ id: who, label: "Done by", value: entries.name() }), entries.field({ id: took, label: "Minutes it took", number: true, placeholder: String(row.minutes) })),
      el("button", { type: "button", class: "primary", id: `${at}_done`, text: "Done", on: { click: go } })
    );
  }

  /** Why a step is not to be done now. @param {any} state @param {StepState} status */
  function reasons(state, { why }) {
    const shown = why.slice(0, 3).map(({ say, id }) => el("li", {}, say, id ? [": ", link(state, id)] : null));
    if (why.length > 3) shown.push(el("li", { text: `and ${why.length - 3} more` }));
    return el("div", { class: "job-reasons" }, el("p", { class: "label", text: "Not yet" }), el("ul", { class: "list" }, ...shown));
  }

  /** @param {any} state @param {JobRow} row @param {string} at */
  function note(state, row, at) {
    const key = seambook.jobKept.keyOf(state.job.notes_by_step, row);
    const value = state.job.notes_by_step?.[key] || "";
    const edit = (/** @type {any} */ job, /** @type {string} */ text) => {
      job.notes_by_step = job.notes_by_step || {};
      if (text.trim()) job.notes_by_step[key] = text.trim();
      else delete job.notes_by_step[key];
    };
    return entries.field({ id: `${at}_note`, label: "Note", value, edit, rows: value ? 3 : 1 });
  }

  /** @param {any} state @param {JobRow} row @param {StepState} status @param {string} prefix */
  function card(state, row, status, prefix) {
    const at = `${prefix}_${entries.idOf(row.id)}`;
    const { step } = row;
    const marks = (/** @type {string} */ name, /** @type {any} */ maker) => {
      const place = el("div", { class: "job-marks", id: `${at}_${name}`, tabindex: "-1" });
      maker.mark(place, state, row);
      return place.childElementCount ? place : null;
    };
    return [
      marks("standing", seambook.jobStatus),
      ...(step.hazards || []).map((/** @type {string} */ id) => danger(state.book, id)), marks("changed", seambook.jobSeen),
      el("p", { class: "do" }, row.href ? el("a", { href: row.href, text: step.do }) : step.do),
      step.key_point ? el("p", { class: "key", text: step.key_point }) : null,
      step.expect ? el("p", { class: "expect" }, el("span", { class: "label", text: "You should see" }), ` ${step.expect}`) : null,
      timing(state, row), readings(state, row, at),
      step.photo ? seambook.jobPhotos.block(state, row, at) : null,
      tick(state, row, status, at), hold(state, row, at), note(state, row, at),
    ];
  }

  seambook.jobStepCard = { card, releaseForm, entering, reading };
})();
