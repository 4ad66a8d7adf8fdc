/* Steps ticked off on this device, to keep the place; the record of the job is kept elsewhere. */
(function () {
  "use strict";

  /** @typedef {{ key: string, title: string, number: string, article: HTMLElement, button: HTMLButtonElement }} Step */

  /**
   * The keys that may be trusted of what storage holds: the page's own steps, each once.
   * @param {string | null} text
   * @param {ReadonlyArray<string>} known
   * @returns {string[]}
   */
  function readTicks(text, known) {
    /** @type {unknown} */
    let stored = null;
    try {
      stored = JSON.parse(text || "[]");
    } catch {
      return [];
    }
    return Array.isArray(stored) ? known.filter((key) => stored.includes(key)) : [];
  }

  /**
   * The first step that is not ticked.
   * @param {ReadonlyArray<string>} known
   * @param {ReadonlySet<string>} done
   */
  function nextOf(known, done) {
    return known.find((key) => !done.has(key)) || "";
  }

  /**
   * The button of a step, which only a script can use: the page does not hold it.
   * @param {string} key
   * @param {string} number
   */
  function buttonOf(key, number) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "control";
    button.dataset.tick = key;
    button.textContent = "Done";
    button.setAttribute("aria-label", `Done: step ${number}`);
    return button;
  }

  const body = document.body;
  const storageKey = `seambook:${body.dataset.book || ""}:ticks:${body.dataset.path || ""}`;

  /** @type {Step[]} */
  const steps = [];
  document.querySelectorAll("article.step").forEach((article) => {
    if (!(article instanceof HTMLElement)) return;
    const title = article.querySelector(".do")?.textContent || "";
    const number = article.querySelector(":scope > a")?.textContent || "";
    steps.push({ key: article.id, title, number, article, button: buttonOf(article.id, number) });
  });
  const tools = document.getElementById("tick_tools");
  const count = document.getElementById("tick_count");
  const clear = document.getElementById("tick_clear");
  const onward = document.getElementById("tick_onward");
  if (!tools || !count || !clear || !onward || !steps.length) return;

  const known = steps.map((step) => step.key);

  function load() {
    try {
      return new Set(readTicks(window.localStorage.getItem(storageKey), known));
    } catch {
      return new Set();
    }
  }

  /** @type {Set<string>} */
  let done = load();

  function store() {
    try {
      if (done.size) window.localStorage.setItem(storageKey, JSON.stringify([...done]));
      else window.localStorage.removeItem(storageKey);
    } catch {
      /* Storage may be refused; the ticks then hold while the page is open. */
    }
  }

  function show() {
    const next = nextOf(known, done);
    for (const step of steps) {
      const isDone = done.has(step.key);
      step.article.dataset.state = isDone ? "done" : step.key === next ? "next" : "";
      step.button.setAttribute("aria-pressed", String(isDone));
    }
    if (count) count.textContent = `${done.size} of ${steps.length} steps done`;
    if (clear) clear.hidden = !done.size;
    showOnward(steps.find((step) => step.key === next));
  }

  /** @param {Step | undefined} step the one to do next */
  function showOnward(step) {
    const link = onward?.querySelector("a");
    if (!onward || !link) return;
    onward.hidden = !step || !done.size;
    if (!step) return;
    link.href = `#${step.key}`;
    link.textContent = `Next: step ${step.number}`;
    link.setAttribute("aria-label", `Next: step ${step.number}, ${step.title}`);
  }

  for (const step of steps) {
    const line = document.createElement("p");
    line.className = "tick";
    line.append(step.button);
    step.article.append(line);
    step.button.addEventListener("click", () => {
      const isTaken = !done.delete(step.key);
      if (isTaken) done.add(step.key);
      store();
      show();
      if (isTaken) document.dispatchEvent(new CustomEvent("seambook:ticked", { detail: { key: step.key, isLast: step === steps[steps.length - 1] } }));
    });
  }
  clear.addEventListener("click", () => {
    done = new Set();
    store();
    show();
    steps[0].button.focus();
  });
  window.addEventListener("storage", (event) => {
    if (event.key !== storageKey && event.key !== null) return;
    done = load();
    show();
  });
  tools.hidden = false;
  show();
})();
