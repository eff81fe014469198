"""Whatever becomes of standard output, a command ends with one line at most and its files are whole."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from programs.tabside_command import TABSIDE, answered
from slow_cases import slow
from tabside.documents.writing.staging import MANIFEST
from tabside.interruption import put_off

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


def run(words, redirected):
    """The command with its output redirected by a shell, which can close a stream."""
    return subprocess.run(
        ["sh", "-c", f'exec "$@" {redirected}', "sh", *TABSIDE, *map(str, words)],
        stderr=subprocess.PIPE,
        text=True,
        check=False,
        timeout=120,
    )


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="there is no device that is always full here")
@pytest.mark.parametrize("redirected", [">&-", ">/dev/full", *slow(["<&- >&-"])])
@pytest.mark.parametrize(
    "words",
    [["check", BOAT], ["nets", BOAT, "--json"], *slow([["families"], ["check", BOAT, "--json"]])],
)
def test_output_that_goes_nowhere_is_one_line_and_exit_2(words, redirected):
    done = run(words, redirected)
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1), done.stderr
    assert done.stderr.startswith("tabside: cannot print: ")


@pytest.mark.parametrize("redirected", [">&-", ">/dev/full"])
def test_the_documents_are_whole_although_nothing_can_be_printed(redirected, tmp_path):
    done = run(["export", BOAT, "--to", tmp_path / "out", "--as", "csv"], redirected)
    assert done.returncode == 2
    assert json.loads((tmp_path / "out" / MANIFEST).read_text())["complete"] is True


def test_without_any_stream_it_ends_all_the_same():
    assert run(["check", BOAT], ">&- 2>&-").returncode == 2


@pytest.mark.parametrize(
    ("words", "file"),
    [
        (["check", "nowhere.kicad_sch", "--json"], "nowhere.kicad_sch"),
        (["nets", "nowhere.kicad_sch", "--json"], "nowhere.kicad_sch"),
        (["compare", "nowhere.kicad_sch", BOAT, "--json"], "nowhere.kicad_sch"),
        (["check", BOAT, "--fail-on", "nonsense", "--json"], None),
        (["nonsense", "--json"], None),
    ],
)
def test_with_json_an_error_is_json_too(words, file, tmp_path):
    done = answered(*words, cwd=tmp_path)
    said = json.loads(done.stdout)
    assert (done.returncode, said["format"], said["file"]) == (2, "tabside/error/1", file)
    assert said["message"] in done.stderr and len(done.stderr.splitlines()) == 1
    assert set(said) == {"format", "message", "file", "line", "column"}


def test_an_error_in_a_file_has_its_line_in_json(tmp_path):
    shutil.copy(BOAT, tmp_path / "boat.kicad_sch")
    (tmp_path / "boat.craft.toml").write_text("[craft]\nname = \n")
    said = json.loads(answered("check", tmp_path / "boat.kicad_sch", "--json").stdout)
    assert (said["file"], said["line"]) == ("boat.craft.toml", 2)


@pytest.mark.parametrize(
    "words",
    [
        ["check", ""],
        ["check", BOAT, "--variant", ""],
        ["plan", BOAT, "--cable", " "],
        ["diagnose", BOAT, "--failed", "1", "--sheet", ""],
        ["watch", BOAT, "--to", ""],
        ["families", ""],
        ["explain", ""],
        ["manual", "--to", ""],
        ["boards", "new", ""],
        ["boards", "read", "table.csv", "--to", ""],
        ["boards", "show", "--to", ""],
        ["boards", "show", "--enter", "--to", ""],
        ["boards", "library", "pilot.board.toml", "--into", ""],
        ["kicad", "install", "--dry-run", "--kicad", ""],
    ],
)
def test_an_empty_argument_is_refused_and_never_taken_as_left_out(words, tmp_path):
    done = subprocess.run([*TABSIDE, *map(str, words)], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 2 and done.stdout == "" and not list(tmp_path.iterdir())
    assert done.stderr.count("\n") == 1 and ("is empty" in done.stderr or "name a folder" in done.stderr)


@pytest.mark.parametrize("words", [["export", BOAT, "--to", ""], ["export", BOAT, "--to", " "]])
def test_an_empty_folder_name_is_refused(words, tmp_path):
    done = answered(*words, cwd=tmp_path)
    assert (done.returncode, list(tmp_path.iterdir())) == (2, [])
    assert "name a folder" in done.stderr


@pytest.mark.parametrize("tenths", [2, 8, *slow([1, 4, 16])])
def test_ctrl_c_is_told_in_one_line_at_any_time(tenths, tmp_path):
    # Python's own start (before our first line) is out of our reach, so the wait is for that line.
    ready = "import sys; print(1, flush=True); from tabside.starting import main; sys.exit(main())"
    words = [sys.executable, "-c", ready, "export", str(BOAT), "--to", str(tmp_path / "out"), "--as", "csv,html"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        running.stdout.readline()
        time.sleep(tenths / 100)
        running.send_signal(signal.SIGINT)
        _, complaint = running.communicate(timeout=120)
    if running.returncode == 2:
        assert len(complaint.splitlines()) == 1 and complaint.startswith("tabside: interrupted"), complaint
        written = (tmp_path / "out" / MANIFEST).exists()
        assert ("after writing" in complaint) == written


@pytest.mark.parametrize("after", ["starting._AGAIN_AFTER_S", "(0.0, *starting._AGAIN_AFTER_S)"])
def test_ctrl_c_is_not_lost_where_python_drops_what_is_raised(after):
    # What is raised in `__del__` or in the callback of a weak reference (imports have one) goes to the hook alone.
    # Sent again at once it comes while the hook still runs, as on a busy machine, and is dropped once more.
    lose = (
        "import time, tabside.cli\n"
        "from tabside import starting\n"
        f"starting._AGAIN_AFTER_S = {after}\n"
        "class Tidied:\n"
        "    def __del__(self):\n"
        "        raise KeyboardInterrupt\n"
        "def run():\n"
        "    Tidied()\n"
        "    time.sleep(40)\n"
        "tabside.cli.main = run\n"
        "from tabside.starting import main\n"
        "raise SystemExit(main())\n"
    )
    start = time.monotonic()
    done = subprocess.run([sys.executable, "-c", lose], capture_output=True, text=True, check=False, timeout=100)
    assert (done.returncode, done.stderr) == (2, "tabside: interrupted; nothing was changed\n")
    assert time.monotonic() - start < 30.0, "it was heard when the work had ended by itself"


def test_a_second_ctrl_c_changes_nothing():
    twice = (
        "import os, signal, tabside.cli\n"
        "from tabside import interruption\n"
        "def run():\n"
        "    raise KeyboardInterrupt\n"
        "tabside.cli.main = run\n"
        "told = interruption.in_words\n"
        "def in_words():\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    return told()\n"
        "interruption.in_words = in_words\n"
        "from tabside.starting import main\n"
        "raise SystemExit(main())\n"
    )
    done = subprocess.run([sys.executable, "-c", twice], capture_output=True, text=True, check=False, timeout=100)
    assert (done.returncode, done.stderr) == (2, "tabside: interrupted; nothing was changed\n")


def test_ctrl_c_waits_for_what_belongs_together():
    done = []
    with pytest.raises(KeyboardInterrupt), put_off():
        os.kill(os.getpid(), signal.SIGINT)
        done.append("the rest of the block")
    assert done
