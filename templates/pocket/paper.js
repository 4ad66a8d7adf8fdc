/**
 * Printing the copy prints the page that is shown: a frame would be cut off after its first sheet, so for as long as it is
 * printed the page stands in the copy itself.
 */
(function () {
  "use strict";

  /** @type {Element[]} */
  let laid = [];

  /** @returns {any} the frame that is shown */
  function shown() {
    return document.querySelector("iframe.pocket-leaf:not([hidden])");
  }

  /** What was typed is no part of the HTML, so it is put in. @param {Document} page @param {Element} copy */
  function withTyped(page, copy) {
    const typed = copy.querySelectorAll("input, textarea, select");
    page.body.querySelectorAll("input, textarea, select").forEach((/** @type {any} */ field, at) => {
      const other = /** @type {any} */ (typed[at]);
      if (field.type === "file") return;
      other.value = field.value;
      other.checked = field.checked;
    });
  }

  function lay() {
    const frame = shown();
    if (!frame || laid.length) return;
    const page = frame.contentDocument;
    frame.contentWindow.dispatchEvent(new Event("beforeprint"));
    const sheet = document.createElement("style");
    sheet.textContent = page.querySelector("style").textContent;
    const copy = document.importNode(page.body, true);
    withTyped(page, copy);
    document.head.append(sheet);
    laid = [sheet, ...copy.children];
    document.body.append(...copy.children);
    Object.assign(document.documentElement.dataset, page.documentElement.dataset);
    Object.assign(document.body.dataset, page.body.dataset);
    document.body.className = `pocket-open ${page.body.className}`;
  }

  function lift() {
    laid.forEach((one) => one.remove());
    laid = [];
    document.body.className = "pocket-open";
    const frame = shown();
    if (frame) frame.contentWindow.dispatchEvent(new Event("afterprint"));
  }

  window.addEventListener("beforeprint", lay);
  window.addEventListener("afterprint", lift);
})();
