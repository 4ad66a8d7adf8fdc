/**
 * What any page says of the book's editions: that a new one waits, below the sheet and never over a step in the bay; and of
 * a book too large to be kept whole, at the foot of a procedure, whether this one is kept. Needs delivery.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const { delivery } = /** @type {any} */ (window).seambook;
  const BAY = "bay.html";
  const PROCEDURE = /^procedures\/([^/]+)\.html$/;

  /** @param {string} text @param {() => void} press */
  function button(text, press) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "control";
    made.textContent = text;
    made.addEventListener("click", press);
    return made;
  }

  /** @param {number} others */
  function inTheWay(others) {
    const pages = others === 1 ? "One more page of this book is" : `${others} more pages of this book are`;
    return `${pages} open. Close ${others === 1 ? "it" : "them"}, then press again.`;
  }

  function bar() {
    const made = document.createElement("div");
    const said = document.createElement("p");
    made.className = "edition-bar";
    made.id = "page_edition";
    said.setAttribute("role", "status");
    const use = button("Use it now", () => void delivery.take().then((/** @type {number} */ others) => {
      if (others) said.textContent = inTheWay(others);
    }));
    const later = button("Later", () => {
      delivery.putOff(true);
      made.remove();
    });
    made.append(said, use, later);
    document.body.append(made);
    said.textContent = "A new edition of this book is here. It is used when all pages of the book are closed.";
  }

  delivery.announce = () => {
    const { waiting, active } = delivery.now.registration || {};
    const isShown = !!document.getElementById("page_edition");
    if (waiting && active && !isShown && delivery.path !== BAY && !delivery.putOff()) bar();
    else if (!waiting && isShown) document.getElementById("page_edition")?.remove();
  };

  const [, id = ""] = PROCEDURE.exec(delivery.path) || [];
  const keep = document.getElementById("page_keep");
  const told = document.getElementById("page_keep-said");

  /** Of a book that is kept by choice, whether this procedure is. */
  async function show() {
    const { registration, progress } = delivery.now;
    if (!id || !keep || progress || !registration?.active) return;
    const found = await delivery.ask({ ask: "choice", id }).catch(() => null);
    keep.hidden = !found || found.isWhole;
    if (found) keep.setAttribute("aria-pressed", String(found.isKept));
  }

  async function change() {
    if (!keep || !told) return;
    const isKept = keep.getAttribute("aria-pressed") !== "true";
    told.textContent = isKept ? "Being kept ..." : "";
    try {
      await delivery.ask({ ask: "change", id, isKept });
      told.textContent = isKept ? "Kept: it reads without the network." : "No longer kept.";
    } catch {
      told.textContent = "It could not be kept. The page “On this device” says why.";
    }
    await show();
  }

  if (delivery.now.way !== "served") return;
  keep?.addEventListener("click", () => void change());
  delivery.hear(() => void show());
  delivery.announce();
})();
