/*
 * The paper that pages are printed on, by a button, kept for this book; and the day of printing, for the foot of each
 * sheet. A book says which paper its shop has; what stands on the page's root element the style sheet goes by.
 */
(function () {
  "use strict";

  const page = /** @type {any} */ (window);
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const root = document.documentElement;
  const key = `seambook:${document.body.dataset.book || ""}:paper`;
  const SIZES = { A4: [210, 297], Letter: [215.9, 279.4] };
  const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  const first = root.dataset.paper === "Letter" ? "Letter" : "A4";

  /** @returns {"A4" | "Letter"} what was chosen before; anything else that stands there is no choice */
  function kept() {
    try {
      const value = window.localStorage.getItem(key);
      return value === "A4" || value === "Letter" ? value : first;
    } catch {
      return first;
    }
  }

  /** @param {"A4" | "Letter"} size */
  function keep(size) {
    try {
      window.localStorage.setItem(key, size);
    } catch {
      /* Storage may be refused; the choice then holds for this page. */
    }
  }

  const button = document.getElementById("page_paper");

  /** @param {"A4" | "Letter"} size */
  function take(size) {
    root.dataset.paper = size;
    button?.setAttribute("aria-pressed", String(size === "Letter"));
    document.dispatchEvent(new Event("seambook:paper"));
  }

  /** @returns {"A4" | "Letter"} */
  function size() {
    return root.dataset.paper === "Letter" ? "Letter" : "A4";
  }

  window.addEventListener("beforeprint", () => {
    const now = new Date();
    root.style.setProperty("--printed", JSON.stringify(`Printed ${now.getDate()} ${MONTHS[now.getMonth()]} ${now.getFullYear()} \u00b7 `));
  });

  seambook.paperSize = { size, SIZES };
  take(kept());
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) take(kept());
  });
  if (!button) return;
  button.addEventListener("click", () => {
    const chosen = size() === "Letter" ? "A4" : "Letter";
    take(chosen);
    keep(chosen);
  });
  button.hidden = false;
})();
