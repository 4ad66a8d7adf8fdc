/* A way into the book as its code on paper, where the shop has put the book on a server. Needs qr.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const SVG = "http://www.w3.org/2000/svg";

  /** The full address of a path from the book's root; empty where the book is on no server. @param {string} path */
  function address(path) {
    const base = document.body.dataset.base;
    return base ? `${base}/${path}` : "";
  }

  /** The code of a text as a drawing, its quiet zone within; null where the text is too long. @param {string} text @returns {SVGElement | null} */
  function draw(text) {
    const rows = seambook.qr.modules(text);
    if (!rows) return null;
    const size = rows.length + 2 * seambook.qr.QUIET;
    const made = document.createElementNS(SVG, "svg");
    const path = document.createElementNS(SVG, "path");
    for (const [name, value] of [["class", "code"], ["viewBox", `0 0 ${size} ${size}`], ["aria-hidden", "true"]]) made.setAttribute(name, value);
    path.setAttribute("d", seambook.qr.path(rows));
    made.append(path);
    return made;
  }

  /** The code of a page as it stands on its first sheet; null where there is no address. @param {string} path @param {string} said */
  function onPaper(path, said) {
    const code = address(path) ? draw(address(path)) : null;
    if (!code) return null;
    const place = document.createElement("div");
    const words = document.createElement("p");
    place.className = "paper-address";
    words.textContent = said;
    place.append(code, words);
    return place;
  }

  seambook.qrDraw = { address, draw, onPaper };
})();
