/**
 * A person's training and its file, format 1: read, written, begun afresh. Knows no page and no clock. What is not known in
 * a file is kept and written again. Needs job_check.js and the form of the file (assets/training/form.js).
 */
(function () {
  "use strict";

  /** @typedef {any} Person */
  /** @typedef {any} Book what assets/training/book.js tells */

  const FORMAT = 1;
  const LARGEST = 20 * 1024 * 1024;
  const ENDING = ".seambook-training.json";
  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { danger, fault, unknown, isMapping, has } = seambook.jobCheck;
  /** What stands in a file beside its person. @type {WeakMap<object, Record<string, any>>} */
  const beside = new WeakMap();

  /**
   * Read a file. A person comes with what is to be told of it, anything else with what is wrong and what to do.
   * @param {string} text @param {Book} book @param {string} [id] for a person that has none
   * @returns {{person: Person, told: string[], fault: ""} | {person: null, told: string[], fault: string}}
   */
  function read(text, book, id = "") {
    const wrong = text.length > LARGEST ? "The file is larger than anybody's training." : "";
    const { value, why } = wrong ? { value: null, why: wrong } : parsed(text);
    const said = why || wrongFormat(value) || wrongPlace(danger(value)) || wrongPlace(fault(seambook.trainingForm, value));
    if (said) return { person: null, told: [], fault: `${said} Nothing was changed.` };
    const { person, ...rest } = value;
    const whole = filled(person);
    whole.id = whole.id || id;
    beside.set(whole, rest);
    return { person: whole, told: [...ofUnknown(value), ...ofBook(rest.book, book)], fault: "" };
  }

  /** @param {string} text @returns {{value: any, why: string}} */
  function parsed(text) {
    try {
      return { value: JSON.parse(text.replace(/^\uFEFF/, "")), why: "" };
    } catch (error) {
      const ending = text.trim() ? "It may be cut off or damaged: take another copy of it." : "It is empty.";
      return { value: null, why: `This is no file of training${lineOf(text, String(error))}. ${ending}` };
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
    if (!isMapping(value) || !has(value, "format") || !has(value, "person")) {
      return `This is no file of training: it names no person. Open a file that ends in ${ENDING}.`;
    }
    const { format } = value;
    if (format === FORMAT) return "";
    if (Number.isInteger(format) && format > FORMAT) {
      return `This file is of format ${format}, and this book reads format ${FORMAT}. Open it with a newer edition of the book.`;
    }
    return `At “format” stands no format of a file of training. This book reads format ${FORMAT}.`;
  }

  /** @param {{place: string, say: string} | null} found @returns {string} */
  function wrongPlace(found) {
    if (!found) return "";
    return `The file is damaged at “${found.place || "its beginning"}”: ${found.say}. Mend it there, or take an earlier copy.`;
  }

  /** @param {any} value @returns {string[]} */
  function ofUnknown(value) {
    const places = unknown(seambook.trainingForm, value);
    const first = places.slice(0, 5).map((/** @type {string} */ one) => `“${one}”`).join(", ");
    const more = places.length > 5 ? ` and ${places.length - 5} more` : "";
    return places.length ? [`This book does not know ${first}${more}. It is kept as it is.`] : [];
  }

  /** @param {any} own @param {Book} book @returns {string[]} */
  function ofBook(own, book) {
    if (own.id === book.book.id) return [];
    return [`The file was made with another book, “${own.title || own.id}”. Lessons and skills that this one lacks are kept and not shown.`];
  }

  /** Write a person's file. @param {Person} person @param {Book} book @returns {string} */
  function write(person, book) {
    const { id, title, fingerprint } = book.book;
    const rest = beside.get(person) || {};
    const own = { ...(isMapping(rest.book) ? rest.book : {}), id, title, fingerprint };
    return `${JSON.stringify({ ...rest, format: FORMAT, book: own, person }, null, 1)}\n`;
  }

  /** What a page may not write, since no page could read it again. @param {Person} person @param {Book} book @returns {{place: string, say: string} | null} */
  function unreadable(person, book) {
    return fault(seambook.trainingForm, { format: FORMAT, book: { id: book.book.id }, person });
  }

  /** Begin a person's training. @param {{id: string, name: string, now: string}} given @returns {Person} */
  function fresh({ id, name, now }) {
    return { id, name, made: now, changed: now, lessons: {}, skills: {} };
  }

  /** A person with every key that pages ask for. @param {any} person @returns {Person} */
  function filled(person) {
    const whole = { ...fresh({ id: "", name: "", now: "" }), ...copy(person) };
    for (const [id, done] of Object.entries(whole.lessons || {})) whole.lessons[id] = { rounds: [], tests: {}, ...done };
    for (const done of /** @type {any[]} */ (Object.values(whole.lessons))) {
      for (const round of done.rounds) Object.assign(round, { ended: round.ended || null, answers: round.answers || [], against: round.against || {} });
    }
    return whole;
  }

  /** @template T @param {T} value @returns {T} */
  function copy(value) {
    return JSON.parse(JSON.stringify(value));
  }

  /** Let what stood in a file beside its person stand beside another one. @param {Person} from @param {Person} to */
  function keepBeside(from, to) {
    const rest = beside.get(from);
    if (rest) beside.set(to, rest);
  }

  /** The name of a person's file. @param {Person} person @returns {string} */
  function nameOf(person) {
    const name = person.name.normalize("NFC").replace(/[^\p{L}\p{N}._ -]+/gu, "-").trim().slice(0, 60);
    return `${name.replace(/^[.-]+/, "") || "person"}${ENDING}`;
  }

  seambook.trainFile = { read, write, unreadable, fresh, filled, copy, keepBeside, nameOf };
})();
