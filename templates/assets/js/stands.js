/**
 * What was read of the index -> of each page the places where the things asked for stand, by any of their names and of
 * those words' forms; a name of several words stands where all of them stand together.
 */

/**
 * @typedef {{thing: number, sure: number, at: number[], entries: number[] | null, posting: Posting | null}} Origin
 *   From where is known that a thing stands on some pages, and how surely it is the one meant: what a word names, or
 *   where it stands, with the entries that say it.
 * @typedef {{heads: Int32Array, nexts: number[], origins: Origin[], entries: number[]}} Places
 *   Of each page the last place noted, or -1; and of each place the one noted before it on the same page, from where
 *   it is known, and which entry says it. Places of one thing on one page follow each other.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { WEIGHTS, isNamed, standOn } = seambook.postings;
  const { marksOf } = seambook.shardsOfIndex;

  /** Pages of one name of which is found out in which parts all its words stand. */
  const MOST_LOOKED_AT = 300;

  /** @param {Map<number, number>} parts @param {number} part @param {number} weight */
  function raise(parts, part, weight) {
    parts.set(part, Math.max(parts.get(part) || 0, weight));
  }

  /**
   * In which parts of a page a word stands by any of its forms.
   * @param {Reading} reading
   * @param {Meant[]} meant
   * @param {number} page
   * @returns {Map<number, number>}
   */
  function partsOfWord(reading, meant, page) {
    /** @type {Map<number, number>} */
    const found = new Map();
    for (const [word, sure] of meant) {
      const read = reading.get(word);
      if (!read) continue;
      if (isNamed(read.posting, page)) raise(found, 0, sure * WEIGHTS["*"]);
      const stand = /** @type {WordStand | null} */ (standOn(read.posting, page));
      if (stand) stand.parts.forEach((part, at) => raise(found, part, sure * stand.weights[at]));
    }
    return found;
  }

  /** The parts that hold every word of a name. @param {Map<number, number>[]} words @returns {Map<number, number>} */
  function holdingAll(words) {
    /** @type {Map<number, number>} */
    const found = new Map();
    words[0].forEach((weight, part) => {
      const weights = [weight, ...words.slice(1).map((one) => one.get(part) || 0)];
      if (Math.min(...weights) > 0) found.set(part, weights.reduce((a, b) => a + b) / weights.length);
    });
    return found;
  }

  /**
   * The pages on which every word of a name is known to stand by any of its forms.
   * @param {SearchIndex} index @param {Reading} reading @param {ThingName} name @param {boolean} isInTitle only those
   * it names
   * @returns {number[]}
   */
  function pagesOfAll(index, reading, name, isInTitle) {
    const seen = new Uint8Array(index.pages);
    /** @type {number[]} */
    let found = [];
    name.words.forEach((meant, nth) => {
      found = [];
      for (const [word] of meant) {
        const posting = reading.get(word)?.posting;
        for (const list of posting ? [posting.named.at, isInTitle ? [] : posting.at] : []) {
          for (const page of list) {
            if (seen[page] !== nth) continue;
            seen[page] = nth + 1;
            found.push(page);
          }
        }
      }
    });
    return found;
  }

  /**
   * Where all words of a name stand together, as if it were one word. Of very many pages that hold all of them each is
   * taken to hold them together: in its title where all are in that, else no better than in a table.
   * @param {SearchIndex} index @param {Reading} reading @param {ThingName} name @returns {Posting}
   */
  function together(index, reading, name) {
    const all = pagesOfAll(index, reading, name, false);
    const named = all.length > MOST_LOOKED_AT ? marksOf(index.pages, pagesOfAll(index, reading, name, true)) : null;
    const found = madeUp();
    const [inTitle, elsewhere] = [new Map([[0, WEIGHTS["*"]]]), new Map([[0, WEIGHTS[","]]])];
    for (const page of all) {
      const parts = named
        ? (named[page] === 1 ? inTitle : elsewhere)
        : holdingAll(name.words.map((meant) => partsOfWord(reading, meant, page)));
      if (!parts.size) continue;
      found.at.push(page);
      found.entries.push(named ? named[page] : found.stands.length);
      if (!named) addStand(found, parts);
    }
    if (named) [elsewhere, inTitle].forEach((parts) => addStand(found, parts));
    return found;
  }

  /** @param {Posting} posting grows by an entry @param {Map<number, number>} parts */
  function addStand(posting, parts) {
    posting.most.push(Math.max(...parts.values()));
    posting.first.push(parts.get(0) || 0);
    posting.stands.push({ parts: [...parts.keys()], weights: [...parts.values()] });
  }

  /** @returns {Posting} */
  function madeUp() {
    return {
      pages: 0, rests: [], named: { at: [], lengths: [], commons: [] }, at: [], entries: [], marks: [], bases: [],
      most: [], first: [], stands: [],
    };
  }

  /**
   * From where is known on which pages a thing stands.
   * @param {SearchIndex} index @param {Reading} reading @param {Thing} thing @param {number} nth which of the things
   * it is
   * @returns {Origin[]}
   */
  function originsOf(index, reading, thing, nth) {
    return thing.names.flatMap((name) => {
      if (name.words.length > 1) {
        const posting = together(index, reading, name);
        return [{ thing: nth, sure: name.sure, at: posting.at, entries: posting.entries, posting: posting }];
      }
      return name.words[0].flatMap(([word, sure]) => {
        const posting = reading.get(word)?.posting;
        if (!posting) return [];
        const { at, entries, named } = posting;
        const inTitle = { thing: nth, sure: sure * name.sure, at: named.at, entries: null, posting: null };
        if (thing.isCommon) return [inTitle];
        return [inTitle, { thing: nth, sure: sure * name.sure, at: at, entries: entries, posting: posting }];
      });
    });
  }

  /**
   * Of some pages the places where things stand.
   * @param {Origin[]} origins @param {Uint8Array} marked 1 for each of those pages @returns {Places}
   */
  function placesOf(origins, marked) {
    /** @type {Places} */
    const found = { heads: new Int32Array(marked.length).fill(-1), nexts: [], origins: [], entries: [] };
    for (const origin of origins) {
      const { at, entries } = origin;
      for (let nth = 0; nth < at.length; nth += 1) {
        const page = at[nth];
        if (marked[page] === 0) continue;
        found.nexts.push(found.heads[page]);
        found.heads[page] = found.nexts.length - 1;
        found.origins.push(origin);
        found.entries.push(entries ? entries[nth] : 0);
      }
    }
    return found;
  }

  seambook.stands = { originsOf: originsOf, placesOf: placesOf };
})();
