/* The steps of a job to work from: what is next, what is held, and all of them by day. On paper they are the traveller. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;
  const ticks = seambook.jobTicks;
  const SAID = { done: "done", next: "may be done now", held: "held", waiting: "waits for the customer", later: "" };
  const MEANWHILE = 4;
  /** What a reader has unfolded or folded, by job; days and steps by their ids. @type {Map<string, boolean>} */
  const folds = new Map();

  /** Details that stay as they were left when the view is drawn anew; the body is made when it is unfolded first.
   * @param {string} id @param {boolean} isOpen @param {any[]} head @param {() => any[]} body @param {string} style */
  function fold(id, isOpen, head, body, style) {
    const open = folds.get(id) ?? isOpen;
    const made = el("details", { class: style, open });
    const fill = () => made.append(...body().filter(Boolean));
    const toggle = () => {
      folds.set(id, !made.open);
      if (!made.open && made.childElementCount === 1) fill();
    };
    made.append(el("summary", { id, on: { click: toggle } }, ...head));
    if (open) fill();
    return made;
  }

  /** @param {any} state @param {JobRow[]} rows */
  function progress({ planned }, rows) {
    const count = rows.filter(({ done }) => done).length;
    const said = [
      ["Steps done", `${count} of ${rows.length}`], ["Time left", words.span(planned.left)], ["Car done", words.moment(planned.likely || planned.finish)],
    ];
    return el("dl", { class: "rows job-progress" }, ...said.map(([label, text]) => el("div", {}, el("dt", { text: label }), el("dd", { text }))));
  }

  /** What stops the work until somebody releases it. @param {any} state @param {JobRow[]} rows */
  function held(state, rows) {
    const { holds, readings } = ticks.open(state, rows);
    if (!holds.length && !readings.length) return null;
    const points = holds.map((/** @type {JobRow} */ row) => {
      const at = `held_${entries.idOf(row.id)}`;
      return el("li", {}, el("p", {}, el("strong", { text: `${row.number} ` }), seambook.jobParts.link(state, row.id), row.step.hold.proof ? `: ${row.step.hold.proof}` : ""),
        row.step.hold.releases ? el("p", { class: "note", text: `To be released by: ${row.step.hold.releases}` }) : null, seambook.jobStepCard.releaseForm(row.id, at, "What it was released on"));
    });
    const outside = readings.map((/** @type {AsBuiltRow} */ row) => {
      const at = `held_${entries.idOf(row.id)}`;
      return el("li", {}, el("p", {}, el("strong", { text: row.name }), `: ${words.number(Number(row.found))} ${row.unit}, `, el("span", { class: "found-verdict is-out", text: seambook.jobParts.verdict(row).text }), " ", seambook.jobParts.link(state, row.step)),
        el("p", { class: "note", text: "It holds the whole job until it is right, or released with a reason." }), seambook.jobStepCard.releaseForm(row.id, at, "Why it may stay"));
    });
    return el("section", { class: "block job-held" }, el("div", { class: "hold" }, el("div", { class: "hold-sheet" },
      el("h2", { id: "job_held", tabindex: "-1", text: "Held" }), el("ul", { class: "list" }, ...points, ...outside))));
  }

  /** @param {any} state @param {JobRow[]} rows @param {Map<string, StepState>} states */
  function next(state, rows, states) {
    const ready = rows.filter(({ id }) => states.get(id)?.sort === "next");
    const heading = (/** @type {string} */ text) => el("h2", { id: "job_next", tabindex: "-1", text });
    if (!ready.length) {
      const isDone = rows.every(({ done }) => done);
      return el("section", { class: "block" }, heading(isDone ? "All steps are done" : "Nothing may be done now"), isDone ? null : el("p", { text: stopped(rows, states) }));
    }
    const [row, ...others] = ready;
    const meanwhile = others.slice(0, MEANWHILE).map((one) =>
      el("li", {}, el("button", { type: "button", class: "control", id: `to_${entries.idOf(one.id)}`, on: { click: () => show(one.id) } }, `${one.number} ${short(one.step.do)}`), el("span", { class: "note", text: one.title })));
    return el(
      "section", { class: "block job-next" }, heading("Next"),
      el("article", { class: "job-now" }, el("p", { class: "job-now-head" }, el("span", { class: "step-number", text: row.number }), el("span", {}, el("strong", { text: row.title }), el("span", { class: "note", text: ` ${words.moment(row.start)}` }))),
        ...seambook.jobStepCard.card(state, row, states.get(row.id), "next")),
      meanwhile.length ? [el("h3", { text: "Or now, with free hands" }), el("ul", { class: "list job-meanwhile" }, ...meanwhile)] : null
    );
  }

  /** @param {JobRow[]} rows @param {Map<string, StepState>} states */
  function stopped(rows, states) {
    const count = (/** @type {string} */ sort) => rows.filter(({ id }) => states.get(id)?.sort === sort).length;
    return count("waiting") && !count("held") ? "What is left waits for the customer's answer to a finding." : "Release what is held above, or see what each step below waits for.";
  }

  /** @param {string} text */
  function short(text) {
    return text.length > 60 ? `${text.slice(0, 58).trimEnd()}\u2026` : text;
  }

  /** Unfold a step in the list below and go to it. @param {string} id */
  function show(id) {
    const place = document.getElementById(`step_${entries.idOf(id)}`);
    const day = place?.closest("details.job-day") || document.querySelector(`details[data-ids~="${CSS.escape(id)}"]`);
    const summary = day?.querySelector("summary");
    if (day instanceof HTMLDetailsElement && !day.open) summary?.click();
    const step = document.getElementById(`step_${entries.idOf(id)}`);
    const own = step?.closest("details");
    if (own && !own.open) step?.click();
    step?.focus();
    step?.scrollIntoView({ block: "start" });
  }

  /** @param {any} state @param {JobRow} row @param {StepState} status */
  function line(state, row, status) {
    const marks = [SAID[status.sort], row.step.hold && !seambook.jobKept.of(state.job.releases, row) ? `${row.step.hold.sort} point` : "", row.critical && !row.done ? "critical" : "", seambook.jobStatus.word(row)].filter(Boolean);
    const missing = row.done ? ticks.missing(state.job, row).length : 0;
    if (missing) marks.push(`${words.counted(missing, "reading")} not entered`);
    const head = [
      el("span", { class: "job-line-time", text: words.clock(row.start) }),
      el("span", { class: "job-line-do" }, el("strong", { text: `${row.done ? "\u2713 " : ""}${row.number}` }), ` ${row.step.do}`, el("span", { class: "note", text: [row.title, ...marks].join(" \u00b7 ") })),
    ];
    return fold(`step_${entries.idOf(row.id)}`, false, head, () => seambook.jobStepCard.card(state, row, status, "list"), `job-step is-${status.sort}`);
  }

  /** @param {any} state @param {JobRow[]} rows @param {Map<string, StepState>} states */
  function days(state, rows, states) {
    /** @type {Map<string, JobRow[]>} */
    const found = new Map();
    for (const row of rows) found.set(words.day(row.start), [...(found.get(words.day(row.start)) || []), row]);
    const today = rows.find(({ done }) => !done);
    const all = [...found].map(([day, own]) => {
      const count = own.filter(({ done }) => done).length;
      const said = count === own.length ? "all done" : count ? `${count} done` : "";
      const head = [el("strong", { text: day }), el("span", { class: "note", text: [words.counted(own.length, "step"), said].filter(Boolean).join(", ") })];
      const isOpen = !!today && own.includes(today);
      const made = fold(`day_${entries.idOf(day)}`, isOpen, head, () => own.map((row) => line(state, row, /** @type {StepState} */ (states.get(row.id)))), "job-day");
      made.dataset.ids = own.map(({ id }) => id).join(" ");
      return made;
    });
    return el("section", { class: "block only-screen" }, el("h2", { text: "All steps by day" }), ...all);
  }

  /** What ticked steps took against the minutes that their records say: for whoever keeps the records. @param {JobRow[]} rows */
  function taken(rows) {
    const own = rows.filter(({ done }) => typeof done?.minutes === "number" && done.minutes > 0);
    if (!own.length) return null;
    const sum = (/** @type {(row: JobRow) => number} */ of) => own.reduce((whole, row) => whole + of(row), 0);
    const lines = own.map((row) => {
      const written = row.step.minutes || 0;
      const share = written ? `${words.number(row.done.minutes / written, 2)} times` : "\u2013";
      return { cells: [[el("a", { href: row.href, text: `${row.number} ${row.step.do}` })], row.title, words.span(written), words.span(row.done.minutes), share] };
    });
    const said = `${words.counted(own.length, "step")} took ${words.span(sum(({ done }) => done.minutes))}; their records say ${words.span(sum(({ step }) => step.minutes || 0))}. Where a step takes another time on car after car, its record should say so.`;
    const head = [el("strong", { text: "What steps took" }), el("span", { class: "note", text: words.counted(own.length, "step") })];
    return el("section", { class: "block" }, fold("steps_taken", false, head, () => [el("p", { text: said }), seambook.jobParts.table("What steps took", ["Step", "Procedure", "In its record", "Taken", "Share"], lines)], "job-day"));
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = seambook.jobParts.here(given);
    state.asBuilt = seambook.asBuilt.rows(state);
    const rows = seambook.jobRows.of(state);
    seambook.jobPaper.head(state.job);
    if (!rows.length) return void entries.redraw(place, state, [el("p", { class: "none", text: "There are no steps yet. Choose procedures first." })]);
    const states = ticks.states(state, rows);
    const screen = el("div", { class: "only-screen" }, progress(state, rows), held(state, rows), next(state, rows, states), days(state, rows, states), taken(rows));
    entries.redraw(place, state, [screen, seambook.jobPaper.place(() => seambook.jobTraveller.make(state, rows))]);
  }

  seambook.jobViews = seambook.jobViews || {};
  seambook.jobViews.steps = { title: "Steps", draw, freshen: entries.freshen };
})();
