"""What a meter may read, against published resistances and the maker's contact figures.

Sources, typed by hand: resistance per foot from the wire resistance table of a maker of cable testers (grade B); aged
contact resistance from JST's data sheets (SH 40 mohm, GH 50 mohm); 120 % from a public field-wiring specification
(grade B); maximum resistance of tin-plated wire from FAA AC 43.13-1B, table 11-9.  0.05 ohm: common
practice, no source.
"""

import pytest

from crafts.craft_kit import pads, plug
from crafts.small_craft import small_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.facts.workmanship import figure
from tabside.prove.rows.limits import below_words, limit_notes, limit_of

FOOT_MM = 304.8


def limit(gauge, length, a="JST SH", b="JST SH"):
    ends = [
        pads(reference, ["A"], board=board)
        if family == "pad"
        else plug(reference, ["A"], board=board, **({"family": family} if family else {}))
        for reference, board, family in (("J1", "one", a), ("J2", "two", b))
    ]
    craft = small_craft(*ends, leads={"*": {"gauge_awg": gauge, "length_mm": length}})
    (made,) = how_leads_are_made(craft)
    return limit_of(made)


@pytest.mark.parametrize(
    ("gauge", "feet", "ends", "ohm"),
    [
        pytest.param(28, 1, ("JST SH", "JST SH"), 0.0649 * 1.2 + 2 * 0.040 + 0.05, id="a short signal lead"),
        pytest.param(26, 2, ("JST GH", "JST SH"), 2 * 0.04081 * 1.2 + 0.050 + 0.040 + 0.05, id="two families"),
        pytest.param(24, 5, ("JST SH", "pad"), 5 * 0.02567 * 1.2 + 0.040 + 0.05, id="soldered at one end"),
        pytest.param(14, 3, ("pad", "pad"), 3 * 0.002525 * 1.2 + 0.05, id="soldered at both ends"),
        pytest.param(30, 10, ("JST GH", "JST GH"), 10 * 0.1032 * 1.2 + 2 * 0.050 + 0.05, id="thin and long"),
    ],
)
def test_the_limit_agrees_with_published_resistances(gauge, feet, ends, ohm):
    found = limit(gauge, feet * FOOT_MM, *ends)
    assert ohm <= found.ohm + 0.002 and found.ohm <= ohm + 0.012  # rounded up to a hundredth; tables differ by 0.12 %
    assert found.notes == ()


@pytest.mark.parametrize(
    ("gauge", "ohm_per_1000_ft"),
    [(24, 28.40), (22, 16.20), (20, 9.88), (18, 6.23), (16, 4.81), (14, 3.06), (12, 2.02), (10, 1.26)],
)
@pytest.mark.parametrize("metres", [1, 30, 300])
def test_sound_tinned_aircraft_wire_passes_at_any_length(gauge, ohm_per_1000_ft, metres):
    assert limit(gauge, 1000 * metres, "pad", "pad").ohm >= metres * ohm_per_1000_ft / 1000 / 0.3048


def test_twice_the_resistance_of_a_long_lead_does_not_pass():
    assert limit(28, 10 * FOOT_MM).ohm < 2 * 10 * 0.0649


@pytest.mark.parametrize(
    ("gauge", "length", "said"), [(None, 100, "gauge"), (28, None, "length"), (None, None, "gauge and length")]
)
def test_without_gauge_or_length_there_is_no_limit_and_the_note_says_what_to_do(gauge, length, said):
    found = limit(gauge, length)
    assert found.ohm is None
    assert found.notes == (f"{said} not known: beep only, no limit; compare with the other wires",)


def test_a_contact_that_no_source_knows_is_left_out_and_said():
    found = limit(28, FOOT_MM, "JST ZH", "JST SH")
    assert found.ohm == pytest.approx(0.17)  # 0.0649 x 1.2 + 0.040 + 0.05 = 0.1679
    assert found.notes == ("contact resistance of JST ZH not known, left out",)
    assert limit(28, FOOT_MM, None, "JST SH").notes == (
        "contact resistance of a connector of unknown family not known, left out",
    )


def test_what_a_hobby_meter_cannot_resolve_is_said_as_below_one_ohm():
    assert below_words(0.21) == below_words(1.0) == ", below 1 ohm"
    assert below_words(1.39) == ", at most 1.39 ohm"
    assert below_words(None) == ""


def test_every_figure_of_the_limit_is_said_with_its_source():
    text = " ".join(limit_notes())
    assert "x 1.20 (public field-wiring specification, quoted from the document)" in text
    assert "0.05 ohm for the meter's own leads (common practice, no source)" in text
    assert "from memory" in text and figure("coarse_limit").value == 1
