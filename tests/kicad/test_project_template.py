"""The template's jobset finds Tabside on a PATH without it."""

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tabside.craft_reading import read_craft
from tabside.kicad.install.project_template import JOBSET, jobset_for
from tabside.rules import check_craft

ROOT = Path(__file__).parents[2]
TEMPLATE = ROOT / "plugin" / "tabside" / "kicad" / "template" / "tabside_craft"
SHIPPED = (TEMPLATE / JOBSET).read_bytes()
BOAT = ROOT / "fixtures" / "survey_boat" / "rev_b"
BARE_PATH = "/usr/bin:/bin"


def command_of(jobset):
    return json.loads(jobset)["jobs"][0]["settings"]["command"]


def test_nothing_but_the_command_is_changed():
    made = json.loads(jobset_for(SHIPPED, "/opt/my tools/python", windows=False))
    assert '"/opt/my tools/python" export "${PROJECTNAME}.kicad_sch"' in command_of(json.dumps(made))
    made["jobs"][0]["settings"]["command"] = command_of(SHIPPED)
    assert made == json.loads(SHIPPED)


def test_on_windows_the_interpreter_is_named():
    made = command_of(jobset_for(SHIPPED, r"C:\Program Files\Python\python.exe", windows=True))
    assert made.startswith(r'"C:\Program Files\Python\python.exe" -c "from tabside.starting import main;')


@pytest.mark.parametrize("strange", ["", '/a"b/python', "/a'b/python", "/a$b/python", "/a`b/python", "/a\\b/python"])
def test_a_path_that_cannot_be_quoted_leaves_the_jobset_as_it_is(strange):
    assert jobset_for(SHIPPED, strange, windows=False) == SHIPPED


@pytest.mark.kicad
@pytest.mark.skipif(os.name == "nt", reason="the command is for a shell of POSIX")
@pytest.mark.parametrize("there", [True, False])
def test_kicad_runs_it_without_tabside_on_the_path_and_falls_back_to_it(there, kicad_cli, tmp_path):
    project = tmp_path / "project"
    shutil.copytree(BOAT, project)
    interpreter = tmp_path / "my tools" / "python"
    interpreter.parent.mkdir()
    path = BARE_PATH
    if there:
        interpreter.write_text(f'#!/bin/sh\nexec "{sys.executable}" "$@"\n')
        interpreter.chmod(0o755)
    else:
        on_path = tmp_path / "bin" / "tabside"
        on_path.parent.mkdir()
        on_path.write_text(f"#!{sys.executable}\nimport sys\nfrom tabside.starting import main\nsys.exit(main())\n")
        on_path.chmod(0o755)
        path = f"{on_path.parent}:{BARE_PATH}"
    (project / JOBSET).write_bytes(jobset_for(SHIPPED, str(interpreter), windows=False))
    done = subprocess.run(
        [kicad_cli, "jobset", "run", "--stop-on-error", "--file", JOBSET, "survey_boat.kicad_pro"],
        cwd=project, env={**os.environ, "PATH": path, "HOME": str(tmp_path)}, capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    assert (project / "wiring" / "findings.html").exists()


@pytest.mark.parametrize("mark", [r"# ?", r"# "])
def test_the_craft_file_is_valid_with_every_comment_taken_away(tmp_path, mark):
    """The examples as well as the file without any: whoever takes the marks away must not get an error."""
    folder = tmp_path / "craft"
    shutil.copytree(TEMPLATE, folder)
    path = next(folder.glob("*.craft.toml"))
    text = path.read_text(encoding="utf-8")
    for changed in (re.sub(f"(?m)^{mark}", "", text), re.sub(r"(?m)\s*#.*$", "", text)):
        assert changed != text
        path.write_text(changed, encoding="utf-8")
        verdict = check_craft(read_craft(path.with_name("tabside_craft.kicad_sch")))
        assert {finding.severity for finding in verdict.findings} == {"note"}
