/**
 * Files into this edition's store: those that lie there already are left, those that an earlier edition holds with the
 * same hash are taken from it, and only the rest is asked of the server. So what was cut short goes on where it stopped.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (self).seambookWorker;
  const { Fault, LIST, addressOf, ours, choice } = seambook;
  const LANES = 6;
  /* Files asked for at once: as many as browsers open to one server of HTTP/1.1 (common practice). */

  /** @returns {Promise<Set<string>>} the paths that lie in this edition's store */
  async function held() {
    const store = await caches.open(seambook.store);
    return new Set((await store.keys()).map((/** @type {Request} */ one) => seambook.pathOf(one.url)));
  }

  /** The stores of other editions, each with its list. @returns {Promise<{store: Cache, list: Map<string, string>}[]>} */
  async function earlier() {
    const names = (await caches.keys()).filter((name) => name.startsWith(ours) && name !== seambook.store && name !== choice);
    const found = [];
    for (const name of names) {
      const store = await caches.open(name);
      const text = await (await store.match(addressOf(LIST)))?.text();
      if (text) found.push({ store, list: seambook.parsed(text) });
    }
    return found;
  }

  /** @param {string} path @param {string} hash @param {{store: Cache, list: Map<string, string>}[]} others */
  async function taken(path, hash, others) {
    for (const { store, list } of others) {
      if (list.get(path) !== hash) continue;
      const bytes = await (await store.match(addressOf(path)))?.arrayBuffer();
      if (bytes && await seambook.hashOf(bytes) === hash) return bytes;
    }
    return null;
  }

  /** @param {Cache} store @param {string} path @param {ArrayBuffer} bytes */
  async function put(store, path, bytes) {
    try {
      await store.put(addressOf(path), seambook.answer(path, bytes));
    } catch (error) {
      throw new Fault("full", path, String(error));
    }
  }

  /**
   * Have these files in the store. A damaged one does not keep the others from coming, so that the next try has little
   * left to do; without the server there is nothing to go on with.
   * @param {string[]} paths @param {(done: number, of: number) => void} tell
   */
  async function fill(paths, tell) {
    const [list, there, others, store] =
      await Promise.all([seambook.list(), held(), earlier(), caches.open(seambook.store)]);
    const missing = paths.filter((path) => !there.has(path));
    /** @type {any[]} */
    const faults = [];
    let [next, done] = [0, paths.length - missing.length];
    async function lane() {
      while (next < missing.length && !faults.some((one) => one.why !== "damaged" && one.why !== "refused")) {
        const path = missing[next++];
        try {
          const hash = list.get(path);
          await put(store, path, await taken(path, hash, others) || await seambook.had(path, hash));
          tell(done += 1, paths.length);
        } catch (error) {
          faults.push(error);
        }
      }
    }
    tell(done, paths.length);
    await Promise.all(Array.from({ length: LANES }, lane));
    if (faults.length) throw faults[0];
  }

  Object.assign(seambook, { held, fill });
})();
