"""Training in the browser: a whole lesson, its tests, the matrix, several people, their files, and what is printed.

The tiny book before and after revision 3 of its procedure; both keep what they know under the book's own id.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.copied import SHOWN, Copies
from tests.browser.on_paper import printed
from tests.browser.test_axe import AXE, COLOURS, violations
from tests.browser.test_quiet import too_wide
from tests.browser.watched import PHONE, Watched

pytestmark = pytest.mark.slow

LESSON, TRAINING = "lessons/first-cover.html", "training.html"
PLUGS = "lessons/first-plug-weld.html"
SHEET = """(seed) => seambook.questions.sheet({
  lesson: Object.values(seambook.lessons)[0], seed, system: seambook.units.system(),
})"""
KEPT = """() => Object.fromEntries(Object.entries(localStorage).filter(([key]) => key.includes(":training:")))"""
PUT = "([id, text]) => localStorage.setItem(`seambook:${document.body.dataset.book}:training:${id}`, text)"
REFUSED = "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no', 'SecurityError'); }})"
FULL = """() => { Storage.prototype.setItem = () => { throw new DOMException('no room', 'QuotaExceededError'); }; }"""


@pytest.fixture
def before(chromium: Browser, editions: tuple[Path, Path]) -> Iterator[Watched]:
    watched = Watched(chromium, editions[0])
    yield watched
    watched.close()
    assert watched.troubles == []


def go(page: Page, site: Path, path: str) -> None:
    """The same device with another edition or page of the book."""
    file, sign, fragment = path.partition("#")
    page.goto("about:blank")
    page.goto((site / file).as_uri() + sign + fragment)


def practise_as(page: Page, name: str) -> None:
    if page.locator("#train_who-change").count():
        page.locator("#train_who-change").click()
    page.locator("#train_name").fill(name)
    page.locator("#train_name-take").click()
    expect(page.locator("#train_desk .train-who-line")).to_contain_text(f"{name} practises on this device.")


def people(page: Page) -> dict[str, Any]:
    """What is kept of each person, by name."""
    files = [json.loads(text) for text in page.evaluate(KEPT).values()]
    return {one["person"]["name"]: one["person"] for one in files}


def answer(page: Page, question: dict[str, Any], *, right: bool) -> None:
    """Answer as somebody does who knows, or does not."""
    if question["sort"] == "order":
        wanted = question["right"] if right else list(reversed(question["right"]))
        for place, id_ in enumerate(wanted):
            while [one["id"] for one in shown_order(page, question)].index(id_) > place:
                page.locator(f"#train_up-{id_}").click()
    elif "choices" in question:
        ids = [one["id"] for one in question["choices"]]
        wrong = next(id_ for id_ in ids if id_ != question["right"])
        page.locator(f".train-choices label:has(input[value='{question['right'] if right else wrong}'])").click()
    else:
        page.locator("#train_typed").fill(str(question["right"] if right else question["right"] * 3 + 7))
    page.locator("#train_check").click()


def shown_order(page: Page, question: dict[str, Any]) -> list[dict[str, Any]]:
    texts = page.locator(".train-order .train-text").all_text_contents()
    by_text = {one["text"]: one for one in question["items"]}
    return [by_text[text] for text in texts]


def begun(page: Page) -> list[dict[str, Any]]:
    """Begin a round and return its sheet."""
    page.locator("#train_begin").click()
    seed = str(page.locator(".train-count .note").text_content()).removeprefix("sheet ")
    sheet: list[dict[str, Any]] = page.evaluate(SHEET, seed)
    assert len(sheet) > 1
    return sheet


def a_round(page: Page, *, right: bool = True) -> list[dict[str, Any]]:
    """All questions of a round; returns its sheet."""
    sheet = begun(page)
    for at, question in enumerate(sheet):
        expect(page.locator(".train-count strong")).to_have_text(f"Question {at + 1} of {len(sheet)}")
        expect(page.locator("#train_ask")).to_have_text(question["ask"])
        answer(page, question, right=right)
        expect(page.locator("#train_verdict")).to_contain_text("Right" if right else "Not right")
        page.locator("#train_next").click()
    return sheet


def mark_the_edge(page: Page, count: str, size: str) -> None:
    page.locator("#train_test-mark-the-edge-own-count").fill(count)
    page.locator("#train_test-mark-the-edge-own-size").fill(size)
    page.locator("#train_test-mark-the-edge-judge").click()


def holes(page: Page) -> tuple[str, str]:
    """What the calculator makes of the numbers that are shown."""
    length = page.locator(".train-test").first.locator(".train-given dd").first.text_content()
    given = {"length": length, "pitch": "40 mm", "sheet": "0.8 mm", "face": "open"}
    outputs = page.evaluate("(given) => seambook.formula.run(seambook.calculators.holes, given).outputs", given)
    return outputs["count"]["text"], outputs["size"]["text"]


def weld_one(page: Page, length: str) -> None:
    if page.locator("#train_test-weld-three-again").count():
        page.locator("#train_test-weld-three-again").click()
    page.locator("#train_test-weld-three-length").fill(length)
    page.locator("#train_test-weld-three-by").fill("Bo Marsh")
    page.locator("#train_test-weld-three-judge").click()
    expect(page.locator("#train_came-weld-three")).to_contain_text("It passes")


def pass_the_lesson(page: Page) -> None:
    a_round(page)
    mark_the_edge(page, *holes(page))
    for _ in range(3):
        weld_one(page, "300")


def test_a_whole_lesson(before: Watched, editions: tuple[Path, Path]) -> None:
    page = before.open(LESSON, PHONE)
    practise_as(page, "Sam Reed")
    sheet = a_round(page, right=False)
    expect(page.locator("#train_result")).to_contain_text(f"0 of {len(sheet)} right: not passed yet")
    ways = page.locator("#train_result .train-reasons a").evaluate_all("(all) => all.map((one) => one.href)")
    assert ways, "a wrong answer leads to its step"
    for way in ways:
        assert (editions[0] / way.split("/before/")[1].partition("#")[0]).is_file(), way
    a_round(page)
    expect(page.locator("#train_result")).to_contain_text(f"{len(sheet)} of {len(sheet)} right: passed")
    # A failed test says what it should be; numbers that cannot be used are no try.
    count, size = holes(page)
    mark_the_edge(page, "many", size)
    expect(page.locator("#train_test-mark-the-edge-own-count-fault")).to_contain_text("“many” cannot be used")
    assert people(page)["Sam Reed"]["lessons"]["first-cover"]["tests"] == {}
    mark_the_edge(page, str(int(count) + 1), size)
    expect(page.locator("#train_came-mark-the-edge")).to_contain_text("It does not pass")
    expect(page.locator("#train_came-mark-the-edge")).to_contain_text(f"It should be: {count}")
    page.locator("#train_test-mark-the-edge-again").click()
    mark_the_edge(page, *holes(page))
    expect(page.locator("#train_came-mark-the-edge")).to_contain_text("It passes")
    for said in ("1 of 3 in a row", "2 of 3 in a row", "Passed on"):
        weld_one(page, "300")
        expect(page.locator("section[aria-labelledby=train_test-weld-three-title] > .note")).to_contain_text(said)
    expect(page.locator(".train-summary")).to_contain_text("This lesson is passed.")
    tries = people(page)["Sam Reed"]["lessons"]["first-cover"]["tests"]["weld-three"]
    assert [(one["passed"], one["by"], one["measured"]) for one in tries] == [(True, "Bo Marsh", {"length": "300"})] * 3
    # A later edition: the lesson is open again and says why, and its questions are of the new record.
    go(page, editions[1], LESSON)
    expect(page.locator("#train_changed")).to_contain_text(
        "“Weld the cover on” is at revision 3; this was passed at revision 2."
    )
    expect(page.locator(".train-summary")).to_contain_text("This lesson is open again.")
    pass_the_lesson(page)
    expect(page.locator("#train_changed")).to_have_count(0)
    expect(page.locator(".train-summary")).to_contain_text("This lesson is passed.")


def test_a_round_that_is_left_goes_on(before: Watched) -> None:
    page = before.open(LESSON, PHONE)
    page.locator("#train_name-take").click()
    expect(page.locator("#train_name-fault")).to_contain_text("Write a name")
    practise_as(page, "Ida")
    sheet = begun(page)
    page.locator("#train_check").click()
    expect(page.locator(".train-round > .fault")).to_contain_text("first")
    answer(page, sheet[0], right=True)
    page.reload()
    expect(page.locator(".train-part").first).to_contain_text(f"1 question of {len(sheet)} answered")
    page.locator("#train_begin").click()
    expect(page.locator(".train-count strong")).to_have_text(f"Question 2 of {len(sheet)}")
    expect(page.locator("#train_ask")).to_have_text(sheet[1]["ask"])
    # Another person on the same phone begins at nothing, and what the first did stays theirs.
    practise_as(page, "Bo")
    expect(page.locator(".train-part").first).to_contain_text("Not begun yet.")
    page.locator("#train_who-change").click()
    page.locator("#train_name").fill(" ida ")
    page.locator("#train_name-take").click()
    expect(page.locator("#train_name-fault")).to_contain_text("There is a ida on this device")
    page.get_by_role("button", name="Ida").click()
    expect(page.locator("#train_begin")).to_have_text("Go on with the questions")
    kept = people(page)
    assert len(kept["Ida"]["lessons"]["first-cover"]["rounds"][0]["answers"]) == 1
    assert kept["Bo"]["lessons"] == {}
    assert page.evaluate("async () => (await indexedDB.databases()).length") == 0, "never among the jobs"


def test_the_matrix_is_filled_by_a_trainer_and_a_revision_opens_it_again(
    before: Watched, editions: tuple[Path, Path], tmp_path: Path
) -> None:
    page = before.open(TRAINING, PHONE)
    for name in ("Sam Reed", "Ida"):
        page.locator("#train_name").fill(name)
        page.locator("#train_name-take").click()
    expect(page.locator(".job-kept h3")).to_have_text(["Ida", "Sam Reed"])
    page.locator("#train_view-skills").click()
    for name, level, day, by in (("Sam Reed", "Alone", "", "Bo Marsh"), ("Ida", "Shown", "2026-02-20", "")):
        page.get_by_role("button", name=f"{name}, Weld a cover:").click()
        expect(page.locator("#train_form-title")).to_have_text(f"{name}: Weld a cover")
        page.locator("#train_given").click()
        expect(page.locator("#train_form .fault")).to_have_text("Choose a level.")
        page.locator(f".train-choices label:has-text('{level}')").click()
        if not by:
            expect(page.locator("#train_assessor")).to_have_value("Bo Marsh")
        else:
            page.locator("#train_given").click()
            expect(page.locator("#train_form .fault")).to_have_text("Say who judged it.")
            page.locator("#train_assessor").fill(by)
        if day:
            page.locator("#train_on").fill("2199-01-01")
            page.locator("#train_given").click()
            expect(page.locator("#train_form .fault")).to_contain_text("lies ahead")
            page.locator("#train_on").fill(day)
        page.locator("#train_given").click()
        expect(page.get_by_role("button", name=f"{name}, Weld a cover: {level}")).to_be_focused()
    expect(page.get_by_role("button", name="Ida, Weld a cover")).to_contain_text("20 Feb 2026, Bo Marsh")
    assert too_wide(page) == []
    go(page, editions[1], f"{TRAINING}#view=skills")
    cell = page.get_by_role("button", name="Sam Reed, Weld a cover")
    expect(cell).to_contain_text("opened again: “Weld the cover on” is at revision 3; this was given at revision 2.")
    sheets = printed(page, tmp_path / "matrix.pdf")
    assert [(round(one.width), round(one.height)) for one in sheets] == [(297, 210)]
    for said in ("Skills matrix", "Sam Reed", "Ida", "20 Feb 2026", "opened again", "Has seen one welded."):
        assert said in sheets[0].text, said
    assert "Practise" not in sheets[0].text
    with page.expect_download() as got:
        page.locator("#train_table").click()
    table = Path(got.value.path()).read_text("utf-8-sig").splitlines()
    assert table[0] == '"Person","Skill","Level","Day","Judged by","Opened again"'
    assert table[1].startswith('"Ida","Weld a cover","Shown","2026-02-20","Bo Marsh","“Weld the cover on” is at')
    cell.click()
    page.locator(".train-choices label:has-text('Alone')").click()
    page.locator("#train_assessor").fill("Bo Marsh")
    page.locator("#train_given").click()
    expect(cell).not_to_contain_text("opened again")
    assert [one["level"] for one in people(page)["Sam Reed"]["skills"]["weld-a-cover"]] == ["alone", "alone"]
    # A level that was given by mistake is taken back, and what was given stays on record.
    cell.click()
    page.locator(".train-choices label:has-text('no level')").click()
    page.locator("#train_given").click()
    expect(cell).to_contain_text("no level")
    page.locator("#train_view-progress").click()
    expect(page.locator(".train-view")).to_contain_text("0 of 1 passed")


def given(folder: Path, name: str, text: str) -> Path:
    file = folder / name
    file.write_text(text, "utf-8")
    return file


def test_files_bring_everything_back_and_damage_changes_nothing(before: Watched, tmp_path: Path) -> None:
    page = before.open(LESSON, PHONE)
    practise_as(page, "Zoë/Quill")
    a_round(page)
    page.goto(before.url(TRAINING))
    with page.expect_download() as got:
        page.get_by_role("button", name="Save the file: Zoë/Quill").click()
    assert got.value.suggested_filename == "Zoë-Quill.seambook-training.json"
    file = tmp_path / "first.json"
    got.value.save_as(file)
    text = file.read_text("utf-8")
    whole = json.loads(text)
    # Damaged in every way: refused with its place, and what is kept stays as it is.
    kept = page.evaluate(KEPT)
    broken = json.loads(text)
    broken["person"]["lessons"]["first-cover"]["rounds"][0]["asked"] = "four"
    for name, said, why in (
        ("cut.json", text[: len(text) // 2], "cannot be read from line"), ("empty.json", "", "It is empty"),
        ("job.json", '{"format": 1, "job": {}}', "it names no person"),
        ("later.json", text.replace('"format": 1', '"format": 2'), "of format 2"),
        ("wrong.json", json.dumps(broken), "person › lessons › first-cover › rounds[1] › asked"),
        ("proto.json", text.replace('"skills"', '"__proto__": 1, "skills"'), "__proto__"),
    ):  # fmt: skip
        page.locator("#train_file").set_input_files(given(tmp_path, name, said))
        expect(page.locator("#job_notice-file")).to_contain_text(f"“{name}” was not opened")
        expect(page.locator("#job_notice-file")).to_contain_text(why)
        assert page.evaluate(KEPT) == kept, name
    # Removed from the device, the file is saved first; opened again, all is there.
    page.get_by_role("button", name="Remove: Zoë/Quill").click()
    page.get_by_role("button", name="Keep", exact=True).click()
    page.get_by_role("button", name="Remove: Zoë/Quill").click()
    with page.expect_download() as last:
        page.get_by_role("button", name="Save the file and remove").click()
    assert json.loads(Path(last.value.path()).read_text("utf-8")) == whole
    assert page.evaluate(KEPT) == {}
    whole["person"]["shoe size"] = 43
    page.locator("#train_file").set_input_files(given(tmp_path, "again.json", json.dumps(whole)))
    expect(page.locator("#job_notice-file")).to_contain_text("does not know “person › shoe size”")
    assert people(page)["Zoë/Quill"]["lessons"] == whole["person"]["lessons"]
    # The same person in two places: what both did is there, and nothing twice.
    page.goto(before.url(LESSON))
    a_round(page, right=False)
    page.goto(before.url(TRAINING))
    page.locator("#train_file").set_input_files(file)
    expect(page.locator("#job_said")).to_contain_text("was here already")
    joined = people(page)["Zoë/Quill"]
    assert joined["shoe size"] == 43
    assert [len(one["answers"]) for one in joined["lessons"]["first-cover"]["rounds"]] == [2, 2]
    assert len(page.evaluate(KEPT)) == 1


def test_what_is_kept_is_never_trusted(before: Watched) -> None:
    page = before.open(TRAINING, PHONE)
    page.evaluate(PUT, ["person-x", '{"format": 1, "person": {"name": 7'])
    page.reload()
    expect(page.locator(".job-kept")).to_contain_text("Somebody whose training cannot be read")
    page.locator("#train_name").fill("Ida")
    page.locator("#train_name-take").click()
    assert page.evaluate(KEPT).get("seambook:little-bench:training:person-x") == '{"format": 1, "person": {"name": 7'
    # Two tabs: what one writes, the other shows and does not write over.
    other = page.context.new_page()
    other.goto(before.url(f"{TRAINING}#view=skills"))
    other.get_by_role("button", name="Ida, Weld a cover").click()
    other.locator(".train-choices label:has-text('Shown')").click()
    other.locator("#train_assessor").fill("Bo")
    other.locator("#train_given").click()
    expect(page.locator(".job-kept", has_text="Ida").locator(".rows")).to_contain_text("1 of 1")
    # What is typed in one tab stays when the other one writes.
    page.goto(before.url(f"{TRAINING}#view=skills"))
    page.get_by_role("button", name="Ida, Weld a cover").click()
    page.locator("#train_note").fill("with the left hand")
    other.get_by_role("button", name="Ida, Weld a cover").click()
    other.locator(".train-choices label:has-text('Alone')").click()
    other.locator("#train_given").click()
    expect(page.get_by_role("button", name="Ida, Weld a cover: Alone")).to_be_visible()
    expect(page.locator("#train_note")).to_have_value("with the left hand")
    page.locator(".train-choices label:has-text('Shown')").click()
    page.locator("#train_assessor").fill("Bo")
    page.locator("#train_given").click()
    ida = json.loads(next(text for text in page.evaluate(KEPT).values() if "Ida" in text))["person"]
    assert [one["level"] for one in ida["skills"]["weld-a-cover"]] == ["shown", "alone", "shown"]
    other.close()
    # A full store is told, and the file can be saved.
    page.goto(before.url(LESSON))
    page.evaluate(FULL)
    page.locator("#train_begin").click()
    expect(page.locator("#job_notice-full")).to_contain_text("This browser's store is full.")
    refusing = before.blank(PHONE)
    refusing.add_init_script(REFUSED)
    refusing.goto(before.url(LESSON))
    expect(refusing.locator("#job_notice-store")).to_contain_text("This browser keeps nothing")
    practise_as(refusing, "Ida")
    a_round(refusing)
    expect(refusing.locator("#train_result")).to_contain_text("2 of 2 right: passed")


def test_sheets_on_paper(before: Watched, tmp_path: Path) -> None:
    page = before.open(f"{TRAINING}#view=sheet&lesson=first-cover&seed=KM24PX", PHONE)
    page.locator("#train_paper-answers").wait_for()
    assert too_wide(page) == []
    sheets = printed(page, tmp_path / "sheet.pdf")
    found = [re.search(r"(questions|answers, for the trainer).*?km24px", one.text.casefold()) for one in sheets]
    assert [one and one[1] for one in found] == ["questions", "answers, for the trainer"], "each on a sheet of its own"
    assert all("Sheet KM24PX: A first cover" in one.text for one in sheets), "at the foot of each"
    asked = page.evaluate(SHEET, "KM24PX")
    answers = page.locator("#train_paper-answers .train-paper-ask").all_text_contents()
    number = next(at for at, one in enumerate(asked) if one["sort"] == "work" and "choices" not in one)
    assert answers[number].startswith(
        page.evaluate("(one) => seambook.numbers.fixed(one.right, one.field.digits)", asked[number])
    )
    assert all(one["ask"] in " ".join(page.locator("#train_paper-questions").all_text_contents()) for one in asked)
    first = page.locator(".train-paper-list").all_text_contents()
    page.reload()
    page.locator("#train_paper-answers").wait_for()
    assert page.locator(".train-paper-list").all_text_contents() == first, "the same number makes the same sheet"
    page.locator("#train_another").click()
    expect(page.locator("#train_sheet-seed")).not_to_have_value("KM24PX")
    page.locator("#train_sheet-seed").fill("km24 px")
    page.locator("#train_sheet-seed").dispatch_event("change")
    expect(page.locator(".train-sheet-number strong").first).to_have_text("KM24PX")
    page.goto(before.url(f"{TRAINING}#view=trainer&lesson=first-cover&seed=KM24PX"))
    page.locator("#train_paper-trainer").wait_for()
    text = " ".join(one.text for one in printed(page, tmp_path / "trainer.pdf"))
    for said in (
        "Trainer's sheet",
        "KM24PX",
        "Clear the bench.",
        "Mark an edge",
        "It comes to: Holes",
        "Weld three",
        "Give what you saw.",
        "Has seen one welded.",
    ):
        assert said.casefold() in text.casefold(), said


def test_the_breakdown_of_a_procedure(before: Watched, tmp_path: Path) -> None:
    page = before.open("breakdown.html", PHONE)
    page.locator("#breakdown_procedure").select_option(label="Weld the cover on")
    row = page.locator(".breakdown tr:has-text('Lay the film on every bare face')")
    expect(row.locator("td")).to_have_text(["Out of the holes.", "Nobody gets there again."])
    assert too_wide(page) == []
    assert violations(page, AXE.read_text("utf-8")) == []
    sheets = printed(page, tmp_path / "breakdown.pdf", "A4")
    text = sheets[0].text
    for said in (
        "Weld the cover on",
        "Revision 2",
        "Step",
        "Key point",
        "Reason",
        "Out of the holes.",
        "Nobody gets there again.",
    ):
        assert said in text, said
    assert "Choose a procedure" not in text
    page.goto(before.url("breakdown.html#procedure=no-such"))
    expect(page.locator("#breakdown_page")).to_contain_text("no such procedure")


@pytest.mark.parametrize("scheme", ["light", pytest.param("dark", marks=pytest.mark.soak)])
def test_axe_finds_nothing_and_a_glove_hits_everything(before: Watched, scheme: str) -> None:
    page = before.open(LESSON, PHONE, dark=scheme == "dark")
    axe, only = AXE.read_text("utf-8"), COLOURS if scheme == "dark" else ()
    found = [f"nobody: {one}" for one in violations(page, axe, only)]
    practise_as(page, "Ida")
    for at, question in enumerate(begun(page)):
        found += [f"question {at}: {one}" for one in violations(page, axe, only)]
        assert small(page, "#train_desk") == []
        answer(page, question, right=False)
        page.locator("#train_next").click()
    mark_the_edge(page, "0", "")
    found += [f"at fault: {one}" for one in violations(page, axe, only)]
    mark_the_edge(page, "1", "1")
    found += [f"failed: {one}" for one in violations(page, axe, only)]
    assert too_wide(page) == []
    for view in ("people", "progress", "skills", "sheet", "trainer"):
        page.goto(before.url(f"{TRAINING}#view={view}"))
        if view in ("sheet", "trainer"):
            page.locator(".train-paper").first.wait_for()
        if view == "skills":
            page.get_by_role("button", name="Ida, Weld a cover").click()
        found += [f"{view}: {one}" for one in violations(page, axe, only)]
        if scheme == "light":  # paper is white in both
            page.emulate_media(media="print")
            found += [f"{view} on paper: {one}" for one in violations(page, axe)]
            page.emulate_media(media="screen")
        assert small(page, "#train_page") == [], view
        assert too_wide(page) == [], view
    assert found == []


BOXES = """(all) => all.filter((one) => one.checkVisibility({ visibilityProperty: true })).map((one) => {
  const { width, height } = one.getBoundingClientRect();
  return [one.textContent, Math.min(width, height)];
}).filter(([, least]) => least > 0)"""


def small(page: Page, where: str) -> list[str]:
    """What is pressed and is smaller than a glove needs; words within a sentence are read."""
    pressed = page.locator(
        f"{where} :is(button, .control, select, input:not([type=radio]):not(.unseen), .train-choices label)"
    )
    boxes: list[tuple[str, float]] = pressed.evaluate_all(BOXES)
    assert boxes
    return [text for text, least in boxes if least < 59.9]


ALL_SORTS = """() => {
  const lesson = Object.values(seambook.lessons)[0];
  const sorts = (seed) => new Set(seambook.questions.sheet({ lesson, seed, system: "metric" }).map((one) => one.sort));
  const seed = Array.from({ length: 40 }, (_, at) => `TRY${at}`).find((one) => sorts(one).size === 4);
  seambook.trainWords.newSeed = () => seed;
  return seed;
}"""
"""The number of a sheet on which all sorts of questions stand; the next round has it."""


def test_all_sorts_of_questions_of_the_supplied_book(book: Watched) -> None:
    page = book.open(PLUGS, PHONE)
    practise_as(page, "Ida")
    assert page.evaluate(ALL_SORTS)
    axe = AXE.read_text("utf-8")
    sheet = begun(page)
    assert {one["sort"] for one in sheet} == {"order", "broken", "work", "hazard"}
    for at, question in enumerate(sheet):
        assert small(page, "#train_desk") == [], question["sort"]
        assert too_wide(page) == [], question["sort"]
        if question["sort"] not in {one["sort"] for one in sheet[:at]}:
            assert violations(page, axe) == [], question["sort"]
        answer(page, question, right=at > 0)
        page.locator("#train_next").click()
    assert violations(page, axe) == []
    expect(page.locator("#train_result")).to_contain_text(f"{len(sheet) - 1} of {len(sheet)} right")


TEST = "#train_test-three-buttons"
TORN = {"thickness": "0.8", "width_1": "4.6", "width_2": "4.4"}


def tear(page: Page, narrowest: str, how: str) -> None:
    """Enter a torn coupon, as the trainer and the learner measured it."""
    if page.locator(f"{TEST}-again").count():
        page.locator(f"{TEST}-again").click()
    for name, value in (TORN | {"width_1": narrowest, "width_2": narrowest}).items():
        page.locator(f"{TEST}-{name}").fill(value)
    page.locator(f"{TEST}-failure").select_option(how)
    page.locator(f"{TEST}-judge").click()


def test_a_coupon_that_fails_begins_the_row_anew(book: Watched) -> None:
    page = book.open(PLUGS, PHONE)
    practise_as(page, "Sam Reed")
    standing = page.locator(f"section[aria-labelledby={TEST[1:]}-title] > .note")
    came = page.locator("#train_came-three-buttons")
    page.locator(f"{TEST}-judge").click()
    expect(page.locator(f"{TEST}-thickness-fault")).to_have_text("Nothing is written here.")
    for narrowest, how, said in (
        ("4.6", "button", "1 of 3 in a row"), ("4.6", "button", "2 of 3"), ("3.0", "button", "0 of 3"),
        ("4.6", "flat", "0 of 3"), ("4.6", "button", "1 of 3"), ("4.6", "button", "2 of 3"),
        ("4.6", "button", "Passed on"),
    ):  # fmt: skip
        tear(page, narrowest, how)
        expect(standing).to_contain_text(said)
        expect(came).to_contain_text("It does not pass" if said.startswith("0") else "It passes")
    tries = people(page)["Sam Reed"]["lessons"]["first-plug-weld"]["tests"]["three-buttons"]
    assert [one["passed"] for one in tries] == [True, True, False, False, True, True, True]
    assert too_wide(page) == []


def test_training_in_the_copy_in_one_file(chromium: Browser, copies: Copies) -> None:
    watched = Watched(chromium, copies.whole.parent)
    page = watched.open(f"{copies.whole.name}#{PLUGS}", PHONE)
    leaf = page.frame_locator(SHOWN)
    leaf.locator("#train_name").fill("Sam Reed", timeout=30_000)
    leaf.locator("#train_name-take").click()
    leaf.locator("#train_begin").click()
    expect(leaf.locator(".train-count strong")).to_contain_text("Question 1 of")
    leaf.get_by_role("link", name="Everybody's training").click()
    leaf.locator("#train_view-sheet").click()
    expect(leaf.locator("#train_paper-answers")).to_be_visible()
    leaf.locator("#train_view-people").click()
    with page.expect_download() as got:
        leaf.get_by_role("button", name="Save the file: Sam Reed").click()
    assert json.loads(Path(got.value.path()).read_text("utf-8"))["person"]["name"] == "Sam Reed"
    page.goto(f"{copies.whole.as_uri()}#breakdown.html#procedure=plug-weld-a-lap")
    expect(leaf.locator(".breakdown-head h2")).to_have_text("Plug weld a lap from one face")
    page.reload()
    page.goto(f"{copies.whole.as_uri()}#{PLUGS}")
    expect(leaf.locator("#train_begin")).to_have_text("Go on with the questions")
    watched.close()
    assert watched.troubles == []
