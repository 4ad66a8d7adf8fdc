"""A seam's sheets -> the facts that formulas use: published examples, and that what is unknown is never looser."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formula import NoAnswer, evaluate_expression
from builder.formula.facts import fact_kinds, fact_values
from builder.model.files import SourceFile
from builder.model.records import KIND
from builder.model.records.law import Rule
from builder.model.reference import Ref
from builder.model.summary import Facts
from builder.model.tree import Mapping
from builder.read.tree import parse
from builder.shape import Scales, shape

SCALES: Scales = {"strength": ("mild", "high-strength", "advanced", "unknown"), "coating": ("bare", "zinc", "unknown")}
CONTENT = Path(__file__).resolve().parents[2] / "content"
Sheet = tuple[str, str, str]
_thickness = st.integers(3, 60).map(lambda tenths: f"{tenths / 10} mm")
_sheet = st.tuples(_thickness, st.sampled_from(SCALES["strength"]), st.sampled_from(SCALES["coating"]))
_UNKNOWN: Sheet = ("unknown", "unknown", "unknown")


def facts(*sheets: Sheet, scales: Scales = SCALES) -> Facts:
    """Shape a seam of one segment with these sheets; return its facts."""
    stack = ", ".join(
        f"{{panel: p, thickness: {thick}, strength: {strength}, coating: {coating}}}"
        for thick, strength, coating in sheets
    )
    text = (
        "title: T\nsummary: S\njoint: lap\nmethods: none\ncloses: none\nfilm: none\nseal: none\nsources: none\n"
        "segments:\n  - {length: 1 m, flange: 16 mm, factory: {method: m, count: 4}, reach: {sides: both, depth: 4 cm},"
        f" sheets: [{stack}]}}\n"
    )
    tree, _ = parse(text, "x")
    assert tree is not None
    _, summary, problems = shape(SourceFile(Path(), "x", Ref("seam", "s")), tree, scales)
    assert problems == ()
    assert summary is not None
    return summary.facts[0]


@pytest.mark.parametrize(("thicknesses", "governing"), [
    (("0.8", "1.2"), 0.8),
    (("1.2", "0.8"), 0.8),
    (("0.8", "1.2", "1.0"), 1.0),
    (("1.2", "1.0", "0.8"), 1.0),
    (("0.8", "0.8", "2.0"), 0.8),
    (("2.0", "0.7", "2.0"), 2.0),
])  # fmt: skip
def test_the_governing_sheet(thicknesses: tuple[str, ...], governing: float) -> None:
    """AWS D8.1M:2013, clause 3, read in a reprint: the thinner of two sheets, the second thickest of three."""
    found = facts(*((f"{thick} mm", "mild", "bare") for thick in thicknesses))
    assert found["governing"] == pytest.approx(governing / 1000)


def test_the_other_facts_of_a_stack() -> None:
    found = facts(("0.8 mm", "mild", "zinc"), ("1.2 mm", "high-strength", "bare"), ("1.0 mm", "mild", "bare"))
    lengths = {"length": 1, "flange": 0.016, "depth": 0.04, "outer": 0.0008, "inner": 0.001, "outside": 0.0008,
               "thinnest": 0.0008, "thickest": 0.0012,
               "total": 0.003, "sheet_1": 0.0008, "sheet_2": 0.0012, "sheet_3": 0.001, "sheet_4": 0,
               "interface_1": 0.0008, "interface_2": 0.001, "interface_3": 0, "factory_pitch": 0.25}  # fmt: skip
    assert {name: found[name] for name in lengths} == pytest.approx(lengths)
    numbers = {"layers": 3, "ratio": 1.5, "factory_count": 4}
    assert {name: found[name] for name in numbers} == pytest.approx(numbers)
    assert (found["strongest"], found["coating"], found["joint"], found["sides"]) == (
        "high-strength", "zinc", "lap", "both",
    )  # fmt: skip


@given(st.lists(_sheet, min_size=2, max_size=4), st.randoms(use_true_random=False))
def test_a_stack_is_as_strict_as_its_strictest_sheet_in_whatever_order(sheets: list[Sheet], random: object) -> None:
    found = facts(*sheets)
    for fact, scale, at in (("strongest", "strength", 1), ("coating", "coating", 2)):
        ranks = [SCALES[scale].index(sheet[at]) for sheet in sheets]
        assert found[fact] == SCALES[scale][max(ranks)]
    turned = facts(*reversed(sheets))
    for name in ("governing", "thinnest", "thickest", "total", "ratio", "strongest", "coating", "layers"):
        assert turned[name] == found[name] or turned[name] == pytest.approx(found[name], rel=1e-12)


@given(st.lists(_sheet, min_size=1, max_size=3), st.integers(0, 3))
def test_one_unknown_sheet_leaves_nothing_known_of_the_stack(sheets: list[Sheet], at: int) -> None:
    stack = [*sheets[:at], _UNKNOWN, *sheets[at:]]
    found = facts(*stack)
    for name in ("governing", "thinnest", "thickest", "total", "ratio"):
        assert found[name] is None
    for interface in range(1, min(len(stack), 4)):
        assert (found[f"interface_{interface}"] is None) == (min(at, len(sheets)) in (interface - 1, interface))
    assert found["strongest"] == found["coating"] == "unknown"
    assert found["layers"] == len(stack)


@pytest.mark.parametrize("words", [(), ("unknown", "mild", "advanced"), ("mild",)])
def test_unknown_outranks_every_word_wherever_the_scale_has_it(words: tuple[str, ...]) -> None:
    """A scale that is broken, or lists unknown as if it were mild, makes no advice looser."""
    found = facts(("1 mm", "advanced", "zinc"), ("1 mm", "unknown", "zinc"), scales={"strength": words})
    assert found["strongest"] == "unknown"


def test_every_fact_has_a_kind_and_every_kind_a_fact() -> None:
    named = {"name"}
    """What the segment is called; no formula may use it."""
    assert set(facts(("1 mm", "mild", "bare"), ("1 mm", "mild", "bare"))) - named == set(fact_kinds("seam", SCALES))


def _record(path: Path, kind: str) -> object:
    tree, _ = parse(path.read_text("utf-8"), path.name)
    assert isinstance(tree, Mapping)
    return shape(SourceFile(path, path.name, Ref(kind, path.stem)), tree, {})[0]


def test_supplied_rules_bind_where_their_condition_cannot_be_told() -> None:
    """A condition without an answer is no false one, so that `binds` takes it for true."""
    for path in sorted((CONTENT / "rules").glob("*.yaml")):
        rule = _record(path, "rule")
        assert isinstance(rule, Rule)
        if rule.when.where is not None:
            kinds = fact_kinds(rule.when.on or "", {})
            unknown = fact_values(dict.fromkeys(kinds))
            assert isinstance(evaluate_expression(rule.when.where, unknown), NoAnswer), path.name


def test_kinds_that_are_subjects_have_facts() -> None:
    assert all(fact_kinds(kind, SCALES) for kind in ("seam", "panel", "cavity"))
    assert {"seam", "panel", "cavity", "opening"} <= set(KIND)
