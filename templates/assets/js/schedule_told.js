/**
 * What a finished plan tells: its rows, how far each task may slip, the chain that makes the finish and why, and idle time.
 * Touches no page.
 */

/**
 * @typedef {{start: number, end: number, parts: number[][], until: number}} PlanRow
 * @typedef {{task: number, why: string, by: number | null, of: string}} PlanCause
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { NEVER } = seambook.scheduleTime;
  const { WORK, REST } = seambook.scheduleProblem;
  const { pushed } = seambook.scheduleOrder;

  /** @param {ShapedPlan} shaped @param {PlacedPlan} plan @returns {PlanRow[]} */
  function rowsOf(shaped, plan) {
    return Array.from(plan.start, (start, at) => {
      const end = plan.end[at];
      const isParted = shaped.split[at] && !shaped.isDone[at];
      return { start, end, parts: isParted ? shaped.calendar.parts(start, end) : [[start, end]], until: end + shaped.rest[at] };
    });
  }

  /** The span that a claim takes. @param {PlanClaim} claim @param {number} start @param {number} end */
  function spanOf({ span, linger }, start, end) {
    return span === REST ? [end, end + linger] : [start, end + (span === WORK ? 0 : linger)];
  }

  /** Who takes something from when to when, by first minute; and how long the longest of them takes it.
   * @typedef {{spans: {at: number, from: number, to: number}[], longest: number}} PlanHolders */

  /** The holders of each thing that is claimed. @param {any} placer @returns {Map<any, PlanHolders>} */
  function holdersOf(placer) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const found = new Map();
    for (let at = 0; at < shaped.count; at += 1) {
      for (const claim of shaped.holds[at]) {
        const [from, to] = spanOf(claim, placer.start[at], placer.end[at]);
        if (to <= from) continue;
        const known = found.get(claim.profile) || { spans: [], longest: 0 };
        known.spans.push({ at, from, to });
        known.longest = Math.max(known.longest, to - from);
        found.set(claim.profile, known);
      }
    }
    for (const { spans } of found.values()) {
      spans.sort((/** @type {any} */ one, /** @type {any} */ other) => one.from - other.from || one.at - other.at);
    }
    return found;
  }

  /** Of those that take a thing between two minutes, the one that lets go last; of those, one that may slip least.
   * @param {PlanHolders} holders @param {number[]} between @param {number[]} slack @param {number} self */
  function holder({ spans, longest }, between, slack, self) {
    let [low, high] = [0, spans.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (spans[middle].from < between[1]) low = middle + 1;
      else high = middle;
    }
    let [found, latest] = [-1, between[0]];
    for (let turn = low - 1; turn >= 0 && spans[turn].from + longest >= latest; turn -= 1) {
      const { at, to } = spans[turn];
      if (at === self || to <= between[0] || to < latest) continue;
      if (to > latest || slack[at] < slack[found]) [found, latest] = [at, to];
    }
    return found;
  }

  /** The task whose arc binds another to a start. @param {any} placer @param {number} at @param {number} start
   * @param {number[]} slack */
  function arcTo(placer, at, start, slack) {
    let found = -1;
    const { before } = /** @type {ShapedPlan} */ (placer.shaped);
    for (let link = before.from[at]; link < before.from[at + 1]; link += 1) {
      const to = before.to[link];
      if (placer.end[to] + before.lag[link] === start && (found < 0 || slack[to] < slack[found])) found = to;
    }
    return found;
  }

  /** The last start before the present one that hours allow. @param {any} placer @param {number} at */
  function startBefore(placer, at) {
    const { calendar, minutes, attended, split } = /** @type {ShapedPlan} */ (placer.shaped);
    const end = calendar.latestEnd(placer.end[at] - 1, minutes[at], attended[at], split[at]);
    return split[at] ? calendar.startOf(end, minutes[at]) : end - minutes[at];
  }

  /** Why a task starts when it does, and not before. @param {any} placer @param {number} at @param {number[]} slack
   * @param {Map<any, PlanHolders>} holders @returns {PlanCause} */
  function causeOf(placer, at, slack, holders) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const start = placer.start[at];
    const { limitsFrom } = shaped;
    placer.low[at] = shaped.earliest[at];
    const bound = placer.bound(at);
    const before = arcTo(placer, at, bound, slack);
    const from = before < 0 ? null : before;
    if (bound === start) {
      return { task: at, why: from !== null ? "arc" : start === 0 ? "start" : "earliest", by: from, of: "" };
    }
    const last = startBefore(placer, at);
    const isShut = last !== start - 1;
    if (last < bound) return { task: at, why: "hours", by: from, of: "" };
    placer.lift(at);
    const found = blockOf(placer, at, last, slack, holders);
    placer.put(at, start);
    if (found) return { task: at, why: isShut ? "hours" : found.kind, by: found.by, of: found.of };
    let [by, least] = [-1, NEVER];
    for (let link = limitsFrom.from[at]; link < limitsFrom.from[at + 1]; link += 1) {
      const to = limitsFrom.to[link];
      const over = placer.end[at] + limitsFrom.lag[link] - placer.start[to];
      if (over < least) [by, least] = [to, over];
    }
    return { task: at, why: by < 0 ? "order" : "limit", by: by < 0 ? null : by, of: "" };
  }

  /** What stands in the way of a start. @param {any} placer @param {number} at @param {number} start
   * @param {number[]} slack @param {Map<any, PlanHolders>} holders */
  function blockOf(placer, at, start, slack, holders) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const end = placer.endOf(at, start);
    for (const claim of shaped.checks[at]) {
      const span = spanOf(claim, start, end);
      const spans = claim.span === WORK && shaped.split[at] ? shaped.calendar.parts(start, end) : [span];
      for (const [from, to] of spans) {
        const until = claim.profile.blockedUntil(from, to, claim.most);
        if (until === -NEVER) continue;
        const known = holders.get(claim.profile);
        const by = known ? holder(known, [from, Math.min(until, to)], slack, at) : -1;
        return { kind: claim.kind, of: claim.of, by: by < 0 ? null : by };
      }
    }
    return null;
  }

  /** The chain of tasks that makes the finish, each waiting for the one before it. @param {any} placer
   * @param {number} finish @param {number[]} slack @returns {PlanCause[]} */
  function chainOf(placer, finish, slack) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    let at = -1;
    for (let one = 0; one < shaped.count; one += 1) {
      if (placer.end[one] + shaped.rest[one] !== finish || shaped.isDone[one]) continue;
      if (at < 0 || slack[one] < slack[at]) at = one;
    }
    const chain = /** @type {PlanCause[]} */ ([]);
    const holders = holdersOf(placer);
    const seen = new Set();
    while (at >= 0 && !seen.has(at) && !shaped.isDone[at]) {
      seen.add(at);
      const cause = causeOf(placer, at, slack, holders);
      if (cause.by === null || seen.has(cause.by)) {
        // A limit leads back to a task that waits for this one: what holds the two is what came before.
        const before = latestBefore(placer, at, seen);
        cause.by = before < 0 ? null : before;
      }
      chain.push(cause);
      at = cause.by === null ? -1 : cause.by;
    }
    return chain.reverse();
  }

  /** The task that ends last of those before another; none where it starts at its earliest. @param {any} placer @param {number} at
   * @param {Set<number>} seen */
  function latestBefore(placer, at, seen) {
    const { before, earliest } = /** @type {ShapedPlan} */ (placer.shaped);
    let [found, latest] = [-1, earliest[at]];
    for (let link = before.from[at]; link < before.from[at + 1]; link += 1) {
      const to = before.to[link];
      if (seen.has(to) || placer.end[to] + before.lag[link] <= latest) continue;
      [found, latest] = [to, placer.end[to] + before.lag[link]];
    }
    return found;
  }

  /** Hands' minutes in opening hours, from the start to the end of the last work, that nobody needs; and the open minutes
   * in which nobody works at all. @param {ShapedPlan} shaped @param {PlanRow[]} rows */
  function idleOf(shaped, rows) {
    const spans = /** @type {number[][]} */ ([]);
    let [used, last] = [0, 0];
    rows.forEach((row, at) => {
      const mine = row.parts.map((part) => [...part, shaped.handsOf[at]]);
      if (shaped.attended[at] > 0) mine.push([row.end, row.end + shaped.attended[at], 1]);
      for (const [from, to, hands] of mine) {
        if (to <= from || to <= 0) continue;
        used += (to - Math.max(0, from)) * hands;
        if (hands > 0) spans.push([Math.max(0, from), to]);
        last = Math.max(last, to);
      }
    });
    const open = shaped.calendar.between(0, last);
    spans.sort((one, other) => one[0] - other[0]);
    let [busy, reached] = [0, 0];
    for (const [from, to] of spans) {
      busy += Math.max(0, to - Math.max(from, reached));
      reached = Math.max(reached, to);
    }
    return { hands: shaped.hands === null ? 0 : Math.max(0, shaped.hands * open - used), minutes: Math.max(0, open - busy) };
  }

  /** All that is told of a plan. @param {any} placer @param {PlacedPlan} plan */
  function told(placer, plan) {
    const shaped = /** @type {ShapedPlan} */ (placer.shaped);
    const latest = /** @type {Int32Array} */ (pushed(placer, plan));
    const slack = Array.from(latest, (late, at) => (shaped.isDone[at] ? 0 : late - plan.start[at]));
    placer.hold(plan);
    const causes = chainOf(placer, plan.finish, slack);
    const rows = rowsOf(shaped, plan);
    const past = shaped.tasks.map((_, at) => at).filter((at) => shaped.isDone[at]);
    past.sort((one, other) => plan.start[one] - plan.start[other] || one - other);
    const impossible = [...shaped.faults, ...plan.broken].sort((one, other) => one.task - other.task);
    return {
      rows, order: [...past, ...plan.order], finish: plan.finish, critical: causes.map((cause) => cause.task), causes, slack,
      idle: idleOf(shaped, rows), impossible,
    };
  }

  seambook.scheduleTold = { told };
})();
