/**
 * How far somebody is: path by path and lesson by lesson, and what a changed record opened again. Lessons are brought when they
 * are asked for. Needs train_stand.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const { folder, trainRound, trainBench, trainStand, trainWords } = seambook;
  seambook.trainViews = seambook.trainViews || {};
  seambook.lessons = seambook.lessons || {};

  /** Bring what is known of lessons. @param {string[]} ids @returns {Promise<string[]>} those that could not be brought */
  async function bring(ids) {
    const wanted = ids.filter((id) => !seambook.lessons[id]);
    const came = await Promise.all(wanted.map((id) => folder.bring(`assets/training/lesson/${id}.js`).then(() => "", () => id)));
    return came.filter(Boolean);
  }

  /** @param {any} stood @returns {string} */
  function word(stood) {
    if (stood.isPassed) return "\u2713 passed";
    if (stood.wasPassed || stood.changed.length) return "open again";
    return stood.isBegun ? "begun" : "to do";
  }

  /** What is still to be done of a lesson, in a line each. @param {any} stood */
  function open(stood) {
    const said = [
      ...(stood.questions ? [{ isPassed: stood.questions.isPassed, say: `Questions: ${trainRound.standing(stood.questions)}` }] : []),
      ...stood.tests.map((/** @type {any} */ one) => ({ isPassed: one.isPassed, say: `${one.test.title}: ${trainBench.standing(one)}` })),
    ];
    return said.filter(({ isPassed }) => !isPassed).map(({ say }) => say);
  }

  /** @param {any} desk @param {any} told a lesson as the book tells of it */
  function lesson(desk, told) {
    const known = seambook.lessons[told.id];
    const stood = known && desk.person ? trainStand.atLesson(desk.person, known, desk.book) : null;
    const isAsked = stood && (stood.questions || stood.tests.length);
    return el("li", { class: "train-lesson" },
      el("p", { class: "train-lesson-line" }, el("a", { href: `${trainWords.href(told.path)}#train_desk`, text: told.title }), el("span", { class: "train-word", text: isAsked ? word(stood) : desk.person ? "to read" : "" })),
      stood && stood.isBegun && !stood.isPassed ? el("ul", { class: "train-open" }, [...stood.changed.map((/** @type {any} */ one) => el("li", { text: one.say })), ...open(stood).map((say) => el("li", { text: say }))]) : null,
      told.minutes && !stood?.isBegun ? el("p", { class: "note", text: `${told.minutes} min` }) : null);
  }

  /** @param {any} desk @param {string} title @param {string | null} path @param {string} about @param {string[]} ids */
  function list(desk, title, path, about, ids) {
    const told = ids.map((id) => desk.book.lessons.find((/** @type {any} */ one) => one.id === id)).filter(Boolean);
    const stood = told.filter(({ id }) => seambook.lessons[id] && desk.person).map(({ id }) => trainStand.atLesson(desk.person, seambook.lessons[id], desk.book));
    const done = stood.filter((one) => one.isPassed).length;
    const count = desk.person ? `${done} of ${told.length} passed` : trainWords.counted(told.length, "lesson");
    return el("section", { class: "train-part" }, el("h2", {}, path ? el("a", { href: trainWords.href(path), text: title }) : title),
      about ? el("p", { class: "note", text: about }) : null,
      el("p", {}, el("strong", { text: count })),
      desk.person ? el("progress", { max: told.length || 1, value: done, "aria-label": `Lessons passed: ${title}` }) : null,
      el("ol", { class: "list train-lessons" }, told.map((one) => lesson(desk, one))));
  }

  /** Skills that were opened again. @param {any} desk */
  function again(desk) {
    const all = desk.person ? trainStand.reopened(desk.person, desk.book) : [];
    if (!all.length) return null;
    return el("div", { class: "train-changed" }, el("p", {}, el("strong", { text: "Skills opened again" })),
      el("ul", { class: "list" }, all.map((/** @type {any} */ { skill, changed }) => el("li", {}, el("a", { href: trainWords.href(skill.path), text: skill.title }),
        el("ul", { class: "train-open" }, changed.map((/** @type {any} */ one) => el("li", { text: one.say })))))),
      el("p", { text: "Read what is new, and show the trainer again." }));
  }

  /** @param {HTMLElement} place @param {any} desk */
  function draw(place, desk) {
    const ids = desk.book.lessons.map((/** @type {any} */ one) => one.id);
    const onPaths = new Set(desk.book.paths.flatMap((/** @type {any} */ one) => one.lessons));
    const others = ids.filter((/** @type {string} */ id) => !onPaths.has(id));
    const missing = ids.filter((/** @type {string} */ id) => !seambook.lessons[id]);
    place.append(...[
      el("h2", { class: "train-title", text: desk.person ? `How far ${desk.person.name} is` : "The way through the lessons" }),
      desk.person ? null : el("p", { class: "none", text: "Choose who practises, and it is shown how far they are." }), again(desk),
      ...desk.book.paths.map((/** @type {any} */ one) => list(desk, one.title, one.path, one.for, one.lessons)),
      others.length ? list(desk, "Other lessons", null, "", others) : null,
    ].filter(Boolean));
    // Those that cannot be brought are shown by name, and asked for again when the view is opened again.
    if (missing.length) void bring(ids).then((lost) => lost.length < missing.length && desk.draw());
  }

  seambook.trainViews.progress = { title: "Lessons", draw };
  seambook.trainProgress = { bring };
})();
