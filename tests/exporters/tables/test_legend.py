"""Signs on pages against their standards.

Sources: IEC 60757 as printed in GOST 28763-90 (codes and colours); cross-sections of solid conductors by ASTM B258, as
any AWG table prints them (24 AWG 0.205 mm², 12 AWG 3.31 mm²).
"""

from msgspec.structs import replace

from tabside.facts.colours import colour_legend
from tabside.model.craft import CraftSettings, Lead, SaidBy
from tabside_exporters.tables.legend import gauge_legend, length_legend


def test_colour_codes_are_those_of_the_standard():
    codes = ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "TQ", "GNYE"]
    (line,) = colour_legend(codes)
    said = dict(part.split(" ", 1) for part in line.removeprefix("Colours: ").removesuffix(".").split(", "))
    assert said["BN"] == "brown" and said["BU"].startswith("blue") and said["VT"] == "violet"
    assert said["OG"] == "orange" and said["GY"] == "grey" and said["GNYE"] == "green-and-yellow"
    assert set(said) == set(codes)


def test_a_colour_that_is_none_of_the_standard_is_left_out():
    assert colour_legend(["clear with a stripe", None, ""]) == ()


def test_cross_sections_are_those_of_the_standard():
    (line,) = gauge_legend([24, None, 12, 24])
    assert line.startswith("Conductors: 12 AWG 3.31 mm², 24 AWG 0.205 mm² ")


def test_lengths_from_positions_are_said_to_be_straight_lines():
    lead = Lead("W1", ("J1", "1"), ("J2", "1"), "A", 0, "two contacts", ("J1", "J2"), length_mm=50.0)
    measured = replace(lead, length_said_by=SaidBy.POSITIONS)
    assert length_legend([replace(lead, length_said_by=SaidBy.CRAFT_FILE)], CraftSettings()) == ()
    assert length_legend([lead, measured], CraftSettings(service_loop_mm=20)) == (
        "Lengths from positions are straight lines plus a service loop of 20 mm: measure the real path.",
    )
