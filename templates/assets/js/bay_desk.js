/**
 * The job that is open in the bay: which step is shown, what its keys do, and when it is drawn anew. A tick shows the next step of
 * the order at once; the rest of the plan follows when nobody touches anything. Needs bay_frame.js, bay_turn.js and the job's own.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { jobBar, jobEntries: entries, jobTicks, bayStand, bayPerson } = seambook;
  const LEAST_SECONDS = 30;
  const MOST_MINUTES = 240;
  /** The frame that is drawn into, and how the page goes elsewhere. @type {any} */
  let frame = null;
  /** @type {any} */
  let acts = null;
  /** @type {any} */
  let kept = null;
  let shown = "";
  let isEnd = false;
  let drawn = "";
  /** When each step was first seen, for how long it took. @type {Map<string, number>} */
  let seen = new Map();

  /** What the parts of a step are given. @returns {any} */
  function context() {
    const plain = seambook.jobParts.here(kept.state);
    const state = { ...plain, change: (/** @type {any} */ edit, /** @type {any} */ how) => kept.change(edit, { ...how, isLater: true }) };
    const stand = bayStand.of(state, Date.now());
    const row = isEnd ? null : stand.rows[stand.at.get(shown) ?? -1] || null;
    return {
      state, stand, row, status: row ? stand.states.get(row.id) : null, ...verbs, say: jobBar.say,
      change: (/** @type {any} */ edit) => state.change(edit), done: (/** @type {string} */ note) => done(context(), note),
    };
  }

  /** Open a job. @param {any} one what `jobKeep.open` gives @param {any} given how the page goes elsewhere */
  function open(one, given) {
    [kept, acts, shown, isEnd, drawn, seen] = [one, given, "", false, "", new Map()];
    kept.replan(true);
    begin();
    draw();
  }

  /** Show where whoever works left off, or what is next. */
  function begin() {
    const { state, stand } = context();
    const name = entries.name();
    shown = (name && bayPerson.leftAt(state.job, stand, name)) || bayStand.first(stand)?.id || "";
    isEnd = stand.rows.length > 0 && stand.count === stand.rows.length && !stand.holds.length && !stand.readings.length;
  }

  /** What of a step is seen; while it is the same the step is not drawn anew. @param {any} bay */
  function signature({ state, row, status, stand }) {
    const { job } = state;
    if (!row) return JSON.stringify(["end", stand.count, stand.holds.length, job.changed]);
    const of = (/** @type {string} */ key) => seambook.jobKept.of(job[key], row);
    const readings = (row.step.measures || []).map((/** @type {any} */ { name }) => seambook.jobKept.of(job.readings, row, `/${name}`));
    const photos = seambook.jobKept.all(job.photos, row).map((/** @type {any} */ { at, say }) => [at, say]);
    return JSON.stringify([row.id, row.done, status, of("releases"), readings, photos, of("notes_by_step"), seambook.bayClock?.ofStep(job, row), !!seambook.bayParts?.[row.run.split("@")[0]], entries.name()]);
  }

  /** Whether somebody is typing below. */
  function isTyping() {
    const active = document.activeElement;
    return frame.place.contains(active) && !!active?.matches("input[type=text], textarea");
  }

  /** @param {boolean} [isTyped] */
  function draw(isTyped = false) {
    if (!kept || !frame) return;
    const bay = context();
    if (!isEnd && !bay.row && bay.stand.rows.length) {
      begin();
      if (shown || isEnd) draw(isTyped);
      return;
    }
    seambook.bayFrame.head(frame, bay);
    frame.turn(seambook.bayTurn.of(bay));
    seambook.bayTimers?.draw(frame.timers, bay.state, { go });
    const now = signature(bay);
    if (now === drawn || (drawn && JSON.parse(drawn)[0] === bay.row?.id && (isTyped || isTyping()))) {
      entries.freshen(frame.place, bay.state);
      return;
    }
    drawn = now;
    entries.redraw(frame.place, bay.state, bay.row ? seambook.bayStep.parts(bay) : seambook.bayEnd.parts(bay));
    if (bay.row) watch(bay);
  }

  /** @param {any} bay */
  function watch({ row, status }) {
    if (!row.done && status.sort === "next" && !seen.has(row.id)) seen.set(row.id, Date.now());
    void acts.bringParts(row).then((/** @type {boolean} */ came) => came && draw());
  }

  /** Go to a step, from the top of what it says. @param {string} id */
  function go(id) {
    [shown, isEnd, drawn] = [id, false, ""];
    const name = entries.name();
    draw();
    top();
    if (name) keepPlace(name);
  }

  /** Where somebody was last is kept once there is something of the job to be kept; after the step is on the screen. @param {string} name */
  function keepPlace(name) {
    if (!kept.revision && !kept.dirty) return;
    const [one, id] = [kept, shown];
    window.setTimeout(() => one.change((/** @type {any} */ job) => {
      job.left_at = { ...job.left_at, [name]: id };
    }, { isLater: true, redraw: false }), 0);
  }

  function top() {
    window.scrollTo(0, 0);
    document.getElementById("bay_do")?.focus({ preventScroll: true });
  }

  /** Tick the step and show what comes next. @param {any} bay @param {string} [note] */
  function done(bay, note = "") {
    const { row, stand } = bay;
    if (!entries.name()) return askWho(() => done(context(), note));
    const from = stand.at.get(row.id) ?? 0;
    const said = { at: seambook.jobWords.stamp(Date.now()), by: entries.name(), minutes: minutesOf(row.id) };
    const isHold = jobTicks.isHold(row.step);
    const edit = (/** @type {any} */ job) => {
      jobTicks.tick(job, row, said);
      if (note) addNote(job, row, note);
    };
    step(edit, isHold ? -1 : from);
    seambook.bayTimers?.stepDone(context().state, row);
    jobBar.say(`Step ${row.number || ""} is done.${isHold ? " It is to be released." : ""}`);
    return undefined;
  }

  /** Change the job, and go on to what comes after a place of the order; with none, stay. @param {(job: any) => void} edit @param {number} from */
  function step(edit, from) {
    kept.state.job.changed = seambook.jobKeep.now();
    edit(kept.state.job);
    if (from >= 0) {
      const { stand } = context();
      const next = bayStand.after(stand, from);
      isEnd = !next;
      shown = next ? next.id : "";
    }
    const name = entries.name();
    if (name && shown) kept.state.job.left_at = { ...kept.state.job.left_at, [name]: shown };
    drawn = "";
    kept.change(() => undefined, { isLater: true });
    top();
  }

  /** How long a step stood on the screen; what was ticked behind the work, or left standing, tells nothing. @param {string} id */
  function minutesOf(id) {
    const since = (Date.now() - (seen.get(id) || Date.now())) / 1000;
    const minutes = Math.round(since / 60);
    return since < LEAST_SECONDS || minutes > MOST_MINUTES ? null : Math.max(1, minutes);
  }

  /** @param {any} job @param {JobRow} row @param {string} text */
  function addNote(job, row, text) {
    const key = seambook.jobKept.keyOf(job.notes_by_step, row);
    job.notes_by_step = { ...job.notes_by_step, [key]: [job.notes_by_step?.[key], text].filter(Boolean).join("\n") };
  }

  /** @param {() => void} [then] */
  function askWho(then) {
    bayPerson.ask(kept.state.job, () => {
      if (then) then();
      else {
        begin();
        drawn = "";
        draw();
        top();
      }
    }, false);
  }

  function release() {
    const bay = context();
    const from = bay.stand.at.get(bay.row.id) ?? 0;
    if (seambook.bayRelease.takePoint(bay, bay.row) !== true) return;
    step(() => undefined, from);
  }

  /** @param {number} by */
  function look(by) {
    const { stand, row } = context();
    const at = row ? (stand.at.get(row.id) ?? 0) + by : stand.rows.length - 1;
    if (stand.rows[at]) go(stand.rows[at].id);
    else jobBar.say(by < 0 ? "This is the first step." : "This is the last step.");
  }

  function end() {
    [isEnd, drawn] = [true, ""];
    draw();
    top();
  }

  const verbs = {
    go, release, end, askWho: () => askWho(), where: () => seambook.bayWays.showPhases(context()), menu: () => seambook.bayWays.showMenu(context()), back: () => look(-1), lookOn: () => look(1),
    untick: () => {
      const { row } = context();
      step((job) => jobTicks.untick(job, row), -1);
      jobBar.say("The tick was taken back.");
    },
    note: (/** @type {string} */ text) => {
      const { row } = context();
      step((job) => addNote(job, row, text), -1);
    },
    saveFile: () => kept.saveFile(), askForFile: () => acts.askForFile(), afresh: () => acts.afresh(kept.state.job), isCart: () => acts.isCart(), setCart: (/** @type {boolean} */ is) => acts.setCart(is),
  };

  /** @param {HTMLElement} place */
  function frameIn(place) {
    frame = seambook.bayFrame.make(place, { where: verbs.where, who: () => askWho(), menu: verbs.menu, back: verbs.back });
    return frame;
  }

  seambook.bayDesk = { frameIn, open, draw, kept: () => kept, context, askWho };
})();
