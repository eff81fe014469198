"""Disjoint sets, held against brute force: what a chain of joins reaches."""

import random

import pytest

from tabside.model.groups import Groups


@pytest.mark.parametrize("seed", range(20))
def test_groups_are_what_joins_reach(seed):
    dice = random.Random(seed)
    joins = [(dice.randrange(12), dice.randrange(12)) for _ in range(dice.randrange(14))]
    groups = Groups(range(12))
    for one, other in joins:
        groups.join(one, other)
    for start in range(12):
        reached = {start}
        for _ in range(12):
            reached |= {b for a, b in joins if a in reached} | {a for a, b in joins if b in reached}
        assert {other for other in range(12) if groups.root(other) == groups.root(start)} == reached


def test_a_member_that_was_never_named_is_a_group_of_its_own():
    groups = Groups(["a"])
    assert groups.root("b") == "b" and groups.members == ("a", "b")
    groups.join("c", "a")
    assert groups.root("c") == "a" == groups.root("a")
