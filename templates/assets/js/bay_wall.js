/**
 * Whether this device's clock was set back, found by the last moment that was seen: while the page is open against a clock that
 * nobody can set, and after that against what was kept. A clock put forward looks like a phone that slept, and cannot be told.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const SLACK = 60000;
  const KEEP = 15000;
  let [last, lastSteady, kept] = [0, 0, 0];
  /** By how much it was set back, in milliseconds. */
  let back = 0;

  const key = () => `seambook:${document.body.dataset.book || ""}:clock`;

  /** @returns {{seen: number, back: number}} */
  function read() {
    try {
      const [seen, by] = (window.localStorage.getItem(key()) || "").split(" ").map(Number);
      return { seen: seen > 0 ? seen : 0, back: by > 0 ? by : 0 };
    } catch {
      return { seen: 0, back: 0 };
    }
  }

  /** @param {number} now */
  function write(now) {
    kept = now;
    try {
      window.localStorage.setItem(key(), `${Math.round(now)} ${Math.round(back)}`);
    } catch {
      // Without storage only what happens while the page is open is found.
    }
  }

  /** Look at the clock. @param {number} now @param {number} steady milliseconds by a clock that only goes forward
   * @returns {number} by how much it was set back, until somebody has seen it */
  function look(now, steady) {
    const before = last ? { seen: last + Math.max(0, steady - lastSteady), back } : read();
    back = before.back;
    const isBack = before.seen - now > SLACK;
    if (isBack) back += before.seen - now;
    [last, lastSteady] = [now, steady];
    if (isBack || Math.abs(now - kept) > KEEP) write(now);
    return back;
  }

  /** Somebody has seen it. */
  function seen() {
    back = 0;
    write(last);
  }

  seambook.bayWall = { look, seen };
})();
