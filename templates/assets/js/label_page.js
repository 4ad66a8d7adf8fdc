/*
 * The page of labels: what is labelled, the sheet as its pack says, how it will look, and printing. The sheet's settings
 * are kept on the device, for this book. Needs the other label scripts; the paper is the page's own (paper_size.js).
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const place = document.getElementById("label_desk");
  if (!place || !seambook.labels) return;
  const { el, labelled } = seambook.dom;
  const { labelSheet, labelDraw, labelChoices, paperSize, qrDraw } = seambook;
  const key = `seambook:${document.body.dataset.book || ""}:labels`;
  const MOST_NAMED = 5;
  const preview = el("div", { class: "label-sheets", tabindex: "0", role: "region", "aria-label": "The sheets" });
  const told = el("div", { class: "label-told", role: "status" });
  const print = el("button", { type: "button", class: "primary", id: "label_print", text: "Print the labels", on: { click: () => window.print() } });

  /** What was set before, as far as it can be a setting at all. @returns {SheetSettings} */
  function kept() {
    const set = labelSheet.first();
    try {
      const found = JSON.parse(window.localStorage.getItem(key) || "{}");
      for (const name of Object.keys(set)) if (name !== "start" && Number.isFinite(found?.[name])) set[name] = found[name];
    } catch {
      /* Storage may be refused, or hold another's text. */
    }
    return set;
  }

  function keep() {
    try {
      window.localStorage.setItem(key, JSON.stringify(set));
    } catch {
      /* The settings then hold for this page. */
    }
  }

  const set = kept();
  const outline = el("input", { type: "checkbox", id: "label_outline" });
  const note = el("input", { id: "label_note", autocomplete: "off", list: "label_jobs" });
  const jobs = el("datalist", { id: "label_jobs" });

  /** A number as people type it, with a comma or a point. @param {string} text */
  function number(text) {
    const plain = text.trim().replace(",", ".");
    return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : NaN;
  }

  /** @param {{key: SheetKey, say: string, whole?: boolean}} field */
  function fieldOf({ key: name, say, whole }) {
    const id = `label_${name}`;
    const field = el("input", { type: "text", inputmode: whole ? "numeric" : "decimal", autocomplete: "off", value: String(set[name]), "aria-describedby": `${id}_fault` });
    field.addEventListener("input", () => {
      set[name] = number(field.value);
      keep();
      show();
    });
    return el("div", {}, labelled(id, say, field), el("p", { class: "fault", id: `${id}_fault`, hidden: true }));
  }

  /** @param {{key: string, say: string}[]} faults */
  function tellFaults(faults) {
    for (const { key: name } of labelSheet.FIELDS) {
      const own = faults.find((fault) => fault.key === name);
      const line = /** @type {HTMLElement} */ (document.getElementById(`label_${name}_fault`));
      line.hidden = !own;
      line.textContent = own ? own.say : "";
      document.getElementById(`label_${name}`)?.setAttribute("aria-invalid", String(!!own));
    }
  }

  /** @param {{title: string}[]} labels @param {string} say */
  function naming(labels, say) {
    const names = [...new Set(labels.map(({ title }) => title))];
    if (!names.length) return null;
    const more = names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : "";
    return el("p", { class: "fault" }, `${say} ${names.slice(0, MOST_NAMED).join("; ")}${more}.`);
  }

  function show() {
    const size = paperSize.SIZES[paperSize.size()];
    const faults = labelSheet.faults(set, size);
    tellFaults(faults);
    const labels = labelChoices.labels(note.value.trim(), qrDraw.address);
    print.disabled = !!faults.length || !labels.length;
    preview.replaceChildren();
    if (faults.length) return void told.replaceChildren(el("p", { text: "The sheet cannot be set out: see what is wrong above." }));
    const { width, height } = labelSheet.places(set, size);
    const { sheets, tight, unread } = labelDraw.sheets(labels, set, size, outline.checked);
    preview.replaceChildren(...sheets);
    told.replaceChildren(...[
      el("p", { text: `Each label ${width.toFixed(1)} mm wide and ${height.toFixed(1)} mm high, on ${paperSize.size()} paper. ${labels.length} ${labels.length === 1 ? "label" : "labels"} on ${sheets.length} ${sheets.length === 1 ? "sheet" : "sheets"}.` }),
      naming(tight, "These have more words than the label has room for, and are cut:"),
      naming(unread, "The code of these is too fine for a phone; take larger labels:"),
    ].filter(Boolean));
  }

  /** Offer the jobs that this device keeps, for the line on every label. */
  async function offerJobs() {
    const store = await seambook.jobStore.open(document.body.dataset.book, () => {});
    const all = await store.list();
    jobs.replaceChildren(...all.map((/** @type {any} */ { brief }) => el("option", { value: [brief?.number, brief?.title, brief?.car].filter(Boolean).join(", ") })));
  }

  function start() {
    outline.addEventListener("change", show);
    note.addEventListener("input", show);
    document.addEventListener("seambook:paper", show);
    document.fonts?.ready.then(show);
    place?.append(
      labelChoices.make(show),
      el("section", { class: "block" }, el("h2", { text: "On every label" }), labelled("label_note", "Job number and car", note, "Where they belong to one car; else leave it empty."), jobs),
      el("section", { class: "block" }, el("h2", { text: "The sheet" }),
        el("p", { class: "note", text: "Measure your sheet of labels, or read its pack. The paper itself is switched at the foot of this page." }),
        el("div", { class: "job-fields label-fields" }, ...labelSheet.FIELDS.map(fieldOf)),
        el("label", { class: "job-check", for: "label_outline" }, outline, "Lines to cut along, on plain paper")),
      el("section", { class: "block" }, el("h2", { text: "How it prints" }), told, print,
        el("p", { class: "note", text: "Print at 100 percent, not fitted to the page. Try it on plain paper first and hold both against the light." }), preview));
    /** @type {HTMLElement} */ (place).hidden = false;
    document.getElementById("label_without")?.setAttribute("hidden", "");
    show();
    void offerJobs().catch(() => {});
  }

  start();
})();
