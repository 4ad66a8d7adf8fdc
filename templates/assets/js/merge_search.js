/**
 * The search for one lawful order of a job's steps: one chain after the other is followed to the end of a phase, the longest
 * tail first. A step waits while it would break a rule, or would take from another chain what that one still needs; where
 * nothing can go on, the last choice is taken back. Needs merge_walk.js.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /**
   * @typedef {{rank: number, chain: number, isPassed?: boolean}} Choice
   *   `isPassed`: left to the last procedure that comes to it
   * @typedef {{step: any, also: string[]}} Placed
   */

  /** So often a last choice is taken back before a lesson is drawn and all begins anew. */
  const TAKEN_BACK = 60;
  /** Ranks: nobody hindered; somebody for a while; done by itself though others share it, or against a rule that warns. */
  const CLEAN = 1;
  const HINDERING = 2;
  const ALONE = 3;

  /** @param {any[]} chains @param {any} walk @param {Map<string, any[]>} lessons by step: what is to be done before it */
  function searchOf(chains, walk, lessons) {
    return {
      chains, walk, lessons, /** @type {Placed[]} */ placed: [], /** @type {Map<string, Placed>} */ shared: walk.shared,
      /** @type {Map<string, string[]>} */ passed: new Map(),
      tails: chains.map(tailsOf(chains)), groups: groupsOf(chains), wanted: chains.map(wantedOf), current: -1,
    };
  }

  /** Minutes from each place of a chain to the end of all that follows it. @param {any[]} chains */
  function tailsOf(chains) {
    /** @type {Map<number, number>} */
    const known = new Map();
    /** @param {number} n @returns {number} */
    const behind = (n) => {
      const found = known.get(n);
      if (found !== undefined) return found;
      known.set(n, 0);
      const most = Math.max(0, ...chains.flatMap((chain, at) => (chain.after.includes(n) ? [wholeOf(chain) + behind(at)] : [])));
      known.set(n, most);
      return most;
    };
    return (/** @type {any} */ chain, /** @type {number} */ n) => {
      const tails = new Array(chain.steps.length + 1).fill(behind(n));
      for (let at = chain.steps.length - 1; at >= 0; at -= 1) tails[at] = tails[at + 1] + chain.steps[at].minutes + chain.steps[at].least;
      return tails;
    };
  }

  /** @param {any} chain */
  function wholeOf(chain) {
    return chain.steps.reduce((/** @type {number} */ sum, /** @type {any} */ step) => sum + step.minutes + step.least, 0);
  }

  /** The steps that are done once, by what they are. @param {any[]} chains */
  function groupsOf(chains) {
    /** @type {Map<string, any[]>} */
    const groups = new Map();
    for (const chain of chains) {
      for (const step of chain.steps) {
        if (step.shared) groups.set(step.shared, [...(groups.get(step.shared) || []), step]);
      }
    }
    return groups;
  }

  /** @param {any} search @param {number} n */
  function isReady(search, n) {
    const { walk, chains } = search;
    return walk.at[n] < chains[n].steps.length
      && chains[n].after.every((/** @type {number} */ one) => walk.at[one] >= chains[one].steps.length);
  }

  /** What may be done next, best first; `blocked` is told why another step may not. @param {any} search @param {(step: any, reason: any) => void} blocked @returns {Choice[]} */
  function choicesOf(search, blocked) {
    /** @type {Choice[]} */
    const found = [];
    for (const n of turnOf(search)) {
      const step = search.chains[n].steps[search.walk.at[n]];
      if (isDoneWith(search, step)) return [{ rank: 0, chain: n }];
      if (step.isLast && comesLater(search, step)) return [{ rank: 0, chain: n, isPassed: true }];
      const lesson = (search.lessons.get(step.id) || []).find((/** @type {any} */ one) => !one.isOff && search.walk.at[one.chain] <= one.at);
      if (lesson) {
        blocked(step, { kind: "lesson", rule: lesson.rule, state: lesson.state, by: lesson.id, lesson });
        continue;
      }
      const reason = seambook.mergeWalk.broken(search.walk, step);
      const isMild = !!reason && search.walk.mild.has(reason.rule);
      if (reason && !isMild) {
        blocked(step, reason);
        continue;
      }
      const { level, reason: hindered } = seambook.mergeWalk.hindrance(search.walk, step);
      if (level === 2) {
        blocked(step, hindered);
        continue;
      }
      const waiting = step.shared && !step.isLast ? companion(search, step) : null;
      if (waiting) blocked(step, waiting);
      const rank = waiting || isMild ? ALONE : level ? HINDERING : CLEAN;
      found.push({ rank, chain: n });
      if (rank === CLEAN) break;
    }
    return found.sort((one, other) => one.rank - other.rank);
  }

  /** The chains that can go on, in the order in which they are asked: the one in hand until its phase ends, then by their tails. @param {any} search @returns {number[]} */
  function turnOf(search) {
    const { walk, chains, tails, current } = search;
    const ready = chains.flatMap((/** @type {any} */ _, /** @type {number} */ n) => (isReady(search, n) ? [n] : []));
    ready.sort((/** @type {number} */ a, /** @type {number} */ b) => tails[b][walk.at[b]] - tails[a][walk.at[a]] || a - b);
    if (current < 0 || !ready.includes(current)) return ready;
    const at = walk.at[current];
    const { steps } = chains[current];
    if (at > 0 && steps[at].phase !== steps[at - 1].phase) return ready;
    return [current, ...ready.filter((/** @type {number} */ n) => n !== current)];
  }

  /** Whether another procedure still has such a step before it. @param {any} search @param {any} step */
  function comesLater(search, step) {
    return search.groups.get(step.shared).some((/** @type {any} */ other) =>
      other.chain !== step.chain && other.at >= search.walk.at[other.chain]);
  }

  /** Whether another procedure has done this step for all, and what the rest of this one needs of it still holds. @param {any} search @param {any} step */
  function isDoneWith(search, step) {
    if (!step.shared || step.isLast || !search.shared.has(step.shared)) return false;
    const { holds } = search.walk;
    return step.makes.every((/** @type {number} */ state) => holds.has(state) || !search.wanted[step.chain].has(state));
  }

  /** The states that the steps of a chain need, or owe. @param {any} chain @returns {Set<number>} */
  function wantedOf(chain) {
    return new Set(chain.steps.flatMap((/** @type {any} */ step) => [...step.needs, ...step.owes].map(({ state }) => state)));
  }

  /**
   * Why a shared step has to wait for another procedure to come to its own, or null: a step before that one needs what this
   * would spoil, may not find what it makes, or would spoil it again; or is of the same phase.
   * @param {any} search @param {any} step
   */
  function companion(search, step) {
    for (const other of search.groups.get(step.shared) || []) {
      if (other.chain === step.chain || other.at < search.walk.at[other.chain]) continue;
      for (const before of stepsBefore(search, other, step.chain)) {
        const rule = disturbed(step, before);
        if (rule !== null) return { kind: "together", rule, state: -1, by: before.id };
        if (before.chain === other.chain && before.phase === other.phase && sameStart(search, other)) {
          return { kind: "together", rule: "", state: -1, by: before.id };
        }
      }
    }
    return null;
  }

  /** A phase that has begun, or is the chain's first, prepares what is shared. @param {any} search @param {any} other */
  function sameStart(search, other) {
    const { steps } = search.chains[other.chain];
    return steps[search.walk.at[other.chain]].phase === other.phase || other.phase === 0;
  }

  /** @param {any} step @param {any} before @returns {string | null} */
  function disturbed(step, before) {
    for (const { rule, state } of before.needs) if (step.spoils.includes(state)) return rule;
    for (const { rule, state } of before.bans) if (step.makes.includes(state)) return rule;
    for (const state of before.spoils) if (step.makes.includes(state)) return "";
    return null;
  }

  /** All steps that come before one of another chain and are still to do. @param {any} search @param {any} other @param {number} own @returns {any[]} */
  function stepsBefore(search, other, own) {
    const { chains, walk } = search;
    const found = chains[other.chain].steps.slice(walk.at[other.chain], other.at);
    const todo = [...chains[other.chain].after];
    const seen = new Set([own]);
    while (todo.length) {
      const n = /** @type {number} */ (todo.pop());
      if (seen.has(n)) continue;
      seen.add(n);
      found.push(...chains[n].steps.slice(walk.at[n]));
      todo.push(...chains[n].after);
    }
    return found;
  }

  /** Take a step; returns what takes it back. @param {any} search @param {Choice} choice @returns {() => void} */
  function take(search, choice) {
    const { walk, chains, placed, shared } = search;
    const step = chains[choice.chain].steps[walk.at[choice.chain]];
    const { current } = search;
    search.current = choice.chain;
    walk.at[choice.chain] += 1;
    const key = step.shared;
    if (choice.isPassed) return pass(search, step, current);
    if (choice.rank === 0) {
      const done = shared.get(key);
      done.also.push(step.id);
      return () => {
        done.also.pop();
        walk.at[choice.chain] -= 1;
        search.current = current;
      };
    }
    const back = seambook.mergeWalk.apply(walk, step);
    const before = shared.get(key);
    placed.push({ step, also: step.isLast ? [...(search.passed.get(key) || [])] : [] });
    if (key) shared.set(key, placed[placed.length - 1]);
    return () => {
      if (key && before) shared.set(key, before);
      else if (key) shared.delete(key);
      placed.pop();
      back();
      walk.at[choice.chain] -= 1;
      search.current = current;
    };
  }

  /** Leave a step to the last procedure that comes to it. @param {any} search @param {any} step @param {number} current */
  function pass(search, step, current) {
    const before = search.passed.get(step.shared) || [];
    search.passed.set(step.shared, [...before, step.id]);
    return () => {
      search.passed.set(step.shared, before);
      search.walk.at[step.chain] -= 1;
      search.current = current;
    };
  }

  /** Go on until all steps are placed. @param {any} search @returns {{whole: boolean, blocked: {step: any, reason: any, mended: boolean}[], placed: Placed[]}} */
  function run(search) {
    /** @type {{choices: Choice[], next: number, back: () => void}[]} */
    const frames = [];
    /** @type {Set<string>} */
    const dead = new Set();
    let worst = { depth: -1, blocked: /** @type {any[]} */ ([]), placed: /** @type {Placed[]} */ ([]) };
    let backs = 0;
    for (;;) {
      const state = search.walk.at.join(",");
      /** @type {any[]} */
      const blocked = [];
      const choices = dead.has(state) ? [] : choicesOf(search, (step, reason) => blocked.push({ step, reason }));
      if (!choices.length && isWhole(search)) return { whole: true, blocked: [], placed: search.placed };
      if (!choices.length && !dead.has(state) && frames.length > worst.depth) {
        for (const one of blocked) one.mended = seambook.mergeWalk.mends(search.walk, one.step, one.reason);
        worst = { depth: frames.length, blocked, placed: search.placed.map((/** @type {Placed} */ { step, also }) => ({ step, also: [...also] })) };
      }
      frames.push({ choices, next: 0, back: () => undefined });
      if (!choices.length) {
        dead.add(state);
        backs += 1;
      }
      while (frames.length && frames[frames.length - 1].next >= frames[frames.length - 1].choices.length) {
        frames.pop();
        if (!frames.length || backs > TAKEN_BACK) return { whole: false, ...worst };
        frames[frames.length - 1].back();
        if (frames[frames.length - 1].next >= frames[frames.length - 1].choices.length) dead.add(search.walk.at.join(","));
      }
      const frame = frames[frames.length - 1];
      frame.back = take(search, frame.choices[frame.next]);
      frame.next += 1;
    }
  }

  /** @param {any} search */
  function isWhole(search) {
    return search.chains.every((/** @type {any} */ chain, /** @type {number} */ n) => search.walk.at[n] >= chain.steps.length);
  }

  seambook.mergeSearch = { searchOf, run };
})();
