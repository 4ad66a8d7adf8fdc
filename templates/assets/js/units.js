/*
 * The units by a button, kept for this book. A page is written in the units that its shop chose; what reads otherwise
 * in the other system carries that text in data-q, and the two change places. Other scripts ask `seambook.units` and
 * hear of a change by the event "seambook:units".
 */
(function () {
  "use strict";

  const page = /** @type {any} */ (window);
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const key = `seambook:${document.body.dataset.book || ""}:units`;
  const first = document.body.dataset.units === "us" ? "us" : "metric";
  let system = first;

  /** @returns {string} what was chosen before; anything else that stands there is no choice */
  function kept() {
    try {
      const value = window.localStorage.getItem(key);
      return value === "metric" || value === "us" ? value : first;
    } catch {
      return first;
    }
  }

  function keep() {
    try {
      window.localStorage.setItem(key, system);
    } catch {
      /* Storage may be refused; the choice then holds for this page. */
    }
  }

  function swap() {
    document.querySelectorAll("[data-q]").forEach((element) => {
      const other = element.getAttribute("data-q") || "";
      element.setAttribute("data-q", element.textContent || "");
      element.textContent = other;
    });
  }

  const button = document.getElementById("page_units");

  /** @param {string} chosen */
  function take(chosen) {
    if (chosen !== system) {
      system = chosen;
      swap();
      document.dispatchEvent(new Event("seambook:units"));
    }
    button?.setAttribute("aria-pressed", String(system === "us"));
  }

  /** What stands behind a number in the units that are shown, as its place says. @param {HTMLElement} place */
  function signOf(place) {
    const { sign, otherSign } = place.dataset;
    return (system === first ? sign : otherSign || sign) || "";
  }

  seambook.units = { first: first, system: () => system, signOf: signOf };
  take(kept());
  // A page that the browser kept whole and shows again may be older than the choice.
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) take(kept());
  });
  if (!button) return;
  button.addEventListener("click", () => {
    take(system === "us" ? "metric" : "us");
    keep();
  });
  button.hidden = false;
})();
