/**
 * The search index as it is on disk -> words, where they stand, and what pages are called; and which shards that takes.
 * Its form is told in builder/search/index.py, postings.py and packing.py.
 */

/**
 * @typedef {{
 *   lists: string[], posts: string[], texts: {firsts: number[], counts: number[]}, pages: number, common: Set<string>,
 *   names: Map<string, string[][]>, longest: number, quiet: Set<string>, priors: Float64Array, behind: Uint8Array,
 *   shards: Record<string, any>, wanted: Set<string>, words: Map<string, string[]>, postings: Map<string, Posting>,
 *   held: number, asked: {text: string, things: Thing[]} | null
 * }} SearchIndex
 *   `lists` and `posts` hold the first word of each shard of words and of postings; `names`, for each name, the words
 *   of all names of what it names, and `longest` how many words a name has at most; `behind` has 1 for each page that
 *   is not to be worked from; `shards` what was loaded so far; `wanted` those that were asked for and are not there;
 *   `words` and `postings` what was read of them, `held` entries; `asked` the last question and what it was taken to
 *   ask for.
 * @typedef {{path: string, kind: string, title: string, parts: string[]}} Head
 *   `parts` holds anchor and heading of each part in turn.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const { completed, placeOf, readLine } = seambook.postings;

  /** So many entries of postings are kept read. */
  const MOST_KEPT = 100000;
  const DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz";

  /** @param {string} digits */
  function number(digits) {
    return parseInt(digits, 36);
  }

  /** @param {string} gaps @returns {number[]} */
  function summed(gaps) {
    let last = 0;
    return gaps ? gaps.split(" ").map((gap) => (last += number(gap))) : [];
  }

  /** Pairs of a number that rises and another. @param {string} pairs @returns {[number[], number[]]} */
  function paired(pairs) {
    const each = pairs ? pairs.split(" ") : [];
    return [summed(each.filter((_, at) => at % 2 === 0).join(" ")), each.filter((_, at) => at % 2 === 1).map(number)];
  }

  /** @param {string} lines @returns {string[]} */
  function unfronted(lines) {
    let last = "";
    const each = lines ? lines.split("\n") : [];
    return each.map((line) => (last = last.slice(0, DIGITS.indexOf(line[0])) + line.slice(1)));
  }

  /** @param {string} words @returns {string[]} */
  function blanked(words) {
    return words ? words.split(" ") : [];
  }

  /** For each name the words of all names of what it names. @param {string} rows */
  function namesIn(rows) {
    /** @type {Map<string, string[][]>} */
    const found = new Map();
    for (const row of rows ? rows.split("\n") : []) {
      const names = row.split("\t");
      for (const name of names) found.set(name, [...(found.get(name) || []), ...names.map(blanked)]);
    }
    return found;
  }

  /**
   * @param {Record<"lists" | "shards" | "texts" | "common" | "names" | "quiet" | "priors" | "behind", string> &
   * {pages: number}} raw
   * @param {Record<string, any>} shards where scripts put what they bring
   * @returns {SearchIndex}
   */
  function open(raw, shards) {
    const [firsts, counts] = paired(raw.texts);
    const [from, shares] = paired(raw.priors);
    const names = namesIn(raw.names);
    return {
      lists: unfronted(raw.lists),
      posts: unfronted(raw.shards),
      texts: { firsts: firsts, counts: counts },
      pages: raw.pages,
      common: new Set(blanked(raw.common)),
      names: names,
      longest: Math.max(1, ...[...names.keys()].map((name) => name.split(" ").length)),
      quiet: new Set(blanked(raw.quiet)),
      priors: priorsOf(raw.pages, from, shares),
      behind: marksOf(raw.pages, summed(raw.behind)),
      shards: shards,
      wanted: new Set(),
      words: new Map(),
      postings: new Map(),
      held: 0,
      asked: null,
    };
  }

  /**
   * The last place in a sorted list that is not behind the value, or -1.
   * @template {string | number} T
   * @param {T[]} list
   * @param {T} value
   */
  function lastPlace(list, value) {
    const at = placeOf(list, value);
    return list[at] === value ? at : at - 1;
  }

  /** A shard if it is there; else it is wanted. @param {SearchIndex} index @param {string} name @returns {any} */
  function brought(index, name) {
    const found = index.shards[name];
    if (found === undefined) index.wanted.add(name);
    return found;
  }

  /** Whether all shards asked for since were there. @param {SearchIndex} index */
  function isThere(index) {
    return index.wanted.size === 0;
  }

  /** The words of a list; none while it is wanted. @param {SearchIndex} index @param {number} at @returns {string[]} */
  function listAt(index, at) {
    const name = `list-${index.lists[at]}`;
    const lines = brought(index, name);
    if (lines === undefined) return [];
    const known = index.words.get(name) || unfronted(lines);
    index.words.set(name, known);
    return known;
  }

  /** Whether the book has a word. @param {SearchIndex} index @param {string} word */
  function has(index, word) {
    const at = lastPlace(index.lists, word);
    if (at < 0) return false;
    const words = listAt(index, at);
    return words[placeOf(words, word)] === word;
  }

  /** The words that begin so, in order. @param {SearchIndex} index @param {string} start */
  function* begunWith(index, start) {
    for (let at = Math.max(lastPlace(index.lists, start), 0); at < index.lists.length; at += 1) {
      const words = listAt(index, at);
      for (let place = placeOf(words, start); place < words.length; place += 1) {
        if (!words[place].startsWith(start)) return;
        yield words[place];
      }
      if (at + 1 < index.lists.length && !index.lists[at + 1].startsWith(start)) return;
    }
  }

  /** All words that begin with a letter. @param {SearchIndex} index @returns {string[]} */
  function lettered(index) {
    return index.lists.flatMap((first, at) => (first < "a" ? [] : listAt(index, at)));
  }

  /** The shard that holds a word's line. @param {SearchIndex} index @param {string} word */
  function shardOfWord(index, word) {
    return `words-${index.posts[lastPlace(index.posts, word)]}`;
  }

  /** How many letters a shard has, 0 while it is not there. @param {SearchIndex} index @param {string} shard */
  function sizeOf(index, shard) {
    return (index.shards[shard] || "").length;
  }

  /** The shard that says what a page is called, by its first page. @param {SearchIndex} index @param {number} page */
  function firstOfTexts(index, page) {
    const at = lastPlace(index.texts.firsts, page);
    const first = index.texts.firsts[at];
    return page - ((page - first) % index.texts.counts[at]);
  }

  /** @param {SearchIndex} index @param {number} page */
  function shardOfPage(index, page) {
    return `texts-${firstOfTexts(index, page)}`;
  }

  /** @param {number} pages @param {number[]} marked */
  function marksOf(pages, marked) {
    const found = new Uint8Array(pages);
    for (const page of marked) found[page] = 1;
    return found;
  }

  /**
   * How much each page counts beside others.
   * @param {number} pages
   * @param {number[]} firsts
   * @param {number[]} shares
   */
  function priorsOf(pages, firsts, shares) {
    const found = new Float64Array(pages);
    shares.forEach((share, at) => found.fill(share / 100, firsts[at]));
    return found;
  }

  /**
   * What is known where a word stands; null while its shard is wanted.
   * @param {SearchIndex} index
   * @param {string} word
   * @returns {Posting | null}
   */
  function postingOf(index, word) {
    const known = index.postings.get(word);
    if (known) return known;
    const name = shardOfWord(index, word);
    const lines = brought(index, name);
    if (lines === undefined) return null;
    const found = readLine(lineOf(lines, word), word);
    keep(index, word, found);
    return found;
  }

  /**
   * A word's posting with its rests, once they are there.
   * @param {SearchIndex} index
   * @param {string} word
   * @returns {Posting | null}
   */
  function wholeOf(index, word) {
    const known = index.postings.get(`${word} `);
    const part = known || postingOf(index, word);
    if (!part || !part.rests.length) return part;
    const rests = part.rests.map((/** @type {string} */ name) => brought(index, name));
    if (rests.includes(undefined)) return null;
    const found = completed(part, rests.join(" "));
    keep(index, `${word} `, found);
    return found;
  }

  /** A word's line in its shard, behind the word. @param {string} lines @param {string} word */
  function lineOf(lines, word) {
    let last = "";
    for (const line of lines.split("\n")) {
      const blank = line.indexOf(" ");
      last = last.slice(0, DIGITS.indexOf(line[0])) + line.slice(1, blank);
      if (last === word) return line.slice(blank + 1);
    }
    throw new Error(`no line for ${word}`);
  }

  /**
   * Keep what was read, and of what was read before as much as there is room for.
   * @param {SearchIndex} index
   * @param {string} name
   * @param {Posting} posting
   */
  function keep(index, name, posting) {
    index.postings.set(name, posting);
    index.held += posting.at.length;
    for (const [oldest, one] of index.postings) {
      if (index.held <= MOST_KEPT || oldest === name) break;
      index.held -= one.at.length;
      index.postings.delete(oldest);
    }
  }

  /** What a page is called; its shard must be there. @param {SearchIndex} index @param {number} page @returns {Head} */
  function headOf(index, page) {
    const [path, kind, title, ...parts] = index.shards[shardOfPage(index, page)][page - firstOfTexts(index, page)];
    return { path: path, kind: kind, title: title, parts: parts };
  }

  seambook.shardsOfIndex = {
    begunWith: begunWith, has: has, headOf: headOf, isThere: isThere, lettered: lettered, marksOf: marksOf, open: open,
    postingOf: postingOf, shardOfPage: shardOfPage, shardOfWord: shardOfWord, sizeOf: sizeOf, wholeOf: wholeOf,
  };
})();
