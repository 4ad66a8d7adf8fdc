/* What stays while steps come and go: the head with what is open, how far it is and who works, and the two keys at the foot. */
/** @typedef {{label: string, take: () => void, isQuiet?: boolean}} Turn what the large key does */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;

  /** @param {HTMLElement} bay @param {{where: () => void, who: () => void, menu: () => void, back: () => void}} acts */
  function make(bay, acts) {
    const key = (/** @type {string} */ id, /** @type {string} */ style, /** @type {string} */ text, /** @type {() => void} */ press) =>
      el("button", { type: "button", class: style, id, text, on: { click: press } });
    const parts = {
      called: heading(), count: key("bay_count", "control", "", acts.where), person: key("bay_person", "control", "", acts.who),
      menu: key("bay_menu", "control", "Menu", acts.menu), progress: el("progress", { class: "bay-progress", max: 1, value: 0, "aria-label": "Steps done" }),
      timers: el("div", { class: "bay-timers", id: "bay_timers" }), place: el("div", { class: "bay-place", id: "bay_place" }),
      back: key("bay_back", "control bay-foot-back", "Back", acts.back), next: key("bay_next", "primary bay-foot-next", "", () => turn.take()),
    };
    /** @type {Turn} */
    let turn = { label: "", take: () => undefined };
    const head = el("div", { class: "bay-head" }, parts.called, el("div", { class: "bay-head-keys" }, parts.count, parts.person, parts.menu), parts.progress,
      el("p", { class: "bay-paper", text: "Here the steps come one at a time. On paper they are all on the page of the procedure or of the job: print that." }));
    bay.replaceChildren(head, parts.timers, seambook.jobBar.notices, seambook.jobBar.line, parts.place, el("div", { class: "bay-foot", id: "bay_foot" }, parts.back, parts.next));
    bay.hidden = false;
    document.body.classList.add("bay-on");
    return { ...parts, turn: (/** @type {Turn} */ now) => {
      turn = now;
      put(parts.next, now.label);
      parts.next.classList.toggle("is-quiet", !!now.isQuiet);
    } };
  }

  /** The page's own heading, taken into the head, since a page has one. */
  function heading() {
    const found = document.querySelector("main .opening h1") || el("h1", { text: "In the bay" });
    found.className = "bay-called";
    found.id = "bay_called";
    return found;
  }

  /** Text is put only where it is another: a key that is being pressed stays what it is. @param {HTMLElement} place @param {string} text */
  function put(place, text) {
    if (place.textContent !== text) place.textContent = text;
  }

  /** Where no job is open its keys are away, since there is nothing that they could say or do. @param {HTMLElement} bay @param {boolean} isShut */
  function shut(bay, isShut) {
    for (const one of bay.querySelectorAll(".bay-head-keys, .bay-progress, .bay-foot")) one.toggleAttribute("hidden", isShut);
  }

  /** @param {any} frame @param {any} bay */
  function head(frame, { state, stand, row }) {
    const { job } = state;
    const title = job.alone ? job.title : [job.number && `Job ${job.number}`, row?.title || job.title].filter(Boolean).join(" \u00b7 ");
    const name = seambook.jobEntries.name();
    put(frame.called, title || "Job without a number");
    const at = row ? (stand.at.get(row.id) ?? 0) + 1 : stand.rows.length;
    put(frame.count, `${at} of ${stand.rows.length}`);
    frame.count.setAttribute("aria-label", `Step ${at} of ${stand.rows.length}: where to?`);
    put(frame.person, name ? seambook.bayNames.short(name) : "Who?");
    frame.person.setAttribute("aria-label", name ? `${seambook.bayNames.short(name)}: ${name} works here` : "Who works here?");
    frame.progress.max = stand.rows.length || 1;
    frame.progress.value = stand.count;
  }

  seambook.bayFrame = { make, head, shut };
})();
