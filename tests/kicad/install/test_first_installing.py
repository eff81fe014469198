"""Installing on machines where KiCad is new, has been started once, or is there in several versions."""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from kicad_home import environment_of, everything, kicad, settings
from tabside.kicad.folders import find_kicads
from tabside.kicad.install.health import problems_of
from tabside.kicad.machine import Machine
from tabside.kicad.programs import command_line_tools, installed_programs, templates_of

STOCK_TABLE = (
    '(sym_lib_table\n  (lib (name "Device")(type "KiCad")(uri "/stock/Device.kicad_sym")(options "")(descr ""))\n)\n'
)
AFTER_A_FIRST_START = {"kicad_common.json": "{}", "kicad.json": "{}"}  # by the project manager alone


def put_program(home: Path, version: str, folder: str = "programs") -> None:
    """A stand-in for an installed KiCad: a `kicad-cli` that tells its version, and a table of libraries."""
    tool = home / folder / "kicad-cli"
    tool.parent.mkdir(parents=True, exist_ok=True)
    tool.write_text(f'#!/bin/sh\n/bin/mkdir -p "$HOME/.config/kicad/{version}"\necho {version}.4\n')
    tool.chmod(0o755)
    table = tool.parent.parent / "share" / "kicad" / "template" / "sym-lib-table"
    table.parent.mkdir(parents=True, exist_ok=True)
    table.write_text(STOCK_TABLE)


def works(home: Path, version: str) -> None:
    """Buttons, symbols and scripts of this version are there, and KiCad's own stay beside them."""
    data = home / ".local" / "share" / "kicad" / version
    assert (data / "plugins" / "tabside" / "plugin.json").exists()
    assert (data / "template" / "tabside_craft" / "tabside_craft.kicad_pro").exists()
    assert settings(home, version, "kicad_common.json")["api"]["enable_server"] is True
    scripts = [each["name"] for each in settings(home, version)["bom"]["plugins"]]
    assert scripts[-1] == "Tabside" and "bom_csv_grouped_by_value" in scripts
    assert [each["name"] for each in settings(home, version)["netlist"]["plugins"]] == ["Tabside"]
    table = (home / ".config" / "kicad" / version / "sym-lib-table").read_text()
    assert f"kicad/{version}/symbols/tabside.kicad_sym" in table
    assert "/stock/Device.kicad_sym" in table or '(type "Table")' in table


@pytest.mark.parametrize("version", ["9.0", "10.0"])
def test_one_go_does_where_kicad_has_never_been_started(tmp_path, version):
    put_program(tmp_path, version)
    before = everything(tmp_path)
    ended = kicad(tmp_path, "install", "--enable-api")
    assert ended.returncode == 0, ended.stderr
    works(tmp_path, version)
    assert kicad(tmp_path, "remove").returncode == 0
    assert everything(tmp_path) == before
    assert not (tmp_path / ".config" / "kicad" / version).exists()  # what asked for the version made no folder either


@pytest.mark.parametrize("version", ["9.0", "10.0"])
def test_one_go_does_where_only_the_project_manager_was_started(tmp_path, version):
    put_program(tmp_path, version)
    folder = tmp_path / ".config" / "kicad" / version
    folder.mkdir(parents=True)
    for name, text in AFTER_A_FIRST_START.items():
        (folder / name).write_text(text)
    before = everything(tmp_path)
    assert kicad(tmp_path, "install", "--enable-api").returncode == 0
    works(tmp_path, version)
    assert kicad(tmp_path, "remove").returncode == 0
    left = everything(tmp_path)
    table = left.pop(f".config/kicad/{version}/sym-lib-table")  # without it KiCad would ask its first questions again
    assert b"abside" not in table and left == before


def test_the_table_of_a_new_kicad_is_removed_when_kicad_was_not_used_since(tmp_path):
    put_program(tmp_path, "9.0")
    kicad(tmp_path, "install", "--enable-api")
    kicad(tmp_path, "remove")
    assert not (tmp_path / ".config").exists()


def test_several_versions_side_by_side(tmp_path):
    for version in ("6.0", "7.0", "8.0", "9.0"):
        folder = tmp_path / ".config" / "kicad" / version
        folder.mkdir(parents=True)
        (folder / "kicad_common.json").write_text("{}")
        (folder / "sym-lib-table").write_text(STOCK_TABLE)
        (folder / "eeschema.json").write_text(json.dumps({"bom": {"plugins": []}, "netlist": {"plugins": []}}))
    put_program(tmp_path, "10.0")
    before = everything(tmp_path)
    ended = kicad(tmp_path, "install", "--enable-api")
    assert ended.returncode == 0, ended.stderr
    said = " ".join(ended.stdout.split())
    assert "KiCad 9.0 and 10.0: buttons" in said and "KiCad 6.0, 7.0 and 8.0: symbol library" in said
    # KiCad 10 will offer to take over the settings of 9: a file of ours in their place would keep it from asking.
    settings_of_10 = tmp_path / ".config" / "kicad" / "10.0"
    for name in ("kicad_common.json", "eeschema.json", "sym-lib-table"):
        assert not (settings_of_10 / name).exists()
    assert (tmp_path / ".local/share/kicad/10.0/plugins/tabside/plugin.json").exists()
    assert "KiCad 10.0 has never been started" in said and "install again" in said
    for version in ("6.0", "7.0", "8.0"):
        assert not (tmp_path / f".local/share/kicad/{version}/plugins/tabside/plugin.json").exists()
        assert "Tabside" in (tmp_path / ".config" / "kicad" / version / "sym-lib-table").read_text()
    (tmp_path / "programs" / "kicad-cli").unlink()  # KiCad 10 was taken off the machine: ours goes all the same
    del before["programs/kicad-cli"]
    assert kicad(tmp_path, "remove").returncode == 0
    assert everything(tmp_path) == before


def test_what_install_says_is_three_lines_and_no_more(tmp_path):
    put_program(tmp_path, "9.0")
    said = kicad(tmp_path, "install", "--enable-api").stdout
    lines = said.replace("\n", " ").replace(" Next:", "\nNext:").replace(" `tabside manual`", "\n`tabside manual`")
    now, then, help_ = lines.splitlines()
    assert now.startswith("Now in KiCad 9.0") and str(tmp_path / ".local/share/kicad/9.0") in now
    assert "Craft wiring for Tabside" in then and "kicad remove" in help_


def test_an_older_tabside_leaves_no_file_behind(tmp_path):
    put_program(tmp_path, "9.0")
    kicad(tmp_path, "install", "--enable-api")
    plugin = tmp_path / ".local/share/kicad/9.0/plugins/tabside"
    old = plugin / "tabside_of_old.py"
    old.write_text("# of an older version\n")
    record = plugin / "tabside-installed.json"
    said = json.loads(record.read_text())
    said["version"] = "0.0.9"
    said["files"][str(old)] = hashlib.sha256(old.read_bytes()).hexdigest()
    record.write_text(json.dumps(said))
    told = json.loads(kicad(tmp_path, "status", "--json").stdout)["kicads"][0]["problems"]
    assert any("0.0.9" in each["what"] for each in told)
    assert kicad(tmp_path, "install", "--enable-api").returncode == 0
    assert not old.exists()


def test_status_says_where_a_narrow_screen_has_no_room_for_buttons(tmp_path):
    put_program(tmp_path, "10.0")
    kicad(tmp_path, "install", "--enable-api")
    assert "narrower" not in problems(tmp_path)
    (tmp_path / ".config/kicad/10.0/toolbars/eeschema-toolbars.json").unlink()
    assert "narrower than about 1500 points" in problems(tmp_path)


def problems(home: Path, environment: dict[str, str] | None = None) -> str:
    machine = Machine("linux", home, environment or {"PATH": str(home / "programs")}, home)
    (only,) = find_kicads(machine, installed_programs(machine))
    return "; ".join(f"{each.what} -> {each.fix}" for each in problems_of(machine, only, None))


@pytest.fixture
def installed(tmp_path):
    put_program(tmp_path, "9.0")
    kicad(tmp_path, "install", "--enable-api")
    common = tmp_path / ".config/kicad/9.0/kicad_common.json"
    said = json.loads(common.read_text())
    said["api"]["interpreter_path"] = sys.executable  # of a Python that has venv, wherever the tests run
    common.write_text(json.dumps(said))
    return tmp_path


def test_status_has_nothing_to_say_where_all_works(installed):
    assert problems(installed) == ""
    assert "all of it works" in kicad(installed, "status").stdout


@pytest.mark.parametrize(
    ("change", "said", "fix"),
    [
        pytest.param({"enable_server": False}, "API server is off", "Enable KiCad API", id="API off"),
        pytest.param(
            {"enable_server": True, "interpreter_path": "/no/python"}, "/no/python", "Preferences", id="no interpreter"
        ),
        pytest.param(
            {"enable_server": True, "interpreter_path": "/bin/false"}, "/bin/false", "python3-venv", id="no venv"
        ),
    ],
)
def test_status_says_why_no_button_is_shown_and_how_to_fix_it(installed, change, said, fix):
    (installed / ".config/kicad/9.0/kicad_common.json").write_text(json.dumps({"api": change}))
    told = problems(installed)
    assert said in told and fix in told


def test_status_says_that_what_the_buttons_start_has_gone(installed):
    record = installed / ".local/share/kicad/9.0/plugins/tabside/tabside-installed.json"
    said = json.loads(record.read_text())
    record.write_text(json.dumps({**said, "command": ["/gone/tabside"]}))
    assert "/gone/tabside is no longer there" in problems(installed)


def test_status_says_what_is_not_installed(tmp_path):
    put_program(tmp_path, "9.0")
    assert "not installed" in problems(tmp_path) and "kicad install" in problems(tmp_path)


# Source: KiCad's own folders as its installers make them, from memory; run on Linux alone.
def test_where_each_system_keeps_kicads_programs(tmp_path):
    for name in ("9.0", "10.0"):
        tool = tmp_path / "Program Files" / "KiCad" / name / "bin" / "kicad-cli.exe"
        tool.parent.mkdir(parents=True)
        tool.write_text("")
    windows = Machine("windows", tmp_path, {"ProgramFiles": str(tmp_path / "Program Files")}, tmp_path)
    tools = command_line_tools(windows)
    assert [tool.parts[-3] for tool in tools] == ["10.0", "9.0"]
    assert templates_of(windows, tools[1]) == tools[1].parents[1] / "share" / "kicad" / "template"
    tool = tmp_path / "Applications/KiCad/KiCad.app/Contents/MacOS/kicad-cli"
    tool.parent.mkdir(parents=True)
    tool.write_text("")
    macos = Machine("macos", tmp_path, {}, tmp_path)
    assert tool in command_line_tools(macos)
    assert templates_of(macos, tool) == tool.parents[1] / "SharedSupport" / "template"


def test_a_program_that_does_not_answer_is_none(tmp_path):
    put_program(tmp_path, "nonsense")
    assert installed_programs(Machine("linux", tmp_path, {"PATH": str(tmp_path / "programs")}, tmp_path)) == ()


@pytest.mark.kicad
def test_the_real_kicad_tells_its_version_and_where_its_tables_are(kicad_cli, tmp_path):
    machine = Machine("linux", tmp_path, {"PATH": os.environ["PATH"]}, tmp_path)
    (found,) = installed_programs(machine)
    told = subprocess.run([kicad_cli, "version"], capture_output=True, text=True, check=True).stdout
    assert told.startswith(".".join(map(str, found.version)))
    assert "(sym_lib_table" in (found.templates / "sym-lib-table").read_text(encoding="utf-8")
    assert environment_of(tmp_path)["HOME"] == str(tmp_path) and not (tmp_path / ".config").exists()
