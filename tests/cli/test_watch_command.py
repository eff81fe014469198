"""`tabside watch`: each save is checked, only what changed is told, half-written files do no harm, Ctrl-C ends it."""

import json
import os
import queue
import shutil
import signal
import statistics
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from tabside.cli import main
from tabside.cli.printing.watch_report import changed_findings
from tabside.craft_reading import read_craft
from tabside.rules import check_craft

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat"
TABSIDE = [sys.executable, "-c", "import sys; from tabside.starting import main; sys.exit(main())"]
PATIENCE_S = 30


class Watching:
    """The command at work on a copy of the demo boat."""

    def __init__(self, folder, *words):
        shutil.copytree(BOAT / "rev_b", folder)
        self.root = folder / "survey_boat.kicad_sch"
        self.craft_file = folder / "survey_boat.craft.toml"
        self.sound = self.root.read_text()
        self.process = subprocess.Popen(
            [*TABSIDE, "watch", self.root, "--json", *map(str, words)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        self.lines = queue.Queue()
        threading.Thread(target=lambda: [self.lines.put(line) for line in self.process.stdout], daemon=True).start()

    def next(self, at_most_s=PATIENCE_S):
        return json.loads(self.lines.get(timeout=at_most_s))

    def is_quiet(self, for_s):
        try:
            return not self.next(for_s)
        except queue.Empty:
            return True

    def replace(self, text):
        other = self.root.with_name("saving.tmp")
        other.write_text(text)
        os.replace(other, self.root)

    def with_fault(self):
        """The supply takes other volts than the battery has."""
        assert '"Takes" "9-25.2V' in self.sound
        return self.sound.replace('"Takes" "9-25.2V', '"Takes" "90-95V')

    def end(self):
        self.process.send_signal(signal.SIGINT)
        status = self.process.wait(timeout=PATIENCE_S)
        return status, self.process.stderr.read()


@pytest.fixture
def watching(tmp_path):
    started = []

    def start(*words):
        started.append(Watching(tmp_path / "boat", *words))
        return started[-1]

    yield start
    for each in started:
        if each.process.poll() is None:
            each.process.kill()
            each.process.wait()


def test_the_verdict_at_first_and_then_what_changed_and_a_clean_end(watching):
    at_work = watching()
    first = at_work.next()
    assert (first["format"], first["verdict"], first["error"], first["gone"]) == ("tabside/watch/1", "clear", None, [])
    at_work.replace(at_work.with_fault())
    second = at_work.next()
    assert second["verdict"] == "not cleared"
    assert "error" in {each["severity"] for each in second["new"]}
    at_work.replace(at_work.sound)
    third = at_work.next()
    assert third["verdict"] == "clear"
    assert sorted(map(str, third["gone"])) == sorted(map(str, second["new"]))
    assert at_work.end() == (0, "")


def test_a_save_that_changes_nothing_is_not_told(watching):
    at_work = watching()
    at_work.next()
    at_work.replace(at_work.sound)
    at_work.root.with_name("_autosave-survey_boat.kicad_sch").write_text("(kicad_sch")
    assert at_work.is_quiet(2)


def test_a_half_written_sheet_is_waited_for(watching):
    at_work = watching()
    at_work.next()
    for part in (0, 1_000, 100_000):
        at_work.root.write_text(at_work.with_fault()[:part])
        time.sleep(0.1)
    at_work.replace(at_work.with_fault())
    answer = at_work.next()
    assert (answer["error"], answer["verdict"]) == (None, "not cleared")


def test_a_file_that_stays_broken_or_away_is_told_once_and_taken_up_again(watching):
    at_work = watching()
    at_work.next()
    at_work.root.write_text(at_work.sound[:5_000])
    said = at_work.next()["error"]
    assert said["file"].endswith("survey_boat.kicad_sch") and said["line"]
    assert at_work.is_quiet(3)
    away = at_work.root.with_name("away")
    at_work.root.rename(away)
    assert "no such file" in at_work.next()["error"]["message"]
    away.write_text(at_work.sound)
    away.rename(at_work.root)
    answer = at_work.next()
    assert (answer["error"], answer["verdict"], answer["new"], answer["gone"]) == (None, "clear", [], [])


def test_craft_file_and_board_files_are_watched(watching):
    at_work = watching()
    at_work.next()
    craft_file = at_work.craft_file.read_text()
    at_work.craft_file.write_text("[nonsense]\n" + craft_file)
    assert at_work.next()["error"]["file"].endswith("survey_boat.craft.toml")
    at_work.craft_file.write_text(craft_file)
    assert at_work.next()["verdict"] == "clear"
    board = next((at_work.root.parent / "boards").glob("power.board.toml"))
    board.write_text(board.read_text().replace("9-25.2V", "9-24V"))
    assert "board-differs" in {each["rule"] for each in at_work.next()["new"]}


def test_the_findings_page_is_kept_fresh_and_other_documents_stay(watching, tmp_path):
    out = tmp_path / "out"
    root = BOAT / "rev_b" / "survey_boat.kicad_sch"
    subprocess.run(
        [*TABSIDE, "export", root, "--to", out, "--only", "wire-list,findings"], check=True, capture_output=True
    )
    others = sorted(each.name for each in out.iterdir())
    at_work = watching("--to", out)
    at_work.next()
    at_work.replace(at_work.with_fault())
    at_work.next()
    assert "NOT CLEARED TO BUILD" in (out / "findings.html").read_text()
    assert sorted(each.name for each in out.iterdir()) == sorted([*others, "findings-state.svg"])
    again = subprocess.run([*TABSIDE, "export", root, "--to", out], check=False, capture_output=True, text=True)
    assert again.returncode == 0, again.stderr


def test_a_drawing_that_is_not_there_is_one_line_and_exit_2():
    done = subprocess.run([*TABSIDE, "watch", "nowhere.kicad_sch"], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, len(done.stderr.splitlines())) == (2, "", 1)


@pytest.mark.parametrize("kind", ["folder", "pipe"])
def test_what_can_never_become_a_drawing_is_one_line_and_exit_2(kind, tmp_path, capsys):
    path = tmp_path / "boat.kicad_sch"
    path.mkdir() if kind == "folder" else os.mkfifo(path)
    assert main(["watch", str(path)]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_equal_findings_are_counted_and_a_moved_symbol_is_no_change():
    findings = check_craft(read_craft(BOAT / "rev_a" / "survey_boat.kicad_sch")).findings
    assert changed_findings(findings, findings) == ([], [])
    assert changed_findings(findings, [*findings, findings[0]]) == ([findings[0]], [])
    assert changed_findings(findings, findings[1:]) == ([], [findings[0]])


def test_only_watch_loads_the_library_for_watching():
    code = (
        "import sys; from tabside.cli import main; main(['check', sys.argv[1]]); sys.exit('watchfiles' in sys.modules)"
    )
    root = BOAT / "rev_b" / "survey_boat.kicad_sch"
    assert subprocess.run([sys.executable, "-c", code, root], capture_output=True, check=False).returncode == 0


@pytest.mark.slow
def test_from_save_to_verdict_in_less_than_a_second(watching):
    at_work = watching()
    at_work.next()
    took = []
    for text in [at_work.with_fault(), at_work.sound] * 4:
        time.sleep(0.37)
        saved = time.monotonic()
        at_work.replace(text)
        at_work.next()
        took.append(time.monotonic() - saved)
    print(f"from save to verdict: {statistics.median(took):.2f} s, at most {max(took):.2f} s")
    assert statistics.median(took) < 1
