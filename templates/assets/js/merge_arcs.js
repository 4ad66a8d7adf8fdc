/**
 * Steps in one lawful order -> what must come before what, so that any order that keeps it is lawful too.
 *
 * Each step reads states (it needs one, or may not find it) and writes some (it makes or spoils). In every order that is kept
 * a step reads what it reads in the given one: it stays behind the step that made or spoiled the state for it, and before
 * the next that turns it.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{from: number, to: number, kind: string, rule: string, state: number, lag: number}} Arc
   * @typedef {{turner: number, writers: number[], readers: number[], rules: string[], before: number[]}} Era
   *   A time in which a state holds, or does not: who turned it so, who did the same once more, and who read it; `before` are the readers of
   *   the time before it.
   */

  /** @param {any[]} chains @param {{step: any, also: string[]}[]} placed @param {Set<number>} daily states that hold for their own day alone */
  function arcsOf(chains, placed, daily) {
    const nodeOf = new Map(placed.flatMap(({ step, also }, at) => [step.id, ...also].map((id) => [id, at])));
    const leasts = placed.map(({ step, also }) => Math.max(step.least, ...also.map((id) => stepOf(chains, id).least)));
    /** @type {Map<string, Arc>} */
    const arcs = new Map();
    /** @param {number} from @param {number} to @param {string} kind @param {string} rule @param {number} state @param {number} lag */
    const add = (from, to, kind, rule, state, lag) => {
      if (from < 0 || from === to) return;
      const key = `${from} ${to}`;
      const found = arcs.get(key);
      if (!found) arcs.set(key, { from, to, kind, rule, state, lag });
      else found.lag = Math.max(found.lag, lag);
    };
    const limits = addChains(chains, placed, nodeOf, leasts, add);
    const days = addStates(placed, leasts, add, daily);
    addOrders(placed, add);
    return { arcs: [...arcs.values()], limits, days };
  }

  /** @param {any[]} chains @param {string} id */
  function stepOf(chains, id) {
    for (const chain of chains) for (const step of chain.steps) if (step.id === id) return step;
    throw new Error(`no step ${id}`);
  }

  /** Each procedure's own order, and what waits for a whole procedure. @param {any[]} chains @param {any[]} placed @param {Map<string, number>} nodeOf @param {number[]} leasts @param {Function} add */
  function addChains(chains, placed, nodeOf, leasts, add) {
    /** @type {[number, number, number][]} */
    const limits = [];
    const ends = chains.map(() => /** @type {number[]} */ ([]));
    const starts = chains.map(() => /** @type {number[]} */ ([]));
    chains.forEach((chain, n) => {
      /** @type {number[]} */
      let open = [];
      let window = /** @type {[number, number] | null} */ (null);
      for (const step of chain.steps) {
        const at = nodeOf.get(step.id);
        if (at === undefined) continue;
        const isOwn = placed[at].step === step;
        for (const one of open) if (one < at) add(one, at, isOwn ? "own" : "shared", "", -1, leasts[one]);
        if (window && window[0] < at) limits.push([window[0], at, window[1]]);
        if (!isOwn && open.every((one) => one < at) && step.isLast) continue; // left to the last: this chain went on
        open = isOwn || open.every((one) => one < at) ? [at] : [...open.filter((one) => one !== at), at];
        if (isOwn && !starts[n].length) starts[n] = [at];
        window = step.data.wait && step.data.wait.most && isOwn ? [at, step.data.wait.most] : null;
      }
      ends[n] = open;
    });
    chains.forEach((chain, n) => {
      for (const one of chain.after) {
        for (const from of ends[one]) for (const to of starts[n]) if (from < to) add(from, to, "relies", "", -1, leasts[from]);
      }
    });
    return limits;
  }

  /** The states that anybody reads. @param {any[]} placed @returns {Set<number>} */
  function readStates(placed) {
    const found = new Set();
    for (const { step } of placed) {
      for (const one of [...step.needs, ...step.bans, ...step.owes]) {
        found.add(one.state);
        one.excuse.forEach((/** @type {number} */ state) => found.add(state));
      }
      for (const one of step.anywhere) [...one.states, ...one.excuse].forEach((state) => found.add(state));
      for (const one of step.orders) one.excuse.forEach((/** @type {number} */ state) => found.add(state));
    }
    return found;
  }

  /**
   * @param {any[]} placed @param {number[]} leasts @param {Function} add @param {Set<number>} daily
   * @returns {[number, number, number][]} who made a state that holds for a day, who needs it on the same day, and the state
   */
  function addStates(placed, leasts, add, daily) {
    const read = readStates(placed);
    /** @type {[number, number, number][]} */
    const days = [];
    /** @type {Map<number, {holds: boolean, era: Era}>} */
    const states = new Map();
    const stateOf = (/** @type {number} */ state) => {
      const known = states.get(state);
      if (known) return known;
      const fresh = { holds: false, era: /** @type {Era} */ ({ turner: -1, writers: [], readers: [], rules: [], before: [] }) };
      states.set(state, fresh);
      return fresh;
    };
    const owed = new Map();
    placed.forEach(({ step }, at) => {
      for (const [state, holds, rule] of readsOf(step, states)) {
        const now = stateOf(state);
        if (now.holds !== holds && now.era.turner === -1) now.holds = holds; // brought along: it was so from the start
        add(now.era.turner, at, "rule", rule, state, leasts[now.era.turner] || 0);
        now.era.readers.push(at);
        now.era.rules.push(rule);
        const maker = holds && daily.has(state) ? freshest(placed, now.era, at) : -1;
        if (maker < 0) continue;
        add(maker, at, "rule", rule, state, leasts[maker]);
        days.push([maker, at, state]);
      }
      for (const { rule, state } of step.owes) owed.set(`${rule} ${state}`, { rule, state, at });
      for (const state of step.spoils) if (read.has(state)) write(stateOf(state), at, false, state, leasts, add);
      for (const state of step.makes) if (read.has(state)) write(stateOf(state), at, true, state, leasts, add);
    });
    for (const { rule, state, at } of owed.values()) {
      const { holds, era } = stateOf(state);
      const payer = [era.turner, ...era.writers].find((one) => one > at);
      if (holds && payer !== undefined) add(at, payer, "rule", rule, state, 0);
    }
    return days;
  }

  /** Who made a state last: the reader's own procedure, where it did. @param {any[]} placed @param {Era} era @param {number} at */
  function freshest(placed, era, at) {
    const makers = [era.turner, ...era.writers].filter((one) => one >= 0);
    const own = makers.filter((one) => placed[one].step.chain === placed[at].step.chain);
    return [...makers, ...own].pop() ?? -1;
  }

  /** What a step reads: where a rule is met by what excuses from it, that. @param {any} step @param {Map<number, any>} states @returns {[number, boolean, string][]} */
  function readsOf(step, states) {
    const holds = (/** @type {number} */ state) => !!states.get(state) && states.get(state).holds;
    /** @type {[number, boolean, string][]} */
    const found = [];
    const ask = (/** @type {number} */ state, /** @type {boolean} */ wanted, /** @type {any} */ one) => {
      const excused = one.excuse.length && one.excuse.every(holds);
      if (holds(state) === wanted || !excused) found.push([state, wanted, one.rule]);
      else one.excuse.forEach((/** @type {number} */ each) => found.push([each, true, one.rule]));
    };
    step.needs.forEach((/** @type {any} */ one) => ask(one.state, true, one));
    step.bans.forEach((/** @type {any} */ one) => ask(one.state, false, one));
    step.anywhere.forEach((/** @type {any} */ one) => one.states.forEach((/** @type {number} */ state) => ask(state, false, one)));
    return found;
  }

  /** @param {{holds: boolean, era: Era}} now @param {number} at @param {boolean} to @param {number} state @param {number[]} leasts @param {Function} add */
  function write(now, at, to, state, leasts, add) {
    const { era } = now;
    if (now.holds === to) {
      // The same once more: it stays in this time, behind who turned the state, so that it cannot turn it for others.
      add(era.turner, at, "rule", "", state, 0);
      for (const one of era.before) add(one, at, "rule", "", state, 0);
      era.writers.push(at);
      return;
    }
    add(era.turner, at, "rule", "", state, leasts[era.turner] || 0);
    for (const one of era.writers) add(one, at, "rule", "", state, leasts[one]);
    era.readers.forEach((one, n) => add(one, at, "rule", era.rules[n], state, 0));
    now.holds = to;
    now.era = { turner: at, writers: [], readers: [], rules: [], before: era.readers };
  }

  /** By rules of order: what other steps come before. @param {any[]} placed @param {Function} add */
  function addOrders(placed, add) {
    /** @type {Map<number, number[]>} */
    const doers = new Map();
    placed.forEach(({ step }, at) => {
      for (const { rule, acts } of step.orders) {
        for (const act of acts) for (const one of doers.get(act) || []) add(one, at, "rule", rule, -1, 0);
      }
      for (const act of step.acts) doers.set(act, [...(doers.get(act) || []), at]);
    });
  }

  seambook.mergeArcs = { arcsOf };
})();
