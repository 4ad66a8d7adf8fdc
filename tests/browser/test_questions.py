"""A thousand questions of each sort, drawn from all lessons in Chromium, each held against the records it is drawn from.

Orders and broken procedures are judged by check/order.py, numbers by the Python calculators, dangers by the records:
exactly the answers that a question claims to be right are right.
"""

from __future__ import annotations

import itertools
import json
import random
import subprocess
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from builder import check, layers, pipeline
from builder.check.brought import Brought
from builder.check.order import Breach, judge
from builder.formula import Program, run
from builder.formula.numbers import to_base
from builder.model.files import Layer
from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Hazard
from builder.model.reference import Ref
from builder.model.summary import StepSummary
from builder.order import Order
from builder.passes import Way
from tests.browser.watched import PHONE, Watched
