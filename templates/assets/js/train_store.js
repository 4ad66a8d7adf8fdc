/**
 * Where people's training is kept: in the browser, for this book, under a key for each person, apart from all jobs. What stands
 * there is never trusted: what cannot be read is left as it is. Needs train_file.js and train_join.js.
 */
(function () {
  "use strict";

  /** @typedef {any} Person */
  /** @typedef {{id: string, person: Person | null, fault: string, text: string}} Kept */
  /** @typedef {{why: string, isFull: boolean}} Saved */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { trainFile, trainJoin, trainWords } = seambook;

  /** @typedef {{keys: () => string[], get: (key: string) => string | null, set: (key: string, text: string) => void, drop: (key: string) => void}} Texts */

  /** A store that lasts as long as the page. @returns {Texts} */
  function inMemory() {
    /** @type {Map<string, string>} */
    const all = new Map();
    return {
      keys: () => [...all.keys()],
      get: (/** @type {string} */ key) => (all.has(key) ? String(all.get(key)) : null),
      set: (/** @type {string} */ key, /** @type {string} */ text) => void all.set(key, text),
      drop: (/** @type {string} */ key) => void all.delete(key),
    };
  }

  /** @param {Storage} storage @returns {Texts} */
  function lasting(storage) {
    return {
      keys: () => Array.from({ length: storage.length }, (_, at) => storage.key(at) || ""),
      get: (/** @type {string} */ key) => storage.getItem(key),
      set: (/** @type {string} */ key, /** @type {string} */ text) => storage.setItem(key, text),
      drop: (/** @type {string} */ key) => storage.removeItem(key),
    };
  }

  /** The browser's store where it takes something in and gives it back. @param {string} key @returns {{store: Texts, why: string}} */
  function found(key) {
    try {
      const store = lasting(window.localStorage);
      const before = store.get(key);
      store.set(key, before === null ? "" : before);
      if (before === null) store.drop(key);
      return { store, why: "" };
    } catch (error) {
      return isFull(error) ? { store: lasting(window.localStorage), why: "" } : { store: inMemory(), why: String((error && /** @type {any} */ (error).message) || error) };
    }
  }

  /** @param {unknown} error */
  function isFull(error) {
    const name = String(error && /** @type {any} */ (error).name);
    return name === "QuotaExceededError" || name === "NS_ERROR_DOM_QUOTA_REACHED";
  }

  /**
   * Open the store of a book. `why` says what keeps it from lasting; empty where it lasts.
   * @param {any} book @param {(id: string) => void} heard of another tab's change
   */
  function open(book, heard) {
    const start = `seambook:${book.book.id}:training:`;
    const chosen = `seambook:${book.book.id}:trains`;
    const { store, why } = found(chosen);
    const keyOf = (/** @type {string} */ id) => `${start}${id}`;

    /** @param {string} id @returns {Kept | null} */
    function load(id) {
      const text = store.get(keyOf(id));
      if (text === null) return null;
      const read = trainFile.read(text, book, id);
      const isOwn = read.person && read.person.id === id;
      return { id, person: isOwn ? read.person : null, fault: read.fault || (isOwn ? "" : "It stands under another person's name."), text };
    }

    /** Keep a person: what another tab has added meanwhile goes into it as well. @param {Person} person @returns {Saved} */
    function save(person) {
      const before = load(person.id);
      if (before && before.person) Object.assign(person, trainJoin.join(before.person, person));
      else if (before) person.id = trainWords.newId(); // what stands there is damaged, and stays
      const wrong = trainFile.unreadable(person, book);
      if (wrong) return { why: `at “${wrong.place}” ${wrong.say}`, isFull: false };
      try {
        store.set(keyOf(person.id), trainFile.write(person, book));
        return { why: "", isFull: false };
      } catch (error) {
        return { why: String(error), isFull: isFull(error) };
      }
    }

    /** @returns {Kept[]} by name; what cannot be read stands last */
    function all() {
      const ids = store.keys().filter((key) => key.startsWith(start)).map((key) => key.slice(start.length));
      const nameOf = (/** @type {Kept} */ one) => (one.person ? one.person.name.toLocaleLowerCase() : "\uffff");
      return ids.flatMap((id) => load(id) || []).sort((one, other) => (nameOf(one) < nameOf(other) ? -1 : nameOf(one) > nameOf(other) ? 1 : one.id < other.id ? -1 : 1));
    }

    window.addEventListener("storage", (event) => {
      if (event.key === null) heard("");
      else if (event.key.startsWith(start)) heard(event.key.slice(start.length));
    });
    return {
      why, load, save, all,
      remove: (/** @type {string} */ id) => store.drop(keyOf(id)),
      /** Who practises on this device. */
      chosen: () => load(store.get(chosen) || "")?.person || null,
      choose: (/** @type {string} */ id) => {
        try {
          store.set(chosen, id);
        } catch {
          /* Full: the choice then holds for this page, which has been told of it by the first save. */
        }
      },
    };
  }

  seambook.trainStore = { open };
})();
