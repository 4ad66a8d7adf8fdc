/**
 * A problem made ready to be planned: what each task takes, what goes before what, which tasks move as one block, and
 * what cannot be. Touches no page.
 *
 * Of a task that cannot be, the one rule that stands in its way is waived and told, so that everything else is planned.
 */

/**
 * @typedef {{least: number, most?: number | null, attended?: boolean}} PlanWait
 * @typedef {{id: string, minutes: number, hands: number, places?: string[], chain?: string, tail?: number,
 *   split?: boolean, traits?: string[], linger?: Record<string, number>, wait?: PlanWait | null, earliest?: number,
 *   done?: {start: number, end: number} | null}} PlanTask
 * @typedef {{tasks: PlanTask[], arcs: number[][], limits?: number[][], hands: number | null,
 *   places?: Record<string, number>, clashes?: string[][], watch?: string | null, hours: PlanHours | null,
 *   start: PlanStart, previous?: string[], passes: number, seed: number}} PlanProblem
 * @typedef {{task: number, why: string, with: any[]}} PlanFault
 * @typedef {{profile: any, amount: number, most: number, span: number, linger: number, kind: string, of: string}} PlanClaim
 * @typedef {{from: Int32Array, to: Int32Array, lag: Int32Array}} PlanLinks of each task, those from one place to the next
 * @typedef {{members: number[], before: number, after: number[], byDue: number[]}} PlanBlock
 * @typedef {{count: number, tasks: PlanTask[], minutes: Int32Array, rest: Int32Array, attended: Int32Array,
 *   split: Uint8Array, isDone: Uint8Array, checks: PlanClaim[][], holds: PlanClaim[][], profiles: any[], calendar: any,
 *   before: PlanLinks, after: PlanLinks, limitsTo: PlanLinks, limitsFrom: PlanLinks, limits: number[][],
 *   earliest: Int32Array, due: Int32Array, dueBy: number[][], blocks: PlanBlock[], blockOf: Int32Array, inOrder: number[],
 *   rank: Int32Array, tail: Int32Array, faults: PlanFault[], hands: number | null, handsOf: number[]}} ShapedPlan
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

  /** What leads from each of many to others, laid end to end. @param {number} count @param {number[][]} rows one, another, lag
   * @returns {PlanLinks} */
  function linked(count, rows) {
    const from = new Int32Array(count + 1);
    for (const [one] of rows) from[one + 1] += 1;
    for (let at = 0; at < count; at += 1) from[at + 1] += from[at];
    const next = from.slice();
    const [to, lag] = [new Int32Array(rows.length), new Int32Array(rows.length)];
    for (const [one, other, between] of rows) {
      const place = next[one]++;
      to[place] = other;
      lag[place] = between;
    }
    return { from, to, lag };
  }

  /** The parts of a directed graph that go in circles, and single nodes; each part comes before those it leads to.
   * @param {number} count @param {PlanLinks} links @returns {number[][]} */
  function circles(count, links) {
    const seen = new Int32Array(count);
    const low = new Int32Array(count);
    const next = links.from.slice();
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
        if (next[at] < links.from[at + 1]) {
          const to = links.to[next[at]++];
          if (!seen[to]) path.push(to);
          else if (isOpen[to]) low[at] = Math.min(low[at], seen[to]);
          continue;
        }
        path.pop();
        if (path.length) low[path[path.length - 1]] = Math.min(low[path[path.length - 1]], low[at]);
        if (low[at] !== seen[at]) continue;
        const part = stack.splice(stack.lastIndexOf(at));
        for (const one of part) isOpen[one] = 0;
        if (part.length > 1) part.sort((one, other) => one - other);
        found.push(part);
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
      const told = {
        hands: isWatch ? Math.max(1, task.hands) : task.hands,
        split: Boolean(task.split) && !isWatch,
        places: [...new Set(task.places || [])].filter((place) => (problem.places || {})[place] !== 0),
        attended: isWatch || (task.wait && task.wait.attended) ? rest : 0,
      };
      if (!task.done) waive(problem, at, told, isWatch, calendar, faults);
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
    const whole = minutes + told.attended;
    if (isTooLong && !isWatch) faults.push({ task: at, why: "opening", with: [minutes, longest] });
    else if (isWatch && whole > longest) faults.push({ task: at, why: "watch", with: [whole, longest] });
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
    const checks = claims.map((mine) => mine.filter((claim) => claim.most < NEVER));
    const holds = claims.map((mine) => mine.filter((claim) => claim.amount > 0));
    return { checks, holds, profiles: [...profiles.values()] };
  }

  /** Arcs without those of a loop, which are told. @param {PlanProblem} problem @param {PlanFault[]} faults */
  function soundArcs(problem, faults) {
    const { tasks } = problem;
    const arcs = problem.arcs.filter(([from, to]) => from !== to && !tasks[to].done);
    const loopOf = new Int32Array(tasks.length);
    const open = arcs.filter(([from]) => !tasks[from].done);
    circles(tasks.length, linked(tasks.length, open)).forEach((part, index) => {
      for (const one of part) loopOf[one] = index;
      if (part.length > 1) for (const one of part) faults.push({ task: one, why: "loop", with: part });
    });
    for (const [from, to] of problem.arcs) {
      if (from === to && !tasks[to].done) faults.push({ task: to, why: "loop", with: [to] });
    }
    return arcs.filter(([from, to]) => loopOf[from] !== loopOf[to]);
  }

  /** The head of each task's block: tasks that limits join, and all that lies between them, move as one.
   * @param {number} count @param {number[][]} arcs @param {number[][]} limits */
  function headsOf(count, arcs, limits) {
    const head = Int32Array.from({ length: count }, (_, at) => at);
    /** @param {number} at @returns {number} */
    const headOf = (at) => {
      while (head[at] !== at) at = head[at] = head[head[at]];
      return at;
    };
    for (const [from, to] of limits) head[headOf(from)] = headOf(to);
    if (limits.length) {
      const between = arcs.map(([from, to]) => [headOf(from), headOf(to), 0]).filter(([from, to]) => from !== to);
      for (const part of circles(count, linked(count, between))) for (const one of part) head[headOf(one)] = headOf(part[0]);
    }
    return head.map((_, at) => headOf(at));
  }

  /** @param {number} count @param {number[][]} arcs @param {number[][]} limits @param {Uint8Array} isDone */
  function blocksOf(count, arcs, limits, isDone) {
    const heads = headsOf(count, arcs, limits);
    const blockOf = new Int32Array(count).fill(-1);
    const blocks = /** @type {PlanBlock[]} */ ([]);
    for (let at = 0; at < count; at += 1) {
      if (isDone[at]) continue;
      const head = heads[at];
      if (blockOf[head] < 0) blockOf[head] = blocks.push({ members: [], before: 0, after: [], byDue: [] }) - 1;
      blockOf[at] = blockOf[head];
      blocks[blockOf[at]].members.push(at);
    }
    for (const [from, to] of arcs) {
      const [one, other] = [blockOf[from], blockOf[to]];
      if (one === other) continue;
      blocks[one].after.push(other);
      blocks[other].before += 1;
    }
    return { blocks, blockOf };
  }

  /** Within a block, the first to run out of time first. @param {ShapedPlan} shaped @param {PlanBlock} block */
  function byDue(shaped, { members }) {
    const { after, limitsFrom, minutes, rank } = shaped;
    const inOrder = members.slice().sort((one, other) => rank[one] - rank[other]);
    const inside = new Set(inOrder);
    const earliest = new Map(inOrder.map((at) => [at, 0]));
    const due = new Map(inOrder.map((at) => [at, shaped.due[at]]));
    for (const at of inOrder) {
      const end = Number(earliest.get(at)) + minutes[at];
      for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
        const to = after.to[link];
        if (inside.has(to)) earliest.set(to, Math.max(Number(earliest.get(to)), end + after.lag[link]));
      }
      for (let link = limitsFrom.from[at]; link < limitsFrom.from[at + 1]; link += 1) {
        const to = limitsFrom.to[link];
        due.set(to, Math.min(Number(due.get(to)), end + limitsFrom.lag[link]));
      }
    }
    for (const at of inOrder.slice().reverse()) {
      for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
        const to = after.to[link];
        if (inside.has(to)) due.set(at, Math.min(Number(due.get(at)), Number(due.get(to)) - after.lag[link] - minutes[at]));
      }
    }
    return inOrder.sort((one, other) => Number(due.get(one)) - Number(due.get(other)) || rank[one] - rank[other]);
  }

  /** What binds a task by the clock, by itself or by what is done. @param {PlanProblem} problem @param {number[][]} arcs
   * @param {number[][]} limits */
  function clockOf({ tasks }, arcs, limits) {
    const earliest = Int32Array.from(tasks, (task) => Math.max(0, task.earliest || 0));
    const due = new Int32Array(tasks.length).fill(NEVER);
    const dueBy = tasks.map(() => /** @type {number[]} */ ([]));
    for (const [from, to, lag] of arcs) {
      const done = tasks[from].done;
      if (done) earliest[to] = Math.max(earliest[to], done.end + lag);
    }
    for (const [from, to, most] of limits) {
      const done = tasks[from].done;
      if (!done || done.end + most >= due[to]) continue;
      due[to] = done.end + most;
      dueBy[to] = [from, most];
    }
    return { earliest, due, dueBy };
  }

  /** How much time is still to go from a task's start, by arcs alone; the weight of a task's own time is told.
   * @param {ShapedPlan} shaped @param {(at: number) => number} weight */
  function tailsOf({ count, inOrder, rest, after, minutes }, weight) {
    const tail = new Int32Array(count);
    for (let turn = inOrder.length - 1; turn >= 0; turn -= 1) {
      const at = inOrder[turn];
      let most = rest[at];
      for (let link = after.from[at]; link < after.from[at + 1]; link += 1) {
        most = Math.max(most, after.lag[link] + tail[after.to[link]]);
      }
      tail[at] = minutes[at] * weight(at) + most;
    }
    return tail;
  }

  /** Lay anew what limits bind. @param {ShapedPlan} shaped @param {number[][]} limits */
  function bind(shaped, limits) {
    shaped.limits = limits;
    shaped.limitsFrom = linked(shaped.count, limits);
    shaped.limitsTo = linked(shaped.count, limits.map(([from, to, most]) => [to, from, most]));
  }

  /** @param {PlanProblem} problem @returns {ShapedPlan} */
  function shape(problem) {
    const calendar = new Calendar(problem.hours, problem.start);
    const { tasks } = problem;
    const count = tasks.length;
    const { own, faults } = ownNumbers(problem, calendar);
    const sound = soundArcs(problem, faults);
    const bounds = (problem.limits || []).filter(([from, to]) => from !== to && !tasks[to].done);
    const isDone = Uint8Array.from(tasks, (task) => (task.done ? 1 : 0));
    const [arcs, limits] = [sound, bounds].map((rows) => rows.filter(([from]) => !isDone[from]));
    const after = linked(count, arcs);
    const inOrder = circles(count, after).map((part) => part[0]);
    const rank = new Int32Array(count);
    inOrder.forEach((at, turn) => (rank[at] = turn));
    /** @type {ShapedPlan} */
    const shaped = {
      count, tasks, minutes: Int32Array.from(tasks, (task) => task.minutes), ...clockOf(problem, sound, bounds),
      ...claimsOf(problem, own), ...blocksOf(count, arcs, limits, isDone), after,
      before: linked(count, arcs.map(([from, to, lag]) => [to, from, lag])), limits, limitsTo: after, limitsFrom: after,
      rest: Int32Array.from(tasks, (task) => (task.wait ? task.wait.least : 0)),
      attended: Int32Array.from(own, (one) => one.attended), split: Uint8Array.from(own, (one) => (one.split ? 1 : 0)),
      isDone, calendar, inOrder, rank, tail: rank, faults, hands: problem.hands, handsOf: own.map((one) => one.hands),
    };
    bind(shaped, limits);
    shaped.tail = tailsOf(shaped, () => 1);
    for (const block of shaped.blocks) block.byDue = block.members.length > 1 ? byDue(shaped, block) : block.members;
    return shaped;
  }

  seambook.scheduleProblem = { shape, bind, tailsOf, WORK, WHOLE, REST };
})();
