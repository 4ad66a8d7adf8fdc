/**
 * Where jobs are kept: in the browser's database, each with a revision number that one transaction reads and raises, so
 * that no tab writes over what another one wrote. Without storage they are kept in the page, and the page says so.
 * A job is kept as the text of its file; what the list of jobs shows is kept beside it. Needs job_left.js.
 */
(function () {
  "use strict";

  /** @typedef {{id: string, text: string, brief: Record<string, any>, revision: number}} Kept */
  /** @typedef {{ok: true, revision: number} | {conflict: Kept | null} | {full: true} | {refused: string}} Saved */

  const PATIENCE = 5000;
  const [TEXTS, BRIEFS] = ["texts", "briefs"];
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** @param {any} found what stands in the store, which is never trusted @returns {number} */
  function revisionOf(found) {
    return found && Number.isInteger(found.revision) && found.revision > 0 ? found.revision : 0;
  }

  /** Whether a job may be written over: what has no revision is damaged, and stays. @param {any} found @param {number} revision */
  function isAt(found, revision) {
    return found ? revision > 0 && revisionOf(found) === revision : revision === 0;
  }

  /** @param {any} found @returns {string} */
  function textOf(found) {
    return typeof found.text === "string" ? found.text : String(JSON.stringify(found.text) || "");
  }

  /** @param {any} found @returns {Record<string, any>} */
  function briefOf(found) {
    return found && typeof found.brief === "object" && found.brief !== null ? found.brief : {};
  }

  /** @param {unknown} error */
  function isFull(error) {
    const name = String(error && /** @type {any} */ (error).name);
    return name === "QuotaExceededError" || name === "NS_ERROR_DOM_QUOTA_REACHED";
  }

  /** Break a transaction off, if it has not broken off by itself. @param {IDBTransaction} writing */
  function end(writing) {
    try {
      writing.abort();
    } catch {
      /* It has ended already, and tells so itself. */
    }
  }

  /** @param {string} name @returns {Promise<IDBDatabase>} */
  function opened(name) {
    return new Promise((done, failed) => {
      const late = window.setTimeout(() => failed(new Error("the browser does not answer")), PATIENCE);
      const asked = window.indexedDB.open(name, 1);
      asked.onupgradeneeded = () => {
        for (const one of [TEXTS, BRIEFS]) asked.result.createObjectStore(one, { keyPath: "id" });
      };
      asked.onsuccess = () => {
        window.clearTimeout(late);
        done(asked.result);
      };
      asked.onerror = () => {
        window.clearTimeout(late);
        failed(asked.error || new Error("refused"));
      };
    });
  }

  /** A store that lasts as long as the page. */
  function inMemory() {
    /** @type {Map<string, Kept>} */
    const all = new Map();
    return {
      list: async () => Array.from(all.values(), ({ id, brief, revision }) => ({ id, brief, revision })),
      load: async (/** @type {string} */ id) => all.get(id) || null,
      /** @param {Omit<Kept, "revision">} job @param {number} revision @returns {Promise<Saved>} */
      save: async (job, revision) => {
        const found = all.get(job.id);
        if (!isAt(found, revision)) return { conflict: found || null };
        all.set(job.id, { ...job, revision: revision + 1 });
        return { ok: true, revision: revision + 1 };
      },
      remove: async (/** @type {string} */ id) => void all.delete(id),
    };
  }

  /** @param {IDBDatabase} database @param {string} store @param {(one: IDBObjectStore) => IDBRequest} ask @returns {Promise<any>} */
  function asked(database, store, ask) {
    return new Promise((done, failed) => {
      const request = ask(database.transaction(store).objectStore(store));
      request.onsuccess = () => done(request.result);
      request.onerror = () => failed(request.error);
    });
  }

  /** @param {IDBDatabase} database @param {string} id @returns {Promise<Kept | null>} */
  async function load(database, id) {
    const [found, brief] = await Promise.all([TEXTS, BRIEFS].map((name) => asked(database, name, (store) => store.get(id))));
    return found ? { id, text: textOf(found), brief: briefOf(brief), revision: revisionOf(found) } : null;
  }

  /**
   * Read the revision and write the next one, in one transaction.
   * @param {IDBDatabase} database @param {Omit<Kept, "revision">} job @param {number} revision @returns {Promise<Saved>}
   */
  function save(database, { id, text, brief }, revision) {
    return new Promise((done) => {
      /** @type {Saved} */
      let came = { refused: "the browser broke it off" };
      let isMet = false;
      const writing = database.transaction([TEXTS, BRIEFS], "readwrite");
      const texts = writing.objectStore(TEXTS);
      const asking = texts.get(id);
      asking.onsuccess = () => {
        isMet = !isAt(asking.result, revision);
        if (isMet) return;
        try {
          texts.put({ id, text, revision: revision + 1 });
          writing.objectStore(BRIEFS).put({ id, brief, revision: revision + 1 });
        } catch (error) {
          came = isFull(error) ? { full: true } : { refused: String(error) };
          end(writing);
        }
      };
      writing.oncomplete = () => {
        if (!isMet) done({ ok: true, revision: revision + 1 });
        else load(database, id).then((found) => done({ conflict: found }), (error) => done({ refused: String(error) }));
      };
      writing.onabort = () => done(isFull(writing.error) ? { full: true } : came);
    });
  }

  /** @param {IDBDatabase} database @param {string} id @returns {Promise<void>} */
  function remove(database, id) {
    return new Promise((done, failed) => {
      const writing = database.transaction([TEXTS, BRIEFS], "readwrite");
      for (const name of [TEXTS, BRIEFS]) writing.objectStore(name).delete(id);
      writing.oncomplete = () => done();
      writing.onabort = () => failed(writing.error);
    });
  }

  /** @param {IDBDatabase} database @returns {Promise<Array<{id: string, brief: any, revision: number}>>} */
  async function list(database) {
    const [briefs, ids] = await Promise.all([
      asked(database, BRIEFS, (store) => store.getAll()), asked(database, TEXTS, (store) => store.getAllKeys()),
    ]);
    const known = new Map(briefs.map((/** @type {any} */ one) => [one.id, one]));
    return ids.map((/** @type {any} */ id) => {
      const found = known.get(id);
      return { id: String(id), brief: briefOf(found), revision: revisionOf(found) };
    });
  }

  /**
   * A store that outlasts the page. Who clears what the browser keeps closes it under the page: it is opened anew, and
   * is an empty one then.
   * @param {string} name @param {IDBDatabase} database
   */
  function inDatabase(name, database) {
    let now = database;
    /** @template T @param {(database: IDBDatabase) => Promise<T>} work @returns {Promise<T>} */
    const at = async (work) => {
      try {
        return await work(now);
      } catch (error) {
        if (String(error && /** @type {any} */ (error).name) !== "InvalidStateError") throw error;
        now = await opened(name);
        return work(now);
      }
    };
    return {
      list: () => at(list),
      load: (/** @type {string} */ id) => at((one) => load(one, id)),
      save: (/** @type {any} */ job, /** @type {number} */ revision) => at((one) => save(one, job, revision)),
      remove: (/** @type {string} */ id) => at((one) => remove(one, id)),
    };
  }

  /**
   * Tell other tabs of a change, in both ways that browsers have: from a folder some have but one.
   * @param {string} name @param {(told: {id: string, revision: number}) => void} heard
   */
  function tellOthers(name, heard) {
    const key = `${name}:told`;
    /** @type {BroadcastChannel | null} */
    let channel = null;
    let last = "";
    /** @param {string} text */
    const hear = (text) => {
      if (text === last) return;
      last = text;
      const [id, revision] = text.split("~");
      if (id) heard({ id, revision: Number(revision) || 0 });
    };
    try {
      channel = new BroadcastChannel(name);
      channel.onmessage = (event) => hear(String(event.data));
    } catch {
      /* The other way remains. */
    }
    window.addEventListener("storage", (event) => {
      if (event.key === key && event.newValue) hear(event.newValue);
    });
    return (/** @type {string} */ id, /** @type {number} */ revision) => {
      last = `${id}~${revision}~${Date.now()}`;
      channel?.postMessage(last);
      try {
        window.localStorage.setItem(key, last);
      } catch {
        /* Refused or full: the channel has told it. */
      }
    };
  }

  /**
   * Open the store of a book. `why` says what keeps it from lasting; empty where it lasts.
   * @param {string} book the book's id @param {(told: {id: string, revision: number}) => void} heard of another tab's change
   */
  async function open(book, heard) {
    const name = `seambook:${book}:jobs`;
    let why = "";
    /** @type {any} */
    let store;
    try {
      if (!window.indexedDB) throw new Error("it has no store for pages");
      store = inDatabase(name, await opened(name));
    } catch (error) {
      why = String((error && /** @type {any} */ (error).message) || error);
      store = inMemory();
    }
    const tell = tellOthers(name, heard);
    const left = seambook.jobLeft.behind(name);
    await seambook.jobLeft.bringIn(store, left).catch(() => undefined); // asked again the next time
    return {
      why,
      list: store.list,
      load: store.load,
      /** @param {Omit<Kept, "revision">} job @param {number} revision the last one known @returns {Promise<Saved>} */
      save: async (job, revision) => {
        const came = await Promise.resolve(store.save(job, revision)).catch((error) => ({ refused: String(error) }));
        if (came.ok) {
          tell(job.id, came.revision);
          if (left.all().some((/** @type {any} */ one) => one.id === job.id && came.revision >= one.until)) left.drop(job.id);
        }
        return came;
      },
      /** The page is closed and may see no answer. @param {any} job */
      leave: (job) => {
        if (!why) left.put(job);
      },
      /** What was left behind and met other words. */
      behind: () => left.all(),
      forget: left.drop,
      /** @param {string} id */
      remove: async (id) => {
        await store.remove(id);
        left.drop(id);
        tell(id, 0);
      },
    };
  }

  seambook.jobStore = { open };
})();
