/**
 * What a job orders: the rows that its procedures take, counted once where they are one thing, with waste and in packs; parts,
 * tools, people and labour; and what all that costs where prices are given. Each line says how it came about.
 *
 * Pure: no page, no clock. Needs job_kept.js. What is not agreed with the
 * customer yet is not ordered, but for what has to be made safe at once.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const OTHER = /** @type {Record<string, string>} */ ({ left: "right", right: "left" });
  /** So that a third of a pack, three times, is one pack. */
  const ROUNDING = 1e-9;
  const HOUR = 60;

  /** A number with three figures at least, its thousands parted. @param {number} value */
  function said(value) {
    const size = Math.abs(value);
    const places = size >= 100 || Number.isInteger(value) ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
    const [whole, rest] = value.toFixed(places).split(".");
    return whole.replace(/\B(?=(?:\d{3})+$)/g, ",") + (rest ? `.${rest}` : "");
  }

  /** To the cent, so that what is added up is what is read. @param {number} sum */
  function cents(sum) {
    return Math.round(sum * 100) / 100;
  }

  /** @param {number} sum @param {string} currency */
  function money(sum, currency) {
    return `${sum.toFixed(2)} ${currency || ""}`.trim();
  }

  /** @param {any} run @returns {string} */
  function nameOf(run) {
    return seambook.jobKept.runName(run);
  }

  /** Whether a finding's work is ordered for: once the customer has said yes; what is made safe at once, unless it was refused.
   * @param {any} finding */
  function isOrdered({ answer, make_safe: isSafe }) {
    return answer === "yes" || (!!isSafe && answer !== "no");
  }

  /** The runs that are ordered for: those of a finding where it is. @param {any} job @param {any} library */
  function runsOf(job, library) {
    const agreed = new Set((job.findings || []).filter(isOrdered).map((/** @type {any} */ one) => one.id));
    return (job.runs || []).filter((/** @type {any} */ run) => library.procedures[run.procedure] && (!run.finding || agreed.has(run.finding)));
  }

  /** Whether it is for a part that a car has on the other side alone. @param {any} one @param {any} run */
  function isElsewhere(one, run) {
    return !!one.only && !!run.side && one.only !== run.side;
  }

  /** By what name a row is counted once, on its side of the car. @param {any} row @param {any} run @param {number} at */
  function keyOf(row, run, at) {
    if (!row.once) return `${row.supply} ${nameOf(run)}#${row.step} ${at}`;
    const [subject, side, ...way] = row.once.split("|");
    const own = !row.sided ? "" : side === "other" ? OTHER[run.side] || side : run.side || side || "";
    return [row.supply, subject, own, ...way].join("|");
  }

  /**
   * The rows of all runs by supply. Of steps that are done as one, the first that lists a supply takes it and the others nothing again.
   * @param {any[]} runs @param {any} library @param {Map<string, string>} together @returns {Map<string, any[]>}
   */
  function linesOf(runs, library, together) {
    /** @type {Map<string, any[]>} */
    const bySupply = new Map();
    /** @type {Map<string, any>} */
    const known = new Map();
    /** @type {Map<string, string>} */
    const takers = new Map();
    for (const run of runs) {
      const data = library.procedures[run.procedure];
      (data.takes || []).forEach((/** @type {any} */ row, /** @type {number} */ at) => {
        const step = `${nameOf(run)}#${row.step}`;
        const whole = `${together.get(step) || step} ${row.supply}`;
        if (isElsewhere(row, run) || (takers.get(whole) || step) !== step) return;
        takers.set(whole, step);
        const key = keyOf(row, run, at);
        const line = { how: row.how, amount: row.amount ?? null, unit: row.unit, steps: [step], title: data.title + (run.side ? `, ${run.side}` : "") };
        const before = known.get(key);
        if (before) return void again(before, line);
        known.set(key, line);
        bySupply.set(row.supply, [...(bySupply.get(row.supply) || []), line]);
      });
    }
    return bySupply;
  }

  /** The same thing in another procedure counts once, by the larger figure. @param {any} before @param {any} line */
  function again(before, line) {
    before.steps.push(...line.steps);
    if (line.amount !== null && (before.amount === null || line.amount > before.amount)) {
      Object.assign(before, { amount: line.amount, how: line.how, title: line.title });
    }
  }

  /** Packs that findings add by the piece. @param {any} job @returns {Map<string, {packs: number, where: string}[]>} */
  function addedBy(job) {
    /** @type {Map<string, {packs: number, where: string}[]>} */
    const added = new Map();
    for (const finding of job.findings || []) {
      for (const one of isOrdered(finding) ? finding.supplies || [] : []) {
        if (one.packs > 0) added.set(one.supply, [...(added.get(one.supply) || []), { packs: one.packs, where: finding.where }]);
      }
    }
    return added;
  }

  /**
   * One supply with its packs and price. @param {string} id @param {any[]} lines @param {{packs: number, where: string}[]} added
   * @param {any} job @param {any} book
   */
  function supplyOf(id, lines, added, job, book) {
    const record = book.supplies?.[id] || { title: id };
    const pack = record.pack || null;
    const counted = lines.filter(({ amount }) => amount !== null);
    const amount = counted.length ? counted.reduce((sum, line) => sum + line.amount, 0) : null;
    const withWaste = amount === null ? null : amount * (1 + (record.waste || 0));
    const more = added.reduce((sum, one) => sum + one.packs, 0);
    const need = withWaste === null || !pack ? null : withWaste / pack.size;
    // Only whole packs are bought, whatever part of one a finding asks for.
    const whole = Math.ceil(more - ROUNDING);
    const packs = need === null ? (whole || null) : Math.ceil(need - ROUNDING) + whole;
    const price = job.prices?.supplies?.[id] ?? null;
    const share = record.always_whole ? packs : (need === null ? (more || null) : need + more);
    const cost = typeof price === "number" && share !== null ? cents(price * share) : null;
    const line = {
      id, title: record.title, path: record.path || "", amount, unit: pack?.unit || lines[0]?.unit || "", withWaste, packs, pack, price, share, cost,
      open: lines.length - counted.length, lines: [...lines, ...added.map((one) => ({ how: `${one.packs} × ${pack?.say || "pack"}: ${one.where}`, amount: null, unit: "", steps: [], title: "Finding" }))],
    };
    return { ...line, how: howOf(line, record, whole, job.prices?.currency || "") };
  }

  /** In words and figures. @param {any} line @param {any} record @param {number} more @param {string} currency */
  function howOf(line, record, more, currency) {
    const { amount, withWaste, unit, packs, pack, price, cost } = line;
    const parts = [];
    if (amount !== null) {
      const waste = record.waste ? ` and ${said(record.waste * 100)} % waste = ${said(withWaste)} ${unit}` : "";
      parts.push(`${said(amount)} ${unit}${waste}`);
    }
    if (packs !== null && pack) parts.push(`${packs} × ${pack.say}${pack.size === 1 ? "" : ` of ${said(pack.size)} ${pack.unit}`}${more ? `, ${more} of them for findings` : ""}`);
    if (cost !== null) {
      const share = record.always_whole ? `${packs} × ${money(price, "")}` : `${said(line.share)} of a ${pack?.say || "pack"} at ${money(price, "")}`;
      parts.push(`${share} = ${money(cost, currency)}`);
    }
    if (line.open) parts.push(`${line.open} ${line.open === 1 ? "step takes" : "steps take"} some, with no amount given`);
    return parts.join("; ");
  }

  /** @param {any[]} runs @param {any} library */
  function toolsOf(runs, library) {
    const ids = new Set(runs.flatMap((run) => {
      const data = library.procedures[run.procedure];
      return [...(data.tools || []), ...(data.steps || []).flatMap((/** @type {any} */ step) => step.tools || [])];
    }));
    return [...ids].map((id) => ({ id, title: id, path: "", checks: [], calibration: null, ...library.book.tools?.[id] }))
      .sort((one, other) => Number(!one.calibration) - Number(!other.calibration) || (one.title < other.title ? -1 : 1));
  }

  /** Of each role as many as one procedure asks for at most. @param {any[]} runs @param {any} library */
  function peopleOf(runs, library) {
    /** @type {Map<string, number>} */
    const most = new Map();
    for (const run of runs) {
      for (const { who, count } of library.procedures[run.procedure].people || []) most.set(who, Math.max(most.get(who) || 0, count || 1));
    }
    return [...most].map(([who, count]) => ({ who, count }));
  }

  /** A part that two procedures of one side name is one part. @param {any[]} runs @param {any} library */
  function partsOf(runs, library) {
    /** @type {Map<string, any>} */
    const parts = new Map();
    for (const run of runs) {
      const data = library.procedures[run.procedure];
      for (const part of data.parts || []) {
        const key = `${part.name}|${part.comes_from}|${run.side || ""}`;
        if (!parts.has(key) && !isElsewhere(part, run)) parts.set(key, { ...part, side: run.side || "", title: data.title });
      }
    }
    return [...parts.values()];
  }

  /** Minutes of hands, each step by what it took or else as planned, and who stays through a wait. @param {any} task @param {any} done */
  function minutesOf(task, done) {
    const hands = task.hands || 1;
    const stays = task.wait && task.wait.attended ? task.wait.least || 0 : 0;
    return (typeof done?.minutes === "number" ? done.minutes : task.minutes || 0) * hands + stays;
  }

  /** What is worked, as it is planned; without a plan every step as it is written. @param {any[]} runs @param {any} library @param {any} planned */
  function tasksOf(runs, library, planned) {
    if (planned?.problem) {
      const ordered = new Set(runs.map(nameOf));
      const nodes = new Map((planned.merged?.nodes || []).map((/** @type {any} */ node) => [node.id, node]));
      return planned.problem.tasks.filter((/** @type {any} */ task) =>
        [task.id, ...(nodes.get(task.id)?.also || [])].some((id) => ordered.has(id.split("#")[0])));
    }
    return runs.flatMap((run) => (library.procedures[run.procedure].steps || []).map((/** @type {any} */ step) => ({ ...step, id: `${nameOf(run)}#${step.key}` })));
  }

  /** @param {any} job @param {any[]} runs @param {any} library @param {any} planned */
  function labourOf(job, runs, library, planned) {
    const tasks = tasksOf(runs, library, planned);
    const ticks = seambook.jobKept.ticks(job, planned?.merged?.nodes?.length ? planned.merged.nodes : tasks);
    const steps = tasks.reduce((/** @type {number} */ sum, /** @type {any} */ task) => sum + minutesOf(task, ticks.get(task.id)), 0);
    const found = (job.findings || []).reduce((/** @type {number} */ sum, /** @type {any} */ one) => sum + (isOrdered(one) ? one.minutes || 0 : 0), 0);
    const minutes = steps + found;
    const rate = typeof job.prices?.labour === "number" ? job.prices.labour : null;
    const cost = rate === null ? null : cents((minutes / HOUR) * rate);
    const told = `${said(minutes)} minutes of hands (a step for two counts twice) in ${tasks.length} steps${found ? `, ${said(found)} of them for findings` : ""} = ${said(minutes / HOUR)} h`;
    return { minutes, hours: minutes / HOUR, rate, cost, how: cost === null || rate === null ? told : `${told} at ${money(rate, "")} = ${money(cost, job.prices.currency)}` };
  }

  /** The steps that are done as one, each with the name of the first. @param {any} planned @param {any[]} runs @returns {Map<string, string>} */
  function togetherIn(planned, runs) {
    const ordered = new Set(runs.map(nameOf));
    const groups = (planned?.merged?.nodes || []).map((/** @type {any} */ node) =>
      [node.id, ...(node.also || [])].filter((id) => ordered.has(id.split("#")[0])));
    return new Map(groups.flatMap((/** @type {string[]} */ group) => group.map((id) => [id, group[0]])));
  }

  /**
   * Sum a job up. @param {any} job as in the job file @param {{book: any, procedures: any}} library
   * @param {any} [planned] the job as planned: its minutes, and which steps are done once for several procedures
   */
  function sum(job, library, planned) {
    const runs = runsOf(job, library);
    const lines = linesOf(runs, library, togetherIn(planned, runs));
    const added = addedBy(job);
    const supplies = [...new Set([...lines.keys(), ...added.keys()])]
      .map((id) => supplyOf(id, lines.get(id) || [], added.get(id) || [], job, library.book))
      .sort((one, other) => (one.title < other.title ? -1 : 1));
    const labour = labourOf(job, runs, library, planned);
    const costs = [labour.cost, ...supplies.map(({ cost }) => cost)].filter((cost) => cost !== null);
    return {
      supplies, parts: partsOf(runs, library), tools: toolsOf(runs, library), people: peopleOf(runs, library), labour,
      total: costs.length ? cents(costs.reduce((whole, cost) => whole + cost, 0)) : null, currency: job.prices?.currency || "",
    };
  }

  /** A cell, quoted where it must be (RFC 4180); a text that a spreadsheet would work out gets a mark before it. @param {any} value */
  function cell(value) {
    if (typeof value === "number") return Number.isFinite(value) ? String(Math.round(value * 1e6) / 1e6) : "";
    const text = value === null || value === undefined ? "" : String(value);
    const safe = /^[\s\u0000-\u001f]*[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(text) || /^[\t\r\n]/.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
  }

  const HEAD = ["Sort", "What", "Needed", "With waste", "Unit", "Packs", "Pack", "Price", "Cost", "How it came about"];

  /** What a sum says as comma-separated values. @param {ReturnType<typeof sum>} told */
  function csv(told) {
    const rows = [
      HEAD,
      ...told.supplies.map((one) => ["supply", one.title, one.amount, one.withWaste, one.unit, one.packs, one.pack?.say, one.price, one.cost,
        [one.how, ...one.lines.map((line) => line.how)].filter(Boolean).join(" | ")]),
      ...told.parts.map((one) => ["part", one.side ? `${one.name}, ${one.side}` : one.name, 1, null, null, null, one.comes_from, null, null, one.note || one.title]),
      ...told.tools.map((one) => ["tool", one.title, null, null, null, null, null, null, null, one.calibration ? `calibrated every ${one.calibration.every}` : ""]),
      ...told.people.map((one) => ["people", one.who, one.count, null, null, null, null, null, null, ""]),
      ["labour", "Labour", told.labour.hours, null, "h", null, null, told.labour.rate, told.labour.cost, told.labour.how],
      ["sum", "Sum", null, null, told.currency, null, null, null, told.total, ""],
    ];
    return rows.map((row) => row.map(cell).join(",")).join("\r\n") + "\r\n";
  }

  seambook.takeoff = { sum, csv, cell };
})();
