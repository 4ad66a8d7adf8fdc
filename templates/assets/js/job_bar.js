/**
 * What the page has to tell and to ask: a status line that is read out, and notices with choices that stay until one is
 * taken. Needs job_dom.js.
 */
(function () {
  "use strict";

  /** @typedef {{label: string, take: () => void}} Choice */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button } = seambook.dom;
  const line = el("p", { class: "job-said note", id: "job_said", role: "status" });
  const notices = el("div", { class: "job-notices", id: "job_notices" });

  /** Say in a word what has just come about. @param {string} text */
  function say(text) {
    line.textContent = text;
  }

  /**
   * Show a notice; one of the same name takes its place.
   * @param {string} name @param {string} title @param {string[]} texts @param {Choice[]} [choices]
   */
  function tell(name, title, texts, choices = []) {
    const id = `job_notice-${name}`;
    const made = el("div", { class: "job-notice", id, role: "alert" },
      el("p", {}, el("strong", { text: title })), texts.map((text) => el("p", { text })),
      choices.length ? el("p", { class: "job-buttons" }, choices.map(({ label, take }, at) =>
        button(label, take, { id: `${id}-${at}` }))) : null);
    const before = document.getElementById(id);
    if (before) before.replaceWith(made);
    else notices.append(made);
  }

  /** Take a notice away. @param {string} name */
  function clear(name) {
    document.getElementById(`job_notice-${name}`)?.remove();
  }

  /** A choice that takes the notice away and does nothing else. @param {string} name @param {string} label @returns {Choice} */
  function shut(name, label) {
    return { label, take: () => clear(name) };
  }

  seambook.jobBar = { line, notices, say, tell, clear, shut };
})();
