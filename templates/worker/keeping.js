/**
 * What is kept: the whole book, or of one above its limit the core and the procedures that were chosen. The choice
 * outlives the edition, so that the next one comes with the same procedures.
 */
(function () {
  "use strict";

  /** @typedef {{id: string, title: string, bytes: number, files: string}} Group */
  /** @typedef {{most: number | null, bytes: number, sizes: number[], core: {bytes: number, files: string}, procedures: Group[]}} Contents */

  /** @type {any} */
  const seambook = /** @type {any} */ (self).seambookWorker;
  const { CONTENTS, addressOf } = seambook;
  const CHOSEN = "chosen";

  /** @returns {Promise<Contents>} */
  async function contents() {
    await seambook.fill([CONTENTS], () => {});
    const store = await caches.open(seambook.store);
    return (await store.match(addressOf(CONTENTS)))?.json();
  }

  /** `0-4,9` -> paths. @param {string} text @param {string[]} paths */
  function unfolded(text, paths) {
    return text.split(",").filter(Boolean).flatMap((run) => {
      const [first, last] = run.split("-").map(Number);
      return paths.slice(first, (last === undefined ? first : last) + 1);
    });
  }

  /** @param {Contents} found */
  function isWhole(found) {
    return found.most === null || found.bytes <= found.most;
  }

  /** @returns {Promise<string[]>} ids of the procedures that are to be kept */
  async function chosen() {
    const found = await (await caches.open(seambook.choice)).match(addressOf(CHOSEN));
    return found ? found.json() : [];
  }

  /** @param {string[]} ids */
  async function choose(ids) {
    const text = new TextEncoder().encode(JSON.stringify(ids));
    await (await caches.open(seambook.choice)).put(addressOf(CHOSEN), seambook.answer("chosen.json", text));
  }

  /** The paths that are to be kept with such a choice. @param {Contents} found @param {string[]} ids @returns {Promise<string[]>} */
  async function wanted(found, ids) {
    const paths = [...(await seambook.list()).keys()];
    if (isWhole(found)) return paths;
    const groups = found.procedures.filter((one) => ids.includes(one.id));
    const files = [found.core, ...groups].flatMap((one) => unfolded(one.files, paths));
    return [...new Set([CONTENTS, ...files])];
  }

  /** Have all that is to be kept. @param {(done: number, of: number) => void} tell */
  async function keep(tell) {
    const found = await contents();
    await seambook.fill(await wanted(found, await chosen()), tell);
  }

  /** Keep one procedure more, or no longer. @param {string} id @param {boolean} isKept @param {(done: number, of: number) => void} tell */
  async function change(id, isKept, tell) {
    const found = await contents();
    const before = await chosen();
    const after = isKept ? [...new Set([...before, id])] : before.filter((one) => one !== id);
    const paths = await wanted(found, after);
    if (isKept) {
      await seambook.fill(paths, tell);
      await choose(after);
      return;
    }
    await choose(after);
    const [store, stays] = [await caches.open(seambook.store), new Set([...paths, seambook.LIST])];
    for (const path of await seambook.held()) if (!stays.has(path)) await store.delete(addressOf(path));
  }

  /** Whether all is kept, or this procedure by choice. @param {string} id */
  async function choice(id) {
    return { isWhole: isWhole(await contents()), isKept: (await chosen()).includes(id) };
  }

  /** How this edition stands on the device. */
  async function state() {
    const [found, there, ids] = [await contents(), await seambook.held(), await chosen()];
    const paths = [...(await seambook.list()).keys()];
    const bytes = paths.reduce((sum, path, at) => sum + (there.has(path) ? found.sizes[at] : 0), 0);
    const all = await wanted(found, ids);
    return {
      edition: seambook.edition, isWhole: isWhole(found), most: found.most, bytes: found.bytes, core: found.core.bytes,
      kept: bytes, isComplete: all.every((path) => there.has(path)),
      procedures: found.procedures.map((one) => ({ id: one.id, title: one.title, bytes: one.bytes, isKept: ids.includes(one.id),
        adds: added(one, found, paths, there) })),
    };
  }

  /** What a procedure takes beside what lies there. @param {Group} group @param {Contents} found @param {string[]} paths @param {Set<string>} there */
  function added(group, found, paths, there) {
    const places = new Map(paths.map((path, at) => [path, at]));
    return unfolded(group.files, paths).reduce((sum, path) =>
      sum + (there.has(path) ? 0 : found.sizes[places.get(path) || 0]), 0);
  }

  Object.assign(seambook, { keep, change, choiceOf: choice, state });
})();
