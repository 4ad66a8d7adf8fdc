/**
 * Chosen procedures with their sides -> chains of steps whose states and acts are numbers common to the whole job.
 * A procedure speaks of this side and the other; here each state is somebody's on the left or on the right. What a step is
 * told by the law comes from builder/view/job_procedure.py.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{procedure: string, side: string}} Run
   * @typedef {{rule: string, state: number, excuse: number[]}} Asked
   * @typedef {{rule: string, acts: number[], excuse: number[]}} Ordered
   * @typedef {{rule: string, states: number[], excuse: number[]}} Anywhere
   * @typedef {{
   *   id: string, chain: number, at: number, phase: number, minutes: number, shared: string, isLast: boolean, least: number,
   *   acts: number[], needs: Asked[], bans: Asked[], owes: Asked[], orders: Ordered[], anywhere: Anywhere[],
   *   spoils: number[], makes: number[], data: any
   * }} MergeStep
   * @typedef {{
   *   run: Run, id: string, steps: MergeStep[], after: number[], brought: number[], needAt: Map<number, number[]>,
   *   banAt: Map<number, number[]>, makeAt: Map<number, number[]>, spoilAt: Map<number, number[]>
   * }} Chain
   *   What is done with the last procedure that comes to it (`isLast`) is one by its act alone.
   *   Shared steps are one where act, key and whom they are done on agree: then `shared` does.
   *   `after` holds the chains that must be done before it; the maps hold, for each state, the places of those steps that
   *   need it, that may not find it, that make it and that spoil it.
   * @typedef {{name: string, subject: string, side: string}} Whose
   * @typedef {{chains: Chain[], states: Whose[], taken: string[]}} Chains
   */

  const OTHER = /** @type {Record<string, string>} */ ({ left: "right", right: "left" });

  /** A table that gives each name a number, in the order in which they come. */
  function table() {
    /** @type {Map<string, number>} */
    const known = new Map();
    /** @type {Whose[]} */
    const list = [];
    /** @param {string} name @param {string} subject @param {string} side */
    const place = (name, subject, side) => {
      const key = `${name} ${subject}@${side}`;
      const found = known.get(key);
      if (found !== undefined) return found;
      known.set(key, list.length);
      list.push({ name, subject, side });
      return list.length - 1;
    };
    return { place, list };
  }

  /** @param {number} sided 0 of what a car has once, 1 this side, 2 the other @param {string} side of the run */
  function sideOf(sided, side) {
    if (sided === 0) return "";
    return sided === 1 ? side : OTHER[side] || "other";
  }

  /** @param {Run} run */
  function idOf(run) {
    return `${run.procedure}@${run.side}`;
  }

  /** Which runs a run waits for: what its procedure relies on, on the same side or of the whole car. @param {Run[]} runs @param {Run} run @param {any} data */
  function afterOf(runs, run, data) {
    return runs.flatMap((other, at) =>
      data.relies_on.includes(other.procedure) && (other.side === run.side || !other.side || !run.side) ? [at] : []);
  }

  /**
   * What comes before anything is taken apart, and what ends a job: a procedure of a first stage is done before all others,
   * one of a last stage after them. Whoever relies on another stays behind it.
   * @param {any[]} chains @param {any[]} stages of each the stage @param {{first: string[], last: string[]}} turns
   */
  function staged(chains, stages, turns) {
    const place = stages.map((stage) => Number(!turns.first.includes(stage)) + Number(turns.last.includes(stage)));
    return chains.map((chain, at) => {
      const before = chains.flatMap((_, other) => (place[other] < place[at] && !reliesOn(chains, other, at) ? [other] : []));
      return { ...chain, after: [...new Set([...chain.after, ...before])] };
    });
  }

  /** @param {any[]} chains @param {number} one @param {number} other @returns {boolean} */
  function reliesOn(chains, one, other) {
    return chains[one].after.includes(other) || chains[one].after.some((/** @type {number} */ next) => reliesOn(chains, next, other));
  }

  /** By what a step is one with steps of other procedures; nothing where it is done by each. @param {any} raw @param {number[]} acts @param {boolean} isLast */
  function sharedBy(raw, acts, isLast) {
    if (isLast) return `${raw.act} ${acts.join(" ")}`;
    return raw.shared ? `${raw.act} ${raw.key} ${acts.join(" ")}` : "";
  }

  /** @param {any} raw @param {Run} run @param {number} chain @param {number} at @param {any} data @param {any} tables @returns {MergeStep} */
  function stepOf(raw, run, chain, at, data, tables) {
    const { states, acts, last } = tables;
    const law = raw.law || {};
    const own = (law.acts || []).map((/** @type {number} */ one) => acts[one]);
    const isLast = last.includes(raw.act);
    const asked = (/** @type {any[]} */ list) => (list || []).map(([rule, state, ...excuse]) =>
      ({ rule: data.rules[rule], state: states[state], excuse: excuse.map((/** @type {number} */ one) => states[one]) }));
    return {
      id: `${idOf(run)}#${raw.key}`, chain, at, phase: raw.phase || 0, minutes: raw.minutes || 0,
      shared: sharedBy(raw, own, isLast), isLast, least: raw.wait ? raw.wait.least : 0,
      acts: own, needs: asked(law.needs), bans: asked(law.bans), owes: asked(law.owes),
      orders: (law.orders || []).map((/** @type {any[]} */ [rule, tags, ...excuse]) => ({
        rule: data.rules[rule], acts: tags.map((/** @type {number} */ one) => acts[one]),
        excuse: excuse.map((one) => states[one]),
      })),
      anywhere: [], spoils: (law.spoils || []).map((/** @type {number} */ one) => states[one]),
      makes: (law.makes || []).map((/** @type {number} */ one) => states[one]), data: raw,
    };
  }

  /** Rules about whoever it may be become rules about everybody of this job that they mean. @param {MergeStep} step @param {Run} run @param {any} data @param {any} tables @param {Whose[]} all @param {any} wide */
  function widen(step, run, data, tables, all, wide) {
    for (const [place, , sided, ...excuse] of step.data.law?.anywhere || []) {
      const rule = data.rules[place];
      const { state, other_side: across, owners } = wide[rule];
      const side = sideOf(sided, run.side);
      const meant = all.flatMap((one, at) =>
        one.name === state && (!owners || owners.includes(one.subject))
        && (!across || (one.side && side && one.side !== side)) ? [at] : []);
      step.anywhere.push({ rule, states: meant, excuse: excuse.map((/** @type {number} */ one) => tables.states[one]) });
    }
    for (const name of step.data.law?.wipes || []) {
      all.forEach((one, at) => one.name === name && !step.spoils.includes(at) && step.spoils.push(at));
    }
  }

  /** @param {MergeStep[]} steps @param {(step: MergeStep) => number[]} of @returns {Map<number, number[]>} */
  function placesOf(steps, of) {
    const found = new Map();
    for (const step of steps) {
      for (const state of of(step)) {
        const list = found.get(state);
        if (!list) found.set(state, [step.at]);
        else if (list[list.length - 1] !== step.at) list.push(step.at);
      }
    }
    return found;
  }

  /**
   * @param {Run[]} runs @param {Record<string, any>} procedures by id, as the book gives them @param {any} wide
   * @param {{first: string[], last: string[]} | null} [turns] stages @param {string[]} [last] acts that are left to the last
   * procedure that comes to them
   * @returns {Chains}
   */
  function chainsOf(runs, procedures, wide, turns, last = []) {
    const states = table();
    const acts = table();
    const known = runs.map((run) => {
      const data = procedures[run.procedure];
      const one = (/** @type {any} */ to) => (/** @type {[string, string, number]} */ [name, subject, sided]) =>
        to.place(name, subject, sideOf(sided, run.side));
      return { data, tables: { states: data.states.map(one(states)), acts: data.acts.map(one(acts)), last } };
    });
    const taken = new Set();
    const chains = runs.map((run, at) => {
      const { data, tables } = known[at];
      const steps = data.steps.map((/** @type {any} */ raw, /** @type {number} */ n) => stepOf(raw, run, at, n, data, tables));
      const after = afterOf(runs, run, data);
      const missing = data.relies_on.filter((/** @type {string} */ id) => !after.some((n) => runs[n].procedure === id));
      missing.forEach((/** @type {string} */ id) => taken.add(id));
      const brought = missing.length ? (data.brought || []).map((/** @type {number} */ one) => tables.states[one]) : [];
      return { run, id: idOf(run), steps, after, brought };
    });
    chains.forEach((chain, at) => {
      const { data, tables } = known[at];
      chain.steps.forEach((/** @type {MergeStep} */ step) => widen(step, chain.run, data, tables, states.list, wide));
    });
    const inTurn = turns ? staged(chains, known.map(({ data }) => data.stage_id), turns) : chains;
    return { chains: inTurn.map(indexed), states: states.list, taken: [...taken].sort() };
  }

  /** @param {any} chain @returns {Chain} */
  function indexed(chain) {
    const { steps } = chain;
    return {
      ...chain,
      needAt: placesOf(steps, (step) => step.needs.map(({ state }) => state)),
      banAt: placesOf(steps, (step) => [...step.bans.map(({ state }) => state), ...step.anywhere.flatMap((one) => one.states)]),
      makeAt: placesOf(steps, (step) => step.makes),
      spoilAt: placesOf(steps, (step) => step.spoils),
    };
  }

  seambook.mergeChains = { chainsOf };
})();
