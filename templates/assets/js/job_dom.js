/**
 * Elements of the page of jobs: made by one function, so that no text of a job can ever be more than text.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const SVG = "http://www.w3.org/2000/svg";
  const OF_SVG = new Set(["svg", "g", "path", "rect", "line", "circle", "text", "tspan", "title", "polyline", "polygon"]);

  /**
   * Make an element. `text` and `class` are what they say, `on` holds listeners, `value`, `checked` and the like are
   * set as properties, anything else is an attribute: true stands without a value, false and null are left out.
   * @param {string} tag @param {Record<string, any>} [given] @param {...any} children nodes, texts, lists; null is nothing
   * @returns {any}
   */
  function el(tag, given, ...children) {
    const { text, on, class: style, ...rest } = given || {};
    const made = OF_SVG.has(tag) ? document.createElementNS(SVG, tag) : document.createElement(tag);
    if (style) made.setAttribute("class", style);
    for (const [name, value] of Object.entries(rest)) put(made, name, value);
    for (const [name, heard] of Object.entries(on || {})) made.addEventListener(name, heard);
    if (text !== undefined && text !== null) made.append(String(text));
    made.append(...children.flat(Infinity).filter((one) => one !== null && one !== undefined && one !== false));
    return made;
  }

  /** @param {any} element @param {string} name @param {any} value */
  function put(element, name, value) {
    if (name === "value" || name === "checked" || name === "disabled" || name === "selected") element[name] = value;
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, String(value));
  }

  /**
   * A field below its label. @param {string} id @param {string} label @param {any} field @param {string} [note]
   * @returns {any}
   */
  function labelled(id, label, field, note) {
    field.id = id;
    if (note) field.setAttribute("aria-describedby", `${id}-note`);
    return el("div", { class: "job-field" }, el("label", { for: id, text: label }), field,
      note ? el("p", { class: "note", id: `${id}-note`, text: note }) : null);
  }

  /** A button. @param {string} text @param {(event: Event) => void} press @param {Record<string, any>} [given] */
  function button(text, press, given) {
    return el("button", { type: "button", class: "control", text, on: { click: press }, ...given });
  }

  /** What stands in fields that a button will take, and is in no job yet. @param {HTMLElement} place @returns {Map<string, any>} */
  function heldIn(place) {
    const all = /** @type {any[]} */ (Array.from(place.querySelectorAll("[data-held]")));
    const fields = all.filter((one) => one.dataset.held !== (one.type === "checkbox" ? String(one.checked) : one.value));
    return new Map(fields.map((one) => [one.id, one]));
  }

  /** Put it back where its field was drawn anew. @param {Map<string, any>} before */
  function putBack(before) {
    for (const [id, { value, checked }] of before) {
      const field = /** @type {any} */ (document.getElementById(id));
      if (field && "held" in field.dataset && field !== before.get(id)) Object.assign(field, { value, checked });
    }
  }

  /**
   * Show something in a place anew and keep the focus, what is chosen in a field and not taken yet, and which folds are open, by ids.
   * @param {HTMLElement} place @param {() => void} draw
   */
  function redraw(place, draw) {
    const active = /** @type {any} */ (document.activeElement);
    const id = active && place.contains(active) ? active.id : "";
    const [from, to] = id ? chosenIn(active) : [null, null];
    const open = Array.from(place.querySelectorAll("details[id][open]"), (one) => one.id);
    const [left, top] = [window.scrollX, window.scrollY];
    const held = heldIn(place);
    draw();
    putBack(held);
    for (const one of open) document.getElementById(one)?.setAttribute("open", "");
    const again = /** @type {any} */ (id && document.getElementById(id));
    if (again && document.activeElement !== again) {
      again.focus({ preventScroll: true });
      if (from !== null) again.setSelectionRange(from, to);
    }
    if (window.scrollX !== left || window.scrollY !== top) window.scrollTo(left, top);
  }

  /** @param {any} field @returns {[number | null, number | null]} */
  function chosenIn(field) {
    const isText = field instanceof HTMLTextAreaElement || (field instanceof HTMLInputElement && field.type === "text");
    return isText ? [field.selectionStart, field.selectionEnd] : [null, null];
  }

  /** Put the focus on the first of these that is there. @param {...string} ids */
  function focusOn(...ids) {
    for (const id of ids) {
      const found = document.getElementById(id);
      if (found) {
        found.focus();
        return;
      }
    }
  }

  seambook.dom = { el, labelled, button, redraw, focusOn };
})();
