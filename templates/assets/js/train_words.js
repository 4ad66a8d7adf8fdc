/**
 * Words that the pages of training share: days and moments by the shop's own clock, names that nobody else has, numbers of
 * sheets, levels. Touches no page.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  /** Letters and digits that are not taken for one another when they are read off a sheet. */
  const SIGNS = "23456789ACDEFHJKMNPRTUVWXY";
  const LENGTH = 6;
  const LONGEST_SEED = 20;

  /** @param {number} count @returns {number[]} */
  function chance(count) {
    return Array.from(window.crypto.getRandomValues(new Uint32Array(count)));
  }

  /** A name for a person that no other has. @returns {string} */
  function newId() {
    return `person-${chance(4).map((part) => part.toString(36)).join("")}`;
  }

  /** The number of a sheet that was not there before. @returns {string} */
  function newSeed() {
    return chance(LENGTH).map((part) => SIGNS[part % SIGNS.length]).join("");
  }

  /** A sheet's number as it is meant, however it was typed; empty where nothing of it can be one. @param {string} typed @returns {string} */
  function seedOf(typed) {
    return typed.toUpperCase().replace(/[^A-Z0-9]/g, "").slice(0, LONGEST_SEED);
  }

  /** Now, to the second. @param {Date} [at] @returns {string} */
  function now(at = new Date()) {
    const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
    const day = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
    return `${day}T${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
  }

  /** A moment's day in words; what is no moment stands as it is. @param {string} moment @returns {string} */
  function day(moment) {
    const found = /^(\d{4})-(\d\d)-(\d\d)/.exec(moment || "");
    return found ? `${Number(found[3])} ${MONTHS[Number(found[2]) - 1]} ${found[1]}` : moment || "";
  }

  /** What a level is called. @param {any} book @param {string} id @returns {string} */
  function level(book, id) {
    const found = book.levels.find((/** @type {any} */ one) => one.id === id);
    return found ? found.say : id;
  }

  /** Several things of one sort, counted. @param {number} count @param {string} one @param {string} [many] */
  function counted(count, one, many = `${one}s`) {
    return `${count} ${count === 1 ? one : many}`;
  }

  /** A way to a place of the book from the page that is open. @param {string} path */
  function href(path) {
    return seambook.folder.address(path);
  }

  seambook.trainWords = { newId, newSeed, seedOf, now, day, level, counted, href };
})();
