"""The ports of the open connector guideline, drawn as whole cables: sound ones are quiet, wrong ones are found.

Connector standard DS-009, Rev 0.1.0, 2020 (read in the document): the table of ports.  The board at the far end carries
the same contacts, seen from its own side.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import plug
from crafts.finding_kit import alarms, all_findings
from tabside.facts.families import family
from tabside.facts.ports import port, port_ids
from tabside.model.findings import Severity

_OTHER = {"TX": "RX", "RX": "TX", "CTS": "RTS", "RTS": "CTS", "CONSOLE TX": "CONSOLE RX", "CONSOLE RX": "CONSOLE TX"}
WITH_SUPPLY = [name for name in port_ids() if port(name).gives or port(name).takes]


def seen_from_the_other_side(signals):
    return [_OTHER.get(signal, signal) for signal in signals]


def cable(name, *, order=None, far=None):
    """A cable of a port: `order` names the far contact (from 0) that each contact of the port meets."""
    known = port(name)
    title = family(known.family).title
    order = order or range(len(known.signals))
    nets = [f"N{n}" for n in range(len(known.signals))]
    far_nets = [""] * len(nets)
    for n, other in enumerate(order):
        far_nets[other] = nets[n]
    gives = {"gives": known.gives} if known.gives else {}
    takes = {"takes": known.takes} if known.takes else {}
    opposite = {"takes": known.gives} if known.gives else {"gives": known.takes} if known.takes else {}
    return all_findings(
        plug("J1", nets, board="pilot", family=title, signals=", ".join(known.signals), **gives, **takes),
        plug("J2", far_nets, board="far", family=title, signals=", ".join(far or known.signals), **opposite),
    )


def errors(findings):
    return {each.rule for each in findings if each.severity is Severity.ERROR}


@pytest.mark.parametrize("name", port_ids())
def test_a_straight_cable_to_a_board_of_the_other_side_is_quiet(name):
    far = seen_from_the_other_side(port(name).signals)
    assert alarms(cable(name, far=far)) == []


@pytest.mark.parametrize("name", [name for name in port_ids() if "TX" in port(name).signals])
def test_the_same_port_at_both_ends_does_not_cross_its_lines(name):
    assert "uart-not-crossed" in errors(cable(name))


@pytest.mark.parametrize("name", WITH_SUPPLY)
def test_a_cable_turned_end_for_end_shorts_the_supply(name):
    signals = port(name).signals
    found = cable(name, order=range(len(signals) - 1, -1, -1), far=seen_from_the_other_side(signals))
    assert errors(found), alarms(found)


@pytest.mark.parametrize("name", WITH_SUPPLY)
def test_a_supply_one_contact_off_is_found(name):
    signals = port(name).signals
    order = [(n + 1) % len(signals) for n in range(len(signals))]
    assert errors(cable(name, order=order, far=seen_from_the_other_side(signals)))


@pytest.mark.parametrize(("a", "b"), [("telemetry", "power"), ("gps_basic", "power")])
def test_a_cable_of_one_port_drawn_into_the_power_port_of_equal_ways_is_found(a, b):
    one, other = port(a), port(b)
    nets = [f"N{n}" for n in range(len(one.signals))]
    found = all_findings(
        plug("J1", nets, board="pilot", family="JST GH", signals=", ".join(one.signals), gives=one.gives),
        plug("J2", nets, board="power", family="JST GH", signals=", ".join(other.signals), gives=other.takes),
    )
    assert errors(found)
