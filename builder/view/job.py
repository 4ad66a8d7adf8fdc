"""A job of the book -> its page, which reads without a script: what is done to which car, and what was found so far."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.records.job import Finding, Found, Job, Run
from builder.model.reference import Ref, parse_run_step
from builder.model.views import Block, Card, Cards, Facts, Grid, Html, Items, Link, Links, Page, Row
from builder.view.bay_way import way_to_bay
from builder.view.here import Here
from builder.view.lists import JOBS
from builder.view.page import page, passage

SIDES = {"left": "left side", "right": "right side"}
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
ANSWERS = {
    "waiting": "The customer has not answered yet.", "yes": "The customer said yes.", "no": "The customer said no.",
}  # fmt: skip
READINGS = ("Read", "At", "Found", "By", "With")


def job_page(here: Here, ref: Ref, job: Job) -> Page:
    """Make the page."""
    main: tuple[Block, ...] = (
        Links("Plan, steps and sheets", (Link("Open this job", f"{here.root}{JOBS}#example={ref.id}",
                        "in this browser, which keeps what you change"),), anchor="open"),
        way_to_bay(here, f"example={ref.id}"),
        Facts("The car and the work", tuple(_facts(here, job)), "job", wide=True),
        Links("What is done", tuple(_run(here, run) for run in job.runs), "Nothing is chosen yet.", "runs"),
        _findings(here, job),
        _readings(here, job),
    )  # fmt: skip
    found = passage("findings", "Findings", *(one.where for one in job.findings))
    texts = (passage("", job.title, job.car, job.notes), found)
    return page(here, ref, job.title, "Job", here.text(job.notes) if job.notes else Html(""), main,
                aliases=job.was, texts=texts)  # fmt: skip


def _facts(here: Here, job: Job) -> Iterator[Row]:
    """The rows of the title block; what nobody wrote is left out."""
    vehicle = here.anchor(here.link("vehicle", job.vehicle)) if job.vehicle else Html("")
    plain = {
        "Job number": job.number, "Car": job.car, "Customer": job.customer, "Begins": moment(job.start),
        "Hours": f"{job.hours.opens} to {job.hours.closes}, {days(job.hours.days)}",
        "At work": "1 technician" if job.hands == 1 else f"{job.hands} technicians",
        "Steps done": str(len(job.done)) if job.done else "None yet",
    }  # fmt: skip
    for label, text in plain.items():
        if text:
            yield Row(label, here.text(text))
        if label == "Car" and vehicle:
            yield Row("Vehicle", vehicle)


def moment(text: str) -> str:
    """Return a moment as people write it: `2026-11-30 08:00`."""
    return text[:16].replace("T", " ")


def days(numbers: tuple[int, ...]) -> str:
    """Say days of the week: those that follow one another from the first to the last."""
    found = sorted(set(numbers))
    if len(found) > 2 and found == list(range(found[0], found[-1] + 1)):
        return f"{DAYS[found[0] - 1]} to {DAYS[found[-1] - 1]}"
    return ", ".join(DAYS[number - 1] for number in found)


def _run(here: Here, run: Run) -> Link:
    return here.link("procedure", run.procedure, SIDES[run.side] if run.side else "")


def _step(here: Here, text: str) -> Html:
    """A step of the job by its procedure, side and key, which leads to it."""
    step = parse_run_step(text)
    if step is None:
        return here.text(text)
    link = Link(f"{here.book.catalogue.title(step.ref.record)}: {step.key.replace('-', ' ')}", here.href(step.ref))
    side = f", {SIDES[step.side]}" if step.side else ""
    return Html(f"{here.anchor(link)}{here.text(side)}")


def _findings(here: Here, job: Job) -> Block:
    if not job.findings:
        return Items("Findings", (), "Nothing was found beside what was known.", "findings")
    return Cards("Findings", tuple(_finding(here, one) for one in job.findings), "findings")


def _finding(here: Here, one: Finding) -> Card:
    rows = [Row("Found", here.text(" ".join(filter(None, (moment(one.found), one.by and f"by {one.by}")))))]
    if one.step:
        rows.append(Row("At", _step(here, one.step)))
    added = [here.link("procedure", it.procedure, SIDES[it.side] if it.side else "") for it in one.procedures]
    if added:
        rows.append(Row("Adds", here.anchors(added)))
    word = " ".join(filter(None, (ANSWERS[one.answer], one.answered and moment(one.answered), one.by_whom)))
    rows.append(Row("The customer's word", here.text(word)))
    if one.make_safe:
        rows.append(Row("At once", here.text("It is made safe whatever the answer.")))
    size = f', <span class="note">{here.text(one.size)}</span>' if one.size else ""
    return Card(Html(f"{here.text(one.where)}{size}"), tuple(rows))


def _readings(here: Here, job: Job) -> Block:
    if not job.readings:
        return Items("Readings", (), "None was taken yet.", "readings")
    rows = tuple(_reading(here, name, one) for name, one in sorted(job.readings.items()))
    return Grid("Readings", READINGS, rows, anchor="readings", numeric=(False, False, True, False, False))


def _reading(here: Here, name: str, one: Found) -> tuple[Html, ...]:
    step, _, measure = name.partition("/")
    by = ", ".join(filter(None, (one.by, one.at and moment(one.at))))
    return (
        here.text(measure), _step(here, step), here.text(f"{one.found:g} {one.unit}"), here.text(by),
        here.text(one.gauge or ""),
    )  # fmt: skip
