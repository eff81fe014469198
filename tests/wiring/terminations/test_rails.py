"""`Gives` and `Takes`: what is read, and what is refused."""

import pytest

from tabside.model.roles import Volts
from tabside.wiring.terminations.rails import RailError, read_rails


@pytest.mark.parametrize(
    ("text", "volts", "battery", "max_a", "typical_a", "contact"),
    [
        ("5V 1.5A", (5, 5), False, 1.5, None, None),
        ("7-26V 0.6A typical 0.3A", (7, 26), False, 0.6, 0.3, None),
        ("1:5V 1.5A", (5, 5), False, 1.5, None, "1"),
        ("VBAT 30A", None, True, 30, None, None),
        ("5V 250mA", (5, 5), False, 0.25, None, None),
        ("5 V 250 mA", (5, 5), False, 0.25, None, None),
        ("+3V3", (3.3, 3.3), False, None, None, None),
        ("7..26 V", (7, 26), False, None, None, None),
        ("7 to 26V 1A", (7, 26), False, 1, None, None),
        ("2A", None, False, 2, None, None),
        ("A4: 12V typ 0.2A", (12, 12), False, None, 0.2, "A4"),
        # 3.0 V and 4.2 V for one cell.  Source: guides to lithium packs, grade C (several trade pages agree).
        ("4S", (12, 16.8), True, None, None, None),
        ("2-6S 20A", (6, 25.2), True, 20, None, None),
        ("5V0 1A5", (5, 5), False, 1.5, None, None),
        ("12VDC 2A max", (12, 12), False, 2, None, None),
        ("5V, 2A", (5, 5), False, 2, None, None),
        ("5V/2A", (5, 5), False, 2, None, None),
        ("5V@500mA typical", (5, 5), False, None, 0.5, None),
        ("7,4V 2A", (7.4, 7.4), False, 2, None, None),
        ("OUT+:5V 3A", (5, 5), False, 3, None, "OUT+"),
        ("4S 2000mAh 30A", (12, 16.8), True, 30, None, None),
    ],
)
def test_one_rail_is_read(text, volts, battery, max_a, typical_a, contact):
    (rail,) = read_rails(text)
    assert rail.volts == (Volts(*volts) if volts else None)
    assert (rail.battery, rail.max_a, rail.typical_a, rail.contact) == (battery, max_a, typical_a, contact)


def test_rails_are_parted_by_semicolons_and_keep_their_text():
    assert [rail.text for rail in read_rails("5V 1.5A; 9V  2A;")] == ["5V 1.5A", "9V 2A"]


@pytest.mark.parametrize(
    "text",
    [
        "five volts",
        "5V 1.5A 2A",  # two maxima
        "5V 1,5A",  # a comma is no decimal point, and no separator
        "5V, 9V",
        "5V 1A typical 2A",
        "1:",
        ";",
        "99S",
        "5",
        "5V fast",
        "12V 3",
        "1:5V 2:9V",
    ],
)
def test_what_cannot_be_read_is_refused(text):
    with pytest.raises(RailError):
        read_rails(text)
