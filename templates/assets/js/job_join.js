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
  /** What two people change beside each other without meaning to: the newer is right, and nobody need be asked. */
  const UNASKED = ["changed", "made", "order", "left_at", "done", "timers"];
  /** By what one of a list is known from the next; other lists hold each thing once. @type {Record<string, (one: any) => string>} */
  const NAMES = {
    runs: (one) => `${one.procedure}@${one.side || ""}`, findings: (one) => String(one.id), timers: (one) => `${one.step} ${one.sort} ${one.begun}`,
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

  /**
   * @param {any} base the version that both came from, or nothing where that is not known @param {any} mine @param {any} theirs
   * @returns {Joined}
   */
  function join(base, mine, theirs) {
    /** @type {string[]} */
    const clashes = [];
    const isMineNewer = String(mine.changed || "") >= String(theirs.changed || "");

    /** Of two values neither of which is the one before. @param {any} one @param {any} other @param {string} place */
    function newer(one, other, place) {
      if (!UNASKED.includes(place.split("/")[0])) clashes.push(place);
      const [first, second] = [moment(one), moment(other)];
      return first === second ? (isMineNewer ? one : other) : first > second ? one : other;
    }

    /** @param {any} before @param {any} one @param {any} other @param {string} place @returns {any} */
    function value(before, one, other, place) {
      if (isSame(one, other)) return one;
      if (base && isSame(one, before)) return other;
      if (base && isSame(other, before)) return one;
      if (one === undefined || isNothing(one)) return other;
      if (other === undefined || isNothing(other)) return one;
      return newer(one, other, place);
    }

    /** @param {any} before @param {any} one @param {any} other @param {string} place */
    function mapping(before = {}, one = {}, other = {}, place) {
      const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
      const found = [...keys].map((key) => [key, entry(place, before[key], one[key], other[key], `${place}/${key}`)]);
      return Object.fromEntries(found.filter(([, kept]) => kept !== undefined));
    }

    /** @param {string} of @param {any} before @param {any} one @param {any} other @param {string} place */
    function entry(of, before, one, other, place) {
      if (of === "notes_by_step" || of === "customer_page") return note(before, one, other);
      if (of === "photos" || of === "batches") return each(before || [], one || [], other || [], text, place);
      return value(before, one, other, place);
    }

    /** Two notes at one place are both kept. @param {any} before @param {any} one @param {any} other */
    function note(before, one, other) {
      const both = [one, other].every((said) => typeof said === "string") && !isSame(one, other) && !(base && (isSame(one, before) || isSame(other, before)));
      if (!both) return value(before, one, other, "");
      if (one.includes(other)) return one;
      return other.includes(one) ? other : `${one}\n${other}`;
    }

    /** @param {any[]} before @param {any[]} one @param {any[]} other @param {(one: any) => string} name @param {string} place @returns {any[]} */
    function each(before, one, other, name, place) {
      const [was, own, theirOwn] = [before, one, other].map((list) => new Map(list.map((item) => [name(item), item])));
      const names = new Set([...own.keys(), ...theirOwn.keys()]);
      const found = [...names].map((key) => fields(was.get(key), own.get(key), theirOwn.get(key), `${place}/${key}`));
      return found.filter((item) => item !== undefined);
    }

    /** One of a list, key by key where both have it. @param {any} before @param {any} one @param {any} other @param {string} place */
    function fields(before, one, other, place) {
      if (one === undefined || other === undefined || typeof one !== "object" || isSame(one, other)) return value(before, one, other, place);
      const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
      const field = (/** @type {string} */ key) => (key === "heard" ? each(before?.heard || [], one.heard || [], other.heard || [], text, place) : value(before?.[key], one[key], other[key], `${place}/${key}`));
      return Object.fromEntries([...keys].map((key) => [key, field(key)]));
    }

    /** @param {string} key */
    function whole(key) {
      const [before, one, other] = [base?.[key], mine[key], theirs[key]];
      if (MAPPINGS.includes(key)) return mapping(before, one, other, key);
      if (key === "prices") return { ...mapping(before, one, other, key), supplies: mapping(before?.supplies, one?.supplies, other?.supplies, "prices/supplies") };
      if (key in NAMES) return each(before || [], one || [], other || [], NAMES[key], key);
      if (key === "coupons") return each(before || [], one || [], other || [], text, key);
      if (key === "made") return [one, other].filter(Boolean).sort()[0] ?? one;
      return key === "changed" || key === "order" ? (isMineNewer ? one : other) : value(before, one, other, key);
    }

    const job = Object.fromEntries([...new Set([...Object.keys(mine), ...Object.keys(theirs)])].map((key) => [key, whole(key)]));
    return { job, clashes };
  }

  /** @param {any} one */
  function isNothing(one) {
    return one === null || one === "" || (Array.isArray(one) && !one.length);
  }

  seambook.jobJoin = { join };
})();
