/**
 * The page of everybody's training: its views by the address, below who practises. Started last. Needs all the rest; a view
 * registers itself as `seambook.trainViews[name] = {title, draw(place, desk, asked)}`.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = /** @type {any} */ (window).seambook;
  const found = document.getElementById("train_page");
  if (!found || !seambook.training) return;
  const place = found;
  const { el } = seambook.dom;
  const { trainDesk, trainPeople, trainViews } = seambook;
  const ORDER = ["people", "progress", "skills", "sheet", "trainer"];
  const state = { isChoosing: false };

  /** What the address asks for. @returns {Record<string, string>} */
  function asked() {
    const parts = window.location.hash.replace(/^#/, "").split("&").map((part) => part.split("="));
    return Object.fromEntries(parts.filter(([name, value]) => name && value && /^[\w-]+$/.test(value)));
  }

  /** @param {string} now */
  function ways(now) {
    return el("nav", { class: "job-views", "aria-label": "Training" }, el("ul", {}, ORDER.map((name) => el("li", {},
      el("a", { id: `train_view-${name}`, href: `#view=${name}`, "aria-current": name === now ? "page" : null, text: trainViews[name].title })))));
  }

  /** @param {any} desk */
  function draw(desk) {
    const wanted = asked();
    const name = ORDER.includes(wanted.view) ? wanted.view : ORDER[0];
    const view = trainViews[name];
    const made = el("div", { class: `train-view train-view-${name}${view.style ? ` ${view.style}` : ""}`, id: "train_place" });
    place.replaceChildren(...(name === "people" ? [] : [trainPeople.block(desk, state)]), ways(name), made);
    document.documentElement.style.removeProperty("--check"); // a sheet with a number of its own says so at its foot
    view.draw(made, desk, wanted);
  }

  const desk = trainDesk.open(place, draw);
  document.getElementById("train_page_without")?.setAttribute("hidden", "");
  window.addEventListener("hashchange", () => {
    desk.draw();
    if (document.activeElement === document.body) /** @type {any} */ (document.querySelector(".job-views [aria-current]"))?.focus({ preventScroll: true });
  });
  desk.draw();
})();
