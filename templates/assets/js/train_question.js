/**
 * One question on the screen: its answer is put in order by keys, chosen or typed, and then judged with the reasons. Needs
 * job_dom.js; what is right is the business of the question scripts.
 */
(function () {
  "use strict";

  /** @typedef {any} Question */
  /** @typedef {{answer: any, moved: string}} Held what stands in the question and is not judged yet */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, labelled, focusOn } = seambook.dom;
  const { href } = seambook.trainWords;

  /** Whether the answer is an order of its items. @param {Question} question */
  function isOrder(question) {
    return question.sort === "order";
  }

  /** What is answered before anybody touches it. @param {Question} question @returns {Held} */
  function begun(question) {
    return { answer: isOrder(question) ? question.items.map((/** @type {any} */ one) => one.id) : "", moved: "" };
  }

  /** What keeps an answer from being judged. @param {Question} question @param {Held} held */
  function missing(question, held) {
    if (isOrder(question)) return "";
    if (question.choices) return held.answer ? "" : "Choose one of the answers first.";
    return String(held.answer).trim() ? "" : "Write your answer first.";
  }

  /** @param {Question} question @param {Held} held @param {number} from @param {number} to @param {() => void} draw */
  function move(question, held, from, to, draw) {
    const [id] = held.answer.splice(from, 1);
    held.answer.splice(to, 0, id);
    const { text } = question.items.find((/** @type {any} */ one) => one.id === id);
    held.moved = `Now ${to + 1} of ${held.answer.length}: ${text}`;
    draw();
    const [near, far] = to < from ? ["up", "down"] : ["down", "up"];
    const isEnd = to === 0 || to === held.answer.length - 1;
    focusOn(`train_${isEnd ? far : near}-${id}`);
  }

  /** Items with the keys that put them in order. @param {Question} question @param {Held} held @param {boolean} isJudged @param {() => void} draw */
  function ordering(question, held, isJudged, draw) {
    const items = new Map(question.items.map((/** @type {any} */ one) => [one.id, one]));
    const last = held.answer.length - 1;
    const key = (/** @type {string} */ id, /** @type {number} */ at, /** @type {number} */ to, /** @type {string} */ name) =>
      button(name, () => move(question, held, at, to, draw), { id: `train_${name.toLowerCase()}-${id}`, class: "control train-key", disabled: to < 0 || to > last, "aria-label": `${name}: ${items.get(id).text}` });
    return el("div", {},
      el("ol", { class: "train-order" }, held.answer.map((/** @type {string} */ id, /** @type {number} */ at) => el("li", {},
        el("span", { class: "train-number", "aria-hidden": "true", text: String(at + 1) }), el("span", { class: "train-text", text: items.get(id).text }),
        isJudged ? null : el("span", { class: "train-keys" }, key(id, at, at - 1, "Up"), key(id, at, at + 1, "Down"))))),
      el("p", { class: "unseen", role: "status", text: held.moved }));
  }

  /** @param {Question} question @param {Held} held @param {boolean} isJudged */
  function choosing(question, held, isJudged) {
    return el("fieldset", { class: "train-choices" }, el("legend", { class: "unseen", text: question.ask }),
      question.choices.map((/** @type {any} */ { id, text }, /** @type {number} */ at) => el("label", { for: `train_choice-${at}` },
        el("input", { type: "radio", name: "train_choice", id: `train_choice-${at}`, value: id, checked: held.answer === id, disabled: isJudged, on: { change: () => void (held.answer = id) } }),
        el("span", { text }))));
  }

  /** @param {Question} question @param {Held} held @param {boolean} isJudged */
  function typing(question, held, isJudged) {
    const { unit, sign } = question.field || {};
    const field = el("input", { type: "text", inputmode: "decimal", autocomplete: "off", value: held.answer, readonly: isJudged, on: { input: () => void (held.answer = field.value) } });
    return el("div", { class: "train-field" }, labelled("train_typed", sign || unit ? `Your answer, ${sign || unit}` : "Your answer", field));
  }

  /** What a question shows: steps, numbered as they stand in it, or the numbers that are given. @param {Question} question */
  function shown(question) {
    if (!question.items?.length) return null;
    const isNumbered = question.sort !== "work" && question.items.length > 1;
    return el(isNumbered ? "ol" : "ul", { class: isNumbered ? "train-shown" : "list train-numbers" }, question.items.map((/** @type {any} */ one) => el("li", { text: one.text })));
  }

  /** Words of the trade in a question, each with the way to what it means. @param {Question} question */
  function words(question) {
    if (!question.words?.length) return null;
    return el("p", { class: "note train-words" }, "Words: ", question.words.map((/** @type {any} */ { text, href: to }, /** @type {number} */ at) => [at ? ", " : "", el("a", { href: href(to), text })]));
  }

  /** Reasons with the ways to what they are of. @param {{text: string, href?: string}[]} say */
  function reasons(say) {
    return el("ul", { class: "list train-reasons" }, say.map(({ text, href: to }) => el("li", {}, el("span", { text }), to ? [" ", el("a", { href: href(to), text: "Look at it" })] : null)));
  }

  /** @param {{ok: boolean, say: {text: string, href?: string}[]}} verdict */
  function verdict({ ok, say }) {
    return el("div", { class: `train-verdict${ok ? "" : " is-wrong"}`, id: "train_verdict", tabindex: "-1" },
      el("p", { class: "train-verdict-word", text: ok ? "\u2713 Right" : "\u00d7 Not right" }), say.length ? reasons(say) : null);
  }

  /** What a question asks and how it is answered. @param {Question} question @param {Held} held @param {any} judged its verdict, once there is one @param {() => void} draw */
  function block(question, held, judged, draw) {
    const own = isOrder(question) ? ordering(question, held, !!judged, draw)
      : [shown(question), question.choices ? choosing(question, held, !!judged) : typing(question, held, !!judged)];
    return el("div", { class: "train-question" },
      el("p", { class: "train-ask", id: "train_ask", tabindex: "-1", text: question.ask }),
      question.note ? el("p", { class: "note", text: question.note }) : null,
      own, words(question),
      question.of ? el("p", { class: "note train-words" }, "From: ", el("a", { href: href(question.of.href), text: question.of.text })) : null,
      judged ? verdict(judged) : null);
  }

  seambook.trainQuestion = { begun, missing, block, shown, reasons, isOrder };
})();
