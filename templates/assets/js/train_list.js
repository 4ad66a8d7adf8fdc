/**
 * The people on this device: who practises, each one's file, their end, and a file that comes in. A person whose data cannot be
 * read is shown with the text, and stays as it is. Needs train_people.js.
 */
(function () {
  "use strict";

  /** @type {any} */
  const seambook = (/** @type {any} */ (window).seambook = /** @type {any} */ (window).seambook || {});
  const { el, button, focusOn } = seambook.dom;
  const { jobBar, trainFile, trainHand, trainJoin, trainPeople, trainStand, trainWords } = seambook;
  seambook.trainViews = seambook.trainViews || {};

  /** @param {any} desk @param {any} person */
  function rowsOf(desk, person) {
    const given = desk.book.skills.filter((/** @type {any} */ skill) => trainStand.atSkill(person, skill).given).length;
    const again = trainStand.reopened(person, desk.book).length;
    const begun = Object.keys(person.lessons).filter((id) => desk.book.lessons.some((/** @type {any} */ one) => one.id === id)).length;
    const row = (/** @type {string} */ name, /** @type {string} */ value) => el("div", {}, el("dt", { text: name }), el("dd", { text: value }));
    return el("dl", { class: "rows" },
      row("Lessons begun", `${begun} of ${desk.book.lessons.length}`), row("Skills with a level", `${given} of ${desk.book.skills.length}`),
      again ? row("Opened again", trainWords.counted(again, "skill")) : null,
      row("Last written down", trainWords.day(person.changed) || "never"));
  }

  /** Somebody is removed from the device once that was asked, and their file goes to the reader first. @param {any} desk @param {string} id @param {string} name @param {() => void} save */
  function ask(desk, id, name, save) {
    const place = document.getElementById(`train_asked-${id}`);
    const keep = () => {
      place?.replaceChildren();
      focusOn(`train_remove-${id}`);
    };
    const take = () => {
      save();
      desk.store.remove(id);
      if (desk.person && desk.person.id === id) desk.person = null;
      desk.draw();
      jobBar.say(`${name} is no longer on this device. The file was saved first; open it to bring everything back.`);
      focusOn("train_view-people");
    };
    place?.replaceChildren(el("div", { class: "job-notice", role: "group", "aria-label": `Remove ${name} from this device?` },
      el("p", {}, el("strong", { text: `Remove ${name} from this device?` }), " The file is saved first, and brings everything back."),
      el("p", { class: "job-buttons" }, button("Keep", keep, { id: `train_stay-${id}` }), button("Save the file and remove", take, { id: `train_gone-${id}` }))));
    focusOn(`train_stay-${id}`);
  }

  /** @param {any} desk @param {any} person */
  function card(desk, person) {
    const { id, name } = person;
    const isOwn = !!desk.person && desk.person.id === id;
    const said = (/** @type {string} */ text) => ({ "aria-label": `${text}: ${name}` });
    return el("li", { class: "job-kept" }, el("h3", { text: name }), rowsOf(desk, person),
      el("p", { class: "job-buttons" },
        button(isOwn ? "Practises now" : "Practise", () => {
          desk.take(person);
          focusOn(`train_take-${id}`);
        }, { id: `train_take-${id}`, "aria-pressed": String(isOwn), ...said(isOwn ? "Practises now" : "Practise") }),
        button("Save the file", () => desk.saveFile(person), { id: `train_save-${id}`, ...said("Save the file") }),
        button("Remove", () => ask(desk, id, name, () => desk.saveFile(person)), { id: `train_remove-${id}`, ...said("Remove") })),
      el("div", { id: `train_asked-${id}` }));
  }

  /** @param {any} desk @param {{id: string, fault: string, text: string}} kept */
  function damaged(desk, { id, fault, text }) {
    const save = () => trainHand.give(`${id}.damaged.txt`, text);
    return el("li", { class: "job-kept" }, el("h3", { text: "Somebody whose training cannot be read" }),
      el("p", { text: `What is kept as “${id}” is damaged. ${fault}` }),
      el("p", { class: "note", text: "It is left as it is. Save its text, so that somebody can look what is wrong with it, and open the person's last file." }),
      el("p", { class: "job-buttons" }, button("Save its text", save, { id: `train_text-${id}` }),
        button("Remove", () => ask(desk, id, "what is damaged", save), { id: `train_remove-${id}` })),
      el("div", { id: `train_asked-${id}` }));
  }

  /** @param {string} name @param {string[]} said */
  function tell(name, said) {
    if (said.length) jobBar.tell("file", name, said, [jobBar.shut("file", "Close")]);
    else jobBar.clear("file");
  }

  /** A file that comes in: what it has is added, and nothing is lost. @param {any} desk @param {File} file */
  async function open(desk, file) {
    const read = trainFile.read(await file.text(), desk.book, trainWords.newId());
    if (read.fault) return tell(`“${file.name}” was not opened`, [read.fault]);
    const before = desk.store.load(read.person.id)?.person;
    const person = before ? trainJoin.join(before, read.person) : read.person;
    trainFile.keepBeside(read.person, person);
    const isTwice = !before && desk.store.all().some((/** @type {any} */ one) => one.person && one.person.name === person.name);
    const saved = desk.store.save(person);
    if (saved.why) {
      return tell(`“${file.name}” was not kept`, [saved.isFull ? "This browser's store is full. Remove somebody from this device, or what other pages keep, and open it again." : `This browser refused it: ${saved.why}.`]);
    }
    desk.take(person);
    tell(`About “${file.name}”`, [...read.told, ...(isTwice ? [`There are two people called ${person.name} on this device now. They are kept apart.`] : [])]);
    return jobBar.say(before ? `${person.name} was here already: what the file has was added to it.` : `${person.name} is on this device now.`);
  }

  /** @param {HTMLElement} place @param {any} desk */
  function draw(place, desk) {
    const all = desk.store.all();
    place.append(...[
      el("h2", { class: "train-title", text: "People on this device" }),
      all.length ? el("ul", { class: "job-kepts" }, all.map((/** @type {any} */ one) => (one.person ? card(desk, one.person) : damaged(desk, one))))
        : el("p", { class: "none", text: "Nobody yet. Write a name, or open somebody's file." }),
      el("section", { class: "train-part", "aria-labelledby": "train_more" }, el("h2", { id: "train_more", text: "Somebody new" }),
        trainPeople.namer(desk, "Name", (/** @type {any} */ person) => {
          jobBar.say(`${person.name} is on this device now.`);
          focusOn(`train_take-${person.id}`);
        }), trainHand.opener("train_file", "Open somebody's file", (/** @type {File} */ file) => void open(desk, file))),
      el("p", { class: "note", text: "Training is kept in this browser, on this device, for this book, and apart from all jobs. Save each person's file from time to time: a later edition of the book reads every earlier file." }),
    ]);
  }

  seambook.trainViews.people = { title: "People", draw };
})();
