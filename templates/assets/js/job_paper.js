/* What stands on paper alone is made when it is printed, so that no redrawing of the screen pays for it. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  /** @type {WeakMap<Element, () => Node[]>} */
  const makers = new WeakMap();
  let address = "jobs.html";

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
    address = `jobs.html#job=${job.id}`;
  }

  /** What the customer is given leads nowhere in the shop's book. */
  const CODED = ".job-view:not(.job-view-customer)";

  /** The way back to the job, on its first sheet. */
  function code() {
    const made = document.querySelector(CODED) && seambook.qrDraw?.onPaper(address, "This job, on a device that keeps it");
    if (made) document.querySelector(CODED)?.prepend(made);
  }

  window.addEventListener("beforeprint", () => {
    code();
    for (const one of document.querySelectorAll(".only-paper")) one.replaceChildren(...(makers.get(one)?.() || []));
  });
  window.addEventListener("afterprint", () => {
    document.querySelectorAll(".job-view > .paper-address").forEach((one) => one.remove());
    for (const one of document.querySelectorAll(".only-paper")) if (makers.has(one)) one.replaceChildren();
  });

  seambook.jobPaper = { place, head };
})();
