/**
 * What a plan says beside its times: why a step cannot be placed, and what would bring the finish nearer. What is offered has
 * been planned: each gain is the difference of two finishes. Needs job_words.js.
 */

(function () {
  "use strict";

  /** @type {any} */
  const page = window;
  /** @type {any} */
  const seambook = (page.seambook = page.seambook || {});
  const HOUR = 60;
  const WORTH_SAYING = 15;

  /** @param {number} minutes */
  function span(minutes) {
    return seambook.jobWords.span(minutes);
  }

  /** @type {Record<string, (told: any, library: any) => string>} */
  const WHY = {
    opening: ({ with: [minutes, longest] }) =>
      `takes ${span(minutes)} at a stretch and the shop is open ${span(longest)}. Open longer, or mark the step so that it may be split.`,
    watch: ({ with: [minutes, longest] }) => `with its watch takes ${span(minutes)} and has to end before closing; the shop is open ${span(longest)}.`,
    wait: ({ with: [minutes, wait, longest] }) => `and the ${span(wait)} that somebody stays for take ${span(minutes + wait)}; the shop is open ${span(longest)}.`,
    hands: ({ with: [asked, there] }) => `needs ${asked} technicians and there ${there === 1 ? "is one" : `are ${there}`}.`,
    place: ({ with: [place] }, library) => `needs a place that is not free for this job: ${placeOf(place, library)}.`,
    window: () => "cannot be begun before the longest wait of the step before it is over.",
    loop: () => "waits for itself through the steps that have to come before it.",
  };

  /** @param {string} place @param {any} library */
  function placeOf(place, library) {
    const known = library.book.planning && library.book.planning.places[place];
    return known ? known.say : place;
  }

  /** What was made for one day and is needed on another: it is done again then. @param {any[]} known @param {any} planned @param {any} problem @param {any} merged */
  function again(known, planned, problem, merged) {
    const more = planned.impossible.flatMap((/** @type {any} */ one) => {
      const day = dayOf(merged, one);
      return day ? [{ id: problem.tasks[day[1]].id, maker: problem.tasks[day[0]].id, state: day[2] }] : [];
    });
    const all = new Map([...known, ...more].map((one) => [`${one.maker} ${one.id} ${one.state}`, one]));
    return [...all.values()];
  }

  /** @param {any} merged @param {any} one @returns {any[] | undefined} */
  function dayOf(merged, one) {
    if (one.why !== "window") return undefined;
    return merged.days.find((/** @type {any[]} */ [from, to]) => to === one.task && from === one.with[0]);
  }

  /** Why the book's figures for curing give nothing at the shop's temperature. @param {number} temperature @param {{least_temperature: number, cold: string}} curing */
  function curingAt(temperature, { least_temperature: least, cold }) {
    if (temperature < least) return `do not cure at the shop's temperature: at least ${least} °C. ${cold}`;
    return `have no time to cure that can be worked out for ${temperature} °C: they are planned as written. See the maker's sheet.`;
  }

  /** @param {any} problem @param {any} planned @param {any} merged @param {string[]} cold @param {string[]} alone @param {any} library @param {any} job */
  function problems(problem, planned, merged, cold, alone, library, job) {
    const { planning } = library.book;
    const told = planned.impossible.filter((/** @type {any} */ one) => !dayOf(merged, one)).map((/** @type {any} */ one) => ({ say: WHY[one.why](one, library), steps: [problem.tasks[one.task].id] }));
    if (!problem.hours) told.push({ say: "The shop's hours say no time at which it is open: all is planned as if it were always open. Set them under “Make”.", steps: [] });
    if (cold.length) told.push({ say: curingAt(job.climate.temperature, planning.curing), steps: cold });
    if (alone.length) told.push({ say: `need a second person. ${planning.lone_hand.because}`, steps: alone });
    return told;
  }

  /** What may be changed to end sooner. @param {any} job @param {any} problem @param {any} library @param {any} planned @returns {{say: string, problem: any}[]} */
  function changes(job, problem, library, planned) {
    const found = [];
    const most = library.book.planning ? library.book.planning.hands.most : job.hands + 1;
    if (job.hands < most) found.push({ say: `With ${job.hands + 1} technicians`, problem: { ...problem, hands: job.hands + 1 } });
    if (problem.hours && problem.hours.closes + HOUR <= 24 * HOUR) {
      found.push({ say: "Open an hour longer each day", problem: { ...problem, hours: { ...problem.hours, closes: problem.hours.closes + HOUR } } });
    }
    if (problem.hours && problem.hours.days.length < 7) {
      const next = [1, 2, 3, 4, 5, 6, 7].find((day) => !problem.hours.days.includes(day));
      found.push({ say: "Work on one day more of the week", problem: { ...problem, hours: { ...problem.hours, days: [...problem.hours.days, next].sort() } } });
    }
    const held = new Set((planned.causes || []).filter((/** @type {any} */ one) => one.why === "place").map((/** @type {any} */ one) => one.of));
    for (const place of held) {
      found.push({ say: `A second place: ${placeOf(place, library)}`, problem: { ...problem, places: { ...problem.places, [place]: (problem.places[place] || 1) + 1 } } });
    }
    return found;
  }

  /** @param {any} job @param {any} problem @param {any} planned @param {string[]} order @param {any} library */
  function advice(job, problem, planned, order, library) {
    return changes(job, problem, library, planned).flatMap(({ say, problem: other }) => {
      const gain = planned.finish - seambook.schedule.plan({ ...other, previous: order, passes: 0 }).finish;
      return gain >= WORTH_SAYING ? [{ say: `${say}: done ${span(gain)} sooner by the clock.`, ids: [], gain }] : [];
    }).sort((one, other) => other.gain - one.gain);
  }

  seambook.jobTold = { problems, again, advice };
})();
