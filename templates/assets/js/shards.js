/**
 * The search index as it is on disk -> words, where they stand, and what pages are called; and which shards that takes.
 * Its form is told in builder/search/index.py and builder/search/packing.py.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{
   *   words: string[], firstWords: number[], firstPages: number[], pages: number, common: Set<number>,
   *   names: string[][][], quiet: Set<string>, priors: {firstPages: number[], shares: number[]}, behind: Set<number>,
   *   shards: Record<string, any>, lines: Map<string, string[]>
   * }} Index
   *   `names` holds, for each thing with several names, the words of each name; `behind` pages that are not to be worked
   *   from; `shards` what was loaded so far.
   * @typedef {{page: number, title: number, common: number, parts: [number, string][]}} Entry
   *   Where a word stands on a page: in a title of so many words, so many of them common, or 0; and in which
   *   parts, each with the mark of where in it: `*` in its heading or a name, `:` in a long one, `.` in its text, `,` in
   *   a table or a labelled value.
   * @typedef {{path: string, kind: string, title: string, parts: string[]}} Head
   *   `parts` holds anchor and heading of each part in turn.
   */

  const ENTRY = /^([0-9a-z]+)(?:!([0-9a-z]+)(?:~([0-9a-z]+))?)?(\+)?(.*)$/;
  const RUN = /([.,*:])([0-9a-z]+)(?:-([0-9a-z]+))?/g;

  /** @param {string} digits */
  function number(digits) {
    return parseInt(digits, 36);
  }

  /** @param {string} gaps @returns {number[]} */
  function summed(gaps) {
    let last = 0;
    return gaps ? gaps.split(" ").map((gap) => (last += number(gap))) : [];
  }

  /** @param {string} lines @returns {string[]} */
  function unfronted(lines) {
    let last = "";
    return lines ? lines.split("\n").map((line) => (last = last.slice(0, number(line[0])) + line.slice(1))) : [];
  }

  /**
   * @param {Record<"words" | "shards" | "texts" | "common" | "names" | "quiet" | "priors" | "behind", string> & {pages: number}} raw
   * @param {Record<string, any>} shards where scripts put what they bring
   * @returns {Index}
   */
  function open(raw, shards) {
    const priors = raw.priors.split(" ");
    return {
      words: unfronted(raw.words),
      firstWords: summed(raw.shards),
      firstPages: summed(raw.texts),
      pages: raw.pages,
      common: new Set(summed(raw.common)),
      names: raw.names ? raw.names.split("\n").map((row) => row.split("\t").map((name) => name.split(" "))) : [],
      quiet: new Set(raw.quiet.split(" ")),
      priors: {
        firstPages: summed(priors.filter((_, at) => at % 2 === 0).join(" ")),
        shares: priors.filter((_, at) => at % 2 === 1).map((share) => number(share) / 100),
      },
      behind: new Set(summed(raw.behind)),
      shards: shards,
      lines: new Map(),
    };
  }

  /**
   * The first place in a sorted list that is not before the value.
   * @template {string | number} T @param {T[]} list @param {T} value
   */
  function placeOf(list, value) {
    let low = 0;
    let high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (list[middle] < value) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** The shards that hold a word's posting: one, or all that begin with it. @param {Index} index @param {number} word */
  function shardsOfWord(index, word) {
    let at = placeOf(index.firstWords, word);
    if (index.firstWords[at] !== word) return [`words-${at - 1}`];
    const found = [];
    while (index.firstWords[at] === word) found.push(`words-${at++}`);
    return found;
  }

  /** The shard that says what a page is called. @param {Index} index @param {number} number */
  function shardOfPage(index, number) {
    const at = placeOf(index.firstPages, number);
    return `texts-${index.firstPages[at] === number ? at : at - 1}`;
  }

  /** How much a page counts beside others. @param {Index} index @param {number} number */
  function priorOf(index, number) {
    const { firstPages, shares } = index.priors;
    const at = placeOf(firstPages, number);
    return shares[firstPages[at] === number ? at : at - 1];
  }

  /** @param {Index} index @param {string} shard */
  function linesOf(index, shard) {
    const known = index.lines.get(shard);
    if (known) return known;
    const lines = index.shards[shard].split("\n");
    index.lines.set(shard, lines);
    return lines;
  }

  /** @param {string} runs @returns {[number, string][]} */
  function partsIn(runs) {
    /** @type {[number, string][]} */
    const found = [];
    for (const [, mark, first, last] of runs.matchAll(RUN)) {
      for (let at = number(first); at <= number(last || first); at += 1) found.push([at, mark]);
    }
    return found;
  }

  /** Where a word stands; its shards must be there. @param {Index} index @param {number} word @returns {Entry[]} */
  function entriesOf(index, word) {
    const posting = shardsOfWord(index, word).map((shard) => {
      return linesOf(index, shard)[word - index.firstWords[Number(shard.slice("words-".length))]];
    });
    let last = 0;
    return posting.join(" ").split(" ").map((entry) => {
      const [, gap, title, common, alias, runs] = /** @type {RegExpExecArray} */ (ENTRY.exec(entry));
      last += number(gap);
      const parts = partsIn(runs);
      if (title || alias) parts.unshift([0, "*"]);
      else if (parts.length === 0) parts.push([0, "."]);
      return { page: last, title: title ? number(title) : 0, common: common ? number(common) : 0, parts: parts };
    });
  }

  /** What a page is called; its shard must be there. @param {Index} index @param {number} number @returns {Head} */
  function headOf(index, number) {
    const shard = shardOfPage(index, number);
    const [path, kind, title, ...parts] = index.shards[shard][number - index.firstPages[Number(shard.slice(6))]];
    return { path: path, kind: kind, title: title, parts: parts };
  }

  seambook.shardsOfIndex = {
    entriesOf: entriesOf, headOf: headOf, open: open, placeOf: placeOf, priorOf: priorOf, shardOfPage: shardOfPage,
    shardsOfWord: shardsOfWord,
  };
})();
