/**
 * A problem made ready to be planned: what each task takes, what goes before what, which tasks move as one block, and
 * what cannot be. Touches no page.
 *
 * Of a task that cannot be, the one rule that stands in its way is waived and told, so that everything else is planned.
 */

/**
 * @typedef {{least: number, most?: number | null, attended?: boolean, after?: number}} PlanWait
 * @typedef {{id: string, minutes: number, hands: number, places?: string[], chain?: string, tail?: number,
 *   split?: boolean, traits?: string[], linger?: Record<string, number>, wait?: PlanWait | null, earliest?: number,
 *   done?: {start: number, end: number} | null}} PlanTask
 * @typedef {{tasks: PlanTask[], arcs: number[][], limits?: number[][], hands: number | null,
 *   places?: Record<string, number>, clashes?: string[][], watch?: string | null, hours: PlanHours | null,
 *   start: PlanStart, previous?: string[], passes: number, seed: number}} PlanProblem
 * @typedef {{task: number, why: string, with: any[]}} PlanFault
 * @typedef {{profile: any, amount: number, most: number, span: number, linger: number, kind: string, of: string}} PlanClaim
 * @typedef {{to: number, lag: number}} PlanLink
 * @typedef {{members: number[], before: number[], after: number[], byDue: number[]}} PlanBlock
 * @typedef {{count: number, tasks: PlanTask[], minutes: number[], rest: number[], attended: number[], split: boolean[],
 *   isDone: boolean[], claims: PlanClaim[][], profiles: any[], calendar: any, before: PlanLink[][], after: PlanLink[][],
 *   limitsTo: PlanLink[][], limitsFrom: PlanLink[][], earliest: number[], due: number[], dueBy: number[][], start: number[], end: number[],
 *   blocks: PlanBlock[], blockOf: number[], rank: number[], tail: number[], faults: PlanFault[], hands: number | null,
 *   handsOf: number[], handsProfile: any}} ShapedPlan
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const { Calendar, Profile, NEVER } = seambook.scheduleTime;

  /** What a claim spans: the minutes worked, the time from start to end and a linger, or the rest after the end. */
  const WORK = 0;
  const WHOLE = 1;
  const REST = 2;

  /** The parts of a directed graph that go in circles, and single nodes; each part comes before those it leads to.
   * @param {number} count @param {number[][]} after @returns {number[][]} */
  function circles(count, after) {
    const seen = new Int32Array(count);
    const low = new Int32Array(count);
    const next = new Int32Array(count);
    const isOpen = new Uint8Array(count);
    const [stack, path] = [/** @type {number[]} */ ([]), /** @type {number[]} */ ([])];
    const found = /** @type {number[][]} */ ([]);
    let turn = 0;
    for (let root = count - 1; root >= 0; root -= 1) {
      if (seen[root]) continue;
      path.push(root);
      while (path.length) {
        const at = path[path.length - 1];
        if (!seen[at]) {
          seen[at] = low[at] = turn += 1;
          stack.push(at);
          isOpen[at] = 1;
        }
        if (next[at] < after[at].length) {
          const to = after[at][next[at]++];
          if (!seen[to]) path.push(to);
          else if (isOpen[to]) low[at] = Math.min(low[at], seen[to]);
          continue;
        }
        path.pop();
        if (path.length) low[path[path.length - 1]] = Math.min(low[path[path.length - 1]], low[at]);
        if (low[at] !== seen[at]) continue;
        const part = stack.splice(stack.lastIndexOf(at));
        for (const one of part) isOpen[one] = 0;
        found.push(part.sort((one, other) => one - other));
      }
    }
    return found.reverse();
  }

  /** Each task's own numbers, with what cannot be waived and told. @param {PlanProblem} problem @param {any} calendar */
  function ownNumbers(problem, calendar) {
    const faults = /** @type {PlanFault[]} */ ([]);
    const own = problem.tasks.map((task, at) => {
      const rest = task.wait ? task.wait.least : 0;
      const isWatch = Boolean(problem.watch) && (task.traits || []).includes(String(problem.watch));
      const told = { hands: task.hands, split: Boolean(task.split) && !isWatch, places: /** @type {string[]} */ ([]), attended: 0 };
      if (isWatch) told.hands = Math.max(1, told.hands);
      if (isWatch || (task.wait && task.wait.attended)) told.attended = rest;
      if (!task.done) waive(problem, at, told, isWatch, calendar, faults);
      told.places = [...new Set(task.places || [])].filter((place) => (problem.places || {})[place] !== 0);
      return told;
    });
    return { own, faults };
  }

  /** @param {PlanProblem} problem @param {number} at @param {{hands: number, split: boolean, attended: number}} told
   * @param {boolean} isWatch @param {any} calendar @param {PlanFault[]} faults */
  function waive(problem, at, told, isWatch, calendar, faults) {
    const { minutes, places } = problem.tasks[at];
    const longest = calendar.isShut ? 0 : calendar.longest;
    const isTooLong = minutes > longest && (calendar.isShut || !told.split);
    if (isTooLong && !isWatch) faults.push({ task: at, why: "opening", with: [minutes, longest] });
    else if (minutes + told.attended > longest && isWatch) faults.push({ task: at, why: "watch", with: [minutes + told.attended, longest] });
    if (isTooLong) told.split = true;
    if (told.attended > 0 && (told.split ? 0 : minutes) + told.attended > longest) {
      if (!isWatch) faults.push({ task: at, why: "wait", with: [minutes, told.attended, longest] });
      told.attended = 0;
    }
    if (problem.hands !== null && told.hands > problem.hands) {
      faults.push({ task: at, why: "hands", with: [told.hands, problem.hands] });
      told.hands = problem.hands;
    }
    for (const place of new Set(places || [])) {
      if ((problem.places || {})[place] === 0) faults.push({ task: at, why: "place", with: [place] });
    }
  }

  /** The traits that may not be at the same time as each. @param {string[][]} clashes */
  function foesOf(clashes) {
    const foes = /** @type {Map<string, Set<string>>} */ (new Map());
    for (const [one, other] of clashes) {
      for (const [trait, foe] of [[one, other], [other, one]]) {
        const known = foes.get(trait) || new Set();
        foes.set(trait, known.add(foe));
      }
    }
    return foes;
  }

  /** What every task takes of hands, places and traits. @param {PlanProblem} problem @param {any[]} own */
  function claimsOf(problem, own) {
    const foes = foesOf(problem.clashes || []);
    const profiles = /** @type {Map<string, any>} */ (new Map());
    /** @param {string} name */
    const profile = (name) => {
      const known = profiles.get(name) || new Profile();
      profiles.set(name, known);
      return known;
    };
    const hands = profile("hands");
    const claims = problem.tasks.map((task, at) => {
      const mine = /** @type {PlanClaim[]} */ ([]);
      const { hands: asked, places, attended } = own[at];
      /** @param {string} name @param {number} span @param {number} amount @param {number} most @param {string} kind
       * @param {number} linger @param {string} of */
      const claim = (name, span, amount, most, kind, linger, of) =>
        mine.push({ profile: profile(name), amount, most, span, linger, kind, of });
      const limit = problem.hands;
      if (limit !== null && asked > 0) claim("hands", WORK, asked, limit - asked, "hands", 0, "");
      if (limit !== null && attended > 0) claim("hands", REST, 1, limit - 1, "hands", attended, "");
      for (const place of places) {
        const there = (problem.places || {})[place];
        if (there !== undefined && there !== null) claim(`place ${place}`, WHOLE, 1, there - 1, "place", 0, place);
      }
      for (const trait of new Set(task.traits || [])) {
        const against = foes.get(trait);
        if (!against) continue;
        const linger = (task.linger || {})[trait] || 0;
        for (const foe of against) claim(`trait ${foe}`, WHOLE, 0, 0, "clash", linger, foe);
        claim(`trait ${trait}`, WHOLE, 1, NEVER, "clash", linger, trait);
      }
      return mine;
    });
    return { claims, profiles: [...profiles.values()], hands };
  }

  /** Arcs without those of a loop, which are told. @param {PlanProblem} problem @param {PlanFault[]} faults */
  function soundArcs(problem, faults) {
    const { tasks } = problem;
    const arcs = problem.arcs.filter(([from, to]) => from !== to && !tasks[to].done);
    const after = tasks.map(() => /** @type {number[]} */ ([]));
    for (const [from, to] of arcs) if (!tasks[from].done) after[from].push(to);
    const loopOf = tasks.map(() => -1);
    circles(tasks.length, after).forEach((part, index) => {
      for (const one of part) loopOf[one] = index;
      if (part.length > 1) for (const one of part) faults.push({ task: one, why: "loop", with: part });
    });
    for (const [from, to] of problem.arcs) {
      if (from === to && !tasks[to].done) faults.push({ task: to, why: "loop", with: [to] });
    }
    return arcs.filter(([from, to]) => loopOf[from] !== loopOf[to]);
  }

  /** Tasks that limits join, and all that lies between them, are one block. @param {number} count
   * @param {number[][]} arcs @param {number[][]} limits @param {boolean[]} isDone */
  function blocksOf(count, arcs, limits, isDone) {
    const head = Array.from({ length: count }, (_, at) => at);
    /** @param {number} at @returns {number} */
    const headOf = (at) => (head[at] === at ? at : (head[at] = headOf(head[at])));
    for (const [from, to] of limits) if (!isDone[from]) head[headOf(from)] = headOf(to);
    const after = head.map(() => /** @type {number[]} */ ([]));
    for (const [from, to] of arcs) {
      if (!isDone[from] && headOf(from) !== headOf(to)) after[headOf(from)].push(headOf(to));
    }
    for (const part of circles(count, after)) for (const one of part) head[headOf(one)] = headOf(part[0]);
    const blockOf = head.map(() => -1);
    const blocks = /** @type {PlanBlock[]} */ ([]);
    for (let at = 0; at < count; at += 1) {
      if (isDone[at]) continue;
      const top = headOf(at);
      if (blockOf[top] < 0) blockOf[top] = blocks.push({ members: [], before: [], after: [], byDue: [] }) - 1;
      blockOf[at] = blockOf[top];
      blocks[blockOf[at]].members.push(at);
    }
    for (const [from, to] of arcs) {
      const [one, other] = [blockOf[from], blockOf[to]];
      if (isDone[from] || one === other) continue;
      if (!blocks[one].after.includes(other)) blocks[one].after.push(other);
      if (!blocks[other].before.includes(one)) blocks[other].before.push(one);
    }
    return { blocks, blockOf };
  }

  /** Within a block, the first to run out of time first. @param {ShapedPlan} shaped @param {PlanBlock} block */
  function byDue(shaped, block) {
    const inOrder = block.members.slice().sort((one, other) => shaped.rank[one] - shaped.rank[other]);
    const inside = new Set(inOrder);
    const earliest = new Map(inOrder.map((at) => [at, 0]));
    const due = new Map(inOrder.map((at) => [at, shaped.due[at]]));
    for (const at of inOrder) {
      const end = Number(earliest.get(at)) + shaped.minutes[at];
      for (const { to, lag } of shaped.after[at]) {
        if (inside.has(to)) earliest.set(to, Math.max(Number(earliest.get(to)), end + lag));
      }
      for (const { to, lag } of shaped.limitsFrom[at]) due.set(to, Math.min(Number(due.get(to)), end + lag));
    }
    for (const at of inOrder.slice().reverse()) {
      for (const { to, lag } of shaped.after[at]) {
        if (inside.has(to)) due.set(at, Math.min(Number(due.get(at)), Number(due.get(to)) - lag - shaped.minutes[at]));
      }
    }
    const place = new Map(inOrder.map((at, turn) => [at, turn]));
    return inOrder.sort((one, other) => Number(due.get(one)) - Number(due.get(other)) || Number(place.get(one)) - Number(place.get(other)));
  }

  /** What binds a task to others, and to what is done. @param {PlanProblem} problem @param {number[][]} arcs */
  function bonds(problem, arcs) {
    const { tasks } = problem;
    const [before, after, limitsTo, limitsFrom] = [0, 1, 2, 3].map(() => tasks.map(() => /** @type {PlanLink[]} */ ([])));
    const earliest = tasks.map((task) => Math.max(0, task.earliest || 0));
    const due = tasks.map(() => NEVER);
    const dueBy = tasks.map(() => /** @type {number[]} */ ([]));
    for (const [from, to, lag] of arcs) {
      const done = tasks[from].done;
      if (done) earliest[to] = Math.max(earliest[to], done.end + lag);
      else {
        before[to].push({ to: from, lag });
        after[from].push({ to, lag });
      }
    }
    const limits = (problem.limits || []).filter(([from, to]) => from !== to && !tasks[to].done);
    for (const [from, to, lag] of limits) {
      const done = tasks[from].done;
      if (done && done.end + lag < due[to]) {
        due[to] = done.end + lag;
        dueBy[to] = [from, lag];
      } else if (!done) {
        limitsTo[to].push({ to: from, lag });
        limitsFrom[from].push({ to, lag });
      }
    }
    return { before, after, limitsTo, limitsFrom, earliest, due, dueBy, limits };
  }

  /** How much time is still to go from a task's start, by arcs alone. @param {ShapedPlan} shaped @param {number[]} inOrder */
  function tailsOf(shaped, inOrder) {
    const tail = shaped.tasks.map(() => 0);
    for (let turn = inOrder.length - 1; turn >= 0; turn -= 1) {
      const at = inOrder[turn];
      let most = shaped.rest[at];
      for (const { to, lag } of shaped.after[at]) most = Math.max(most, lag + tail[to]);
      tail[at] = shaped.minutes[at] + most;
    }
    return tail;
  }

  /** @param {PlanProblem} problem @returns {ShapedPlan} */
  function shape(problem) {
    const calendar = new Calendar(problem.hours, problem.start);
    const { tasks } = problem;
    const { own, faults } = ownNumbers(problem, calendar);
    const arcs = soundArcs(problem, faults);
    const isDone = tasks.map((task) => Boolean(task.done));
    const { limits, ...bound } = bonds(problem, arcs);
    const { claims, profiles, hands } = claimsOf(problem, own);
    const after = bound.after.map((links) => links.map((link) => link.to));
    const inOrder = circles(tasks.length, after).map((part) => part[0]);
    const rank = tasks.map(() => 0);
    inOrder.forEach((at, turn) => (rank[at] = turn));
    /** @type {ShapedPlan} */
    const shaped = {
      count: tasks.length, tasks, minutes: tasks.map((task) => task.minutes), ...bound, ...blocksOf(tasks.length, arcs, limits, isDone),
      rest: tasks.map((task) => (task.wait ? task.wait.least : 0)), attended: own.map((one) => one.attended),
      split: own.map((one) => one.split), isDone, claims, profiles, calendar, rank, tail: [], faults, hands: problem.hands,
      handsOf: own.map((one) => one.hands), handsProfile: hands, start: tasks.map(() => 0), end: tasks.map(() => 0),
    };
    shaped.tail = tailsOf(shaped, inOrder);
    for (const block of shaped.blocks) block.byDue = block.members.length > 1 ? byDue(shaped, block) : block.members;
    return shaped;
  }

  seambook.scheduleProblem = { shape, circles, WORK, WHOLE, REST };
})();
