/**
 * Of making a job: the procedures, picked on the body drawing or by a word, and what the book proposes beside them.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, labelled, focusOn } = seambook.dom;
  const { jobChoices, jobWords } = seambook;
  const bodies = document.getElementById("job_bodies");
  const root = document.body.dataset.root || "";
  const SIDE = { left: "left side", right: "right side" };
  const [ALL, NONE] = ["all", ""];
  /** More proposals than this stay folded, or they push the rest of the page out of sight. */
  const MANY = 6;
  /** What is being looked for: the words typed, a panel pressed, or all. */
  const looking = { words: "", panel: NONE };
  /** @type {any} */
  let now = null;

  /** @param {any} state @param {any} one @param {string} side */
  function toggle(state, one, side) {
    const { job, book } = state;
    const isIn = jobChoices.has(job, one.id, side);
    state.change((/** @type {any} */ changed) =>
      (isIn ? jobChoices.remove(changed, one.id, side, state.planned) : jobChoices.add(changed, book, one.id, side)));
    const count = job.runs.length;
    state.say(`${isIn ? "Taken out" : "Added"}: ${one.title}${side ? `, ${SIDE[/** @type {"left"} */ (side)]}` : ""}. ${count} in the job.`);
  }

  /** The buttons that put a procedure in and take it out, one for each side. @param {any} state @param {any} one @param {string} from */
  function adders(state, one, from) {
    return jobChoices.sidesOf(one).map((/** @type {string} */ side) => {
      const isIn = jobChoices.has(state.job, one.id, side);
      const text = `${isIn ? "Remove" : "Add"}${side ? ` ${side}` : ""}`;
      return button(text, () => toggle(state, one, side), {
        id: `${from}-${one.id}-${side || "car"}`, class: isIn ? "control job-in" : "control", "aria-label": `${text}: ${one.title}`,
        disabled: one.status === "withdrawn" && !isIn,
      });
    });
  }

  /** @param {any} one @param {any} state @returns {string} */
  function noteOf(one, state) {
    const vehicle = state.book.vehicles.find((/** @type {any} */ it) => it.id === state.job.vehicle);
    return [one.stage, jobWords.span(one.minutes), `${one.steps} steps`, one.status === "issued" ? "" : one.status,
      vehicle && vehicle.procedures.includes(one.id) ? "proven on this vehicle" : ""].filter(Boolean).join(" · ");
  }

  /** @param {any} state @param {any} one @param {string} from @param {string} [why] */
  function row(state, one, from, why) {
    return el("li", { class: "job-choice" },
      el("div", {}, el("a", { href: root + one.path, text: one.title }), el("p", { class: "note", text: why || noteOf(one, state) })),
      el("div", { class: "job-buttons" }, adders(state, one, from)));
  }

  /** What is found now, under its heading. @param {any} state */
  function found(state) {
    const { words, panel } = looking;
    const { book } = state;
    if (!words && !panel) return [];
    const all = panel === ALL ? jobChoices.inOrder(book.procedures) : panel ? jobChoices.onPanel(book, panel) : jobChoices.byWords(book, words);
    const what = panel === ALL ? "All procedures" : panel ? jobChoices.titleOf(book, panel) : `“${words}”`;
    const count = `${all.length || "no"} ${all.length === 1 ? "procedure" : "procedures"}`;
    return [
      el("h4", { id: "job_found-head", tabindex: "-1", text: panel === ALL ? `All ${count}` : `${what}: ${count}` }),
      all.length ? el("ul", { class: "job-choices" }, all.map((/** @type {any} */ one) => row(state, one, "job_pick")))
        : el("p", { class: "none", text: panel ? "No procedure of this book works on it. Try the panels beside it." : "Try another word, or press a panel on the drawing." }),
      el("p", { class: "job-buttons" }, button("Close this list", () => look("", NONE, "job_words"), { id: "job_found-close" })),
    ];
  }

  /** Look for something else. @param {string} words @param {string} panel @param {string} [focus] */
  function look(words, panel, focus) {
    Object.assign(looking, { words, panel });
    const field = /** @type {any} */ (document.getElementById("job_words"));
    if (field && field.value !== words) field.value = words;
    document.getElementById("job_found")?.replaceChildren(...found(now));
    markPanels();
    if (focus) focusOn(focus);
    if (focus === "job_found-head") document.getElementById(focus)?.scrollIntoView({ block: "start" });
  }

  /** The panel that a way on the drawing leads to. @param {any} book @param {Element} way @returns {string} */
  function panelOf(book, way) {
    const path = way.getAttribute("href") || "";
    return Object.keys(book.panels).find((id) => root + book.panels[id].path === path) || "";
  }

  /** Make the drawing's ways to pages into buttons of this page, once. @param {any} book */
  function readyBodies(book) {
    if (!bodies || bodies.dataset.ready) return;
    bodies.dataset.ready = "yes";
    bodies.hidden = false;
    bodies.querySelectorAll("a.panel").forEach((way, at) => {
      const panel = panelOf(book, way);
      way.id = `job_panel-${at}`;
      way.setAttribute("role", "button");
      way.setAttribute("data-panel", panel);
      const press = (/** @type {Event} */ event) => {
        event.preventDefault();
        look("", panel, "job_found-head");
      };
      way.addEventListener("click", press);
      way.addEventListener("keydown", (event) => {
        if (/** @type {KeyboardEvent} */ (event).key === " ") press(event);
      });
    });
    bodies.querySelectorAll("section.body").forEach(fold);
    bodies.querySelectorAll(".body .note a").forEach((way) => way.addEventListener("click", (event) => {
      event.preventDefault();
      look("", ALL, "job_found-head");
    }));
  }

  /** Put a shell's drawing in a fold, the first one open. @param {Element} body @param {number} at */
  function fold(body, at) {
    const title = body.querySelector("h2");
    const made = el("details", { id: `job_shell-${at}`, open: at === 0 }, el("summary", { text: title ? title.textContent : "" }));
    title?.remove();
    made.append(...body.children);
    body.append(made);
  }

  /** On the drawing, what the job works on and what is looked at. */
  function markPanels() {
    if (!bodies || !now) return;
    const { book, job } = now;
    const worked = new Set(job.runs.flatMap((/** @type {any} */ run) => (jobChoices.procedureOf(book, run.procedure) || { panels: [] }).panels));
    const vehicle = book.vehicles.find((/** @type {any} */ one) => one.id === job.vehicle);
    bodies.querySelectorAll("a.panel").forEach((way) => {
      const panel = way.getAttribute("data-panel") || "";
      way.classList.toggle("job-worked", worked.has(panel));
      way.setAttribute("aria-pressed", String(!!panel && looking.panel === panel));
    });
    bodies.querySelectorAll("section.body").forEach((body) => {
      const panels = Array.from(body.querySelectorAll("a.panel"), (way) => way.getAttribute("data-panel"));
      body.toggleAttribute("hidden", !!vehicle && !panels.some((id) => vehicle.panels.includes(id)));
    });
  }

  /** @param {any} state @returns {any} */
  function section(state) {
    now = state;
    readyBodies(state.book);
    const field = el("input", { type: "text", autocomplete: "off", value: looking.words, on: { input: () => look(field.value.trim() ? field.value : "", NONE) } });
    const made = el("section", { class: "block job-part", "aria-labelledby": "job_part-pick" },
      el("h3", { id: "job_part-pick", text: "2. What is done" }),
      el("div", { class: "job-find" },
        labelled("job_words", "Find a procedure by a word", field, "Or press a panel on the drawing."),
        button("Show all procedures", () => look("", ALL, "job_found-head"), { id: "job_all" })),
      el("div", { id: "job_found", class: "job-found" }, found(state)),
      bodies);
    markPanels();
    return made;
  }

  /** @param {any} state @param {any} run */
  function chosen(state, run) {
    const one = jobChoices.procedureOf(state.book, run.procedure);
    const title = one ? one.title : run.title || run.procedure;
    const side = run.side ? SIDE[/** @type {"left"} */ (run.side)] : "";
    const note = one ? noteOf(one, state) : "no longer in this book; what was noted of it is kept";
    const away = () => {
      state.change((/** @type {any} */ job) => jobChoices.remove(job, run.procedure, run.side, state.planned));
      state.say(`Taken out: ${title}. What was noted of it stays in the job’s file.`);
      focusOn("job_part-chosen");
    };
    return el("li", { class: "job-choice" },
      el("div", {}, el("strong", {}, one ? el("a", { href: root + one.path, text: title }) : title, side ? `, ${side}` : ""), el("p", { class: "note", text: note })),
      el("div", { class: "job-buttons" }, button("Remove", away, { id: `job_out-${run.procedure}-${run.side || "car"}`, "aria-label": `Remove: ${title}${side ? `, ${side}` : ""}` })));
  }

  /** @param {any} state @param {string} id @param {string} title @param {any[]} all @param {(because: string) => string} say @param {boolean} open */
  function proposed(state, id, title, all, say, open) {
    if (!all.length) return null;
    const rows = all.map(({ procedure, side, because }) => {
      const text = `Add${side ? ` ${side}` : ""}`;
      return el("li", { class: "job-choice" },
        el("div", {}, el("a", { href: root + procedure.path, text: procedure.title }), el("p", { class: "note", text: [noteOf(procedure, state), say(because.join(", "))].filter(Boolean).join(" · ") })),
        el("div", { class: "job-buttons" }, button(text, () => {
          toggle(state, procedure, side);
          focusOn(`job_offer-${id}`);
        }, { id: `job_${id}-${procedure.id}-${side || "car"}`, "aria-label": `${text}: ${procedure.title}` })));
    });
    return el("details", { class: "job-offer", id: `job_offers-${id}`, open: open && all.length <= MANY },
      el("summary", { id: `job_offer-${id}`, text: `${title} (${all.length})` }), el("ul", { class: "job-choices" }, rows));
  }

  /** The procedures chosen, and those proposed. @param {any} state @returns {any} */
  function list(state) {
    const { job, book } = state;
    const minutes = job.runs.reduce((/** @type {number} */ sum, /** @type {any} */ run) => sum + (jobChoices.procedureOf(book, run.procedure) || { minutes: 0 }).minutes, 0);
    return el("section", { class: "block job-part", "aria-labelledby": "job_part-chosen" },
      el("h3", { id: "job_part-chosen", tabindex: "-1", text: "3. In this job" }),
      job.runs.length ? [
        el("ul", { class: "job-choices" }, job.runs.map((/** @type {any} */ run) => chosen(state, run))),
        el("p", { class: "note", text: `As the book writes them they take ${jobWords.span(minutes)}. What they share is done once; rust, working alone and findings add to it.` }),
      ] : el("p", { class: "none", text: "Nothing yet." }),
      proposed(state, "relied", "They rely on", jobChoices.reliedOn(job, book), (one) => `for ${one}`, true),
      proposed(state, "follows", "This takes over what they leave open", jobChoices.following(job, book), (one) => `after ${one}`, true),
      proposed(state, "beside", "On the panels beside", jobChoices.beside(job, book), () => "", false));
  }

  Object.assign(seambook.jobMake, { pick: section, list });
})();
