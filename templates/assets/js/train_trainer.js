/**
 * The trainer's sheet of a lesson: what the learner is to show, the numbers of each practical test with what the calculator makes
 * of them, room for what is measured, and the levels of the skills it teaches. Needs train_sheet.js, train_bench.js, train_judge.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, labelled } = seambook.dom;
  const { folder, trainBench, trainJudge, trainSheet, trainWords } = seambook;
  seambook.trainViews = seambook.trainViews || {};
  const LEAST_ROWS = 2;

  /** Columns to be filled in: what is measured or worked out, and whether it passes. @param {any} test @param {any} calculator */
  function columns(test, calculator) {
    const unit = (/** @type {string} */ text, /** @type {string} */ of) => (of ? `${text}, ${of}` : text);
    return [
      ...(test.measured || []).map((/** @type {any} */ { input, ask }) => {
        const known = trainJudge.inputOf(calculator, input);
        return unit(ask || known.ask, known.unit);
      }),
      ...Object.keys(test.compare || {}).map((id) => {
        const { say, unit: own } = trainJudge.outputOf(calculator, id);
        return unit(say, own?.name || "");
      }), "Passes", "Initials",
    ];
  }

  /** What the calculator makes of the given numbers, for whoever holds the answers. @param {any} test @param {any} calculator @param {Record<string, string>} given */
  function worked(test, calculator, given) {
    const wanted = Object.entries(test.compare || {});
    if (!wanted.length || (test.measured || []).length) return null;
    const { outputs } = seambook.formula.run(calculator, given);
    return el("p", { class: "train-worked" }, el("strong", { text: "It comes to: " }), wanted.map(([id, { text, tolerance }]) => `${trainJudge.outputOf(calculator, id).say} ${trainJudge.told(outputs[id])}, ${trainJudge.within(text, tolerance)}`).join("; "));
  }

  /** @param {any} test @param {string} seed */
  function bench(test, seed) {
    const calculator = seambook.calculators[test.calculator];
    const given = trainJudge.draw(test, seed);
    const heads = columns(test, calculator);
    const count = Math.max(LEAST_ROWS, (test.times || 1) + 1);
    return el("section", { class: "train-paper-test" }, el("h3", { text: test.title }), trainBench.prose(test.do), trainBench.givens(calculator, given), worked(test, calculator, given),
      el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": test.title }, el("table", { class: "train-fill" },
        el("thead", {}, el("tr", {}, ["", ...heads].map((text, at) => (at ? el("th", { scope: "col", text }) : el("td", {}))))),
        el("tbody", {}, Array.from({ length: count }, (_, at) => el("tr", {}, el("th", { scope: "row", text: `Try ${at + 1}` }), heads.map(() => el("td", {}))))))),
      (test.times || 1) > 1 ? el("p", { class: "note", text: `Passed ${test.times} times in a row.` }) : null);
  }

  /** @param {any} desk @param {any} lesson */
  function skills(desk, lesson) {
    const own = desk.book.skills.filter((/** @type {any} */ one) => lesson.teaches.includes(one.id));
    if (!own.length) return null;
    return el("section", { class: "train-paper-test" }, el("h3", { text: "Level seen" }),
      el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Level seen" }, el("table", { class: "train-fill" },
        el("thead", {}, el("tr", {}, ["Skill", ...desk.book.levels.map((/** @type {any} */ one) => one.say), "Day, initials"].map((text) => el("th", { scope: "col", text })))),
        el("tbody", {}, own.map((/** @type {any} */ { title, summary }) => el("tr", {}, el("th", { scope: "row" }, title, el("span", { class: "note", text: summary })), [...desk.book.levels, ""].map(() => el("td", {}))))))),
      el("ul", { class: "train-means" }, desk.book.levels.map((/** @type {any} */ { say, means }) => el("li", {}, el("strong", { text: say }), `: ${means}`))));
  }

  /** What the shop wants seen to, with boxes to tick. @param {string[] | undefined} lines @param {string} title */
  function toSee(lines, title) {
    if (!lines?.length) return "";
    return el("section", { class: "train-paper-test" }, el("h3", { text: title }), el("ul", { class: "train-paper-choices" }, lines.map((text) => el("li", {}, el("span", { class: "train-box", "aria-hidden": "true" }), el("span", { text })))));
  }

  /** @param {any} desk @param {any} told @param {string} seed */
  function controls(desk, told, seed) {
    const go = (/** @type {string} */ lesson, /** @type {string} */ number) => folder.move(`#view=trainer&lesson=${lesson}&seed=${number}`);
    const choice = el("select", { on: { change: () => go(choice.value, trainWords.newSeed()) } }, desk.book.lessons.map((/** @type {any} */ { id, title }) => el("option", { value: id, text: title, selected: id === told.id })));
    return el("div", { class: "only-screen" }, el("div", { class: "job-fields" }, labelled("train_sheet-lesson", "Lesson", choice)),
      el("p", { class: "job-buttons" }, button("Print the trainer's sheet", () => window.print(), { id: "train_print", class: "primary" }), button("Other numbers", () => go(told.id, trainWords.newSeed()), { id: "train_another" }),
        el("a", { class: "control", href: `#view=sheet&lesson=${told.id}&seed=${seed}`, text: "The questions with this number" })));
  }

  /** @param {HTMLElement} place @param {any} desk @param {Record<string, string>} asked */
  function draw(place, desk, asked) {
    const told = desk.book.lessons.find((/** @type {any} */ one) => one.id === asked.lesson) || desk.book.lessons[0];
    if (!told) return place.append(el("p", { class: "none", text: "This book has no lessons." }));
    if (!asked.seed) {
      asked.seed = trainWords.newSeed();
      folder.keep(`#view=trainer&lesson=${told.id}&seed=${asked.seed}`);
    }
    const seed = trainWords.seedOf(asked.seed);
    place.append(el("h2", { class: "train-title only-screen", text: "Trainer's sheet" }), controls(desk, told, seed));
    if (!trainSheet.ready.has(told.id)) {
      place.append(el("p", { class: "note", role: "status", text: trainSheet.state.fault || "The sheet is being made." }));
      if (!trainSheet.state.fault) void trainSheet.bring(desk, told.id);
      return undefined;
    }
    const lesson = seambook.lessons[told.id];
    trainSheet.foot(lesson, seed);
    const rests = lesson.stands_on.map((/** @type {any} */ { title, revision }) => (revision ? `${title}, revision ${revision}` : title));
    return place.append(el("article", { class: "train-paper", id: "train_paper-trainer" },
      trainSheet.head("Trainer's sheet", lesson, seed, [desk.person ? `Learner: ${desk.person.name}` : "Learner", "Trainer", "Day"]),
      rests.length ? el("p", { class: "note", text: `Judged by: ${rests.join("; ")}.` }) : null,
      seambook.trainStand.hasQuestions(lesson) ? el("p", { class: "train-line" }, `Questions, sheet ${seed}: right`, el("span", { class: "train-rule" }), "of", el("span", { class: "train-rule" }), `${desk.book.pass} percent pass`) : null,
      toSee(desk.book.trainer?.before, "Before the learner comes"), ...lesson.practical.map((/** @type {any} */ one) => bench(one, seed)),
      toSee(desk.book.trainer?.give, "Before a level is given"), skills(desk, lesson) || ""));
  }

  seambook.trainViews.trainer = { title: "Trainer's sheet", draw };
})();
