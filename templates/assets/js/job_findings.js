/* Findings: what was found on the way, what it adds, and the customer's answer; its own work waits for that answer. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;
  const SIDES = /** @type {[string, string][]} */ ([["left", "Left"], ["right", "Right"]]);
  const SAID = /** @type {Record<string, string>} */ ({ waiting: "Waits for the customer", yes: "The customer said yes", no: "The customer said no" });
  /** What is being put together: outlives a redrawing, not a reload. @type {{procedures: {procedure: string, side: string}[], supplies: {supply: string, packs: number}[], photo: string}} */
  let draft = { procedures: [], supplies: [], photo: "" };

  /** The job that the draft belongs to. */
  let draftOf = "";

  /** A number that no finding of the job has. @param {any} job */
  function freshId(job) {
    const taken = new Set((job.findings || []).map((/** @type {any} */ one) => one.id));
    let number = 1;
    while (taken.has(`f${number}`)) number += 1;
    return `f${number}`;
  }

  /** Bring the job's procedures in line with a finding: in the job while it waits or is wanted, out of it after a no unless work on
   * them has begun. What the job has already is not added again. @param {any} job @param {any} finding @param {any} state */
  function apply(job, finding, state) {
    const isSame = (/** @type {any} */ run, /** @type {any} */ one) => run.procedure === one.procedure && (run.side || "") === one.side;
    if (finding.answer === "no") {
      refuse(job, finding, state);
      for (const other of job.findings) if (other.answer !== "no") apply(job, other, state);
      return;
    }
    for (const one of finding.procedures) {
      if (job.runs.some((/** @type {any} */ run) => isSame(run, one))) continue;
      const known = state.library[one.procedure] || (state.book.procedures || []).find((/** @type {any} */ other) => other.id === one.procedure);
      const revision = known?.revision?.number ?? known?.revision ?? null;
      job.runs.push({ procedure: one.procedure, side: one.side, revision, fingerprint: known?.fingerprint || "", title: known?.title || one.procedure, finding: finding.id });
    }
  }

  /** Take out what hangs on a refused finding. @param {any} job @param {any} finding @param {any} state */
  function refuse(job, finding, state) {
    const { jobKept } = seambook;
    const isOut = (/** @type {any} */ run) => run.finding === finding.id && !jobKept.isBegun(job, run, state.library[run.procedure]);
    const out = new Set(job.runs.filter(isOut).map((/** @type {any} */ run) => `${run.procedure}@${run.side || ""}`));
    jobKept.handOver(job, state.planned?.merged?.nodes || [], (/** @type {string} */ id) => out.has(id.split("#")[0]));
    job.runs = job.runs.filter((/** @type {any} */ run) => !isOut(run));
  }

  /** @param {any} state @param {{procedure: string, side: string}} one */
  function titleOf(state, { procedure, side }) {
    const known = (state.book.procedures || []).find((/** @type {any} */ one) => one.id === procedure);
    const title = known?.title || state.library[procedure]?.title || procedure;
    return side ? `${title}, ${side}` : title;
  }

  /** @param {any} state @param {number | null} price */
  function money(state, price) {
    return typeof price === "number" ? `${price.toFixed(2)} ${state.job.prices?.currency || ""}`.trim() : "";
  }

  /** @param {any} state @param {any} finding */
  function card(state, finding) {
    const adds = [
      ...finding.procedures.map((/** @type {any} */ one) => titleOf(state, one)),
      finding.minutes ? `${words.span(finding.minutes)} of work` : "",
      ...(finding.supplies || []).map((/** @type {any} */ one) => `${words.counted(one.packs, "pack")} of ${state.book.supplies?.[one.supply]?.title || one.supply}`), money(state, finding.price),
    ].filter(Boolean);
    const rows = [
      ["Where", finding.where], ["Size", finding.size], ["Found", [finding.found ? words.said(finding.found) : "", finding.by].filter(Boolean).join(", ")],
      ["At step", finding.step ? seambook.jobRows.named(state, finding.step) : ""], ["Adds", adds.join("; ") || "nothing"],
      ["Making safe", finding.make_safe ? "At once: this work does not wait for the answer" : ""],
      ["Answer", `${SAID[finding.answer] || finding.answer}${finding.answered ? `, ${words.said(finding.answered)}` : ""}${finding.by_whom ? `, by ${finding.by_whom}` : ""}`],
    ].filter(([, text]) => text);
    const held = finding.answer === "waiting" && !finding.make_safe;
    return el(
      "article", { class: `job-finding is-${finding.answer}` }, el("h3", {}, finding.where || "Finding", el("span", { class: "note", text: ` ${SAID[finding.answer] || ""}${held ? "; its work is held" : ""}` })),
      el("dl", { class: "rows" }, ...rows.map(([label, text]) => el("div", {}, el("dt", { text: label }), el("dd", { text })))),
      finding.photo ? seambook.jobPhotos.shown({ data: finding.photo, say: finding.where, by: finding.by, at: finding.found }) : null, answers(state, finding)
    );
  }

  /** @param {any} state @param {any} finding */
  function answers(state, finding) {
    const who = `${finding.id}_told`;
    const give = (/** @type {string} */ answer) => () => {
      const name = entries.valueOf(who);
      if (answer !== "waiting" && !name) return entries.fault(who, "Say who gave the answer.");
      return entries.change((/** @type {any} */ job) => {
        const own = job.findings.find((/** @type {any} */ one) => one.id === finding.id);
        Object.assign(own, { answer, answered: answer === "waiting" ? "" : words.stamp(Date.now()), by_whom: answer === "waiting" ? "" : name });
        apply(job, own, state);
      }, answer === "waiting" ? `${finding.id}_yes` : `${finding.id}_open`);
    };
    if (finding.answer !== "waiting") {
      return el("div", { class: "job-acts only-screen" }, el("button", { type: "button", class: "control", id: `${finding.id}_open`, text: "Take the answer back", on: { click: give("waiting") } }));
    }
    return el(
      "div", { class: "job-answer only-screen" }, entries.field({ id: who, label: "Answer given by", value: state.job.customer || "" }),
      el("div", { class: "job-acts" }, el("button", { type: "button", class: "control", id: `${finding.id}_yes`, text: "Customer says yes", on: { click: give("yes") } }),
        el("button", { type: "button", class: "control", id: `${finding.id}_no`, text: "Customer says no", on: { click: give("no") } }))
    );
  }

  /** What is chosen so far, each with a button that takes it out. @param {{say: string, out: () => void}[]} items @param {string} id */
  function chosen(items, id) {
    return items.length ? el("ul", { class: "list job-chosen" }, ...items.map(({ say, out }, at) =>
      el("li", {}, el("span", { text: say }), el("button", { type: "button", class: "control", id: `${id}-${at}`, "aria-label": `Take out ${say}`, text: "Take out", on: { click: out } })))) : null;
  }

  /** The form of a new finding. What was typed in stays in its fields when something is added to the draft.
   * @param {any} state @param {(focus: string) => void} again */
  function form(state, again) {
    const steps = seambook.jobRows.of(state);
    const current = steps.find((/** @type {JobRow} */ { done }) => !done);
    const procedures = (state.book.procedures || []).map((/** @type {any} */ one) => /** @type {[string, string]} */ ([one.id, one.title]));
    const supplies = Object.entries(state.book.supplies || {}).map(([id, one]) => /** @type {[string, string]} */ ([id, /** @type {any} */ (one).title]));
    supplies.sort((one, other) => one[1].localeCompare(other[1], "en"));
    const atStep = /** @type {[string, string][]} */ ([["", "No step"], ...steps.map((/** @type {JobRow} */ row) => [row.id, `${row.title}, ${row.number}`])]);
    const addProcedure = () => {
      const procedure = entries.valueOf("finding_procedure");
      const known = (state.book.procedures || []).find((/** @type {any} */ one) => one.id === procedure);
      if (!known) return entries.fault("finding_procedure", "Choose one first.");
      draft.procedures.push({ procedure, side: known.handed ? entries.valueOf("finding_side") : "" });
      return again("finding_procedure");
    };
    const addSupply = () => {
      const packs = words.typed(entries.valueOf("finding_packs"));
      if (!entries.valueOf("finding_supply")) return entries.fault("finding_supply", "Choose one first.");
      if (packs === null || packs <= 0) return entries.fault("finding_packs", "Write how many packs.");
      draft.supplies.push({ supply: entries.valueOf("finding_supply"), packs });
      return again("finding_supply");
    };
    const button = (/** @type {string} */ id, /** @type {string} */ text, /** @type {() => any} */ click) => el("button", { type: "button", class: "control", id, text, on: { click } });
    return el(
      "section", { class: "block only-screen job-finding-form" }, el("h2", { text: "Add a finding" }),
      el("div", { class: "entry-fields" }, entries.field({ id: "finding_where", label: "Where", most: 1000 }), entries.field({ id: "finding_size", label: "Size", most: 1000 }),
        entries.choice({ id: "finding_step", label: "At which step", value: current?.id || "", choices: atStep }), entries.field({ id: "finding_by", label: "Found by", value: entries.name() })),
      draft.photo ? seambook.jobPhotos.shown({ data: draft.photo, say: "The photograph of this finding" }) : null,
      seambook.jobPhotos.taker("finding_photo", draft.photo ? "Another photograph" : "Photograph", (/** @type {string} */ data) => {
        draft.photo = data;
        again("finding_photo");
      }, state),
      el("h3", { text: "What it adds" }), chosen(draft.procedures.map((one, at) => ({ say: titleOf(state, one), out: () => (draft.procedures.splice(at, 1), again("finding_procedure")) })), "finding_out"),
      el("div", { class: "entry-fields" }, entries.choice({ id: "finding_procedure", label: "Procedure", value: "", choices: [["", "Choose"], ...procedures] }), entries.choice({ id: "finding_side", label: "Side", value: "left", choices: SIDES })),
      el("div", { class: "job-acts" }, button("finding_add-procedure", "Add the procedure", addProcedure)),
      chosen(draft.supplies.map((one, at) => ({ say: `${words.counted(one.packs, "pack")} of ${state.book.supplies?.[one.supply]?.title || one.supply}`, out: () => (draft.supplies.splice(at, 1), again("finding_supply")) })), "finding_supply-out"),
      el("div", { class: "entry-fields" }, entries.choice({ id: "finding_supply", label: "Supply", value: "", choices: [["", "Choose"], ...supplies] }), entries.field({ id: "finding_packs", label: "Packs", number: true, value: "1" })),
      el("div", { class: "job-acts" }, button("finding_add-supply", "Add the supply", addSupply)),
      el("div", { class: "entry-fields" }, entries.field({ id: "finding_minutes", label: "Minutes more", number: true, note: "Beyond the procedures above" }), entries.field({ id: "finding_price", label: `Price to the customer${state.job.prices?.currency ? `, ${state.job.prices.currency}` : ""}`, number: true })),
      entries.check({ id: "finding_safe", label: "It must be made safe at once: this work does not wait for the answer", checked: false }),
      el("button", { type: "button", class: "primary", id: "finding_add", text: "Add the finding", on: { click: () => add(state) } })
    );
  }

  /** @param {any} state */
  function add(state) {
    const value = (/** @type {string} */ name) => entries.valueOf(`finding_${name}`);
    if (!value("where")) return entries.fault("finding_where", "Say where it is.");
    if (!value("size")) return entries.fault("finding_size", "Say how large it is.");
    if (!value("by")) return entries.fault("finding_by", "Say who found it.");
    for (const name of ["minutes", "price"]) {
      const number = words.typed(value(name));
      if (value(name) && (number === null || number < 0)) return entries.fault(`finding_${name}`, "Write it as a number.");
    }
    entries.keepName(value("by"));
    const safe = /** @type {HTMLInputElement} */ (document.getElementById("finding_safe")).checked;
    const { procedures, supplies, photo } = draft;
    const made = {
      where: value("where"), size: value("size"), step: value("step"), found: words.stamp(Date.now()), by: value("by"), photo, procedures, supplies,
      minutes: words.typed(value("minutes")) || 0, price: words.typed(value("price")), make_safe: safe, answer: "waiting", answered: "", by_whom: "",
    };
    draft = { procedures: [], supplies: [], photo: "" };
    entries.taken("finding_");
    return entries.change((/** @type {any} */ job) => {
      const finding = { id: freshId(job), ...made };
      job.findings = [...(job.findings || []), finding];
      apply(job, finding, state);
    }, "job_findings");
  }

  /** @param {any} state */
  function list(state) {
    const all = state.job.findings || [];
    const count = (/** @type {string} */ answer) => all.filter((/** @type {any} */ one) => one.answer === answer).length;
    const said = all.length ? [["waiting", "waiting"], ["yes", "agreed"], ["no", "declined"]].filter(([answer]) => count(answer)).map(([answer, word]) => `${count(answer)} ${word}`).join(", ") : "None so far.";
    return el("section", { class: "block" }, el("h2", { id: "job_findings", tabindex: "-1", text: "Findings" }), el("p", { class: "note", text: said }), ...all.map((/** @type {any} */ one) => card(state, one)));
  }

  /** Keep what stands in the form over a redrawing. @param {HTMLElement} place @param {() => void} does */
  function keepingFields(place, does) {
    const fields = /** @type {HTMLInputElement[]} */ ([...place.querySelectorAll("[id^='finding_']:is(input:not([type='file']), select, textarea)")]);
    const kept = fields.map((field) => ({ id: field.id, value: field.value, checked: field.checked }));
    does();
    for (const { id, value, checked } of kept) {
      const field = /** @type {HTMLInputElement | null} */ (document.getElementById(id));
      if (field) [field.value, field.checked] = [value, checked];
    }
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = seambook.jobParts.here(given);
    seambook.jobPaper.head(state.job);
    if (draftOf !== state.job.id) draft = { procedures: [], supplies: [], photo: "" };
    draftOf = state.job.id;
    const again = (/** @type {string} */ focus) => {
      keepingFields(place, () => draw(place, given));
      document.getElementById(focus)?.focus();
    };
    entries.redraw(place, state, [list(state), form(state, again)]);
  }

  seambook.jobViews = seambook.jobViews || {};
  seambook.jobViews.findings = { title: "Findings", draw, freshen: entries.freshen, apply, list };
})();
