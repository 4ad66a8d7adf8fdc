/* Who works: the names that a job knows, and a field that takes one of them by one touch. Needs job_dom.js, job_entries.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const entries = seambook.jobEntries;
  const MOST = 6;
  /** As many letters stand beside the count and the menu. */
  const SHORT = 12;

  /** The names in a job, whoever works on this device first. @param {any} job @returns {string[]} */
  function of(job) {
    const lists = [job.done, job.releases, job.readings].flatMap((one) => Object.values(one || {}).map(({ by }) => by));
    const photos = Object.values(job.photos || {}).flat().map((/** @type {any} */ { by }) => by);
    return [...new Set([entries.name(), ...Object.keys(job.left_at || {}), ...lists, ...photos])].filter(Boolean);
  }

  /** A name that fits the head: whole, or its initials. @param {string} name */
  function short(name) {
    if (name.length <= SHORT) return name;
    return name.split(/\s+/).map((part) => Array.from(part)[0]).join("").toUpperCase().slice(0, 4);
  }

  /** A field for a name with a button for each that is known. @param {string} id @param {string} label @param {any} job @param {string} [value] */
  function field(id, label, job, value = "") {
    const known = of(job).slice(0, MOST);
    const take = (/** @type {string} */ name) => () => {
      const input = /** @type {any} */ (document.getElementById(id));
      input.value = name;
      for (const one of document.querySelectorAll(`[data-names="${id}"]`)) one.setAttribute("aria-pressed", String(one.textContent === name));
    };
    return el("div", { class: "bay-names" }, entries.field({ id, label, value }), known.length ? el("p", { class: "bay-keys-row" }, known.map((name) =>
      el("button", { type: "button", class: "control", "data-names": id, "aria-pressed": String(name === value), text: name, on: { click: take(name) } }))) : null);
  }

  seambook.bayNames = { of, short, field };
})();
