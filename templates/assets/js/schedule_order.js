/**
 * From a key for each task, the least first, to a plan: serial, parallel, and pushed to the right. Touches no page.
 */

/** @typedef {{finish: number, broken: PlanFault[], start: number[], end: number[], order: number[]}} PlacedPlan */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { NEVER } = seambook.scheduleTime;

  /** Numbers with the least first: a heap of things by their key, then by their own number. */
  class Queue {
    /** @param {number[]} keys */
    constructor(keys) {
      this.keys = keys;
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
   * @param {number[]} members @param {number[]} keys */
  function withinBlock(shaped, members, keys) {
    if (members.length === 1) return members;
    const block = shaped.blockOf[members[0]];
    const open = new Map();
    const queue = new Queue(keys);
    for (const at of members) {
      const count = shaped.before[at].filter(({ to }) => shaped.blockOf[to] === block).length;
      open.set(at, count);
      if (!count) queue.push(at);
    }
    const order = /** @type {number[]} */ ([]);
    while (queue.heap.length) {
      const at = queue.pop();
      order.push(at);
      for (const { to } of shaped.after[at]) {
        if (shaped.blockOf[to] !== block) continue;
        open.set(to, open.get(to) - 1);
        if (open.get(to) === 0) queue.push(to);
      }
    }
    return order;
  }

  /** Put a block down; whether the plan may still end by a minute. @param {any} placer @param {number} block
   * @param {number[]} keys @param {number} by */
  function putDown(placer, block, keys, by) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { members, byDue } = shaped.blocks[block];
    if (members.length === 1) placer.putAlone(members[0]);
    else placer.putBlock(withinBlock(shaped, members, keys), byDue);
    for (const at of members) if (placer.start[at] + shaped.tail[at] > by) return false;
    return true;
  }

  /** The least key of each block. @param {ShapedPlan} shaped @param {number[]} keys */
  function blockKeys(shaped, keys) {
    return shaped.blocks.map(({ members }) => members.reduce((least, at) => Math.min(least, keys[at]), keys[members[0]]));
  }

  /** What a placer holds now, as a plan. @param {any} placer @returns {PlacedPlan} */
  function placed(placer) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    let finish = 0;
    for (let at = 0; at < shaped.count; at += 1) finish = Math.max(finish, placer.end[at] + shaped.rest[at]);
    return { finish, broken: placer.broken, start: placer.start.slice(), end: placer.end.slice(), order: placer.order };
  }

  /** Serial: one block after the other in the order of the keys, each at its earliest. Null where it cannot end by a
   * minute. @param {any} placer @param {number[]} keys @param {number} by @returns {PlacedPlan | null} */
  function serial(placer, keys, by) {
    placer.rewind();
    const { blocks } = placer.shaped;
    const queue = new Queue(blockKeys(placer.shaped, keys));
    const open = blocks.map((/** @type {PlanBlock} */ block) => block.before.length);
    blocks.forEach((/** @type {PlanBlock} */ _, /** @type {number} */ at) => open[at] || queue.push(at));
    while (queue.heap.length) {
      const block = queue.pop();
      if (!putDown(placer, block, keys, by)) return null;
      for (const next of blocks[block].after) if ((open[next] -= 1) === 0) queue.push(next);
    }
    return placed(placer);
  }

  /** Parallel: always the block that can start first, by key among those that can at the same time.
   * @param {any} placer @param {number[]} keys @param {number} by @returns {PlacedPlan | null} */
  function parallel(placer, keys, by) {
    placer.rewind();
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const { blocks } = shaped;
    const own = blockKeys(shaped, keys);
    const lead = blocks.map(({ members }) => withinBlock(shaped, members, keys)[0]);
    const first = blocks.map(() => 0);
    const open = blocks.map((block) => block.before.length);
    const ready = blocks.map((_, at) => at).filter((at) => !open[at]);
    for (const block of ready) first[block] = placer.bound(lead[block]);
    while (ready.length) {
      let best = 0;
      for (let turn = 1; turn < ready.length; turn += 1) {
        const [one, other] = [ready[turn], ready[best]];
        if (first[one] < first[other] || (first[one] === first[other] && own[one] < own[other])) best = turn;
      }
      const block = ready[best];
      const start = placer.earliest(lead[block], first[block]);
      if (start > first[block]) {
        // Others may be first now: what stands here is only known to be no later.
        first[block] = start;
        continue;
      }
      ready[best] = ready[ready.length - 1];
      ready.pop();
      if (!putDown(placer, block, keys, by)) return null;
      for (const next of blocks[block].after) {
        if ((open[next] -= 1) > 0) continue;
        first[next] = placer.bound(lead[next]);
        ready.push(next);
      }
    }
    return placed(placer);
  }

  /** The latest start of each task, from the last back, with those after it already as late as they can be and those
   * before it where they are. The placer must hold the plan. @param {any} placer @param {number} finish */
  function pushed(placer, finish) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const open = shaped.after.map((links) => links.length);
    const queue = new Queue(placer.end.map((/** @type {number} */ end) => -end));
    for (let at = 0; at < shaped.count; at += 1) if (!shaped.isDone[at] && !open[at]) queue.push(at);
    while (queue.heap.length) {
      const at = queue.pop();
      let by = finish - shaped.rest[at];
      for (const { to, lag } of shaped.after[at]) by = Math.min(by, placer.start[to] - lag);
      let start = shaped.due[at];
      for (const { to, lag } of shaped.limitsTo[at]) start = Math.min(start, placer.end[to] + lag);
      if (start < NEVER && shaped.split[at]) start = shaped.calendar.lastOpen(start);
      if (start < NEVER) by = Math.min(by, placer.endOf(at, Math.max(start, placer.start[at])));
      placer.lift(at);
      placer.put(at, placer.latest(at, by));
      for (const { to } of shaped.before[at]) if ((open[to] -= 1) === 0) queue.push(to);
    }
    return /** @type {number[]} */ (placer.start.slice());
  }

  seambook.scheduleOrder = { serial, parallel, pushed, placed, withinBlock };
})();
