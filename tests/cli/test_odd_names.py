"""Names that are no text: bytes that are no UTF-8 in a file's name, halves of surrogate pairs in JSON."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"
TABSIDE = [sys.executable, "-c", "import sys; from tabside.starting import main; sys.exit(main())"]


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
    done = subprocess.run([*TABSIDE, command, root, *more], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert all(line.startswith("tabside: warning: ") for line in done.stderr.splitlines())


def test_half_a_pair_in_a_saved_export_is_one_line(tmp_path):
    saved = tmp_path / "saved.json"
    saved.write_text(json.dumps({"format": "tabside/export/1", "model": {"name": "\ud800"}}))
    done = subprocess.run([*TABSIDE, "compare", saved, BOAT], capture_output=True, text=True, check=False)
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)
