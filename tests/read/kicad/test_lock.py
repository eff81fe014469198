"""KiCad's lock: `~<file>.lck` beside an open file, as KiCad 9.0 on Linux writes it."""

import json

from drawing.drawing_kit import Sheet
from tabside.cli import main
from tabside.read.kicad.lock import is_open_in_kicad


def test_a_lock_beside_the_root_or_a_sheet_says_that_the_drawing_is_open(tmp_path):
    root = tmp_path / "boat.kicad_sch"
    assert not is_open_in_kicad(root, ["boat.kicad_sch", "low/power.kicad_sch"])
    (tmp_path / "low").mkdir()
    (tmp_path / "low" / "~power.kicad_sch.lck").write_text("{}")
    assert is_open_in_kicad(root, ["low/power.kicad_sch"]) and not is_open_in_kicad(root)
    (tmp_path / "~boat.kicad_sch.lck").write_text("{}")
    assert is_open_in_kicad(root) and is_open_in_kicad(str(root))


def test_a_lock_of_another_drawing_does_not(tmp_path):
    (tmp_path / "~other.kicad_sch.lck").write_text("{}")
    (tmp_path / "~boat.kicad_pcb.lck").write_text("{}")
    assert not is_open_in_kicad(tmp_path / "boat.kicad_sch")


def test_the_two_pages_that_a_button_opens_tell_it_and_no_other_document_changes(tmp_path, capsys):
    sheet = Sheet("boat")
    sheet.probes(P1=(0, 0), P2=(4, 0))
    sheet.wire((0, 0), (4, 0))
    root = sheet.write(tmp_path)
    assert main(["export", str(root), "--to", str(tmp_path / "closed"), "--json"]) in (0, 1)
    root.with_name(f"~{root.name}.lck").write_text("{}")
    assert main(["export", str(root), "--to", str(tmp_path / "open")]) in (0, 1)
    capsys.readouterr()
    closed, now = ({p.name: p.read_bytes() for p in (tmp_path / each).iterdir()} for each in ("closed", "open"))
    assert {name for name in closed if closed[name] != now[name]} - {"tabside-manifest.json"} == {
        "findings.html",
        "index.html",
    }
    assert b"This drawing is open in KiCad." in now["findings.html"]
    assert b"This drawing is open in KiCad." not in closed["findings.html"]
    assert json.loads((tmp_path / "open" / "tabside-manifest.json").read_text())
