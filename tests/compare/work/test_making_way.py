"""A pack's own lead is off, and taped, before other wires come to the joint that it leaves.

Common practice of work at packs, no source outside; the bench of `benches/pack_bench.py` follows the steps.
"""

from __future__ import annotations

import pytest

from benches.pack_bench import perils
from benches.rebuild_bench import wrongs
from compare.work.test_live_work import SETTINGS, stated
from crafts.craft_kit import captive, craft, pads, plug, splice, two_pin
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
from tabside.make.sheets.cable_plan import Action


def pack(plus="BAT", minus="GND"):
    return captive("J1", [plus, minus], board="pack", signals="BAT+, GND", gives="VBAT 45A")


def regulator(plus="BAT", minus="GND", out="6V"):
    return [
        pads("J2", [plus, minus], board="regulator", signals="BAT+, GND", takes="9-26V 5A"),
        pads("J3", [out, "OG"], board="regulator", signals="6V, GND", gives="6V 5A"),
    ]


def rail(plus="6V"):
    return pads("J4", [plus, "OG"], board="rail", signals="6V, GND", takes="6V 2A")


def built(*symbols, **facts):
    flat = [one for each in symbols for one in (each if isinstance(each, list) else [each])]
    return stated(craft(*flat, settings=SETTINGS), facts)


def fused(value="10A"):
    return built(pack(), two_pin("F1", "BAT", "FED", value=value), regulator("FED"), rail())


def fuse_in_the_rail():
    return built(pack(), regulator(), two_pin("F1", "6V", "FED", value="10A"), rail("FED"))


def alone():
    return built(pack(), regulator(), rail())


def over_the_driver():
    four = pads("J5", ["Q", "QG", "BAT", "GND"], board="driver", signals="BAT+, BAT-, BAT+, BAT-", takes="9-26V 9A")
    return built(pack("Q", "QG"), four, regulator(), rail())


@pytest.mark.parametrize(
    ("old", "new", "off"),
    [
        (fused, fuse_in_the_rail, ["W3 (was W1) at F1 1"]),
        (alone, over_the_driver, ["W1 at regulator/J2 1", "W2 at regulator/J2 2"]),
    ],
)
def test_it_is_off_before_all_else(old, new, off):
    one, two = old(), new()
    found = compare_crafts(one, two)
    answer = comparison_json(found)
    assert perils(found) == wrongs(one, two, answer, found.build.proof.rows) == []
    first = next(line for line in found.todo.first if line.startswith("pack has no plug"))
    assert all(f"unsolder {each}, tape its bare end at once" in first for each in off)
    for work in found.work:
        gone = [step for step in work.steps if step.live and step.action is Action.TAKE_OUT]
        assert all("off already, before all else" in step.words for step in gone)


def test_where_no_other_wire_comes_the_minus_stays_on():
    shorter = built(pack(), regulator(), rail(), **{"J1 J2": {"length_mm": 60.0}})
    (first,) = compare_crafts(alone(), shorter).todo.first
    assert "unsolder W1" in first
    assert "unsolder W2" not in first


def test_another_fuse_is_metered_in_the_hand():
    """Its holder has the pack's own lead on it: no meter in ohms goes there."""
    found = compare_crafts(fused("20A"), fused("10A"))
    order = order_of_work(found)
    row = next(line for line in order.meter if "F1:1" in line)
    assert "of the new part, in the hand" in row
    told = next(line for line in order.boards if line.startswith("F1:"))
    assert "it beeps" in told
    assert "holder" in told


def over_splices():
    """The pack's leads end in splices, from which two boards are fed."""
    parts = [splice("SP1", "Q"), splice("SP2", "QG")]
    driver = pads("J5", ["Q", "QG"], board="driver", signals="BAT+, BAT-", takes="9-26V 9A")
    return built(pack("Q", "QG"), *parts, driver, regulator("Q", "QG"), rail())


def test_a_splice_is_closed_when_its_last_wire_is_on():
    one, two = alone(), over_splices()
    found = compare_crafts(one, two)
    assert perils(found) == wrongs(one, two, comparison_json(found), found.build.proof.rows) == []
    steps = [step for work in found.work for step in work.steps]
    for place in ("SP1", "SP2"):
        at = [step for step in steps if step.termination == place and not step.of_old]
        joints = [n for n, step in enumerate(at) if step.action is Action.SOLDER]
        tubes = [n for n, step in enumerate(at) if step.action is Action.INSULATE and "heat-shrink" in step.words]
        assert len(tubes) == 1
        assert tubes[0] > joints[-1]
    for n, step in enumerate(steps):
        for row in step.rows:
            if row.look_at and row.test.value == "look":
                place = row.where.termination
                made = [m for m, each in enumerate(steps) if each.action is Action.SOLDER and each.termination == place]
                assert not made or made[-1] < n, (place, step.words)


def test_a_probe_goes_to_the_joint_that_is_made():
    found = compare_crafts(alone(), over_the_driver())
    made = set()
    told = []
    for step in (step for work in found.work for step in work.steps):
        for row in step.rows:
            ends = [end for end in row.ends if end.lead and (end.lead, end.termination) in made]
            told += ["joint" in row.words for end in ends if end.at.value == "bare end"]
        if step.action is Action.SOLDER:
            made.add((step.lead, step.termination))
    assert told
    assert all(told)


def second(reference="J7"):
    own = captive(reference, ["BAT", "GND"], board="spare pack", signals="BAT+, GND", gives="VBAT 45A")
    return built(pack(), own, regulator(), rail())


@pytest.mark.parametrize("way", ["comes", "goes"])
def test_the_cover_over_a_packs_joint_comes_off_for_another_wire_there(way):
    """Its minus stays on, under tape: a hand that solders beside it bares it first, knowing that it is live."""
    old, new = (alone(), second()) if way == "comes" else (second(), alone())
    found = compare_crafts(old, new)
    assert perils(found) == wrongs(old, new, comparison_json(found), found.build.proof.rows) == []
    steps = [step for work in found.work for step in work.steps]
    at = [n for n, step in enumerate(steps) if (step.termination, step.cavity) == ("J2", "2")]
    hands = next(n for n in at if steps[n].action in (Action.SOLDER, Action.LEAVE_OUT))
    assert steps[hands - 1].live
    assert "take the tape off regulator/J2 2, where W2 of pack is" in steps[hands - 1].words
    said = [work.fate.said for work in found.work if work.fate.pack_goes]
    assert said == ([] if way == "comes" else [said[0]])
    assert not any("comes near" in each for each in said)


def test_packs_that_are_joined_are_parted_when_they_go():
    two = [
        captive("J1", ["BAT", "MID"], board="pack", signals="BAT+, GND", gives="1:7-8V 45A", value="half"),
        captive("J7", ["MID", "GND"], board="spare pack", signals="BAT+, GND", gives="1:7-8V 45A", value="half"),
    ]
    found = compare_crafts(built(two, regulator(), rail()), alone())
    steps = [step for work in found.work for step in work.steps]
    (at,) = [n for n, step in enumerate(steps) if "spare pack/J7 lead 1" in step.words and "unsolder" in step.words]
    assert steps[at].live
    assert steps[at + 1].action is Action.INSULATE


def test_a_pack_on_a_boards_own_wires_is_parted_from_it_first():
    def of(*, fuse):
        own = captive("J2", ["FED" if fuse else "BAT", "GND"], board="regulator", signals="BAT+, GND", takes="9-26V 5A")
        more = [two_pin("F1", "BAT", "FED", value="10A")] if fuse else []
        return built(pack(), own, *more)

    found = compare_crafts(of(fuse=False), of(fuse=True))
    (first,) = found.todo.first
    assert "unsolder spare W1 at regulator/J2 1, tape its bare end at once" in first
    words = [step.words for work in found.work for step in work.steps]
    assert not any("does not use it" in each for each in words)  # its minus stays on the pack's


def test_the_cover_of_a_splice_that_goes_is_cut_off_once():
    found = compare_crafts(over_splices(), alone())
    steps = [step for work in found.work for step in work.steps]
    cut = [step for step in steps if step.uncovers and "splice" in step.words]
    first = {step.termination: step for step in reversed(steps) if "SP" in step.termination and step.cavity}
    assert {step.termination for step in cut} <= {"SP1", "SP2"}
    assert all("cut the" in step.words or not step.of_old for step in first.values() if step.action is Action.LEAVE_OUT)
    knife = [line for line in order_of_work(found).tools if line.startswith("sharp knife")]
    assert bool(knife) is bool(cut)


def test_a_sheet_of_the_old_craft_puts_no_label_on():
    """Its number is another wire's now: that one's labels go on at once."""
    old, new = second(), alone()
    order = order_of_work(compare_crafts(old, new))
    made = {work.fate.label for work in order.works if work.fate.new is not None and work.steps}
    for line in order.labels:
        if line.endswith("by its sheet"):
            assert line.split(",")[0] in made


def with_breaker():
    return built(pack(), two_pin("CB1", "BAT", "FED", value="10A"), regulator("FED"), rail())


def two_behind_a_fuse():
    second = captive("J7", ["BAT", "GND"], board="second", signals="BAT+, GND", gives="VBAT 45A")
    fuse = two_pin("F1", "BAT", "FED", value="10A")
    runs = [("J1:1", "SP1:1"), ("J7:1", "SP1:2"), ("SP1:3", "F1:1")]
    joint = plug("SP1", "BAT BAT BAT", kind="splice", names=["~"] * 3)
    return stated(craft(pack(), second, joint, fuse, *regulator("FED"), rail(), settings=SETTINGS, runs=runs), {})


@pytest.mark.parametrize("new", [with_breaker, two_behind_a_fuse])
def test_what_goes_on_from_a_packs_plus_is_done_while_that_is_off(new):
    """The far side of a breaker that may be on, the wire from a splice to the fuse: dead, and before the plus."""
    old, now = fused(), new()
    found = compare_crafts(old, now)
    assert perils(found) == [] and wrongs(old, now, comparison_json(found), found.build.proof.rows) == []
    joints = [
        (found.new.live.get(step.lead), step.lead, step.live)
        for work in found.work
        for step in work.steps
        if step.action is Action.SOLDER
    ]
    plus = {mark for mark in found.new.live if not found.new.is_minus(mark)}
    at = [n for n, (_, mark, _) in enumerate(joints) if mark in plus]
    beyond = [n for n, (_, mark, _) in enumerate(joints) if mark in found.new.reached(plus) - plus]
    assert at and beyond and max(beyond) < min(at) and not any(joints[n][2] for n in beyond)
    assert any("W1" in line and "at F1 1" in line for line in found.todo.first)
    words = [step.words for work in found.work for step in work.steps] + list(found.todo.cautions)
    by_hand = new is with_breaker  # hands rely on no switch: its last joint is through a smoke stopper
    assert any("first power now, through a smoke stopper" in words_of for words_of in words) is by_hand
    assert not any(f"use {where} CB1" in words_of for words_of in words for where in ("in", "into", "out of"))
    taped = {step.termination for work in found.work for step in work.steps if step.words.endswith("off splice SP1")}
    assert taped == ({"SP1"} if new is two_behind_a_fuse else set())


def test_a_cover_under_which_a_wire_stays_is_cut_before_another_comes_to_the_joint():
    """A second load at the far side of the fuse; what stays there lies under heat-shrink."""
    old = fused()
    horn = captive("J8", ["FED", "GND"], board="horn", signals="BAT+, GND", takes="9-26V 1A")
    runs = [("F1:2", "J2:1"), ("F1:2", "J8:1"), ("J1:2", "J2:2")]
    parts = [pack(), two_pin("F1", "BAT", "FED", value="10A"), *regulator("FED"), rail(), horn]
    new = stated(craft(*parts, settings=SETTINGS, runs=runs), {})
    (stays,) = (lead.mark for lead in new.leads if set(lead.ends) == {("F1", "2"), ("J2", "1")})
    steps = [step for work in compare_crafts(old, new).work for step in work.steps if step.termination == "F1"]
    cut = next(
        n for n, step in enumerate(steps) if step.words.startswith(f"LIVE: cut the cover off F1 2, where {stays} ")
    )
    joint = next(n for n, step in enumerate(steps) if step.action is Action.SOLDER)
    cover = next(n for n, step in enumerate(steps) if step.action is Action.INSULATE and n > joint)
    assert cut < joint < cover


def test_a_wire_that_leaves_a_pad_is_off_before_another_is_soldered_there():
    """A driver with its outputs the other way round: each motor's wires go where the other one's are."""

    def made(order):
        motors = [captive(f"M{k}", f"A{k} B{k}", board=f"motor {k}", signals="M+, M-") for k in (1, 2)]
        names = {"A1": "L+", "B1": "L-", "A2": "R+", "B2": "R-"}
        signals = ", ".join(names[net] for net in order)
        return craft(pads("J5", list(order), board="driver", signals=signals), *motors)

    orders = [("A1", "B1", "A2", "B2"), ("B2", "A2", "B1", "A1"), ("A2", "B2", "A1", "B1")]
    for old, new in ((made(a), made(b)) for a in orders for b in orders if a != b):
        found = compare_crafts(old, new)
        assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []
        on = {(key[0], key[1]): mark for mark, made in found.old.made_by_mark.items() for key in made.lead.ends}
        for work in found.work:
            for step in work.steps:
                place = (step.termination, step.cavity)
                if step.action is Action.TAKE_OUT:
                    on.pop(place, None)
                elif step.action is Action.SOLDER:
                    assert place not in on, (work.fate.name, step.words)
                    on[place] = step.lead


def test_no_ground_comes_onto_a_fuse_that_has_the_plus_on_its_other_side():
    """The fuse goes from the pack's plus into its minus: the plus is off it first."""
    in_minus = built(pack(minus="M"), two_pin("F1", "M", "GND", value="10A"), regulator(), rail())
    found = compare_crafts(fused(), in_minus)
    assert wrongs(fused(), in_minus, comparison_json(found), found.build.proof.rows) == []
    line = next(line for line in found.todo.first if "unsolder" in line)
    assert "W1" in line and line.index("at F1 1") < (line.index("at regulator") if "at regulator" in line else 999)


def winch_and(regulator):
    """Behind one fuse a winch on pads and, behind a fuse of its own, a regulator."""
    parts = [two_pin("F1", "BAT", "ON", value="30A"), two_pin("F2", "ON", "REG", value="5A")]
    winch = pads("J5", ["ON", "GND"], board="winch", signals="BAT+, GND", takes="9-26V 9A")
    runs = [("J1:1", "F1:1"), ("F1:2", "SP1:1"), ("SP1:2", "J5:1"), ("SP1:3", "F2:1"), ("F2:2", "J2:1")]
    joint = plug("SP1", "ON ON ON", kind="splice", names=["~"] * 3)
    return stated(craft(pack(), *parts, joint, winch, regulator, settings=SETTINGS, runs=runs), {})


def test_no_fuse_goes_in_for_volts_that_a_winch_would_have():
    """Another end of one branch is made again; the winch is on the other one.  Its volts come at first power."""
    at = {"board": "regulator", "signals": "BAT+, GND", "takes": "9-26V 2A"}
    one = winch_and(plug("J2", ["REG", "GND"], family="JST VH", **at))
    other = winch_and(pads("J2", ["REG", "GND"], **at))
    for old, new in ((one, other), (other, one)):
        assert perils(compare_crafts(old, new)) == []
    words = [step.words for work in compare_crafts(one, other).work for step in work.steps]
    assert any("solder it to regulator/J2 1" in told for told in words)
    assert not any("put the fuse into F1" in told for told in words)


def test_a_soldered_cup_lies_under_heat_shrink():
    """Of a wire that leaves its plug it is cut off first."""
    at = {"board": "driver", "signals": "A, B, C", "family": "amass_mr30"}
    motor = captive("M1", ["A", "B", "C"], board="motor", signals="A, B, C")
    old, new = (craft(plug("J2", nets, **at), motor, settings=SETTINGS) for nets in (["A", "B", "C"], ["A", "C", "B"]))
    steps = [step for work in compare_crafts(old, new).work for step in work.steps if "unsolder" in step.words]
    assert steps and all(step.uncovers and "cut its cover off first" in step.words for step in steps)
