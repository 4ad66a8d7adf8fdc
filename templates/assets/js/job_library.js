/**
 * The procedures of a job, brought as they are needed. Needs folder.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { bring } = seambook.folder;
  seambook.jobProcedures = seambook.jobProcedures || {};

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
    const came = await Promise.all(wanted.map((id) => bring(`assets/job/procedure/${id}.js`).then(() => "", () => id)));
    return came.filter(Boolean);
  }

  /** Load a job that comes with the book. @param {string} id @returns {Promise<any>} its file, or nothing */
  async function example(id) {
    if (!/^[a-z0-9-]+$/.test(id)) return null;
    await bring(`assets/job/example/${id}.js`).catch(() => undefined);
    const found = seambook.jobExamples;
    return found && Object.prototype.hasOwnProperty.call(found, id) ? found[id] : null;
  }

  /** What plans are made from. @returns {{book: any, procedures: Record<string, any>}} */
  function library() {
    return { book: seambook.jobBook, procedures: seambook.jobProcedures };
  }

  seambook.jobLibrary = { load: bring, procedures, example, library, isOfBook };
})();
