/* Who works with this device: asked once, changed at any time; each goes on where they left off. Needs bay_names.js. */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el } = seambook.dom;
  const entries = seambook.jobEntries;

  /** Ask who works. @param {any} job @param {(name: string) => void} take @param {boolean} isNeeded */
  function ask(job, take, isNeeded) {
    const chosen = (/** @type {string} */ name) => {
      close();
      entries.keepName(name);
      take(name);
    };
    const given = () => {
      const name = entries.valueOf("bay_name");
      if (!name) return entries.fault("bay_name", "Write a name or initials.");
      return chosen(name);
    };
    const known = seambook.bayNames.of(job);
    const field = entries.field({ id: "bay_name", label: known.length ? "Somebody else" : "Name or initials" });
    field.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key === "Enter") given();
    });
    const close = seambook.bayDialog.open("bay_who", "Who works here?", [
      el("p", { class: "note", text: "The name stands beside every tick, reading and photograph made on this device." }),
      el("div", { class: "bay-list" }, known.map((/** @type {string} */ name, /** @type {number} */ n) =>
        el("button", { type: "button", class: "control bay-wide", id: `bay_who-${n}`, text: name, on: { click: () => chosen(name) } }))),
      field, el("button", { type: "button", class: known.length ? "control bay-wide" : "primary bay-wide", id: "bay_who-take", text: "Take this name", on: { click: given } }),
    ], { isNeeded });
  }

  /** The step that somebody was at last, if the job still has it to be done or looked at. @param {any} job @param {Stand} stand @param {string} name @returns {string} */
  function leftAt(job, stand, name) {
    const id = seambook.jobKept.has(job.left_at, name) ? job.left_at[name] : "";
    const row = stand.rows[stand.at.get(id) ?? -1];
    if (!row) return "";
    const isOpen = !row.done || stand.holds.includes(row);
    return isOpen ? id : "";
  }

  seambook.bayPerson = { ask, leftAt };
})();
