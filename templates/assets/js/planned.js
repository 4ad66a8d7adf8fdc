/**
 * A method's block of a seam's page, told again from a plan that plan.js worked out: the verdict, the limits, every
 * answer with its unit, what calculators warn of, and the ways to them. The builder's `view/plan.py` says the same.
 */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const WORDS = /** @type {Record<string, string>} */ ({ stop: "Stop", care: "Take care", note: "Note" });
  const LEVELS = ["stop", "care", "note"];

  /** @param {string} text @param {string} [style] @param {string} [tag] */
  function element(text, style, tag) {
    const made = document.createElement(tag || "span");
    if (style) made.className = style;
    made.textContent = text;
    return made;
  }

  /** An answer's number in the units shown, as every page says it. @param {Output} output @param {Result} found */
  function numberIn(output, found) {
    const { other, unit } = output;
    if (!other || !unit || other.system !== seambook.units.system() || typeof found.value !== "number") return found.text;
    return seambook.formula.told(found.value, unit, other.unit, other.digits);
  }

  /** @param {HTMLElement} place @param {WorkedOut} one @param {Output} output @param {string} before  A reason just said. */
  function showAnswer(place, one, output, before) {
    const found = one.outputs[output.id];
    const note = found.value === null ? found.why || "" : found.because || "";
    const sign = typeof found.value === "number" ? seambook.units.signOf(place) : "";
    place.textContent = found.value === null ? one.working.otherwise || "no answer" : numberIn(output, found) + sign;
    if (note && !(found.value === null && note === before)) place.append(" ", element(note, "note"));
    return found.value === null ? note : "";
  }

  /** @param {Judged} warning @param {Node | null} because */
  function caution({ level, say, holds }, because) {
    const item = element("", `caution-${level}`, "li");
    const said = element(say, "", "div");
    if (holds === null) said.append(" ", element("It cannot be judged from what is known.", "note"));
    if (because) {
      const reason = element("", "note", "div");
      reason.append(because);
      said.append(reason);
    }
    item.append(element(WORDS[level], "", "strong"), " ", said);
    return item;
  }

  /** @param {HTMLElement} block @param {Plan} plan */
  function showLimits(block, plan) {
    const list = block.querySelector(".verdicts");
    if (!(list instanceof HTMLElement)) return;
    list.querySelectorAll(":scope > li:not([data-limit])").forEach((item) => item.remove());
    list.querySelectorAll("[data-limit]").forEach((item) => {
      const holds = plan.limits[Number(item.getAttribute("data-limit"))];
      if (item instanceof HTMLElement) item.hidden = holds === false;
      const unjudged = item.querySelector(".unjudged");
      if (unjudged instanceof HTMLElement) unjudged.hidden = holds !== null;
    });
    const items = Array.from(list.children);
    const afterStops = items.find((item) => !item.classList.contains("caution-stop")) || null;
    for (const one of plan.worked) {
      for (const warning of one.warnings) {
        if (warning.level !== "stop" || warning.holds === false) continue;
        list.insertBefore(caution(warning, wayTo(one.calculator)), afterStops);
      }
    }
    const shown = Array.from(list.children).filter((item) => item instanceof HTMLElement && !item.hidden);
    list.hidden = !shown.length;
    showVerdict(block, LEVELS.find((level) => shown.some((item) => item.classList.contains(`caution-${level}`))) || "");
  }

  /** @param {Calculator} calculator */
  function wayTo({ id, title }) {
    const way = document.createElement("a");
    way.href = seambook.folder.address(`calculators/${id}.html`);
    way.textContent = title;
    return way;
  }

  /** @param {HTMLElement} block @param {string} level */
  function showVerdict(block, level) {
    const place = block.querySelector(".verdict");
    if (!place) return;
    place.className = `verdict verdict-${level || "free"}`;
    place.textContent = level === "stop" || level === "care" ? WORDS[level] : "No limit is met";
  }

  /** @param {HTMLElement} block @param {WorkedOut} one */
  function showWorked(block, one) {
    let before = "";
    for (const id of one.working.show) {
      const output = one.calculator.outputs.find((found) => found.id === id);
      const place = block.querySelector(`[data-working="${one.at}"] [data-output="${id}"]`);
      if (output && place instanceof HTMLElement) before = showAnswer(place, one, output, before);
    }
    const cares = block.querySelector(`[data-cares="${one.at}"]`);
    const held = one.warnings.filter(({ level, holds }) => level === "care" && holds !== false);
    if (cares instanceof HTMLElement) {
      cares.replaceChildren(...held.map((warning) => caution(warning, null)));
      cares.hidden = !held.length;
    }
    const way = block.querySelector(`[data-opens="${one.at}"]`);
    if (way instanceof HTMLAnchorElement) way.hash = one.fragment;
  }

  /** @param {HTMLElement} block @param {Plan} plan */
  function show(block, plan) {
    showLimits(block, plan);
    for (const one of plan.worked) showWorked(block, one);
  }

  seambook.planned = { show };
})();
