"""A bench that follows the answer to the letter builds the new craft, over random edits and in both directions.

Brute force, no source outside; the bench is `tests/kits/benches/rebuild_bench.py`, the edits are
`tests/kits/dice/random_edits.py`.
"""

from __future__ import annotations

import random

import pytest

from benches.least_work import could_stay, do_stay
from benches.rebuild_bench import wrongs
from crafts.odd_crafts import odd_craft, odd_edit, odd_symbols
from dice.more_edits import ALL_HARMLESS, MORE_EDITS, drawn_twice
from dice.random_edits import EDITS, HARMLESS, Draft, draft, edited, edited_twice, of_one_family
from tabside.compare import compare_crafts
from tabside.compare.comparison import Comparison
from tabside.compare.comparison_json import comparison_json
from tabside.model.craft import Craft


def both_ways(before: Draft, after: Draft) -> list[Comparison]:
    """Holds the steps of both directions against the bench."""
    return followed((before.craft(), after.craft()))


def odd_ones_followed(seed: int) -> None:
    dice = random.Random(seed)
    symbols = odd_symbols(dice)
    now = odd_edit(symbols, dice)
    followed((odd_craft(symbols, seed // 2), odd_craft(now, seed // 2 + seed % 2)))


def followed(crafts: tuple[Craft, Craft]) -> list[Comparison]:
    """The same of two crafts."""
    found = []
    for old, new in (crafts, crafts[::-1]):
        one = compare_crafts(old, new)
        sheet = () if one.same else one.build.proof.rows
        assert wrongs(old, new, comparison_json(one), sheet) == []
        found.append(one)
    return found


def superfluous(found: Comparison) -> list[str]:
    """Work on cables of which nothing has changed: the same wires in the same plugs."""
    kept = {after for _, after in found.leads.kept}
    said = []
    for work in found.work:
        if work.fate.new is None or work.fate.old is None or len(work.fate.old.leads) != len(work.fate.new.leads):
            continue
        wires = {frozenset(found.new.by_mark[mark].ends) for mark in work.fate.new.leads}
        stays = all(found.matching.pairs.get(a) == b for a, b in work.fate.places)
        if wires <= kept and stays and not work.fate.lends and work.fate.what not in ("keep", "move plug"):
            said.append(f"{work.fate.name}: {work.fate.what}: {work.fate.words}")
    return said


def carried_out(what: str, seed: int) -> None:
    before = draft(seed)
    after = edited(before, what, seed)
    if after is None:
        return
    for found in both_ways(before, after):
        assert superfluous(found) == []
        crowded = found.old.craft.crowded  # then references decide which contact is left open
        if what in HARMLESS and not (what == "renumbered" and crowded):
            assert found.same or {change.subject for change in found.changes} <= {"finding"}, found.changes


def least_work(before: Draft, what: str, seed: int) -> None:
    """Every wire stays that can by one end; some do that move at both. The new build is as it is drawn."""
    after = edited(before, what, seed)
    for found in both_ways(before, after) if after is not None else ():
        assert do_stay(found) >= could_stay(found), (what, seed)


@pytest.mark.parametrize("what", ["fuse", "one plug of two", "splice split", "wires moved", "ways", "board goes"])
def test_no_wire_is_made_that_could_stay(what):
    for seed in (604, 609, 624):
        least_work(draft(seed), what, seed)
        least_work(of_one_family(draft(seed)), what, seed)


def test_a_joint_that_is_left_to_choice_does_not_stay_on_a_board_that_goes():
    """A ground wire of a pack, and one of a cable, go onto another pad of the board that comes."""
    carried_out("pads", 506)
    least_work(draft(749), "pads", 749)


@pytest.mark.parametrize("what", ["one plug of two", "wires moved"])
def test_a_wire_that_another_one_needs_or_a_plug_that_waits_keeps_no_wire_from_being_used(what):
    """A move within a plug that stands in another wire's way; a plug whose other wires leave the craft."""
    least_work(draft(743), what, 743)
    least_work(of_one_family(draft(743)), what, 743)
    carried_out(what, 743)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(700, 760))
@pytest.mark.parametrize("what", sorted(EDITS))
def test_no_wire_is_made_that_could_stay_in_many_crafts(what, seed):
    least_work(of_one_family(draft(seed)), what, seed)
    least_work(draft(seed), what, seed)


@pytest.mark.parametrize("what", EDITS)
def test_the_steps_carried_out_give_the_new_build(what):
    for seed in (403, 417):
        carried_out(what, seed)


@pytest.mark.parametrize("seed", [500, 523, 531, 584])
def test_grounds_that_are_left_to_choice_are_the_same_build_under_other_references(seed):
    """Which ground wire joins which two plugs is decided by the order of references."""
    assert any(lead.how in ("chosen", "joined") for lead in draft(seed).craft().leads)
    carried_out("renumbered", seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(500, 512))
@pytest.mark.parametrize("what", EDITS)
def test_the_steps_carried_out_give_the_new_build_for_many_crafts(what, seed):
    carried_out(what, seed)


@pytest.mark.parametrize(
    "seed", [31, pytest.param(32, marks=pytest.mark.slow), pytest.param(33, marks=pytest.mark.slow)]
)
def test_several_edits_at_once(seed):
    before = draft(seed)
    _, after = edited_twice(before, seed)
    both_ways(before, after)


@pytest.mark.parametrize("seed", [*range(8), *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(8, 400))])
def test_odd_crafts_are_followed_too(seed):
    odd_ones_followed(seed)


@pytest.mark.parametrize("seed", [10016, 10102, 10104, 10180])
def test_a_plug_that_goes_nowhere_is_never_called_as_one_that_comes(seed):
    """Plugs moved to other ports, and ports of another size, at once."""
    before = draft(seed)
    _, after = edited_twice(before, seed)
    both_ways(before, after)


@pytest.mark.parametrize("seed", [10474, 10501, 10510, 10512])
def test_wires_leave_a_plug_whose_own_cable_is_made_anew(seed):
    carried_out("one plug of two", seed)


@pytest.mark.parametrize("seed", [2114, 2136, 10652, 12124, 12222])
def test_connectors_on_another_board_and_bridges_in_one_plug_are_followed(seed):
    odd_ones_followed(seed)


@pytest.mark.parametrize("seed", [39, 42, 67, 105])
def test_own_wires_that_are_joined_to_each_other_are_parted_once(seed):
    odd_ones_followed(seed)


def edited_ones_followed(seed: int, how_many: str) -> None:
    said, before, after = drawn_twice(seed, how_many)
    harmless = set(said.split(", ")) <= ALL_HARMLESS.keys() and not ("renumbered" in said and before.crowded)
    for found in followed((before, after)):
        assert superfluous(found) == [] == labels_missing(found)
        assert not found.same or {work.fate.what for work in found.work} <= {"keep"}
        if harmless and said:
            assert found.same or {change.subject for change in found.changes} <= {"finding"}, (said, found.changes)


def labels_missing(found: Comparison) -> list[str]:
    """Wires that go on under another number, and no label of theirs is printed again."""
    answer = comparison_json(found)
    printed = {text.split()[0] for labels in answer["labels"] for text in labels["tubes"]}
    pairs = [pair for cable in answer["cables"] if not cable["stopped"] for pair in cable["wires"]]
    return [f"{was} becomes {now}" for was, now in pairs if was != now and now not in printed]


GONE_WRONG = (  # each in its own way
    ("one", 920465),  # a joint comes onto another board from a place that stays
    ("many", 920007),  # a plug of a cable that is made whole, out of the way of another one
    ("many", 940228),  # wires left to choice that end where others of them did
    ("few", 940080),  # an outlet of equal choice is a plug, the other one pads
    ("many", 980079),  # a plug in the hand is called by a connector out of which another one comes
    ("many", 990167),  # a wire comes off pads for good, and a plug goes in there
    ("many", 1020306),  # a plug of a cable that is made whole, in which a wire stays for another cable
    ("many", 970061),  # a cable that stays, and is out in the hand for its test
    ("few", 27),  # the same build, with a switch that counts its ends the other way
)


@pytest.mark.parametrize(("how_many", "seed"), GONE_WRONG)
def test_edits_that_went_wrong_are_followed(how_many, seed):
    edited_ones_followed(seed, how_many)


@pytest.mark.parametrize("how_many", ["one", "few", "many"])
@pytest.mark.parametrize("seed", [*range(3), *(pytest.param(n, marks=pytest.mark.slow) for n in range(3, 100))])
def test_edits_by_dice_are_followed(how_many, seed):
    """Boards, cables, wires, plugs and single facts; up to ten of them at once."""
    edited_ones_followed(seed, how_many)


@pytest.mark.parametrize("what", sorted(MORE_EDITS))
def test_each_kind_of_edit_is_one_that_drafts_have(what):
    """Else the dice would never try it."""
    edit = MORE_EDITS[what]
    assert any(edit(draft(seed), random.Random(seed)) is not None for seed in range(40))
