/**
 * The page's two faces: the list of jobs, and one job with the views it may be seen in. A view registers itself as
 * `seambook.jobViews[name] = {title, draw(place, state)}`, and may have `freshen(place, state)` for while one types.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, redraw, button } = seambook.dom;
  const ORDER = ["make", "plan", "steps", "take-off", "as-built", "findings", "customer", "print"];
  seambook.jobViews = seambook.jobViews || {};

  /** The views that are there, in their order. @returns {string[]} */
  function views() {
    return ORDER.filter((name) => seambook.jobViews[name]);
  }

  /** What an address asks for. @param {string} hash @returns {Record<string, string>} */
  function asked(hash) {
    /** @type {Record<string, string>} */
    const found = {};
    for (const part of hash.replace(/^#/, "").split("&")) {
      const at = part.indexOf("=");
      if (at < 1) continue;
      try {
        found[part.slice(0, at)] = decodeURIComponent(part.slice(at + 1));
      } catch {
        /* A part that says nothing asks for nothing. */
      }
    }
    return found;
  }

  /** @param {string} id @param {string} view @returns {string} */
  function address(id, view) {
    return `#job=${encodeURIComponent(id)}&view=${view}`;
  }

  /** What a job is called. @param {any} one a job, or what the list knows of it @returns {string} */
  function called(one) {
    const parts = [one.number, one.title].filter((/** @type {unknown} */ text) => typeof text === "string" && text);
    return parts.join(" · ") || "Job without a number";
  }

  /** @param {string} id @param {string} now @returns {any} */
  function ways(id, now) {
    return el("nav", { class: "job-views", "aria-label": "This job" }, el("ul", {}, views().map((name) => el("li", {},
      el("a", { id: `job_view-${name}`, href: address(id, name), "aria-current": name === now ? "page" : null, text: seambook.jobViews[name].title })))));
  }

  /** What the book has to say of a job that was made with an earlier one. @param {any} state @returns {any} */
  function told(state) {
    const { job, compared } = state;
    if (!compared || !compared.told.length) return null;
    const renamed = compared.renamed.length
      ? button("Take the new names", () => state.change((/** @type {any} */ one) => rename(one, compared.renamed)), { id: "job_rename" }) : null;
    const revised = compared.told.some((/** @type {any} */ one) => one.sort === "revised")
      ? button("Go on with the book as it is now", () => state.change((/** @type {any} */ one) => seambook.jobFile.renew(one, state.book)), { id: "job_renew" }) : null;
    return el("details", { class: "job-told", id: `job_told-${job.id}`, open: compared.told.length < 6 },
      el("summary", { text: "The book has changed since this job was made" }),
      el("ul", {}, compared.told.map((/** @type {any} */ one) => el("li", { text: one.say }))),
      renamed || revised ? el("p", { class: "job-buttons" }, renamed, revised) : null);
  }

  /** Call procedures by their new names wherever the job names them. @param {any} job @param {Array<[string, string]>} renamed */
  function rename(job, renamed) {
    const { jobKept, jobChoices } = seambook;
    const news = new Map(renamed);
    const step = (/** @type {string} */ id) => id.replace(/^[a-z0-9-]+(?=@)/, (old) => news.get(old) || old);
    for (const key of ["done", "readings", "releases", "notes_by_step", "photos"]) {
      // Where something stands under the new name already, both are kept.
      const kept = job[key];
      job[key] = Object.fromEntries(Object.entries(kept).map(([id, value]) => [jobKept.has(kept, step(id)) ? id : step(id), value]));
    }
    for (const one of [...job.runs, ...job.findings.flatMap((/** @type {any} */ finding) => finding.procedures)]) {
      one.procedure = news.get(one.procedure) || one.procedure;
    }
    const names = job.runs.map(jobChoices.nameOf);
    job.runs = job.runs.filter((/** @type {any} */ run, /** @type {number} */ at) => names.indexOf(jobChoices.nameOf(run)) === at);
    for (const one of [...job.coupons, ...job.findings, ...(job.timers || [])]) if (one.step) one.step = step(one.step);
    job.order = job.order.map(step);
    job.left_at = Object.fromEntries(Object.entries(job.left_at || {}).map(([name, id]) => [name, step(id)]));
  }

  /**
   * Show a job in a view. @param {HTMLElement} desk @param {any} kept the open job @param {string} view
   * @param {boolean} isTyping
   */
  function show(desk, kept, view, isTyping) {
    const { state } = kept;
    const seen = seambook.jobViews[view];
    const place = document.getElementById("job_place");
    if (isTyping && place && seen.freshen) {
      const title = document.getElementById("job_called");
      if (title) title.textContent = called(state.job);
      seen.freshen(place, state);
      return;
    }
    redraw(desk, () => {
      const made = el("div", { class: `job-view job-view-${view}`, id: "job_place" });
      desk.replaceChildren(
        el("div", { class: "job-head" },
          el("p", { class: "job-back" }, el("a", { href: "#list", id: "job_back", text: "All jobs" })),
          el("h2", { id: "job_called", tabindex: "-1", text: called(state.job) }),
          el("p", { class: "job-buttons" }, state.job.runs.length ? el("a", { class: "control", id: "job_bay", href: seambook.folder.address(`bay.html#job=${encodeURIComponent(state.job.id)}`), text: "In the bay" }) : null,
            button("Save the file", () => kept.saveFile(), { id: "job_save" }))),
        seambook.jobStatus.notice(state.job) || "", ways(state.job.id, view), told(state) || "", made,
      );
      // The procedures of a job are still being loaded: what stands on the plan is shown once there is one.
      if (view !== ORDER[0] && !state.planned) made.append(el("p", { class: "note", role: "status", text: "The plan is being worked out." }));
      else seen.draw(made, state);
    });
  }

  seambook.jobDesk = { views, asked, address, called, show };
})();
