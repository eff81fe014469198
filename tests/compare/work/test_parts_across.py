"""Parts that are soldered across wires: where each leg goes, what comes off first, and what lies ready for it.

Common practice, no source outside; the places are those that the continuity sheet's look names.
"""

from __future__ import annotations

import pytest

from benches.pack_bench import perils
from compare.work.test_live_work import SETTINGS
from compare.work.test_making_way import pack, rail, regulator
from crafts.craft_kit import captive, craft, plug, two_pin
from tabside.compare import compare_crafts
from tabside.compare.order.order_of_work import order_of_work


def with_part(*parts):
    return craft(pack(), *regulator(), rail(), *parts, settings=SETTINGS)


def can(value, *nets):
    return two_pin("C2", *(nets or ("BAT", "GND")), value=value, lib_id="Device:C_Polarized")


CASES = {
    "fitted": ((), (can("470uF 35V"),)),
    "another value": ((can("470uF 25V"),), (can("1000uF 35V"),)),
    "another place": ((can("470uF 35V"),), (can("470uF 35V", "6V", "OG"),)),
}


@pytest.mark.parametrize("case", CASES)
def test_each_leg_is_named_where_the_look_names_it(case):
    old, new = (with_part(*parts) for parts in CASES[case])
    found = compare_crafts(old, new)
    order = order_of_work(found)
    fit = order.parts[-1]
    place = "regulator/J3" if case == "another place" else "regulator/J2"
    assert f"its plus leg (the long one) to {place} contact 1" in fit
    assert f"its minus leg (stripe) to {place} contact 2" in fit
    assert not any("pack/J1" in line for line in order.parts)  # its own wires, not a pad
    look = next(line for line in (*order.last, *order.at_packs) if "C2" in line)
    assert f"its plus leg (the long one) at {place}:1" in look
    assert ("LIVE" in fit) is (place == "regulator/J2" or case == "another place")
    for item in ("soldering iron", "insulating tape", "smoke stopper", "magnifier"):
        assert any(line.startswith(item) for line in order.tools), item


def test_the_old_one_comes_off_first():
    old, new = (with_part(*parts) for parts in CASES["another value"])
    first, second = order_of_work(compare_crafts(old, new)).parts
    assert "Take out 1" in first
    assert "Fit 1 more" in second


def test_nothing_across_needs_no_iron():
    assert order_of_work(compare_crafts(with_part(), with_part())).tools == ()


def test_a_part_goes_on_before_the_look_for_a_short_and_before_the_new_packs_minus():
    """Its leg shares a pad with the pack's minus: nobody solders there when that is on."""
    small = captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", value="small pack")
    large = captive("J1", ["BAT", "GND"], board="pack", signals="BAT+, GND", gives="VBAT 45A", value="large pack")
    old = craft(small, *regulator(), rail(), settings=SETTINGS)
    new = craft(large, *regulator(), rail(), can("470uF 35V"), settings=SETTINGS)
    found = compare_crafts(old, new)
    steps = [step for work in found.work if work.fate.new is not None for step in work.steps]
    parts = next(n for n, step in enumerate(steps) if "the parts across wires" in step.words)
    short = next(n for n, step in enumerate(steps) if any(row.test.value == "no short" for row in step.rows))
    live = next(n for n, step in enumerate(steps) if step.live)
    assert parts < short
    assert parts < live
    assert perils(found) == []


def test_it_goes_over_to_the_board_that_another_one_makes_way_for():
    """Its legs are soldered to the old board: nobody finds it on the new one."""

    def hub(family):
        rails = plug("J5", ["6V", "OG"], board="regulator", signals="6V, GND", family=family, gives="6V 1A")
        return craft(pack(), *regulator(), rail(), rails, can("470uF 35V"), settings=SETTINGS)

    found = compare_crafts(hub("JST GH"), hub("JST XH"))
    assert perils(found) == []
    (out,) = [step.words for work in found.work for step in work.steps if step.swap == "out"]
    assert "keep it: C2, its plus leg (the long one) off regulator/J2:1 (BAT+), its minus leg (stripe) off" in out
    (fit,) = order_of_work(found).parts
    assert "It came off with the old board" in fit
    assert "Then fit it here: capacitor C2 (drawing), 470uF 35V: slide heat-shrink over its legs" in fit
    assert any("the parts across wires" in step.words for work in found.work for step in work.steps)
