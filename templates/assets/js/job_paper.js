/* What stands on paper alone is made when it is printed, so that no redrawing of the screen pays for it. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  /** @type {WeakMap<Element, () => Node[]>} */
  const makers = new WeakMap();

  /** Give what fills a place just before printing; it is empty until then. @param {() => Node[]} make @param {string} [style] */
  function place(make, style) {
    const made = document.createElement("div");
    made.className = `only-paper${style ? ` ${style}` : ""}`;
    makers.set(made, make);
    return made;
  }

  /** Words for the head of every sheet, which the style sheet puts there. @param {any} job */
  function head(job) {
    const quoted = (/** @type {string} */ text) => JSON.stringify(text.replace(/\s+/g, " "));
    const { style } = document.documentElement;
    style.setProperty("--job-number", quoted(`Job ${job.number || "without a number"}`));
    style.setProperty("--job-car", quoted([job.title, job.car, seambook.jobStatus.inWords(job)].filter(Boolean).join(" \u00b7 ")));
  }

  window.addEventListener("beforeprint", () => {
    for (const one of document.querySelectorAll(".only-paper")) one.replaceChildren(...(makers.get(one)?.() || []));
  });
  window.addEventListener("afterprint", () => {
    for (const one of document.querySelectorAll(".only-paper")) if (makers.has(one)) one.replaceChildren();
  });

  seambook.jobPaper = { place, head };
})();
