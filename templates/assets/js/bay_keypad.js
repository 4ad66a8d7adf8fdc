/**
 * A number entered with big keys: what is typed is judged at once. The field takes a keyboard too, and asks for none on glass.
 * Needs job_dom.js, job_words.js and as_built.js.
 */
(function () {
  "use strict";

  /** @typedef {{title: string, unit: string, limits: string, value: string, low?: number | null, high?: number | null, least?: number, label?: string}} Asked */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const words = seambook.jobWords;
  const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", "\u2212", "0", "."];
  const LONGEST = 12;

  /** What a verdict says, and its style. @param {number | null} found @param {Asked} asked */
  function said(found, { low, high, unit }) {
    const { verdict, off } = seambook.asBuilt.judge(found, low, high);
    const by = `${words.number(Math.abs(off))} ${unit}`;
    if (verdict === "low") return { text: `\u00d7 too low by ${by}`, style: "is-out" };
    if (verdict === "high") return { text: `\u00d7 too high by ${by}`, style: "is-out" };
    if (verdict === "within") return { text: "\u2713 within", style: "is-within" };
    return { text: verdict === "noted" ? "no limits: noted as it is" : "", style: "is-noted" };
  }

  /** What stands after a key. @param {string} text @param {string} key */
  function pressed(text, key) {
    if (key === "\u2212") return text.startsWith("-") ? text.slice(1) : `-${text}`;
    if (key === "." && /[.,]/.test(text)) return text;
    return text.length < LONGEST ? text + key : text;
  }

  /** @param {any} field @param {(text: string) => void} put */
  function keys(field, put) {
    const named = (/** @type {string} */ key) => ({ "\u2212": "Minus", ".": "Decimal sign" })[key] || null;
    const made = KEYS.map((key) => el("button", {
      type: "button", class: "control bay-key", "aria-label": named(key), text: key, on: { click: () => put(pressed(field.value, key)) },
    }));
    return el("div", { class: "bay-keys", role: "group", "aria-label": "Keys" }, made,
      el("button", { type: "button", class: "control bay-key", id: "bay_key-clear", text: "Clear", on: { click: () => put("") } }),
      el("button", { type: "button", class: "control bay-key bay-key-back", text: "Delete", "aria-label": "Delete the last digit", on: { click: () => put(field.value.slice(0, -1)) } }));
  }

  /**
   * Ask for a number. @param {Asked} asked @param {(text: string) => void} take what becomes of it; an empty text takes it out
   */
  function ask(asked, take) {
    const field = el("input", {
      id: "bay_number", type: "text", inputmode: "none", autocomplete: "off", maxlength: LONGEST, "aria-describedby": "bay_limits", value: asked.value,
    });
    const verdict = el("p", { class: "found-verdict bay-verdict", id: "bay_verdict", role: "status" });
    const judge = () => {
      const text = field.value.trim();
      const found = words.typed(text);
      const isWrong = text !== "" && (found === null || (asked.least !== undefined && found < asked.least));
      const { text: told, style } = isWrong ? { text: text === "-" ? "" : "\u00d7 This is no number that can stand here.", style: "is-out" } : said(found, asked);
      verdict.textContent = told;
      verdict.className = `found-verdict bay-verdict ${style}`;
      return !isWrong;
    };
    const put = (/** @type {string} */ text) => {
      field.value = text;
      judge();
    };
    const close = seambook.bayDialog.open("bay_keypad", asked.title, [
      el("p", { class: "note", id: "bay_limits", text: asked.limits }),
      el("div", { class: "entry bay-number" }, el("label", { class: "unseen", for: "bay_number", text: `${asked.title}, ${asked.unit}` }), field, el("span", { class: "unit", text: asked.unit })),
      verdict, keys(field, put),
      el("button", { type: "button", class: "primary bay-wide", id: "bay_enter", text: asked.label || "Enter", on: { click: () => enter() } }),
    ]);
    const enter = () => {
      if (!judge() || field.value.trim() === "-") return;
      close();
      take(field.value.trim());
    };
    field.addEventListener("input", judge);
    field.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key === "Enter") enter();
    });
    field.focus();
    field.select();
    judge();
  }

  seambook.bayKeypad = { ask, said, pressed };
})();
