"""Two wires of a motor swapped turn it the other way: said where the work is, and looked at, since no meter tells it.

Common practice, no source: the order of three phases sets the direction of a motor and nothing else.
"""

from __future__ import annotations

from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json

NAMES = "PHASE_A, PHASE_B, PHASE_C"


def driven(order, *, value="", board="driver"):
    return craft(
        pads("J2", "A B C", board=board, signals=NAMES),
        captive("J3", order, board="motor", signals=NAMES, value=value),
    )


def told(old, new):
    found = compare_crafts(old, new)
    answer = comparison_json(found)
    assert wrongs(old, new, answer, found.build.proof.rows) == []
    (port,) = (change.bench for change in found.changes if change.subject == "setting")
    return port, [step["words"] for cable in answer["cables"] for step in cable["steps"]]


def test_two_swapped_turn_it_the_other_way_and_are_looked_at():
    port, words = told(driven("A B C"), driven("A C B"))
    assert port.startswith("Its motor turns the other way now") and "propeller off" in port
    (look,) = (each for each in words if each.startswith("look at driver/J2: "))
    assert look.startswith("look at driver/J2: W2 on 2 and W3 on 3; no meter")


def test_all_three_that_go_on_by_one_leave_the_direction():
    port, words = told(driven("A B C"), driven("B C A"))
    assert port.startswith("Its motor turns the same way as before")
    assert any(each.startswith("look at driver/J2: W1 on 1, W2 on 2 and W3 on 3") for each in words)


def test_of_another_motor_nobody_knows():
    port, _ = told(driven("A B C", value="700"), driven("A C B", value="900"))
    assert port.startswith("Which way its motor turns is not known before it runs")


def test_another_number_of_a_wire_turns_nothing():
    assert compare_crafts(driven("A B C"), driven("A B C")).same


def test_they_are_looked_at_in_a_crimped_plug_as_well():
    """Contacts that change cavities, where no joint is made."""

    def in_a_plug(order):
        motor = captive("J3", order, board="motor", signals=NAMES)
        return craft(plug("J2", "A B C", board="driver", signals=NAMES, family="JST VH"), motor)

    _, words = told(in_a_plug("A B C"), in_a_plug("A C B"))
    (look,) = (each for each in words if each.startswith("look at driver/J2: "))
    assert look.startswith("look at driver/J2: W2 on 2 and W3 on 3; no meter")
    assert words.index(look) < words.index("plug the cable into driver/J2")
