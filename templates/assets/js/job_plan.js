/**
 * One car, one plan: a job's procedures merged in a lawful order (merge.js), then planned (schedule.js) by likely minutes, and
 * by low and high ones in the same order. Pure: the same job and book give the same plan. The merged order is kept while the
 * procedures chosen stay the same, so that typing only plans anew. Needs job_kept.js besides.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});

  /** @type {{key: string, library: any, merged: any}} */
  let last = { key: "", library: null, merged: null };

  /** The finding of an id, as a run hangs on one. @param {any} job @param {string | undefined} id */
  function findingOf(job, id) {
    return id ? (job.findings || []).find((/** @type {any} */ one) => one.id === id) || null : null;
  }

  /** @param {any} job @param {any} library */
  function runsOf(job, library) {
    const { has, isBegun } = seambook.jobKept;
    const seen = new Set();
    return job.runs.filter((/** @type {any} */ run) => {
      const name = seambook.jobKept.runName(run);
      if (seen.has(name) || !has(library.procedures, run.procedure)) return false;
      seen.add(name);
      const finding = findingOf(job, run.finding);
      const data = library.procedures[run.procedure];
      return !(finding && finding.answer === "no" && !isBegun(job, run, data));
    });
  }

  /** @param {any[]} runs @param {any} library */
  function mergedOf(runs, library) {
    const key = runs.map(seambook.jobKept.runName).join(" ");
    if (last.key === key && last.library === library.book && last.merged) return last.merged;
    const { wide, rules, planning, daily } = library.book;
    const stages = planning ? planning.stages : null;
    const toLast = planning ? planning.with_the_last : [];
    const chosen = runs.map(({ procedure, side }) => ({ procedure, side }));
    const merged = seambook.merge.merge(chosen, { procedures: library.procedures, wide, rules, stages, last: toLast, daily });
    for (const node of merged.nodes) {
      const others = node.also.map((/** @type {string} */ id) => seambook.jobTasks.stepOf(id, library)).filter(Boolean);
      node.step = seambook.jobKept.joined(node.step, others);
    }
    last = { key, library: library.book, merged };
    return merged;
  }

  /** Work that a finding adds without a procedure of its own: after the step at which it was found. @param {any} job @param {any} merged */
  function withFindings(job, merged) {
    const more = (job.findings || []).filter((/** @type {any} */ one) => one.minutes > 0 && one.answer !== "no");
    if (!more.length) return merged;
    const nodes = [...merged.nodes];
    const arcs = [...merged.arcs];
    for (const one of more) {
      const from = merged.nodes.findIndex((/** @type {any} */ node) => node.id === one.step || node.also.includes(one.step));
      const step = { key: one.id, number: "", minutes: one.minutes, low: one.minutes, high: one.minutes, hands: 1, do: one.where, split: true, traits: [] };
      nodes.push({ id: `finding@#${one.id}`, step, also: [], chain: -1, run: { procedure: "finding", side: "" }, finding: one.id });
      if (from >= 0) arcs.push({ from, to: nodes.length - 1, kind: "own", rule: "", state: -1, lag: 0 });
    }
    return { ...merged, nodes, arcs };
  }

  /** @param {any} job @param {any} node */
  function waitsFor(job, node) {
    const run = job.runs.find((/** @type {any} */ one) => one.procedure === node.run.procedure && one.side === node.run.side);
    const finding = findingOf(job, node.finding || (run && run.finding));
    return finding && finding.answer !== "yes" && !finding.make_safe ? finding.id : null;
  }

  /** @param {any} problem @param {string[]} previous @param {number} passes */
  function schedule(problem, previous, passes) {
    return seambook.schedule.plan({ ...problem, previous, passes });
  }

  /** Low and high, in the order of the likely plan. @param {any} job @param {any} merged @param {any} library @param {"low" | "high"} how @param {string[]} order */
  function finishBy(job, merged, library, how, order) {
    const { problem } = seambook.jobTasks.problemOf(job, merged, library, how);
    return schedule(problem, order, 0).finish;
  }

  /** The earliest and the latest end. @param {any} job @param {any} merged @param {any} library @param {string[]} order @param {number} likely */
  function endsOf(job, merged, library, order, likely) {
    const at = (/** @type {number} */ minutes) => seambook.jobTasks.momentOf(job.start, minutes);
    return {
      low: at(Math.min(finishBy(job, merged, library, "low", order), likely)),
      high: at(Math.max(finishBy(job, merged, library, "high", order), likely)),
    };
  }

  /** Those of the plan before, while one types. @param {any} previous @param {number} likely @param {(minutes: number) => number} at */
  function ends(previous, likely, at) {
    const end = at(likely);
    return { low: Math.min((previous && previous.low) || end, end), high: Math.max((previous && previous.high) || end, end) };
  }

  /** @param {any} job @param {any} merged @param {any} planned */
  function rowsOf(job, merged, planned) {
    const critical = new Set(planned.critical);
    const ticks = seambook.jobKept.ticks(job, merged.nodes);
    const at = (/** @type {number} */ minutes) => seambook.jobTasks.momentOf(job.start, minutes);
    return merged.nodes.map((/** @type {any} */ node, /** @type {number} */ n) => {
      const { start, end, until, parts } = planned.rows[n];
      return {
        id: node.id, node, start: at(start), end: at(end), until: at(until),
        parts: parts.map((/** @type {number[]} */ [from, to]) => [at(from), at(to)]), critical: critical.has(n),
        done: ticks.has(node.id), waiting: waitsFor(job, node), n, slack: planned.slack ? planned.slack[n] : 0,
      };
    }).sort((/** @type {any} */ one, /** @type {any} */ other) => one.start - other.start || one.end - other.end || one.n - other.n);
  }

  /** Minutes still to be worked. @param {any} job @param {any} problem */
  function leftOf(job, problem) {
    return problem.tasks.reduce((/** @type {number} */ sum, /** @type {any} */ task) => sum + (task.done ? 0 : task.minutes), 0);
  }

  /**
   * @param {any} job as in the job file @param {{book: any, procedures: any}} library
   * @param {any} [previous] the plan before, whose order is the first candidate @param {{quick?: boolean}} [options]
   */
  function plan(job, library, previous, options) {
    const started = mergedOf(runsOf(job, library), library);
    const merged = withFindings(job, started);
    const { problem, again, cold, alone } = seambook.jobTasks.problemOf(job, merged, library, "likely");
    const before = (previous && previous.order) || job.order || [];
    const isQuick = !!options && !!options.quick;
    const planned = schedule(problem, before, isQuick ? 0 : seambook.schedule.passesFor(problem.tasks.length));
    const order = planned.order.map((/** @type {number} */ n) => problem.tasks[n].id);
    const at = (/** @type {number} */ minutes) => seambook.jobTasks.momentOf(job.start, minutes);
    const likely = planned.finish;
    const problems = seambook.jobTold.problems(problem, planned, merged, cold, alone, library, job);
    const result = {
      ok: merged.whole && !problems.length, problems, merged, problem, planned, rows: rowsOf(job, merged, planned), finish: at(likely),
      ...(isQuick ? ends(previous, likely, at) : endsOf(job, merged, library, order, likely)), likely: at(likely),
      left: leftOf(job, problem), handsOn: problem.tasks.reduce((/** @type {number} */ sum, /** @type {any} */ task) => sum + task.minutes, 0),
      idle: planned.idle, critical: planned.critical.map((/** @type {number} */ n) => problem.tasks[n].id),
      causes: planned.causes || [], again: seambook.jobTold.again(again, planned, problem, merged), owed: merged.owed, taken: merged.taken, order, advice: /** @type {any[]} */ ([]),
    };
    result.advice = isQuick ? (previous && previous.advice) || [] : seambook.jobTold.advice(job, problem, planned, order, library);
    return result;
  }

  seambook.jobPlan = { plan };
})();
