"""What the Values of fuses and capacitors say.  Their forms are common practice, no source."""

from __future__ import annotations

import pytest

from tabside.analysis.current.part_ratings import PartRating, read_rating


@pytest.mark.parametrize(
    ("text", "amps"),
    [
        ("30A", 30),
        ("30 A slow", 30),
        ("T40A", 40),
        ("FF2A", 2),
        ("F500mA", 0.5),
        ("7A5", 7.5),
        ("7.5A", 7.5),
        ("ATO 40", 40),
        ("MINI-7.5", 7.5),
        ("MAXI 80", 80),
        ("40000mA", 40),
        ("2,5A", 2.5),
        ("20A 58V", 20),
        ("Fuse", None),
        ("ATO", None),
        ("Fuse_Small", None),
        ("0287030.PXCN", None),
        ("MINI 32V", None),
        ("A5", None),
    ],
)
def test_amperes(text, amps):
    assert read_rating({}, text).amps == amps


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("470uF 35V", 35),
        ("470u/16V", 16),
        ("470uF_16V", 16),
        ("16V 470uF", 16),
        ("470uF 16WV", 16),
        ("25VDC", 25),
        ("470uF-16V", 16),
        ("1000uF 6.3V", 6.3),
        ("1kV", 1000),
        ("25 VDCW", 25),
        ("C_Polarized", None),
        ("470uF", None),
    ],
)
def test_volts(text, volts):
    assert read_rating({}, text).volts == volts


def test_the_field_outranks_the_value():
    assert read_rating({"Rating": "10A"}, "30A").amps == 10


@pytest.mark.parametrize("text", ["9" * 100_000, f"{'9' * 400}A {'9' * 400}V", f"{'1.' * 50_000}5"])
def test_a_number_without_end_is_no_rating(text):
    """Nor does it take long: minutes, where each of its digits is tried as the first."""
    assert read_rating({"Rating": text}, text) == PartRating(None, None)


@pytest.mark.parametrize(("value", "volts"), [("5V0", 5.0), ("3V3", 3.3), ("BZX84C5V1", 5.1), ("25V47u", None)])
def test_volts_with_their_letter_for_a_point(value, volts):
    assert read_rating({}, value).volts == volts
