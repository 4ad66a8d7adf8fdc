/**
 * Of one procedure a few steps whose order matters: put in any order into their own places, exactly those orders break
 * no rule that keep certain steps before others, and each of these pairs has a rule to say why. Pure.
 */

/**
 * @typedef {{before: number, after: number, rule: string}} Keep  By this rule one step stays before another; both by their place.
 * @typedef {{places: number[], keeps: Keep[]}} Ordered  Some steps in their own order, and what any right order of them keeps.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** So many steps on one step may be asked together with it: what lies further apart is hard to see as one piece of work. */
  const NEAR = 12;
  const LEAST = 4;
  const MOST = 5;
  const LEAST_FORCED = 3;
  const TRIES = 30;
  /** Every order of so many tries is judged: that takes a phone its time. */
  const WHOLE = 5;

  /** @type {WeakMap<AskedProcedure, [number, number][]>} */
  const known = new WeakMap();

  /** Pairs of steps that break a rule about each other when they change places. @param {AskedProcedure} procedure @returns {[number, number][]} */
  function pairsOf(procedure) {
    const found = known.get(procedure);
    if (found) return found;
    /** @type {[number, number][]} */
    const pairs = [];
    procedure.own.forEach((one) => {
      for (let other = one + 1; other < procedure.own.length && other <= one + NEAR; other += 1) {
        if (reason(procedure, one, other, put(procedure.own, [one, other], [other, one]))) pairs.push([one, other]);
      }
    });
    known.set(procedure, pairs);
    return pairs;
  }

  /** The rule about just these two that an order breaks, where the second stands before the first. @param {AskedProcedure} procedure @param {number} one @param {number} other @param {number[]} order */
  function reason(procedure, one, other, order) {
    const { steps } = procedure.law;
    const found = procedure.fresh(order).find((breach) =>
      (breach.at === one && breach.other === other) || (breach.at === other && breach.other === one)
      || (breach.sort === "owes" && breach.at === one && steps[other].makes.includes(breach.state)));
    return found ? found.rule : "";
  }

  /** @param {number[]} own @param {number[]} places @param {number[]} steps which go there, in this order */
  function put(own, places, steps) {
    const order = own.slice();
    places.forEach((place, n) => (order[place] = steps[n]));
    return order;
  }

  /** @param {number[]} list @returns {number[][]} */
  function orders(list) {
    if (list.length < 2) return [list];
    return list.flatMap((one, n) => orders([...list.slice(0, n), ...list.slice(n + 1)]).map((rest) => [one, ...rest]));
  }

  /** @param {number[]} order @param {number} one @param {number} other */
  function stands(order, one, other) {
    return order.indexOf(one) < order.indexOf(other);
  }

  /** Some steps near each other, grown along pairs that matter. @param {Asked} asked @param {Chance} chance @returns {number[]} */
  function gather({ procedure, isMeant }, chance) {
    const meant = (/** @type {number} */ at) => isMeant(procedure.steps[at]);
    const pairs = pairsOf(procedure).filter(([one, other]) => meant(one) && meant(other));
    if (!pairs.length) return [];
    const [first, second] = chance.pick(pairs);
    const found = new Set([first, second]);
    const count = LEAST + chance.below(MOST - LEAST + 1);
    const near = procedure.own.filter((at) => Math.abs(at - first) <= NEAR && meant(at));
    for (let n = 0; n < TRIES && found.size < count; n += 1) {
      const beside = pairs.filter(([one, other]) => found.has(one) !== found.has(other) && near.includes(one) && near.includes(other));
      if (beside.length && chance.below(4)) chance.pick(beside).forEach((at) => found.add(at));
      else found.add(chance.pick(near));
    }
    return [...found].sort((one, other) => one - other);
  }

  /** Whether a reader can tell these steps apart, and none of them can come to stand beyond the last hold. @param {AskedProcedure} procedure @param {number[]} places */
  function isFit({ steps, law }, places) {
    const isApart = new Set(places.map((at) => steps[at].do)).size === places.length;
    const isOneSide = places.every((at) => at < law.lastHold) || places.every((at) => at > law.lastHold);
    return places.length >= LEAST && isApart && isOneSide;
  }

  /**
   * Whether these steps may do, as far as it is quickly seen: enough of them may not change places with another, and of
   * each two that follow each other a rule says why they may not. @param {AskedProcedure} procedure @param {number[]} places
   */
  function mayDo(procedure, places) {
    const swapped = places.flatMap((one, n) => places.slice(n + 1).map((other) => ({ one, other, isNext: other === places[n + 1], order: put(procedure.own, [one, other], [other, one]) })));
    const bound = swapped.filter(({ order }) => procedure.fresh(order, true).length);
    return bound.length >= LEAST_FORCED && bound.every(({ one, other, isNext, order }) => !isNext || reason(procedure, one, other, order));
  }

  /** What all right orders of some steps keep; null where that does not say which orders are right. @param {AskedProcedure} procedure @param {number[]} places @returns {Ordered | null} */
  function judged(procedure, places) {
    const all = orders(places);
    const right = all.filter((order) => !procedure.fresh(put(procedure.own, places, order), true).length);
    const forced = places.flatMap((one, n) => places.slice(n + 1).flatMap((other) =>
      (right.every((order) => stands(order, one, other)) ? [[one, other]] : [])));
    if (forced.length < LEAST_FORCED) return null;
    if (all.filter((order) => forced.every(([one, other]) => stands(order, one, other))).length !== right.length) return null;
    const next = forced.filter(([one, other]) => !forced.some(([from, to]) => from === one && forced.some((then) => then[0] === to && then[1] === other)));
    const keeps = next.map(([before, after]) => ({ before, after, rule: reason(procedure, before, after, put(procedure.own, places, turned(right, before, after))) }));
    return keeps.every(({ rule }) => rule) ? { places, keeps } : null;
  }

  /** A right order but for these two, which stand side by side. @param {number[][]} right @param {number} before @param {number} after */
  function turned(right, before, after) {
    const order = right.find((one) => one.indexOf(after) === one.indexOf(before) + 1) || right[0];
    return order.map((one) => (one === before ? after : one === after ? before : one));
  }

  /** @type {Map<string, Ordered | null>} */
  const sets = new Map();

  /** Where so many sets fail the rules bind these steps too little, and no more is tried. */
  const FAILED = 4;

  /** The steps of this number, the same for whoever asks. @param {Asked} asked @param {number} number @returns {Ordered | null} */
  function setOf(asked, number) {
    const { procedure, isMeant } = asked;
    const meant = procedure.own.filter((at) => isMeant(procedure.steps[at]));
    const name = `${procedure.id} ${meant[0]} ${meant.length} ${number}`;
    const found = sets.get(name);
    if (found !== undefined) return found;
    const chance = seambook.questionChance.of(name);
    const isHopeless = number >= FAILED && Array.from({ length: FAILED }, (_, n) => setOf(asked, n)).every((one) => one === null);
    let set = null;
    for (let n = 0, whole = 0; n < TRIES && whole < WHOLE && !set && !isHopeless; n += 1) {
      const places = gather(asked, chance);
      if (!places.length) break;
      if (!isFit(procedure, places) || !mayDo(procedure, places)) continue;
      set = judged(procedure, places);
      whole += 1;
    }
    sets.set(name, set);
    return set;
  }

  seambook.questionPairs = { setOf, stands };
})();
