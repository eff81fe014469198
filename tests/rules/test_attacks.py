"""Crafts drawn to break the verdict get what their row expects; `python tests/kits/attack_score.py` tells the score."""

from __future__ import annotations

import pytest

from attacks import ALL
from attacks.attack_kit import Attack, outcome, some_of


@pytest.mark.parametrize("attack", some_of(ALL), ids=lambda attack: attack.name)
def test_an_attack_comes_out_as_expected(attack: Attack) -> None:
    assert outcome(attack) == ""
