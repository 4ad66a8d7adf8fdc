/**
 * What is typed into the views of a job. Each key is kept in the job at once; the view is drawn anew when the field is left,
 * and never between the press and the release of a button, which would then be another button. Focus goes back to where
 * it was.
 */

/** @typedef {(job: any) => void} Edit */

(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  /** So long a job's file lets a name and a text be. */
  const [LONG, LONGEST] = [120, 20000];
  /** @type {any} */
  let state = null;
  let [isPressed, isStale] = [false, false];
  let wanted = "";
  let named = "";

  const nameKey = () => `seambook:${document.body.dataset.book || ""}:who`;

  /** The name that was given last on this device. */
  function name() {
    try {
      return window.localStorage.getItem(nameKey()) || named;
    } catch {
      return named;
    }
  }

  /** @param {string} text */
  function keepName(text) {
    named = text;
    try {
      window.localStorage.setItem(nameKey(), text);
    } catch {
      // Without storage the name lasts as long as the page.
    }
  }

  /** An id's characters that may stand in an element's id. @param {string} text */
  function idOf(text) {
    return text.replace(/[^\w-]/g, "_");
  }

  /** Draw the view anew if something was typed since it was drawn. */
  function flush() {
    if (isStale && state && !isPressed && !document.querySelector(".entry-field .fault")) change(() => {});
  }

  /** Change the job and draw the view anew. @param {Edit} edit @param {string} [focus]  Where the focus goes. */
  function change(edit, focus) {
    isStale = false;
    wanted = focus || document.activeElement?.id || "";
    state.change(edit);
    refocus();
    wanted = "";
  }

  /** Change the job and leave the view as it stands: somebody is typing in it. @param {Edit} edit */
  function keep(edit) {
    isStale = true;
    state.change(edit, { redraw: false });
  }

  /** While one types the view stays; only what it works on is the job as it is now. @param {HTMLElement} place @param {any} now */
  function freshen(place, now) {
    if (place.isConnected) state = now;
  }

  function refocus() {
    if (!wanted || document.activeElement?.id === wanted) return;
    const found = document.getElementById(wanted);
    if (!found || (document.activeElement && document.activeElement !== document.body)) return;
    found.focus({ preventScroll: found.matches("input, textarea, select, [tabindex='-1']") });
    if (found instanceof HTMLInputElement && found.type === "text") found.select();
  }

  /** Put a view's parts in place of what stood there, and the focus back. @param {HTMLElement} place @param {any} now @param {(Node | null | false)[]} parts */
  function redraw(place, now, parts) {
    state = now;
    if (!wanted && place.contains(document.activeElement)) wanted = document.activeElement?.id || "";
    place.replaceChildren(.../** @type {Node[]} */ (parts.filter(Boolean)));
    refocus();
  }

  /**
   * A field with its label. `edit` is given the text. Without it the field only holds what a button will take.
   * @param {{id: string, label: string, value?: any, edit?: (job: any, text: string) => void, unit?: string, note?: string, rows?: number,
   *   number?: boolean, list?: string[], placeholder?: string, style?: string, unseen?: boolean, type?: string, most?: number}} about
   */
  function field(about) {
    const { id, label, value, edit, unit, note, rows, number, list, placeholder, style, unseen, type, most } = about;
    const given = {
      id, autocomplete: "off", placeholder: placeholder || null, list: list ? `${id}_list` : null, rows: rows || null, type: rows ? null : type || "text",
      maxlength: most || (rows ? LONGEST : LONG),
      inputmode: number ? "decimal" : null, "aria-describedby": note ? `${id}_note` : null,
    };
    const input = el(rows ? "textarea" : "input", given);
    input.value = value ?? "";
    if (!edit) input.dataset.held = input.value;
    else {
      input.addEventListener("input", () => keep((job) => edit(job, input.value)));
      input.addEventListener("change", () => {
        clearFault(input);
        if (number && input.value.trim() && seambook.jobWords.typed(input.value) === null) fault(id, "Write it as a number.");
        else window.setTimeout(flush, 0);
      });
    }
    const entry = unit ? el("div", { class: "entry" }, input, el("span", { class: "unit", text: unit })) : input;
    return el(
      "div", { class: `entry-field${style ? ` ${style}` : ""}` }, el("label", { for: id, class: unseen ? "unseen" : null, text: label }), entry,
      list ? el("datalist", { id: `${id}_list` }, ...list.map((one) => el("option", { value: one }))) : null,
      note ? el("p", { class: "note", id: `${id}_note`, text: note }) : null
    );
  }

  /** @param {{id: string, label: string, value: string, choices: [string, string][], edit?: (job: any, text: string) => void, style?: string}} about */
  function choice({ id, label, value, choices, edit, style }) {
    const select = el("select", { id }, ...choices.map(([key, said]) => el("option", { value: key, selected: key === value, text: said })));
    if (!edit) select.dataset.held = select.value;
    else select.addEventListener("change", () => change((job) => edit(job, select.value)));
    return el("div", { class: `entry-field${style ? ` ${style}` : ""}` }, el("label", { for: id, text: label }), select);
  }

  /** @param {{id: string, label: string, checked: boolean, edit?: (job: any, is: boolean) => void}} about */
  function check({ id, label, checked, edit }) {
    const box = el("input", { id, type: "checkbox", checked });
    if (!edit) box.dataset.held = String(checked);
    else box.addEventListener("change", () => change((job) => edit(job, box.checked)));
    return el("label", { class: "job-check", for: id }, box, label);
  }

  /** Let go of what stands in the fields of a form: it was taken. @param {string} start what their ids begin with */
  function taken(start) {
    for (const one of document.querySelectorAll(`[data-held][id^="${start}"]`)) one.removeAttribute("data-held");
  }

  /** What stands in a field. @param {string} id */
  function valueOf(id) {
    const found = document.getElementById(id);
    const isField = found instanceof HTMLInputElement || found instanceof HTMLTextAreaElement || found instanceof HTMLSelectElement;
    return isField ? found.value.trim() : "";
  }

  /** @param {Element} input */
  function clearFault(input) {
    input.closest(".entry-field")?.querySelector(".fault")?.remove();
    input.removeAttribute("aria-invalid");
  }

  /** Tell at a field what is missing, and go there. @param {string} id @param {string} text */
  function fault(id, text) {
    const input = document.getElementById(id);
    const field = input?.closest(".entry-field");
    if (!input || !field) return;
    clearFault(input);
    field.append(el("p", { class: "fault", id: `${id}_fault`, role: "alert", text }));
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-describedby", `${id}_fault`);
    input.focus();
  }

  document.addEventListener("pointerdown", () => (isPressed = true), true);
  for (const end of ["pointerup", "pointercancel"]) {
    document.addEventListener(end, () => window.setTimeout(() => {
      isPressed = false;
      flush();
    }, 0), true);
  }

  seambook.jobEntries = { name, keepName, idOf, change, redraw, freshen, field, choice, check, valueOf, taken, fault };
})();
