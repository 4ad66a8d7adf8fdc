/* What stands before the step until it is shut: keys, the menu, the phases, who works. The focus goes back to where it was. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;

  /** Whether one stands open: then the step behind it is not drawn anew. */
  function isOpen() {
    return !!document.querySelector("dialog.bay-dialog[open]");
  }

  /**
   * Open a dialog. @param {string} id @param {string} title @param {any[]} parts
   * @param {{isNeeded?: boolean}} [how] one that is needed cannot be shut without an answer
   * @returns {() => void} shuts it
   */
  function open(id, title, parts, { isNeeded = false } = {}) {
    document.getElementById(id)?.remove();
    const before = /** @type {any} */ (document.activeElement);
    const shut = () => made.close();
    const made = el("dialog", { class: "bay-dialog", id, "aria-labelledby": `${id}_title` },
      el("div", { class: "bay-dialog-head" }, el("h2", { id: `${id}_title`, tabindex: "-1", text: title }),
        isNeeded ? null : el("button", { type: "button", class: "control", id: `${id}_shut`, text: "Close", on: { click: shut } })), parts);
    made.addEventListener("cancel", (/** @type {Event} */ event) => {
      if (isNeeded) event.preventDefault();
    });
    made.addEventListener("close", () => {
      made.remove();
      const again = before && (before.isConnected ? before : document.getElementById(before.id));
      if (again && again !== document.body) again.focus({ preventScroll: true });
    });
    document.getElementById("bay")?.append(made);
    made.showModal();
    document.getElementById(`${id}_title`)?.focus();
    return shut;
  }

  seambook.bayDialog = { open, isOpen };
})();
