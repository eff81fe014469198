"""Stamping: the marks come into the drawing's fields, and nothing else changes; else nothing changes at all."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest
import skip

import tabside.stamping.stamping as inner
from drawing.drawing_kit import KICAD_6, KICAD_7, KICAD_8, KICAD_9, KICAD_10, Sheet, connector, multi_unit, two_pin
from drawing.drawing_symbols import Pin
from drawing.drawn_crafts import craft_drawing, empty, join, termination
from fixture_kit import BOAT_B, FLAT, ROOTS, SHEETS, name_of
from programs.kicad_oracle import kicad_netlist
from programs.tabside_command import answered
from slow_cases import slow
from tabside import files_together
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.files import read_file
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json
from tabside.rules import check_craft
from tabside.stamping import stamp


def copied(root: Path, to: Path) -> Path:
    shutil.copytree(root.parent, to / "craft")
    boards = root.parent.parent / "boards"
    if boards.is_dir():
        shutil.copytree(boards, to / "boards")
    return to / "craft" / root.name


def everything(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def small(**more):
    return craft_drawing(
        {
            "pilot": [termination("J1", "5V TX RX GND", family="JST SH", gives="5V 1A", **more)],
            "radio": [termination("J2", "5V RX TX GND", family="JST SH", takes="5V 0.2A")],
        },
        [join(f"J1:{n} J2:{n}") for n in range(1, 5)],
    )


def fields(root: Path) -> dict[str, tuple[str, str]]:
    """Cable mark and lead marks of each termination that has one of them."""
    found = {}
    for symbol in read_drawing(root).symbols:
        said = (symbol.fields.get("Cable mark", ""), symbol.fields.get("Lead marks", ""))
        if any(said):
            found[symbol.reference] = said
    return found


@pytest.mark.parametrize("root", [*ROOTS[:2], *slow(ROOTS[2:])], ids=name_of)
def test_only_lines_with_marks_come_in(root, tmp_path):
    copy = copied(root, tmp_path)
    before = everything(copy.parent)
    craft = read_craft(copy)
    stamped = stamp(copy)
    after = everything(copy.parent)
    assert before.keys() == after.keys()  # no file of ours is left
    assert {name for name in before if before[name] != after[name]} == set(stamped.files) and stamped.files
    for name in stamped.files:
        old, new = before[name].decode().splitlines(), iter(after[name].decode().splitlines())
        assert all(line in new for line in old)  # every old line is there, in its order
    if not stamped.not_stamped:
        assert read_craft(copy).leads == craft.leads
    assert [c.mark for c in read_craft(copy).cables] == [c.mark for c in craft.cables]
    assert not stamped.unconfirmed


@pytest.mark.slow
@pytest.mark.parametrize("root", ROOTS, ids=name_of)
def test_a_second_time_changes_nothing(root, tmp_path):
    copy = copied(root, tmp_path)
    stamp(copy)
    before = everything(copy.parent)
    again = stamp(copy)
    assert (again.files, again.changed) == ((), ())
    assert everything(copy.parent) == before


@pytest.mark.slow
@pytest.mark.kicad
@pytest.mark.parametrize("root", [*ROOTS[:2], *slow(ROOTS[2:])], ids=name_of)
def test_kicads_netlist_stays_as_it_was(root, tmp_path):
    copy = copied(root, tmp_path)
    before = kicad_netlist(copy)
    stamp(copy)
    after = kicad_netlist(copy)
    assert after.nets == before.nets
    ours = ("Cable mark", "Lead marks")
    others = {name: {k: v for k, v in part.items() if k not in ours} for name, part in after.parts.items()}
    assert others == before.parts
    assert any(part.get("Lead marks") for part in after.parts.values())


@pytest.mark.kicad("cli", "demos")
@pytest.mark.parametrize("project", ["complex_hierarchy", "pic_programmer", "kit-dev-coldfire-xilinx_5213", "video"])
def test_kicads_own_demos_keep_their_netlists(project, kicad_demos, tmp_path):
    (root,) = [each for each in kicad_demos if each.parent.name == project]
    copy = copied(root, tmp_path)
    before = kicad_netlist(copy, mend=False)
    stamped = stamp(copy)
    assert stamped.files
    assert kicad_netlist(copy, mend=False).nets == before.nets
    assert not stamp(copy).files


@pytest.mark.kicad
@pytest.mark.parametrize("version", [KICAD_6, KICAD_9, *slow([KICAD_7, KICAD_8])])
def test_files_of_every_version_stay_readable_for_kicad(version, tmp_path):
    root = small().write(tmp_path, version=version)
    before = kicad_netlist(root)
    stamp(root)
    after = kicad_netlist(root)
    assert after.nets == before.nets
    assert after.parts["J2"]["Lead marks"] == "1:W1 2:W2 3:W3 4:W4"


def test_a_file_of_kicad_10_is_stamped(tmp_path):
    root = small().write(tmp_path, version=KICAD_10)
    stamp(root)
    assert fields(root)["J1"] == ("C1", "1:W1 2:W2 3:W3 4:W4")


def test_marks_stay_when_the_drawing_grows(tmp_path):
    root = small().write(tmp_path)
    stamp(root)
    text = root.read_text(encoding="utf-8")
    grown = craft_drawing(
        {
            "eye": [termination("J0", "5V GND", family="JST GH")],
            "pilot": [termination("J1", "5V TX RX GND", family="JST SH", **{"Lead marks": "1:W1 2:W2 3:W3 4:W4"})],
            "radio": [
                termination("J2", "5V RX TX GND", family="JST SH", **{"Cable mark": "C1"}),
                termination("J3", "5V GND", family="JST GH"),
            ],
        },
        [join(f"J1:{n} J2:{n}") for n in range(1, 5)] + [join("J0:1 J3:1"), join("J0:2 J3:2")],
    ).write(tmp_path / "grown")
    assert "1:W1 2:W2 3:W3 4:W4" in text
    leads = {lead.mark: lead.link for lead in read_craft(grown).leads}
    assert [leads[f"W{n}"] for n in range(1, 7)] == [("J1", "J2")] * 4 + [("J0", "J3")] * 2
    assert {cable.mark: cable.ends for cable in read_craft(grown).cables} == {"C1": ("J1", "J2"), "C2": ("J0", "J3")}


def test_a_mark_that_belongs_to_nothing_any_more_is_emptied(tmp_path):
    sheet = craft_drawing(
        {
            "pilot": [termination("J1", "TX GND", family="JST SH", **{"Cable mark": "C4", "Lead marks": "1:W9 2:W8"})],
            "radio": [termination("J2", "RX GND", family="JST SH")],
        },
        [join("J1:2 J2:2"), empty("J1:1"), empty("J2:1")],
    )
    root = sheet.write(tmp_path)
    stamp(root)
    assert fields(root) == {"J1": ("C4", "2:W8"), "J2": ("C4", "2:W8")}


def test_a_field_under_another_spelling_is_used(tmp_path):
    root = small(**{"CABLE  MARK": "C7"}).write(tmp_path)
    stamp(root)
    text = root.read_text(encoding="utf-8")
    assert '"CABLE  MARK" "C7"' in text and text.count('"Cable mark" "C7"') == 1


def test_a_pad_with_several_leads_names_them_all(tmp_path):
    root = craft_drawing(
        {
            "hub": [termination("P1", "GND", kind="pad")],
            "a": [termination("J1", "GND DATA", family="JST SH")],
            "b": [termination("J2", "GND DATA", family="JST SH")],
        },
        [join("P1:1 J1:1 J2:1"), join("J1:2 J2:2")],
    ).write(tmp_path)
    stamp(root)
    said = fields(root)
    marks = {lead.ends: lead.mark for lead in read_craft(root).leads}
    at_pad = [mark for ends, mark in marks.items() if ("P1", "1") in ends]
    assert said["P1"] == ("", " ".join(f"1:{mark}" for mark in at_pad)) and at_pad


def test_a_sheet_that_is_used_twice_is_not_stamped(tmp_path):
    copy = copied(SHEETS, tmp_path)
    stamped = stamp(copy)
    assert {said.termination for said in stamped.not_stamped} == {"J24", "J25", "J26", "J27"}
    assert all("motor.kicad_sch is used more than once" in said.why for said in stamped.not_stamped)
    assert "motor.kicad_sch" not in stamped.files
    assert not set(fields(copy)) & {"J24", "J25", "J26", "J27"}
    old, new = ({lead.ends: lead.mark for lead in read_craft(each).leads} for each in (SHEETS, copy))
    assert old.keys() == new.keys()
    motors = {"J24", "J25", "J26", "J27"}
    for ends, mark in new.items():
        assert mark == old[ends] or {end[0] for end in ends} & motors
    stamp(copy)
    assert {lead.ends: lead.mark for lead in read_craft(copy).leads} == new  # from now on they stay


def test_an_open_drawing_is_refused(tmp_path):
    copy = copied(SHEETS, tmp_path)
    lock = copy.with_name("~video.kicad_sch.lck")
    lock.write_text('{"hostname":"bench","username":"me"}', encoding="utf-8")
    before = everything(copy.parent)
    with pytest.raises(TabsideError, match="open in KiCad") as told:
        stamp(copy)
    assert told.value.file == str(lock)
    assert everything(copy.parent) == before


def test_a_dry_run_changes_nothing(tmp_path):
    copy = copied(FLAT, tmp_path)
    before = everything(copy.parent)
    assert stamp(copy, dry_run=True).files == (copy.name,)
    assert everything(copy.parent) == before


def test_the_old_files_come_back_when_the_new_ones_cannot_be_proven(tmp_path, monkeypatch):
    copy = copied(SHEETS, tmp_path)
    before = everything(copy.parent)
    seen = []

    def doubt(*_):
        seen.extend(path.name for path in copy.parent.glob(".*.stamping"))
        raise TabsideError("cannot be proven")

    monkeypatch.setattr(inner, "_prove", doubt)
    with pytest.raises(TabsideError, match="cannot be proven"):
        stamp(copy)
    assert seen == [f".{copy.name}.stamping"]  # the old files lay in the journal all the while
    assert everything(copy.parent) == before


def test_the_old_files_come_back_when_one_cannot_be_written(tmp_path, monkeypatch):
    copy = copied(SHEETS, tmp_path)
    before = everything(copy.parent)
    write, written = files_together.replace_file, []

    def full_disk(path, content):
        if len(written) == 2 and content not in before.values():
            raise OSError(28, "No space left on device")
        written.append(path)
        write(path, content)

    monkeypatch.setattr(files_together, "replace_file", full_disk)
    with pytest.raises(TabsideError, match="no space left on device; nothing was changed"):
        stamp(copy)
    assert len(written) > 2
    assert everything(copy.parent) == before


def test_a_save_between_reading_and_replacing_is_not_lost(tmp_path, monkeypatch):
    copy = copied(FLAT, tmp_path)
    made = inner._new_file

    def slow(*arguments):
        new = made(*arguments)
        copy.write_text(copy.read_text(encoding="utf-8").replace("Wispel", "Dispel"), encoding="utf-8")
        return new

    monkeypatch.setattr(inner, "_new_file", slow)
    with pytest.raises(TabsideError, match="was changed meanwhile"):
        stamp(copy)
    assert "Dispel" in copy.read_text(encoding="utf-8") and "Cable mark" not in copy.read_text(encoding="utf-8")
    assert not list(tmp_path.rglob(".*.stamping"))


def test_the_old_file_comes_back_though_somebody_took_the_journal(tmp_path, monkeypatch):
    copy = copied(FLAT, tmp_path)
    before = everything(copy.parent)

    def doubt(*_):
        copy.with_name(f".{copy.name}.stamping").unlink()
        raise TabsideError("cannot be proven")

    monkeypatch.setattr(inner, "_prove", doubt)
    with pytest.raises(TabsideError, match="cannot be proven"):
        stamp(copy)
    assert everything(copy.parent) == before


def test_a_copied_symbol_is_refused_and_named(tmp_path):
    marks = {"Lead marks": "1:W1 2:W2 3:W3 4:W4", "Cable mark": "C1"}
    root = craft_drawing(
        {
            "pilot": [termination("J1", "5V TX RX GND", family="JST SH", **marks)],
            "radio": [termination("J2", "5V RX TX GND", family="JST SH", **marks)],
            "lamp": [termination("J3", "5V RX TX GND", family="JST SH", **marks)],
        },
        [join(f"J1:{n} J2:{n}") for n in range(1, 5)] + [empty(f"J3:{n}") for n in range(1, 5)],
    ).write(tmp_path)
    before = everything(tmp_path)
    with pytest.raises(TabsideError, match="W1 is stamped at J1:1, J2:1, J3:1: a symbol was copied"):
        stamp(root)
    assert everything(tmp_path) == before


def test_plugs_that_changed_their_partners_are_numbered_anew(tmp_path):
    def drawn(joins, said=None):
        boards = {
            f"b{n}": [termination(f"J{n}", "DATA GND", family="JST SH", **(said or {}).get(f"J{n}", {}))]
            for n in range(1, 5)
        }
        return craft_drawing(boards, [join(each) for each in joins]).write(tmp_path)

    root = drawn(["J1:1 J2:1", "J1:2 J2:2", "J3:1 J4:1", "J3:2 J4:2"])
    stamp(root)
    said = {name: {"Cable mark": c, "Lead marks": w} for name, (c, w) in fields(root).items()}
    root = drawn(["J1:1 J3:1", "J1:2 J3:2", "J2:1 J4:1", "J2:2 J4:2"], said)
    warned = [f for f in check_craft(read_craft(root)).findings if f.rule == "field-unclear"]
    assert [f.severity.value for f in warned] == ["warning", "warning"]
    assert stamp(root).gone == ("C1", "C2", "W1", "W2", "W3", "W4")
    assert fields(root)["J1"] == ("C3", "1:W5 2:W6") and fields(root)["J4"] == ("C4", "1:W7 2:W8")


def test_a_number_that_was_given_up_is_told_and_not_given_again(tmp_path):
    def drawn(joins, **marks):
        return craft_drawing(
            {
                "a": [termination("J1", "TX RX GND", family="JST SH", **marks)],
                "b": [termination("J2", "RX TX GND", family="JST SH", **marks)],
            },
            joins,
        ).write(tmp_path)

    root = drawn([join("J1:1 J2:1"), join("J1:2 J2:2"), join("J1:3 J2:3")])
    stamp(root)
    said = {"Lead marks": fields(root)["J1"][1], "Cable mark": "C1"}
    root = drawn([join("J1:1 J2:2"), join("J1:2 J2:1"), join("J1:3 J2:3")], **said)  # two leads are crossed
    stamped = stamp(root)
    assert stamped.gone == ("W1", "W2")
    assert fields(root)["J1"] == ("C1", "1:W4 2:W5 3:W3")


def test_a_writer_that_changes_more_is_refused(tmp_path, monkeypatch):
    copy = copied(FLAT, tmp_path)
    before = everything(copy.parent)

    def sloppy(source, target, symbols, version):
        schematic = skip.Schematic(source)
        schematic.symbol[0].property.Value.value = "something else"
        schematic.write(target)
        return True

    monkeypatch.setattr(inner, "write_with_skip", sloppy)
    monkeypatch.setattr(inner, "text_in_place", lambda text, symbols, version: text.replace("JST", "Jst"))
    with pytest.raises(TabsideError, match="more than the numbers would change"):
        stamp(copy)
    assert everything(copy.parent) == before


def test_kicad_skips_file_serves_where_the_layout_is_not_followed(tmp_path, monkeypatch):
    copy = copied(FLAT, tmp_path)
    monkeypatch.setattr(inner, "text_in_place", lambda *_: None)
    assert stamp(copy).files
    assert nets_json(read_drawing(copy)) == nets_json(read_drawing(FLAT))
    assert read_craft(copy).leads == read_craft(FLAT).leads


@pytest.mark.parametrize("words", ["the harness (wired as per sheet 2)", "(symbol x", "(text"])
def test_a_text_that_kicad_skip_breaks_is_written_in_place(words, tmp_path):
    sheet = small()
    sheet.text(words, (20.0, 20.0))
    root = sheet.write(tmp_path)
    stamped = stamp(root)
    assert stamped.unconfirmed == (root.name,)
    assert words in root.read_text(encoding="utf-8")
    assert fields(root)["J1"] == ("C1", "1:W1 2:W2 3:W3 4:W4")


def test_a_unit_that_kicad_skip_cannot_load_is_no_obstacle(tmp_path):
    sheet = small()
    units = multi_unit([[Pin(str(n), (0.0, 0.0), "")] for n in range(1, 14)], name="many")
    for unit in range(1, 14):
        sheet.place(units, (250.0, 10.0 * unit), reference="U1", unit=unit)
    root = sheet.write(tmp_path)
    assert stamp(root).unconfirmed == (root.name,)
    assert fields(root)["J2"] == ("C1", "1:W1 2:W2 3:W3 4:W4")


def test_every_unit_of_a_termination_gets_the_same_fields(tmp_path):
    sheet = Sheet("units")
    halves = multi_unit([[Pin("1", (0.0, 0.0), "TX")], [Pin("2", (0.0, 0.0), "GND")]], name="h", prefix="J")
    first = sheet.place(halves, (50.8, 50.8), reference="J1", unit=1)
    second = sheet.place(halves, (50.8, 76.2), reference="J1", unit=2)
    other = sheet.place(connector(["RX", "GND"]), (101.6, 50.8), reference="J2")
    sheet.wire(first.pin("1"), other.pin("1"))
    sheet.wire(second.pin("2"), other.pin("2"))
    root = sheet.write(tmp_path)
    stamp(root)
    said = [s.fields["Lead marks"] for s in read_drawing(root).symbols if s.reference == "J1"]
    assert said == ["1:W1 2:W2"] * 2


def test_windows_line_ends_and_other_bytes_stay(tmp_path):
    sheet = small()
    sheet.text("Größe ≤ 3 µm", (20.0, 20.0))
    root = sheet.write(tmp_path)
    data = b"\xef\xbb\xbf" + root.read_bytes().replace(b"\n", b"\r\n")
    root.write_bytes(data)
    stamp(root)
    after = root.read_bytes()
    assert after.startswith(b"\xef\xbb\xbf") and after.count(b"\n") == after.count(b"\r\n") > data.count(b"\r\n")
    assert "Größe ≤ 3 µm".encode() in after


def test_an_inline_part_is_marked_too(tmp_path):
    root = craft_drawing(
        {
            "pack": [termination("J1", "BAT+ GND", kind="captive", family="xt30", types="power_out passive")],
            "drive": [termination("J2", "VBAT GND", family="xt30", takes="7-17V 5A")],
        },
        [join("J1:1 F1:1"), join("F1:2 J2:1"), join("J1:2 J2:2")],
        loose=[termination("F1", symbol=two_pin("F"))],
    ).write(tmp_path)
    stamp(root)
    assert len(fields(root)["F1"][1].split()) == 2


def test_the_command_says_what_it_did(tmp_path):
    copy = copied(BOAT_B, tmp_path)

    def tabside(*arguments):
        return answered("stamp", copy, *arguments)

    tried = json.loads(tabside("--dry-run", "--json").stdout)
    assert tried["done"] is False and tried["files"] == [copy.name]
    done = tabside("--json")
    said = json.loads(done.stdout)
    assert (done.returncode, said["format"], said["done"], done.stderr) == (0, "tabside/stamp/1", True, "")
    rows = {row["termination"]: row["fields"] for row in said["terminations"]}
    assert rows["J18"] == {"Cable mark": "C7", "Lead marks": "1:W38 2:W37 3:W36 4:W35"}
    again = tabside()
    assert "nothing to write" in again.stdout and again.returncode == 0
    copy.with_name(f"~{copy.name}.lck").touch()
    assert tabside().returncode == 0  # nothing is to be written: the lock is in nobody's way
    read_file(copy)


KILLED = """
    import os, sys
    from tabside import files_together
    from tabside.stamping import stamp
    root, last = sys.argv[1], int(sys.argv[2])
    calls, move = 0, os.replace
    def dying(*arguments):
        global calls
        calls += 1
        if calls == last:
            os._exit(9)
        move(*arguments)
    os.replace = dying
    unlink = files_together.Path.unlink
    def dying_too(*arguments, **more):
        dying_at = calls + 1
        if dying_at == last:
            os._exit(9)
        unlink(*arguments, **more)
    files_together.Path.unlink = dying_too
    stamp(root)
"""


@pytest.mark.slow
def test_killed_between_two_files_the_next_command_undoes_it_and_says_so(tmp_path):
    """Some files stamped and some not would be a drawing that nobody drew."""
    mixed = 0
    for last in range(1, 100):
        copy = copied(SHEETS, tmp_path / str(last))
        before = everything(copy.parent)
        script = textwrap.dedent(KILLED)
        died = subprocess.run([sys.executable, "-c", script, str(copy), str(last)], check=False).returncode
        assert died in (0, 9)
        if not died:
            break
        mixed += any(before[name] != content for name, content in everything(copy.parent).items() if name in before)
        told = answered("nets", copy)
        after = {name: content for name, content in everything(copy.parent).items() if ".stamping." not in name}
        assert told.returncode == 0
        assert after == before
        assert ("was broken off" in told.stderr) == (last > 1)
    assert last > 5 and mixed > 2


def broken_off(copy):
    """The journal of a stamping that was killed after its first file."""
    files = [files_together.Replacement(copy.name, copy.read_bytes(), copy.read_bytes() + b"\n")]
    copy.with_name(f".{copy.name}.stamping").write_bytes(files_together._journal(files))
    copy.write_bytes(files[0].after)
    return copy.with_name(f".{copy.name}.stamping"), files[0]


def test_a_file_that_was_saved_since_is_left(tmp_path):
    copy = copied(FLAT, tmp_path)
    journal, file = broken_off(copy)
    copy.write_bytes(file.before + b"\n\n")
    assert "was changed since" in files_together.undo_broken_off(journal)
    assert copy.read_bytes() == file.before + b"\n\n" and not journal.exists()


@pytest.mark.parametrize("name", ["../v.kicad_sch", "/abs.kicad_sch", "v.txt", "a\\v.kicad_sch", "C:x.kicad_sch"])
def test_a_journal_that_names_other_files_reaches_none_of_them(tmp_path, name):
    copy = copied(FLAT, tmp_path / "in")
    journal, _ = broken_off(copy)
    said = json.loads(journal.read_text())
    said["files"][0]["name"] = name
    journal.write_text(json.dumps(said))
    before = everything(tmp_path)
    with pytest.raises(TabsideError, match="no journal"):
        files_together.undo_broken_off(journal)
    assert everything(tmp_path) == before


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": "tabside/journal/1", "files": [1]}', '{"format": "x"}'])
def test_a_journal_that_is_none_is_one_line(tmp_path, text):
    copy = copied(FLAT, tmp_path)
    copy.with_name(f".{copy.name}.stamping").write_text(text)
    done = answered("check", copy)
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)


def test_a_drawing_that_may_only_be_read_is_left(tmp_path):
    copy = copied(FLAT, tmp_path)
    before = copy.read_bytes()
    copy.chmod(0o444)
    with pytest.raises(TabsideError, match="may only be read"):
        stamp(copy)
    assert copy.read_bytes() == before and not list(copy.parent.glob(".*"))


def test_a_second_name_on_the_disk_is_told(tmp_path):
    copy = copied(FLAT, tmp_path)
    os.link(copy, tmp_path / "other.kicad_sch")
    with pytest.raises(TabsideError, match="second name"):
        stamp(copy)
    assert "Cable mark" not in (tmp_path / "other.kicad_sch").read_text(encoding="utf-8")


def test_the_lock_beside_what_a_link_leads_to_counts(tmp_path):
    copy = copied(FLAT, tmp_path / "real")
    (tmp_path / "link.kicad_sch").symlink_to(copy)
    copy.with_name(f"~{copy.name}.lck").touch()
    with pytest.raises(TabsideError, match="open in KiCad"):
        stamp(tmp_path / "link.kicad_sch")


def test_copies_of_other_drawings_do_not_stand_in_the_way(tmp_path):
    copy = copied(FLAT, tmp_path)
    (copy.parent / "old").mkdir()
    shutil.copy(copy, copy.parent / "old" / "x.kicad_sch.before-stamp")
    assert stamp(copy).files


def test_while_it_is_under_way_nobody_undoes_it(tmp_path):
    copy = copied(FLAT, tmp_path)
    file = files_together.Replacement(copy.name, copy.read_bytes(), copy.read_bytes() + b"\n")
    journal = copy.with_name(f".{copy.name}.stamping")
    with files_together.replaced_together(journal, [file]), pytest.raises(TabsideError, match="another Tabside"):
        files_together.undo_broken_off(journal)
    assert copy.read_bytes() == file.after and not journal.exists()
