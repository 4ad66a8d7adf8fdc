/**
 * What holds for its own day alone -> which steps a plan keeps on one day, and where that cannot be: there it is made again.
 * Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** The least minutes from a task's end to the start of each that comes after it; tasks stand in an order of their arcs.
   * @param {number} from @param {any[]} tasks @param {number[][][]} after */
  function distances(from, tasks, after) {
    const least = new Map([[from, 0]]);
    for (let at = from; at < tasks.length; at += 1) {
      const reached = least.get(at);
      if (reached === undefined) continue;
      const end = at === from ? 0 : reached + tasks[at].minutes;
      for (const [to, lag] of after[at]) least.set(to, Math.max(least.get(to) ?? 0, end + lag));
    }
    return least;
  }

  /** @param {number} count @param {number[][]} arcs @returns {number[][][]} */
  function afterOf(count, arcs) {
    const after = Array.from({ length: count }, () => /** @type {number[][]} */ ([]));
    for (const [from, to, lag] of arcs) after[from].push([to, lag]);
    return after;
  }

  /**
   * @param {any[][]} pairs who makes it, who needs it, and the state @param {any[]} tasks @param {number[][]} arcs
   * @param {{opens: number, closes: number} | null} hours
   * @returns {{limits: number[][], again: any[][]}} of each maker and procedure the last step that it can be on one day with
   */
  function daysOf(pairs, tasks, arcs, hours) {
    if (!hours) return { limits: [], again: [] };
    const day = hours.closes - hours.opens;
    const after = afterOf(tasks.length, arcs);
    /** @type {Map<number, Map<number, number>>} */
    const known = new Map();
    /** @type {Map<string, number[]>} */
    const last = new Map();
    const again = [];
    for (const [from, to, state] of pairs) {
      if (tasks[to].done) continue;
      const least = known.get(from) || distances(from, tasks, after);
      known.set(from, least);
      const whole = tasks[from].minutes + (least.get(to) || 0) + (tasks[to].split ? 0 : tasks[to].minutes);
      const isPast = tasks[from].done && Math.max(tasks[to].earliest, tasks[from].done.end) - tasks[from].done.end > day;
      if (whole > day || isPast) again.push([from, to, state]);
      else last.set(`${from} ${tasks[to].chain}`, [from, Math.max(to, (last.get(`${from} ${tasks[to].chain}`) || [0, 0])[1]), day]);
    }
    return { limits: [...last.values()], again };
  }

  seambook.jobDays = { daysOf };
})();
