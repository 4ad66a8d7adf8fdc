"""The way of a book's records up to the moment it is drawn.

Pass A reads and shapes each file by itself; then all are linked and judged. Pass B, which works each record out and
draws its page, is in `drawing`. Both are made by one process or by several. `Way` carries what the stages of one build
share; `pipeline` says their order.
"""

from __future__ import annotations

import hashlib
import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from builder import check as check_stage
from builder import formula, link, pictures, read, settings, shape, style
from builder import work as work_stage
from builder.crew import processes_for, spread
from builder.formula import Fault, Program
from builder.gathered import Gathered, Shaped
from builder.keeper import Keeper, Made, Told
from builder.model.files import Discovery, Layer, Published, SourceFile
from builder.model.ledger import EVERY, mark_of, number_of, numbers_of
from builder.model.links import Catalogue
from builder.model.place import Span
from builder.model.problem import Code, Problem, in_order
from builder.model.records import KIND, Record
from builder.model.records.figure import Figure
from builder.model.records.planning import Planning
from builder.model.records.settings import BookSettings
from builder.model.records.supporting import Scale
from builder.model.records.training import Training
from builder.model.reference import Mention, Ref
from builder.model.shelf import Shelf
from builder.order import Order
from builder.outcome import Outcome
from builder.settings import Said
from builder.shaping import How, shape_file, unpacked, withpicture

CODES: tuple[Code, ...] = (
    *read.CODES, *shape.CODES, *link.CODES, *check_stage.CODES, *work_stage.CODES, *formula.CODES,
    *pictures.CODES, *style.CODES,
)  # fmt: skip
COMPILED = frozenset({"calculator", "table"})
"""Kinds that programs are made of."""
READ_ALONE = 3_000
"""Below so many files one process reads them as soon as two would: each takes half a millisecond."""


class Way:
    """The stages with what they share on one way through: the order, the problems so far and the clock."""

    def __init__(self, order: Order) -> None:
        self.order = order
        self.problems: list[Problem] = []
        self.seconds: dict[str, float] = {}
        self.keeper = Keeper(order)
        self.places: read.Places
        self.law: check_stage.Law
        """The law of the book, once its procedures were judged."""
        self._pairs: formula.Pairs | None = None
        self._manner: style.Manner | None = None
        self._planning: Said[Planning | None] | None = None
        self._training: Said[Training | None] | None = None
        self._started = time.perf_counter()

    def discover(self, folders: frozenset[str] | None = None) -> Discovery:
        """List the files of every layer, or of some folders only."""
        discovery, problems = read.discover(self.order.layers, folders)
        self.problems += problems
        self.places = read.Places(discovery)
        return discovery

    def gather(self, discovery: Discovery) -> Gathered:
        """Pass A: read and shape every file; the scales first, since what is strictest depends on them."""
        scale_files = [file for file in discovery.files if file.ref.kind == "scale"]
        others = [file for file in discovery.files if file.ref.kind != "scale"]
        processes = processes_for(len(others), self.order.processes, READ_ALONE)
        # Few records that one process reads need not travel, and only a book that is made says what it was made from.
        is_packed = processes > 1 or len(others) >= READ_ALONE or self.keeper.is_on
        how = How(is_packed, is_digested=self.order.target is not None, is_marked=self.keeper.is_on)
        first = [shape_file(file, {}, how) for file in scale_files]
        scales = {ref.id: tuple(record.words) for ref, record in _whole(first) if isinstance(record, Scale)}
        self.keeper.with_scales(scales)
        shaped = [*first, *self._shaped(others, scales, how)]
        self.problems += (problem for one in shaped for problem in one.problems)
        self.problems += self.placed((one.ref, fault) for one in shaped for fault in one.faults)
        self.clock("read and shape")
        return Gathered(
            shelf=Shelf(dict(_whole([one for one in shaped if KIND[one.ref.kind].shelf]))),
            packed={one.ref: one.record for one in shaped if one.record is not None and not KIND[one.ref.kind].shelf},
            summaries={one.ref: one.summary for one in shaped if one.summary is not None},
            broken=frozenset(one.ref for one in shaped if one.summary is None),
            scales=scales,
            pictures={one.ref.id: one.picture for one in shaped if one.picture is not None},
            said={one.ref: one.said for one in shaped if one.summary is not None},
            told={one.ref: one.told for one in shaped if one.summary is not None},
            fingerprint=_fingerprint(shaped, self.order.layers),
        )

    def _shaped(self, files: Sequence[SourceFile], scales: Mapping[str, tuple[str, ...]], how: How) -> list[Shaped]:
        """Read and shape files, but for those that the last build read as they are."""
        known = {file.ref: self.keeper.file(file) for file in files} if self.keeper.is_on else {}
        fresh = [file for file in files if known.get(file.ref) is None]
        shape.get_ready(sorted({file.ref.kind for file in fresh}))
        processes = processes_for(len(fresh), self.order.processes, READ_ALONE)
        done = {}
        for one in spread(lambda file: withpicture(file, shape_file(file, scales, how)), fresh, processes):
            done[one.ref] = one
            self.order.progress("reading", len(done), len(fresh))
        for file in fresh if self.keeper.is_on else ():
            # A picture lies in a file of its own, which is looked at anew each time.
            if not done[file.ref].problems and file.ref.kind != "figure":
                self.keeper.keep_file(file, done[file.ref])
        return [known.get(file.ref) or done[file.ref] for file in files]

    def connect(self, gathered: Gathered) -> Catalogue:
        """Resolve every reference."""
        warm, mark = self.order.warm, (gathered.told, gathered.broken)
        known: Catalogue | None = warm.known("links", mark) if warm is not None and self.keeper.is_on else None
        if known is not None:
            catalogue = replace(known, summaries=gathered.summaries)
        else:
            catalogue, problems = link.resolve(
                gathered.summaries, gathered.broken, self.places_of, self.places.locate
            )
            self.problems += problems
            if warm is not None and not problems:  # a problem tells of places, which move where no summary does
                warm.put("links", mark, catalogue)
        self.clock("link")
        return catalogue.watched(self.keeper.ledger) if self.keeper.is_on else catalogue

    def compile(self, gathered: Gathered) -> Mapping[str, Program]:
        """Compile and prove every calculator."""
        warm, shelf = self.order.warm, gathered.shelf
        if warm is None or not self.keeper.is_on:
            programs, faults = check_stage.compile_programs(shelf)
        else:
            mark = [(ref, gathered.said[ref]) for ref in sorted(shelf) if ref.kind in COMPILED]
            programs, faults = warm.get("programs", mark, lambda: check_stage.compile_programs(shelf))
        self.problems += self.placed(faults)
        return programs

    def judge(self, gathered: Gathered, catalogue: Catalogue) -> Mapping[str, Program]:
        """Check formulas, then every procedure by the law of the book."""
        programs = self.compile(gathered)
        self.units()
        faults = list(check_stage.expression_faults(gathered.shelf, gathered.scales))
        self.problems += self.placed(faults)
        self.problems += self.placed(
            check_stage.drawing_faults(gathered.shelf, gathered.summaries, gathered.broken)
        )
        self.problems += self.placed(check_stage.job_faults(gathered.shelf, catalogue))
        training = self.training().said
        self.problems += self.placed(
            check_stage.lesson_faults(gathered.shelf, catalogue, programs, is_trained=training is not None)
        )
        self.problems += check_stage.training_problems(catalogue, self.places.locate)
        self.law = check_stage.make_law(gathered.shelf, catalogue)
        self.manner(catalogue)
        self._hear(gathered, catalogue, programs)
        if not any(ref.kind == "rule" for ref, _ in faults):
            self._check_procedures(self.law, gathered)
        if (planned := self.planning()).said is not None:
            self.problems += planned.placed(check_stage.planning_faults(
                planned.said, catalogue, programs, gathered.scales.get("stage", ())
            ))
        self.clock("check")
        return programs

    def _hear(self, gathered: Gathered, catalogue: Catalogue, programs: Mapping[str, Program]) -> None:
        """Mark every fact of the book, so that it is known what of the last build still holds."""
        if not self.keeper.is_on:
            return
        pictures = ((("picture", id_), mark_of(one.digest)) for id_, one in gathered.pictures.items())
        def linked() -> dict[int, bytes]:
            return {number_of(fact): mark for fact, mark in catalogue.facts(gathered.told)}

        warm, mark = self.order.warm, (gathered.told, gathered.broken)
        facts = linked() if warm is None else warm.get("facts of links", mark, linked)
        self.keeper.hear(facts, chain(
            gathered.shelf.facts(gathered.said), check_stage.law_facts(self.law),
            check_stage.program_facts(programs, gathered.shelf, gathered.said), pictures,
            [(("manner", EVERY), mark_of(self.manner(catalogue).told()))],
        ))  # fmt: skip

    def _check_procedures(self, law: check_stage.Law, gathered: Gathered) -> None:
        circles = check_stage.circles(law.catalogue, self.places.locate)
        self.problems += circles
        self.problems += check_stage.standing_problems(law.catalogue, self.places.locate)
        refs = sorted(ref for ref in law.catalogue.summaries if ref.kind == "procedure")
        marks = {ref: gathered.told.get(ref, b"") + bytes([not circles]) for ref in refs}
        fresh = [ref for ref in refs if self.keeper.unit(f"judged {ref}", marks[ref]) is None]

        def check_one(ref: Ref) -> tuple[Ref, tuple[Problem, ...], bytes]:
            with self.keeper.ledger.page() as facts:
                problems = check_stage.check_procedure(ref, law, self.places.locate, follow=not circles)
            return ref, problems, numbers_of(facts)

        for ref, problems, facts in spread(check_one, fresh, processes_for(len(fresh), self.order.processes)):
            self.problems += problems
            if not problems:  # a problem tells of places in other files, too: it is found anew each time
                self.keeper.keep_unit(f"judged {ref}", marks[ref], Made(None, {}, facts))

    def work(self, gathered: Gathered, catalogue: Catalogue, programs: Mapping[str, Program]) -> None:
        """Work everything out for its problems' sake alone."""
        shop = work_stage.Shop(gathered.shelf, programs, gathered.scales, planning=self.planning().said, is_drawn=False)

        def work_one(ref: Ref) -> tuple[Ref, tuple[Fault, ...]]:
            record = unpack(ref, gathered)
            faults = work_stage.work(ref, record, catalogue, shop)[1]
            objected = style.lint(record, self.manner(catalogue))
            return ref, (*faults, *objected, *self.picture(ref, record, gathered)[1])

        refs = sorted(ref for ref in gathered.summaries if ref.kind in work_stage.FAULTY or ref.kind == "figure")
        for ref, faults in spread(work_one, refs, processes_for(len(refs), self.order.processes)):
            self.problems += self.placed((ref, fault) for fault in faults)
        self.clock("work")

    def settings(self) -> BookSettings:
        """Return the book's own words."""
        found, problems = settings.book_settings(self.order.layers)
        self.problems += (problem for problem in problems if problem not in self.problems)
        return self.order.shop.over(found) if self.order.shop else found

    def units(self) -> formula.Pairs:
        """Return which unit stands for which in the other system."""
        if self._pairs is None:
            self._pairs, problems = settings.unit_pairs(self.order.layers)
            self.problems += problems
        return self._pairs

    def manner(self, catalogue: Catalogue) -> style.Manner:
        """Return what the house objects to in a record, once what it objects to in the whole book is told."""
        if self._manner is None:
            house, problems = settings.house_style(self.order.layers)
            self.problems += problems
            self.problems += house.placed(style.unknown(house.said, catalogue))
            self.problems += self.placed(style.unused(house.said, catalogue))
            self._manner = style.make_manner(house.said, catalogue)
        return self._manner

    def planning(self) -> Said[Planning | None]:
        """Return how jobs are planned, and where that is said."""
        if self._planning is None:
            self._planning, problems = settings.planning(self.order.layers)
            self.problems += problems
        return self._planning

    def training(self) -> Said[Training | None]:
        """Return how new people are taught, and where that is said."""
        if self._training is None:
            self._training, problems = settings.training(self.order.layers)
            self.problems += problems
        return self._training

    def has_failed(self) -> bool:
        """Whether what was found so far keeps the book from being published."""
        return any(problem.level == "error" or self.order.strict for problem in self.problems)

    def outcome_problems(self) -> tuple[Problem, ...]:
        """Return what was found, sorted, each once."""
        return in_order(self.problems)

    def told(self, discovery: Discovery, gathered: Gathered) -> Told:
        """Return what this build has to tell, for a later one that finds nothing touched."""
        problems = self.outcome_problems()
        named = {span.file for problem in problems for span in (problem.span, *(one.span for one in problem.see))}
        places = tuple((str(one.path), one.shown, one.ref) for one in discovery.files if one.shown in named)
        return Told(problems, discovery.overridden, len(gathered.summaries), places)

    def outcome(
        self, discovery: Discovery, gathered: Gathered, published: Published | None = None
    ) -> Outcome:
        """Close the account."""
        self.clock("publish")
        return Outcome(self.outcome_problems(), discovery, len(gathered.summaries), published, self.seconds)

    def picture(
        self, ref: Ref, record: Record, gathered: Gathered
    ) -> tuple[Mapping[str, bytes], tuple[Fault, ...]]:
        """Make the files of a figure's picture; of any other record none."""
        if not isinstance(record, Figure) or ref.id not in gathered.pictures:
            return {}, ()
        return pictures.make(self.places.file(ref), record, gathered.pictures[ref.id])

    def placed(self, faults: Iterable[tuple[Ref, Fault]]) -> list[Problem]:
        """Return faults as problems, each at its place in a file."""
        return [check_stage.problem_of_fault(ref, fault, self.places.locate) for ref, fault in faults]

    def places_of(self, ref: Ref, mention: Mention) -> tuple[Span, ...]:
        """Read a record's file again; return every place where it makes this mention."""
        tree = self.places.tree(ref)
        return shape.find_places(self.places.file(ref), tree, mention) if tree is not None else ()

    def clock(self, stage: str) -> None:
        """Put the time since the last stage down to this one."""
        now = time.perf_counter()
        self.seconds[stage] = self.seconds.get(stage, 0.0) + now - self._started
        self._started = now


def _fingerprint(shaped: Iterable[Shaped], layers: Iterable[Layer]) -> str:
    digests = [one.digest for one in sorted(shaped, key=lambda one: one.ref)]
    own = [read.digest(file) for file in settings.files(layers)]
    return hashlib.sha256(b"".join([*digests, *own])).hexdigest()


def _whole(shaped: Sequence[Shaped]) -> Iterable[tuple[Ref, Record]]:
    return ((one.ref, unpacked(one.record)) for one in shaped if one.record is not None)


def unpack(ref: Ref, gathered: Gathered) -> Record:
    """Return a record whole."""
    found = gathered.shelf.get(ref)
    if found is None:
        found = unpacked(gathered.packed[ref])
    return found
