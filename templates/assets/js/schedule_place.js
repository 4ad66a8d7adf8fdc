/**
 * From an order of tasks to a plan: each task or block at the earliest time at which every rule lets it be. Touches no page.
 *
 * All that is tried is a key for each task, the least first. The same keys in the order in which tasks were placed give
 * the same plan again, so an order alone says what a plan is.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { NEVER } = seambook.scheduleTime;
  const { WORK, WHOLE, REST } = seambook.scheduleProblem;
  /** How often tasks of a block may be moved on, for each of its members. */
  const MOVES = 24;

  /** Places the tasks of one problem, as often as asked. */
  class Placer {
    /** @param {ShapedPlan} shaped */
    constructor(shaped) {
      this.shaped = shaped;
      this.start = new Int32Array(shaped.count);
      this.end = new Int32Array(shaped.count);
      /** The plan that all is placed by now, if any is. */
      this.held = /** @type {PlacedPlan | null} */ (null);
      /** Where the members of a block may start at the earliest, beyond what binds all. */
      this.low = shaped.earliest.slice();
      this.isPlaced = new Uint8Array(shaped.count);
      this.order = /** @type {number[]} */ ([]);
      this.broken = /** @type {PlanFault[]} */ ([]);
      this.isBegun = false;
      shaped.tasks.forEach((task, at) => {
        if (!task.done) return;
        [this.start[at], this.end[at]] = [task.done.start, task.done.end];
        this.isPlaced[at] = 1;
        this.claim(at, 1);
      });
      this.past = this.isPlaced.slice();
      this.isBegun = true;
      for (const profile of shaped.profiles) profile.keep();
    }

    rewind() {
      this.held = null;
      for (const profile of this.shaped.profiles) profile.rewind();
      this.isPlaced.set(this.past);
      this.low.set(this.shaped.earliest);
      this.order = [];
      this.broken = [];
    }

    /** Put everything where a plan has it. @param {PlacedPlan} plan */
    hold(plan) {
      if (this.held === plan) return;
      this.rewind();
      for (const at of plan.order) {
        this.start[at] = plan.start[at];
        this.end[at] = plan.end[at];
        this.isPlaced[at] = 1;
        this.claim(at, 1);
      }
      this.held = plan;
    }

    /** Take what a placed task claims, or give it back. @param {number} at @param {number} sign */
    claim(at, sign) {
      const { split, calendar } = this.shaped;
      const holds = this.shaped.holds[at];
      const start = this.start[at];
      const end = this.end[at];
      for (let turn = 0; turn < holds.length; turn += 1) {
        const hold = holds[turn];
        const amount = sign * hold.amount;
        if (hold.span === REST) hold.profile.take(end, end + hold.linger, amount);
        else if (hold.span === WORK && split[at] && this.isBegun) {
          for (const [from, to] of calendar.parts(start, end)) hold.profile.take(from, to, amount);
        } else hold.profile.take(start, end + hold.linger, amount);
      }
    }

    /** The least start that clears what stands in the way of a task; -NEVER where nothing does.
     * @param {number} at @param {number} start @param {number} end */
    clears(at, start, end) {
      const checks = this.shaped.checks[at];
      for (let turn = 0; turn < checks.length; turn += 1) {
        const check = checks[turn];
        if (this.shaped.split[at] && check.span !== WHOLE) {
          const clear = this.clearsSplit(at, start, end, check);
          if (clear > -NEVER) return clear;
        } else if (check.span === REST) {
          const until = check.profile.blockedUntil(end, end + check.linger, check.most);
          if (until > -NEVER) return start + until - end;
        } else {
          const until = check.profile.blockedUntil(start, end + check.linger, check.most);
          if (until > -NEVER) return until;
        }
      }
      return -NEVER;
    }

    /** The same for one check of work that closing may interrupt. @param {number} at @param {number} start
     * @param {number} end @param {PlanClaim} check */
    clearsSplit(at, start, end, check) {
      const { calendar, minutes } = this.shaped;
      if (check.span === REST) {
        const until = check.profile.blockedUntil(end, end + check.linger, check.most);
        return until > -NEVER ? Math.max(start + 1, calendar.startOf(until, minutes[at])) : -NEVER;
      }
      for (const [from, to] of calendar.parts(start, end)) {
        const until = check.profile.blockedUntil(from, to, check.most);
        if (until > -NEVER) return until;
      }
      return -NEVER;
    }

    /** @param {number} at @param {number} minute */
    fit(at, minute) {
      const { calendar, minutes, attended, split } = this.shaped;
      return split[at] ? calendar.fitSplit(minute, minutes[at], attended[at]) : calendar.fit(minute, minutes[at] + attended[at]);
    }

    /** @param {number} at @param {number} start */
    endOf(at, start) {
      const { calendar, minutes, split } = this.shaped;
      return split[at] ? calendar.endOf(start, minutes[at]) : start + minutes[at];
    }

    /** The earliest start from a minute on. @param {number} at @param {number} minute */
    earliest(at, minute) {
      let start = this.fit(at, minute);
      for (;;) {
        const clear = this.clears(at, start, this.endOf(at, start));
        if (clear <= start) return start;
        start = this.fit(at, clear);
      }
    }

    /** What comes before a task binds its start. @param {number} at */
    bound(at) {
      const { before } = this.shaped;
      let least = this.low[at];
      for (let link = before.from[at]; link < before.from[at + 1]; link += 1) {
        const one = before.to[link];
        const bound = this.end[one] + before.lag[link];
        if (bound > least && this.isPlaced[one]) least = bound;
      }
      return least;
    }

    /** @param {number} at @param {number} start */
    put(at, start) {
      this.start[at] = start;
      this.end[at] = this.endOf(at, start);
      this.isPlaced[at] = 1;
      this.claim(at, 1);
    }

    /** @param {number} at */
    lift(at) {
      this.claim(at, -1);
      this.isPlaced[at] = 0;
    }

    /** A task alone at its earliest. @param {number} at */
    putAlone(at) {
      const start = this.earliest(at, this.bound(at));
      if (start > this.shaped.due[at]) this.broken.push({ task: at, why: "window", with: this.shaped.dueBy[at] });
      this.put(at, start);
      this.order.push(at);
    }

    /** Which member must move on, and to where, so that another may start then: `[member, start, from, to]` with the limit
     * that asks for it; null where nothing is late. @param {number} at @param {number} start @returns {number[] | null} */
    late(at, start) {
      const { limitsTo, limitsFrom } = this.shaped;
      for (let link = limitsTo.from[at]; link < limitsTo.from[at + 1]; link += 1) {
        const from = limitsTo.to[link];
        const end = start - limitsTo.lag[link];
        if (this.isPlaced[from] && this.end[from] < end) return [from, this.startFor(from, this.start[from], end), from, at];
      }
      for (let link = limitsFrom.from[at]; link < limitsFrom.from[at + 1]; link += 1) {
        const to = limitsFrom.to[link];
        const end = this.start[to] - limitsFrom.lag[link];
        if (this.isPlaced[to] && this.endOf(at, start) < end) return [at, this.startFor(at, start, end), at, to];
      }
      return null;
    }

    /** The first start after the present one that may end so late. @param {number} at @param {number} start
     * @param {number} end */
    startFor(at, start, end) {
      const { split, minutes, calendar } = this.shaped;
      return Math.max(start + 1, split[at] ? calendar.startOf(end, minutes[at]) : end - minutes[at]);
    }

    /** Every member at its earliest, in an order that keeps the arcs, moving on those that began too soon for a limit.
     * The limit that cannot be kept, with nothing left placed; null where all went well.
     * @param {number[]} members @param {number} from @param {boolean} isDueKept @returns {number[] | null} */
    putInOrder(members, from, isDueKept) {
      const { earliest, due } = this.shaped;
      for (const at of members) this.low[at] = Math.max(earliest[at], from);
      let moves = MOVES * members.length;
      for (let turn = 0; turn < members.length; ) {
        const at = members[turn];
        const start = this.earliest(at, this.bound(at));
        const late = this.late(at, start);
        const isOverdue = isDueKept && start > due[at];
        if (!late && !isOverdue) {
          this.put(at, start);
          turn += 1;
          continue;
        }
        moves -= 1;
        if (!late || isOverdue || moves < 0) {
          while (turn > 0) this.lift(members[(turn -= 1)]);
          return late && !isOverdue ? [late[2], late[3]] : [-1, at];
        }
        while (members[turn] !== late[0]) this.lift(members[(turn -= 1)]);
        this.low[late[0]] = late[1];
      }
      return null;
    }

    /** From when on nothing stands in the way of a block any more. @param {number[]} members */
    behind(members) {
      let most = 0;
      for (const { times, length } of this.shaped.profiles) most = Math.max(most, times[length - 1]);
      return members.reduce((least, at) => Math.max(least, this.bound(at)), most);
    }

    /** A block as one. Where its order cannot be kept, the first to run out of time goes first; where that cannot be
     * either, it goes behind all that is placed. @param {number[]} members @param {number[]} byDue */
    putBlock(members, byDue) {
      const tries = [[members, 0, 1], [byDue, 0, 1], [byDue, 1, 1], [members, 1, 1], [byDue, 0, 0], [byDue, 1, 0]];
      for (const [order, isBehind, isDueKept] of /** @type {[number[], number, number][]} */ (tries)) {
        if (this.putInOrder(order, isBehind ? this.behind(order) : 0, Boolean(isDueKept))) continue;
        this.order.push(...order);
        if (!isDueKept) this.tellBroken(order);
        return;
      }
      for (const at of byDue) {
        this.low[at] = this.shaped.earliest[at];
        this.put(at, this.earliest(at, this.bound(at)));
      }
      this.order.push(...byDue);
      this.tellBroken(byDue);
    }

    /** Tell the limits that placed tasks break. @param {number[]} members */
    tellBroken(members) {
      const { due, dueBy, limitsTo } = this.shaped;
      for (const at of members) {
        if (this.start[at] > due[at]) this.broken.push({ task: at, why: "window", with: dueBy[at] });
        for (let link = limitsTo.from[at]; link < limitsTo.from[at + 1]; link += 1) {
          const [from, most] = [limitsTo.to[link], limitsTo.lag[link]];
          if (this.start[at] > this.end[from] + most) this.broken.push({ task: at, why: "window", with: [from, most] });
        }
      }
    }

    /** The latest start that ends by a minute, from its present one on; the task itself must have been lifted.
     * @param {number} at @param {number} by */
    latest(at, by) {
      const { calendar, minutes, attended, split } = this.shaped;
      const present = this.end[at];
      for (let end = by; end > present; ) {
        end = calendar.latestEnd(end, minutes[at], attended[at], split[at]);
        if (end <= present) break;
        const start = split[at] ? calendar.startOf(end, minutes[at]) : end - minutes[at];
        const clear = this.clearsBack(at, start, end);
        if (clear >= end) return start;
        end = clear;
      }
      return this.start[at];
    }

    /** The end by which a task must be done to be before what first stands in its way; its own end where nothing does.
     * @param {number} at @param {number} start @param {number} end */
    clearsBack(at, start, end) {
      const { checks, split, calendar } = this.shaped;
      for (const { profile, most, span, linger } of checks[at]) {
        if (span === WHOLE || !split[at]) {
          const first = profile.blockedFrom(span === REST ? end : start, end + linger, most);
          if (first < NEVER) return Math.min(end - 1, first - linger);
          continue;
        }
        const parts = span === REST ? [[end, end + linger]] : calendar.parts(start, end);
        for (const [from, to] of parts) {
          const first = profile.blockedFrom(from, to, most);
          if (first < NEVER) return Math.min(end - 1, first - linger);
        }
      }
      return end;
    }
  }

  seambook.schedulePlace = { Placer };
})();
