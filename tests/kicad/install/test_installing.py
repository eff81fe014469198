"""Putting Tabside into KiCad and taking it out: nothing else is lost, nothing of ours is left."""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from kicad_home import environment_of, everything, kicad, settings
from tabside.kicad.folders import data_home, find_kicads, settings_home
from tabside.kicad.install.running import in_proc, in_process_list, in_task_list
from tabside.kicad.install.scripts import loaded_files
from tabside.kicad.machine import Machine

EESCHEMA = {
    "appearance": {"footprint_preview": False, "größe": 3.5},
    "bom": {"plugins": [{"command": "", "name": "theirs", "path": "theirs.py"}], "selected_plugin": "theirs"},
    "netlist": {"plugins": []},
}
TABLE = (
    '(sym_lib_table\n  (version 7)\n  (lib (name "Ours (Größe)")(type "KiCad")(uri "/x")(options "")(descr ""))\n)\n'
)
COMMON = {"api": {"enable_server": False, "interpreter_path": "/usr/bin/python3"}, "meta": {"version": 4}}


@pytest.fixture
def home(tmp_path):
    for version in ("7.0", "9.0"):
        folder = tmp_path / ".config" / "kicad" / version
        folder.mkdir(parents=True)
        for name, said in (("eeschema.json", EESCHEMA), ("kicad_common.json", COMMON)):
            (folder / name).write_text(json.dumps(said, indent=2, ensure_ascii=False), encoding="utf-8")
        (folder / "sym-lib-table").write_text(TABLE, encoding="utf-8")
    return tmp_path


def of_version(home, version):
    return {path: content for path, content in everything(home).items() if f"/{version}/" in path}


def test_a_dry_run_says_all_and_does_nothing(home):
    before = everything(home)
    ended = kicad(home, "install", "--dry-run", "--enable-api")
    assert ended.returncode == 0, ended.stderr
    assert "plugins" in ended.stdout and "eeschema.json" in ended.stdout and "KiCad 9.0" in ended.stdout
    assert max(map(len, ended.stdout.splitlines())) <= 80 or "/" in ended.stdout  # only paths may be longer
    assert everything(home) == before


def test_install_adds_our_lines_and_remove_leaves_no_trace(home):
    before = everything(home)
    assert kicad(home, "install", "--enable-api").returncode == 0
    plugin = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "tabside"
    assert {str(p.relative_to(plugin)) for p in plugin.rglob("*") if p.is_file()} >= set(loaded_files())
    assert settings(home, "9.0", "kicad_common.json")["api"]["enable_server"] is True
    for version in ("7.0", "9.0"):
        now = settings(home, version)
        assert now["appearance"] == EESCHEMA["appearance"]
        assert now["bom"]["selected_plugin"] == "theirs" or "abside" in now["bom"]["selected_plugin"]
        assert EESCHEMA["bom"]["plugins"][0] in now["bom"]["plugins"]
        doors = [entry for entry in (*now["bom"]["plugins"], *now["netlist"]["plugins"]) if "abside" in entry["name"]]
        assert len(doors) == 2
    assert kicad(home, "remove").returncode == 0
    assert everything(home) == before


def test_the_button_is_only_for_versions_that_can_have_one(home):
    kicad(home, "install")
    old = home / ".local" / "share" / "kicad" / "7.0" / "plugins" / "tabside"
    assert (old / "tabside_door.py").exists()
    assert not (old / "plugin.json").exists()


def test_without_the_option_the_api_server_stays_off_and_the_way_to_it_is_told(home):
    ended = kicad(home, "install")
    assert "Enable KiCad API" in " ".join(ended.stdout.split())
    assert settings(home, "9.0", "kicad_common.json") == COMMON


def test_installing_twice_changes_nothing_more(home):
    kicad(home, "install", "--enable-api")
    once = everything(home)
    assert kicad(home, "install", "--enable-api").returncode == 0
    assert everything(home) == once


def test_what_kicad_wrote_meanwhile_is_kept_by_remove(home):
    kicad(home, "install", "--enable-api")
    path = home / ".config" / "kicad" / "9.0" / "eeschema.json"
    now = settings(home, "9.0")
    now["window"] = {"pos_x": 17}
    path.write_text(json.dumps(now), encoding="utf-8")
    kicad(home, "remove")
    left = settings(home, "9.0")
    assert left["window"] == {"pos_x": 17}
    assert "abside" not in path.read_text(encoding="utf-8")
    assert left["bom"]["plugins"] == EESCHEMA["bom"]["plugins"]


def table(home, version="9.0"):
    return home / ".config" / "kicad" / version / "sym-lib-table"


def test_the_symbol_library_gets_a_line_in_the_table(home):
    kicad(home, "install")
    for version in ("7.0", "9.0"):
        library = home / ".local" / "share" / "kicad" / version / "symbols" / "tabside.kicad_sym"
        assert library.read_text(encoding="utf-8").startswith("(kicad_symbol_lib")
        lines = table(home, version).read_text(encoding="utf-8").splitlines()
        assert [line for line in lines if "Tabside" not in line] == TABLE.splitlines()
        (ours,) = [line for line in lines if "Tabside" in line]
        assert f'(name "Tabside")(type "KiCad")(uri "{library}")' in ours


def test_lines_that_others_added_since_stay_when_ours_goes(home):
    kicad(home, "install")
    theirs = '  (lib (name "new")(type "KiCad")(uri "/y")(options "")(descr ""))\n'
    text = table(home).read_text(encoding="utf-8")
    table(home).write_text(text[: text.rindex(")")] + theirs + ")\n", encoding="utf-8")
    kicad(home, "remove")
    assert table(home).read_text(encoding="utf-8") == TABLE[: TABLE.rindex(")")] + theirs + ")\n"


def test_a_table_as_kicad_writes_it_on_one_line_is_followed(home):
    table(home).write_text("(sym_lib_table (version 7))", encoding="utf-8")
    kicad(home, "install")
    assert '(name "Tabside")' in table(home).read_text(encoding="utf-8")
    kicad(home, "remove")
    assert table(home).read_text(encoding="utf-8") == "(sym_lib_table (version 7))"


def test_without_a_table_it_says_what_to_do(home):
    table(home).unlink()
    ended = kicad(home, "install", "--kicad", "9.0")
    assert "the symbol library is not in KiCad's table yet" in " ".join(ended.stdout.split())
    assert not table(home).exists()  # one with ours alone would hide KiCad's own libraries
    status = json.loads(kicad(home, "status", "--json").stdout)["kicads"][1]
    assert status["symbol_library"] == "written, but not in KiCad's table"


def test_windows_line_ends_stay(home):
    theirs = TABLE.replace("\n", "\r\n")
    table(home).write_bytes(theirs.encode())
    kicad(home, "install")
    added = table(home).read_bytes()
    assert added.count(b"\n") == added.count(b"\r\n") == theirs.count("\n") + 1
    table(home).write_bytes(added.replace(b'(descr "")', b'(descr "new")'))  # so that it is not just put back
    kicad(home, "remove")
    assert table(home).read_bytes() == theirs.replace('(descr "")', '(descr "new")').encode()


def test_a_line_of_ours_from_another_folder_is_renewed_and_removed(home):
    old = '  (lib (name "Tabside")(type "KiCad")(uri "/old/symbols/tabside.kicad_sym")(options "")(descr ""))\n'
    table(home).write_text(TABLE[: TABLE.rindex(")")] + old + old + ")\n", encoding="utf-8")
    kicad(home, "install")
    text = table(home).read_text(encoding="utf-8")
    assert text.count('(name "Tabside")') == 1 and "/old/" not in text
    kicad(home, "status")
    table(home).write_text(text + "\n", encoding="utf-8")
    kicad(home, "remove")
    assert table(home).read_text(encoding="utf-8") == TABLE + "\n"


def test_status_is_told_though_the_table_is_damaged(home):
    kicad(home, "install")
    table(home).write_text("(", encoding="utf-8")
    status = json.loads(kicad(home, "status", "--json").stdout)["kicads"][1]
    assert "cannot be read" in status["symbol_library"]


@pytest.mark.parametrize("broken", ["(", "", "(fp_lib_table)", "(sym_lib_table (version 7)) x"])
def test_a_table_that_cannot_be_understood_is_told_and_left(home, broken):
    table(home).write_text(broken, encoding="utf-8")
    before = of_version(home, "9.0")
    ended = kicad(home, "install")
    assert ended.returncode == 2
    assert ended.stderr.count("\n") == 1 and "sym-lib-table" in ended.stderr
    assert of_version(home, "9.0") == before
    assert of_version(home, "7.0") != before  # one that is damaged does not hold the others up


def test_another_library_of_our_name_is_not_replaced(home):
    table(home).write_text(TABLE.replace("Ours (Größe)", "Tabside"), encoding="utf-8")
    before = of_version(home, "9.0")
    ended = kicad(home, "install")
    assert ended.returncode == 2 and 'another library named "Tabside"' in ended.stderr
    assert of_version(home, "9.0") == before
    assert of_version(home, "7.0") != before  # one that is damaged does not hold the others up


def test_the_template_is_only_for_versions_that_can_read_it(home):
    kicad(home, "install")
    data = home / ".local" / "share" / "kicad"
    names = {path.name for path in (data / "9.0" / "template" / "tabside_craft").iterdir()}
    assert names >= {"meta", "tabside_craft.kicad_pro", "tabside_craft.kicad_sch", "tabside_craft.craft.toml"}
    assert not (data / "7.0" / "template").exists()


@pytest.mark.parametrize("broken", ["{", "[]", '{"bom": {"plugins": 3}}', '{"bom": {}, "bom": {}}', "\x00"])
def test_a_settings_file_that_cannot_be_understood_is_told_and_left(home, broken):
    path = home / ".config" / "kicad" / "9.0" / "eeschema.json"
    path.write_text(broken, encoding="utf-8")
    before = of_version(home, "9.0")
    ended = kicad(home, "install")
    assert ended.returncode == 2
    assert ended.stderr.count("\n") == 1 and "eeschema.json" in ended.stderr
    assert of_version(home, "9.0") == before
    assert of_version(home, "7.0") != before  # one that is damaged does not hold the others up


def test_without_kicad_it_says_what_to_do(tmp_path):
    ended = kicad(tmp_path, "install")
    assert ended.returncode == 2
    assert "start KiCad once" in ended.stderr
    assert json.loads(kicad(tmp_path, "status", "--json").stdout)["kicads"] == []


def test_status_says_what_is_there(home):
    kicad(home, "install", "--kicad", "9.0")
    told = {each["kicad"]: each for each in json.loads(kicad(home, "status", "--json").stdout)["kicads"]}
    assert told["9.0"]["installed"] and not told["7.0"]["installed"]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="reads /proc")
@pytest.mark.parametrize("action", ["install", "remove"])
def test_while_kicad_runs_nothing_is_changed(home, action):
    if action == "remove":
        kicad(home, "install")
    program = home / "programs" / "eeschema"  # a process of that name, with that home
    program.parent.mkdir()
    shutil.copy(shutil.which("sleep"), program)
    before = everything(home)
    process = subprocess.Popen([program, "60"], env={"HOME": str(home)})
    try:
        while Path(f"/proc/{process.pid}/comm").read_text().strip() != "eeschema":
            pass  # until it has become that program
        ended = kicad(home, action)
        assert ended.returncode == 2
        assert f"eeschema (process {process.pid})" in ended.stderr and "close it" in ended.stderr
        assert ended.stderr.count("\n") == 1
        assert everything(home) == before
        assert kicad(home, action, "--dry-run").returncode == 0
    finally:
        process.kill()
        process.wait()
    assert kicad(home, action).returncode == 0


def test_a_settings_file_that_is_a_link_stays_one_and_keeps_its_permissions(home):
    path = home / ".config" / "kicad" / "9.0" / "eeschema.json"
    real = home / "dotfiles.json"
    path.rename(real)
    real.chmod(0o600)
    path.symlink_to(real)
    before = everything(home)
    kicad(home, "install")
    assert path.is_symlink() and b"abside" in real.read_bytes() and real.stat().st_mode & 0o777 == 0o600
    kicad(home, "remove")
    assert path.is_symlink() and everything(home) == before


def test_the_api_server_stays_on_for_another_plugin(home):
    kicad(home, "install", "--enable-api")
    other = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "other"
    other.mkdir()
    (other / "plugin.json").write_text("{}")
    ended = kicad(home, "remove")
    assert "stays on for another plugin (other)" in ended.stdout
    assert settings(home, "9.0", "kicad_common.json")["api"]["enable_server"] is True
    assert (other / "plugin.json").exists()


def test_an_api_server_that_was_on_before_stays_on(home):
    path = home / ".config" / "kicad" / "9.0" / "kicad_common.json"
    path.write_text(json.dumps({"api": {"enable_server": True}}))
    kicad(home, "install", "--enable-api")
    kicad(home, "remove")
    assert settings(home, "9.0", "kicad_common.json") == {"api": {"enable_server": True}}


def test_a_file_that_is_not_ours_is_never_replaced(home):
    theirs = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "tabside" / "plugin.json"
    theirs.parent.mkdir(parents=True)
    theirs.write_text('{"theirs": true}')
    before = of_version(home, "9.0")
    ended = kicad(home, "install")
    assert ended.returncode == 2 and "is not from Tabside" in ended.stderr
    assert of_version(home, "9.0") == before


def test_a_script_that_somebody_changed_is_left_and_told(home):
    kicad(home, "install")
    script = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "tabside" / "tabside_window.py"
    script.write_text("# mine\n")
    for action in ("install", "remove"):  # the words may stand on two lines
        assert "changed by somebody" in " ".join(kicad(home, action).stdout.split())
    assert [path.name for path in script.parent.iterdir()] == ["tabside_window.py"]


def test_files_of_an_earlier_version_go_with_the_next(home):
    kicad(home, "install")
    folder = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "tabside"
    (folder / "old.py").write_bytes(b"old")
    record = json.loads((folder / "tabside-installed.json").read_text())
    record["files"][str(folder / "old.py")] = hashlib.sha256(b"old").hexdigest()
    (folder / "tabside-installed.json").write_text(json.dumps(record))
    kicad(home, "install")
    assert not (folder / "old.py").exists()


def test_what_kicad_made_for_the_plugin_goes_with_it(home):
    kicad(home, "install")
    environment = home / ".cache" / "kicad" / "9.0" / "python-environments" / "local.tabside.wiring"
    environment.mkdir(parents=True)
    path = home / ".config" / "kicad" / "9.0" / "eeschema.json"
    now = settings(home, "9.0")
    now["plugins"] = {"actions": [{"local.tabside.wiring.tabside-check": True}, {"org.other.plugin.act": True}]}
    path.write_text(json.dumps(now))
    kicad(home, "remove")
    assert not environment.exists()
    assert settings(home, "9.0")["plugins"]["actions"] == [{"org.other.plugin.act": True}]


def test_what_cannot_be_written_in_one_version_leaves_all_as_they_were(home):
    (home / ".local" / "share" / "kicad" / "9.0").mkdir(parents=True)
    (home / ".local" / "share" / "kicad" / "9.0" / "plugins").write_text("a file where a folder should be")
    before, paths = everything(home), set(home.rglob("*"))
    ended = kicad(home, "install")
    assert ended.returncode == 2 and "nothing was changed" in ended.stderr and ended.stderr.count("\n") == 1
    assert everything(home) == before and set(home.rglob("*")) == paths


def test_a_version_that_is_not_there_is_told(home):
    ended = kicad(home, "install", "--kicad", "8.0")
    assert ended.returncode == 2
    assert "no KiCad 8.0 is here; there is 7.0, 9.0" in ended.stderr


# Source: KiCad's documentation of its folders and its source; macOS and Windows were not run here.
@pytest.mark.parametrize(
    ("system", "environment", "settings_at", "data_at"),
    [
        ("linux", {}, ".config/kicad", ".local/share/kicad"),
        ("linux", {"XDG_CONFIG_HOME": "/x/c", "XDG_DATA_HOME": "/x/d"}, "/x/c/kicad", "/x/d/kicad"),
        ("linux", {"KICAD_CONFIG_HOME": "/k", "KICAD_DOCUMENTS_HOME": "/doc"}, "/k", "/doc/kicad"),
        ("macos", {}, "Library/Preferences/kicad", "Documents/KiCad"),
        ("windows", {}, "AppData/Roaming/kicad", "Documents/KiCad"),
        ("windows", {"APPDATA": "/roaming"}, "/roaming/kicad", "Documents/KiCad"),
    ],
)
def test_where_each_system_keeps_kicads_folders(system, environment, settings_at, data_at, tmp_path):
    machine = Machine(system, tmp_path, environment, tmp_path / "Documents")
    assert settings_home(machine) == tmp_path / settings_at
    assert data_home(machine) == tmp_path / data_at


def test_versions_are_the_folders_named_like_one(tmp_path):
    for name in ("5.99", "6.0", "8.0", "10.0", "9.99", "colors", "9.0"):
        (tmp_path / ".config" / "kicad" / name).mkdir(parents=True)
    found = find_kicads(Machine("linux", tmp_path, {}, tmp_path))
    assert [each.name for each in found] == ["6.0", "8.0", "9.0", "9.99", "10.0"]


def test_a_running_kicad_is_seen(tmp_path):
    (kicad_9,) = _one_kicad(tmp_path)
    machine = Machine("linux", tmp_path, {}, tmp_path)
    for number, name, home in (("41", "eeschema", tmp_path), ("42", "bash", tmp_path), ("43", "kicad", "/elsewhere")):
        process = tmp_path / "proc" / number
        process.mkdir(parents=True)
        (process / "comm").write_text(name + "\n")
        (process / "environ").write_bytes(f"HOME={home}\0".encode())
    assert list(in_proc(tmp_path / "proc", machine, kicad_9)) == [("eeschema", "41")]


def test_the_process_lists_of_other_systems_are_read():
    assert list(in_process_list(" 17 /Applications/KiCad/KiCad.app/Contents/MacOS/kicad\n18 /bin/zsh\n")) == [
        ("kicad", "17")
    ]
    assert list(in_task_list('"eeschema.exe","4711","Console"\n"explorer.exe","1","Console"\n')) == [
        ("eeschema.exe", "4711")
    ]


def _one_kicad(home):
    (home / ".config" / "kicad" / "9.0").mkdir(parents=True)
    return find_kicads(Machine("linux", home, {}, home))


def test_a_copy_of_the_users_own_is_neither_written_over_nor_removed(home):
    own = home / ".config" / "kicad" / "9.0" / "eeschema.json.before-tabside"
    own.write_text("mine")
    before = everything(home)
    assert kicad(home, "install").returncode == 0
    assert own.read_text() == "mine"
    assert kicad(home, "remove").returncode == 0
    assert everything(home) == before


def test_a_copy_that_somebody_changed_is_left_and_nothing_is_put_back_from_it(home):
    kicad(home, "install")
    copy = home / ".config" / "kicad" / "9.0" / "eeschema.json.before-tabside"
    copy.write_text("mine")
    assert kicad(home, "remove").returncode == 0
    assert copy.read_text() == "mine" and settings(home, "9.0")["appearance"] == EESCHEMA["appearance"]


def test_a_record_of_an_earlier_version_is_understood(home):
    before = everything(home)
    kicad(home, "install")
    for record in home.rglob("tabside-installed.json"):
        said = json.loads(record.read_text())
        for edited in said["edited"].values():
            edited["copy"] = edited["copy"] is not None
            del edited["copied"]
        record.write_text(json.dumps(said))
    assert kicad(home, "remove").returncode == 0
    assert everything(home) == before


KILLED = """
import os, sys
calls, move, unlink = 0, os.replace, os.unlink
def dying(call):
    def counting(*arguments, **more):
        global calls
        calls += 1
        if calls == int(os.environ["LAST"]):
            os._exit(9)
        return call(*arguments, **more)
    return counting
os.replace, os.unlink = dying(move), dying(unlink)
from tabside.cli import main
sys.exit(main(["kicad", *sys.argv[1:]]))
"""


@pytest.mark.slow
@pytest.mark.parametrize("action", ["install", "remove"])
@pytest.mark.parametrize("last", [1, 2, 3, 5, 8, 13, 21, 34])
def test_killed_at_any_file_the_next_command_undoes_it_and_remove_leaves_no_trace(home, action, last):
    clean = everything(home)
    if action == "remove":
        assert kicad(home, "install").returncode == 0
    before = everything(home)
    command = [sys.executable, "-c", KILLED, action]
    died = subprocess.run(
        command, env={**environment_of(home), "LAST": str(last)}, capture_output=True, check=False
    ).returncode
    assert died in (0, 9)
    told = kicad(home, "status")
    assert told.returncode == 0
    if died and last > 2:
        assert "was broken off" in told.stderr
        assert everything(home) == before
    kicad(home, "remove")
    assert everything(home) == clean


def test_what_kicad_10_kept_of_our_script_s_dialog_goes_and_other_words_stay(home):
    """As kicad_common.json of KiCad 10.0.7 had it after the script had run from its dialog."""
    kicad(home, "install")
    door = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "tabside" / "tabside_door.py"
    theirs = {"Print": {"wxTextCtrl_0": "Tabside"}, "Find": {"wxTextCtrl_0": "J1"}, "odd": 3}
    dialog = {
        "__geometry": {"h": 441},
        "wxTextCtrl_0": "Tabside",
        "wxTextCtrl_1": f'"/usr/bin/python3" "{door}" "/boat.xml" "/boat"\nDone.\nRead: /boat.kicad_sch\n',
        "wxTextCtrl_2": f'"/usr/bin/python3" "{door}" "%I" "%O"',
        "wxTextCtrl_3": "theirs",
    }
    path = home / ".config" / "kicad" / "9.0" / "kicad_common.json"
    path.write_text(json.dumps(COMMON | {"dialog": {"controls": theirs | {"Bill of Materials": dialog}}}))
    assert kicad(home, "remove").returncode == 0
    left = settings(home, "9.0", "kicad_common.json")["dialog"]["controls"]
    assert left == theirs | {"Bill of Materials": {"__geometry": {"h": 441}, "wxTextCtrl_3": "theirs"}}


def test_what_kicad_10_kept_of_our_template_goes_and_other_templates_stay(home):
    """As kicad.json of KiCad 10.0.7 had it after a project had been made from our template."""
    kicad(home, "install")
    ours = str(home / ".local" / "share" / "kicad" / "9.0" / "template" / "tabside_craft")
    path = home / ".config" / "kicad" / "9.0" / "kicad.json"
    for last in (ours, "/theirs"):
        used = {"filter": 0, "last_used": last, "recent_templates": ["/theirs", ours]}
        path.write_text(json.dumps({"template": used}), encoding="utf-8")
        assert kicad(home, "remove").returncode == 0
        left = {"filter": 0, "last_used": "" if last == ours else last, "recent_templates": ["/theirs"]}
        assert settings(home, "9.0", "kicad.json") == {"template": left}
        kicad(home, "install")
