/**
 * Questions on paper, with their answers on another sheet and the same number on both: the number makes the same sheet again.
 * Needs the question scripts and train_progress.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, labelled } = seambook.dom;
  const { folder, trainProgress, trainQuestion, trainWords } = seambook;
  seambook.trainViews = seambook.trainViews || {};
  const LETTERS = "abcdefgh";
  /** Lessons whose questions can be made. @type {Set<string>} */
  const ready = new Set();
  const state = { fault: "" };

  /** Bring what a lesson's questions are made from. @param {any} desk @param {string} id */
  async function bring(desk, id) {
    state.fault = "";
    const lost = await trainProgress.bring([id]);
    const paths = seambook.lessons[id]?.scripts || [];
    const came = await Promise.all(paths.map((/** @type {string} */ path) => folder.bring(path).then(() => "", () => path)));
    const missing = [...lost, ...came.filter(Boolean)];
    if (missing.length) state.fault = `Part of the book could not be loaded (${missing.join(", ")}), so no sheet can be made.`;
    else ready.add(id);
    desk.draw();
  }

  /** @param {string} title @param {any} lesson @param {string} seed @param {any[]} blanks */
  function head(title, lesson, seed, blanks) {
    return el("header", { class: "train-sheet-head" }, el("div", {}, el("p", { class: "kind", text: title }), el("h2", { text: lesson.title })),
      el("p", { class: "train-sheet-number" }, el("span", { class: "label", text: "Sheet" }), el("strong", { text: seed })),
      blanks.length ? el("p", { class: "train-blanks" }, blanks.map((text) => el("span", { text }))) : null);
  }

  /** Sheets part company: the foot of each says which it is. @param {any} lesson @param {string} seed */
  function foot({ title }, seed) {
    const { dataset, style } = document.documentElement;
    style.setProperty("--check", JSON.stringify(`Sheet ${seed}: ${title} \u00b7 ${dataset.check || ""}`));
  }

  /** @param {any} question */
  function toAnswer(question) {
    if (trainQuestion.isOrder(question)) return el("ul", { class: "train-paper-order" }, question.items.map((/** @type {any} */ { text }, /** @type {number} */ at) => el("li", {}, el("span", { class: "train-box", "aria-hidden": "true" }), el("span", { text: `${LETTERS[at]}) ${text}` }))));
    const items = trainQuestion.shown(question);
    if (question.choices) return [items, el("ul", { class: "train-paper-choices" }, question.choices.map((/** @type {any} */ { text }, /** @type {number} */ at) => el("li", {}, el("span", { class: "train-box", "aria-hidden": "true" }), el("span", { text: `${LETTERS[at]}) ${text}` }))))];
    return [items, el("p", { class: "train-line" }, el("span", { class: "unseen", text: "Answer:" }), el("span", { class: "train-rule" }), question.field?.sign || question.field?.unit || "")];
  }

  /** The right answer in words. @param {any} question @returns {string} */
  function rightOf(question) {
    const { right, items, choices, field } = question;
    if (Array.isArray(right)) return right.map((id) => `${LETTERS[items.findIndex((/** @type {any} */ one) => one.id === id)]})`).join(" ");
    const at = choices ? choices.findIndex((/** @type {any} */ one) => one.id === right) : -1;
    if (at < 0) return [typeof right === "number" ? seambook.numbers.fixed(right, field.digits) : right, field.sign || field.unit].filter(Boolean).join("\u00a0");
    return `${LETTERS[at]}) ${choices[at].text}`;
  }

  /** Why it is right, as far as the question says. @param {any} question @returns {{text: string, href?: string}[]} */
  function whyOf({ explain, right }) {
    return (Array.isArray(right) ? null : explain?.[right]) || explain?.whole || [];
  }

  /** @param {any} lesson @param {string} seed @param {any[]} sheet */
  function questions(lesson, seed, sheet) {
    const orders = sheet.some(trainQuestion.isOrder);
    return el("article", { class: "train-paper", id: "train_paper-questions" }, head("Questions", lesson, seed, ["Name", "Day"]),
      orders ? el("p", { class: "note", text: "Where steps are to be put in order, write 1, 2, 3 into the boxes. Else tick one box, or write on the line." }) : null,
      el("ol", { class: "train-paper-list" }, sheet.map((one) => el("li", {}, el("p", { class: "train-paper-ask", text: one.ask }), el("p", { class: "note", text: [one.of?.text, one.note].filter(Boolean).join(". ") }), toAnswer(one)))));
  }

  /** @param {any} desk @param {any} lesson @param {string} seed @param {any[]} sheet */
  function answers(desk, lesson, seed, sheet) {
    const needed = Math.ceil((desk.book.pass * sheet.length) / 100);
    return el("article", { class: "train-paper", id: "train_paper-answers" }, head("Answers, for the trainer", lesson, seed, []),
      el("p", { class: "note", text: `${needed} of ${sheet.length} right pass. Of steps to be put in order any order is right that keeps what must stay before what; one of them stands here.` }),
      el("ol", { class: "train-paper-list" }, sheet.map((one) => el("li", {}, el("p", { class: "train-paper-ask", text: rightOf(one) }), whyOf(one).map(({ text }) => el("p", { class: "note", text }))))));
  }

  /** @param {any} desk @param {any} told @param {string} seed */
  function controls(desk, told, seed) {
    const go = (/** @type {string} */ lesson, /** @type {string} */ number) => folder.move(`#view=sheet&lesson=${lesson}&seed=${number}`);
    const choice = el("select", { on: { change: () => go(choice.value, trainWords.newSeed()) } }, desk.book.lessons.map((/** @type {any} */ { id, title }) => el("option", { value: id, text: title, selected: id === told.id })));
    const number = el("input", { type: "text", autocomplete: "off", maxlength: 20, value: seed, on: { change: () => go(told.id, trainWords.seedOf(number.value) || trainWords.newSeed()) } });
    return el("div", { class: "only-screen" },
      el("div", { class: "job-fields" }, labelled("train_sheet-lesson", "Lesson", choice), labelled("train_sheet-seed", "Sheet number", number, "The same number makes the same sheet, as long as the records are the same.")),
      el("p", { class: "job-buttons" }, button("Print questions and answers", () => window.print(), { id: "train_print", class: "primary" }), button("Another sheet", () => go(told.id, trainWords.newSeed()), { id: "train_another" }),
        el("a", { class: "control", href: trainWords.href(told.path), text: "To the lesson" })));
  }

  /** @param {HTMLElement} place @param {any} desk @param {Record<string, string>} asked */
  function draw(place, desk, asked) {
    const told = desk.book.lessons.find((/** @type {any} */ one) => one.id === asked.lesson) || desk.book.lessons[0];
    if (!told) return place.append(el("p", { class: "none", text: "This book has no lessons." }));
    const seed = trainWords.seedOf(asked.seed || "");
    if (!seed || asked.lesson !== told.id) {
      asked.seed = trainWords.newSeed();
      asked.lesson = told.id;
      folder.keep(`#view=sheet&lesson=${told.id}&seed=${asked.seed}`);
      return draw(place, desk, asked);
    }
    place.append(el("h2", { class: "train-title only-screen", text: "Questions on paper" }), controls(desk, told, seed));
    if (!ready.has(told.id)) {
      place.append(el("p", { class: "note", role: "status", text: state.fault || "The sheet is being made." }));
      if (!state.fault) void bring(desk, told.id);
      return undefined;
    }
    const lesson = seambook.lessons[told.id];
    foot(lesson, seed);
    const sheet = seambook.trainStand.hasQuestions(lesson) ? seambook.trainRound.sheetOf(lesson, seed) : [];
    if (!sheet.length) return place.append(el("p", { class: "none", text: "This lesson asks no questions." }));
    return place.append(questions(lesson, seed, sheet), answers(desk, lesson, seed, sheet));
  }

  seambook.trainViews.sheet = { title: "On paper", draw };
  seambook.trainSheet = { bring, ready, state, head, foot };
})();
