"""KiCad parts of boards: what is in them, judged by kicad-cli of versions 9 and 10, and the project's tables."""

import os
import shutil
import subprocess
import sys
import textwrap

import pytest

from tabside import files_together
from tabside.boards.parts.board_sheet import layout
from tabside.boards.parts.library import FOLDER, library_of, write_into, write_library
from tabside.boards.parts.writing import undo_broken_off
from tabside.boards.views import board_view
from tabside.cli import main
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.read.craft.board_file import board_from_text
from tabside.read.kicad.text.parsing import parse
from tabside.wiring.board_plugs import held_board

PILOT = """
[board]
name = "pilot"
title = "autopilot"
[[plugs]]
name = "TELEM"
family = "JST GH"
signals = "5V, TX, RX, GND"
contact_1 = "left"
entry = "side"
tabs = "board"
gives = "5V 1A"
level = 3.3
[[plugs]]
name = "GPS"
like = "gps"
[[plugs]]
name = "BAT+-"
kind = "pad"
signals = "VBAT, GND"
takes = "7-26V 0.5A"
"""
VERSIONS = [(6, 0), (7, 0), (8, 0), (9, 0), (10, 0)]


@pytest.fixture
def pilot():
    return board_view(held_board(board_from_text(PILOT.encode(), "pilot.board.toml")))


@pytest.fixture
def project(tmp_path):
    folder = tmp_path / "boat"
    folder.mkdir()
    (folder / "boat.kicad_pro").write_text("{}")
    return folder


def symbols_of(text):
    tree = parse(text)
    return {node[1]: node for node in tree if isinstance(node, list) and node[0] == "symbol"}


def fields_of(symbol):
    return {node[1]: node[2] for node in symbol if isinstance(node, list) and node[0] == "property"}


def pins_of(symbol):
    pins = [pin for part in symbol if isinstance(part, list) and part[0] == "symbol" for pin in part]
    said = [
        {p[0]: p[1] for p in pin if isinstance(p, list)} for pin in pins if isinstance(pin, list) and pin[0] == "pin"
    ]
    return {pin["number"]: pin["name"] for pin in said}


@pytest.mark.parametrize("version", VERSIONS)
def test_a_symbol_has_the_names_at_its_pins_and_every_field(pilot, version):
    symbols = symbols_of(library_of([pilot], version).files["Board_pilot.kicad_sym"])
    assert list(symbols) == ["TELEM", "GPS", "BAT+-"]
    assert pins_of(symbols["TELEM"]) == {"1": "5V", "2": "TX", "3": "RX", "4": "GND"}
    fields = fields_of(symbols["TELEM"])
    assert fields["Value"] == "TELEM" and fields["Board"] == "" and fields["Board file"] == "pilot"
    assert fields["Signals"] == "5V, TX, RX, GND" and fields["Family"] == "JST GH" and fields["Gives"] == "5V 1A"
    assert (fields["Contact 1"], fields["Entry"], fields["Tabs"]) == ("left", "side", "board")
    assert fields_of(symbols["BAT+-"])["Kind"] == "pad"


@pytest.mark.slow
@pytest.mark.kicad
@pytest.mark.parametrize("program", ["kicad-cli", "kicad-cli-10"])
@pytest.mark.parametrize("version", VERSIONS)
def test_kicad_upgrades_and_draws_the_parts(pilot, version, program, tmp_path):
    if shutil.which(program) is None:
        pytest.skip(f"{program} is not installed")
    write_library(library_of([pilot], version), tmp_path / "lib")
    symbols = tmp_path / "lib" / "Board_pilot.kicad_sym"
    sheet = next((tmp_path / "lib").rglob("*.kicad_sch"))
    for words in (
        ["sym", "upgrade", str(symbols), "-o", str(tmp_path / "new.kicad_sym"), "--force"],
        ["sym", "export", "svg", str(symbols), "-o", str(tmp_path / "symbols")],
        ["sch", "export", "svg", str(sheet), "-o", str(tmp_path / "sheet")],
    ):
        done = subprocess.run([program, *words], capture_output=True, text=True, timeout=120, check=False)
        assert done.returncode == 0, done.stdout + done.stderr
    assert pins_of(symbols_of((tmp_path / "new.kicad_sym").read_text())["TELEM"])["2"] == "TX"
    assert len(list((tmp_path / "symbols").iterdir())) == 3
    drawn = next((tmp_path / "sheet").iterdir()).read_text()
    assert all(word in drawn for word in ("TELEM", "BAT+-", "SAFETY_SWITCH_IN", "autopilot"))


@pytest.mark.parametrize("version", VERSIONS)
def test_a_placed_board_is_read_as_its_file_says(pilot, version, tmp_path):
    write_library(library_of([pilot], version), tmp_path)
    sheet = next(tmp_path.rglob("*.kicad_sch"))
    annotated, n = sheet.read_text(), 0
    while "J?" in annotated:  # each symbol says its reference in a field, and from KiCad 7 on once more for the sheet
        n += 1
        annotated = annotated.replace("J?", f"J{(n + 1) // 2 if version >= (7, 0) else n}", 1)
    sheet.write_text(annotated)
    found = {each.value: each for each in read_craft(sheet).terminations.values()}
    assert [contact.label for contact in found["TELEM"].contacts] == ["5V", "TX", "RX", "GND"]
    assert (found["TELEM"].family, found["GPS"].ways, found["BAT+-"].kind) == ("jst_gh", 10, "pad")
    if version >= (9, 0):
        assert found["TELEM"].board == "pilot"


def test_blocks_from_kicad_9_on_and_sheets_before(pilot):
    assert set(library_of([pilot], (8, 0)).files) == {"Board_pilot.kicad_sym", "sheets/pilot.kicad_sch"}
    block = "Boards.kicad_blocks/pilot.kicad_block/pilot"
    assert set(library_of([pilot], (9, 0)).files) == {"Board_pilot.kicad_sym", f"{block}.kicad_sch", f"{block}.json"}


def test_the_plugs_of_a_board_stand_clear_of_each_other(pilot):
    from tabside.boards.parts.library import _symbols

    placed = layout(_symbols(pilot)).placed
    for a in placed:
        for b in placed:
            if a is not b and a.mirrored == b.mirrored:
                upper, lower = sorted((a, b), key=lambda each: each.at[1] - each.symbol.top)
                end = upper.at[1] - upper.symbol.bottom
                assert lower.at[1] - lower.symbol.top - end >= 10


def test_a_project_gets_its_own_lines_and_keeps_the_others(pilot, project):
    table = project / "sym-lib-table"
    mine = '(lib (name "mine")(type "KiCad")(uri "${KIPRJMOD}/mine.kicad_sym")(options "")(descr ""))'
    table.write_text(f"(sym_lib_table\n  (version 7)\n  {mine}\n)\n")
    files, version = write_into([pilot], project / "boat.kicad_pro", None)
    text = table.read_text()
    assert version == (9, 0) and mine in text
    assert text.count(f'(uri "${{KIPRJMOD}}/{FOLDER}/Board_pilot.kicad_sym")') == 1
    assert f'"${{KIPRJMOD}}/{FOLDER}/Boards.kicad_blocks"' in (project / "design-block-lib-table").read_text()
    assert len(files) == 5


def test_doing_it_again_changes_nothing_and_a_changed_board_updates(pilot, project):
    write_into([pilot], project, None)
    before = {path: path.read_bytes() for path in project.rglob("*") if path.is_file()}
    write_into([pilot], project, None)
    assert before == {path: path.read_bytes() for path in project.rglob("*") if path.is_file()}
    changed = board_view(held_board(board_from_text(PILOT.replace("TX, RX", "RX, TX").encode(), "pilot.board.toml")))
    write_into([changed], project, None)
    symbols = symbols_of((project / FOLDER / "Board_pilot.kicad_sym").read_text())
    assert pins_of(symbols["TELEM"])["2"] == "RX"
    assert (project / "sym-lib-table").read_bytes() == before[project / "sym-lib-table"]


def test_a_second_board_joins_the_first(pilot, project):
    write_into([pilot], project, None)
    drive = board_view(held_board(board_from_text(PILOT.replace('"pilot"', '"drive"').encode(), "drive.board.toml")))
    write_into([drive], project, None)
    text = (project / "sym-lib-table").read_text()
    assert "Board_pilot" in text and "Board_drive" in text
    assert (project / "design-block-lib-table").read_text().count('"Boards"') == 1


@pytest.mark.parametrize(
    "table",
    ["(sym_lib_table", "not a table", '(sym_lib_table (version 7) (lib (name "Board_pilot")(type "KiCad")(uri "/x")))'],
)
def test_a_table_that_is_not_ours_to_change_stops_everything(pilot, project, table):
    (project / "sym-lib-table").write_text(table)
    with pytest.raises(TabsideError, match="nothing was changed"):
        write_into([pilot], project, None)
    assert sorted(path.name for path in project.iterdir()) == ["boat.kicad_pro", "sym-lib-table"]
    assert (project / "sym-lib-table").read_text() == table


@pytest.mark.parametrize(
    ("saved", "version"), [(20211123, 6), (20230121, 7), (20231120, 8), (20250114, 9), (20260306, 9)]
)
def test_the_projects_own_version_decides(pilot, project, saved, version):
    (project / "boat.kicad_sch").write_text(f"(kicad_sch (version {saved}) (generator eeschema))")
    assert write_into([pilot], project, None)[1] == (version, 0)


def test_what_is_no_project_is_refused(pilot, tmp_path):
    with pytest.raises(TabsideError, match="no KiCad project"):
        write_into([pilot], tmp_path, None)


def test_plugs_of_like_names_keep_symbols_of_their_own():
    text = PILOT.replace('"GPS"', '"BAT +-"').replace('"BAT+-"', '"BAT/+-"')
    view = board_view(held_board(board_from_text(text.encode(), "pilot.board.toml")))
    assert list(symbols_of(library_of([view], (9, 0)).files["Board_pilot.kicad_sym"])) == [
        "TELEM",
        "BAT_+-",
        "BAT_+-_2",
    ]


def test_names_that_belong_to_no_contact_make_no_part(capsys, tmp_path):
    path = tmp_path / "x.board.toml"
    path.write_text('[board]\n[[plugs]]\nname = "A"\nsignals = "a b"\nseen_from = "printed"\n')
    assert main(["boards", "library", str(path), "--to", str(tmp_path / "lib")]) == 2
    assert "plugs[0]" in capsys.readouterr().err and not (tmp_path / "lib").exists()


def test_somewhere_to_write_must_be_named(pilot, tmp_path, capsys):
    path = tmp_path / "pilot.board.toml"
    path.write_text(PILOT)
    assert main(["boards", "library", str(path)]) == 2
    assert "--to DIR, or --into PROJECT" in capsys.readouterr().err


KILLED = """
    import os, sys
    from tabside.cli import main
    calls, last = 0, int(os.environ["LAST"])
    def dying(call):
        def counting(*arguments, **more):
            global calls
            calls += 1
            if calls == last:
                os._exit(9)
            return call(*arguments, **more)
        return counting
    for name in ("replace", "unlink", "fsync", "mkdir", "rmdir"):
        setattr(os, name, dying(getattr(os, name)))
    sys.exit(main(["boards", "library", *sys.argv[1:]]))
"""


def everything(folder):
    return {str(path.relative_to(folder)): path.is_file() and path.read_bytes() for path in folder.rglob("*")}


@pytest.mark.slow
@pytest.mark.parametrize("where", ["--into", "--to"])
def test_killed_at_any_write_the_next_command_undoes_it_and_says_so(where, project, capsys):
    """Half of a board's parts beside the other half of its old ones would be a board that nobody typed."""
    (project / "pilot.board.toml").write_text(PILOT)
    (project / "sym-lib-table").write_text("(sym_lib_table\n  (version 7)\n)\n")
    mixed = 0
    for changed in (False, True):  # all files new, then an old set changed
        if changed:
            assert main(["boards", "library", str(project / "pilot.board.toml"), where, str(project)]) == 0
            (project / "pilot.board.toml").write_text(
                PILOT.replace("TX, RX", "RX, TX").replace('name = "GPS"', 'name = "G"')
            )
        before = everything(project)
        for last in range(1, 100):
            died = subprocess.run(
                [sys.executable, "-c", textwrap.dedent(KILLED), str(project / "pilot.board.toml"), where, str(project)],
                env={**os.environ, "LAST": str(last)},
                capture_output=True,
                check=False,
            ).returncode
            if not died:
                break
            assert died == 9
            parts = {name: text for name, text in everything(project).items() if text and not name.startswith(".")}
            half = parts != {name: text for name, text in before.items() if text}
            undone = undo_broken_off(project)
            assert everything(project) == before
            mixed += half
            assert undone or not half
        assert last > 5
    assert mixed > 6


@pytest.mark.parametrize("command", ["library", "check"])
def test_what_was_broken_off_is_told_by_the_next_command(pilot, project, capsys, command):
    (project / "boat.kicad_sch").write_text("(kicad_sch (version 20250114) (generator eeschema))")
    (project / "pilot.board.toml").write_text(PILOT)
    subprocess.run(
        [sys.executable, "-c", textwrap.dedent(KILLED), str(project / "pilot.board.toml"), "--into", str(project)],
        env={**os.environ, "LAST": "8"},
        capture_output=True,
        check=False,
    )
    assert (project / ".tabside-boards").exists()
    words = {"library": ["boards", "library", str(project / "pilot.board.toml"), "--into", str(project)]}
    assert main(words.get(command, ["check", str(project / "boat.kicad_sch")])) == 0
    assert "writing the parts of boards was broken off" in capsys.readouterr().err
    assert not [name for name in everything(project) if name.rpartition("/")[2].startswith(".")]


@pytest.mark.parametrize("name", ["../x.kicad_sym", "/x.kicad_sym", "boat.kicad_pro", "link/x.kicad_sym", "a\\x.json"])
def test_a_made_up_journal_reaches_nothing_else(project, tmp_path, name):
    (tmp_path / "other").mkdir()
    (project / "link").symlink_to(tmp_path / "other")
    target = (project / name) if not name.startswith("/") else tmp_path / "x.kicad_sym"
    target.write_bytes(b"now")
    said = files_together._journal([files_together.Replacement(name, b"theirs", b"now")])
    (project / ".tabside-boards").write_bytes(said)
    with pytest.raises(TabsideError, match="no journal"):
        undo_broken_off(project)
    assert target.read_bytes() == b"now"


def test_a_table_that_may_only_be_read_is_left_and_nothing_is_written(pilot, project):
    table = project / "sym-lib-table"
    table.write_text("(sym_lib_table\n  (version 7)\n)\n")
    table.chmod(0o444)
    with pytest.raises(TabsideError, match="may only be read"):
        write_into([pilot], project, None)
    assert sorted(path.name for path in project.iterdir()) == ["boat.kicad_pro", "sym-lib-table"]


@pytest.mark.parametrize("name", ["board_parts", "board_parts/Board_pilot.kicad_sym", "sym-lib-table"])
@pytest.mark.parametrize("there", [True, False])
def test_no_link_in_a_project_leads_the_writing_elsewhere(pilot, project, tmp_path, name, there):
    target = tmp_path / "elsewhere"
    if there:
        target.mkdir() if name == "board_parts" else target.write_text("(sym_lib_table\n  (version 7)\n)\n")
    (project / name).parent.mkdir(exist_ok=True)
    (project / name).symlink_to(target)
    before = everything(tmp_path)
    with pytest.raises(TabsideError, match=r"is a link; nothing was written|cannot be read"):
        write_into([pilot], project, None)
    assert everything(tmp_path) == before


def test_a_full_disk_leaves_what_was(pilot, project, monkeypatch):
    before, write, written = everything(project), files_together.replace_file, []

    def full(path, content):
        written.append(path)
        if len(written) == 3:
            raise OSError(28, "No space left on device")
        write(path, content)

    monkeypatch.setattr(files_together, "replace_file", full)
    with pytest.raises(TabsideError, match="no space left on device; nothing was changed"):
        write_into([pilot], project, None)
    assert everything(project) == before
