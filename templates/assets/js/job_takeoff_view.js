/* The take-off: what to order by the pack and how each line came about, tools, people, parts, labour and sums. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const { table, record } = seambook.jobParts;

  /** @param {any} state @param {number | null | undefined} sum */
  function money(state, sum) {
    return typeof sum === "number" && Number.isFinite(sum) ? `${sum.toFixed(2)} ${state.job.prices?.currency || ""}`.trim() : "\u2013";
  }

  /** @param {number} amount @param {string} unit */
  function amountOf(amount, unit) {
    return typeof amount === "number" ? `${words.number(amount, Math.abs(amount) < 10 ? 2 : Math.abs(amount) < 100 ? 1 : 0)} ${unit || ""}`.trim() : "\u2013";
  }

  /** How a line came about, folded; on paper it is unfolded. @param {any} state @param {any} line @param {string} id */
  function about(state, line, id) {
    const items = (line.lines || []).map((/** @type {any} */ one) => {
      const steps = one.steps || [];
      return el("li", {}, typeof one.amount === "number" ? `${amountOf(one.amount, one.unit || line.unit)}: ` : "", one.how || "",
        el("span", { class: "note" }, " ", ...(steps.length ? seambook.jobParts.links(state, steps.slice(0, 6)) : [one.title || ""])));
    });
    if (!items.length) return null;
    return el("details", { class: "job-more", id }, el("summary", { text: "How it came about" }), line.how ? el("p", { text: line.how }) : null, el("ul", { class: "list" }, ...items));
  }

  /** So many packs, and how large one is: what is read to the dealer. @param {any} line @returns {any[]} */
  function packsOf({ packs, pack }) {
    if (!packs) return [el("span", { class: "note", text: "not counted" })];
    const size = pack && pack.size !== 1 ? ` of ${words.number(pack.size)} ${pack.unit}` : "";
    return [el("strong", { text: String(packs) }), ` \u00d7 ${pack?.say || "pack"}${pack?.say ? size : ""}`];
  }

  /** @param {any} state @param {any[]} all @param {boolean} isPaper */
  function supplies(state, all, isPaper) {
    if (!all.length) return el("p", { class: "none", text: "No step of this job says how much of a supply it takes." });
    const hasPrices = all.some(({ price }) => typeof price === "number");
    const heads = ["Supply", "Needed", "With waste", "Packs", ...(hasPrices ? ["Price", "Cost"] : [])];
    const lines = all.map((line) => {
      const title = line.path || state.book.supplies?.[line.id]?.path ? record({ title: line.title, path: line.path || state.book.supplies[line.id].path }, line.id) : line.title;
      return {
        cells: [
          [title, isPaper ? (line.how ? el("span", { class: "note how", text: line.how }) : null) : about(state, line, `take_${line.id}`)], amountOf(line.amount, line.unit), amountOf(line.withWaste, line.unit),
          packsOf(line), ...(hasPrices ? [money(state, line.price), money(state, line.cost)] : []),
        ],
      };
    });
    return table("Supplies to order", heads, lines, "take-off");
  }

  /** What to do before use stands on the tool's page; on paper names and calibration are enough. @param {any[]} all @param {boolean} isPaper */
  function tools(all, isPaper) {
    if (isPaper && all.length) {
      return [el("h2", { text: "Tools" }), el("ul", { class: "list tool-list" }, ...all.map((one) =>
        el("li", {}, one.title || one.id, one.calibration ? el("strong", { text: `, calibrated ${said(one.calibration)}` }) : null)))];
    }
    const lines = all.map((one) => ({ cells: [[record(one.path ? one : { title: one.title || one.id }, one.id)], said(one.calibration), [one.checks || []].flat().join("; ")] }));
    if (!lines.length) return [];
    const made = table("Tools and their calibration", ["Tool", "Calibration", "Before use"], lines);
    return [el("h2", { text: "Tools" }), el("details", { class: "job-more", id: "take_tools" }, el("summary", { text: words.counted(lines.length, "tool") }), made)];
  }

  /** @param {{every: string} | null} calibration */
  function said(calibration) {
    return calibration ? `every ${calibration.every}` : "";
  }

  /** @param {any[]} all */
  function people(all) {
    const items = all.map((one) => el("li", { text: one.count > 1 ? `${one.who}, ${one.count} of them` : one.who }));
    const note = el("p", { class: "note", text: "Each has to be at hand for its steps. One person may be several of these; what the law keeps for licensed people stays with them." });
    return items.length ? [el("h2", { text: "People" }), note, el("ul", { class: "list" }, ...items)] : [];
  }

  /** @param {any[]} all */
  function parts(all) {
    const lines = all.map((one) => ({ cells: [one.name, one.side || "\u2013", one.comes_from || "", one.note || "", one.title || ""] }));
    const note = el("p", { class: "note", text: "As each procedure lists them: order one of what is named twice. Part numbers are the vehicle maker's, by the car's own number." });
    return lines.length ? [el("h2", { text: "Parts" }), note, table("Parts replaced", ["Part", "Side", "Comes from", "Note", "For"], lines, "parts")] : [];
  }

  /** What the findings add, apart: they are agreed one by one. @param {any} state */
  function findings(state) {
    const all = (state.job.findings || []).filter((/** @type {any} */ one) => one.answer !== "no");
    if (!all.length) return [];
    const lines = all.map((/** @type {any} */ one) => ({ cells: [one.where, one.answer === "yes" ? "agreed" : "waits for the customer", money(state, one.price)] }));
    return [el("h2", { text: "Findings" }), table("Findings and their prices", ["Finding", "Answer", "Price"], lines), el("p", { class: "note", text: "Agreed with the customer one by one, and not in the sum below." })];
  }

  /** @param {any} state @param {any} sum */
  function sums(state, { labour, total, supplies: all }) {
    const hasSupplies = (all || []).some((/** @type {any} */ one) => typeof one.cost === "number");
    const rows = [
      labour ? ["Labour", labour.how, labour.cost] : null,
      hasSupplies ? ["Supplies", "what is used of each pack, at its price", all.reduce((/** @type {number} */ whole, /** @type {any} */ one) => whole + (one.cost || 0), 0)] : null,
    ].filter(Boolean);
    const whole = total;
    if (!rows.length) return [];
    const lines = rows.map((/** @type {any} */ [label, how, cost]) => ({ cells: [label, how, money(state, cost)] }));
    if (typeof whole === "number") lines.push({ cells: [[el("strong", { text: "Sum" })], "", [el("strong", { text: money(state, whole) })]] });
    const missing = (all || []).filter((/** @type {any} */ one) => one.packs && typeof one.price !== "number").map((/** @type {any} */ one) => one.title);
    return [
      el("h2", { text: "Labour and sums" }), table("Labour and sums", ["What", "How it came about", "Cost"], lines),
      missing.length && hasSupplies ? el("p", { class: "note", text: `Without a price, and not in the sum: ${missing.join(", ")}.` }) : null,
    ];
  }

  /** @param {any} state */
  function sumOf({ job, given, planned }) {
    return seambook.takeoff.sum(job, given.library, planned);
  }

  /** @param {any} state @param {boolean} isPaper @returns {any[]} */
  function make(state, isPaper) {
    const sum = sumOf(state);
    const blocks = [
      [el("h2", { text: "Supplies" }), el("p", { class: "note", text: "Packs are whole, as they are ordered; the cost is of what is used, save where an opened pack does not keep. “Not counted” is what no figure tells: look at what stands on the shelf." }), supplies(state, sum.supplies || [], isPaper)], parts(sum.parts || []), tools(sum.tools || [], isPaper), people(sum.people || []), findings(state), sums(state, sum),
    ];
    return blocks.filter((block) => block.length).map((block) => el("section", { class: "block" }, ...block));
  }

  /** @param {any} state @returns {Node[]} */
  function paper(state) {
    return seambook.takeoff ? [el("h2", { class: "traveller-title", text: "Take-off" }), ...make(state, true)] : [];
  }

  /** @param {any} state */
  function download(state) {
    const address = URL.createObjectURL(new Blob(["\ufeff", seambook.takeoff.csv(sumOf(state))], { type: "text/csv;charset=utf-8" }));
    const name = `${(state.job.number || "job").replace(/[^\w-]+/g, "-")}-take-off.csv`;
    const anchor = el("a", { href: address, download: name });
    document.body.append(anchor);
    anchor.click();
    anchor.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), 10000);
    state.say?.(`${name} is saved.`);
  }

  /** @param {HTMLElement} place @param {any} given */
  function draw(place, given) {
    const state = { ...seambook.jobParts.here(given), given };
    seambook.jobPaper.head(state.job);
    if (!seambook.takeoff || !(state.job.runs || []).length) {
      seambook.jobEntries.redraw(place, state, [el("p", { class: "none", text: "There is nothing to order yet. Choose procedures first." })]);
      return;
    }
    const button = el("button", { type: "button", class: "control", id: "take_csv", text: "Save as CSV", on: { click: () => download(state) } });
    const prices = el("p", { class: "note" }, "Prices and the labour rate are set where the job is made: ", el("a", { href: `#job=${encodeURIComponent(state.job.id || "")}&view=make`, text: "the job itself" }), ".");
    const screen = el("div", { class: "only-screen" }, el("div", { class: "job-acts" }, button), ...make(state, false), prices);
    seambook.jobEntries.redraw(place, state, [screen, seambook.jobPaper.place(() => paper(state))]);
  }

  seambook.jobViews = seambook.jobViews || {};
  seambook.jobViews["take-off"] = { title: "Take-off", draw, freshen: seambook.jobEntries.freshen, paper };
})();
