/**
 * The order in which the bay shows a job's steps. One procedure alone goes by its own order. A job goes by its plan; until that is
 * worked out, by the order that it was planned in last, which is good enough to be looked at. Pure. Needs job_kept.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { jobKept } = seambook;

  /** The steps of a job's procedures, each by its name, run by run. @param {any} job @param {any} procedures @returns {Map<string, any>} */
  function stepsOf(job, procedures) {
    const found = new Map();
    for (const run of job.runs) {
      for (const step of procedures[run.procedure]?.steps || []) {
        found.set(`${jobKept.runName(run)}#${step.key}`, { step, run });
      }
    }
    return found;
  }

  /** Nodes as merging makes them: what procedures share stands once, under the name that comes first.
   * @param {any} job @param {any} procedures */
  function nodesOf(job, procedures) {
    const steps = stepsOf(job, procedures);
    const first = job.order.filter((/** @type {string} */ id) => steps.has(id));
    const order = new Set([...first, ...steps.keys()]);
    /** @type {Map<string, any>} */
    const shared = new Map();
    const nodes = [];
    for (const id of order) {
      const { step, run } = steps.get(id);
      const name = `${step.key} ${step.act}`;
      const known = step.shared && !job.alone ? shared.get(name) : null;
      if (known && !first.includes(id)) {
        known.also.push(id);
        continue;
      }
      const node = { id, step, run, also: /** @type {string[]} */ ([]) };
      if (step.shared) shared.set(name, node);
      nodes.push(node);
    }
    for (const node of nodes) node.step = jobKept.joined(node.step, node.also.map((id) => steps.get(id).step));
    return nodes;
  }

  /** Each procedure's own order, and what waits for a wait. @param {any[]} nodes */
  function arcsOf(nodes) {
    /** @type {Map<string, number>} */
    const last = new Map();
    return nodes.flatMap((node, to) => {
      const name = jobKept.runName(node.run);
      const from = last.get(name);
      last.set(name, to);
      return from === undefined ? [] : [{ from, to, kind: "own", rule: "", state: -1, lag: nodes[from].step.wait?.least || 0 }];
    });
  }

  /** A plan that knows an order and no times. @param {any} job @param {any} procedures */
  function own(job, procedures) {
    const nodes = nodesOf(job, procedures);
    const ticks = jobKept.ticks(job, nodes);
    const rows = nodes.map((node, n) => ({
      id: node.id, node, n, start: n, end: n, until: n, parts: [], critical: false, waiting: null, done: ticks.has(node.id),
    }));
    const order = job.alone ? nodes.map(({ id }) => id) : job.order;
    return {
      ok: true, isSketch: !job.alone, problems: [], merged: { nodes, arcs: arcsOf(nodes), whole: true }, problem: { tasks: [] },
      rows, order, finish: NaN, left: NaN, critical: [], advice: [],
    };
  }

  /** The plan that the bay goes by. @param {any} job @param {any} before */
  function of(job, before) {
    const { jobProcedures: procedures, jobPlan, jobLibrary } = seambook;
    if (job.alone || !jobPlan) return own(job, procedures);
    const known = job.runs.filter((/** @type {any} */ run) => procedures[run.procedure]);
    return jobPlan.plan({ ...job, runs: known }, jobLibrary.library(), before?.isSketch ? null : before, { quick: true });
  }

  seambook.bayPlan = { own, of };
})();
