/**
 * What this device knows of a procedure: the revision that was followed here last, and which changed steps were seen since.
 * So a step that is done in another way now is marked until somebody has looked at it. What is kept is never trusted.
 */
(function () {
  "use strict";

  /**
   * @typedef {{revision: number, seen: Record<string, number>}} Followed  `seen` holds, by a step's key, the last revision
   *   whose change of it was seen.
   * @typedef {{number: number, what: string}} Change
   * @typedef {[number, Record<string, string>][]} Changed  Of revisions, newest first, what was changed in which step.
   */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  /** Where storage is refused, what is followed holds as long as the page is open. @type {Map<string, string>} */
  const held = new Map();

  /** @param {unknown} value @returns {value is number} */
  function isRevision(value) {
    return Number.isInteger(value) && Number(value) > 0;
  }

  /** What may be trusted of a kept text. @param {string | null | undefined} text @returns {Followed | null} */
  function parsed(text) {
    /** @type {any} */
    let found = null;
    try {
      found = JSON.parse(text || "null");
    } catch {
      return null;
    }
    if (!found || !isRevision(found.revision)) return null;
    const seen = found.seen && typeof found.seen === "object" ? Object.entries(found.seen) : [];
    return { revision: found.revision, seen: Object.fromEntries(seen.filter(([, number]) => isRevision(number))) };
  }

  /** What was changed in each step since: nothing for whoever never followed the procedure, to whom all of it is new.
   * @param {Followed | null} kept @param {Changed} changed @returns {Map<string, Change[]>} */
  function news(kept, changed) {
    /** @type {Map<string, Change[]>} */
    const found = new Map();
    if (!kept) return found;
    for (const [number, steps] of changed) {
      for (const [key, what] of Object.entries(steps)) {
        const known = Math.max(kept.revision, kept.seen[key] || 0);
        if (number > known) found.set(key, [...(found.get(key) || []), { number, what }]);
      }
    }
    return found;
  }

  /** @param {string} procedure */
  function keyOf(procedure) {
    return `seambook:${document.body.dataset.book || ""}:followed:${procedure}`;
  }

  /** @param {string} procedure @returns {Followed | null} */
  function read(procedure) {
    const key = keyOf(procedure);
    try {
      return parsed(window.localStorage.getItem(key) ?? held.get(key));
    } catch {
      return parsed(held.get(key));
    }
  }

  /** @param {string} procedure @param {Followed} kept */
  function write(procedure, kept) {
    const [key, text] = [keyOf(procedure), JSON.stringify(kept)];
    held.set(key, text);
    try {
      window.localStorage.setItem(key, text);
    } catch {
      /* Refused or full: it holds while the page is open. */
    }
  }

  /** The procedure was followed to its end, or all that changed was seen. @param {string} procedure @param {number} revision */
  function followed(procedure, revision) {
    const kept = read(procedure);
    if (isRevision(revision) && (!kept || kept.revision < revision)) write(procedure, { revision, seen: {} });
  }

  /** What changed in a step was seen; with the last of them the revision counts as followed.
   * @param {string} procedure @param {string} key @param {{number: number, changed: Changed}} revision */
  function seen(procedure, key, revision) {
    const kept = read(procedure);
    const [newest] = news(kept, revision.changed).get(key) || [];
    if (!kept || !newest) return;
    const after = { ...kept, seen: { ...kept.seen, [key]: newest.number } };
    if (news(after, revision.changed).size) write(procedure, after);
    else followed(procedure, revision.number);
  }

  seambook.seen = { read, news, followed, seen, parsed };
})();
