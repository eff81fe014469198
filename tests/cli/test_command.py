"""The command: exit status, streams, JSON shapes, lines of at most 80 columns."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

from programs.tabside_command import answered as tabside
from programs.tabside_command import process_answered
from tabside.make.method import Method

FIXTURES = Path(__file__).parents[2] / "fixtures"
SOUND = FIXTURES / "survey_boat/rev_b/survey_boat.kicad_sch"
COPTER = FIXTURES / "multirotor/flat/multirotor.kicad_sch"
FAULTY = FIXTURES / "survey_boat/rev_a/survey_boat.kicad_sch"


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["check", SOUND], 0),
        (["check", SOUND, "--fail-on", "warning"], 0),
        (["check", SOUND, "--fail-on", "note"], 1),
        (["check", FAULTY], 1),
        (["check", FAULTY, "--fail-on", "never"], 0),
        (["nets", FAULTY], 0),
        (["families"], 0),
        (["families", "jst_sh"], 0),
    ],
)
def test_the_exit_status_says_what_was_found(arguments, status):
    ended = tabside(*arguments)
    assert ended.returncode == status, ended.stderr
    assert ended.stderr == ""
    assert ended.stdout


@pytest.mark.parametrize("arguments", [["check", FAULTY], ["families", "jst_sh"], ["nets", "nowhere.kicad_sch"]])
def test_a_process_of_its_own_answers_the_same(arguments):
    alone, here = process_answered(*arguments), tabside(*arguments)
    assert (alone.returncode, alone.stdout, alone.stderr) == (here.returncode, here.stdout, here.stderr)


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", SOUND],
        ["check", FAULTY],
        ["nets", SOUND],
        ["families", "jst_sh"],
        ["plan", SOUND],
        ["plan", FAULTY],
        ["plan", COPTER],
    ],
)
def test_output_fits_80_columns_and_has_no_colour(arguments):
    out = tabside(*arguments).stdout
    assert max(map(len, out.splitlines())) <= 80
    assert "\x1b" not in out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check", "no_such.kicad_sch"], "no_such.kicad_sch"),
        (["nets", "."], "."),
        (["check", SOUND.with_suffix(".kicad_pro")], "survey_boat.kicad_pro"),
        (["families", "jst_hs"], "jst_hs"),
        (["export", SOUND, "--to", "out", "--only", "wirelist"], "wire-list"),
        (["export", SOUND, "--to", "out", "--as", "cvs"], "csv"),
        (["chek", SOUND], "chek"),
        (["check"], "ROOT"),
    ],
)
def test_what_cannot_run_is_one_line_on_standard_error_and_status_2(arguments, said, tmp_path):
    ended = tabside(*arguments, cwd=tmp_path)
    assert ended.returncode == 2
    assert ended.stdout == ""
    assert re.fullmatch(r"tabside: [^\n]+\n", ended.stderr), ended.stderr
    assert said in ended.stderr
    assert not (tmp_path / "out").exists()


def is_number_or_text_number(value: object) -> bool:
    return isinstance(value, int) or (isinstance(value, str) and not value.isdecimal())


def test_json_of_nets():
    answer = json.loads(tabside("nets", SOUND, "--json").stdout)
    assert set(answer) == {"format", "nets"}
    assert answer["format"] == "tabside/nets/1"
    for net in answer["nets"]:
        assert set(net) == {"name", "pins"}
        assert net["pins"]
        for reference, pin in net["pins"]:
            assert isinstance(reference, str) and isinstance(pin, str)
            assert not reference.startswith("#")


@pytest.mark.parametrize("root", [SOUND, FAULTY])
def test_json_of_check(root):
    answer = json.loads(tabside("check", root, "--json").stdout)
    assert set(answer) == {"format", "craft", "findings", "counts", "judged", "verdict", "not_judged", "chosen"}
    assert answer["format"] == "tabside/check/1"
    assert set(answer["counts"]) == {"error", "warning", "note", "accepted"}
    assert set(answer["judged"]) == {
        "leads",
        "not_judged",
        "boards_unknown",
        "families_unknown",
        "views_unknown",
    }
    findings = [*answer["findings"], *(folded for finding in answer["findings"] for folded in finding["folded"])]
    for finding in findings:
        assert set(finding) == {"rule", "severity", "message", "fix", "accepted", "where", "folded"}
        assert finding["severity"] in ("error", "warning", "note")
        for where in finding["where"]:
            assert set(where) == {"board", "termination", "contact", "net", "sheet", "at_mm"}
            assert where["contact"] is None or is_number_or_text_number(where["contact"])
    open_ones = [f for f in answer["findings"] if f["accepted"] is None]
    for severity in ("error", "warning", "note"):
        assert answer["counts"][severity] == sum(f["severity"] == severity for f in open_ones)


WIRE_LIST = [
    "mark",
    "net",
    "signal",
    "from_board",
    "from_termination",
    "from_contact",
    "from_end",
    "to_board",
    "to_termination",
    "to_contact",
    "to_end",
    "cable",
    "gauge_awg",
    "colour",
    "length_mm",
    "chosen",
    "note",
]


def test_json_of_export_and_the_files_that_it_names(tmp_path):
    ended = tabside("export", SOUND, "--to", tmp_path / "out", "--json")
    assert ended.returncode == 0
    answer = json.loads(ended.stdout)
    assert set(answer) == {"format", "files", "documents", "mistakes", "model"}
    assert answer["format"] == "tabside/export/1"
    assert {"wire-list", "cut-list", "bom"} <= set(answer["documents"])
    rows = answer["documents"]["wire-list"]
    assert len(rows) >= 40
    for row in rows:
        assert list(row) == WIRE_LIST
        assert is_number_or_text_number(row["from_contact"])
    for file in answer["files"]:
        assert (tmp_path / "out" / Path(file).name).is_file()


def test_export_of_a_faulty_craft_writes_says_not_cleared_and_ends_with_1(tmp_path):
    ended = tabside("export", FAULTY, "--to", tmp_path / "out")
    assert ended.returncode == 1
    assert "NOT CLEARED TO BUILD: 4 errors" in ended.stdout
    for page in (tmp_path / "out").glob("*.md"):
        assert "NOT CLEARED TO BUILD: 4 errors" in page.read_text(encoding="utf-8"), page


def test_the_same_drawing_gives_the_same_bytes_from_another_folder(tmp_path):
    for name, cwd, root in (("a", tmp_path, SOUND), ("b", SOUND.parent, Path(SOUND.name))):
        tabside("export", root, "--to", tmp_path / name, cwd=cwd)
    files = sorted(p.name for p in (tmp_path / "a").iterdir())
    assert files == sorted(p.name for p in (tmp_path / "b").iterdir())
    for name in files:
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()


def test_a_reader_that_goes_away_makes_no_traceback():
    script = "import sys; from tabside.cli import main; sys.exit(main())"
    pipe = subprocess.Popen(
        [sys.executable, "-c", script, "nets", str(SOUND), "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert pipe.stdout is not None and pipe.stderr is not None
    pipe.stdout.close()
    assert b"Traceback" not in pipe.stderr.read()
    pipe.wait()


def test_a_terminal_that_knows_only_ascii_gets_escapes():
    ended = subprocess.run(
        [sys.executable, "-c", "from tabside.cli import main; main()", "families", "jst_sh"],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "LC_ALL": "C", "PYTHONUTF8": "0"},
        check=False,
    )
    assert b"Traceback" not in ended.stderr


def plan_of(root: Path, *more: str) -> dict:
    return json.loads(tabside("plan", root, "--json", *more).stdout)


def test_json_of_plan():
    answer = plan_of(SOUND)
    assert set(answer) == {"format", "cleared", "cautions", "cables"}
    assert (answer["format"], answer["cleared"]) == ("tabside/plan/1", True)
    keys = {"mark", "ends", "method", "start_from", "start", "same_as", "steps", "needs_one_look", "minutes", "cost"}
    keys |= {"why", "cautions"}
    step_keys = {"step", "action", "end", "cavity", "from_mark", "from_left", "lead", "colour"}
    step_keys |= {"signal", "live", "words", "rows"}
    for cable in answer["cables"]:
        assert set(cable) == keys and cable["why"]
        names = {f"{end['board']}/{end['termination']}" for end in cable["ends"]}
        for number, step in enumerate(cable["steps"], 1):
            assert set(step) == step_keys and step["step"] == number and step["end"] in names


def test_the_demo_crafts_are_made_in_every_way():
    found = {cable["method"] for root in (SOUND, COPTER) for cable in plan_of(root)["cables"]}
    assert found == {method.value for method in Method}


def test_a_demo_craft_has_a_lead_that_its_drawing_does_not_use():
    """The copter's C4: a stock cable of five leads for four drawn ones."""
    (cable,) = plan_of(COPTER, "--cable", "C4")["cables"]
    left = [(step["end"], step["cavity"], step["lead"]) for step in cable["steps"] if step["action"] == "leave out"]
    assert left == [("controller/J11", 5, None), ("video/J17", 5, None)]


def test_re_pinning_of_the_demo_crafts_has_one_ring_and_two():
    """The copter's C3: two contacts change places, one parked.  The boat's C6: two such pairs."""
    (one,) = plan_of(COPTER, "--cable", "C3")["cables"]
    (two,) = plan_of(SOUND, "--cable", "C6")["cables"]
    assert [len([s for s in each["steps"] if s["action"] == "put in"]) for each in (one, two)] == [2, 4]


def test_a_faulty_craft_s_plan_says_not_cleared_first_and_last_and_ends_with_1():
    ran = tabside("plan", FAULTY)
    lines = ran.stdout.splitlines()
    assert ran.returncode == 1
    assert lines[0].startswith("NOT CLEARED") and lines[-1].startswith("NOT CLEARED")
    assert any(line.startswith("Cable C2 ") for line in lines)
    assert plan_of(FAULTY)["cleared"] is False


def test_a_cable_that_is_not_there_is_one_line():
    ran = tabside("plan", SOUND, "--cable", "C99")
    assert ran.returncode == 2 and ran.stdout == ""
    assert 'no cable "C99"; there are C1, C2' in ran.stderr


@cache
def loaded_by(*command: str) -> set[str]:
    """The modules that the command loads for the boat."""
    script = (
        "import sys, io, contextlib\n"
        "from tabside.cli import main\n"
        "with contextlib.redirect_stdout(io.StringIO()): main(sys.argv[1:])\n"
        "print(*sys.modules)"
    )
    words = [sys.executable, "-c", script, *command, *([] if command[0] == "explain" else [str(SOUND)])]
    return set(subprocess.run(words, check=True, capture_output=True, text=True).stdout.split())


@pytest.mark.parametrize("heavy", ["pandas", "numpy", "tabulate", "msgspec", "skip", "highspy"])
def test_nets_loads_nothing_heavy(heavy):
    assert heavy not in loaded_by("nets", "--json")


def test_a_csv_of_rows_needs_no_table_library(tmp_path):
    script = (
        "import sys, io, contextlib\n"
        "from tabside.cli import main\n"
        "arguments = ['export', sys.argv[1], '--to', sys.argv[2], '--only', 'wire-list', '--as', 'csv']\n"
        "with contextlib.redirect_stdout(io.StringIO()): main(arguments)\n"
        "assert not {'pandas', 'xlsxwriter', 'jinja2'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", script, str(SOUND), str(tmp_path / "out")], check=True)
    assert (tmp_path / "out" / "wire-list.csv").is_file()


@pytest.mark.parametrize("heavy", ["pandas", "numpy", "tabulate", "skip", "highspy", "typing_extensions", "inspect"])
def test_check_loads_nothing_heavy(heavy):
    assert heavy not in loaded_by("check")


@pytest.mark.parametrize("command", [("explain",), ("explain", "over-current")])
def test_explain_loads_no_library_of_numbers(command):
    assert loaded_by(*command).isdisjoint({"pandas", "numpy", "skip", "highspy", "jinja2"})


def test_families_of_a_maker_are_listed_and_one_is_shown_in_full():
    listed = tabside("families", "jst", "jst_sh")
    assert listed.returncode == 0
    assert "\njst_vh " in listed.stdout and "\nmolex_" not in listed.stdout
    assert "SSH-003T-P0.2-H" in listed.stdout
    assert max(map(len, tabside("families", "jst").stdout.splitlines())) <= 80
    assert tabside("families", "jst", "nonsense-zzz").stdout == ""
