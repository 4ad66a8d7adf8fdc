/* In a job: says of what it holds that it is not to be worked from: drafts, and what was withdrawn since it was planned. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const ISSUED = "issued";

  /** The procedures of a job that are not issued, each once. @param {any} job @returns {any[]} */
  function ofJob(job) {
    const names = new Set((job.runs || []).map((/** @type {any} */ run) => run.procedure));
    return (seambook.jobBook?.procedures || []).filter((/** @type {any} */ one) => names.has(one.id) && one.status !== ISSUED);
  }

  /** The same in a line, for the head of each sheet; empty where all are issued. @param {any} job @returns {string} */
  function inWords(job) {
    const found = ofJob(job).map(({ title, status }) => `${title} (${status})`);
    return found.length ? `Not issued: ${found.join(", ")}` : "";
  }

  /** A notice over a job that holds such procedures, or nothing. @param {any} job */
  function notice(job) {
    const root = document.body.dataset.root || "";
    const ways = ofJob(job).map((one) => el("li", {}, el("a", { href: root + one.path, text: one.title }), el("span", { class: "note", text: one.status })));
    return ways.length
      ? el("div", { class: "job-standing banner standing", role: "note" }, el("p", { text: "This job holds what is not to be worked from:" }), el("ul", { class: "list" }, ...ways))
      : null;
  }

  /** Put the banner of a step's procedure at the head of an element, where it is not issued. @param {Element} element @param {any} _state @param {any} row */
  function mark(element, _state, row) {
    element.querySelectorAll(":scope > .banner").forEach((one) => one.remove());
    const names = new Set([row.id, ...(row.also || [])].map((id) => id.split("@")[0]));
    const said = [...names].flatMap((name) => {
      const one = seambook.jobProcedures?.[name];
      return one?.banner ? [el("p", { class: "banner", role: "note", text: names.size > 1 ? `${one.title}: ${one.banner}` : one.banner })] : [];
    });
    element.prepend(...said);
  }

  /** A word behind a step's procedure, for lists and paper. @param {any} row @returns {string} */
  function word(row) {
    const [name] = row.id.split("@");
    const status = seambook.jobProcedures?.[name]?.status || ISSUED;
    return status === ISSUED ? "" : status;
  }

  seambook.jobStatus = { ofJob, inWords, notice, mark, word };
})();
