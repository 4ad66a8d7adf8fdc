/* Ways through a job: its phases with what is done of each, what may be done now and what holds, and the menu. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const entries = seambook.jobEntries;

  /** A button that shuts the dialog and goes on. @param {string} id @param {any} inside @param {() => void} take @param {Record<string, any>} [given] */
  function way(id, inside, take, given) {
    return el("button", { type: "button", class: "control bay-wide bay-way", id, on: { click: (/** @type {any} */ event) => {
      event.currentTarget.closest("dialog")?.close();
      take();
    } }, ...given }, inside);
  }

  /** @param {JobRow} row */
  function named(row) {
    return [el("strong", { text: row.number || "+" }), el("span", { text: row.step.do })];
  }

  /** The phases in the order of the work, each with its steps. @param {any} bay */
  function phases({ state, stand }) {
    /** @type {Map<string, {title: string, run: string, rows: JobRow[]}>} */
    const found = new Map();
    for (const row of stand.rows) {
      const { procedure } = seambook.jobRows.runOf(row.id);
      const key = `${row.run} ${row.step.phase || 0}`;
      const title = state.library[procedure]?.phases?.[row.step.phase || 0] || row.title;
      if (!found.has(key)) found.set(key, { title, run: row.title, rows: [] });
      found.get(key)?.rows.push(row);
    }
    return [...found.values()];
  }

  /** Jump by phase. @param {any} bay */
  function showPhases(bay) {
    const { state, stand, row, go } = bay;
    let last = "";
    const lines = phases(bay).flatMap(({ title, run, rows }, n) => {
      const open = rows.find((one) => !one.done) || rows[0];
      const done = rows.filter((one) => one.done).length;
      const head = run === last || state.job.alone ? null : el("h3", { text: run });
      last = run;
      const inside = [el("span", { text: title }), el("span", { class: "note", text: done === rows.length ? "done" : `${done} of ${rows.length}` })];
      return [head, way(`bay_phase-${n}`, inside, () => go(open.id), { "aria-current": rows.includes(row) ? "step" : null })];
    });
    seambook.bayDialog.open("bay_phases", "Where to?", [stands(bay), el("h3", { class: "bay-part", text: "Phases" }), el("div", { class: "bay-list" }, lines)]);
  }

  /** Where the work stands. @param {any} bay */
  function stands({ state, stand, go }) {
    const ready = seambook.bayStand.ready(stand).slice(0, 4);
    const held = stand.holds.map((/** @type {JobRow} */ row, /** @type {number} */ n) => way(`bay_held-${n}`, [el("span", { class: "label", text: "Not released" }), ...named(row)], () => go(row.id)));
    const out = stand.readings.map((/** @type {AsBuiltRow} */ one, /** @type {number} */ n) =>
      way(`bay_off-${n}`, [el("span", { class: "label", text: "Out of tolerance" }), el("span", { text: `${one.name}: ${words.number(Number(one.found))} ${one.unit}` })], () => go(one.step)));
    const waiting = stand.rows.filter((/** @type {JobRow} */ { id }) => stand.states.get(id)?.sort === "wait").slice(0, 4).map((/** @type {JobRow} */ row, /** @type {number} */ n) =>
      way(`bay_wait-${n}`, [el("span", { class: "label", text: `Waits until ${words.clock(stand.states.get(row.id).until)}` }), ...named(row)], () => go(row.id)));
    const asked = stand.rows.filter((/** @type {JobRow} */ { waiting: one }) => one).length;
    return el("div", { class: "bay-list" },
      el("h3", { class: "bay-part", text: ready.length ? "May be done now" : "Nothing may be done now" }), ready.map((/** @type {JobRow} */ row, /** @type {number} */ n) => way(`bay_ready-${n}`, named(row), () => go(row.id))),
      held.length || out.length || waiting.length || asked ? el("h3", { class: "bay-part", text: "Held" }) : null, held, out, waiting,
      asked ? el("a", { class: "control bay-wide", id: "bay_asked", href: `${state.root}jobs.html#job=${encodeURIComponent(state.job.id)}&view=findings`, text: `${words.counted(asked, "step")} for the customer's answer` }) : null);
  }

  /** A switch that says whether it is on. @param {string} id @param {string} text @param {boolean} isOn @param {() => boolean} take @returns {any} */
  function toggle(id, text, isOn, take) {
    const made = el("button", { type: "button", class: "control bay-wide", id, "aria-pressed": String(isOn), text, on: { click: () => made.setAttribute("aria-pressed", String(take())) } });
    return made;
  }

  /** A switch of the page's foot, taken from here. @param {string} id @param {string} own @param {string} text */
  function footSwitch(id, own, text) {
    const button = document.getElementById(id);
    if (!button) return null;
    return toggle(own, text, button.getAttribute("aria-pressed") === "true", () => {
      button.click();
      return button.getAttribute("aria-pressed") === "true";
    });
  }

  /** @param {any} bay */
  function showMenu(bay) {
    const { state } = bay;
    const { procedure } = seambook.jobRows.runOf(bay.row?.id || "");
    const path = state.library[procedure]?.path;
    const awake = el("div", { class: "bay-awake", id: "bay_awake" });
    seambook.bayDialog.open("bay_menu_open", "Menu", [el("div", { class: "bay-list" },
      way("bay_menu-where", el("span", { text: "Where to? Phases and what holds" }), () => showPhases(bay)),
      way("bay_menu-who", el("span", { text: `Who works: ${entries.name() || "nobody named"}` }), () => bay.askWho()),
      footSwitch("page_theme", "bay_menu-night", "Night sheet"), toggle("bay_menu-cart", "Cart size: letters twice as large", bay.isCart(), () => bay.setCart(!bay.isCart())),
      footSwitch("page_units", "bay_menu-units", "US units in what the book says"), awake,
      way("bay_menu-timer", el("span", { text: "Set a timer" }), () => seambook.bayTimerSet.byHand(state, bay.row)),
      el("button", { type: "button", class: "control bay-wide bay-way", id: "bay_menu-sound", text: "Try the sound of the alarm", on: { click: () => seambook.bayAlarm.tryIt() } }),
      way("bay_menu-save", el("span", { text: "Save the file" }), () => bay.saveFile()),
      state.job.alone ? way("bay_menu-afresh", el("span", { text: "Begin this procedure afresh" }), () => bay.afresh()) : null,
      path ? el("a", { class: "control bay-wide", href: state.root + path, text: "The procedure's page" }) : null,
      el("a", { class: "control bay-wide", id: "bay_menu-job", href: `${state.root}jobs.html#job=${encodeURIComponent(state.job.id)}&view=steps`, text: state.job.alone ? "Among the jobs" : "The whole job" }),
      el("a", { class: "control bay-wide", id: "bay_menu-leave", href: `${state.root}index.html`, text: "Leave the bay" }))]);
    seambook.bayAwake?.mount(awake);
  }

  seambook.bayWays = { phases, showPhases, showMenu, stands };
})();
