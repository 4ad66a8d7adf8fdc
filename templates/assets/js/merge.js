/**
 * The steps of all procedures of a job in one lawful order: each procedure keeps its own, what is shared is done once, and
 * what the law asks for holds across procedures. Pure: the same job gives the same order on every machine.
 * A dead end of the search teaches what must come before what, and the search begins anew.
 * Needs merge_chains.js, merge_walk.js, merge_search.js, merge_lessons.js and merge_arcs.js.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** @typedef {{step: any, also: string[]}} Placed */

  /** So often a search begins anew. */
  const LESSONS = 40;

  /**
   * Search, and learn from each dead end: what took a state away that a step needs, or made one that it may not find, comes
   * after that step the next time.
   * @param {any[]} chains @param {Set<string>} mild
   */
  function ordered(chains, mild) {
    /** @type {Map<string, any[]>} */
    const lessons = new Map();
    const stepOf = new Map(chains.flatMap((chain) => chain.steps.map((/** @type {any} */ step) => [step.id, step])));
    const { mergeLessons, mergeSearch } = seambook;
    for (let n = 0; ; n += 1) {
      const walk = seambook.mergeWalk.open(chains, mild);
      const found = mergeSearch.run(mergeSearch.searchOf(chains, walk, lessons));
      if (found.whole || n >= LESSONS || !mergeLessons.learn(lessons, found.blocked, stepOf)) return { ...found, walk };
    }
  }

  /** Steps whose reasons lead back to the first of them; where no ring is found, all that stand. @param {any[]} chains @param {{step: any, reason: any}[]} blocked */
  function ringOf(chains, blocked) {
    const chainOf = new Map(chains.flatMap((chain) => chain.steps.map((/** @type {any} */ step) => [step.id, step.chain])));
    const byChain = new Map(blocked.map((one) => [one.step.chain, one]));
    for (const first of blocked) {
      const way = [first];
      for (;;) {
        const next = byChain.get(chainOf.get(way[way.length - 1].reason.by));
        if (!next) break;
        if (way.includes(next)) return way.slice(way.indexOf(next));
        way.push(next);
      }
    }
    return blocked;
  }

  /** @param {Record<string, {level: string}>} rules */
  function mildOf(rules) {
    return new Set(Object.keys(rules).filter((id) => rules[id].level === "warning"));
  }

  /** @param {any} chains @param {{step: any, reason: any}} one */
  function toldOf(chains, { step, reason }) {
    const { name = "", subject = "", side = "" } = chains.states[reason.state] || {};
    return { id: step.id, kind: reason.kind, rule: reason.rule, state: name, subject, side, by: reason.by };
  }

  /**
   * @param {{procedure: string, side: string}[]} runs
   * @param {{procedures: Record<string, any>, wide: any, rules: Record<string, {level: string}>, stages?: any, last?: string[],
   *   daily?: string[]}} library
   * @returns {any} nodes in lawful order with the arcs between them; `loop` where no order was found
   */
  function merge(runs, library) {
    const mild = mildOf(library.rules);
    const chained = (/** @type {any} */ turns) => seambook.mergeChains.chainsOf(runs, library.procedures, library.wide, turns, library.last);
    let made = chained(library.stages || null);
    let found = ordered(made.chains, mild);
    if (!found.whole && library.stages) {
      // Stages are a habit, not a law: where they leave no order, the law alone decides.
      made = chained(null);
      found = ordered(made.chains, mild);
    }
    const { whole, blocked, placed, walk } = found;
    const nodes = placed.map((/** @type {Placed} */ { step, also }) => ({
      id: step.id, step: step.data, also, chain: step.chain, run: made.chains[step.chain].run,
      makes: step.makes, spoils: step.spoils, isLast: step.isLast,
    }));
    const daily = new Set(made.states.flatMap((/** @type {any} */ one, /** @type {number} */ at) => ((library.daily || []).includes(one.name) ? [at] : [])));
    const { arcs, limits, days } = seambook.mergeArcs.arcsOf(made.chains, placed, daily);
    return {
      nodes, arcs, limits, whole,
      days: days.map((/** @type {number[]} */ [from, to, state]) => [from, to, made.states[state].name]), taken: made.taken,
      loop: whole ? null : ringOf(made.chains, blocked).map((/** @type {any} */ one) => toldOf(made, one)),
      owed: whole ? seambook.mergeWalk.owing(walk).map((/** @type {any} */ one) => toldOf(made, { step: { id: one.by }, reason: one })) : [],
    };
  }

  seambook.merge = { merge };
})();
