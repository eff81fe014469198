"""Packs whose plus and minus meet over grounds of boards.  Circuits are common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.pack_shorted import pack_shorted

LOW = captive("X1", "M G", board="low", signals="+, -", gives="1:3S 20A")
TOP = captive("X2", "P M", board="top", signals="+, -", gives="1:3S 20A")
ESC = pads("TP1", "P G", board="esc", signals="VBAT, GND", takes="18-26V 10A")


def balance(reference, nets, board):
    return captive(reference, nets, board=board, signals="B0, B1, B2, B3")


def test_both_balance_leads_of_packs_in_series_on_one_monitor():
    monitor = plug("J1", "A B C D", board="monitor", family="JST XH", signals="B0, B1, B2, B3")
    (found,) = findings_of(
        pack_shorted, LOW, TOP, ESC, balance("X3", "A B C D", "low"), balance("X4", "A E F H", "top"), monitor
    )
    assert found.severity is Severity.ERROR and found.rule == "role-clash"
    assert "low/X1:1 (+) is connected to its own minus low/X1:2 (-)" in found.message


def monitors(*, isolated=""):
    """One cell monitor with a place for each pack."""
    more = {"isolated": isolated} if isolated else {}
    taps = "B0, B1, B2, B3"
    return (
        balance("X3", "A B C D", "low"),
        balance("X4", "I J K L", "top"),
        plug("J1", "A B C D", board="monitor", family="JST XH", signals=taps),
        plug("J2", "I J K L", board="monitor", family="JST XH", signals=taps, **more),
    )


def test_two_places_of_one_monitor():
    assert findings_of(pack_shorted, LOW, TOP, ESC, *monitors())


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param((LOW, TOP, ESC), id="all boards on the lowest minus"),
        pytest.param((LOW, TOP, ESC, *monitors(isolated="yes")), id="an isolated place"),
        pytest.param(
            (LOW, TOP, ESC, balance("X3", "A B C D", "low"), balance("X4", "I J K L", "top")), id="balance leads apart"
        ),
        pytest.param((LOW, TOP, pads("TP3", "P M G", board="amp", signals="V+, COM, V-")), id="a board on all three"),
        pytest.param((LOW, ESC, two_pin("F1", "P", "M")), id="a single pack"),
    ],
)
def test_quiet(symbols):
    assert not findings_of(pack_shorted, *symbols)
