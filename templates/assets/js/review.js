/* Tells that a page's review is overdue, and which of a list are, by this device's clock; the pages themselves say the days. */
(function () {
  "use strict";

  /**
   * The day as people write it on this device's calendar, year first, so that days compare as texts.
   * @param {Date} now
   */
  function today(now) {
    const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  const now = today(new Date());
  tellOfPage(document.querySelector("time[data-late]"));
  tellOfList([...document.querySelectorAll("time[data-due]")]);

  /** @param {string} text */
  function tell(text) {
    const told = document.createElement("p");
    told.className = "banner";
    told.setAttribute("role", "note");
    told.textContent = text;
    document.getElementById("page_content")?.before(told);
  }

  /** @param {Element | null} due of this page */
  function tellOfPage(due) {
    if (due instanceof HTMLTimeElement && now > due.dateTime) tell(due.dataset.late || "");
  }

  /** Mark each day of the list that has passed, and say how many. @param {Element[]} days */
  function tellOfList(days) {
    const late = days.filter((day) => day instanceof HTMLTimeElement && now > day.dateTime);
    for (const day of late) {
      const mark = document.createElement("strong");
      mark.className = "overdue";
      mark.textContent = "overdue";
      day.after(" ", mark);
    }
    if (late.length) tell(`${late.length} of ${days.length} ${late.length === 1 ? "is" : "are"} overdue.`);
  }
})();
