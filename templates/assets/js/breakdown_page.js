/**
 * The breakdown sheet of a procedure, to teach from: step, key point, reason. The address says of which procedure. Needs
 * breakdown_read.js, train_words.js and job_dom.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const found = document.getElementById("breakdown_page");
  if (!found || !seambook.training) return;
  const place = found;
  const { el, button, labelled } = seambook.dom;
  const { breakdown, folder } = seambook;
  /** @type {{id: string, title: string, path: string, status: string}[]} */
  const all = seambook.training.procedures;
  /** The heads of the sheet, as the shop's training says them. */
  const heads = seambook.training.breakdown || { step: "Step", key_point: "Key point", reason: "Reason", about: "" };
  const sheet = el("div", { class: "breakdown-place", id: "breakdown_place" });
  const said = el("p", { class: "note", role: "status" });
  let turn = 0;

  /** @returns {string} */
  function asked() {
    const named = /^#procedure=([a-z0-9-]+)$/.exec(window.location.hash);
    return named ? named[1] : "";
  }

  /** What was read of a step; a key point or a reason that nobody wrote is not made up. @param {any} data @param {any} one */
  function row(data, one) {
    const none = () => el("span", { class: "train-none", text: "\u2013" });
    return el("tr", {},
      el("th", { scope: "row", "data-head": heads.step }, el("a", { class: "breakdown-number", href: `${folder.address(data.path)}#${one.key}`, text: String(one.number) }), el("span", { text: one.does })),
      el("td", { "data-head": heads.key_point }, one.keyPoint || none()), el("td", { "data-head": heads.reason }, one.why || none()));
  }

  /** @param {any} data @param {any[]} phases */
  function table(data, phases) {
    return el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": data.title }, el("table", { class: "wordy breakdown" },
      el("thead", {}, el("tr", {}, [heads.step, heads.key_point, heads.reason].map((text) => el("th", { scope: "col", text })))),
      phases.map(({ title, rows }) => el("tbody", {}, el("tr", { class: "breakdown-phase" }, el("th", { scope: "rowgroup", colspan: 3, text: title })), rows.map((/** @type {any} */ one) => row(data, one))))));
  }

  /** @param {any} data @param {any[]} phases */
  function show(data, phases) {
    const { number, date } = data.revision || {};
    sheet.replaceChildren(
      el("header", { class: "breakdown-head" }, el("h2", {}, el("a", { href: folder.address(data.path), text: data.title })),
        el("p", { class: "note", text: number ? `Revision ${number}, ${seambook.trainWords.day(date)}` : "" })),
      data.banner ? el("p", { class: "banner breakdown-banner", text: data.banner }) : "",
      el("p", { class: "note", text: heads.about || "Measures, dangers and points that stop the work stand in the procedure." }),
      table(data, phases));
    document.title = document.title.replace(/^[^·]*/, `${data.title}, broken down `);
  }

  async function route() {
    const mine = (turn += 1);
    const id = asked();
    const known = all.find((one) => one.id === id);
    choice.value = known ? id : "";
    print.disabled = true;
    sheet.replaceChildren();
    if (!known) return void (said.textContent = id ? "This book has no such procedure. Choose one." : "");
    said.textContent = "The sheet is being made.";
    try {
      const { data, phases } = await breakdown.of(id);
      if (mine !== turn) return undefined;
      said.textContent = "";
      show(data, phases);
      print.disabled = false;
    } catch (error) {
      if (mine === turn) said.textContent = `Part of the book could not be loaded (${(error && /** @type {any} */ (error).message) || error}). Choose the procedure again.`;
    }
    return undefined;
  }

  const choice = el("select", { on: { change: () => folder.move(`#procedure=${choice.value}`) } }, [{ id: "", title: "Choose a procedure" }, ...all].map(({ id, title }) => el("option", { value: id, text: title })));
  const print = button("Print the sheet", () => window.print(), { id: "breakdown_print", class: "primary" });
  place.replaceChildren(el("div", { class: "only-screen breakdown-choice" }, labelled("breakdown_procedure", "Procedure", choice), print), said, sheet);
  place.hidden = false;
  document.getElementById("breakdown_page_without")?.setAttribute("hidden", "");
  window.addEventListener("hashchange", () => void route());
  void route();
})();
