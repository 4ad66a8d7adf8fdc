/**
 * From a key for each task, the least first, to a plan: serial, parallel, and pushed to the right. Touches no page.
 */

/** @typedef {{finish: number, broken: PlanFault[], start: Int32Array, end: Int32Array, order: number[],
 *   latest?: Int32Array}} PlacedPlan */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { NEVER } = seambook.scheduleTime;

  /** Numbers with the least first: a heap of things by their key, then by their own number. */
  class Queue {
    /** @param {ArrayLike<number>} keys */
    constructor(keys) {
      this.keys = new Float64Array(keys);
      /** @type {number[]} */
      this.heap = [];
    }

    /** @param {number} one @param {number} other */
    isBefore(one, other) {
      return this.keys[one] !== this.keys[other] ? this.keys[one] < this.keys[other] : one < other;
    }

    /** @param {number} thing */
    push(thing) {
      const heap = this.heap;
      let at = heap.push(thing) - 1;
      while (at > 0) {
        const above = (at - 1) >> 1;
        if (!this.isBefore(thing, heap[above])) break;
        heap[at] = heap[above];
        at = above;
      }
      heap[at] = thing;
    }

    /** @returns {number} */
    pop() {
      const heap = this.heap;
      const top = heap[0];
      const last = Number(heap.pop());
      if (!heap.length) return top;
      let at = 0;
      for (;;) {
        let below = 2 * at + 1;
        if (below >= heap.length) break;
        if (below + 1 < heap.length && this.isBefore(heap[below + 1], heap[below])) below += 1;
        if (!this.isBefore(heap[below], last)) break;
        heap[at] = heap[below];
        at = below;
      }
      heap[at] = last;
      return top;
    }
  }

  /** The members of a block in an order that keeps its arcs, the least key first. @param {ShapedPlan} shaped
   * @param {number[]} members @param {Int32Array} keys */
  function withinBlock(shaped, members, keys) {
    if (members.length === 1) return members;
    const { before, after, blockOf } = shaped;
    const block = blockOf[members[0]];
    const open = new Map();
    const queue = new Queue(keys);
    for (const at of members) {
      let count = 0;
      for (let link = before.from[at]; link < before.from[at + 1]; link += 1) count += blockOf[before.to[link]] === block ? 1 : 0;
      open.set(at, count);
      if (!count) queue.push(at);
    }
    const order = /** @type {number[]} */ ([]);
    while (queue.heap.length) {
      const at = queue.pop();
      order.push(at);
      for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
        const to = after.to[link];
        if (blockOf[to] !== block) continue;
        open.set(to, open.get(to) - 1);
        if (open.get(to) === 0) queue.push(to);
      }
    }
    return order;
  }

  /** Put a block down; whether the plan may still end by a minute. @param {any} placer @param {number} block
   * @param {Int32Array} keys @param {number} by */
  function putDown(placer, block, keys, by) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { members, byDue } = shaped.blocks[block];
    if (members.length === 1) {
      const at = members[0];
      placer.putAlone(at);
      return placer.start[at] + shaped.tail[at] <= by;
    }
    placer.putBlock(withinBlock(shaped, members, keys), byDue);
    for (const at of members) if (placer.start[at] + shaped.tail[at] > by) return false;
    return true;
  }

  /** The least key of each block. @param {ShapedPlan} shaped @param {Int32Array} keys */
  function blockKeys(shaped, keys) {
    const found = new Int32Array(shaped.blocks.length);
    for (let block = 0; block < found.length; block += 1) {
      const { members } = shaped.blocks[block];
      let least = keys[members[0]];
      for (let turn = 1; turn < members.length; turn += 1) least = Math.min(least, keys[members[turn]]);
      found[block] = least;
    }
    return found;
  }

  /** What a placer holds now, as a plan. @param {any} placer @returns {PlacedPlan} */
  function placed(placer) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    let finish = 0;
    for (let at = 0; at < shaped.count; at += 1) finish = Math.max(finish, placer.end[at] + shaped.rest[at]);
    placer.held = { finish, broken: placer.broken, start: placer.start.slice(), end: placer.end.slice(), order: placer.order };
    return placer.held;
  }

  /** Serial: one block after the other in the order of the keys, each at its earliest. Null where it cannot end by a
   * minute. @param {any} placer @param {Int32Array} keys @param {number} by @returns {PlacedPlan | null} */
  function serial(placer, keys, by) {
    placer.rewind();
    const { blocks } = placer.shaped;
    const queue = new Queue(blockKeys(placer.shaped, keys));
    const open = new Int32Array(blocks.length);
    for (let at = 0; at < blocks.length; at += 1) {
      open[at] = blocks[at].before;
      if (!open[at]) queue.push(at);
    }
    while (queue.heap.length) {
      const block = queue.pop();
      if (!putDown(placer, block, keys, by)) return null;
      for (const next of blocks[block].after) if ((open[next] -= 1) === 0) queue.push(next);
    }
    return placed(placer);
  }

  /** Parallel: always the block that can start first, by key among those that can at the same time.
   * @param {any} placer @param {Int32Array} keys @param {number} by @returns {PlacedPlan | null} */
  function parallel(placer, keys, by) {
    placer.rewind();
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { blocks } = shaped;
    const own = blockKeys(shaped, keys);
    const lead = new Int32Array(blocks.length);
    const open = new Int32Array(blocks.length);
    for (let at = 0; at < blocks.length; at += 1) {
      lead[at] = withinBlock(shaped, blocks[at].members, keys)[0];
      open[at] = blocks[at].before;
    }
    const turns = own.map((_, at) => at).sort((one, other) => own[one] - own[other] || one - other);
    const rank = new Int32Array(blocks.length);
    turns.forEach((at, turn) => (rank[at] = turn));
    const first = new Int32Array(blocks.length);
    const ready = new Queue(first);
    /** @param {number} block @param {number} start */
    const wait = (block, start) => {
      first[block] = start;
      ready.keys[block] = start * blocks.length + rank[block];
      ready.push(block);
    };
    for (let at = 0; at < blocks.length; at += 1) if (!open[at]) wait(at, placer.bound(lead[at]));
    while (ready.heap.length) {
      const block = ready.pop();
      const start = placer.earliest(lead[block], first[block]);
      if (start > first[block]) {
        // Others may be first now: what stands in the queue is only known to be no later.
        wait(block, start);
        continue;
      }
      if (!putDown(placer, block, keys, by)) return null;
      for (const next of blocks[block].after) if ((open[next] -= 1) === 0) wait(next, placer.bound(lead[next]));
    }
    return placed(placer);
  }

  /** The latest start of each task of a plan, from the last back, with those after it already as late as they can be and
   * those before it where they are. @param {any} placer @param {PlacedPlan} plan @returns {Int32Array} */
  function pushed(placer, plan) {
    if (plan.latest) return plan.latest;
    placer.hold(plan);
    placer.held = null;
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { before, after } = shaped;
    const open = new Int32Array(shaped.count);
    for (let at = 0; at < shaped.count; at += 1) open[at] = after.from[at + 1] - after.from[at];
    const queue = new Queue(plan.end.map((end) => -end));
    for (let at = 0; at < shaped.count; at += 1) if (!shaped.isDone[at] && !open[at]) queue.push(at);
    while (queue.heap.length) {
      const at = queue.pop();
      placer.lift(at);
      placer.put(at, placer.latest(at, latestEnd(placer, at, plan.finish)));
      for (let link = before.from[at]; link < before.from[at + 1]; link += 1) {
        const to = before.to[link];
        if ((open[to] -= 1) === 0) queue.push(to);
      }
    }
    plan.latest = /** @type {Int32Array} */ (placer.start.slice());
    return plan.latest;
  }

  /** The latest end that arcs, limits and the finish leave a task. @param {any} placer @param {number} at
   * @param {number} finish */
  function latestEnd(placer, at, finish) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { after, limitsTo } = shaped;
    let by = finish - shaped.rest[at];
    for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
      by = Math.min(by, placer.start[after.to[link]] - after.lag[link]);
    }
    let start = shaped.due[at];
    for (let link = limitsTo.from[at]; link < limitsTo.from[at + 1]; link += 1) {
      start = Math.min(start, placer.end[limitsTo.to[link]] + limitsTo.lag[link]);
    }
    if (start >= NEVER) return by;
    if (shaped.split[at]) start = shaped.calendar.lastOpen(start);
    return Math.min(by, placer.endOf(at, Math.max(start, placer.start[at])));
  }

  seambook.scheduleOrder = { serial, parallel, pushed, placed, withinBlock };
})();
