"""The warning that KiCad 9 and 10 make different nets.  Source: both KiCads on the same file, 9.0.8 and 10.0.7."""

from __future__ import annotations

from drawing.drawing_kit import KICAD_9, Sheet, connector
from tabside.craft_reading import read_craft
from tabside.rules import check_craft


def harness(*names: str, signal: str = "~{RST}") -> Sheet:
    """Two plugs whose contacts 1 meet through a bus with such a member."""
    sheet = Sheet("harness")
    sheet.bus((0, 0), (50.8, 0))
    for k, label in enumerate(names):
        sheet.label("local", label, (2.54 * (k + 1), 0))
    for k, reference in enumerate(("J1", "J2")):
        plug = sheet.place(
            connector(["RST", "GND"]), (25.4, 50.8 + 50.8 * k), reference=reference, fields={"Board": f"board {k}"}
        )
        prefix = names[k].split("{")[0]
        sheet.label("local", f"{prefix}.{signal}", plug.pin(1))
        sheet.label("local", "GND", plug.pin(2))
    return sheet


def found(sheet: Sheet, folder, **reading):
    verdict = check_craft(read_craft(sheet.write(folder, version=KICAD_9), **reading))
    return [finding for finding in verdict.findings if finding.rule == "kicad-differs"]


def test_a_lead_that_only_one_of_them_has_is_told_at_its_contact(tmp_path):
    (finding,) = found(harness("A{~{RST} CLK}", "B{~{RST} CLK}"), tmp_path)
    assert finding.severity.value == "warning"
    assert "KiCad 9: J1:1, J2:1 each alone. KiCad 10: J1:1, J2:1 on /A.~{RST}." in finding.message
    (where,) = finding.where
    assert (where.board, where.termination, where.contact) == ("board 0", "J1", "1")
    assert "--kicad 9" in finding.fix


def test_the_leads_are_those_of_the_kicad_that_counts(tmp_path):
    root = harness("A{~{RST} CLK}", "B{~{RST} CLK}").write(tmp_path, version=KICAD_9)
    assert len(read_craft(root, kicad=9).leads) == 1  # ground
    assert len(read_craft(root, kicad=10).leads) == 2


def test_plain_names_are_quiet(tmp_path):
    assert found(harness("A{RST CLK}", "B{RST CLK}", signal="RST"), tmp_path) == []


def test_many_of_them_are_counted_in_the_last_one(tmp_path):
    sheet = harness("A{~{RST} CLK}", "B{~{RST} CLK}")
    for k in range(20):
        for reference in (f"P{k}", f"Q{k}"):
            sheet.place(connector(["A"]), (127, 50.8 + 12.7 * k), reference=reference, instances=False, value="x")
    told = found(sheet, tmp_path)
    assert len(told) == 12
    assert "9 more of this kind" in told[-1].message
