"""Names that are no text: bytes that are no UTF-8 in a file's name, halves of surrogate pairs in JSON."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest

from programs.tabside_command import answered, process_answered

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


@pytest.fixture
def root(tmp_path):
    name = os.path.join(os.fsencode(tmp_path), b"\xff\xfe.kicad_sch")
    shutil.copy(BOAT, name)
    with open(os.path.join(os.fsencode(tmp_path), b"\xff\xfe.kicad_pro"), "w") as project:
        project.write('{"text_variables": {"A": "\\ud800"}}')
    return os.fsdecode(name)


@pytest.mark.parametrize("command", ["check", "nets", "plan", "stamp", "export", "compare"])
def test_a_file_name_that_is_no_text_is_no_obstacle(root, command, tmp_path):
    more = {"export": ["--to", tmp_path / "out"], "compare": [root, "--to", tmp_path / "out"]}.get(command, [])
    is_no_obstacle(answered(command, root, *more))


def test_nor_is_it_one_for_a_process(root):
    is_no_obstacle(process_answered("check", root))


def is_no_obstacle(done):
    assert done.returncode == 0, done.stderr
    assert all(line.startswith("tabside: warning: ") for line in done.stderr.splitlines())


def test_half_a_pair_in_a_saved_export_is_one_line(tmp_path):
    saved = tmp_path / "saved.json"
    saved.write_text(json.dumps({"format": "tabside/export/1", "model": {"name": "\ud800"}}))
    done = answered("compare", saved, BOAT)
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)


def test_what_a_folder_is_called_reaches_no_terminal_as_it_is(tmp_path):
    folder = tmp_path / "o\n\x1b[31m"
    done = answered("export", BOAT, "--to", folder, "--only", "bom", "--as", "csv")
    assert done.returncode == 0 and (folder / "bom.csv").is_file()
    assert "\x1b" not in done.stdout + done.stderr


@pytest.mark.parametrize("said", ["9.5", "nine", "9" * 500, "-1"])
def test_a_version_that_is_none_is_one_line(said):
    done = answered("check", BOAT, "--kicad", said)
    assert done.returncode == 2 and done.stderr.count("\n") == 1 and "invalid int" not in done.stderr
