"""A law and a body as small texts -> the law, the catalogue and the steps that the checks work on."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from pydantic import TypeAdapter

from builder.check.law import Law, make_law
from builder.link import resolve
from builder.model.links import Catalogue
from builder.model.place import Span
from builder.model.records import Record
from builder.model.records.law import Act, Rule, State
from builder.model.reference import LONE_SUBJECTS, Mention, Ref
from builder.model.summary import Facts, StepSummary, Summary
from builder.model.summary import Path as FieldPath

FIXTURES = Path(__file__).parent / "fixtures"
_ACT, _STATE, _RULE = TypeAdapter(Act), TypeAdapter(State), TypeAdapter(Rule)
KIND_OF = {"a": "seam", "b": "seam", "u": "seam", "v": "seam", "p": "panel", "q": "panel", "o": "opening",
           "k": "cavity", "m": "cavity"}  # fmt: skip
RELATIONS: dict[str, dict[str, str]] = {
    "a": {"closes": "k", "panels": "pq", "methods": ""},
    "b": {"closes": "k", "panels": "pq", "methods": "", "openings": ""},
    "u": {"closes": "", "panels": "q", "methods": ""},
    "v": {"closes": "m", "panels": "q", "methods": "", "openings": "o"},
    "p": {"bounds": "o", "neighbours": "q"}, "q": {"bounds": "", "neighbours": "p"},
}  # fmt: skip
FACTS: dict[str, Facts] = {
    "a": {"joint": "lap", "sealed": "yes"}, "b": {"joint": "butt", "sealed": "no"},
    "u": {"joint": None, "sealed": "no"}, "v": {"joint": "butt", "sealed": "no"},
    "p": {"load_bearing": "yes"}, "q": {"load_bearing": "no"}, "k": {"drains": 2.0}, "m": {"drains": 0.0},
}  # fmt: skip


def subject(text: str) -> Ref:
    """Read `a`, `other:p`, `body` or `welder`."""
    side, name = ("other", text[6:]) if text.startswith("other:") else ("this", text)
    if name in LONE_SUBJECTS:
        return Ref(name, name)
    return Ref(KIND_OF[name], name, "", "other" if side == "other" else "this")


def told(ref: Ref) -> str:
    """Write a subject as `subject` reads it."""
    return f"other:{ref.id}" if ref.side == "other" else ref.id


def summary(ref: Ref, steps: tuple[StepSummary, ...] = (), relies_on: tuple[str, ...] = ()) -> Summary:
    """Make a subject's or a procedure's summary."""
    relations = {name: tuple(subject(id_) for id_ in ids) for name, ids in RELATIONS.get(ref.id, {}).items()}
    if ref.kind == "procedure":
        relations = {"relies_on": tuple(Ref("procedure", id_) for id_ in relies_on)}
    mentions = tuple(Mention(other, ("procedure",), "relies_on") for other in relations.get("relies_on", ()))
    handed = ref.id == "p" if ref.kind == "panel" else None
    return Summary(ref, ref.id.upper(), (), (), (), mentions, (FACTS.get(ref.id, {}),), relations, steps, handed)


def locate(ref: Ref, path: FieldPath, start: int | None = None, end: int | None = None) -> Span:
    """Name the field in place of a file's line: what the checks point at is told apart by it."""
    return Span(f"{ref}/{'/'.join(str(part) for part in path)}", 1, 1, 2)


def catalogue(*procedures: Summary) -> Catalogue:
    """Resolve the little body with these procedures; nothing in it is at fault."""
    summaries = {ref: summary(ref) for ref in (subject(name) for name in KIND_OF)}
    found, problems = resolve(
        {**summaries, **{procedure.ref: procedure for procedure in procedures}}, frozenset(), lambda *_: (), locate
    )
    assert problems == ()
    return found


@cache
def _bare() -> Catalogue:
    return catalogue()


def law_of(text: Mapping[str, Any], *procedures: Summary) -> Law:
    """Make a law of states, acts and rules, each as it would stand in YAML, less what every record must say."""
    shelf: dict[Ref, Record] = {}
    for id_, of in text["states"].items():
        said = of if isinstance(of, dict) else {"of": of}
        shelf[Ref("state", id_)] = _STATE.validate_python({"title": id_, "means": "-", **said})
    act = {"summary": "-", "makes": "none", "spoils": "none", "heat": "none", "vapour": "no", "noisy": "no"}
    for id_, said in text["acts"].items():
        shelf[Ref("act", id_)] = _ACT.validate_python({"title": id_, **act, **said})
    for id_, said in text["rules"].items():
        rule = {"title": id_, "level": "error", "because": f"the reason of {id_}", "source": "-", **said}
        rule["source"] = "practice"
        shelf[Ref("rule", id_)] = _RULE.validate_python(rule)
    return make_law(shelf, catalogue(*procedures) if procedures else _bare())


def little_law(*procedures: Summary) -> Law:
    """Return the law of law.yaml."""
    return law_of(yaml.load((FIXTURES / "law.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader), *procedures)


def steps_of(text: str) -> tuple[StepSummary, ...]:
    """Read `drill a with holes > weld a,other:a by plug but lap > check k answers size`."""
    return tuple(_step(at, part.split()) for at, part in enumerate(text.split(" > ")))


def _step(at: int, words: list[str]) -> StepSummary:
    act, subjects, *rest = words
    said = dict(zip(rest[::2], rest[1::2], strict=True))
    assert set(said) <= {"by", "with", "answers", "but"}, words
    exempt = (said["but"],) if "but" in said else ()
    refs = tuple(subject(name) for name in subjects.split(","))
    carries = frozenset(part for part in said.get("with", "").split(",") if part)
    answers = (said["answers"],) if "answers" in said else ()
    path = ("phases", 0, "steps", at)
    return StepSummary(f"s{at + 1}", path, act, refs, said.get("by", ""), (), exempt, (), carries, answers)
