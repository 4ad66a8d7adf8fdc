/**
 * The view in which a job is made: the car, the procedures, the time, the prices; and below, always in sight, what comes of
 * it and the way on.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const { jobMake, jobDesk, jobWords } = seambook;

  /** What the job comes to, in a line. @param {any} state @returns {string} */
  function inShort({ job, planned }) {
    const count = job.runs.length;
    if (!count) return "Choose a procedure: press a panel, or type a word.";
    const parts = [jobWords.counted(count, "procedure")];
    if (seambook.jobLoop.inShort(planned)) return `${parts[0]} · they contradict each other, see the plan`;
    if (planned && planned.rows && planned.rows.length) parts.push(jobWords.counted(planned.rows.length, "step"));
    if (planned && Number.isFinite(planned.handsOn)) parts.push(`${jobWords.span(planned.handsOn)} of work`);
    if (planned && planned.ok && Number.isFinite(planned.finish)) {
      parts.push(`ready ${jobWords.moment(planned.finish)}`);
    }
    return parts.join(" · ");
  }

  /** @param {any} state @returns {any[]} */
  function troubles({ planned }) {
    const loop = seambook.jobLoop.inShort(planned);
    const found = [...(loop ? [loop] : []), ...((planned && planned.problems) || []).map((/** @type {any} */ one) => one.say)];
    return found.length ? [el("ul", { class: "job-troubles" }, found.map((text) => el("li", { text })))] : [];
  }

  /** @param {any} state @returns {any[]} */
  function summary(state) {
    const next = jobDesk.views().find((/** @type {string} */ name) => name !== "make");
    const way = next && state.job.runs.length
      ? el("a", { class: "primary", id: "job_onward", href: jobDesk.address(state.job.id, next), text: next === "plan" ? "See the plan" : seambook.jobViews[next].title })
      : null;
    return [el("p", { text: inShort(state) }), way].filter(Boolean);
  }

  /** @param {HTMLElement} place @param {any} state */
  function draw(place, state) {
    place.append(
      jobMake.car(state), jobMake.pick(state), jobMake.list(state),
      el("div", { id: "job_troubles" }, troubles(state)),
      jobMake.time(state), jobMake.prices(state),
      el("div", { class: "job-onward", id: "job_summary" }, summary(state)),
    );
  }

  /** While one types: what comes of it, and no field. @param {HTMLElement} _ @param {any} state */
  function freshen(_, state) {
    document.getElementById("job_summary")?.replaceChildren(...summary(state));
    document.getElementById("job_troubles")?.replaceChildren(...troubles(state));
  }

  seambook.jobViews.make = { title: "Make", draw, freshen };
})();
