"""How links end.  Logic, no source needed."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.end_kind import end_kind

SH, GH = {"family": "JST SH", "board": "one"}, {"family": "JST GH", "board": "two"}


@pytest.mark.parametrize(
    ("symbols", "kind", "making"),
    [
        (
            (plug("J1", "A B", **SH), plug("J2", "A B", **(GH | {"family": "JST SH"}))),
            "connector to connector",
            "ready-made",
        ),
        ((plug("J1", "A B", **SH), plug("J2", "A B", **GH)), "connector to connector", "Assemble"),
        ((plug("J1", "A B", **SH), plug("J2", "A B", board="two")), "connector to connector", "State both"),
        ((plug("J1", "A B", board="one"), plug("J2", "A B", board="two")), "connector to connector", "State both"),
        ((plug("J1", "A B", **SH), pads("TP1", "A B", board="two")), "connector to solder pad", "solder"),
        (
            (pads("TP2", "A B", board="one"), pads("TP1", "A B", board="two")),
            "solder pad to solder pad",
            "solder both ends",
        ),
        (
            (plug("J1", "A B", **SH), captive("X1", "A B", family="JST SH", board="two")),
            "part with its own leads",
            "nothing to make",
        ),
        (
            (plug("J1", "A B", **SH), captive("X1", "A B", family="JST GH", board="two")),
            "part with its own leads",
            "does not fit",
        ),
        ((pads("TP1", "A B", board="one"), captive("X1", "A B", board="two")), "part with its own leads", "solder"),
    ],
)
def test_each_link_has_one_note_with_its_ends(symbols, kind, making):
    found = findings_of(end_kind, *symbols)
    assert [each.severity for each in found] == [Severity.NOTE]
    assert f": {kind} (" in found[0].message
    assert making in found[0].fix
    assert "2 wires" in found[0].message


def test_the_order_is_said_where_both_ends_have_a_row():
    def message(far):
        return findings_of(end_kind, plug("J1", "A B C", **SH), plug("J2", far, **GH))[0].message

    assert message("A B C").endswith("straight.")
    assert message("C B A").endswith("reversed.")
    assert message("C A B").endswith("off by 1 contact.")
    assert message("B A C").endswith("custom order.")
