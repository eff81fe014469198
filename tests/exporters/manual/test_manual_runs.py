"""What the manual shows is what happens: every block is run, in its order, chapter by chapter.

What a fence says: `sh` is run (`exit=1`: ends so; `before=put_modem`: what a hand did in KiCad before; `not-run:` why
not), `text said` was printed by the commands before it, `file=` and `append=` name what is written, `toml craft` is a
craft file of the demo craft, `toml board` a board file, `python` is run.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import shlex
import shutil
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

import manual_craft
from tabside.cli import main
from tabside.cli.arguments import command_line
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.read.craft import board_file, file, meanings
from tabside.read.craft.board_file import read_board_file
from tabside.read.craft.schema_keys import keys_of
from tabside.rules import ALL_CHECKS, check_craft
from tabside.wiring.terminations.fields import TERMINATION_FIELDS, field_key
from tabside.wiring.terminations.orientation import OPENINGS, SEE_THROUGH, read_seen_from
from tabside_exporters.manual.manual_page import chapter_texts, manual_page
from tabside_exporters.manual.markdown import headings_of, slug

TOP = Path(__file__).parents[3]
CHAPTERS = chapter_texts()
READER = MarkdownIt("commonmark").enable("table")
MODEM_CSV = "plug,family,contact,signal\n" + "".join(
    f"HOST,JST GH,{number},{signal}\n" for number, signal in enumerate(manual_craft.MODEM, start=1)
)


def fences_of(text: str) -> list[tuple[str, str]]:
    """What each fence says it holds, and its content, in order."""
    return [(token.info.strip(), token.content) for token in READER.parse(text) if token.type == "fence"]


def commands_in(text: str) -> list[str]:
    """Every command that stands in running text: `tabside check ROOT.kicad_sch`."""
    inside = (child for token in READER.parse(text) for child in token.children or ())
    return [child.content for child in inside if child.type == "code_inline" and child.content.startswith("tabside ")]


@pytest.fixture
def scratch(tmp_path, monkeypatch):
    """A folder with the demo craft, a new project `tern`, and a home of its own; commands run in the project."""
    project = manual_craft.new_project(tmp_path)
    boat = TOP / "fixtures" / "survey_boat"
    shutil.copytree(boat / "rev_b", project / "demo")
    shutil.copytree(boat / "rev_a", project / "old")
    (project / "modem.csv").write_text(MODEM_CSV, encoding="utf-8")
    home = tmp_path / "home"
    (home / ".config" / "kicad" / "9.0").mkdir(parents=True)
    for variable in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "KICAD_CONFIG_HOME", "KICAD_DOCUMENTS_HOME"):
        monkeypatch.delenv(variable, raising=False)
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("PATH", str(home))  # the machine's own KiCad is none of this test's business
    monkeypatch.chdir(project)
    return project


def run(line: str) -> tuple[int, str]:
    """One command of the manual; what it prints, or writes to a file by `> FILE`."""
    words = shlex.split(line)
    target = words.pop() if ">" in words else None
    words = [word for word in words if word != ">"]
    said = io.StringIO()
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        if words[:3] == ["python", "-m", "tabside.kicad.package"]:
            from tabside.kicad.package import main as package

            return package(words[3:]), said.getvalue()
        assert words[0] == "tabside", line
        try:
            status = main(words[1:])
        except SystemExit as error:
            status = int(error.code or 0)
    if target is not None:
        Path(target).write_text(said.getvalue(), encoding="utf-8")
    return status, said.getvalue()


@pytest.mark.parametrize("chapter", [id for id, text in CHAPTERS.items() if fences_of(text)])
def test_every_block_of_a_chapter_does_what_it_says(chapter, scratch):
    if chapter in ("board-files", "json"):
        run("tabside boards read modem.csv --to boards/modem.board.toml")
    said = ""
    for info, text in fences_of(CHAPTERS[chapter]):
        kind, _, more = info.partition(" ")
        if kind == "sh":
            said = run_block(text, more, scratch) or said
        elif info == "text said":
            assert plain(text) in plain(said), f"{chapter}: not printed:\n{text}\nbut:\n{said}"
        elif more.startswith("file="):
            (scratch / more.removeprefix("file=")).write_text(text, encoding="utf-8")
        elif more.startswith("append="):
            with (scratch / more.removeprefix("append=")).open("a", encoding="utf-8") as out:
                out.write(text)
        elif info == "toml craft-of-tern":
            (scratch / "tern.craft.toml").write_text(text, encoding="utf-8")
        elif info == "toml craft":
            read_with_craft_file(scratch, text)
        elif info == "toml board":
            path = scratch / "pilot.board.toml"
            path.write_text(text, encoding="utf-8")
            assert read_board_file(path).plugs
        elif kind == "python":
            with contextlib.redirect_stdout(io.StringIO()) as printed:
                exec(compile(text, chapter, "exec"), {})
            assert "end-kind" in printed.getvalue()
        else:
            assert kind == "insert" or more.startswith("not-run:"), f"{chapter}: nobody runs {info!r}"


def plain(text: str) -> str:
    return " ".join(text.split())


def run_block(text: str, more: str, project: Path) -> str:
    if more.startswith("not-run:"):
        return ""
    options = dict(word.split("=") for word in more.split())
    if "before" in options:
        getattr(manual_craft, options["before"])(project / "tern.kicad_sch")
    printed = ""
    for line in text.splitlines():
        status, said = run(line)
        assert status == int(options.get("exit", 0)), f"{line}: {status}\n{said}"
        printed += said
    return printed


def read_with_craft_file(project: Path, text: str) -> None:
    craft_file = project / "demo" / "survey_boat.craft.toml"
    craft_file.write_text(text, encoding="utf-8")
    check_craft(read_craft(project / "demo" / "survey_boat.kicad_sch"))


@pytest.mark.parametrize("command", sorted({each for text in CHAPTERS.values() for each in commands_in(text)}))
def test_every_command_in_the_text_is_one(command):
    parser = command_line()
    words = shlex.split(command.replace("COMMAND", "check"))[1:]
    if words in (["--help"], ["check", "--help"]) or words == ["check"]:
        return
    complete = {
        "explain": [],
        "watch": ["ROOT.kicad_sch"],
        "stamp": ["ROOT.kicad_sch"],
        "boards library": ["boards/x.board.toml"],
    }
    try:
        parser.parse_args(words)
    except TabsideError:
        more = complete.get(" ".join(words), complete.get(words[0], ["ROOT.kicad_sch"]))
        parser.parse_args([*words, *more])


@pytest.mark.parametrize(
    "row", [row for row in CHAPTERS["json"].splitlines() if row.startswith("| `tabside")], ids=lambda row: row[:40]
)
def test_the_keys_of_json_are_those_of_the_table(row, scratch):
    run("tabside boards read modem.csv --to boards/modem.board.toml")
    _, command, keys, _ = row.split("|")
    _, said = run(f"{command.strip().strip('`')} --json")
    assert list(json.loads(said)) == re.findall(r"`([^`]+)`", keys)


def test_every_field_stands_in_the_table_of_fields():
    text = CHAPTERS["fields"]
    named = {field_key(name) for row in text.splitlines() if row.startswith("| `") for name in row.split("`")[1::2]}
    assert {field_key(name) for name in (*TERMINATION_FIELDS, "rating", "lead marks", "cable mark")} <= named
    for value in ("printed", "tabs", "mating", *OPENINGS, SEE_THROUGH):
        assert f"`{value}`" in text and read_seen_from(value) is not None


@pytest.mark.parametrize(
    ("schema", "said"), [(file.SCHEMA, meanings.CRAFT), (board_file.SCHEMA, meanings.BOARD)], ids=["craft", "board"]
)
def test_every_key_has_a_meaning_and_no_other(schema, said):
    assert {key.path for key in keys_of(schema)} == set(said)


def test_every_table_of_the_craft_file_has_an_example():
    text = CHAPTERS["craft-file"]
    for path in {key.path.rpartition(".")[0] for key in keys_of(file.SCHEMA)}:
        if not path.startswith("stock.kits[]."):
            table = path.replace("NAME", "pilot").replace(".CONNECTION", "").replace("wire.GAUGE", "wire")
            table = table.removesuffix(".GAUGE")
            shown = f"[[{table.removesuffix('[]')}]]" if table.endswith("[]") else f"[{table}]"
            assert shown in text or f"{table.rpartition('.')[2]} = " in text, table


def test_every_rule_stands_in_it_once_to_be_linked_to():
    page = manual_page().decode()
    for check in ALL_CHECKS:
        for rule in check.rules:
            assert page.count(f'id="rule-{rule}"') == 1


def test_every_link_leads_to_a_place_on_the_page():
    page = manual_page().decode()
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]*)"', page)) <= set(ids)
    assert "http" not in re.sub(r"<code>.*?</code>", "", page.split("</style>")[1]).replace("http-equiv", "")


def test_headings_have_names_of_their_own():
    found = [slug(each.text) for text in CHAPTERS.values() for each in headings_of(text) if each.level == 2]
    assert len(found) == len(set(found)), [name for name in found if found.count(name) > 1]


def test_the_command_says_where_the_page_is_and_opens_it(scratch, monkeypatch):
    opened = []
    monkeypatch.setattr("webbrowser.open", lambda address: opened.append(address) or True)
    status, said = run("tabside manual --where")
    path = Path(said.strip())
    assert status == 0 and path.read_bytes() == manual_page() and not opened
    run("tabside manual craft-file")
    run("tabside manual role-clash")
    assert [address.rpartition("#")[2] for address in opened] == ["craft-file", "rule-role-clash"]
    status, said = run("tabside manual role-clsh")
    assert status == 2 and 'did you mean "role-clash"?' in said
    monkeypatch.setattr("webbrowser.open", lambda address: False)
    assert os.fspath(path) in run("tabside manual")[1]
