/* The mark on a step that is done in another way since this device last followed its procedure. Needs job_dom.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;

  /** @param {{number: number}[]} changes newest first */
  function heading(changes) {
    const numbers = changes.map(({ number }) => number).reverse();
    return `Changed in revision${numbers.length > 1 ? "s" : ""} ${numbers.join(", ").replace(/, (\d+)$/, " and $1")}`;
  }

  /** @param {string} id of its button @param {{number: number, what: string}[]} changes @param {string} of whose step @param {() => void} press */
  function made(id, changes, of, press) {
    return el("div", { class: "changed", role: "group", "aria-label": `${heading(changes)}: ${of}` },
      el("p", { class: "label", text: heading(changes) }),
      ...changes.map(({ what }) => el("p", { text: what })),
      el("button", { type: "button", class: "control", id, "aria-label": `I have seen it: ${of}`, text: "I have seen it", on: { click: press } }));
  }

  seambook.seenMark = { made };
})();
