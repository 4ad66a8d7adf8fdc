/**
 * What was packed with LZMA, unpacked. It reads the bare stream that the builder writes: four bits of the byte before tell
 * literals apart, no bits of the position do, and how long the result is was told beforehand, so no end mark is read.
 */
(function () {
  "use strict";

  /** @type {any} */
  const pocket = (/** @type {any} */ (window).seambookPocket = /** @type {any} */ (window).seambookPocket || {});
  const LITERAL_BITS = 4;
  const TOP = 0xff000000 | 0; // while none of these bits is set, another byte is taken in
  const EVEN = 1024; // a bit as likely 0 as 1, of 2048

  /** @param {number} count */
  function chances(count) {
    return new Uint16Array(count).fill(EVEN);
  }

  /** A decoder of bits. @param {Uint8Array} packed */
  function bitReader(packed) {
    // Place, range and code, as signed numbers of 32 bits: what may be larger is made anew at each change by engines, on
    // which a third of the time went.
    const now = new Int32Array([5, -1, (packed[1] << 24) | (packed[2] << 16) | (packed[3] << 8) | packed[4]]);

    /** One bit of which it is known how likely it is. @param {Uint16Array} chance @param {number} index @returns {number} */
    function bit(chance, index) {
      const one = chance[index];
      let r = now[1], c = now[2];
      const bound = (r >>> 11) * one;
      let found = 0;
      if (c >>> 0 < bound) {
        r = bound | 0;
        chance[index] = one + ((2048 - one) >>> 5);
      } else {
        c = (c - bound) | 0;
        r = (r - bound) | 0;
        chance[index] = one - (one >>> 5);
        found = 1;
      }
      if ((r & TOP) === 0) {
        r <<= 8;
        c = (c << 8) | packed[now[0]++];
      }
      now[1] = r;
      now[2] = c;
      return found;
    }

    /** Bits as likely 0 as 1. @param {number} count @returns {number} */
    function plain(count) {
      let found = 0;
      let p = now[0], r = now[1], c = now[2];
      for (let left = count; left > 0; left--) {
        r >>>= 1;
        const isOne = (c >>> 0) >= r;
        if (isOne) c = (c - r) | 0;
        found = (found << 1) | (isOne ? 1 : 0);
        if ((r & TOP) === 0) {
          r <<= 8;
          c = (c << 8) | packed[p++];
        }
      }
      now[0] = p;
      now[1] = r;
      now[2] = c;
      return found;
    }

    /**
     * A number, highest bit first: as `bit` finds each, with all that changes held near, since most of the time goes by here.
     * @param {Uint16Array} chance @param {number} from @param {number} start the bits that are known already, behind a 1
     * @param {number} end the first that is too many @returns {number} what was known and found, behind a 1
     */
    function tree(chance, from, start, end) {
      let node = start, p = now[0], r = now[1], c = now[2];
      while (node < end) {
        const one = chance[from + node];
        const bound = (r >>> 11) * one;
        if (c >>> 0 < bound) {
          r = bound | 0;
          chance[from + node] = one + ((2048 - one) >>> 5);
          node <<= 1;
        } else {
          c = (c - bound) | 0;
          r = (r - bound) | 0;
          chance[from + node] = one - (one >>> 5);
          node = (node << 1) | 1;
        }
        if ((r & TOP) === 0) {
          r <<= 8;
          c = (c << 8) | packed[p++];
        }
      }
      now[0] = p;
      now[1] = r;
      now[2] = c;
      return node;
    }

    /** A number, lowest bit first. @param {Uint16Array} chance @param {number} from @param {number} count @returns {number} */
    function reverse(chance, from, count) {
      let node = 1;
      let found = 0;
      for (let place = 0; place < count; place++) {
        const one = bit(chance, from + node);
        node = (node << 1) | one;
        found |= one << place;
      }
      return found;
    }

    return { bit, plain, tree, reverse };
  }

  /** @typedef {ReturnType<typeof bitReader>} Bits */

  /** How long what is repeated is: first two choices, then short, middling and long. @param {Bits} bits */
  function lengths(bits) {
    const chance = chances(2 + 8 + 8 + 256);
    return () => {
      if (!bits.bit(chance, 0)) return 2 + bits.tree(chance, 2, 1, 8) - 8;
      if (!bits.bit(chance, 1)) return 10 + bits.tree(chance, 10, 1, 8) - 8;
      return 18 + bits.tree(chance, 18, 1, 256) - 256;
    };
  }

  /** How far back what is repeated lies, counted from 0. @param {Bits} bits */
  function distances(bits) {
    const slots = chances(4 * 64);
    const middle = chances(128);
    const last = chances(16);
    return (/** @type {number} */ length) => {
      const slot = bits.tree(slots, 64 * Math.min(length - 2, 3), 1, 64) - 64;
      if (slot < 4) return slot;
      const count = (slot >>> 1) - 1;
      const high = (2 | (slot & 1)) << count;
      if (slot < 14) return high + bits.reverse(middle, high - slot, count);
      return high + bits.plain(count - 4) * 16 + bits.reverse(last, 0, 4);
    };
  }

  /** A byte as itself; after a repeat the byte that would have come next helps to tell it. @param {Bits} bits */
  function literals(bits) {
    const chance = chances(0x300 << LITERAL_BITS);
    return (/** @type {number} */ before, /** @type {number} */ hint) => {
      const from = 0x300 * (before >>> (8 - LITERAL_BITS));
      let node = 1;
      let expected = hint;
      while (expected >= 0 && node < 256) {
        expected <<= 1;
        const likely = (expected >>> 8) & 1;
        const one = bits.bit(chance, from + ((1 + likely) << 8) + node);
        node = (node << 1) | one;
        if (one !== likely) expected = -1;
      }
      return bits.tree(chance, from, node, 256) & 255;
    };
  }

  /**
   * @param {Uint8Array} packed @param {number} size how many bytes come of it
   * @returns {Uint8Array}
   */
  function unpack(packed, size) {
    const bits = bitReader(packed);
    const isRepeat = chances(12), isOld = chances(12), isOther = chances(12), isThird = chances(12), isFourth = chances(12), isLong = chances(12);
    const literal = literals(bits), newLength = lengths(bits), oldLength = lengths(bits), distance = distances(bits);
    const out = new Uint8Array(size);
    let at = 0, state = 0, first = 0, second = 0, third = 0, fourth = 0;

    /** One of the four distances used last, put first. @returns {void} */
    function recall() {
      let found = second;
      if (bits.bit(isThird, state)) {
        found = third;
        if (bits.bit(isFourth, state)) {
          found = fourth;
          fourth = third;
        }
        third = second;
      }
      second = first;
      first = found;
    }

    while (at < size) {
      if (!bits.bit(isRepeat, state)) {
        out[at] = literal(at ? out[at - 1] : 0, state < 7 ? -1 : out[at - first - 1]);
        at += 1;
        state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
        continue;
      }
      let length = 1;
      if (!bits.bit(isOld, state)) {
        fourth = third;
        third = second;
        second = first;
        length = newLength();
        first = distance(length);
        state = state < 7 ? 7 : 10;
      } else {
        const isFirst = !bits.bit(isOther, state);
        if (isFirst && !bits.bit(isLong, state)) state = state < 7 ? 9 : 11;
        else {
          if (!isFirst) recall();
          length = oldLength();
          state = state < 7 ? 8 : 11;
        }
      }
      if (first >= at) throw new RangeError("This copy of the book is damaged.");
      const end = Math.min(at + length, size);
      for (let from = at - first - 1; at < end; at++, from++) out[at] = out[from];
    }
    return out;
  }

  pocket.unpack = unpack;
})();
