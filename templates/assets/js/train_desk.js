/**
 * What the pages of training share: the book, the store, the person who practises, and the one way to change what is kept of
 * them. Needs job_dom.js, job_bar.js, train_file.js, train_store.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { dom, jobBar, trainFile, trainHand, trainStore, trainWords } = seambook;

  /** Say why nothing is kept here beyond the page. @param {string} why */
  function tellOfStore(why) {
    jobBar.tell("store", "This browser keeps nothing", [
      `It refuses to store anything for this page (${why}); a private window does so. You can practise as usual, and everything is lost when you close the page.`,
      "Save your file before you close it, and open the file the next time.",
    ], [jobBar.shut("store", "Close")]);
  }

  /** @param {any} desk @param {any} person @param {{why: string, isFull: boolean}} saved */
  function tellOfSaving(desk, person, saved) {
    if (!saved.why) return jobBar.clear("full");
    const why = saved.isFull ? "This browser's store is full." : `This browser did not keep it: ${saved.why}.`;
    return jobBar.tell("full", "It was not kept", [why, "Save the file now; what you did stands in it. Then take what is not needed off this device."], [
      { label: "Save the file", take: () => desk.saveFile(person) }, jobBar.shut("full", "Close"),
    ]);
  }

  /** All that the browser kept is gone; what this page has of somebody is not. @param {any} desk @param {any} person */
  function tellOfClearing(desk, person) {
    const shut = (/** @type {() => void} */ act) => () => {
      jobBar.clear("cleared");
      act();
    };
    jobBar.tell("cleared", "What this browser kept was cleared", [
      `What ${person.name} did still stands on this page. It is kept again with the next answer, or at once if you say so.`,
    ], [
      { label: "Keep it again", take: shut(() => tellOfSaving(desk, person, desk.store.save(person))) },
      { label: "Save the file", take: () => desk.saveFile(person) },
      { label: "Let it go", take: shut(() => desk.take(null)) },
    ]);
  }

  /**
   * @param {HTMLElement} place where the page is drawn
   * @param {(desk: any) => void} draw
   */
  function open(place, draw) {
    const book = seambook.training;
    /** @type {any} */
    const desk = {
      book, place, person: null,
      draw: () => dom.redraw(place, () => draw(desk)),
      /** Change what is kept of a person; the one who practises where none is named. @param {(person: any) => void} edit @param {any} [person] */
      change: (edit, person = desk.person) => {
        const isOwn = !!desk.person && desk.person.id === person.id;
        edit(person);
        person.changed = trainWords.now();
        const saved = desk.store.save(person);
        tellOfSaving(desk, person, saved);
        if (isOwn) {
          desk.person = person;
          desk.store.choose(person.id);
        }
        desk.draw();
        return !saved.why;
      },
      /** @param {any} person */
      take: (person) => {
        desk.person = person;
        desk.store.choose(person ? person.id : "");
        desk.draw();
      },
      /** @param {string} name */
      begin: (name) => {
        const person = trainFile.fresh({ id: trainWords.newId(), name, now: trainWords.now() });
        const saved = desk.store.save(person);
        tellOfSaving(desk, person, saved);
        desk.take(person);
        void window.navigator.storage?.persist?.();
        return person;
      },
      /** @param {any} person */
      saveFile: (person) => trainHand.give(trainFile.nameOf(person), trainFile.write(person, book)),
    };
    /** Another tab has changed somebody, or the browser's store was cleared, of which nobody is named. @param {string} id */
    const heard = (id) => {
      const own = desk.person;
      const now = own && (!id || id === own.id) ? desk.store.load(own.id) : null;
      if (own && !id && !now) tellOfClearing(desk, own);
      else if (own && (!id || id === own.id)) desk.person = now?.person || null;
      desk.draw();
    };
    desk.store = trainStore.open(book, heard);
    desk.person = desk.store.chosen();
    place.before(jobBar.notices, jobBar.line);
    place.hidden = false;
    if (desk.store.why) tellOfStore(desk.store.why);
    return desk;
  }

  seambook.trainDesk = { open };
})();
