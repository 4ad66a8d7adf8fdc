/**
 * Time as a plan sees it: opening hours in elapsed minutes, and how much of a thing is taken when. Touches no page.
 *
 * Elapsed minute 0 is the start of the job. Every number is a whole one, so that all machines plan alike.
 */

/**
 * @typedef {{opens: number, closes: number, days: number[]}} PlanHours
 * @typedef {{minute: number, day: number}} PlanStart
 */

(function () {
  "use strict";

  const page = /** @type {any} */ (window);
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const DAY = 1440;
  const WEEK = 7;
  /** Later than any plan ends; the sum of two is still a small integer to the engine. */
  const NEVER = 500000000;
  /** So many are moved faster one by one than by the engine's own way, which must be called first. */
  const FEW = 48;

  /** The openings, one after the other; those that touch are one. Without hours there is a single one without end. */
  class Calendar {
    /** @param {PlanHours | null} hours @param {PlanStart} start */
    constructor(hours, start) {
      const days = hours ? [1, 2, 3, 4, 5, 6, 7].filter((day) => hours.days.includes(day)) : [];
      const isAlwaysOpen = !hours || (days.length === WEEK && hours.opens === 0 && hours.closes === DAY);
      this.hours = isAlwaysOpen || !hours || !days.length || hours.closes <= hours.opens ? null : hours;
      /** Whether hours were given that never open. */
      this.isShut = !isAlwaysOpen && !this.hours;
      this.start = start;
      this.day = 0;
      /** @type {number[]} */
      this.opens = this.hours ? [] : [-NEVER];
      /** @type {number[]} */
      this.closes = this.hours ? [] : [NEVER];
      this.at = 0;
      this.longest = this.hours ? this.longestOf(this.hours) : NEVER;
      this.reach(0);
    }

    /** @param {PlanHours} hours */
    longestOf(hours) {
      this.reach(2 * WEEK * DAY);
      return this.opens.reduce((most, opens, at) => Math.max(most, this.closes[at] - opens), hours.closes - hours.opens);
    }

    /** Lay openings until one closes after the given minute, and one more. @param {number} minute */
    reach(minute) {
      const hours = this.hours;
      if (!hours) return;
      const { opens, closes } = this;
      while (opens.length < 2 || closes[opens.length - 2] <= minute) {
        const from = this.day * DAY - this.start.minute;
        const weekday = ((this.start.day - 1 + this.day) % WEEK) + 1;
        this.day += 1;
        if (!hours.days.includes(weekday) || from + hours.closes <= 0) continue;
        const last = closes.length - 1;
        if (last >= 0 && closes[last] === from + hours.opens) closes[last] = from + hours.closes;
        else {
          opens.push(from + hours.opens);
          closes.push(from + hours.closes);
        }
      }
    }

    /** The first opening that closes at the minute or later. @param {number} minute */
    opening(minute) {
      this.reach(minute);
      const { closes } = this;
      let at = this.at;
      if (at >= closes.length) at = closes.length - 1;
      while (at > 0 && closes[at - 1] >= minute) at -= 1;
      while (closes[at] < minute) at += 1;
      this.at = at;
      return at;
    }

    /** The earliest start from a minute on that lies whole, with what must follow at once, in one opening.
     * @param {number} minute @param {number} length */
    fit(minute, length) {
      for (let at = this.opening(minute); ; at += 1) {
        this.reach(this.closes[at]);
        const start = Math.max(minute, this.opens[at]);
        if (start + length <= this.closes[at]) return start;
      }
    }

    /** The same for work that closing may interrupt; what must follow at once lies in the opening in which it ends.
     * @param {number} minute @param {number} minutes @param {number} rest */
    fitSplit(minute, minutes, rest) {
      if (minutes === 0) return this.fit(minute, rest);
      for (let from = minute; ; ) {
        const start = this.fit(from, 1);
        const end = this.endOf(start, minutes);
        const at = this.opening(end);
        if (end + rest <= this.closes[at]) return start;
        this.reach(this.closes[at]);
        from = Math.max(start + 1, this.startOf(this.opens[at + 1] + 1, minutes));
      }
    }

    /** When work that is interrupted by closing ends. @param {number} start @param {number} minutes */
    endOf(start, minutes) {
      let at = this.opening(start);
      let from = Math.max(start, this.opens[at]);
      let left = minutes;
      while (left > this.closes[at] - from) {
        left -= Math.max(0, this.closes[at] - from);
        at += 1;
        this.reach(this.closes[at]);
        from = this.opens[at];
      }
      return from + left;
    }

    /** When work that ends at a minute of an opening must start; long ago where there is not time enough before it.
     * @param {number} end @param {number} minutes */
    startOf(end, minutes) {
      let at = this.opening(end);
      let to = end;
      let left = minutes;
      while (left > to - this.opens[at]) {
        left -= Math.max(0, to - this.opens[at]);
        at -= 1;
        if (at < 0) return -NEVER;
        to = this.closes[at];
      }
      return to - left;
    }

    /** The latest end up to a minute of work that lies whole in one opening, rest and all; long ago where there is none.
     * @param {number} minute @param {number} minutes @param {number} rest @param {boolean} isSplit */
    latestEnd(minute, minutes, rest, isSplit) {
      const least = isSplit && minutes > 0 ? 1 : minutes;
      for (let at = this.opening(minute); at >= 0; at -= 1) {
        const end = Math.min(minute, this.closes[at] - rest);
        if (end - least >= this.opens[at]) return end;
      }
      return -NEVER;
    }

    /** The last minute up to the given one at which the doors are open. @param {number} minute */
    lastOpen(minute) {
      const at = this.opening(minute);
      if (this.opens[at] <= minute && minute < this.closes[at]) return minute;
      return this.opens[at] <= minute ? this.closes[at] - 1 : at > 0 ? this.closes[at - 1] - 1 : -NEVER;
    }

    /** The spans of work between a start and an end. @param {number} start @param {number} end @returns {number[][]} */
    parts(start, end) {
      const found = [];
      let from = start;
      for (let at = this.opening(start); from < end; at += 1) {
        const to = Math.min(end, this.closes[at]);
        if (to > from) found.push([from, to]);
        this.reach(this.closes[at]);
        from = Math.max(from, this.opens[at + 1] === undefined ? end : this.opens[at + 1]);
      }
      return found.length ? found : [[start, end]];
    }

    /** Open minutes between two minutes. @param {number} from @param {number} to */
    between(from, to) {
      let total = 0;
      for (let at = this.opening(from); this.opens[at] < to; at += 1) {
        total += Math.max(0, Math.min(to, this.closes[at]) - Math.max(from, this.opens[at]));
        this.reach(this.closes[at]);
        if (at + 1 >= this.opens.length) break;
      }
      return total;
    }
  }

  /** How much of one thing is taken when: a level from each time to the next, and nothing in the end. */
  class Profile {
    constructor() {
      this.times = new Int32Array(64);
      this.levels = new Int32Array(64);
      this.times[0] = -NEVER;
      this.length = 1;
      /** @type {{times: Int32Array, levels: Int32Array} | null} */
      this.kept = null;
    }

    /** Remember what is taken now, for `rewind`. */
    keep() {
      this.kept = { times: this.times.slice(0, this.length), levels: this.levels.slice(0, this.length) };
    }

    rewind() {
      const kept = this.kept;
      if (!kept) return;
      this.times.set(kept.times);
      this.levels.set(kept.levels);
      this.length = kept.times.length;
    }

    /** The last place whose time is at the minute or before. @param {number} minute */
    find(minute) {
      const times = this.times;
      let low = 0;
      let high = this.length - 1;
      if (times[high] <= minute) return high;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (times[middle] <= minute) low = middle;
        else high = middle - 1;
      }
      return low;
    }

    /** The end of the last stretch between two minutes that is taken by more than so much; -NEVER where none is.
     * @param {number} from @param {number} to @param {number} most */
    blockedUntil(from, to, most) {
      const { times, levels } = this;
      if (to <= from) return -NEVER;
      for (let at = this.find(to - 1); ; at -= 1) {
        if (levels[at] > most) {
          let after = at + 1;
          while (levels[after] > most) after += 1;
          return times[after];
        }
        if (times[at] <= from) return -NEVER;
      }
    }

    /** The start of the first such stretch; NEVER where there is none. @param {number} from @param {number} to
     * @param {number} most */
    blockedFrom(from, to, most) {
      const { times, levels, length } = this;
      if (to <= from) return NEVER;
      for (let at = this.find(from); at < length && times[at] < to; at += 1) {
        if (levels[at] > most) {
          let before = at;
          while (before > 0 && levels[before - 1] > most) before -= 1;
          return times[before];
        }
      }
      return NEVER;
    }

    /** Take more, or give back, between two minutes. @param {number} from @param {number} to @param {number} amount */
    take(from, to, amount) {
      if (to <= from || amount === 0) return;
      const first = this.part(from);
      const last = this.part(to);
      for (let at = first; at < last; at += 1) this.levels[at] += amount;
      this.join(last);
      this.join(first);
    }

    /** Make a time begin at the minute. @param {number} minute */
    part(minute) {
      const at = this.find(minute);
      if (this.times[at] === minute) return at;
      if (this.length === this.times.length) this.grow();
      this.move(at + 1, at + 2);
      this.times[at + 1] = minute;
      this.levels[at + 1] = this.levels[at];
      this.length += 1;
      return at + 1;
    }

    /** Drop a time at which nothing changes. @param {number} at */
    join(at) {
      if (at <= 0 || this.levels[at] !== this.levels[at - 1]) return;
      this.move(at + 1, at);
      this.length -= 1;
    }

    /** Move what stands from a place on by one. @param {number} from @param {number} to */
    move(from, to) {
      const { times, levels, length } = this;
      if (length - from > FEW) {
        times.copyWithin(to, from, length);
        levels.copyWithin(to, from, length);
      } else if (to < from) {
        for (let at = from; at < length; at += 1) {
          times[at - 1] = times[at];
          levels[at - 1] = levels[at];
        }
      } else {
        for (let at = length; at > from; at -= 1) {
          times[at] = times[at - 1];
          levels[at] = levels[at - 1];
        }
      }
    }

    grow() {
      const [times, levels] = [this.times, this.levels];
      this.times = new Int32Array(2 * times.length);
      this.levels = new Int32Array(2 * levels.length);
      this.times.set(times);
      this.levels.set(levels);
    }
  }

  seambook.scheduleTime = { Calendar, Profile, NEVER };
})();
