/**
 * A round of questions: one after the other, each judged at once, and how it went at the end. What was answered is kept at once,
 * so a page that is closed goes on where it was left. Needs train_question.js, train_stand.js and the question scripts.
 */
(function () {
  "use strict";

  /** @typedef {{sheet: any[], seed: string, at: number, held: any, judged: any, fault: string}} Going the round that is shown */

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const LONGEST = 1000;
  const { el, button, focusOn } = seambook.dom;
  const { trainQuestion, trainStand, trainWords } = seambook;

  /** @param {any} person @param {string} id */
  function doneOf(person, id) {
    person.lessons[id] = person.lessons[id] || { rounds: [], tests: {} };
    return person.lessons[id];
  }

  /** The round that somebody has not ended, as long as what it asks about is the same. @param {any} desk @param {any} lesson */
  function open(desk, lesson) {
    const rounds = desk.person?.lessons[lesson.id]?.rounds || [];
    const last = rounds[rounds.length - 1];
    return last && !last.ended && !trainStand.changes(lesson.stands_on, last.against, "begun").length ? last : null;
  }

  /** An answer as it is kept, and back. @param {any} answer @returns {string} */
  function textOf(answer) {
    return Array.isArray(answer) ? JSON.stringify(answer) : String(answer);
  }

  /** @param {any} question @param {string} text */
  function answerOf(question, text) {
    return trainQuestion.isOrder(question) ? JSON.parse(text) : text;
  }

  /** The questions of a number, in the units that are shown. @param {any} lesson @param {string} seed @returns {any[]} */
  function sheetOf(lesson, seed) {
    return seambook.questions.sheet({ lesson, seed, system: seambook.units.system() });
  }

  /** Show a round. @param {any} lesson @param {any} round @returns {Going} */
  function going(lesson, round) {
    const sheet = sheetOf(lesson, round.seed);
    const at = Math.min(round.answers.length, sheet.length - 1);
    return { sheet, seed: round.seed, at, held: trainQuestion.begun(sheet[at]), judged: null, fault: "" };
  }

  /** @param {any} desk @param {any} lesson @param {any} state */
  function begin(desk, lesson, state) {
    const seed = trainWords.newSeed();
    const asked = sheetOf(lesson, seed).length;
    state.isBarren = !asked;
    if (!asked) return desk.draw();
    desk.change((/** @type {any} */ person) => {
      const round = { seed, begun: trainWords.now(), ended: null, asked, answers: [], against: trainStand.against(lesson.stands_on) };
      doneOf(person, lesson.id).rounds.push(round);
      state.going = going(lesson, round);
    });
    return focusOn("train_ask");
  }

  /** @param {any} desk @param {any} lesson @param {Going} shown */
  function check(desk, lesson, shown) {
    const question = shown.sheet[shown.at];
    shown.fault = trainQuestion.missing(question, shown.held);
    if (shown.fault) return void desk.draw();
    const judged = seambook.questions.judge(question, shown.held.answer);
    if (judged.unread) {
      shown.fault = judged.say[0].text;
      return void desk.draw();
    }
    shown.judged = judged;
    desk.change((/** @type {any} */ person) => {
      const round = doneOf(person, lesson.id).rounds.find((/** @type {any} */ one) => one.seed === shown.seed && !one.ended);
      if (!round || round.answers.some((/** @type {any} */ one) => one.id === question.id)) return;
      round.answers.push({ id: question.id, sort: question.sort, given: textOf(shown.held.answer).slice(0, LONGEST), ok: shown.judged.ok, at: trainWords.now() });
      if (round.answers.length >= shown.sheet.length) round.ended = trainWords.now();
    });
    return focusOn("train_verdict");
  }

  /** @param {any} desk @param {any} state */
  function next(desk, state) {
    const shown = state.going;
    const isLast = shown.at === shown.sheet.length - 1;
    if (isLast) {
      state.result = shown;
      state.going = null;
    } else Object.assign(shown, { at: shown.at + 1, held: trainQuestion.begun(shown.sheet[shown.at + 1]), judged: null, fault: "" });
    desk.draw();
    focusOn(isLast ? "train_result" : "train_ask");
  }

  /** The question that is asked now. @param {any} desk @param {any} lesson @param {any} state */
  function asking(desk, lesson, state) {
    const shown = /** @type {Going} */ (state.going);
    const isLast = shown.at === shown.sheet.length - 1;
    return el("div", { class: "train-round" },
      el("p", { class: "train-count" }, el("strong", { text: `Question ${shown.at + 1} of ${shown.sheet.length}` }), el("span", { class: "note", text: `sheet ${shown.seed}` })),
      trainQuestion.block(shown.sheet[shown.at], shown.held, shown.judged, desk.draw),
      el("p", { class: "fault", role: "alert", hidden: !shown.fault, text: shown.fault }),
      shown.judged
        ? button(isLast ? "See how it went" : "Next question", () => next(desk, state), { id: "train_next", class: "primary" })
        : button("Check my answer", () => check(desk, lesson, shown), { id: "train_check", class: "primary" }));
  }

  /** @param {any} question @param {number} at @param {any} answer */
  function asked(question, at, answer) {
    const judged = answer && !answer.ok ? seambook.questions.judge(question, answerOf(question, answer.given)) : null;
    return el("li", {}, el("p", {}, el("strong", { text: `${at + 1} ${answer?.ok ? "\u2713" : "\u00d7"} ` }), question.ask), judged ? trainQuestion.reasons(judged.say) : null);
  }

  /** How a round went, question by question. @param {any} desk @param {any} lesson @param {any} state */
  function result(desk, lesson, state) {
    const { sheet, seed } = state.result;
    const round = desk.person.lessons[lesson.id]?.rounds.find((/** @type {any} */ one) => one.seed === seed);
    if (!round) return null;
    const right = trainStand.rightOf(round);
    const isPassed = trainStand.isPassed(round, desk.book.pass);
    const answers = new Map(round.answers.map((/** @type {any} */ one) => [one.id, one]));
    return el("div", { class: "train-result", id: "train_result", tabindex: "-1" },
      el("p", { class: "train-verdict-word", text: `${right} of ${round.asked} right: ${isPassed ? "passed" : "not passed yet"}` }),
      el("p", { class: "note", text: `${desk.book.pass} percent are asked for. The next round has other questions.` }),
      el("ol", { class: "list train-went" }, sheet.map((/** @type {any} */ one, /** @type {number} */ at) => asked(one, at, answers.get(one.id)))));
  }

  /** Where somebody stands with the questions, in a line. @param {any} stood */
  function standing({ last, passed, isPassed }) {
    if (isPassed) return `Passed on ${trainWords.day(passed.ended)}, ${trainStand.rightOf(passed)} of ${passed.asked} right.`;
    if (passed) return `Passed on ${trainWords.day(passed.ended)}, and asked again, since what it rests on was changed.`;
    if (!last) return "Not begun yet.";
    return last.ended ? `Not passed yet: ${trainStand.rightOf(last)} of ${last.asked} right the last time.` : `Begun: ${trainWords.counted(last.answers.length, "question")} of ${last.asked} answered.`;
  }

  /** @param {any} desk @param {any} lesson @param {any} stood @param {any} state */
  function block(desk, lesson, stood, state) {
    if (state.isBarren) return el("p", { class: "none", text: "No question can be made of what this lesson names. Tell whoever keeps the book." });
    if (state.going) return asking(desk, lesson, state);
    const kept = open(desk, lesson);
    const goOn = () => {
      state.going = going(lesson, kept);
      state.result = null;
      desk.draw();
      focusOn("train_ask");
    };
    const again = () => {
      state.result = null;
      begin(desk, lesson, state);
    };
    return el("div", {}, state.result ? result(desk, lesson, state) : el("p", { text: standing(stood) }),
      el("p", { class: "job-buttons" },
        button(kept ? "Go on with the questions" : stood.last ? "New questions" : "Begin the questions", kept ? goOn : again, { id: "train_begin", class: stood.isPassed ? "control" : "primary" }),
        el("a", { class: "control", href: trainWords.href(`training.html#view=sheet&lesson=${lesson.id}`), text: "The questions on paper" })));
  }

  seambook.trainRound = { block, standing, doneOf, sheetOf };
})();
