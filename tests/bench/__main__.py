"""`make bench`: build 1,000 copies of the procedure and its seam, print each figure beside its bound and the floor.

Then judge the steps of the supplied library and of the copies by the rules of the book, on one core.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.bench.floor import floor
from tests.bench.generator import generate
from tests.bench.measure import build, cores
from tests.bench.rate import rate

CONTENT = Path(__file__).resolve().parents[2] / "content"
COPIES = 1000
MOST_SECONDS, MOST_MB = 8.0, 400.0
LEAST_RATE = 100_000.0
"""Steps a second: of the supplied library once its steps are known, of the copies from the first pass on."""


def main() -> None:
    """Measure and print; exit 1 where a bound is missed."""
    with tempfile.TemporaryDirectory(prefix="seambook-bench-") as folder:
        content = generate(CONTENT, Path(folder) / "content", COPIES)
        alone = build(CONTENT, Path(folder) / "alone")
        first = build(content, Path(folder) / "site")
        again = build(content, Path(folder) / "site")
        least = floor(content, Path(folder) / "floor")
        supplied = rate(CONTENT)
        copied = rate(generate(CONTENT, Path(folder) / "apart", COPIES, with_panels=True))
    print(f"{COPIES} procedures and seams, {cores()} cores")
    for stage, seconds in first.stages.items():
        print(f"  {stage:<18} {seconds:7.2f} s")
    print(f"  {'whole build':<18} {first.seconds:7.2f} s    bound {MOST_SECONDS:.0f} s")
    print(f"  {'supplied alone':<18} {alone.seconds:7.2f} s    {alone.peak_mb:.0f} MB")
    print(f"  {'nothing changed':<18} {again.seconds:7.2f} s")
    print(f"  {'memory':<18} {first.peak_mb:7.0f} MB   bound {MOST_MB:.0f} MB")
    for name, seconds in least.items():
        print(f"  floor, {name:<11} {seconds:7.2f} s")
    whole = sum(least.values())
    print(f"  {'build / floor':<18} {first.seconds / whole:7.2f}      floor in one process {whole:.2f} s")
    print("steps judged a second, one core")
    print(f"  {'supplied, first':<18} {supplied.first:9,.0f}    of {supplied.steps:,} steps")
    print(f"  {'supplied, again':<18} {supplied.again:9,.0f}    bound {LEAST_RATE:,.0f}")
    print(f"  {'copies, first':<18} {copied.first:9,.0f}    bound {LEAST_RATE:,.0f}, of {copied.steps:,} steps")
    print(f"  {'copies, again':<18} {copied.again:9,.0f}    bound {LEAST_RATE:,.0f}")
    print(f"  {'floor, looked up':<18} {copied.floor:9,.0f}    each step and its subjects, once")
    is_slow = min(supplied.again, copied.first, copied.again) < LEAST_RATE
    if is_slow or first.seconds > MOST_SECONDS or first.peak_mb > MOST_MB:
        sys.exit(1)


if __name__ == "__main__":
    main()
