"""Cases that are a second look at the same thing: for the long run only."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def slow(cases: Iterable[object]) -> list[Any]:
    """The cases of a parameter, marked as slow."""
    return [pytest.param(case, marks=pytest.mark.slow) for case in cases]
