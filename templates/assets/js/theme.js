/* The night sheet by a button, kept for this book; without a choice the device's own setting holds. */
(function () {
  "use strict";

  const root = document.documentElement;
  const key = `seambook:${document.body.dataset.book || ""}:theme`;
  const dark = window.matchMedia("(prefers-color-scheme: dark)");

  /** @returns {"day" | "night" | ""} what was chosen before; anything else that stands there is no choice */
  function kept() {
    try {
      const value = window.localStorage.getItem(key);
      return value === "day" || value === "night" ? value : "";
    } catch {
      return "";
    }
  }

  /** @param {"day" | "night"} theme */
  function keep(theme) {
    try {
      window.localStorage.setItem(key, theme);
    } catch {
      /* Storage may be refused; the choice then holds for this page. */
    }
  }

  function isNight() {
    const chosen = root.dataset.theme;
    return chosen ? chosen === "night" : dark.matches;
  }

  const chosen = kept();
  if (chosen) root.dataset.theme = chosen;

  const button = document.getElementById("page_theme");
  if (!button) return;

  function show() {
    button?.setAttribute("aria-pressed", String(isNight()));
  }

  button.addEventListener("click", () => {
    const theme = isNight() ? "day" : "night";
    root.dataset.theme = theme;
    keep(theme);
    show();
  });
  dark.addEventListener("change", show);
  button.hidden = false;
  show();
})();
