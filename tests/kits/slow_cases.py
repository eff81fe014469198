"""Cases that are a second look at the same thing: for the long run only."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import pytest


def slow(cases: Iterable[object]) -> list[Any]:
    """The cases of a parameter, marked as slow."""
    return [pytest.param(case, marks=pytest.mark.slow) for case in cases]


def slow_seeds(seeds: Iterable[int], known: Mapping[int, str]) -> list[Any]:
    """The same of dice, with those that are known to go wrong and why: they fail as long as they do."""
    marks = {seed: pytest.mark.xfail(reason=reason, strict=True) for seed, reason in known.items()}
    return [pytest.param(n, marks=[pytest.mark.slow, *([marks[n]] if n in marks else [])]) for n in seeds]
