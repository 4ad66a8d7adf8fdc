/* The as-built sheet: every measure of the job with what was found, openings before and after, coupons, batches, procedures. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;
  const { table, verdict, record } = seambook.jobParts;
  const COUPONS = /** @type {[string, string][]} */ ([["passed", "Passed"], ["failed", "Failed"]]);
  const SEAM = "seam:";
  let onlyOpen = false;

  /** @param {number | null} value */
  function told(value) {
    return value === null ? "\u2013" : words.number(value);
  }

  /** @param {AsBuiltRow} row */
  function expected({ expected: middle, low, high }) {
    if (middle !== null) return words.number(middle);
    return low !== null ? "at least" : high !== null ? "at most" : "\u2013";
  }

  /** @param {AsBuiltRow[]} rows */
  function summary(rows) {
    const { all, entered, out, holding, missing } = seambook.asBuilt.counts(rows);
    const said = [["Measures", String(all)], ["Entered", String(entered)], ["Still to enter", String(missing)], ["Out of tolerance", String(out)], ["Holding the job", String(holding)]];
    return el("dl", { class: "rows job-progress" }, ...said.map(([label, text]) => el("div", {}, el("dt", { text: label }), el("dd", { text }))));
  }

  const HEADS = ["Step", "Measure", "Expected", "Low", "High", "Found", "Verdict", "By", "When", "Gauge"];

  /** On paper what is not entered yet is written in by hand. @param {AsBuiltRow} row */
  function blankLine(row) {
    const box = () => [el("span", { class: "blank-box" })];
    return { cells: [row.number, `${row.name}, ${row.unit}`, expected(row), told(row.low), told(row.high), box(), "", box(), box(), box()], about: {} };
  }

  /** @param {any} state @param {AsBuiltRow} row @param {boolean} isPaper */
  function line(state, row, isPaper) {
    if (isPaper && row.found === null) return blankLine(row);
    const said = verdict(row);
    const at = `sheet_${entries.idOf(row.id)}`;
    const gaugeId = `${at}_gauge`;
    const write = seambook.jobStepCard.entering(state, row.id, row.kept, gaugeId);
    const found = isPaper ? `${words.number(Number(row.found))} ${row.unit}`
      : [entries.field({ id: at, label: `${row.name}, found, in ${row.unit}`, unseen: true, value: row.found === null ? "" : words.number(row.found), unit: row.unit, number: true, edit: write })];
    const setGauge = (/** @type {any} */ job, /** @type {string} */ text) => {
      if (job.readings?.[row.id]) job.readings[row.id].gauge = text.trim();
    };
    const gauge = isPaper ? row.gauge : [entries.field({ id: gaugeId, label: `Gauge for ${row.name}`, unseen: true, value: row.gauge, edit: setGauge })];
    const release = row.released && !isPaper ? el("span", { class: "note", text: ` by ${row.released.by}, ${words.said(row.released.at)}: ${row.released.reason || "no reason given"}` }) : null;
    const cells = [
      [row.href && !isPaper ? el("a", { href: row.href, text: row.number }) : row.number], row.name, expected(row), told(row.low), told(row.high), found,
      [el("span", { class: `found-verdict ${said.style}`, text: said.text }), release], row.by, row.at ? words.said(row.at) : "", gauge,
    ];
    return { cells, about: { class: row.off ? "is-out" : null } };
  }

  /** On paper a reason stands below its table: the column of the verdict is too narrow for a sentence. @param {AsBuiltRow[]} rows */
  function releases(rows) {
    return rows.filter(({ released }) => released).map(({ number, name, released }) =>
      el("p", {}, el("strong", { text: `Step ${number}, ${name}: ` }), `released by ${released.by}, ${words.said(released.at)}: ${released.reason || "no reason given"}`));
  }

  /** The measures of each procedure and side. @param {any} state @param {AsBuiltRow[]} rows @param {boolean} isPaper */
  function sheet(state, rows, isPaper) {
    /** @type {Map<string, AsBuiltRow[]>} */
    const groups = new Map();
    for (const row of rows) groups.set(row.title, [...(groups.get(row.title) || []), row]);
    const first = [...groups].find(([, own]) => own.some(({ found }) => found === null));
    return [...groups].map(([title, own]) => {
      const made = table(`Measures of ${title}`, HEADS, own.map((row) => line(state, row, isPaper)), "as-built");
      if (isPaper) return el("div", { class: "as-built-group" }, el("h3", { text: title }), made, ...releases(own));
      const { all, entered, out } = seambook.asBuilt.counts(own);
      const said = [`${entered} of ${all} entered`, out ? `${out} out of tolerance` : ""].filter(Boolean).join(", ");
      const isOpen = own.some(({ holds }) => holds) || (!!first && first[0] === title);
      return el("details", { class: "job-more as-built-group", open: isOpen }, el("summary", {}, title, " ", el("span", { class: "note", text: ` ${said}` })), made);
    });
  }

  /** What is out and not released, with the form that releases it. @param {any} state @param {AsBuiltRow[]} rows */
  function holding(state, rows) {
    const own = rows.filter(({ holds }) => holds);
    if (!own.length) return null;
    const items = own.map((row) =>
      el("li", {}, el("p", {}, el("strong", { text: row.name }), `: ${words.number(Number(row.found))} ${row.unit}, `, el("span", { class: "found-verdict is-out", text: verdict(row).text }), " ", seambook.jobParts.link(state, row.step)),
        seambook.jobStepCard.releaseForm(row.id, `out_${entries.idOf(row.id)}`, "Why it may stay")));
    return el("section", { class: "block only-screen" }, el("div", { class: "hold" }, el("div", { class: "hold-sheet" }, el("h2", { id: "job_held", tabindex: "-1", text: "These hold the job" }), el("ul", { class: "list" }, ...items))));
  }

  /** @param {any} state @param {AsBuiltRow[]} rows */
  function openings(state, rows) {
    const groups = seambook.asBuilt.beforeAndAfter(rows).filter((/** @type {BeforeAndAfter} */ group) => group.rows.some(({ found }) => found !== null));
    if (!groups.length) return null;
    const most = Math.max(...groups.map((/** @type {BeforeAndAfter} */ group) => group.rows.length));
    const names = ["First", ...Array.from({ length: Math.max(0, most - 2) }, (_, at) => `Between${most > 3 ? ` ${at + 1}` : ""}`), "Last"];
    const heads = ["Measure", ...names, "Moved by"];
    const lines = groups.map((/** @type {BeforeAndAfter} */ { name, unit, side, rows: own, change }) => {
      const spread = [...own.slice(0, -1), ...Array.from({ length: most - own.length }, () => null), own[own.length - 1]];
      const cells = spread.map((row) => !row ? "\u2013" : [
        row.found === null ? el("span", { class: "blank-line" }, "not entered") : el("strong", { text: `${words.number(row.found)} ${unit}` }),
        row.off ? el("span", { class: "found-verdict is-out", text: ` ${verdict(row).text}` }) : null, el("span", { class: "note", text: ` ${row.title}, ${row.number}` }),
      ]);
      return { cells: [side ? `${name}, ${side}` : name, ...cells, change === null ? "\u2013" : `${change > 0 ? "+" : ""}${words.number(change)} ${unit}`] };
    });
    return el("section", { class: "block" }, el("h2", { text: "Before and after" }), el("p", { class: "note", text: "First and last are the steps of this job that read the measure, by their order. Only the last one says how the car is handed over." }), table("The same measures before and after", heads, lines));
  }

  /** @param {any} state @param {boolean} isPaper */
  function coupons(state, isPaper) {
    const kept = state.job.coupons || [];
    const heads = ["Seam", "Method", "Found", "Verdict", "By", "When", ...(isPaper ? [] : [""])];
    const take = (/** @type {number} */ at) => () => entries.change((/** @type {any} */ job) => job.coupons.splice(at, 1));
    const lines = kept.map((/** @type {any} */ one, /** @type {number} */ at) => {
      const out = one.verdict === "failed";
      const cells = [state.book.subjects?.[SEAM + one.seam] || one.seam, state.book.methods?.[one.method] || one.method || "", one.found, [el("span", { class: out ? "found-verdict is-out" : "found-verdict", text: out ? "\u00d7 failed" : `\u2713 ${one.verdict || "noted"}` })], one.by, words.said(one.at || "")];
      return { cells: isPaper ? cells : [...cells, [el("button", { type: "button", class: "control", id: `coupon_out-${at}`, text: "Take out", on: { click: take(at) } })]], about: { class: out ? "is-out" : null } };
    });
    return el("section", { class: "block" }, el("h2", { text: "Coupons" }), lines.length ? table("Results of coupons", heads, lines) : el("p", { class: "none", text: "No coupon is entered." }), isPaper ? null : couponForm(state));
  }

  /** @param {any} state */
  function couponForm({ book }) {
    const titles = (/** @type {Record<string, string>} */ named) => Object.entries(named).sort((one, other) => one[1].localeCompare(other[1], "en"));
    const seams = titles(Object.fromEntries(Object.entries(book.subjects || {}).filter(([id]) => id.startsWith(SEAM)).map(([id, title]) => [id.slice(SEAM.length), title])));
    const methods = titles(book.methods || {});
    const go = () => {
      const value = (/** @type {string} */ name) => entries.valueOf(`coupon_${name}`);
      if (!value("seam")) return entries.fault("coupon_seam", "Choose the seam it is for.");
      if (!value("found")) return entries.fault("coupon_found", "Say what was found.");
      if (!value("by")) return entries.fault("coupon_by", "Say who tried it.");
      entries.keepName(value("by"));
      entries.taken("coupon_");
      const one = { seam: value("seam"), step: "", method: value("method"), at: words.stamp(Date.now()), by: value("by"), found: value("found"), verdict: value("verdict") };
      return entries.change((/** @type {any} */ job) => (job.coupons = [...(job.coupons || []), one]), "coupon_seam");
    };
    return el("details", { class: "job-more only-screen", id: "coupon_form" }, el("summary", { text: "Enter a coupon" }), el("div", { class: "entry-fields" },
      entries.choice({ id: "coupon_seam", label: "Seam", value: "", choices: [["", "Choose"], ...seams] }), entries.choice({ id: "coupon_method", label: "Method", value: "", choices: [["", "Choose"], ...methods] }), entries.field({ id: "coupon_found", label: "Found", most: 1000 }),
      entries.choice({ id: "coupon_verdict", label: "Verdict", value: "passed", choices: COUPONS }), entries.field({ id: "coupon_by", label: "Tried by", value: entries.name() })),
      el("button", { type: "button", class: "control", id: "coupon_add", text: "Add the coupon", on: { click: go } }));
  }

  /** The supplies that the steps of the job name. @param {any} state @returns {string[]} */
  function suppliesOf(state) {
    const nodes = state.planned?.merged?.nodes || [];
    const used = new Set(nodes.flatMap((/** @type {any} */ { step }) => step.supplies || []));
    for (const id of Object.keys(state.job.batches || {})) used.add(id);
    return /** @type {string[]} */ ([...used]);
  }

  /** @param {any} state @param {boolean} isPaper */
  function batches(state, isPaper) {
    const all = suppliesOf(state);
    if (!all.length) return null;
    const lines = all.map((id) => {
      const value = (state.job.batches?.[id] || []).map((/** @type {any} */ one) => one.number).join(", ");
      const edit = (/** @type {any} */ job, /** @type {string} */ text) => setBatches(job, id, text);
      const title = state.book.supplies?.[id]?.title || id;
      const cell = isPaper ? value : [entries.field({ id: `batch_${id}`, label: `Batch of ${title}`, unseen: true, value, edit })];
      return { cells: [[record(state.book.supplies?.[id], id)], cell] };
    });
    return el("section", { class: "block" }, el("h2", { text: "Batches of supplies" }), isPaper ? null : el("p", { class: "note only-screen", text: "The number on the pack; several parted by commas." }), table("Batches of supplies", ["Supply", "Batch"], lines));
  }

  /** Keep when each number was entered first. @param {any} job @param {string} id @param {string} text */
  function setBatches(job, id, text) {
    const before = new Map((job.batches?.[id] || []).map((/** @type {any} */ one) => [one.number, one]));
    const numbers = [...new Set(text.split(",").map((one) => one.trim()).filter(Boolean))];
    job.batches = job.batches || {};
    job.batches[id] = numbers.map((number) => before.get(number) || { number, at: words.stamp(Date.now()) });
    if (!numbers.length) delete job.batches[id];
  }

  /** Which revision of each procedure was followed, and whether the book has gone on since. @param {any} state */
  function followed(state) {
    const lines = (state.job.runs || []).map((/** @type {any} */ run) => {
      const now = state.library[run.procedure];
      const said = !now ? "no longer in this book" : now.fingerprint === run.fingerprint ? "as in this book" : `the book now has revision ${now.revision.number}, ${now.fingerprint}`;
      const isSame = !!now && now.fingerprint === run.fingerprint;
      return { cells: [[record(now, run.title)], run.side || "\u2013", String(run.revision ?? "\u2013"), [el("code", { text: run.fingerprint || "\u2013" })], isSame ? said : [el("strong", { text: said })]] };
    });
    const edition = state.book.book;
    return el("section", { class: "block" }, el("h2", { text: "Procedures followed" }), table("Procedures followed", ["Procedure", "Side", "Revision", "Fingerprint", "Against this book"], lines),
      el("p", { class: "note", text: `${edition.title}${edition.fingerprint ? `, fingerprint ${edition.fingerprint}` : ""}` }));
  }

  /** Hold points in order, with who released them; on screen behind their count. @param {any} state @param {JobRow[]} steps @param {boolean} isPaper */
  function points(state, steps, isPaper) {
    const own = steps.filter(({ step }) => step.hold);
    if (!own.length) return null;
    const lines = own.map((row) => {
      const [done, release] = [row.done, seambook.jobKept.of(state.job.releases, row)];
      const isOwn = release && done && release.by === done.by;
      return { cells: [row.number, row.title, row.step.do, row.step.hold.sort, done ? `${done.by || "nobody named"}, ${words.said(done.at)}` : "", release ? `${release.by}${isOwn ? " (who did it)" : ""}, ${words.said(release.at)}${release.reason ? `: ${release.reason}` : ""}` : ""] };
    });
    const made = table("Hold and witness points", ["Step", "Procedure", "What", "Sort", "Done by", "Released by"], lines);
    const released = own.filter(({ id }) => state.job.releases?.[id]).length;
    const said = `${words.counted(own.length, "point")}, ${released} released`;
    return el("section", { class: "block" }, el("h2", { text: "Hold and witness points" }),
      isPaper ? made : el("details", { class: "job-more", id: "sheet_points" }, el("summary", { text: said }), made));
  }

  /** The record on paper. @param {any} state @returns {Node[]} */
  function paper(state) {
    const rows = seambook.asBuilt.rows(state);
    const steps = seambook.jobRows.of(state);
    const all = [
      el("h2", { class: "traveller-title", text: "As built" }), el("p", { class: "note", text: "This record stays with the car." }), summary(rows),
      ...sheet(state, rows, true), openings(state, rows), points(state, steps, true), coupons(state, true), batches(state, true), followed(state),
      el("div", { class: "paper-signs" }, ...["Name", "Signature", "Date"].map((text) => el("span", { class: "box wide", text }))),
    ];
    return all.filter(Boolean);
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = seambook.jobParts.here(given);
    const all = seambook.asBuilt.rows(state);
    seambook.jobPaper.head(state.job);
    const rows = onlyOpen ? all.filter((/** @type {AsBuiltRow} */ row) => row.found === null || row.off) : all;
    const toggle = () => {
      onlyOpen = !onlyOpen;
      draw(place, given);
    };
    const choose = el("button", { type: "button", class: "control", id: "sheet_open", "aria-pressed": String(onlyOpen), text: "Only what is open or out", on: { click: toggle } });
    const measures = el("section", { class: "block" }, el("h2", { text: "Every measure" }), el("div", { class: "job-acts" }, choose), all.length ? sheet(state, rows, false) : el("p", { class: "none", text: "No step of this job takes a measure." }));
    const screen = el("div", { class: "only-screen" }, summary(all), holding(state, all), openings(state, all), measures, points(state, seambook.jobRows.of(state), false), coupons(state, false), batches(state, false), followed(state));
    entries.redraw(place, state, [screen, seambook.jobPaper.place(() => paper(state))]);
  }

  seambook.jobViews = seambook.jobViews || {};
  seambook.jobViews["as-built"] = { title: "As built", draw, freshen: entries.freshen, paper };
})();
