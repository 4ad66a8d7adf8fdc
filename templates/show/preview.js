/**
 * Added by `seambook show` to the pages it serves, and never written into a book. It asks the server again and again
 * for a small script that says how the book stands, since the pages allow scripts and no other way to ask; reloads
 * the page when the book has been built again; and shows what is wrong with the records meanwhile.
 */

(function () {
  "use strict";

  /** @typedef {{version: string, failed: boolean, title: string, text: string}} News */

  const NEWS = "/_seambook/news.js";
  const EVERY = 700;
  const AFTER_SILENCE = 3000;
  const PLACE = "seambook-preview";

  const own = /** @type {HTMLScriptElement} */ (document.currentScript);
  const seen = own.dataset.version || "";
  let asked = 0;
  let shown = "";

  /** @returns {News | undefined} */
  function news() {
    return /** @type {any} */ (window).seambookNews;
  }

  /** @param {string} name @param {string} text */
  function element(name, text) {
    const made = document.createElement(name);
    made.textContent = text;
    return made;
  }

  /** @param {News} found */
  function show(found) {
    const key = found.title + "\n" + found.text;
    if (key === shown) return;
    shown = key;
    document.getElementById(PLACE)?.remove();
    if (!found.text) return;
    const banner = document.createElement("details");
    banner.id = PLACE;
    banner.open = found.failed;
    banner.append(element("summary", found.title), element("pre", found.text));
    document.body.prepend(banner);
  }

  function hear() {
    const found = news();
    if (!found) return;
    if (found.version !== seen) location.reload();
    else show(found);
  }

  function ask() {
    const script = document.createElement("script");
    asked += 1;
    script.src = `${NEWS}?${asked}`;
    script.onload = () => {
      script.remove();
      hear();
      setTimeout(ask, EVERY);
    };
    script.onerror = () => {
      script.remove();
      setTimeout(ask, AFTER_SILENCE);
    };
    document.head.append(script);
  }

  ask();
})();
