"""Pull-ups and cables of I2C.  Figures: NXP UM10204 rev 5 section 7.1 and a maker's note on it (read)."""

from __future__ import annotations

import pytest

from crafts.craft_kit import pads, plug, power, two_pin
from crafts.finding_kit import alarms, all_findings, findings_of
from tabside.model.craft import CraftSettings
from tabside.rules.i2c_bus import i2c_bus


def bus(*pull_ups, metres=0.3, boards=2, volts="3V3"):
    symbols = [
        pads("TP1", "P G C D", board="pilot", signals=f"{volts}, GND, SCL, SDA", leads_max=8),
        *[
            pads(f"TP{n + 2}", "P G C D", board=f"sensor {n}", signals=f"{volts}, GND, SCL, SDA")
            for n in range(boards - 1)
        ],
    ]
    for n, value in enumerate(pull_ups):
        symbols += [two_pin(f"R{2 * n + 1}", "P", "C", value=value), two_pin(f"R{2 * n + 2}", "P", "D", value=value)]
    ends = [symbol.reference for symbol in symbols]
    lengths = {(a, b): metres * 1000 for a in ends for b in ends if a != b}
    return symbols, CraftSettings(lengths_mm=lengths)


def said(*pull_ups, **more):
    symbols, settings = bus(*pull_ups, **more)
    return findings_of(i2c_bus, *symbols, settings=settings)


@pytest.mark.parametrize(
    ("pull_ups", "more", "found"),
    [
        (["4k7"], {}, 0),
        (["1k5"], {}, 0),  # (3.3 - 0.4) V / 3 mA = 967 ohm
        (["470"], {}, 1),
        (["2k2", "2k2", "2k2", "2k2"], {"boards": 4}, 1),  # each board its own: 550 ohm together
        (["1k5"], {"volts": "5V"}, 0),  # 1533 ohm, within 10 %
        (["1k"], {"volts": "5V"}, 1),
        ([], {}, 0),
        ([], {"metres": 3.0}, 0),  # 190 pF at least
        ([], {"metres": 8.0}, 1),  # 440 pF at least
        (["4k7"], {"metres": 3.0}, 0),
        (["22k"], {"metres": 3.0}, 1),  # 1000 ns / (0.8473 x 190 pF) = 6.2 kohm
        (["10k"], {"metres": 0.3}, 0),
    ],
)
def test_what_the_bus_does_not_stand_is_a_warning(pull_ups, more, found):
    assert len(said(*pull_ups, **more)) == found


def test_what_is_wrong_and_what_to_do_stand_in_their_places():
    (few,), (long,), (slow,) = said("470"), said(metres=8.0), said("22k", metres=3.0)
    assert "are 470 ohm together" in few.message and few.fix.startswith("Take larger resistors")
    assert "have at least 440 pF, limit 400 pF" in long.message and long.fix.startswith("Shorten the cable")
    assert "22000 ohm together, too slow" in slow.message and slow.fix.startswith("Take smaller resistors")


def test_lengths_that_are_not_known_are_no_alarm():
    symbols, _ = bus("22k")
    assert not findings_of(i2c_bus, *symbols)


def test_a_sound_bus_is_quiet_in_the_whole_check():
    symbols, settings = bus("4k7")
    assert alarms(all_findings(*symbols, power("GND"), settings=settings)) == []


def test_can_stubs():
    """Three boards off one splice: the two longest branches are the line, the third is a stub of 1.67 m at most."""

    def found(metres):
        boards = [
            pads(f"TP{n}", "V G H L", board=f"node {n}", signals="VCC, GND, CAN_H, CAN_L", leads_max=4)
            for n in (1, 2, 3)
        ]
        splices = [plug(f"SP{net}", [net], kind="splice") for net in "HL"]
        lengths = {}
        for net in "HL":
            lengths |= {(f"SP{net}", "TP1"): 3000.0, (f"SP{net}", "TP2"): 3000.0, (f"SP{net}", "TP3"): metres * 1000}
        ends = [two_pin("R1", "H", "L", value="120R"), two_pin("R2", "H", "L", value="120R")]
        return [
            each
            for each in all_findings(*boards, *splices, *ends, settings=CraftSettings(lengths_mm=lengths))
            if "long stubs" in each.message
        ]

    assert not found(1.6)
    (stub,) = found(1.8)
    assert "node 3 (1.8 m)" in stub.message and stub.rule == "terminator"


def test_a_stub_is_as_long_as_the_way_to_its_end():
    """Node 3 hangs off the middle of the line and passes it on to node 4: one stub of 0.5 and 1.3 m."""
    signals = {"signals": "VCC, GND, CAN_H, CAN_L", "leads_max": 4}
    boards = [pads(f"TP{n}", "V G H L", board=f"node {n}", **signals) for n in (1, 2, 3, 4)]
    splices = [plug(f"SP{net}", [net], kind="splice") for net in "HL"]
    lengths = {("TP3", "TP4"): 1300.0}
    runs = []
    for net, contact in (("H", 3), ("L", 4)):
        lengths |= {(f"SP{net}", f"TP{n}"): metres * 1000 for n, metres in ((1, 3.0), (2, 3.0), (3, 0.5))}
        runs += [(f"SP{net}:1", f"TP{n}:{contact}") for n in (1, 2, 3)] + [(f"TP3:{contact}", f"TP4:{contact}")]
    ends = [two_pin("R1", "H", "L", value="120R"), two_pin("R2", "H", "L", value="120R")]
    settings = CraftSettings(lengths_mm=lengths)
    found = all_findings(*boards, *splices, *ends, settings=settings, runs=runs)
    (stub,) = [each for each in found if "long stubs" in each.message]
    assert "node 4 (1.8 m)" in stub.message and "node 3 (" not in stub.message
