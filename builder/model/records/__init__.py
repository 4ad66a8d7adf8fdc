"""The record kinds; `KINDS` lists them in the order the book shows them."""

from typing import NamedTuple

from builder.model.records.body import Cavity, Opening, Panel, Seam
from builder.model.records.calculator import Calculator
from builder.model.records.decision import Decision
from builder.model.records.defect import Defect
from builder.model.records.figure import Figure
from builder.model.records.job import Job
from builder.model.records.law import Act, Method, Rule, State
from builder.model.records.lesson import Lesson
from builder.model.records.page import Page
from builder.model.records.path import LearningPath
from builder.model.records.procedure import Procedure
from builder.model.records.shell import Shell
from builder.model.records.skill import Skill
from builder.model.records.supporting import Hazard, Scale, Source, Supply, Term, Tool
from builder.model.records.table import Table
from builder.model.records.vehicle import Vehicle

Record = (
    Panel | Seam | Cavity | Opening | Method | Act | State | Rule | Procedure | Calculator | Table
    | Supply | Tool | Hazard | Term | Source | Scale | Vehicle | Lesson | Figure | Shell | Page | Decision | Defect
    | Job | Skill | LearningPath
)  # fmt: skip


class Kind(NamedTuple):
    """One record kind."""

    name: str
    """As it stands in a reference: `panel:`."""
    folder: str
    """Where its files and its pages are."""
    type: type[Record]
    plural: str
    """As the book's lists head it."""
    shelf: bool = False
    """Few, small and asked for everywhere: kept whole in memory through both passes."""
    pictures: bool = False
    """Picture files lie beside its records."""
    ending: str = ".yaml"
    """Of its files: `.md` where prose stands below a head."""


KINDS = (
    Kind("procedure", "procedures", Procedure, "Procedures"),
    Kind("panel", "panels", Panel, "Panels"),
    Kind("seam", "seams", Seam, "Seams"),
    Kind("cavity", "cavities", Cavity, "Cavities"),
    Kind("opening", "openings", Opening, "Openings"),
    Kind("vehicle", "vehicles", Vehicle, "Vehicles"),
    Kind("shell", "shells", Shell, "Body shells", shelf=True),
    Kind("calculator", "calculators", Calculator, "Calculators", shelf=True),
    Kind("decision", "decisions", Decision, "Decisions", shelf=True),
    Kind("defect", "defects", Defect, "Defects", shelf=True),
    Kind("method", "methods", Method, "Methods", shelf=True),
    Kind("act", "acts", Act, "Acts", shelf=True),
    Kind("state", "states", State, "States", shelf=True),
    Kind("rule", "rules", Rule, "Rules", shelf=True),
    Kind("hazard", "hazards", Hazard, "Hazards", shelf=True),
    Kind("supply", "supplies", Supply, "Supplies", shelf=True),
    Kind("tool", "tools", Tool, "Tools", shelf=True),
    Kind("table", "tables", Table, "Tables", shelf=True),
    Kind("job", "jobs", Job, "Jobs", shelf=True),
    Kind("lesson", "lessons", Lesson, "Lessons", shelf=True),
    Kind("path", "paths", LearningPath, "Learning paths", shelf=True),
    Kind("skill", "skills", Skill, "Skills", shelf=True),
    Kind("page", "pages", Page, "Pages", ending=".md"),
    Kind("figure", "figures", Figure, "Figures and photos", shelf=True, pictures=True),
    Kind("term", "terms", Term, "Terms", shelf=True),
    Kind("source", "sources", Source, "Sources", shelf=True),
    Kind("scale", "scales", Scale, "Scales", shelf=True),
)
KIND = {kind.name: kind for kind in KINDS}
KIND_OF_TYPE = {kind.type: kind.name for kind in KINDS}
KIND_OF_FOLDER = {kind.folder: kind for kind in KINDS}
