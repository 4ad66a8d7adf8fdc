/*
 * A text -> the QR code that a phone's camera reads it from, as rows of modules (ISO/IEC 18004, bytes, level M). Pure.
 * Pages have theirs from the builder; this one is for what is typed on a page and for what only a script knows.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  /** @typedef {{dark: Uint8Array[], kept: Uint8Array[]}} Grid modules, and which of them are no data */

  const MOST = 40;
  /** Of level M, by version: codewords for error correction in each block, and blocks (table 9). */
  const CORRECTION = [10, 16, 26, 18, 24, 16, 18, 22, 22, 26, 30, 22, 22, 24, 24, 28, 28, 26, 26, 26, 26, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28];
  const BLOCKS = [1, 1, 1, 2, 2, 4, 4, 4, 5, 5, 5, 8, 9, 9, 10, 10, 11, 13, 14, 16, 17, 17, 18, 20, 21, 23, 25, 26, 28, 29, 31, 33, 35, 37, 38, 40, 43, 45, 47, 49];
  /** Conditions by which modules are turned over (table 10). @type {((row: number, column: number) => boolean)[]} */
  const MASKS = [
    (i, j) => (i + j) % 2 === 0, (i) => i % 2 === 0, (_, j) => j % 3 === 0, (i, j) => (i + j) % 3 === 0,
    (i, j) => (Math.floor(i / 2) + Math.floor(j / 3)) % 2 === 0, (i, j) => ((i * j) % 2) + ((i * j) % 3) === 0,
    (i, j) => (((i * j) % 2) + ((i * j) % 3)) % 2 === 0, (i, j) => (((i + j) % 2) + ((i * j) % 3)) % 2 === 0,
  ];

  /* Powers of 2 in the field of 256 elements over x^8 + x^4 + x^3 + x^2 + 1, and their logarithms. */
  const POWER = new Uint8Array(255);
  const LOG = new Uint8Array(256);
  for (let at = 0, value = 1; at < 255; at += 1) {
    POWER[at] = value;
    LOG[value] = at;
    value = (value << 1) ^ (value & 128 ? 0x11d : 0);
  }

  /** @param {number} one @param {number} other */
  function times(one, other) {
    return one && other ? POWER[(LOG[one] + LOG[other]) % 255] : 0;
  }

  /** Middles of the alignment patterns along a side: even steps back from the far end, the rest before the first. @param {number} version */
  function alignments(version) {
    if (version === 1) return [];
    const count = Math.floor(version / 7) + 2;
    const step = version === 32 ? 26 : Math.ceil((version * 4 + 4) / (count * 2 - 2)) * 2;
    const back = Array.from({ length: count - 1 }, (_, at) => version * 4 + 10 - step * (count - 2 - at));
    return [6, ...back];
  }

  /** Codewords that a version has room for, data and correction. @param {number} version */
  function codewordsOf(version) {
    const size = version * 4 + 17;
    const [count, across] = [alignments(version).length, Math.max(0, alignments(version).length - 2)];
    const aligned = version === 1 ? 0 : (count * count - 3) * 25 - across * 10;
    const fixed = 3 * 64 + 2 * (size - 16) + 31 + aligned + (version >= 7 ? 36 : 0);
    return Math.floor((size * size - fixed) / 8);
  }

  /** @param {number} version */
  function dataWordsOf(version) {
    return codewordsOf(version) - CORRECTION[version - 1] * BLOCKS[version - 1];
  }

  /** The smallest version that holds so many bytes; 0 where none does. @param {number} bytes */
  function versionFor(bytes) {
    for (let version = 1; version <= MOST; version += 1) {
      if (4 + (version < 10 ? 8 : 16) + bytes * 8 <= dataWordsOf(version) * 8) return version;
    }
    return 0;
  }

  /** The data codewords: mode, length, bytes, the end, and what fills the rest. @param {Uint8Array} bytes @param {number} version */
  function dataOf(bytes, version) {
    const room = dataWordsOf(version);
    /** @type {number[]} */
    const bits = [];
    const put = (/** @type {number} */ value, /** @type {number} */ length) => {
      for (let at = length - 1; at >= 0; at -= 1) bits.push((value >> at) & 1);
    };
    put(4, 4);
    put(bytes.length, version < 10 ? 8 : 16);
    bytes.forEach((byte) => put(byte, 8));
    put(0, Math.min(4, room * 8 - bits.length));
    put(0, (8 - (bits.length % 8)) % 8);
    for (let pad = 0xec; bits.length < room * 8; pad ^= 0xec ^ 0x11) put(pad, 8);
    return Array.from({ length: room }, (_, at) => bits.slice(at * 8, at * 8 + 8).reduce((sum, bit) => sum * 2 + bit, 0));
  }

  /** The polynomial whose roots are the first powers of 2, without its first coefficient. @param {number} degree */
  function generator(degree) {
    const found = new Uint8Array(degree);
    found[degree - 1] = 1;
    for (let root = 0; root < degree; root += 1) {
      for (let at = 0; at < degree; at += 1) found[at] = times(found[at], POWER[root]) ^ (found[at + 1] || 0);
    }
    return found;
  }

  /** @param {number[]} data @param {Uint8Array} divisor */
  function remainder(data, divisor) {
    const rest = new Uint8Array(divisor.length);
    for (const byte of data) {
      const factor = byte ^ rest[0];
      rest.copyWithin(0, 1);
      rest[rest.length - 1] = 0;
      divisor.forEach((one, at) => (rest[at] ^= times(one, factor)));
    }
    return rest;
  }

  /** Data in blocks with their correction, taken in turn from each. @param {number[]} data @param {number} version */
  function woven(data, version) {
    const [count, correction] = [BLOCKS[version - 1], CORRECTION[version - 1]];
    const [short, shorts] = [Math.floor(data.length / count), count - (data.length % count)];
    const divisor = generator(correction);
    const blocks = Array.from({ length: count }, (_, at) => data.slice(at * short + Math.max(0, at - shorts), (at + 1) * short + Math.max(0, at + 1 - shorts)));
    const checks = blocks.map((block) => remainder(block, divisor));
    const inTurn = (/** @type {ArrayLike<number>[]} */ all, /** @type {number} */ length) =>
      Array.from({ length }, (_, at) => all.filter((one) => at < one.length).map((one) => one[at])).flat();
    return [...inTurn(blocks, short + 1), ...inTurn(checks, correction)];
  }

  /** @param {Grid} grid @param {number} row @param {number} column @param {boolean | number} dark */
  function fix(grid, row, column, dark) {
    if (row < 0 || column < 0 || row >= grid.dark.length || column >= grid.dark.length) return;
    grid.dark[row][column] = Number(dark);
    grid.kept[row][column] = 1;
  }

  /** A square of rings around its middle; light ones are at the distances named. @param {Grid} grid @param {number} row @param {number} column @param {number} reach @param {number[]} light */
  function rings(grid, row, column, reach, light) {
    for (let i = -reach; i <= reach; i += 1) {
      for (let j = -reach; j <= reach; j += 1) fix(grid, row + i, column + j, !light.includes(Math.max(Math.abs(i), Math.abs(j))));
    }
  }

  /** What every code of a version has, the places of format and version kept free. @param {number} version @returns {Grid} */
  function fixedOf(version) {
    const size = version * 4 + 17;
    const rows = () => Array.from({ length: size }, () => new Uint8Array(size));
    const grid = { dark: rows(), kept: rows() };
    for (let at = 0; at < size; at += 1) {
      fix(grid, 6, at, at % 2 === 0);
      fix(grid, at, 6, at % 2 === 0);
    }
    for (const [row, column] of [[3, 3], [3, size - 4], [size - 4, 3]]) rings(grid, row, column, 4, [2, 4]);
    const middles = alignments(version);
    const last = middles[middles.length - 1];
    for (const row of middles) {
      for (const column of middles) {
        const isFinder = (row === 6 && (column === 6 || column === last)) || (row === last && column === 6);
        if (!isFinder) rings(grid, row, column, 2, [1]);
      }
    }
    put(grid, formatPlaces(size).flat(), 0);
    fix(grid, size - 8, 8, 0);
    if (version >= 7) put(grid, versionPlaces(size).flat(), 0);
    return grid;
  }

  /** Where the 15 bits of the format stand, the lowest first, each twice. @param {number} size @returns {[number, number][][]} */
  function formatPlaces(size) {
    return Array.from({ length: 15 }, (_, at) => /** @type {[number, number][]} */ ([
      at < 6 ? [at, 8] : at < 8 ? [at + 1, 8] : at === 8 ? [8, 7] : [8, 14 - at],
      at < 8 ? [8, size - 1 - at] : [size - 15 + at, 8],
    ]));
  }

  /** Where the 18 bits of the version stand, the lowest first, each twice. @param {number} size @returns {[number, number][][]} */
  function versionPlaces(size) {
    return Array.from({ length: 18 }, (_, at) => {
      const [long, short] = [Math.floor(at / 3), size - 11 + (at % 3)];
      return /** @type {[number, number][]} */ ([[long, short], [short, long]]);
    });
  }

  /** @param {Grid} grid @param {[number, number][]} places @param {number} dark */
  function put(grid, places, dark) {
    for (const [row, column] of places) fix(grid, row, column, dark);
  }

  /** A number with what corrects it behind. @param {number} value @param {number} length bits of the correction @param {number} divisor */
  function checked(value, length, divisor) {
    let rest = value;
    for (let at = 0; at < length; at += 1) rest = (rest << 1) ^ ((rest >> (length - 1)) & 1 ? divisor : 0);
    return (value << length) | (rest & ((1 << length) - 1));
  }

  /** Lay the codewords in pairs of columns, up and down from the right. @param {Grid} grid @param {number[]} words */
  function lay(grid, words) {
    const size = grid.dark.length;
    let at = 0;
    for (let right = size - 1; right > 0; right -= right === 8 ? 3 : 2) {
      const isUp = (right < 6 ? right + 1 : right) % 4 === (size - 1) % 4;
      for (let step = 0; step < size; step += 1) {
        const row = isUp ? size - 1 - step : step;
        for (const column of [right, right - 1]) {
          if (grid.kept[row][column]) continue;
          grid.dark[row][column] = ((words[at >> 3] || 0) >> (7 - (at & 7))) & 1;
          at += 1;
        }
      }
    }
  }

  /** @param {Grid} grid @param {(row: number, column: number) => boolean} mask @returns {Uint8Array[]} */
  function masked(grid, mask) {
    return grid.dark.map((row, i) => row.map((dark, j) => (!grid.kept[i][j] && mask(i, j) ? 1 - dark : dark)));
  }

  /** What hinders a reader in a line: long runs, and what looks like a finder pattern beside light (7.8.3). @param {string} line */
  function lineCost(line) {
    const runs = (line.match(/0{5,}|1{5,}/g) || []).reduce((sum, run) => sum + run.length - 2, 0);
    let finders = 0;
    for (let at = line.indexOf("1011101"); at >= 0; ) {
      const [before, after] = [line.slice(Math.max(0, at - 4), at), line.slice(at + 7, at + 11)];
      const isFound = !before.includes("1") || !after.includes("1");
      finders += isFound ? 1 : 0;
      at = line.indexOf("1011101", at + (isFound ? 7 : 4));
    }
    return runs + 40 * finders;
  }

  /** @param {Uint8Array[]} rows */
  function cost(rows) {
    const size = rows.length;
    const lines = [...rows.map((row) => row.join("")), ...rows.map((_, j) => rows.map((row) => row[j]).join(""))];
    let [squares, dark] = [0, 0];
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1) {
        dark += rows[i][j];
        if (i && j && rows[i][j] === rows[i - 1][j] && rows[i][j] === rows[i][j - 1] && rows[i][j] === rows[i - 1][j - 1]) squares += 1;
      }
    }
    const uneven = Math.floor(Math.abs((dark / (size * size)) * 100 - 50) / 5);
    return lines.reduce((sum, line) => sum + lineCost(line), 0) + 3 * squares + 10 * uneven;
  }

  /**
   * The modules of a text's code, 1 for dark; null where the text is longer than the largest code holds. The quiet
   * zone of 4 modules around is not among them. @param {string} text @returns {Uint8Array[] | null}
   */
  function modules(text) {
    const bytes = new TextEncoder().encode(text);
    const version = versionFor(bytes.length);
    if (!version) return null;
    const grid = fixedOf(version);
    lay(grid, woven(dataOf(bytes, version), version));
    const costs = MASKS.map((mask) => cost(masked(grid, mask)));
    const best = costs.indexOf(Math.min(...costs));
    const found = { dark: masked(grid, MASKS[best]), kept: grid.kept };
    const size = found.dark.length;
    // Level M is 00, so that the mask alone stands in the format.
    const format = checked(best, 10, 0x537) ^ 0x5412;
    formatPlaces(size).forEach((places, at) => put(found, places, (format >> at) & 1));
    fix(found, size - 8, 8, 1);
    if (version >= 7) versionPlaces(size).forEach((places, at) => put(found, places, (checked(version, 12, 0x1f25) >> at) & 1));
    return found.dark;
  }

  /** The dark modules as a path, its quiet zone left free at the top and left. @param {Uint8Array[]} rows */
  function path(rows) {
    return rows.map((row, i) => {
      const runs = Array.from(row.join("").matchAll(/1+/g));
      return runs.map((run) => `M${(run.index || 0) + QUIET} ${i + QUIET}h${run[0].length}v1h-${run[0].length}z`).join("");
    }).join("");
  }

  const QUIET = 4;
  seambook.qr = { modules, path, QUIET };
})();
