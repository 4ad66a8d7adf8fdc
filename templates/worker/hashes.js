/**
 * Hashes, and the list of them. A `Fault` tells why a file could not be had: no way to the server ("away"), an answer
 * that is no file ("refused"), other bytes than the list names ("damaged"), a list of another edition ("other"), or no
 * room on the device ("full").
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (self).seambookWorker;
  const { edition, LIST } = seambook;

  class Fault extends Error {
    /** @param {"away" | "refused" | "damaged" | "other" | "full"} why @param {string} path @param {string} [told] */
    constructor(why, path, told = "") {
      super(`${why}: ${path} ${told}`);
      this.why = why;
      this.path = path;
      this.told = told;
    }
  }

  /** @param {BufferSource} bytes */
  async function hashOf(bytes) {
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
    return Array.from(hash, (one) => one.toString(16).padStart(2, "0")).join("");
  }

  /** Lines as `sha256sum` writes them -> hash by path, in the list's order. @param {string} text @returns {Map<string, string>} */
  function parsed(text) {
    const lines = text.split("\n").filter(Boolean);
    return new Map(lines.map((line) => [line.slice(66), line.slice(0, 64)]));
  }

  /** @param {string} path @param {RequestCache} cache @returns {Promise<ArrayBuffer>} */
  async function asked(path, cache) {
    let response;
    try {
      response = await fetch(seambook.addressOf(path), { cache, credentials: "same-origin" });
    } catch {
      throw new Fault("away", path);
    }
    if (!response.ok) throw new Fault("refused", path, String(response.status));
    try {
      return await response.arrayBuffer();
    } catch {
      throw new Fault("away", path);
    }
  }

  /**
   * A file from the server with the right bytes, asked for twice: what lies on the way may be old or cut short. The
   * browser's own store of answers is left alone, or each file would lie on the device twice.
   * @param {string} path @param {string} hash @returns {Promise<ArrayBuffer>}
   */
  async function had(path, hash) {
    const first = await asked(path, "no-store");
    if (await hashOf(first) === hash) return first;
    const second = await asked(path, "reload");
    if (await hashOf(second) === hash) return second;
    throw new Fault(path === LIST ? "other" : "damaged", path);
  }

  /** @type {Promise<Map<string, string>> | null} */
  let known = null;

  /** The list of this edition: kept from when it was first had. @returns {Promise<Map<string, string>>} */
  function list() {
    known = known || read().catch((error) => {
      known = null;
      throw error;
    });
    return known;
  }

  async function read() {
    const store = await caches.open(seambook.store);
    const kept = await store.match(seambook.addressOf(LIST));
    if (kept) return parsed(await kept.text());
    const bytes = await had(LIST, edition);
    await store.put(seambook.addressOf(LIST), seambook.answer(LIST, bytes));
    return parsed(new TextDecoder().decode(bytes));
  }

  Object.assign(seambook, { Fault, hashOf, parsed, had, list });
})();
