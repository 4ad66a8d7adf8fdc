/**
 * Two versions of one job put together key by key: ticks, readings, releases, notes, photographs, findings. Nothing that only one of
 * them has is dropped; what the version that both came from had, and one of them took out, stays out where the other left it as it
 * was. Of a single value that both changed the newer wins, and `clashes` names its place. Pure.
 */

/** @typedef {{job: any, clashes: string[]}} Joined */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const MAPPINGS = ["done", "readings", "releases", "notes_by_step", "photos", "batches", "customer_page", "left_at", "places"];
  /** Texts of which both are kept, and lists that hold each thing once. */
  const [TEXTS, LISTS] = [["notes_by_step", "customer_page"], ["photos", "batches"]];
  /** What two people change beside each other without meaning to: the newer is right, and nobody need be asked. */
  const UNASKED = ["changed", "made", "order", "left_at", "done", "timers"];
  /** By what one of a list is known from the next; other lists hold each thing once. @type {Record<string, (one: any) => string>} */
  const NAMES = {
    runs: (one) => `${one.procedure}@${one.side || ""}`, findings: (one) => String(one.id), timers: (one) => `${one.step} ${one.sort} ${one.begun}`,
    coupons: text,
  };

  /** The same text for the same value, whatever the order of its keys. @param {any} value @returns {string} */
  function text(value) {
    if (value === undefined) return "";
    return JSON.stringify(value, (_, one) =>
      (one && typeof one === "object" && !Array.isArray(one) ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1))) : one));
  }

  /** @param {any} one @param {any} other */
  function isSame(one, other) {
    return one === other || text(one) === text(other);
  }

  /** When something was put down, as far as it says so. @param {any} value */
  function moment(value) {
    return (value && typeof value === "object" && (value.released?.at || value.answered || value.at)) || "";
  }

  /** The putting together of one pair. */
  class Joining {
    /** @param {any} base @param {any} mine @param {any} theirs */
    constructor(base, mine, theirs) {
      this.base = base;
      this.mine = mine;
      this.theirs = theirs;
      this.isMineNewer = String(mine.changed || "") >= String(theirs.changed || "");
      /** @type {string[]} */
      this.clashes = [];
    }

    /** Of two values neither of which is the one before. @param {any} one @param {any} other @param {string} place */
    newer(one, other, place) {
      if (!UNASKED.includes(place.split("/")[0])) this.clashes.push(place);
      const [first, second] = [moment(one), moment(other)];
      return first === second ? (this.isMineNewer ? one : other) : first > second ? one : other;
    }

    /** @param {any} before @param {any} one @param {any} other @param {string} place @returns {any} */
    value(before, one, other, place) {
      if (isSame(one, other)) return one;
      if (this.base && isSame(one, before)) return other;
      if (this.base && isSame(other, before)) return one;
      if (one === undefined || isNothing(one)) return other;
      if (other === undefined || isNothing(other)) return one;
      return this.newer(one, other, place);
    }

    /** @param {any} before @param {any} one @param {any} other @param {string} place */
    mapping(before = {}, one = {}, other = {}, place) {
      const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
      const found = [...keys].map((key) => [key, this.entry(place, before[key], one[key], other[key], `${place}/${key}`)]);
      return Object.fromEntries(found.filter(([, kept]) => kept !== undefined));
    }

    /** @param {string} of @param {any} before @param {any} one @param {any} other @param {string} place */
    entry(of, before, one, other, place) {
      if (TEXTS.includes(of)) return this.note(before, one, other, place);
      if (LISTS.includes(of)) return this.each(before || [], one || [], other || [], text, place);
      return this.value(before, one, other, place);
    }

    /** Two notes at one place are both kept. @param {any} before @param {any} one @param {any} other @param {string} place */
    note(before, one, other, place) {
      const isFromOne = this.base && (isSame(one, before) || isSame(other, before));
      if (isFromOne || isSame(one, other) || typeof one !== "string" || typeof other !== "string") return this.value(before, one, other, place);
      if (one.includes(other)) return one;
      return other.includes(one) ? other : `${one}\n${other}`;
    }

    /** @param {any[]} before @param {any[]} one @param {any[]} other @param {(one: any) => string} name @param {string} place @returns {any[]} */
    each(before, one, other, name, place) {
      const [was, own, theirs] = [before, one, other].map((list) => new Map(list.map((item) => [name(item), item])));
      const names = new Set([...own.keys(), ...theirs.keys()]);
      const found = [...names].map((key) => this.fields(was.get(key), own.get(key), theirs.get(key), `${place}/${key}`));
      return found.filter((item) => item !== undefined);
    }

    /** One of a list, key by key where both have it. @param {any} before @param {any} one @param {any} other @param {string} place */
    fields(before, one, other, place) {
      if (one === undefined || other === undefined || typeof one !== "object" || isSame(one, other)) return this.value(before, one, other, place);
      const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
      const field = (/** @type {string} */ key) => (key === "heard" ? this.each(before?.heard || [], one.heard || [], other.heard || [], text, place) : this.value(before?.[key], one[key], other[key], `${place}/${key}`));
      return Object.fromEntries([...keys].map((key) => [key, field(key)]));
    }

    /** @param {string} key */
    whole(key) {
      const [before, one, other] = [this.base?.[key], this.mine[key], this.theirs[key]];
      if (MAPPINGS.includes(key)) return this.mapping(before, one, other, key);
      if (key === "prices") return { ...this.mapping(before, one, other, key), supplies: this.mapping(before?.supplies, one?.supplies, other?.supplies, `${key}/supplies`) };
      if (key in NAMES) return this.each(before || [], one || [], other || [], NAMES[key], key);
      if (key === "made") return [one, other].filter(Boolean).sort()[0] ?? one;
      return key === "changed" || key === "order" ? (this.isMineNewer ? one : other) : this.value(before, one, other, key);
    }
  }

  /**
   * @param {any} base the version that both came from, or nothing where that is not known @param {any} mine @param {any} theirs
   * @returns {Joined}
   */
  function join(base, mine, theirs) {
    const joining = new Joining(base, mine, theirs);
    const keys = new Set([...Object.keys(mine), ...Object.keys(theirs)]);
    const job = Object.fromEntries([...keys].map((key) => [key, joining.whole(key)]));
    return { job, clashes: joining.clashes };
  }

  /** @param {any} one */
  function isNothing(one) {
    return one === null || one === "" || (Array.isArray(one) && !one.length);
  }

  seambook.jobJoin = { join };
})();
