"""Gauge, colour, length and pair of leads: what says them, and what outranks what."""

import pytest

from crafts.craft_kit import craft, note, plug, splice
from tabside.model.craft import CraftSettings


def two(*notes, settings=None, **more):
    return craft(
        plug("J1", "a b", board="pilot"), plug("J2", "a b", board="radio"), notes=notes, settings=settings, **more
    )


def lead(made, end="J1:1"):
    reference, number = end.split(":")
    return next(each for each in made.leads if (reference, number) in each.ends)


def test_a_note_on_the_wire_speaks_of_that_lead_only():
    made = two(note("J1:1 J2:1", gauge="24 AWG", colour="red", length="85 mm", pair="P1"))
    found = lead(made)
    assert (found.gauge_awg, found.gauge_said_by, found.colour, found.length_mm, found.length_said_by, found.pair) == (
        24,
        "drawing",
        "RD",
        85.0,
        "drawing",
        "P1",
    )
    assert (lead(made, "J1:2").gauge_awg, lead(made, "J1:2").colour) == (None, None)


def test_a_note_at_one_end_is_enough():
    assert lead(two(note("J2:1", gauge=26))).gauge_awg == 26


def test_the_nearer_note_outranks():
    made = craft(
        plug("J1", "V", signals="5V"),
        plug("J2", "V", signals="5V"),
        plug("J3", "V", signals="5V"),
        splice("X1", "V"),
        notes=[note("J1:1 X1:1", gauge=20), note("J2:1", gauge=24)],
    )
    assert {each.a[0]: each.gauge_awg for each in made.leads} == {"J1": 20, "J2": 24, "J3": None}


@pytest.mark.parametrize(("text", "awg"), [("24", 24), ("24 AWG", 24), ("AWG24", 24), ("#22", 22), ("0", 0)])
def test_gauges(text, awg):
    made = two(note("J1:1 J2:1", gauge=text))
    assert lead(made).gauge_awg == awg and not made.oddities


# Areas are those of IEC 60228, the sizes beside them those that the trade prints for them: from memory, unverified.
@pytest.mark.parametrize(
    ("text", "awg"),
    [("0.25 mm²", 24), ("1.5mm2", 16), ("2,5 mm^2", 14), ("0.08 mm2", 28), ("0.14 sq mm", 26), ("10 qmm", 8)],
)
def test_gauges_by_area(text, awg):
    made = two(note("J1:1 J2:1", gauge=text))
    assert lead(made).gauge_awg == awg and not made.oddities


@pytest.mark.parametrize(("text", "mm"), [("85", 85), ("85mm", 85), ("8.5 cm", 85), ("0.085 m", 85)])
def test_lengths(text, mm):
    assert lead(two(note("J1:1 J2:1", length=text))).length_mm == pytest.approx(mm)


@pytest.mark.parametrize(
    "fields",
    [
        {"gauge": "0.25 mm"},
        {"gauge": "500 mm²"},
        {"gauge": "99"},
        {"length": "long"},
        {"length": "0"},
        {"length": "-5"},
    ],
)
def test_what_cannot_be_read_is_told(fields):
    made = two(note("J1:1 J2:1", **fields))
    assert [each.what for each in made.oddities] == ["field"]
    assert (lead(made).gauge_awg, lead(made).length_mm) == (None, None)


def test_two_gauges_for_one_lead_are_told_and_the_thicker_counts():
    made = two(note("J1:1 J2:1", gauge=24), note("J1:1 J2:1", gauge=20))
    assert lead(made).gauge_awg == 20
    assert [each.what for each in made.oddities] == ["field"]


def test_the_same_gauge_twice_is_quiet():
    assert not two(note("J1:1 J2:1", gauge=24), note("J1:1", gauge="AWG 24")).oddities


def test_the_default_gauge_fills_what_the_drawing_leaves_open():
    made = two(note("J1:1 J2:1", gauge=24), settings=CraftSettings(gauge_awg=28))
    assert (lead(made).gauge_awg, lead(made).gauge_said_by) == (24, "drawing")
    assert (lead(made, "J1:2").gauge_awg, lead(made, "J1:2").gauge_said_by) == (28, "craft file")


def test_lengths_come_from_the_drawing_then_the_craft_file_then_positions():
    settings = CraftSettings(
        at_mm={"pilot": (0.0, 0.0, 0.0), "radio": (30.0, 40.0, 0.0), "lamp": (0.0, 0.0, 12.0)},
        lengths_mm={("J1", "J2"): 70.0},
        service_loop_mm=15.0,
    )
    made = craft(
        plug("J1", "a b c", board="pilot"),
        plug("J2", "a b", board="radio"),
        plug("J3", "c", board="lamp"),
        notes=[note("J1:1 J2:1", length=60), note("J1:1", length=65), note("J1:1 J2:1", length=62)],
        settings=settings,
    )
    # Of several lengths in the drawing the longest counts, but the nearest notes first: 65 reaches one end only.
    assert [(each.length_mm, each.length_said_by) for each in made.leads] == [
        (62.0, "drawing"),
        (70.0, "craft file"),
        (12.0 + 15.0, "positions"),
    ]


def test_the_straight_distance_gets_a_service_loop():
    settings = CraftSettings(at_mm={"pilot": (0.0, 0.0, 0.0), "radio": (30.0, 40.0, 0.0)}, service_loop_mm=10.0)
    assert lead(two(settings=settings)).length_mm == pytest.approx(50 + 10)


def test_an_unknown_length_stays_unknown():
    made = two(settings=CraftSettings(at_mm={"pilot": (0.0, 0.0, 0.0)}))
    assert (lead(made).length_mm, lead(made).length_said_by) == (None, "")


def test_a_field_of_a_wire_with_a_letter_wrong_is_told():
    made = two(note("J1:1 J2:1", gage=20, lenght="85"), note("J1:2 J2:2", gauge=20, color="red", signal="x", note="y"))
    assert lead(made).gauge_awg is None
    assert [(each.what, "Gauge" in each.message, "Length" in each.message) for each in made.oddities] == [
        ("field-name", True, False),
        ("field-name", False, True),
    ]


def test_what_else_a_wires_gauge_and_length_are_called_is_told():
    made = two(note("J1:1 J2:1", AWG=26), note("J1:2 J2:2", Wire_gauge=26, Cable_length=85))
    meant = [each.message.partition("; ")[2].split()[0] for each in made.oddities]
    assert sorted(meant) == ["Gauge", "Gauge", "Length"]
