/**
 * What a job keeps of a step, by whichever name it was written down. A step that several procedures share is done once, under
 * the name of the procedure that came to it first; when procedures are added or taken out, that may be another one. So what
 * is kept is looked for under the step's own name and under the names of all that are done with it. Pure.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});

  /** @param {any} mapping @param {string} key */
  function has(mapping, key) {
    return !!mapping && Object.prototype.hasOwnProperty.call(mapping, key);
  }

  /** A procedure on its side, by name. @param {{procedure: string, side?: string}} run */
  function runName({ procedure, side }) {
    return `${procedure}@${side || ""}`;
  }

  /** All names of a step. @param {{id: string, also?: string[]}} step @returns {string[]} */
  function names({ id, also }) {
    return [id, ...(also || [])];
  }

  /** The name under which a mapping keeps something of a step; the step's own where there is none.
   * @param {any} mapping @param {{id: string, also?: string[]}} step @param {string} [tail] what follows the name, as in readings */
  function keyOf(mapping, step, tail = "") {
    return names(step).map((one) => one + tail).find((one) => has(mapping, one)) || step.id + tail;
  }

  /** @param {any} mapping @param {{id: string, also?: string[]}} step @param {string} [tail] */
  function of(mapping, step, tail) {
    const key = keyOf(mapping, step, tail);
    return has(mapping, key) ? mapping[key] : undefined;
  }

  /** What all names have together, as of photographs. @param {any} mapping @param {{id: string, also?: string[]}} step @returns {any[]} */
  function all(mapping, step) {
    return names(step).flatMap((one) => (has(mapping, one) ? mapping[one] : []));
  }

  /** The latest of several ticks, and of equals that which says how long it took. @param {any[]} ticks */
  function latest(ticks) {
    return ticks.reduce((one, other) =>
      (other.at > one.at || (other.at === one.at && (other.minutes || 0) > (one.minutes || 0)) ? other : one));
  }

  /** Whether one of two steps makes what the other takes away. @param {any} one @param {any} other */
  function isOpposite(one, other) {
    const meets = (/** @type {number[]} */ some = [], /** @type {number[]} */ others = []) => some.some((state) => others.includes(state));
    return meets(one.makes, other.spoils) || meets(one.spoils, other.makes);
  }

  /**
   * The tick of each step, by its name. What was ticked for some of its procedures and not for all (one was added since) is
   * done for all, unless it was undone meanwhile, or will be undone anew, or is left to the last of them.
   * @param {any} job @param {any[]} nodes in lawful order @returns {Map<string, any>}
   */
  function ticks(job, nodes) {
    const done = job.done || {};
    const found = new Map();
    const ticked = nodes.map((node) => names(node).filter((one) => has(done, one)));
    nodes.forEach((node, at) => {
      if (!ticked[at].length) return;
      const isWhole = ticked[at].length === names(node).length;
      if (isWhole || isStanding(nodes, at, ticked, found)) found.set(node.id, latest(ticked[at].map((one) => done[one])));
    });
    return found;
  }

  /** @param {any[]} nodes @param {number} at @param {string[][]} ticked @param {Map<string, any>} found those before it that are done */
  function isStanding(nodes, at, ticked, found) {
    const node = nodes[at];
    if (node.isLast) return false;
    return !nodes.some((other, n) => n !== at && (n < at ? !found.has(other.id) : ticked[n].length) && isOpposite(node, other));
  }

  /** Whether a procedure's own work was begun: what it shares with others may have been ticked for them.
   * @param {any} job @param {{procedure: string, side?: string}} run @param {any} data of the procedure, as far as it is known */
  function isBegun(job, run, data) {
    const start = `${runName(run)}#`;
    const shared = new Set(((data && data.steps) || []).flatMap((/** @type {any} */ step) => (step.shared ? [step.key] : [])));
    return Object.keys(job.done || {}).some((id) => id.startsWith(start) && !shared.has(id.slice(start.length)));
  }

  /** What a step has from all that are done with it: no measure, hold point or danger is left out because another procedure
   * came first. @param {any} step @param {any[]} others */
  function joined(step, others) {
    if (!others.length) return step;
    const every = [step, ...others];
    const union = (/** @type {string} */ key) => [...new Set(every.flatMap((one) => one[key] || []))];
    const measures = new Map(every.flatMap((one) => one.measures || []).reverse().map((/** @type {any} */ one) => [one.name, one]));
    const order = [...new Set(every.flatMap((one) => (one.measures || []).map((/** @type {any} */ measure) => measure.name)))];
    const points = every.map((one) => one.hold).filter(Boolean);
    return {
      ...step, measures: order.map((name) => measures.get(name)), hold: points.find(({ sort }) => sort === "hold") || points[0] || null,
      hazards: union("hazards"), tools: union("tools"), supplies: union("supplies"), on: union("on"), traits: union("traits"),
      photo: every.map((one) => one.photo).find(Boolean) || "", watch: every.some((one) => one.watch),
    };
  }

  /** Hand what is kept under names that leave the job to a name of the same step that stays.
   * @param {any} job @param {any[]} nodes @param {(id: string) => boolean} leaves */
  function handOver(job, nodes, leaves) {
    for (const node of nodes) {
      const stays = names(node).find((one) => !leaves(one));
      const gone = names(node).filter(leaves);
      if (stays) for (const one of gone) moveAll(job, one, stays);
    }
  }

  /** @param {any} job @param {string} from @param {string} to */
  function moveAll(job, from, to) {
    if (has(job.photos, from)) job.photos[to] = [...(job.photos[to] || []), ...job.photos[from]];
    if (has(job.photos, from)) delete job.photos[from];
    if (has(job.done, from) && !has(job.done, to)) job.done[to] = { ...job.done[from] };
    for (const mapping of [job.releases, job.notes_by_step]) move(mapping, from, to);
    for (const timer of job.timers || []) if (timer.step === from) timer.step = to;
    for (const key of Object.keys(job.readings || {})) {
      if (key.startsWith(`${from}/`)) move(job.readings, key, to + key.slice(from.length));
    }
  }

  /** What stands there already is not written over. @param {any} mapping @param {string} from @param {string} to */
  function move(mapping, from, to) {
    if (!has(mapping, from) || has(mapping, to)) return;
    mapping[to] = mapping[from];
    delete mapping[from];
  }

  seambook.jobKept = { has, runName, names, keyOf, of, all, ticks, isBegun, joined, handOver };
})();
