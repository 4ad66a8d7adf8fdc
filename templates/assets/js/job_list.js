/**
 * The list of jobs: begin one, open a file, and of each its file, a copy, and its end. A job that cannot be read is shown
 * with its text, and stays as it is.
 */
(function () {
  "use strict";

  /** @typedef {{id: string, brief: any, revision: number, fault: string, text: string}} Row */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, redraw, focusOn } = seambook.dom;
  const { jobFile, jobBar, jobDesk, jobKeep, jobWords } = seambook;
  const LATEST = 8.64e15;

  /** Jobs with what is wrong in those that cannot be read. @param {any} store @returns {Promise<Row[]>} */
  async function rows(store) {
    /** @type {Row[]} */
    const found = [];
    for (const one of await store.list()) {
      const whole = await store.load(one.id);
      if (!whole) continue;
      const read = jobFile.read(whole.text, seambook.jobBook, one.id);
      const fault = read.fault || (whole.revision ? "" : "What is kept of it has lost its number.");
      found.push({ ...one, fault, brief: read.job ? { ...jobKeep.briefOf(read.job, null), ...finishOf(one.brief) } : {}, text: fault ? whole.text : "" });
    }
    const last = (/** @type {Row} */ one) => String(one.brief.changed || "");
    return found.sort((one, other) => (last(one) < last(other) ? 1 : last(one) > last(other) ? -1 : one.id < other.id ? -1 : 1));
  }

  /** What was planned last, from what is kept beside a job. @param {any} brief */
  function finishOf(brief) {
    const { finish, steps, done } = brief;
    return [finish, steps, done].every((one) => Number.isFinite(one)) ? { finish, steps, done } : { finish: null };
  }

  /** @param {number | null} at @returns {string} */
  function day(at) {
    return at === null || Math.abs(at) > LATEST ? "not planned yet" : jobWords.moment(at);
  }

  /** @param {string} label @param {string} value */
  function row(label, value) {
    return el("div", {}, el("dt", { text: label }), el("dd", { text: value }));
  }

  /** @param {Row} one @param {any} acts */
  function card(one, acts) {
    const { id, brief } = one;
    const name = jobDesk.called(brief);
    const said = (/** @type {string} */ text) => ({ "aria-label": `${text}: ${name}` });
    return el("li", { class: "job-kept" },
      el("h3", {}, el("a", { href: jobDesk.address(id, "make"), id: `job_open-${id}`, text: name })),
      el("dl", { class: "rows" },
        row("Car", brief.car || "not written yet"), row("Ready", day(brief.finish)),
        row("Steps done", brief.steps ? `${brief.done} of ${brief.steps}` : "none planned yet"),
        row("Procedures", String(brief.runs))),
      brief.steps ? el("progress", { max: brief.steps, value: brief.done, "aria-label": `Steps done: ${name}` }) : null,
      el("p", { class: "job-buttons" },
        el("a", { class: "control", href: seambook.folder.address(`bay.html#job=${encodeURIComponent(id)}`), text: "In the bay", "aria-describedby": `job_open-${id}` }),
        button("Save the file", () => acts.save(id), said("Save the file")),
        button("Duplicate", () => acts.duplicate(id), said("Duplicate")),
        button("Delete", () => ask(id, name, acts), { id: `job_delete-${id}`, ...said("Delete") })),
      el("div", { id: `job_asked-${id}` }));
  }

  /** A job is deleted once that was asked. @param {string} id @param {string} name @param {any} acts */
  function ask(id, name, acts) {
    const place = document.getElementById(`job_asked-${id}`);
    const keep = () => {
      place?.replaceChildren();
      focusOn(`job_delete-${id}`);
    };
    place?.replaceChildren(el("div", { class: "job-notice", role: "group", "aria-label": `Delete ${name}?` },
      el("p", {}, el("strong", { text: `Delete ${name}?` }), " It cannot be brought back, unless you have its file."),
      el("p", { class: "job-buttons" }, button("Keep it", keep, { id: `job_keep-${id}` }),
        button("Delete it", () => acts.remove(id), { id: `job_gone-${id}` }))));
    focusOn(`job_keep-${id}`);
  }

  /** @param {Row} one @param {any} acts */
  function damaged(one, acts) {
    const name = `What is kept as “${one.id}”`;
    return el("li", { class: "job-kept" },
      el("h3", { text: "A job that cannot be read" }),
      el("p", { text: `${name} is damaged. ${one.fault}` }),
      el("p", { class: "note", text: "It is left as it is. Save its text, so that somebody can look what is wrong with it." }),
      el("details", { id: `job_text-${one.id}` }, el("summary", { text: "Its text" }),
        el("pre", { class: "job-raw", tabindex: "0", text: one.text.slice(0, 20000) })),
      el("p", { class: "job-buttons" },
        button("Save its text", () => jobKeep.hand(`${one.id}.damaged.txt`, one.text)),
        button("Delete", () => ask(one.id, name, acts), { id: `job_delete-${one.id}` })),
      el("div", { id: `job_asked-${one.id}` }));
  }

  /** Procedures that were worked from by themselves, each a job of its own. @param {Row[]} alone @param {any} acts */
  function apart(alone, acts) {
    if (!alone.length) return "";
    return el("section", { "aria-labelledby": "job_alone" }, el("h2", { id: "job_alone", text: "Procedures worked from by themselves" }),
      el("ul", { class: "job-kepts" }, alone.map((one) => card(one, acts))));
  }

  /** The control that opens files. @param {any} acts */
  function opener(acts) {
    const field = el("input", { type: "file", id: "job_file", class: "unseen", accept: ".json,application/json", on: {
      change: () => {
        const [file] = field.files || [];
        field.value = "";
        if (file) void acts.open(file);
      },
    } });
    return el("span", { class: "job-opener" }, field, el("label", { class: "control", for: "job_file", text: "Open a file" }));
  }

  /** Show the list. @param {HTMLElement} desk @param {any} store @param {any} acts what its buttons do */
  async function show(desk, store, acts) {
    const all = await rows(store);
    redraw(desk, () => desk.replaceChildren(
      el("div", { class: "job-begin" },
        el("p", { class: "job-buttons" }, el("button", { type: "button", class: "primary", id: "job_new", text: "New job", on: { click: acts.begin } }), opener(acts))),
      el("h2", { id: "job_called", tabindex: "-1", text: "Your jobs" }),
      all.length
        ? el("ul", { class: "job-kepts" }, all.filter((one) => !one.brief.alone).map((one) => (one.fault ? damaged(one, acts) : card(one, acts))))
        : el("p", { class: "none", text: "None yet. Begin one with “New job”, or look at the one that comes with the book." }),
      apart(all.filter((one) => one.brief.alone), acts),
      el("p", { class: "note", text: "Jobs are kept in this browser, on this device, for this book alone. Save the file of each job you cannot lose: a later edition of the book reads every earlier file." }),
    ));
    jobBar.clear("library");
  }

  seambook.jobList = { show };
})();
