/**
 * The procedures of a job, loaded by scripts as they are needed: from a folder nothing else can be loaded.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const root = document.body.dataset.root || "";
  /** @type {Map<string, Promise<void>>} */
  const asked = new Map();
  seambook.jobProcedures = seambook.jobProcedures || {};

  /** Load a script once; after a failure it may be asked for again. @param {string} path @returns {Promise<void>} */
  function load(path) {
    const known = asked.get(path);
    if (known) return known;
    /** @type {Promise<void>} */
    const loading = new Promise((done, failed) => {
      const script = document.createElement("script");
      script.src = root + path;
      script.onload = () => done();
      script.onerror = () => {
        asked.delete(path);
        script.remove();
        failed(new Error(path));
      };
      document.head.append(script);
    });
    asked.set(path, loading);
    return loading;
  }

  /** @param {string} id @returns {boolean} */
  function isOfBook(id) {
    return seambook.jobBook.procedures.some((/** @type {any} */ one) => one.id === id);
  }

  /**
   * Load procedures that the book has. @param {string[]} ids
   * @returns {Promise<string[]>} those that could not be loaded
   */
  async function procedures(ids) {
    const wanted = Array.from(new Set(ids)).filter((id) => isOfBook(id) && !seambook.jobProcedures[id]);
    const came = await Promise.all(wanted.map((id) => load(`assets/job/procedure/${id}.js`).then(() => "", () => id)));
    return came.filter(Boolean);
  }

  /** Load a job that comes with the book. @param {string} id @returns {Promise<any>} its file, or nothing */
  async function example(id) {
    if (!/^[a-z0-9-]+$/.test(id)) return null;
    await load(`assets/job/example/${id}.js`).catch(() => undefined);
    const found = seambook.jobExamples;
    return found && Object.prototype.hasOwnProperty.call(found, id) ? found[id] : null;
  }

  /** What plans are made from. @returns {{book: any, procedures: Record<string, any>}} */
  function library() {
    return { book: seambook.jobBook, procedures: seambook.jobProcedures };
  }

  seambook.jobLibrary = { load, procedures, example, library, isOfBook };
})();
