/**
 * What a page had no time to keep when it was closed: put down at once, in the browser's small store, which needs no
 * waiting, and brought into the database when that is opened the next time.
 */
(function () {
  "use strict";

  /** @typedef {{id: string, text: string, brief: Record<string, any>, revision: number}} Kept */
  /**
   * `before` is what was on its way into the database, if anything was; `until` is the revision that it has once all is in.
   * @typedef {Kept & {before: string, until: number}} Left
   */
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** By the name of the job. @param {string} name the store's */
  function behind(name) {
    const start = `${name}:left:`;
    return {
      put: (/** @type {Left} */ job) => {
        try {
          window.localStorage.setItem(start + job.id, JSON.stringify(job));
        } catch {
          /* Refused, or too large for it: the database is asked all the same. */
        }
      },
      drop: (/** @type {string} */ id) => {
        try {
          window.localStorage.removeItem(start + id);
        } catch {
          /* Refused: nothing was put there either. */
        }
      },
      /** @returns {Left[]} */
      all: () => {
        try {
          const keys = Object.keys(window.localStorage).filter((key) => key.startsWith(start));
          return keys.map((key) => JSON.parse(window.localStorage.getItem(key) || "{}")).filter((one) => typeof one.text === "string");
        } catch {
          return []; // refused, or damaged: what the database has stands
        }
      },
    };
  }

  /** Bring in what was left behind; what meets another tab's words stays where it is. @param {any} store @param {ReturnType<typeof behind>} left */
  async function bringIn(store, left) {
    for (const { revision, before, until, ...job } of left.all()) {
      let came = await store.save(job, revision);
      const found = came.conflict;
      if (found && before && found.text === before) came = await store.save(job, found.revision);
      if (came.ok || (found && found.text === job.text)) left.drop(job.id);
    }
  }

  seambook.jobLeft = { behind, bringIn };
})();
