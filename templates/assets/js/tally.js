/**
 * The things asked for and where they are known to stand -> what each page can be worth by them at most.
 */

/**
 * @typedef {{origins: Origin[], worths: number[], parts: boolean[], pages: number[], count: number, most: Float64Array,
 *   held: Float64Array, inTitle: Float64Array}} Tally
 *   From where is known where things stand; of each thing what it is worth, and whether it may stand on more pages
 *   than is known; the pages that may be among the best, and how many there are on which any stands; of each page what
 *   the things on it can be worth at most by their places, what they are worth, and what those in its title are.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { WEIGHTS } = seambook.postings;
  const { originsOf } = seambook.stands;

  const QUIET = 0.15;
  /** Pages among which to look for the best. */
  const ENOUGH = 2500;
  /** Kept from question to question, as making them anew costs more than filling them. @type {Float64Array[]} */
  const sheets = [];
  /** @type {Uint8Array[]} */
  const marksKept = [];

  /**
   * Whether a thing may stand on more pages than is known.
   * @param {Reading} reading
   * @param {Thing} thing
   */
  function isPart(reading, thing) {
    return thing.names[0].words.flat().some(([word]) => !reading.get(word)?.isWhole);
  }

  /**
   * On how many pages a thing stands that is not known whole: at least on as many as the commonest of its words.
   * @param {Reading} reading
   * @param {Thing} thing
   */
  function pagesOfPart(reading, thing) {
    const words = thing.names[0].words.flat().map(([word]) => reading.get(word));
    return Math.max(...words.map((read) => (read ? read.posting.pages : 1)));
  }

  /**
   * Weigh things and reckon for each page what is known of it by that: first by what stands on the fewest pages. Once
   * there are enough pages, what stands on more tells them apart and adds none: none of those could be among the best.
   * @param {SearchIndex} index @param {Reading} reading @param {Thing[]} things @returns {Tally}
   */
  function tallied(index, reading, things) {
    const size = index.pages;
    const all = things.map((thing, nth) => /** @type {Origin[]} */ (originsOf(index, reading, thing, nth)));
    const seen = marks(size, 0);
    const counts = all.map((origins, nth) => (things[nth].isCommon ? size : counted(origins, seen, nth + 1)));
    const parts = things.map((thing) => thing.isCommon || isPart(reading, thing));
    const worths = things.map((thing, nth) => {
      const count = parts[nth] && !thing.isCommon ? Math.max(counts[nth], pagesOfPart(reading, thing)) : counts[nth];
      return count ? Math.log(1 + size / count) * (thing.isQuiet ? QUIET : 1) : 0;
    });
    /** @type {Tally} */
    const tally = {
      origins: all.flat(), worths: worths, parts: parts, pages: [], count: marked(seen),
      most: sheet(size, 0), held: sheet(size, 1), inTitle: sheet(size, 2),
    };
    const [most, first] = [sheet(size, 3), sheet(size, 4)];
    const order = things.map((_, nth) => nth).sort((a, b) => counts[a] - counts[b] || a - b);
    for (const nth of order) {
      const isEnough = things[nth].isCommon || tally.pages.length > ENOUGH;
      /** @type {number[]} */
      const pages = [];
      for (const origin of all[nth]) reckon(origin, most, first, isEnough ? tally.held : null, pages);
      for (const page of pages) {
        if (tally.held[page] === 0) tally.pages.push(page);
        tally.held[page] += worths[nth];
        tally.most[page] += worths[nth] * most[page];
        if (first[page] > 1) tally.inTitle[page] += worths[nth];
        most[page] = first[page] = 0;
      }
    }
    return tally;
  }

  /**
   * A number for each page, all 0; those of the last question are used again.
   * @template {Float64Array | Uint8Array} T
   * @param {T[]} kept @param {new (size: number) => T} Numbers @param {number} size @param {number} nth
   * @returns {T}
   */
  function cleared(kept, Numbers, size, nth) {
    const known = kept[nth];
    if (!known || known.length !== size) return (kept[nth] = new Numbers(size));
    known.fill(0);
    return known;
  }

  /** @param {number} size @param {number} nth */
  function sheet(size, nth) {
    return cleared(sheets, Float64Array, size, nth);
  }

  /** @param {number} size @param {number} nth */
  function marks(size, nth) {
    return cleared(marksKept, Uint8Array, size, nth);
  }

  /** How many are marked. @param {Uint8Array} seen */
  function marked(seen) {
    let count = 0;
    for (let page = 0; page < seen.length; page += 1) if (seen[page] > 0) count += 1;
    return count;
  }

  /**
   * On how many pages a thing stands.
   * @param {Origin[]} origins
   * @param {Uint8Array} seen
   * @param {number} mark set for each
   */
  function counted(origins, seen, mark) {
    let count = 0;
    for (const { at } of origins) {
      for (let nth = 0; nth < at.length; nth += 1) {
        if (seen[at[nth]] !== mark) count += 1;
        seen[at[nth]] = mark;
      }
    }
    return count;
  }

  /**
   * Reckon how much the best place of a thing on each page weighs, and its place in the page's first part.
   * @param {Origin} origin @param {Float64Array} most @param {Float64Array} first
   * @param {Float64Array | null} held if given, only of pages for which it says something
   * @param {number[]} pages grows by those that had none
   */
  function reckon({ at, entries, posting, sure }, most, first, held, pages) {
    const title = sure * WEIGHTS["*"];
    for (let nth = 0; nth < at.length; nth += 1) {
      const page = at[nth];
      if (held && held[page] === 0) continue;
      const best = posting && entries ? sure * posting.most[entries[nth]] : title;
      const own = posting && entries ? sure * posting.first[entries[nth]] : title;
      if (most[page] === 0) pages.push(page);
      if (best > most[page]) most[page] = best;
      if (own > first[page]) first[page] = own;
    }
  }

  seambook.tally = { marks: marks, tallied: tallied };
})();
