"""Which contacts of boards meet over leads, splices and in-line parts."""

from __future__ import annotations

from crafts.craft_kit import captive, craft, pads, plug, splice, two_pin
from tabside.analysis.joined.joints import joints_of, runs_of


def pairs(made):
    return [(":".join(joint.a.key), ":".join(joint.b.key), joint.through) for joint in joints_of(made)]


def test_a_lead_joins_two_contacts():
    assert pairs(craft(plug("J1", "A", board="one"), plug("J2", "A", board="two"))) == [("J1:1", "J2:1", ())]


def test_a_fuse_and_a_switch_pass_on():
    made = craft(
        captive("X1", "A", board="pack"),
        two_pin("F1", "A", "B"),
        two_pin("SW1", "B", "C"),
        pads("TP1", "C", board="pilot"),
    )
    ((a, b, through),) = pairs(made)
    assert {a, b} == {"TP1:1", "X1:1"}
    assert set(through) == {"F1", "SW1"}
    (joint,) = joints_of(made)
    assert len(joint.leads) == 3


def test_a_splice_joins_all_of_its_ends():
    made = craft(
        splice("J9", "A"),
        plug("J1", "A", board="one"),
        plug("J2", "A", board="two"),
        plug("J3", "A", board="three"),
    )
    assert [(a, b) for a, b, _ in pairs(made)] == [("J1:1", "J2:1"), ("J1:1", "J3:1"), ("J2:1", "J3:1")]


def test_a_large_splice_names_each_end_at_least_once():
    made = craft(splice("J99", "A"), *[plug(f"J{n}", "A", board=f"board {n}") for n in range(1, 41)])
    found = pairs(made)
    assert {end for pair in found for end in pair[:2]} == {f"J{n}:1" for n in range(1, 41)}
    assert len(found) < 100


def test_a_diode_parts_a_run_only_when_asked():
    made = craft(
        pads("TP1", "A", board="bec", signals="5V"),
        two_pin("D1", "A", "B"),
        pads("TP2", "B", board="pilot", signals="5V"),
    )
    nets = [made.contact((reference, "1")).net_id for reference in ("TP1", "TP2")]
    assert len({runs_of(made)[net] for net in nets}) == 1
    assert len({runs_of(made, but="D")[net] for net in nets}) == 2
