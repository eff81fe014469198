"""The jobset of the demo projects and the template finds Tabside with nothing on the PATH, and says what it found."""

import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from outside_tabside import Outside
from press_the_button import KICAD_10
from tabside.kicad.jobset import NAME, STARTER, jobset_bytes, starter

ROOT = Path(__file__).parents[2]
TEMPLATE = ROOT / "plugin" / "tabside" / "kicad" / "template" / "tabside_craft"
BOAT = ROOT / "fixtures" / "survey_boat"
SYSTEM = KICAD_10.system
KICAD_FAILED = 6  # source: KiCad 9.0.8 and 10.0.7, a job failed
posix = pytest.mark.skipif(os.name == "nt", reason="the command is for a shell of POSIX")


def commands(jobset):
    return [job["settings"]["command"] for job in json.loads(jobset)["jobs"]]


@pytest.mark.parametrize(
    "folder", [TEMPLATE, BOAT / "rev_b", *[ROOT / "fixtures" / "multirotor" / name for name in ("flat", "sheets")]]
)
def test_the_projects_have_the_jobset_that_is_written_here(folder):
    assert (folder / NAME).read_bytes() == jobset_bytes()


def test_the_interpreter_is_all_that_differs_from_machine_to_machine():
    made = jobset_bytes("/opt/my tools/python")
    assert all(' sh "/opt/my tools/python" ' in command for command in commands(made))
    assert made.replace(b'\\"/opt/my tools/python\\"', b"-") == jobset_bytes()


def test_on_windows_the_interpreter_is_named():
    made, _ = commands(jobset_bytes(r"C:\Program Files\Python\python.exe", windows=True))
    assert made.startswith(r'"C:\Program Files\Python\python.exe" -c "from tabside.starting import main;')


@pytest.mark.parametrize("strange", ["", '/a"b/python', "/a'b/python", "/a$b/python", "/a`b/python", "/a\\b/python"])
def test_a_path_that_cannot_be_quoted_is_left_out(strange):
    assert jobset_bytes(strange) == jobset_bytes()


def test_kicad_expands_nothing_in_the_command_but_its_own():
    found = {word.split("}")[0] for command in commands(jobset_bytes()) for word in command.split("${")[1:]}
    assert found == {"PROJECTNAME", "JOBSET_OUTPUT_WORK_PATH"}


@posix
@pytest.mark.parametrize("folder", ["plain", "with blank", "with ' mark"])
def test_the_starter_becomes_tabside_and_does_nothing_where_that_is_gone(folder, tmp_path):
    program = tmp_path / folder / "tabside"
    program.parent.mkdir()
    script = tmp_path / STARTER
    script.write_bytes(starter([str(program)]))
    said = f'. "{script}"; echo gone'
    start = ["/bin/sh", "-c", said, "sh", "check", "a b"]
    assert subprocess.run(start, capture_output=True, text=True, check=True).stdout == "gone\n"
    program.write_text('#!/bin/sh\nprintf "<%s>" "$@"\n')
    program.chmod(0o755)
    assert subprocess.run(start, capture_output=True, text=True, check=True).stdout == "<check><a b>"


def project(folder, revision, jobset):
    shutil.copytree(BOAT / revision, folder)
    (folder / NAME).write_bytes(jobset)
    return folder


def run(cli, folder, home):
    return subprocess.run(
        [cli, "jobset", "run", "--file", NAME, "survey_boat.kicad_pro"],
        cwd=folder,
        env={"HOME": str(home), "PATH": ""},
        capture_output=True,
        text=True,
        check=False,
    )


def installed(tmp_path, way):
    """A home with Tabside in one of the places where the jobset looks."""
    home = tmp_path / "home"
    tabside = home / ".local" / "bin" / "tabside" if way == "user's programs" else tmp_path / "my tools" / "tabside"
    tabside.parent.mkdir(parents=True)
    tabside.write_text(f"#!{sys.executable}\nimport sys\nfrom tabside.starting import main\nsys.exit(main())\n")
    tabside.chmod(0o755)
    if way == "starter":
        script = home / ".local" / "share" / "kicad" / "9.0" / "plugins" / "tabside" / STARTER
        script.parent.mkdir(parents=True)
        script.write_bytes(starter([str(tabside)]))
    return home, jobset_bytes(sys.executable if way == "interpreter" else "")


@pytest.mark.slow
@posix
@pytest.mark.kicad
@pytest.mark.parametrize("way", ["interpreter", "starter", "user's programs"])
def test_with_an_empty_path_kicad_hands_over_the_documents_and_fails_on_an_error(way, kicad_cli, tmp_path):
    home, jobset = installed(tmp_path, way)
    for revision, status in (("rev_a", KICAD_FAILED), ("rev_b", 0)):
        folder = project(tmp_path / revision, revision, jobset)
        done = run(kicad_cli, folder, home)
        assert done.returncode == status, done.stdout + done.stderr
        assert ("NOT CLEARED TO BUILD" in (folder / "wiring" / "findings.html").read_text("utf-8")) == bool(status)
        assert ("NOT CLEARED TO BUILD" in done.stdout) == bool(status)


@posix
@pytest.mark.kicad
def test_without_tabside_nothing_is_handed_over_and_kicad_shows_what_to_do(kicad_cli, tmp_path):
    if any(Path(each).exists() for each in ("/usr/local/bin/tabside", "/usr/bin/tabside", "/opt/homebrew/bin/tabside")):
        pytest.skip("Tabside is among this machine's programs")
    folder = project(tmp_path / "boat", "rev_b", jobset_bytes())
    done = run(kicad_cli, folder, tmp_path)
    assert done.returncode == KICAD_FAILED and "Tabside was not found" in done.stdout + done.stderr
    assert not list(folder.rglob("findings.html"))


@pytest.mark.slow
@posix
@pytest.mark.kicad("cli10")
@pytest.mark.parametrize(("revision", "status"), [("rev_a", KICAD_FAILED), ("rev_b", 0)])
def test_kicad_10_does_the_same(revision, status):
    """It is in a system of its own that sees /tmp; a stand-in there hands its words to the real Tabside outside."""
    with tempfile.TemporaryDirectory(dir="/tmp") as named:
        folder = Path(named)
        with Outside(folder) as outside:
            interpreter = folder / "interpreter"
            interpreter.write_text(f'#!/bin/sh\nshift 2\nexec "{outside.stand_in}" "$@"\n')
            interpreter.chmod(0o755)
            boat = project(folder / "boat", revision, jobset_bytes(str(interpreter)))
            bare = ["/usr/bin/env", "-i", f"HOME={folder}", "PATH=", "/usr/bin/kicad-cli", "jobset", "run"]
            command = [*bare, "--file", NAME, "survey_boat.kicad_pro"]
            there = ["sh", "-c", 'cd "$1" && shift && exec "$@"', "sh", str(boat), *command]
            done = subprocess.run(["chroot", str(SYSTEM), *there], capture_output=True, text=True, check=False)
            assert len(outside.asked) == 2, done.stdout + done.stderr
        assert done.returncode == status, done.stdout + done.stderr
        assert ("NOT CLEARED TO BUILD" in (boat / "wiring" / "findings.html").read_text("utf-8")) == bool(status)
