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
   *   A rule of level warning forbids nothing: it is told by `isMild`, and something else is done first where it can be.
   * @typedef {{by: string, n: number}} Mark
   *   A step, and as which of all it was done.
   */

  /** In place of a step: brought along by a procedure that is not in this job. @type {Mark} */
  const BROUGHT = { by: "", n: 0 };

  /** A state that comes back within so many of the chain's own steps hinders the others no longer than these take. */
  const SOON = 4;

  /** @type {{level: number, reason: Reason | null}} */
  const NOBODY = { level: 0, reason: null };

  /** @param {any[]} chains @param {Set<string>} mild rules that warn and forbid nothing */
  function open(chains, mild) {
    /** @type {Map<number, Mark>} */
    const holds = new Map();
    for (const chain of chains) for (const state of chain.brought) holds.set(state, BROUGHT);
    return {
      chains, mild, holds, spoiled: new Map(), owed: new Map(), at: chains.map(() => 0), count: 0,
      last: chains.map((chain) => lastOf(chain.steps)), shared: new Map(), onward: chains.map((_, n) => onwardOf(chains, n)),
    };
  }

  /** The chains that go on from one. The builder has judged these one after the other. @param {any[]} chains @param {number} n @returns {Set<number>} */
  function onwardOf(chains, n) {
    const found = new Set([n]);
    for (let size = 0; size < found.size;) {
      size = found.size;
      chains.forEach((chain, at) => chain.after.some((/** @type {number} */ one) => found.has(one)) && found.add(at));
    }
    return found;
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

  /** The first rule that a step would break now: one that forbids before one that warns; or null. @param {any} walk @param {any} step @returns {Reason | null} */
  function broken(walk, step) {
    const found = breaches(walk, step);
    return found.find(({ rule }) => !walk.mild.has(rule)) || found[0] || null;
  }

  /** @param {any} walk @param {any} step @returns {Reason[]} */
  function breaches(walk, step) {
    const { holds } = walk;
    /** @type {Reason[]} */
    const found = [];
    for (const { rule, state, excuse } of step.needs) {
      if (holds.has(state) || isExcused(walk, excuse)) continue;
      found.push({ kind: "needs", rule, state, by: walk.spoiled.get(state) || makerAhead(walk, state, step) });
    }
    for (const { rule, state, excuse } of step.bans) {
      if (holds.has(state) && !isExcused(walk, excuse)) found.push({ kind: "bans", rule, state, by: holds.get(state).by });
    }
    for (const { rule, states, excuse } of step.anywhere) {
      const held = states.find((/** @type {number} */ state) => holds.has(state));
      if (held !== undefined && !isExcused(walk, excuse)) found.push({ kind: "bans", rule, state: held, by: holds.get(held).by });
    }
    for (const { rule, acts, excuse } of step.orders) {
      const later = actAhead(walk, acts, step);
      if (later && !isExcused(walk, excuse)) found.push({ kind: "order", rule, state: -1, by: later });
    }
    return found;
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

  /** A step of another chain still to come that does one of these acts. @param {any} walk @param {number[]} acts @param {any} step */
  function actAhead(walk, acts, step) {
    for (let n = 0; n < walk.chains.length; n += 1) {
      if (walk.onward[step.chain].has(n) || walk.at[n] >= walk.chains[n].steps.length) continue;
      for (const act of acts) {
        const at = walk.last[n].get(act);
        if (at === undefined || at < walk.at[n]) continue;
        const later = walk.chains[n].steps[at];
        if (!later.shared || !walk.shared.has(later.shared)) return later.id;
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
      if (walk.onward[step.chain].has(n)) continue;
      const chain = walk.chains[n];
      const asked = nextAt(chain[asks].get(state), walk.at[n]);
      if (asked === Infinity || nextAt(chain[mends].get(state), walk.at[n]) < asked) continue;
      if (step.shared && chain.steps[asked].shared === step.shared) continue; // it is done for that one, too
      const asking = chain.steps[asked];
      const mended = back !== Infinity || mendedElsewhere(walk, n, state, mends) || mayBeExcused(asking, state);
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

  /** Whether a step to come of another chain would let a blocked step go on. @param {any} walk @param {any} step @param {Reason} reason */
  function mends(walk, step, reason) {
    if (reason.state < 0) return false;
    return mendedElsewhere(walk, step.chain, reason.state, reason.kind === "needs" ? "makeAt" : "spoilAt");
  }

  /** Whether something may excuse a step from what it asks of a state. @param {any} step @param {number} state */
  function mayBeExcused(step, state) {
    return [...step.needs, ...step.bans].some((one) => one.state === state && one.excuse.length > 0);
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

  seambook.mergeWalk = { open, broken, hindrance, apply, owing, mends };
})();
