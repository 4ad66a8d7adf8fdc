/**
 * The steps of one procedure in any order, some left out -> every rule that this order breaks. The twin of
 * builder/check/order.py for what a page is told of a procedure (builder/view/job_procedure.py). What a step must carry
 * by itself is not told: no order changes it but for the holds that readings ask for behind them (see `lastHold`). Pure.
 */

/**
 * @typedef {{rule: string, states: number[], excuse: number[]}} LawAsked
 *   A rule about states: of those needed or owed there is one.
 * @typedef {{
 *   acts: number[], needs: LawAsked[], bans: LawAsked[], owes: LawAsked[], orders: {rule: string, acts: number[], excuse: number[]}[],
 *   spoils: number[], makes: number[]
 * }} LawStep
 * @typedef {{sort: "needs" | "bans" | "order" | "owes", rule: string, at: number, other: number, state: number}} LawBreach
 *   `at` is the step at fault and `other` the one it has to do with, both by their place in the procedure; NOBODY is none.
 * @typedef {{steps: LawStep[], states: number, acts: number, brought: number[], lastHold: number}} LawBook
 *   `lastHold` is the place of the last step that has a hold. A reading asks for one behind it, which only the builder
 *   judges: no step may come to stand on that step's other side.
 * @typedef {{holds: Int16Array, when: Int16Array, spoiled: Int16Array, last: Int16Array, owed: Map<string, {rule: string, state: number, at: number, n: number}>}} LawWalk
 *   Of each state which step made it, as which of all, and which step spoiled it; of each act its last place.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  const NOBODY = -1;
  /** In place of a step's number: the state does not hold. */
  const NOT = -2;

  /** @param {any} data as assets/job/procedure gives it @param {Record<string, any>} wide rules about whoever it may be @returns {LawBook} */
  function open(data, wide) {
    const holds = data.steps.flatMap((/** @type {any} */ step, /** @type {number} */ at) => (step.hold ? [at] : []));
    return {
      steps: data.steps.map((/** @type {any} */ step) => stepOf(step.law || {}, data, wide)),
      states: data.states.length, acts: data.acts.length, brought: data.brought || [],
      lastHold: holds.length ? holds[holds.length - 1] : NOBODY,
    };
  }

  /** @param {any} law @param {any} data @param {Record<string, any>} wide @returns {LawStep} */
  function stepOf(law, data, wide) {
    const asked = (/** @type {any[]} */ list) => once(list).map(([rule, state, ...excuse]) => ({ rule: data.rules[rule], states: [state], excuse }));
    const anywhere = once(law.anywhere).map(([rule, , side, ...excuse]) => {
      const name = data.rules[rule];
      return { rule: name, states: wide[name] ? meant(data.states, wide[name], side) : [], excuse };
    });
    return {
      acts: law.acts || [], needs: asked(law.needs), bans: [...asked(law.bans), ...anywhere], owes: asked(law.owes),
      orders: once(law.orders).map(([rule, acts, ...excuse]) => ({ rule: data.rules[rule], acts, excuse })),
      spoils: [...(law.spoils || []), ...(law.wipes || []).flatMap((/** @type {string} */ name) => named(data.states, name))],
      makes: law.makes || [],
    };
  }

  /** A step on several seams is told the same of each. @param {any[] | undefined} list @returns {any[][]} */
  function once(list) {
    return [...new Map((list || []).map((one) => [JSON.stringify(one), one])).values()];
  }

  /** @param {any[]} states @param {string} name */
  function named(states, name) {
    return states.flatMap((one, at) => (one[0] === name ? [at] : []));
  }

  /** Whose state a rule about whoever it may be means, asked from one side. @param {any[]} states @param {any} rule @param {number} side */
  function meant(states, { state, other_side: across, owners }, side) {
    return named(states, state).filter((at) => {
      const [, owner, sided] = states[at];
      return (!owners || owners.includes(owner)) && (!across || (sided && side && sided !== side));
    });
  }

  /** @param {LawBook} book @param {number[]} order places of steps @returns {LawWalk} */
  function begin(book, order) {
    const walk = {
      holds: new Int16Array(book.states).fill(NOT), when: new Int16Array(book.states).fill(NOBODY),
      spoiled: new Int16Array(book.states).fill(NOT), last: new Int16Array(book.acts).fill(NOBODY), owed: new Map(),
    };
    for (const state of book.brought) walk.holds[state] = NOBODY;
    order.forEach((at, n) => book.steps[at].acts.forEach((act) => (walk.last[act] = n)));
    return walk;
  }

  /**
   * @param {LawBook} book @param {number[]} order places of steps @param {(breach: LawBreach) => boolean} [isEnough] stops the walk
   * @returns {LawBreach[]}
   */
  function judge(book, order, isEnough) {
    const walk = begin(book, order);
    /** @type {LawBreach[]} */
    const found = [];
    for (let n = 0; n < order.length; n += 1) {
      judgeStep(book, walk, order, n, found);
      if (isEnough && found.some(isEnough)) return found;
      apply(walk, book.steps[order[n]], order[n], n);
    }
    for (const { rule, state, at, n } of walk.owed.values()) {
      const isPaid = walk.holds[state] !== NOT && walk.when[state] >= n;
      if (!isPaid) found.push({ sort: "owes", rule, at, other: Math.max(walk.spoiled[state], NOBODY), state });
    }
    return found;
  }

  /** @param {LawWalk} walk @param {number[]} excuse */
  function isExcused({ holds }, excuse) {
    return excuse.length > 0 && excuse.every((state) => holds[state] !== NOT);
  }

  /** @param {LawBook} book @param {LawWalk} walk @param {number[]} order @param {number} n @param {LawBreach[]} found */
  function judgeStep(book, walk, order, n, found) {
    const at = order[n];
    const { needs, bans, orders } = book.steps[at];
    for (const { rule, states: [state], excuse } of needs) {
      if (walk.holds[state] !== NOT || isExcused(walk, excuse)) continue;
      const other = walk.spoiled[state] === NOT ? doerAhead(order, n, (one) => book.steps[one].makes.includes(state)) : walk.spoiled[state];
      found.push({ sort: "needs", rule, at, other, state });
    }
    for (const { rule, states, excuse } of bans) {
      const state = states.find((one) => walk.holds[one] !== NOT);
      if (state !== undefined && !isExcused(walk, excuse)) found.push({ sort: "bans", rule, at, other: walk.holds[state], state });
    }
    for (const { rule, acts, excuse } of orders) {
      if (!acts.some((act) => walk.last[act] > n) || isExcused(walk, excuse)) continue;
      const other = doerAhead(order, n + 1, (one) => book.steps[one].acts.some((act) => acts.includes(act)));
      found.push({ sort: "order", rule, at, other, state: NOBODY });
    }
  }

  /** The next step from a place on that does it. @param {number[]} order @param {number} from @param {(at: number) => boolean} does */
  function doerAhead(order, from, does) {
    for (let n = from; n < order.length; n += 1) if (does(order[n])) return order[n];
    return NOBODY;
  }

  /** Let a step owe what it owes, spoil what it spoils, then make what it makes. @param {LawWalk} walk @param {LawStep} step @param {number} at @param {number} n */
  function apply(walk, step, at, n) {
    for (const { rule, states: [state], excuse } of step.owes) {
      if (!isExcused(walk, excuse)) walk.owed.set(`${rule} ${state}`, { rule, state, at, n });
    }
    for (const state of step.spoils) {
      if (walk.holds[state] === NOT) continue;
      walk.holds[state] = NOT;
      walk.spoiled[state] = at;
    }
    for (const state of step.makes) {
      walk.holds[state] = at;
      walk.when[state] = n;
    }
  }

  seambook.questionLaw = { open, judge, NOBODY };
})();
