/**
 * Turning from page to page: the copy's address says which page is shown and where on it, `#procedures/x.html#step`, so
 * that back and forward work and a place can be handed on. Starts the copy; needs the rest.
 */
(function () {
  "use strict";

  /** @type {any} */
  const pocket = /** @type {any} */ (window).seambookPocket;
  const FIRST = "index.html";
  const KEEPING = ["jobs.html", "bay.html"];
  /** The page that is shown. @type {any} */
  let leaf = null;
  let isKept = false;
  let isToldOfKeeping = false;
  /** Counts the ways gone: what comes late is dropped. */
  let turn = 0;

  /** @returns {{path: string, fragment: string}} */
  function asked() {
    const text = window.location.hash.slice(1);
    const at = text.indexOf("#");
    const path = decodeURI(at < 0 ? text : text.slice(0, at)) || FIRST;
    return { path, fragment: at < 0 ? "" : text.slice(at) };
  }

  /** @param {string} path @param {string} fragment */
  function addressOf(path, fragment) {
    return `${window.location.href.split("#")[0]}#${path}${fragment}`;
  }

  /** Say something about the copy itself; it stands above the page until it is closed. @param {string} text */
  function tell(text) {
    const place = /** @type {HTMLElement} */ (document.getElementById("pocket_notice"));
    /** @type {HTMLElement} */ (place.querySelector("p")).textContent = text;
    place.hidden = false;
  }

  /** Where a page was left, so that going back finds it. */
  function keepPlace() {
    try {
      window.history.replaceState({ top: leaf ? leaf.frame.contentWindow.scrollY : 0 }, "");
    } catch {
      /* Refused where the copy is opened from some apps; going back then begins at the top. */
    }
  }

  /** @param {string} path @param {string} fragment */
  function go(path, fragment) {
    if (!pocket.has(path)) {
      tell("This copy of the book does not hold that page. The whole book has it.");
      return;
    }
    keepPlace();
    const address = addressOf(path, fragment);
    if (address === window.location.href) void show(true);
    else window.location.href = address;
  }

  /** What a page of the book asks of the place it lies in; `page` is its path. @param {string} page */
  function ways(page) {
    return {
      move: (/** @type {string} */ to) => (to.startsWith("#") ? go(page, to) : go(pocket.resolved(to, "").path, pocket.resolved(to, "").fragment)),
      keep: (/** @type {string} */ fragment) => {
        try {
          leaf.frame.contentWindow.history.replaceState(null, "", fragment || "#");
          window.history.replaceState(window.history.state, "", addressOf(page, fragment));
        } catch {
          /* Refused where the copy is opened from some apps; the page works without. */
        }
      },
      here: (/** @type {string} */ fragment) => addressOf(page, fragment),
    };
  }

  /** A press on a way inside the book. @param {MouseEvent} event @param {string} page */
  function follow(event, page) {
    const target = /** @type {any} */ (event.target);
    const way = target && target.closest && target.closest("a[href]");
    if (!way || event.defaultPrevented || way.hasAttribute("download")) return;
    const href = way.getAttribute("href") || "";
    if (/^[a-z][a-z0-9+.-]*:/i.test(href)) {
      if (/^https?:/i.test(href)) way.setAttribute("target", "_blank");
      return;
    }
    const goal = pocket.resolved(href, page);
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) {
      way.setAttribute("href", addressOf(goal.path, goal.fragment));
      return;
    }
    event.preventDefault();
    go(goal.path, goal.fragment);
  }

  /** @param {any} next @param {number | null} top */
  function turnTo(next, top) {
    const before = leaf;
    leaf = next;
    if (KEEPING.includes(next.path) && isKept) tellOfKeeping();
    document.title = next.frame.title;
    const view = next.frame.contentWindow;
    view.addEventListener("click", (/** @type {MouseEvent} */ event) => follow(event, next.path));
    view.addEventListener("auxclick", (/** @type {MouseEvent} */ event) => follow(event, next.path));
    if (before) pocket.leave(before);
    const opening = document.getElementById("pocket_opening");
    if (opening) opening.remove();
    view.focus();
    if (top) view.scrollTo(0, top);
  }

  /** Show what the address asks for. @param {boolean} [isAgain] the same place is asked for once more */
  async function show(isAgain) {
    const mine = (turn += 1);
    const { path, fragment } = asked();
    if (leaf && leaf.path === path) {
      const inside = leaf.frame.contentWindow.location;
      if (isAgain || inside.hash !== fragment) inside.replace(fragment || "#");
      return;
    }
    const known = pocket.has(path) ? path : FIRST;
    if (known !== path) tell("This copy of the book does not hold the page that was asked for. This is its first page.");
    const state = /** @type {any} */ (window.history.state);
    const next = await pocket.make(known, known === path ? fragment : "", ways(known));
    if (mine !== turn) next.frame.remove();
    else turnTo(next, state && !fragment ? state.top : null);
    await next.started;
  }

  /** @param {unknown} fault */
  function fail(fault) {
    document.body.classList.remove("pocket-open");
    const plain = document.getElementById("pocket_plain");
    const place = document.createElement("div");
    place.innerHTML = plain ? plain.textContent || "" : "";
    document.body.append(place);
    const opening = document.getElementById("pocket_opening");
    if (opening) opening.textContent = `The pages could not be opened here (${fault}). What follows is the text of the book.`;
  }

  /** Said once, before the first job: what is kept belongs to the place that the copy was opened from. */
  function tellOfKeeping() {
    if (isToldOfKeeping) return;
    isToldOfKeeping = true;
    tell("Jobs and ticks stay with this copy in this browser. Opened from a message, they may be gone the next time: save the file of each job.");
  }

  function tellOfStorage() {
    try {
      isKept = Boolean(window.localStorage && window.indexedDB);
    } catch {
      /* Refused: nothing is kept. */
    }
    if (!isKept) tell("Opened from here, nothing is kept once this is closed. Save the file of each job before you leave it, or save this copy to the device and open it from there.");
  }

  /** @type {HTMLElement} */ (document.getElementById("pocket_notice-close")).addEventListener("click", (event) => {
    /** @type {any} */ (event.currentTarget).parentElement.hidden = true;
  });
  try {
    document.body.classList.add("pocket-open");
    pocket.ready();
    tellOfStorage();
    window.addEventListener("hashchange", () => void show().catch(fail));
    show().catch(fail);
  } catch (fault) {
    fail(fault);
  }
})();
