/**
 * What the address of the bay asks for -> the job that is opened: one that is kept, one that comes with the book, or one procedure
 * alone, which goes on where it was left off. Needs the store, the file and the library.
 */

/** @typedef {{job: any, revision: number, told: string[]} | {fault: string} | {sides: string}} Opened */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { jobFile, jobKeep, jobKept, jobLibrary } = seambook;
  const SIDES = ["left", "right"];

  /** @param {string} hash @returns {Record<string, string>} */
  function asked(hash) {
    return Object.fromEntries(new URLSearchParams(hash.replace(/^#/, "")));
  }

  /** @param {any} store @param {Record<string, string>} want @returns {Promise<Opened>} */
  async function open(store, want) {
    if (want.job) return kept(store, want.job);
    if (want.example) return example(store, want.example);
    if (want.procedure) return alone(store, want.procedure, want.side || "");
    return { fault: "Choose a procedure or a job, and open it here from its page." };
  }

  /** @param {any} store @param {string} id @returns {Promise<Opened>} */
  async function kept(store, id) {
    const found = await store.load(id);
    if (!found) return { fault: "There is no such job in this browser." };
    const read = jobFile.read(found.text, seambook.jobBook, id);
    if (read.fault) return { fault: `This job cannot be read: ${read.fault}` };
    return { job: read.job, revision: found.revision, told: read.told.map((/** @type {any} */ { say }) => say) };
  }

  /** @param {any} store @param {string} id @returns {Promise<Opened>} */
  async function example(store, id) {
    const file = await jobLibrary.example(id);
    const read = file && jobFile.read(JSON.stringify(file), seambook.jobBook);
    if (!read || read.fault) return { fault: read ? read.fault : "This book has no such example." };
    const before = await store.load(read.job.id);
    return before ? kept(store, read.job.id) : { job: read.job, revision: 0, told: [] };
  }

  /** One procedure alone: the last that was begun and not ended, or a new one. @param {any} store @param {string} id @param {string} side @returns {Promise<Opened>} */
  async function alone(store, id, side) {
    const one = seambook.jobBook.procedures.find((/** @type {any} */ procedure) => procedure.id === id || (procedure.was || []).includes(id));
    if (!one) return { fault: `This book has no procedure “${id}”.` };
    if (one.handed && !SIDES.includes(side)) return { sides: one.title };
    const run = { procedure: one.id, side: one.handed ? side : "" };
    const begun = await lastOf(store, jobKept.runName(run));
    return begun ? kept(store, begun) : { job: fresh(one, run), revision: 0, told: [] };
  }

  /** @param {any} store @param {string} name @returns {Promise<string>} */
  async function lastOf(store, name) {
    const all = (await store.list()).filter((/** @type {any} */ { brief }) => brief.alone === name && !(brief.steps && brief.done >= brief.steps));
    all.sort((/** @type {any} */ one, /** @type {any} */ other) => (String(one.brief.changed) < String(other.brief.changed) ? 1 : -1));
    return all.length ? all[0].id : "";
  }

  /** @param {any} one @param {{procedure: string, side: string}} run */
  function fresh(one, run) {
    const job = jobFile.fresh(seambook.jobBook, { id: jobKeep.newId(), now: jobKeep.now(), start: jobKeep.now() });
    const { revision, fingerprint, title } = one;
    return { ...job, title: run.side ? `${title}, ${run.side}` : title, alone: true, runs: [{ ...run, revision, fingerprint, title, finding: "" }] };
  }

  seambook.bayOpen = { asked, open, fresh, SIDES };
})();
