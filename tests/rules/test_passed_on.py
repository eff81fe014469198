"""Parts that pass their supply on with the volts that it has.  Names: common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, two_pin
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.passed_on import passed_on

LOAD = pads("TP2", "V G", board="load", signals="VIN, GND", takes="10-17V 5A")


def build(board, signals, cells="12S", load=LOAD, nets="Q G V G", **more):
    return (
        captive("X1", "P G", board="pack", signals="+, -", gives=f"{cells} 20A"),
        two_pin("F1", "P", "Q"),
        pads("TP1", nets, board=board, signals=signals, **more),
        load,
    )


@pytest.mark.parametrize(
    ("board", "signals"),
    [
        ("ideal diode", "IN+, IN-, OUT+, OUT-"),
        ("anti-spark", "VIN, GND, VOUT, GND"),
        ("guard", "B+, B-, P+, P-"),
        ("power module", "IN+, GND, OUT+, GND"),
        ("mppt", "BAT+, BAT-, LOAD+, LOAD-"),
    ],
)
def test_a_pack_of_too_many_cells_comes_through(board, signals):
    (found,) = findings_of(passed_on, *build(board, signals))
    assert (found.rule, found.severity, found.undecided) == ("over-voltage", Severity.WARNING, 1)
    assert "50.4 V" in found.message
    assert not findings_of(passed_on, *build(board, signals, "4S"))


def test_too_few_cells_come_through_as_well():
    (found,) = findings_of(passed_on, *build("switch", "IN+, IN-, OUT+, OUT-", "2S"))
    assert found.rule == "under-voltage"


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param(build("buck", "IN+, IN-, OUT+, OUT-"), id="a converter"),
        pytest.param(build("relay converter", "IN+, IN-, OUT+, OUT-"), id="a converter with a relay"),
        pytest.param(build("ideal diode", "IN+, IN-, OUT+, OUT-", gives="3:12V 5A"), id="it states what it gives"),
        pytest.param(build("ideal diode", "IN+, IN-, OUT+, OUT-", nets="Q G W G"), id="nothing stands behind"),
        pytest.param(
            build("ideal diode", "IN+, IN-, OUT+, OUT-", load=pads("TP2", "V G", board="load", signals="VIN, GND")),
            id="a load that states nothing",
        ),
    ],
)
def test_quiet(symbols):
    assert not findings_of(passed_on, *symbols)
