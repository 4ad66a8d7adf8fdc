/**
 * Practising, on the page of a lesson: who practises, what is passed and what was changed since, the questions and the practical
 * tests. Started last. Needs all the rest, and the lesson's own data.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const found = document.getElementById("train_desk");
  const lesson = found && seambook.lessons?.[found.dataset.lesson || ""];
  if (!found || !lesson || !seambook.training) return;
  const place = found;
  const { el, button } = seambook.dom;
  const { folder, trainBench, trainDesk, trainPeople, trainRound, trainStand, trainWords } = seambook;
  /** What is on the page and in no store. */
  const state = { isChoosing: false, going: null, result: null, isBarren: false, benches: {}, isReady: false, fault: "", person: "" };

  /** Records that were changed since somebody passed. @param {any[]} changed */
  function news(changed) {
    if (!changed.length) return null;
    return el("div", { class: "train-changed", id: "train_changed" }, el("p", {}, el("strong", { text: "Changed since you passed" })),
      el("ul", { class: "list" }, changed.map(({ say, path }) => el("li", {}, say, " ", el("a", { href: trainWords.href(path), text: "Look at it" })))),
      el("p", { text: "Read what is new, then do the questions and tests below again. They are made from the records as they are now." }));
  }

  /** @param {any} stood */
  function summary(stood) {
    const skills = lesson.teaches.map((/** @type {string} */ id) => seambook.training.skills.find((/** @type {any} */ one) => one.id === id)).filter(Boolean);
    const own = skills.map((/** @type {any} */ skill, /** @type {number} */ at) => [at ? ", " : "", el("a", { href: trainWords.href(skill.path), text: skill.title })]);
    const word = stood.isPassed ? "\u2713 This lesson is passed." : stood.wasPassed ? "This lesson is open again." : "This lesson is passed when the questions and every practical test are.";
    return el("div", { class: "train-summary" }, el("p", {}, el("strong", { text: word })), own.length ? el("p", { class: "note" }, "It teaches: ", own, ". What you can do is judged by a trainer, on the ", el("a", { href: trainWords.href("training.html#view=skills"), text: "skills matrix" }), ".") : null);
  }

  /** @param {any} desk @param {any} stood */
  function parts(desk, stood) {
    if (state.fault) return el("div", { class: "job-notice" }, el("p", { text: state.fault }), button("Try again", () => void load(desk), { id: "train_reload" }));
    return [
      stood.questions ? el("section", { class: "train-part", "aria-labelledby": "train_questions" }, el("h3", { id: "train_questions", text: "Questions" }), trainRound.block(desk, lesson, stood.questions, state)) : null,
      stood.tests.length ? el("section", { class: "train-part", "aria-labelledby": "train_tests" }, el("h3", { id: "train_tests", text: "At the bench" }), stood.tests.map((/** @type {any} */ one) => trainBench.block(desk, lesson, one, state))) : null,
    ];
  }

  /** Nothing is drawn before all is there: what stands below would move. @param {any} desk */
  function draw(desk) {
    if (!state.isReady && !state.fault) return undefined;
    const id = desk.person ? desk.person.id : "";
    if (state.person !== id) Object.assign(state, { person: id, going: null, result: null, isBarren: false, benches: {} });
    const who = trainPeople.block(desk, state);
    const ways = el("p", { class: "job-buttons train-ways" },
      el("a", { class: "control", href: trainWords.href("training.html"), text: "Everybody's training" }),
      el("a", { class: "control", href: trainWords.href(`training.html#view=trainer&lesson=${lesson.id}`), text: "Trainer's sheet" }));
    if (!desk.person) return place.replaceChildren(who, ways);
    const stood = trainStand.atLesson(desk.person, lesson, desk.book);
    return place.replaceChildren(...[who, news(stood.changed), summary(stood), parts(desk, stood), ways].flat().filter(Boolean));
  }

  /** Bring what the questions and tests are made from. @param {any} desk */
  async function load(desk) {
    state.fault = "";
    try {
      await Promise.all(lesson.scripts.map((/** @type {string} */ path) => folder.bring(path)));
      state.isReady = true;
    } catch (error) {
      state.fault = `Part of the book could not be loaded (${(error && /** @type {any} */ (error).message) || error}), so no questions can be made.`;
    }
    desk.draw();
  }

  const desk = trainDesk.open(place, draw);
  document.getElementById("train_desk_without")?.setAttribute("hidden", "");
  void load(desk);
})();
