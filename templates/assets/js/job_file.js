/**
 * A job and its file, format 1: read, written, begun afresh, and held against the book that is open now. Knows no page,
 * no clock and no chance: what depends on them is handed in. What is not known in a file is kept and written again.
 * Needs job_check.js and the form of the file.
 */
(function () {
  "use strict";

  /** @typedef {any} Job */
  /** @typedef {any} Book what assets/job/book.js tells */
  /** @typedef {{sort: string, say: string}} Told */

  const FORMAT = 1;
  const LARGEST = 200 * 1024 * 1024;
  const STEP = /^([a-z0-9-]+)@(left|right|)#([a-z0-9-]+)$/;
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { danger, fault, unknown, isMapping, has } = seambook.jobCheck;
  /** What stands in a file beside its job. @type {WeakMap<object, Record<string, any>>} */
  const beside = new WeakMap();

  /**
   * Read a file. A job comes with what is to be told of it, anything else with what is wrong and what to do.
   * @param {string} text @param {Book} book @param {string} [id] for a job that has none
   * @returns {{job: Job, told: Told[]} | {fault: string}}
   */
  function read(text, book, id = "") {
    if (text.length > LARGEST) return { fault: "The file is larger than any job: it was not opened." };
    const { value, why } = parsed(text);
    if (why) return { fault: why };
    const wrong = wrongFormat(value) || wrongPlace(danger(value)) || wrongPlace(fault(seambook.jobForm, value));
    if (wrong) return { fault: wrong };
    const { job, ...rest } = value;
    const whole = filled(job, book);
    whole.id = whole.id || id;
    beside.set(whole, rest);
    return { job: whole, told: [...ofUnknown(value), ...ofBook(rest.book, book)] };
  }

  /** @param {string} text @returns {{value: any, why: string}} */
  function parsed(text) {
    try {
      return { value: JSON.parse(text.replace(/^\uFEFF/, "")), why: "" };
    } catch (error) {
      const where = lineOf(text, String(error));
      const ending = text.trim() ? "It may be cut off or damaged: take another copy of it." : "It is empty.";
      return { value: null, why: `This is no job's file${where}. ${ending}` };
    }
  }

  /** Where reading broke off, if the browser says so. @param {string} text @param {string} error */
  function lineOf(text, error) {
    const at = /end of JSON/.test(error) ? text.length : Number((/position (\d+)/.exec(error) || [])[1]);
    if (!Number.isFinite(at)) return "";
    const before = text.slice(0, at).split("\n");
    return `: it cannot be read from line ${before.length}, letter ${before[before.length - 1].length + 1}`;
  }

  /** @param {any} value @returns {string} */
  function wrongFormat(value) {
    if (!isMapping(value) || !has(value, "format")) {
      return "This is no job's file: it does not say its format. Open a file that ends in .seambook-job.json.";
    }
    const { format } = value;
    if (format === FORMAT) return "";
    if (Number.isInteger(format) && format > FORMAT) {
      return `This file is of format ${format}, and this book reads format ${FORMAT}. Open it with a newer edition of the book; ` +
        "the file was not changed.";
    }
    return `At “format” stands no format of a job's file. This book reads format ${FORMAT}.`;
  }

  /** @param {{place: string, say: string} | null} found @returns {string} */
  function wrongPlace(found) {
    if (!found) return "";
    return `The file is damaged at “${found.place || "its beginning"}”: ${found.say}. Mend it there, or take an earlier ` +
      "copy. Nothing was changed.";
  }

  /** @param {any} value @returns {Told[]} */
  function ofUnknown(value) {
    const places = unknown(seambook.jobForm, value);
    const first = places.slice(0, 5).map((/** @type {string} */ one) => `“${one}”`).join(", ");
    const more = places.length > 5 ? ` and ${places.length - 5} more` : "";
    return places.length ? [{ sort: "unknown", say: `This book does not know ${first}${more}. It is kept as it is.` }] : [];
  }

  /** @param {any} own @param {Book} book @returns {Told[]} */
  function ofBook(own, book) {
    if (own.id === book.book.id) return [];
    return [{ sort: "book", say: `The job was made with another book, “${own.title || own.id}”. What this one lacks is marked.` }];
  }

  /** Write a job's file. @param {Job} job @param {Book} book @returns {string} */
  function write(job, book) {
    const { id, title, fingerprint } = book.book;
    const rest = beside.get(job) || {};
    const own = { ...(isMapping(rest.book) ? rest.book : {}), id, title, fingerprint };
    return `${JSON.stringify({ ...rest, format: FORMAT, book: own, job }, null, 1)}\n`;
  }

  /** What a page may not write of a job, since no page could read it again. @param {Job} job @param {Book} book @returns {{place: string, say: string} | null} */
  function unreadable(job, book) {
    return fault(seambook.jobForm, { format: FORMAT, book: { id: book.book.id }, job });
  }

  /** The hours of a book that says nothing of how jobs are planned. */
  const ALWAYS = { opens: "00:00", closes: "23:59", days: [1, 2, 3, 4, 5, 6, 7] };

  /** When the shop is open, until a job says otherwise. @param {Book} book */
  function hoursOf(book) {
    return (book.planning || {}).hours || ALWAYS;
  }

  /** What every job has, empty where nothing is said. @param {Book} book */
  function empty(book) {
    const planning = book.planning || {};
    const { hands, climate } = planning;
    return {
      id: "", number: "", title: "", customer: "", car: "", vehicle: "", notes: "", start: "",
      hours: hoursOf(book), hands: (hands && hands.usual) || 1, places: {},
      climate: climate || { temperature: 20, humidity: 50 }, rust: Object.keys(planning.rust || {})[0] || "",
      prices: { currency: "", labour: null, supplies: {} }, runs: [], done: {}, readings: {}, releases: {},
      notes_by_step: {}, photos: {}, coupons: [], batches: {}, findings: [], customer_page: {}, alone: false, left_at: {}, order: [], made: "", changed: "",
    };
  }

  /** A job with every key that pages ask for. @param {any} job @param {Book} book @returns {Job} */
  function filled(job, book) {
    const whole = merged(empty(book), job);
    whole.runs = whole.runs.map((/** @type {any} */ run) =>
      merged({ procedure: "", side: "", revision: null, fingerprint: "", title: "", finding: "" }, run));
    whole.findings = whole.findings.map((/** @type {any} */ one) => merged({
      size: "", step: "", by: "", photo: "", procedures: [], minutes: null, supplies: [], price: null, make_safe: false,
      answer: "waiting", answered: "", by_whom: "",
    }, one));
    return whole;
  }

  /** @param {Record<string, any>} usual @param {Record<string, any>} own @returns {any} */
  function merged(usual, own) {
    /** @type {Record<string, any>} */
    const made = copy(usual);
    for (const [key, value] of Object.entries(own)) {
      const isNothing = value === null || value === "";
      if (isNothing && has(made, key)) continue;
      made[key] = key === "prices" ? merged(usual.prices, value) : copy(value);
    }
    return made;
  }

  /** @template T @param {T} value @returns {T} */
  function copy(value) {
    return JSON.parse(JSON.stringify(value));
  }

  /**
   * Begin a job. @param {Book} book @param {{id: string, now: string, start: string}} given
   * @returns {Job}
   */
  function fresh(book, { id, now, start }) {
    const vehicles = book.vehicles || [];
    const vehicle = vehicles.length === 1 ? vehicles[0].id : "";
    return { ...copy(empty(book)), id, vehicle, start, made: now, changed: now };
  }

  /** Copy a job under an id of its own. @param {Job} job @param {string} id @param {string} [number] @returns {Job} */
  function copyOf(job, id, number) {
    const made = { ...copy(job), id, number: number === undefined ? job.number : number };
    beside.set(made, copy(beside.get(job) || {}));
    return made;
  }

  /** The name of a job's file. @param {Job} job @returns {string} */
  function nameOf(job) {
    const name = (job.number || job.title || "job").normalize("NFC").replace(/[^\p{L}\p{N}._ -]+/gu, "-").trim().slice(0, 60);
    return `${name.replace(/^[.-]+/, "") || "job"}.seambook-job.json`;
  }

  /** The parts of a step's name in a job. @param {string} id @returns {{procedure: string, side: string, key: string} | null} */
  function stepOf(id) {
    const found = STEP.exec(id);
    return found && { procedure: found[1], side: found[2], key: found[3] };
  }

  /** Every step that a job says something of. @param {Job} job @returns {string[]} */
  function stepsNamed(job) {
    const readings = Object.keys(job.readings).map((one) => one.slice(0, one.indexOf("/")));
    const lists = [job.done, job.releases, job.notes_by_step, job.photos].flatMap((one) => Object.keys(one));
    const others = [...job.coupons, ...job.findings].map((one) => one.step).filter(Boolean);
    return Array.from(new Set([...lists, ...readings, ...others]));
  }

  /**
   * Hold a job against the book: what has gone, been renamed or revised since. Nothing is taken out of the job.
   * @param {Job} job @param {Book} book @param {Record<string, any>} procedures those that are loaded, by id
   * @returns {{told: Told[], gone: string[], goneSteps: string[], renamed: Array<[string, string]>}}
   */
  function compare(job, book, procedures) {
    const known = new Map(book.procedures.map((/** @type {any} */ one) => [one.id, one]));
    const living = new Map(book.procedures.flatMap((/** @type {any} */ one) =>
      (one.was || []).map((/** @type {string} */ old) => [old, one.id])));
    /** @type {Map<string, Told>} */
    const told = new Map();
    const [gone, goneSteps] = [new Set(), new Set()];
    /** @type {Map<string, string>} */
    const renamed = new Map();
    for (const run of job.runs) {
      const one = known.get(run.procedure);
      const name = run.title || run.procedure;
      if (one) {
        const said = revised(run, one);
        if (said) told.set(run.procedure, { sort: "revised", say: said });
      } else if (living.has(run.procedure)) {
        renamed.set(run.procedure, living.get(run.procedure));
        told.set(run.procedure, { sort: "renamed", say: `“${name}” is now called “${known.get(living.get(run.procedure)).title}”.` });
      } else {
        gone.add(run.procedure);
        told.set(run.procedure, { sort: "gone", say: `“${name}” is no longer in this book. What was noted of it is kept.` });
      }
    }
    for (const id of stepsNamed(job)) {
      const step = stepOf(id);
      const steps = step && procedures[step.procedure] && procedures[step.procedure].steps;
      if (step && steps && !steps.some((/** @type {any} */ one) => one.key === step.key)) goneSteps.add(id);
    }
    for (const id of goneSteps) {
      told.set(id, { sort: "step", say: `The step “${id}” is no longer in this book. What was noted at it is kept.` });
    }
    return { told: [...told.values()], gone: [...gone], goneSteps: [...goneSteps], renamed: [...renamed] };
  }

  /** @param {any} run @param {any} now @returns {string} */
  function revised(run, now) {
    const name = `“${now.title}”`;
    if (run.revision && run.revision !== now.revision) {
      return `${name} is now at revision ${now.revision}; the job was planned with revision ${run.revision}. Look at what changed.`;
    }
    if (run.fingerprint && run.fingerprint !== now.fingerprint) {
      return `${name} was changed since the job was planned, though its revision is still ${now.revision}.`;
    }
    return "";
  }

  /** Take over the revisions that the book has now. @param {any} job @param {any} book */
  function renew(job, book) {
    for (const run of job.runs) {
      const one = book.procedures.find((/** @type {any} */ { id }) => id === run.procedure);
      if (one) Object.assign(run, { revision: one.revision, fingerprint: one.fingerprint, title: one.title });
    }
  }

  seambook.jobFile = { hoursOf, FORMAT, read, write, unreadable, fresh, renew, filled, copyOf, nameOf, compare, stepOf, stepsNamed, copy };
})();
