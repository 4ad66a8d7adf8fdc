/**
 * The planner: tasks with waits, windows, hands, places, clashes and opening hours become one plan. Touches no page.
 *
 * `seambook.schedule.plan(problem)` tries the previous order, then the longest tail first, serial and parallel, then the
 * best so far pushed to the right and packed again, then the best with some tasks shifted, as many passes as asked. Only
 * whole numbers and a generator of its own: the same problem gives the same plan on every machine.
 */

/** @typedef {{rows: PlanRow[], order: number[], finish: number, critical: number[], causes: PlanCause[], slack: number[],
 *   idle: {hands: number, minutes: number}, impossible: PlanFault[]}} SchedulePlan */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { NEVER } = seambook.scheduleTime;
  const { shape, bind, tailsOf } = seambook.scheduleProblem;
  const { Placer } = seambook.schedulePlace;
  const { serial, parallel, pushed, withinBlock } = seambook.scheduleOrder;

  /** Of more tasks than these only the first rule is tried, so that the time goes into bettering it. */
  const MANY = 200;

  /** Before a window is told as impossible, so many orders of two tasks are tried, and fewer of more. */
  const ORDERS = 800;

  /** Whole numbers below a bound, the same for the same seed (mulberry32). @param {number} seed */
  function generator(seed) {
    let state = seed | 0;
    return (/** @type {number} */ bound) => {
      state = (state + 0x6d2b79f5) | 0;
      let mixed = Math.imul(state ^ (state >>> 15), state | 1);
      mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
      return ((mixed ^ (mixed >>> 14)) >>> 0) % bound;
    };
  }

  /** A fixed number of passes by the number of tasks: many where one is cheap, none where a few would find nothing. @param {number} count */
  function passesFor(count) {
    if (count <= 12) return 1200;
    if (count <= 30) return 300;
    if (count <= 80) return 100;
    if (count <= 160) return 40;
    return count <= 320 ? 10 : 0;
  }

  /** Drop and tell the limits that cannot be kept even where nothing else is done. @param {any} placer */
  function dropHopeless(placer) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const keys = shaped.tail.map((tail) => -tail);
    for (const block of shaped.blocks) {
      if (block.members.length === 1 && shaped.due[block.members[0]] === NEVER) continue;
      for (let late = lateIn(placer, block, keys); late; late = lateIn(placer, block, keys)) drop(shaped, late);
    }
    placer.rewind();
  }

  /** The limit of a block that no order tried can keep, or null; an order that keeps all is kept for when others fail.
   * @param {any} placer @param {PlanBlock} block @param {Int32Array} keys @returns {number[] | null} */
  function lateIn(placer, block, keys) {
    const { shaped } = placer;
    const { members, byDue } = block;
    const random = generator(1);
    placer.rewind();
    const late = placer.putInOrder(byDue, 0, true);
    if (!late || !placer.putInOrder(byDue, placer.behind(byDue), true)) return null;
    for (let left = members.length < 3 ? 1 : Math.floor(ORDERS / members.length); left > 0; left -= 1) {
      const order = withinBlock(shaped, members, keys);
      if (!placer.putInOrder(order, 0, true)) {
        block.byDue = order;
        return null;
      }
      keys = keys.slice();
      for (const at of members) keys[at] = random(NEVER);
    }
    return late;
  }

  /** @param {ShapedPlan} shaped @param {number[]} limit the two tasks; of a limit from a done one, the second alone */
  function drop(shaped, [from, to]) {
    if (from < 0) {
      shaped.faults.push({ task: to, why: "window", with: shaped.dueBy[to] });
      shaped.due[to] = NEVER;
      return;
    }
    const most = Math.min(...shaped.limits.filter((limit) => limit[0] === from && limit[1] === to).map((limit) => limit[2]));
    shaped.faults.push({ task: to, why: "window", with: [from, most] });
    bind(shaped, shaped.limits.filter((limit) => limit[0] !== from || limit[1] !== to));
  }

  /** No plan can end before: what arcs and hours ask for, and the work there is for the hands and places there are.
   * @param {any} placer */
  function leastFinish(placer) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { calendar, count, inOrder, isDone, before, earliest, rest } = shaped;
    const end = placer.end.slice();
    let least = 0;
    for (const at of inOrder) {
      if (!isDone[at]) {
        let start = earliest[at];
        for (let link = before.from[at]; link < before.from[at + 1]; link += 1) {
          start = Math.max(start, end[before.to[link]] + before.lag[link]);
        }
        end[at] = placer.endOf(at, placer.fit(at, start));
      }
      least = Math.max(least, end[at] + rest[at]);
    }
    const work = new Map();
    for (let at = 0; at < count; at += 1) {
      for (const { profile, kind, amount, most, span, linger } of isDone[at] ? [] : shaped.holds[at]) {
        if (kind === "clash") continue;
        const known = work.get(profile) || { there: most + amount, asked: 0 };
        known.asked += amount * (span === 2 ? linger : shaped.minutes[at]);
        work.set(profile, known);
      }
    }
    for (const { there, asked } of work.values()) {
      least = Math.max(least, calendar.endOf(calendar.fit(0, 0), Math.floor((asked + there - 1) / there)));
    }
    return least;
  }

  /** Keys by which what runs out of time comes first. @param {ShapedPlan} shaped */
  function byDue({ due, inOrder, after, minutes, tail }) {
    const keys = due.slice();
    for (let turn = inOrder.length - 1; turn >= 0; turn -= 1) {
      const at = inOrder[turn];
      for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
        keys[at] = Math.min(keys[at], keys[after.to[link]] - after.lag[link] - minutes[at]);
      }
    }
    return keys.map((one, at) => (one < NEVER >> 1 ? one : NEVER - tail[at]));
  }

  /** Keys by an earlier order of ids; a task that is new comes just before the first of those that need it, or last.
   * @param {ShapedPlan} shaped @param {string[]} previous */
  function byPrevious({ tasks, inOrder, after }, previous) {
    const place = new Map(previous.map((id, at) => [id, 2 * at]));
    const last = 2 * previous.length;
    const keys = Int32Array.from(tasks, (task) => {
      const known = place.get(task.id);
      return known === undefined ? last : known;
    });
    for (let turn = inOrder.length - 1; turn >= 0; turn -= 1) {
      const at = inOrder[turn];
      if (place.has(tasks[at].id)) continue;
      for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
        keys[at] = Math.min(keys[at], keys[after.to[link]] - 1);
      }
    }
    return keys;
  }

  /** The search for one problem: the best so far, and what may take its place. */
  class Search {
    /** @param {PlanProblem} problem */
    constructor(problem) {
      this.shaped = /** @type {ShapedPlan} */ (shape(problem));
      this.placer = new Placer(this.shaped);
      dropHopeless(this.placer);
      this.least = leastFinish(this.placer);
      this.random = generator(problem.seed);
      this.best = /** @type {PlacedPlan | null} */ (null);
      /** From where the search goes on: as good as the best, and not always the same. */
      this.current = this.best;
    }

    get isBest() {
      return this.best !== null && this.best.finish <= this.least && !this.best.broken.length;
    }

    /** Plan by keys; whether that is better than the best.
     * @param {(placer: any, keys: Int32Array, by: number) => PlacedPlan | null} generate @param {Int32Array} keys */
    consider(generate, keys) {
      if (this.isBest) return false;
      const { best } = this;
      const found = generate(this.placer, keys, best && !best.broken.length ? best.finish : NEVER);
      if (!found) return false;
      const more = best ? found.broken.length - best.broken.length || found.finish - best.finish : -1;
      if (more <= 0) this.current = found;
      if (more < 0) this.best = found;
      return more < 0;
    }

    /** Push the best to the right and pack it again, as long as that helps; of many tasks the first times do most of it. */
    pack() {
      for (let left = this.shaped.count > MANY ? 2 : NEVER; this.best && left > 0 && !this.isBest; left -= 1) {
        if (!this.consider(serial, pushed(this.placer, this.best))) return;
      }
    }

    /** The order gone on from, with some tasks shifted. */
    shifted() {
      const { count } = this.shaped;
      const { order } = /** @type {PlacedPlan} */ (this.current);
      const keys = new Int32Array(count);
      order.forEach((at, turn) => (keys[at] = 4 * turn));
      if (!order.length) return keys;
      const moved = 1 + this.random(Math.max(2, Math.min(6, order.length >> 1)));
      for (let one = 0; one < moved; one += 1) {
        keys[order[this.random(order.length)]] = 4 * this.random(order.length) - 2 + this.random(4);
      }
      return keys;
    }

    /** The longest tails with as much again left to chance. */
    shaken() {
      return this.shaped.tail.map((tail) => -tail * (32 + this.random(96)));
    }

    /** @param {number} passes */
    pass(passes) {
      for (let turn = 0; turn < passes && !this.isBest; turn += 1) {
        const keys = turn % 4 === 3 ? this.shaken() : this.shifted();
        if (this.consider(turn % 3 === 2 ? parallel : serial, keys)) this.pack();
      }
    }
  }

  /** @param {PlanProblem} problem @returns {SchedulePlan} */
  function plan(problem) {
    const search = new Search(problem);
    const { shaped } = search;
    if (problem.previous && problem.previous.length) search.consider(serial, byPrevious(shaped, problem.previous));
    const weighted = tailsOf(shaped, (/** @type {number} */ at) => Math.max(1, shaped.handsOf[at]));
    const rules = [shaped.tail.map((tail, at) => shaped.tasks[at].tail || tail), weighted].map((tails) =>
      tails.map((/** @type {number} */ tail) => -tail)
    );
    if (shaped.due.some((due) => due < NEVER)) rules.unshift(byDue(shaped));
    for (const keys of shaped.count > MANY ? rules.slice(0, 1) : rules) {
      search.consider(serial, keys);
      search.consider(parallel, keys);
    }
    search.pack();
    search.pass(problem.passes);
    return seambook.scheduleTold.told(search.placer, /** @type {PlacedPlan} */ (search.best));
  }

  seambook.schedule = { plan, passesFor };
})();
