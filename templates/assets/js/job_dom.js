/* Elements made by nodes and text alone, so that nothing a record or a person says can be markup. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** @typedef {Node | string | number | null | undefined | false} Child */

  /**
   * `class`, `text` and `on` (handlers by event) are said apart; true stands for a bare attribute, and what is null,
   * undefined or false is left out.
   * @param {string} tag
   * @param {Record<string, any>} [about]
   * @param {...(Child | Child[])} children
   * @returns {any}
   */
  function el(tag, about, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(about || {})) {
      if (value === null || value === undefined || value === false) continue;
      if (name === "class") element.className = value;
      else if (name === "text") element.textContent = String(value);
      else if (name === "on") Object.entries(value).forEach(([event, does]) => element.addEventListener(event, /** @type {any} */ (does)));
      else element.setAttribute(name, value === true ? "" : String(value));
    }
    const kept = children.flat().filter((child) => child !== null && child !== undefined && child !== false);
    element.append(...kept.map((child) => (child instanceof Node ? child : String(child))));
    return element;
  }

  seambook.dom = { el };
})();
