/**
 * Where a job stands while its steps are put in order: which states hold, who made or spoiled them, what is owed, and
 * whether a chain's next step may be done now. The twin of builder/check/order.py, for several chains at once.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{kind: string, rule: string, state: number, by: string}} Reason
   *   Why a step may not be done now: `by` is the step that it has to do with.
   * @typedef {{by: string, n: number}} Mark
   *   A step, and as which of all it was done.
   */

  /** In place of a step: brought along by a procedure that is not in this job. @type {Mark} */
  const BROUGHT = { by: "", n: 0 };

  /** A state that comes back within so many of the chain's own steps hinders the others no longer than these take. */
  const SOON = 4;

  /** @type {{level: number, reason: Reason | null}} */
  const NOBODY = { level: 0, reason: null };

  /** @param {any[]} chains */
  function open(chains) {
    /** @type {Map<number, Mark>} */
    const holds = new Map();
    for (const chain of chains) for (const state of chain.brought) holds.set(state, BROUGHT);
    return {
      chains, holds, spoiled: new Map(), owed: new Map(), at: chains.map(() => 0), count: 0,
      last: chains.map((chain) => lastOf(chain.steps)),
    };
  }

  /** Of each act on each subject the last place in a chain. @param {any[]} steps @returns {Map<number, number>} */
  function lastOf(steps) {
    const last = new Map();
    for (const step of steps) for (const act of step.acts) last.set(act, step.at);
    return last;
  }

  /** The first place in a rising list that is not before another. @param {number[] | undefined} list @param {number} from */
  function nextAt(list, from) {
    if (!list) return Infinity;
    let low = 0;
    let high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (list[middle] < from) low = middle + 1;
      else high = middle;
    }
    return low < list.length ? list[low] : Infinity;
  }

  /** @param {any} walk @param {number[]} excuse */
  function isExcused(walk, excuse) {
    return excuse.length > 0 && excuse.every((state) => walk.holds.has(state));
  }

  /** The first rule that a step would break now, or null. @param {any} walk @param {any} step @returns {Reason | null} */
  function broken(walk, step) {
    for (const { rule, state, excuse } of step.needs) {
      if (!walk.holds.has(state) && !isExcused(walk, excuse)) {
        return { kind: "needs", rule, state, by: walk.spoiled.get(state) || makerAhead(walk, state, step) };
      }
    }
    for (const { rule, state, excuse } of step.bans) {
      if (walk.holds.has(state) && !isExcused(walk, excuse)) return { kind: "bans", rule, state, by: walk.holds.get(state).by };
    }
    for (const { rule, states, excuse } of step.anywhere) {
      const held = states.find((/** @type {number} */ state) => walk.holds.has(state));
      if (held !== undefined && !isExcused(walk, excuse)) return { kind: "bans", rule, state: held, by: walk.holds.get(held).by };
    }
    for (const { rule, acts, excuse } of step.orders) {
      const later = actAhead(walk, acts, step.chain);
      if (later && !isExcused(walk, excuse)) return { kind: "order", rule, state: -1, by: later };
    }
    return null;
  }

  /** A step still to come that makes a state, other chains first. @param {any} walk @param {number} state @param {any} step */
  function makerAhead(walk, state, step) {
    let own = "";
    for (let n = 0; n < walk.chains.length; n += 1) {
      const at = nextAt(walk.chains[n].makeAt.get(state), walk.at[n]);
      if (at === Infinity) continue;
      if (n !== step.chain) return walk.chains[n].steps[at].id;
      own = walk.chains[n].steps[at].id;
    }
    return own;
  }

  /** A step of another chain still to come that does one of these acts. @param {any} walk @param {number[]} acts @param {number} own */
  function actAhead(walk, acts, own) {
    for (let n = 0; n < walk.chains.length; n += 1) {
      if (n === own || walk.at[n] >= walk.chains[n].steps.length) continue;
      for (const act of acts) {
        const at = walk.last[n].get(act);
        if (at !== undefined && at >= walk.at[n]) return walk.chains[n].steps[at].id;
      }
    }
    return "";
  }

  /**
   * Whom it would leave without what they need, or with what they may not find: 0 nobody, 1 until another step mends it, 2 for
   * good.
   * @param {any} walk @param {any} step @returns {{level: number, reason: Reason | null}}
   */
  function hindrance(walk, step) {
    let found = NOBODY;
    for (const state of step.spoils) {
      if (!walk.holds.has(state) || step.makes.includes(state)) continue;
      found = worse(found, hinders(walk, step, state, "needAt", "makeAt"));
      found = worse(found, paid(walk, step, state) || NOBODY);
    }
    for (const state of step.makes) {
      if (!walk.holds.has(state)) found = worse(found, hinders(walk, step, state, "banAt", "spoilAt"));
    }
    return found;
  }

  /** Whether a state settles what is owed, and no step to come would settle it again. @param {any} walk @param {any} step @param {number} state */
  function paid(walk, step, state) {
    const { n } = walk.holds.get(state);
    const debt = [...walk.owed.values()].find((one) => one.state === state && one.n <= n);
    if (!debt || nextAt(walk.chains[step.chain].makeAt.get(state), step.at) !== Infinity) return null;
    if (mendedElsewhere(walk, step.chain, state, "makeAt")) return null;
    return { level: 2, reason: { kind: "spoils", rule: debt.rule, state, by: debt.by } };
  }

  /** What is still owed. @param {any} walk @returns {Reason[]} */
  function owing(walk) {
    return [...walk.owed.values()]
      .filter(({ state, n }) => !walk.holds.has(state) || walk.holds.get(state).n < n)
      .map(({ rule, state, by }) => ({ kind: "owes", rule, state, by }));
  }

  /** @template {{level: number}} T @param {T} one @param {T} other */
  function worse(one, other) {
    return other.level > one.level ? other : one;
  }

  /** @param {any} walk @param {any} step @param {number} state @param {"needAt" | "banAt"} asks @param {"makeAt" | "spoilAt"} mends */
  function hinders(walk, step, state, asks, mends) {
    const own = walk.chains[step.chain];
    const back = nextAt(own[mends].get(state), step.at + 1);
    if (back - step.at <= SOON) return NOBODY;
    for (let n = 0; n < walk.chains.length; n += 1) {
      if (n === step.chain) continue;
      const chain = walk.chains[n];
      const asked = nextAt(chain[asks].get(state), walk.at[n]);
      if (asked === Infinity || nextAt(chain[mends].get(state), walk.at[n]) < asked) continue;
      if (step.shared && chain.steps[asked].shared === step.shared) continue; // it is done for that one, too
      const mended = back !== Infinity || mendedElsewhere(walk, n, state, mends);
      const asking = chain.steps[asked];
      const kind = asks === "needAt" ? "spoils" : "makes";
      return { level: mended ? 1 : 2, reason: { kind, rule: ruleOf(asking, state), state, by: asking.id } };
    }
    return NOBODY;
  }

  /** @param {any} walk @param {number} but @param {number} state @param {"makeAt" | "spoilAt"} mends */
  function mendedElsewhere(walk, but, state, mends) {
    return walk.chains.some((/** @type {any} */ chain, /** @type {number} */ n) =>
      n !== but && nextAt(chain[mends].get(state), walk.at[n]) !== Infinity);
  }

  /** By which rule a step asks about a state. @param {any} step @param {number} state */
  function ruleOf(step, state) {
    const found = [...step.needs, ...step.bans].find((one) => one.state === state)
      || step.anywhere.find((/** @type {any} */ one) => one.states.includes(state));
    return found ? found.rule : "";
  }

  /** Let a step do what it does; returns what takes it back. @param {any} walk @param {any} step @returns {() => void} */
  function apply(walk, step) {
    /** @type {[Map<any, any>, any, any][]} */
    const before = [];
    walk.count += 1;
    const set = (/** @type {Map<any, any>} */ map, /** @type {any} */ key, /** @type {any} */ value) => {
      before.push([map, key, map.get(key)]);
      if (value === undefined) map.delete(key);
      else map.set(key, value);
    };
    for (const { rule, state, excuse } of step.owes) {
      if (!isExcused(walk, excuse)) set(walk.owed, `${rule} ${state}`, { rule, state, by: step.id, n: walk.count });
    }
    for (const state of step.spoils) {
      if (!walk.holds.has(state)) continue;
      set(walk.holds, state, undefined);
      set(walk.spoiled, state, step.id);
    }
    for (const state of step.makes) set(walk.holds, state, { by: step.id, n: walk.count });
    return () => {
      walk.count -= 1;
      for (const [map, key, value] of before.reverse()) {
        if (value === undefined) map.delete(key);
        else map.set(key, value);
      }
    };
  }

  seambook.mergeWalk = { open, broken, hindrance, apply, owing, nextAt, isExcused, ruleOf };
})();
