"""Pass B: every record worked out, drawn, put down and indexed; then the book's own pages, and what prints whole.

It alone of the way through knows the stages that draw; the pipeline loads it when a book is made, since a check needs
none of them and would wait for them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cached_property, partial
from typing import NamedTuple

from builder import check, delivery, formula, link, loaded, publish, read, render, search, settings, style, view
from builder import work as work_stage
from builder.carrying import Carrying
from builder.crew import processes_for
from builder.formula import Fault, Program
from builder.gathered import Gathered
from builder.indexing import Indexing, source_pages
from builder.keeper import Keeper
from builder.model.forms.saved_file import job_file_schema, training_file_schema
from builder.model.ledger import EVERY, Watched, mark_of
from builder.model.links import Catalogue
from builder.model.records import KIND, Record
from builder.model.records.body import Panel, Seam
from builder.model.records.job import Job
from builder.model.records.lesson import Lesson
from builder.model.records.procedure import Procedure
from builder.model.records.vehicle import Vehicle
from builder.model.reference import Ref
from builder.model.views import Site
from builder.model.work import SeamPlan
from builder.passes import CODES, Way, unpack
from builder.putting import Fresh, Putting, Unit

MOST_LOOKED_AT, LONGEST_EXAMPLE = 40, 4000
"""For examples in the writing guide: records of a kind that are looked at, and characters one may have."""


class Drawn(NamedTuple):
    """One record after the second pass."""

    ref: Ref
    path: str
    pages: tuple[search.Numbered, ...]
    """Of the index."""
    faults: tuple[Fault, ...]
    files: tuple[str, ...] = ()
    """Put down beside the page."""
    short: view.JobShort | None = None
    """Of a procedure what the list of a job shows."""
    ways: frozenset[str] = frozenset()
    """Of a procedure the pages that its own leads to."""


class Drawing:
    """What drawing needs of one way through, and the desk that all of it is put down on."""

    def __init__(
        self, way: Way, gathered: Gathered, catalogue: Catalogue, programs: Mapping[str, Program], desk: publish.Desk,
        keeper: Keeper,
    ) -> None:
        self.way = way
        self.gathered = gathered
        self.catalogue = catalogue
        self.programs = programs
        self.desk = desk
        self.putting = Putting(desk, keeper)
        self.own = way.settings()
        self.usual = settings.usual_units(way.order.layers)
        self.ledger = catalogue.ledger
        self.shelf = gathered.shelf.watched(self.ledger)
        watched = Watched(programs, "program", self.ledger)
        shop = work_stage.Shop(self.shelf, watched, gathered.scales, self.usual, way.planning().said)
        self.shop = shop.noting(self.ledger)
        self.index = Indexing(self.putting)
        self.shorts: list[view.JobShort] = []
        self.ways_of: dict[Ref, frozenset[str]] = {}
        self.files_of: dict[Ref, tuple[str, ...]] = {}

    def draw(self) -> list[str]:
        """Put the whole book down; return its paths."""
        paths = [*self.records(), *self.pages(), *self.files()]
        self.way.clock("index and assets")
        if self.is_printed:
            paths += self.printed()
        return [*paths, *self.kept(paths)]

    def records(self) -> list[str]:
        """Work every record out, draw its page, put it down and keep its words."""
        refs = sorted(self.gathered.summaries, key=self.book.links.path)  # the order the index is written in
        paths: list[str] = []
        units = [Unit(f"drawn {ref}", self.own_mark(ref)) for ref in refs]
        ref_of = {unit.name: ref for unit, ref in zip(units, refs, strict=True)}
        made = self.putting.every(
            units, lambda unit: self.record(ref_of[unit.name]), self.processes(len(refs)),
            get_ready=lambda: self.renderer,
        )
        for at, (unit, (_, drawn, words)) in enumerate(zip(units, made, strict=True), 1):
            self.way.order.progress("drawing", at, len(refs))
            self.files_of[drawn.ref] = (drawn.path, *drawn.files)
            self.ways_of[drawn.ref] = drawn.ways
            paths += self.files_of[drawn.ref]
            self.index.add(unit.name, drawn.pages, words)
            self.shorts += (drawn.short,) if drawn.short is not None else ()
            self.way.problems += self.way.placed((drawn.ref, fault) for fault in drawn.faults)
        self.way.clock("work and draw")
        return paths

    def own_mark(self, ref: Ref) -> bytes:
        """Mark what a record's page is made from by name: the record, a figure's picture, what all pages share."""
        picture = self.gathered.pictures.get(ref.id) if ref.kind == "figure" else None
        return self.gathered.said.get(ref, b"") + (picture.digest if picture is not None else b"") + self.shared

    def record(self, ref: Ref) -> Fresh[Drawn]:
        """Draw one record, in whichever process; what it has to tell comes back small."""
        record = unpack(ref, self.gathered)
        worked, faults = work_stage.work(ref, record, self.catalogue, self.shop)
        self.ledger.note("manner", EVERY)
        objected = style.lint(record, self.way.manner(self.catalogue))
        files, more = self.way.picture(ref, record, self.gathered)
        page = view.view(self.book, ref, record, worked)
        others = view.pages_beside(self.book, ref, record, worked)
        beside = {one.path: self.renderer.render(one, self.book.site) for one in others}
        scripts, short = self.scripts(ref, worked.seam), None
        if isinstance(record, Seam):
            strips = view.strips_of(self.book, ref, record, worked.seam)
            scripts[f"assets/strip/{ref.id}.js"] = render.assigned("strips", strips, ref.id)
        if isinstance(record, Procedure):
            more_scripts, short = self.job_scripts(ref, record)
            parts = self.renderer.bay(view.bay_procedure(self.book, record, page))
            scripts |= more_scripts | {f"assets/bay/{ref.id}.js": render.assigned("bayParts", parts, ref.id)}
        if isinstance(record, Lesson):
            scripts |= self.lesson_scripts(ref, record)
        made = {page.path: self.renderer.render(page, self.book.site), **beside, **files, **scripts}
        ways = delivery.ways_in(made.values()) if short is not None else frozenset()
        pages, words = source_pages([search.page_words(page)])
        beside_it = (*beside, *files, *scripts)
        return Fresh(made, Drawn(ref, page.path, pages, (*faults, *objected, *more), beside_it, short, ways), words)

    def scripts(self, ref: Ref, plan: SeamPlan) -> dict[str, bytes]:
        """Return what a seam's page works its plans out from; nothing where no plan depends on a length."""
        if not any(segment.asked for segment in plan):
            return {}
        facts, asked = [segment.known for segment in plan], [segment.asked for segment in plan]
        script = formula.emit_seam(ref.id, facts, asked, self.way.units())
        return {f"assets/seam/{ref.id}.js": script.encode()}

    def job_scripts(self, ref: Ref, record: Procedure) -> tuple[dict[str, bytes], view.JobShort]:
        """Return what a job needs of a procedure, and what its list shows of it."""
        law = check.law_of(ref, self.way.law)
        takes = work_stage.take_off(record, ref, self.catalogue, self.shop)
        data = view.job_procedure(self.book, ref, record, law, takes)
        script = render.assigned("jobProcedures", data, ref.id)
        return {f"assets/job/procedure/{ref.id}.js": script}, view.job_short(self.book, ref, record, law, data)

    def lesson_scripts(self, ref: Ref, record: Lesson) -> dict[str, bytes]:
        """Return what a lesson's page draws questions and tests from; nothing where it has none."""
        if not view.is_practised(record):
            return {}
        records = self.unpacked(view.rests_of_lesson(self.book, record))
        data = view.lesson_data(self.book, ref, record, records)
        return {view.lesson_path(ref): render.assigned("lessons", data, ref.id)}

    def training_files(self) -> dict[str, bytes]:
        """Return what the pages of training need of the book, and the form of the files they save."""
        lasting = self.putting.one(Unit("told of training", self.shared), lambda: Fresh(
            {}, view.training_lasting(self.book, self.unpacked(view.needed(self.book)))
        )).result
        data = view.training_book(self.book, lasting, check.anyones_rules(self.way.law))
        return {
            view.TRAINING_DATA: render.assigned("training", data),
            view.TRAINING_FORM: render.assigned("trainingForm", training_file_schema(described=False)),
        }

    def unpacked(self, refs: Iterable[Ref]) -> dict[Ref, Record]:
        """Return records whole."""
        refs = frozenset(refs)
        self.ledger.note_all({("record", ref) for ref in refs})
        return {ref: unpack(ref, self.gathered) for ref in sorted(refs) if ref in self.gathered.summaries}

    def job_files(self) -> dict[str, bytes]:
        """Return what a job needs of the book before any procedure is chosen."""
        records = {ref: unpack(ref, self.gathered) for ref in sorted(self.gathered.summaries)
                   if ref.kind in ("vehicle", "panel")}  # fmt: skip
        vehicles = {ref.id: one for ref, one in records.items() if isinstance(one, Vehicle)}
        panels = {ref.id: one for ref, one in records.items() if isinstance(one, Panel)}
        data = view.job_book(self.book, vehicles, panels, self.shorts, check.anyones_rules(self.way.law))
        files = {
            "assets/job/book.js": render.assigned("jobBook", data),
            "assets/job/form.js": render.assigned("jobForm", job_file_schema(described=False)),
        }
        shorts = {short.ref.id: short.data for short in self.shorts}
        for ref, job in ((ref, one) for ref, one in sorted(self.gathered.shelf.items()) if isinstance(one, Job)):
            example = view.job_example(self.book, ref, job, shorts)
            files[f"assets/job/example/{ref.id}.js"] = render.assigned("jobExamples", example, ref.id)
        return files

    def pages(self) -> list[str]:
        """Draw the pages that show no record."""
        paths: list[str] = []
        for own in self.own_pages():
            unit = Unit(f"own {own.name}", mark_of(own.said) + self.shared)
            more, pages, words = self.putting.one(unit, partial(self.drawn_pages, own))
            paths += more
            self.index.add(unit.name, pages, words)
        return paths

    def own_pages(self) -> Iterable[view.Own]:
        """Return the pages that show no record, not yet made."""
        extra = view.Extra(self.own, self.gathered.fingerprint, CODES, self.gathered.scales, self._examples())
        return view.own_pages(self.book, extra)

    def drawn_pages(self, own: view.Own) -> Fresh[tuple[search.Numbered, ...]]:
        """Draw pages of the book's own."""
        files, found = {}, []
        for page in own.pages():
            files[page.path] = self.renderer.render(page, self.book.site)
            found.append(search.page_words(page))
        return Fresh(files, *source_pages(found))

    def files(self) -> list[str]:
        """Put down what pages load: styles, scripts, calculators and the search index."""
        files = {
            **{f"assets/method/{id_}.js": formula.emit_method(id_, method, self.programs).encode()
               for id_, method in work_stage.methods(self.shop)},
            **self.job_files(),
            **self.training_files(),
            view.LABELS_DATA: render.assigned("labels", view.labels_data(self.book)),
        }  # fmt: skip
        return [
            *loaded.shared_files(self.putting, self.way.order), *self.calculator_files(),
            *loaded.early_files(self.putting, self.way.order, self.book.site, self.shared),
            *self.putting.put_always(files), *self.index.put(self.names(), self.own.quiet),
        ]  # fmt: skip

    def names(self) -> list[tuple[str, ...]]:
        """Return, for each thing that has several names, all of them."""
        return [*self.gathered.names(), *settings.unit_names(self.way.order.layers)]

    def calculator_files(self) -> list[str]:
        """Put down the script of each calculator."""
        units, usual = self.way.units(), self.usual
        id_of = {f"script of {id_}": id_ for id_, one in sorted(self.programs.items()) if one.id == id_}

        def script(unit: Unit) -> Fresh[None]:
            id_ = id_of[unit.name]
            data = formula.emit_calculator(self.shop.programs[id_], "", units, usual)
            return Fresh({f"assets/calc/{id_}.js": data.encode()}, None)

        made = self.putting.every([Unit(name, self.shared) for name in id_of], script, 1)
        return [path for one in made for path in one.paths]

    def kept(self, paths: list[str]) -> list[str]:
        """Put down what phones keep the book by, when it is had from a server: the hashes of all else among it."""
        there = frozenset(paths)
        for ref, files in self.files_of.items():
            # What is put down for all calculators and methods at once is still theirs.
            asset = f"assets/{'calc' if ref.kind == 'calculator' else ref.kind}/{ref.id}.js"
            if ref.kind in ("calculator", "method") and asset in there:
                self.files_of[ref] = (*files, asset)
        documents = frozenset(one.path for one in view.documents(self.catalogue)) if self.is_printed else frozenset()
        groups = delivery.grouped(self.files_of, documents, paths)
        carrying = Carrying(self.putting, self.catalogue, groups, self.ways_of, self.files_of)
        kept = delivery.Kept(
            self.book.site, self.gathered.fingerprint, self.own.kept_whole, groups, carrying.ranked, carrying.taken(),
            self.putting.keeper.pieces,
        )  # fmt: skip
        made = delivery.delivered(kept, paths, self.desk.where, self.way.order.templates)
        self.way.clock("hashes")
        return self.putting.put_always(made)

    @cached_property
    def renderer(self) -> render.Renderer:
        """The templates, compiled: a build that finds nothing changed needs none, and would wait half a second."""
        templates, warm = self.way.order.templates, self.way.order.warm
        if warm is None:
            return render.open_renderer(templates)
        mark = (templates, self.putting.keeper.templates)
        return warm.get("renderer", mark, lambda: render.open_renderer(templates))

    @cached_property
    def is_printed(self) -> bool:
        """Whether the whole book is made to print, too."""
        return view.is_printed(self.catalogue, asked=self.way.order.whole)

    def printed(self) -> list[str]:
        """Draw every record a second time, into the documents in which the whole book is printed."""
        found = view.documents(self.catalogue)
        files = view.files_of(found)

        def print_one(unit: Unit) -> Fresh[None]:
            document = document_of[unit.name]
            self.ledger.note_all({("record", ref) for ref in document.refs})
            links = link.SingleFileLinks(document.path, files, self.catalogue.moved)
            inside = replace(self.book, links=links).noting(self.ledger)
            worked = ((ref, record, work_stage.work(ref, record, self.catalogue, self.shop)[0])
                      for ref in document.refs for record in (unpack(ref, self.gathered),))  # fmt: skip
            pages = (view.view(inside, *one) for one in worked)
            whole = view.printed(inside, document, found, pages)
            return Fresh({document.path: self.renderer.render_whole(whole, self.book.site)}, None)

        own = mark_of([(one.path, [*map(str, one.refs)]) for one in found]) + self.shared
        document_of = {f"printed {one.path}": one for one in found}
        made = self.putting.every(
            [Unit(name, own) for name in document_of], print_one, self.processes(len(self.catalogue.summaries))
        )
        paths = [path for one in made for path in one.paths]
        paths += self.putting.put_always({
            page.path: self.renderer.render(page, self.book.site) for page in view.list_of_documents(self.book, found)
        })
        self.way.clock("print")
        return paths

    def processes(self, count: int) -> int:
        """How many work at so many things."""
        return processes_for(count, self.way.order.processes)

    @cached_property
    def book(self) -> view.Book:
        """What pages are made from beside the record in hand."""
        own, order = self.own, self.way.order
        foot = view.foot(whole=self.is_printed)
        site = Site(order.name or own.name, own.title, own.id, own.caution, view.navigation(), own.units, foot,
                    view.base_of(order.shop), own.paper)  # fmt: skip
        units = view.Units(self.way.units(), own.units)
        review = {str(status): months for status, months in own.review.items()}
        book = view.Book(
            self.catalogue, link.FolderLinks(), self.shelf, site, view.Prose(),
            Watched(self.gathered.pictures, "picture", self.ledger), units, order.shop, review,
            self.way.planning().said, self.way.training().said, self.gathered.fingerprint,
        )  # fmt: skip
        return book.noting(self.ledger)

    @cached_property
    def shared(self) -> bytes:
        """Mark what every page says that is asked of no record; the settings themselves are marked by the keeper."""
        return mark_of((self.book.site, self.book.review))

    def _examples(self) -> dict[str, view.Example]:
        """Of the first records of each kind the longest that is no burden to read."""
        found: dict[str, view.Example] = {}
        for kind in KIND:
            first = sorted(ref for ref in self.gathered.summaries if ref.kind == kind)[:MOST_LOOKED_AT]
            texts = [view.Example(ref, read.read_text(self.way.places.file(ref))[0] or "") for ref in first]
            short = [one for one in texts if len(one.text) <= LONGEST_EXAMPLE]
            if texts:
                found[kind] = max(short or texts[:1], key=lambda one: len(one.text))
        return found
