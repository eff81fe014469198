"""What the README shows is what happens."""

from __future__ import annotations

import contextlib
import io
import re
from pathlib import Path

import pytest

from tabside.cli import main
from tabside.craft_reading import read_craft
from tabside.documents.as_json.verdict import verdict_json
from tabside.rules import check_craft

TOP = Path(__file__).parents[2]
README = (TOP / "README.md").read_text(encoding="utf-8")


def test_the_finding_that_it_shows_is_what_the_demo_gives(monkeypatch, capsys):
    monkeypatch.chdir(TOP)
    shown = re.search(r"```text\n(.*?)```", README, re.DOTALL)
    assert shown
    main(["check", "fixtures/survey_boat/rev_a/survey_boat.kicad_sch"])
    assert shown[1].strip() in capsys.readouterr().out


def test_its_python_runs_on_a_schematic_object(monkeypatch):
    pytest.importorskip("skip")
    monkeypatch.chdir(TOP)
    code = re.search(r"```python\n(.*?)```", README, re.DOTALL)
    assert code
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(code[1], "README.md", "exec"), {})
    assert "end-kind" in said.getvalue()


@pytest.mark.parametrize("revision", ["rev_a", "rev_b"])
def test_a_schematic_object_gives_the_findings_of_its_file(revision):
    skip = pytest.importorskip("skip")
    path = TOP / "fixtures" / "survey_boat" / revision / "survey_boat.kicad_sch"
    with contextlib.redirect_stdout(io.StringIO()):  # it prints while it loads
        schematic = skip.Schematic(str(path))
    crafts = [read_craft(path), read_craft(schematic)]
    first, second = (verdict_json(craft, check_craft(craft)) for craft in crafts)
    assert first == second


@pytest.mark.parametrize("link", re.findall(r"\]\(([^)#]+)\)", README))
def test_what_it_links_to_is_there(link):
    assert (TOP / link).exists()


@pytest.mark.parametrize("mark", ["main", "tests"])
def test_the_two_commands_are_where_the_ci_run_finds_them(mark):
    assert re.search(rf"^<!-- {mark} -->\n```sh\n.*\n```$", README, re.MULTILINE)
