/* The plan of a job: when it is done, what that hangs on, its timeline, and the table that says the same. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const { link, links, pathTo } = seambook.jobParts;
  const MINUTE = words.MINUTE;
  const DAY = 1440;
  const SOURCES = { procedure: "By procedure", hands: "By technician" };
  /** @type {keyof typeof SOURCES} */
  let chosen = "procedure";

  /** @param {string} label @param {any[]} said @param {string} [note] */
  function fact(label, said, note) {
    return el("div", {}, el("dt", { text: label }), el("dd", {}, ...said, note ? el("span", { class: "note", text: note }) : null));
  }

  /** @param {any} state */
  function summary({ planned, job }) {
    const hands = job.hands || 0;
    if (seambook.jobLoop.inShort(planned)) {
      return el("dl", { class: "rows job-summary" }, fact("Done", ["not known"], "no order of all steps"), fact("In order so far", [words.counted(planned.rows.length, "step")]));
    }
    return el(
      "dl", { class: "rows job-summary" },
      fact("Done", when(planned.likely), "likely"),
      fact("At best", when(planned.low)),
      fact("At worst", when(planned.high)),
      fact("Time left", [words.span(planned.left)], "hands-on"),
      fact("Hands-on in all", [words.span(planned.handsOn)], "a step for two counted once"),
      fact("Idle hands", [words.span(idleOf(planned.idle))], `of ${words.counted(hands, "technician")}`)
    );
  }

  /** A day and under it the time. @param {number} ms */
  function when(ms) {
    return [el("span", { text: words.day(ms) }), el("span", { text: words.clock(ms) })];
  }

  /** @param {any} idle */
  function idleOf(idle) {
    return typeof idle === "number" ? idle : idle?.minutes || idle?.hands || 0;
  }

  /** @param {any} state @param {string} id */
  function ruleLink({ book }, id) {
    const rule = book.rules?.[id];
    if (!rule) return el("span", { text: id });
    return rule.path ? el("a", { href: pathTo(rule.path), text: rule.title }) : el("span", { text: rule.title });
  }

  /** @param {any} state */
  function problems(state) {
    const { planned } = state;
    const told = seambook.jobLoop.told(state);
    if (!(planned.problems || []).length && !told.length) return null;
    const items = (planned.problems || []).map((/** @type {any} */ one) =>
      el("li", { class: "caution-stop" }, el("strong", { text: "Not possible" }), el("p", {}, ...links(state, (one.steps || []).slice(0, 6)), one.steps?.length ? " " : null, one.say)));
    return el(
      "section", { class: "block job-problems", "aria-label": "Problems" }, el("h2", { text: "What stands in the way" }),
      items.length ? el("ul", { class: "cautions" }, ...items) : null, ...told
    );
  }

  /** @param {any} state @param {any[]} rows */
  function critical(state, rows) {
    const ids = new Set(state.planned.critical || []);
    const own = rows.filter(({ id }) => ids.has(id));
    if (!own.length || seambook.jobLoop.inShort(state.planned)) return null;
    /** @type {{title: string, from: any, to: any, count: number}[]} */
    const stretches = [];
    for (const row of own) {
      const last = stretches[stretches.length - 1];
      if (last && last.title === row.title) [last.to, last.count] = [row, last.count + 1];
      else stretches.push({ title: row.title, from: row, to: row, count: 1 });
    }
    const items = stretches.map(({ title, from, to, count }) => {
      const numbers = count === 1 ? [link(state, from.id, `step ${from.number}`)] : [link(state, from.id, `steps ${from.number}`), " to ", link(state, to.id, to.number)];
      return el("li", {}, el("strong", { text: title }), ", ", ...numbers, el("span", { class: "note", text: ` until ${words.moment(to.end)}` }));
    });
    const said = `${words.counted(own.length, "step")} ${own.length === 1 ? "decides" : "decide"} when the car is done. A minute lost there is a minute lost for the car; elsewhere there is room.`;
    return el("section", { class: "block" }, el("h2", { text: "The critical path" }), el("p", { class: "prose", text: said }), folded(items), advice(state));
  }

  /** A long list stands folded behind its count. @param {any[]} items */
  function folded(items) {
    const list = el("ol", { class: "list critical-path" }, ...items);
    return items.length > 8 ? el("details", { class: "job-more" }, el("summary", { text: `All ${items.length} stretches of it` }), list) : list;
  }

  /** @param {any} state */
  function advice(state) {
    const all = state.planned.advice || [];
    if (!all.length) return null;
    return [
      el("h3", { text: "To be done sooner" }),
      el("ul", { class: "list" }, ...all.map((/** @type {any} */ one) => el("li", {}, one.say, one.ids?.length ? " " : null, ...links(state, (one.ids || []).slice(0, 4))))),
    ];
  }

  /** @param {any[]} owing @returns {Map<string, any[]>} */
  function owedByRule(owing) {
    /** @type {Map<string, any[]>} */
    const found = new Map();
    for (const one of owing) found.set(one.rule, [...(found.get(one.rule) || []), one]);
    return found;
  }

  /** Whose state it is. @param {any} book @param {{subject: string, side?: string}} one */
  function nameOf(book, { subject, side }) {
    return [book.subjects?.[subject] || subject, side].filter(Boolean).join(", ");
  }

  /** What is left unpaid at the end, and what is taken as done before. @param {any} state */
  function owed(state) {
    const { planned, book, library } = state;
    const parts = [];
    if (planned.owed?.length) {
      const items = [...owedByRule(planned.owed)].map(([rule, all]) =>
        el("li", {}, el("strong", {}, ruleLink(state, rule)), ": ", ...all.flatMap((one, at) => [at ? "; " : "", nameOf(book, one), " after ", link(state, one.id || one.step)])));
      parts.push(el("h3", { text: "Still owed at the end" }), el("p", { class: "note", text: "No procedure of this job does it. Add the one that does, or see to it apart." }), el("ul", { class: "list" }, ...items));
    }
    if (planned.again?.length) parts.push(...again(state));
    if (planned.taken?.length) {
      const items = planned.taken.map((/** @type {string} */ id) => {
        const one = library[id] || (book.procedures || []).find((/** @type {any} */ other) => other.id === id);
        return el("li", {}, one?.path ? el("a", { href: pathTo(one.path), text: one.title }) : id);
      });
      parts.push(el("h3", { text: "Taken as done" }), el("p", { class: "note", text: "Procedures of this job rely on these, and they are not in it." }), el("ul", { class: "list" }, ...items));
    }
    return parts.length ? el("section", { class: "block" }, el("h2", { text: "Before and after this job" }), ...parts) : null;
  }

  /** What holds for one day alone, and is needed on another one. @param {any} state @returns {any[]} */
  function again(state) {
    const { planned, book } = state;
    /** @type {Map<string, any[]>} */
    const makers = new Map();
    for (const one of planned.again) makers.set(`${one.maker} ${one.state}`, [...(makers.get(`${one.maker} ${one.state}`) || []), one]);
    const items = [...makers.values()].map((all) =>
      el("li", {}, link(state, all[0].maker), " again before ", ...links(state, all.map(({ id }) => id)), el("span", { class: "note", text: ` ${book.states?.[all[0].state] || all[0].state}` })));
    const list = el("ul", { class: "list" }, ...items);
    return [
      el("h3", { text: "To be done again on the day" }), el("p", { class: "note", text: "These hold for their own day alone, and what needs them falls on another day." }),
      items.length > 8 ? el("details", { class: "job-more" }, el("summary", { text: `All ${items.length} of them` }), list) : list,
    ];
  }

  /** Vapour, sparks and whatever else may not meet, from when it begins until it has gone. @param {any} state @param {any[]} rows */
  function clashes({ book, planned }, rows) {
    const traits = book.planning?.traits || {};
    const named = new Set((book.planning?.clashes || []).flatMap((/** @type {any} */ one) => one.between));
    const tasks = new Map((planned.problem?.tasks || []).map((/** @type {any} */ task) => [task.id, task]));
    return [...named].map((trait) => {
      const own = rows.filter(({ step }) => (step.traits || []).includes(trait));
      const spans = own.map(({ id, start, end }) => [start, end + (tasks.get(id)?.linger?.[trait] || 0) * MINUTE]);
      return { trait, title: capital(traits[trait]?.say || trait), spans: joined(/** @type {[number, number][]} */ (spans)) };
    }).filter(({ spans }) => spans.length);
  }

  /** @param {string} text */
  function capital(text) {
    return text.charAt(0).toUpperCase() + text.slice(1);
  }

  /** Spans that touch or overlap as one. @param {[number, number][]} spans */
  function joined(spans) {
    /** @type {[number, number][]} */
    const found = [];
    for (const [from, to] of spans.sort((one, other) => one[0] - other[0])) {
      const last = found[found.length - 1];
      if (last && from <= last[1]) last[1] = Math.max(last[1], to);
      else found.push([from, to]);
    }
    return found;
  }

  /** @param {any} state @param {any[]} rows */
  function lanesOf({ job }, rows) {
    return chosen === "hands" ? seambook.jobLanes.byHands(rows, job.hands) : seambook.jobLanes.byProcedure(rows);
  }

  /** @param {any} state */
  function hoursOf({ job, today }) {
    const { opens, closes, days } = job.hours;
    return { opens: words.minuteIn(opens, 0), closes: words.minuteIn(closes, DAY), days, now: today };
  }

  /** What the drawing is and where the same is said in words. @param {any} state @param {any[]} rows */
  function said({ planned }, rows) {
    return {
      title: `Timeline, ${SOURCES[chosen].toLowerCase()}`,
      desc: `${words.counted(rows.length, "step")} from ${words.moment(rows[0].start)} to ${words.moment(planned.finish)}. The table below says the same.`,
    };
  }

  /** @param {any} state @param {any[]} rows */
  function timeline(state, rows) {
    const place = el("div", { class: "timeline-place" });
    const buttons = Object.entries(SOURCES).map(([id, label]) =>
      el("button", { type: "button", class: "control", "aria-pressed": String(chosen === id), id: `timeline_${id}`, text: label, on: { click: () => choose(/** @type {any} */ (id)) } }));
    /** @param {keyof typeof SOURCES} id */
    function choose(id) {
      chosen = id;
      buttons.forEach((button, at) => button.setAttribute("aria-pressed", String(Object.keys(SOURCES)[at] === id)));
      draw();
    }
    function draw() {
      seambook.jobTimelineDraw.into(place, "job_timeline", said(state, rows), { ...lanesOf(state, rows), clashes: clashes(state, rows) }, hoursOf(state));
    }
    draw();
    return el("section", { class: "block job-timeline" }, el("h2", { text: "Timeline" }), el("div", { class: "job-acts only-screen" }, ...buttons), key("key"), place);
  }

  /** What the marks mean, each with a sample. @param {string} id */
  function key(id) {
    /** @type {[string, any[]][]} */
    const samples = [
      ["Work on the critical path", [["rect", { class: "bar critical", x: "2", y: "3", width: "40", height: "20" }]]],
      ["Other work", [["rect", { class: "bar", x: "2", y: "3", width: "40", height: "20" }]]],
      ["Done", [["rect", { class: "bar done", x: "2", y: "3", width: "40", height: "20" }], ["path", { class: "struck", d: "M2 23L42 3" }]]],
      ["Waits for the customer", [["rect", { class: "bar held", x: "2", y: "3", width: "40", height: "20" }]]],
      ["A wait", [["path", { class: "wait", d: "M4 13H40M1 16.5l6 -7M37 16.5l6 -7" }]]],
      ["Hold point (W: witness point)", [["path", { class: "hold-mark", d: "M22 3l9 10l-9 10l-9 -10Z" }], ["text", { class: "hold-name", x: "22", y: "18", "text-anchor": "middle" }, "H"]]],
      ["Closed", [["rect", { class: "night", x: "2", y: "3", width: "40", height: "20" }]]],
    ];
    return el("ul", { class: "timeline-key" }, ...samples.map(([label, marks], at) => {
      const all = marks.map(([tag, attributes, text]) => ({ tag, attributes, text }));
      return el("li", {}, seambook.jobTimelineDraw.sample(all, `${id}_${at}`), label);
    }));
  }

  const HEADS = ["Time", "Step", "Procedure", "Hands", "Place", "Wait until"];

  /** Each day folded in by itself; the first that is not done stands open. @param {any} state @param {any[]} rows */
  function table(state, rows) {
    /** @type {Map<string, any[]>} */
    const days = new Map();
    for (const row of rows) days.set(words.day(row.start), [...(days.get(words.day(row.start)) || []), row]);
    const open = [...days].find(([, all]) => all.some(({ done }) => !done));
    const parts = [...days].map(([day, all]) => el("details", { class: "job-more job-day", open: !!open && open[0] === day },
      el("summary", { text: `${day}, ${words.counted(all.length, "step")}` }), tableOf(state, all)));
    return el("section", { class: "block" }, el("h2", { text: "The same as a table" }), ...parts);
  }

  /** @param {any} state @param {any[]} rows */
  function tableOf(state, rows) {
    const places = state.book.planning?.places || {};
    const lines = rows.map((row) => {
      const { step } = row;
      const cells = [
        timesOf(row), [link(state, row.id, `${row.number} ${step.do}`), marksOf(row)], row.title, String(step.hands),
        places[step.place]?.say || step.place || "", row.until > row.end ? `${words.moment(row.until)}${step.wait?.for ? `, ${step.wait.for}` : ""}` : "",
      ];
      return { cells, about: { "data-id": row.id, class: row.critical ? "critical" : null } };
    });
    return seambook.jobParts.table(`Steps of ${words.day(rows[0].start)}`, HEADS, lines, "plan-table");
  }

  /** @param {any} row */
  function timesOf(row) {
    const parts = row.parts.length ? row.parts : [[row.start, row.end]];
    return parts.map((/** @type {[number, number]} */ [from, to], /** @type {number} */ at) =>
      `${at && words.day(from) !== words.day(row.start) ? `${words.day(from)} ` : ""}${words.clock(from)} to ${words.clock(to)}`).join("; ");
  }

  /** @param {any} row */
  function marksOf(row) {
    const said = [
      row.done ? "done" : "", row.critical ? "critical" : "", row.waiting ? "waits for the customer" : "",
      row.step.hold ? `${row.step.hold.sort} point` : "",
    ].filter(Boolean);
    return said.length ? el("span", { class: "note", text: ` ${said.join(", ")}` }) : null;
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = seambook.jobParts.here(given);
    const { planned } = state;
    const rows = seambook.jobRows.of(state);
    seambook.jobPaper.head(state.job);
    if (!rows.length) {
      place.replaceChildren(...[problems(state), el("p", { class: "none", text: "There is nothing to plan yet. Choose procedures first." }), owed(state)].filter(Boolean));
      return;
    }
    const whole = el("p", { class: "job-acts only-screen" }, el("a", { class: "control", id: "job_to-print", href: `#job=${encodeURIComponent(state.job.id || "")}&view=print`, text: "Print the whole job" }));
    const parts = [problems(state), el("section", { class: "block title-block" }, summary(state)), whole, timeline(state, rows), critical(state, rows), owed(state), table(state, rows)];
    place.replaceChildren(...parts.filter(Boolean));
    if (planned.ok === false) place.prepend(el("p", { class: "fault", text: "Do not work by this plan yet. What stands in the way is said first." }));
  }

  /** The plan on a sheet of its own. @param {any} state @returns {Node[]} */
  function paper(state) {
    const rows = seambook.jobRows.of(state);
    if (!rows.length) return [];
    const { sheets, PAPER } = seambook.jobTimelineDraw;
    const drawn = sheets("job_plan-paper", said(state, rows), { ...lanesOf(state, rows), clashes: clashes(state, rows) }, { ...hoursOf(state), width: PAPER });
    return [el("h2", { class: "traveller-title", text: "Plan" }), problems(state), el("section", { class: "block title-block" }, summary(state)), key("paper-key"), ...drawn, critical(state, rows), owed(state)].filter(Boolean);
  }

  seambook.jobViews = seambook.jobViews || {};
  seambook.jobViews.plan = { title: "Plan", draw, paper, freshen: seambook.jobEntries.freshen };
})();
