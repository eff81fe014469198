"""The doors that KiCad itself opens: the script behind its bill of materials and its netlist, and the jobset."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tabside.kicad.install.scripts import DOOR, DOOR_FILES, loaded_files

FIXTURES = Path(__file__).parents[2] / "fixtures"
BOAT = FIXTURES / "survey_boat"
pytestmark = pytest.mark.kicad


@pytest.fixture
def environment(tmp_path):
    """A home of its own, and this Python's `tabside` on the path, as for a person who installed it there."""
    home = tmp_path / "home"
    home.mkdir()
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    return {**os.environ, "HOME": str(home), "PATH": path}


@pytest.fixture
def door(tmp_path):
    folder = tmp_path / "scripts"
    folder.mkdir()
    for name in DOOR_FILES:
        (folder / name).write_bytes(loaded_files()[name])
    return folder / DOOR


def project(revision, tmp_path):
    copy = tmp_path / "a boat"  # a blank in the path
    shutil.copytree(BOAT / revision, copy)
    return copy / "survey_boat.kicad_sch"


def run(command, environment, cwd):
    return subprocess.run(
        [str(word) for word in command], cwd=cwd, env=environment, capture_output=True, text=True, check=False
    )


EXPORTS = {
    "bill of materials": ["sch", "export", "python-bom"],
    "netlist": ["sch", "export", "netlist", "--format", "kicadxml"],
}


@pytest.mark.slow
@pytest.mark.parametrize("export", EXPORTS)
@pytest.mark.parametrize(("revision", "status"), [("rev_b", 0), ("rev_a", 1)])
def test_the_script_makes_all_documents_of_the_schematic_that_kicads_xml_names(
    export, revision, status, kicad_cli, environment, door, tmp_path
):
    root = project(revision, tmp_path)
    xml = root.with_suffix(".xml")
    made = run([kicad_cli, *EXPORTS[export], "-o", xml, root], environment, root.parent)
    assert xml.exists(), made.stderr
    ended = run([sys.executable, door, xml, root.with_suffix("")], environment, root.parent)
    assert ended.returncode == status, ended.stderr
    assert "Unsaved edits are not seen" in ended.stdout
    documents = root.parent / "survey_boat-tabside" / "documents"
    assert (documents / "wire-list.csv").is_file()
    assert ("NOT CLEARED" in (documents / "bom.md").read_text(encoding="utf-8")) == bool(status)


# Source: KiCad 9.0.8: the help is what follows @package, and what stands behind `"%O` becomes the file's ending.
def test_the_script_explains_itself_in_kicads_dialog():
    said = ast.get_docstring(ast.parse(loaded_files()[DOOR]))
    assert said is not None and "@package" in said
    assert [part.split('"')[0] for part in said.split('"%O')[1:]] == [""]
    assert "unsaved edits are not seen" in said


@pytest.mark.parametrize("xml", ["", "<export", "<export><design><source>gone.kicad_sch</source></design></export>"])
def test_an_xml_that_names_no_schematic_is_told(xml, environment, door, tmp_path):
    (tmp_path / "in.xml").write_text(xml)
    ended = run([sys.executable, door, tmp_path / "in.xml", tmp_path / "out"], environment, tmp_path)
    assert ended.returncode == 2
    assert ended.stderr.startswith("tabside: ")
    assert "Traceback" not in ended.stderr


def test_a_tabside_that_breaks_is_not_taken_for_one_that_found_errors(environment, door, tmp_path):
    (tmp_path / "bin").mkdir()
    broken = tmp_path / "bin" / "tabside"
    broken.write_text("#!/bin/sh\necho 'ImportError: no pandas' >&2\nexit 1\n")
    broken.chmod(0o755)
    root = project("rev_b", tmp_path)
    (tmp_path / "in.xml").write_text(f"<export><design><source>{root}</source></design></export>")
    path = {"PATH": f"{broken.parent}{os.pathsep}{os.environ['PATH']}"}
    ended = run([sys.executable, door, tmp_path / "in.xml", tmp_path / "out"], environment | path, tmp_path)
    assert ended.returncode == 2 and "ImportError: no pandas" in ended.stderr


@pytest.mark.slow
@pytest.mark.parametrize("folder", ["survey_boat/rev_b", "multirotor/flat", "multirotor/sheets"])
def test_the_jobset_of_a_demo_project_makes_all_documents(folder, kicad_cli, environment, tmp_path):
    copy = tmp_path / "project"
    shutil.copytree(FIXTURES / folder, copy)
    boards = (FIXTURES / folder).parent / "boards"
    if boards.is_dir():
        shutil.copytree(boards, tmp_path / "boards")
    (project_file,) = copy.glob("*.kicad_pro")
    command = [kicad_cli, "jobset", "run", "--stop-on-error", "--file", "documents.kicad_jobset", project_file.name]
    ended = run(command, environment, copy)
    assert ended.returncode == 0, ended.stdout + ended.stderr
    made = {path.name for path in (copy / "wiring").rglob("*.csv")}
    assert {"wire-list.csv", "cut-list.csv", "bom.csv"} <= made


def test_the_jobset_hands_over_the_documents_of_a_craft_with_errors_and_fails(kicad_cli, environment, tmp_path):
    copy = tmp_path / "project"
    shutil.copytree(BOAT / "rev_a", copy)
    shutil.copy(BOAT / "rev_b" / "documents.kicad_jobset", copy)
    command = [kicad_cli, "jobset", "run", "--file", "documents.kicad_jobset", "survey_boat.kicad_pro"]
    ended = run(command, environment, copy)
    assert ended.returncode == 6, ended.stdout + ended.stderr  # Source: KiCad 9.0.8, a job failed
    assert "NOT CLEARED TO BUILD" in ended.stdout
    assert "NOT CLEARED TO BUILD" in (copy / "wiring" / "findings.html").read_text("utf-8")
