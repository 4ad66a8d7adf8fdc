"""From the collected tests to their order: fast ones first, then those marked slow, those in a browser last."""

from pathlib import Path

import pytest
from hypothesis import settings

# How long one example takes says nothing on a shared machine; each test has its own limit of time.
settings.register_profile("seambook", deadline=None)
settings.load_profile("seambook")

TESTS = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Sort in place; within each group the order stays as collected."""
    items.sort(key=_turn)


def _turn(item: pytest.Item) -> int:
    if "browser" in item.path.relative_to(TESTS).parts[:-1]:
        return 2
    return 1 if item.get_closest_marker("slow") else 0
