"""What the demo crafts print, in the words of builders: a list of words that must not come back.

Which word is usual on a bench: common practice, no source.
"""

from __future__ import annotations

import ast
import html
import re
from pathlib import Path

import pytest

from tabside.cli import main
from tabside.cli.arguments import CHAPTERS as NAMED_CHAPTERS
from tabside.cli.arguments import DOCUMENTS, FORMATS, command_line
from tabside.cli.printing import listing
from tabside.documents.document import find_documents, find_formats
from tabside.facts.families import family_ids
from tabside.kicad.symbols import library_symbols
from tabside.make.method import Method
from tabside.words.cautions import CAUTIONS
from tabside.words.glossary import GLOSSARY

FIXTURES = Path(__file__).parents[2] / "fixtures"
BOAT = str(FIXTURES / "survey_boat/rev_b/survey_boat.kicad_sch")
BOAT_A = str(FIXTURES / "survey_boat/rev_a/survey_boat.kicad_sch")
COPTER = str(FIXTURES / "multirotor/flat/multirotor.kicad_sch")
HOSTILE = str(FIXTURES / "hostile/hostile.kicad_sch")
HARNESS = str(FIXTURES / "own_boards/harness/harness.kicad_sch")

# Each was printed once, and read twice by the builder who was to act on it; one a line.
PHRASES = (Path(__file__).parent / "must_not_come_back.txt").read_text(encoding="utf-8").splitlines()
ODD = re.compile(
    r"\b(?:mend\w*|exchang\w+|anew|judged|proves?|proven|joins?|landmarks?|chirps?|"
    r"receptacles?|counterparts?)\b|NOT CLEARED(?! TO BUILD)|"
    r"\[(?:CP|MEM|[ABCKPM])\]|"  # grades of sources stand in words
    + "|".join(rf"(?<![\w-]){re.escape(phrase)}(?![\w-])" for phrase in PHRASES),
    re.IGNORECASE,
)
IDS = re.compile(r"(?<![\w/.\"'`])(?:" + "|".join(sorted(family_ids(), key=len, reverse=True)) + r")(?![\w\"'`])")


def odd_words(text: str) -> list[str]:
    """Each odd word with what stands around it."""
    flat = " ".join(text.split())
    for name in ("write receptacle, pad, captive or splice", "not-judged"):  # values of the field Kind; a rule's name
        flat = flat.replace(name, "")
    found = [*ODD.finditer(flat), *IDS.finditer(flat)]
    return [flat[max(0, each.start() - 40) : each.end() + 30] for each in found]


@pytest.mark.parametrize("root", [BOAT, BOAT_A, COPTER, HOSTILE, HARNESS])
@pytest.mark.parametrize("command", ["check", "plan"])
def test_what_a_terminal_shows_of_the_demo_crafts(command, root, capsys):
    main([command, root])
    shown = capsys.readouterr().out
    assert shown and odd_words(shown) == []


@pytest.mark.parametrize(("old", "new"), [(BOAT_A, BOAT), (BOAT, BOAT_A), (BOAT, COPTER)])
def test_what_a_comparison_shows_and_writes(old, new, tmp_path, capsys):
    main(["compare", old, new, "--to", str(tmp_path), "--as", "markdown,html"])
    shown = capsys.readouterr().out
    assert shown and odd_words(shown) == []
    assert_no_odd_words(tmp_path)


@pytest.mark.parametrize(
    "words",
    [
        ["families"],
        ["families", "JST GH", "JST XH", "servo", "XT60", "PicoBlade"],
        ["diagnose", BOAT, "--failed", "12"],
        ["diagnose", BOAT, "--failed", "12,30", "--passed", "1-11"],
        ["stamp", BOAT, "--dry-run"],
        ["boards", "show", *map(str, sorted(FIXTURES.glob("survey_boat/rev_b/boards/*.toml")))],
    ],
    ids=lambda words: " ".join(words)[:20],
)
def test_what_the_other_commands_show(words, capsys):
    main(words)
    shown = " ".join(capsys.readouterr().out.split())
    assert shown and [shown[odd.start() - 40 :][:90] for odd in ODD.finditer(shown)] == []  # a family's id is typed


@pytest.mark.parametrize(
    "root", [BOAT, HARNESS, *(pytest.param(root, marks=pytest.mark.slow) for root in (BOAT_A, COPTER, HOSTILE))]
)
def test_the_documents_of_the_demo_crafts(root, tmp_path):
    main(["export", root, "--to", str(tmp_path), "--as", "markdown,html"])
    assert_no_odd_words(tmp_path)


def assert_no_odd_words(folder):
    pages = sorted((*folder.glob("*.md"), *folder.glob("*.html")))
    assert pages
    for page in pages:
        text = re.sub(
            r"<(style|script)\b.*?</\1>|<!--.*?-->|<[^>]*>", " ", page.read_text(encoding="utf-8"), flags=re.S
        )
        assert odd_words(html.unescape(text)) == [], page.name


def test_codes_of_colours_have_their_legend_and_words_their_meaning(tmp_path, capsys):
    main(["plan", BOAT])
    assert "Colours: BK black, RD red." in capsys.readouterr().out
    main(
        [
            "export",
            BOAT,
            "--to",
            str(tmp_path),
            "--only",
            "plan,bench,wire-list,cut-list,bom,index",
            "--as",
            "html,markdown",
        ]
    )
    pages = {path.name: path.read_text(encoding="utf-8") for path in tmp_path.iterdir()}
    for name in ("plan.html", "plan.md", "bench.html", "wire-list.html", "cut-list.html", "bom.html"):
        assert "Colours: BK black, RD red." in pages[name], name
    assert all(f"<dt>{word}</dt>" in pages["index.html"] for word, _ in GLOSSARY)


def commands_of(parser, words=()):
    """Each command with the words that call it, and what its help says."""
    for action in parser._subparsers._group_actions if parser._subparsers else ():
        for name, command in action.choices.items():
            yield (*words, name), command
            yield from commands_of(command, (*words, name))


def test_every_help_begins_with_a_verb_and_says_nothing_odd():
    verbs = {
        "begin",
        "check",
        "explain",
        "find",
        "install",
        "list",
        "make",
        "open",
        "print",
        "put",
        "read",
        "remove",
        "show",
        "write",
        "draw",
        "take",
    }
    found = list(commands_of(command_line([])))
    assert len(found) >= 15
    for words, command in found:
        assert command.description and command.description.split()[0] in verbs, words
        assert odd_words(command.format_help()) == [], words


def test_the_help_of_export_names_what_it_can_write():
    assert DOCUMENTS.split(", ") == sorted(find_documents())
    assert FORMATS.split(", ") == sorted(find_formats())


def test_the_help_of_the_manual_names_its_chapters():
    chapters = sorted(path.name for path in CHAPTERS if path.suffix == ".md")
    assert NAMED_CHAPTERS.split(", ") == [name.removesuffix(".md").partition("-")[2] for name in chapters]


def test_the_words_of_the_explanations(capsys):
    main(["explain"])
    rules = re.findall(r"^([a-z]+(?:-[a-z]+)+)", capsys.readouterr().out, flags=re.M)
    assert len(rules) > 10
    for rule in rules:
        main(["explain", rule])
        assert odd_words(capsys.readouterr().out) == [], rule


TOP = Path(__file__).parents[2]
CHAPTERS = sorted((TOP / "exporters/tabside_exporters/manual/chapters").glob("*.md"))


@pytest.mark.parametrize("path", [TOP / "README.md", *CHAPTERS], ids=lambda path: path.name)
def test_the_words_of_the_readme_and_the_manual(path):
    text = re.sub(r"^```.*?^```|`[^`]*`", " ", path.read_text(encoding="utf-8"), flags=re.M | re.S)  # code has its own
    assert odd_words(text) == []


def test_the_manual_calls_each_method_as_the_plan_does():
    (chapter,) = (path.read_text(encoding="utf-8") for path in CHAPTERS if path.stem.endswith("-plan"))
    assert [method.words for method in Method if f"| {method.words} |" not in chapter] == []


def test_the_words_of_kicads_windows_and_of_the_symbols():
    """What KiCad shows of ours: texts of the buttons, their messages, and descriptions of symbols."""
    loaded = TOP / "plugin/tabside/kicad/loaded"
    texts = [(loaded / "plugin.json").read_text(encoding="utf-8")]
    texts += [entry for path in loaded.glob("*.py") for entry in strings_of(path)]
    texts += [symbol.description for symbol in library_symbols()]  # its keywords are what people search for
    assert len(texts) > 100
    assert [odd for text in texts for odd in odd_words(text)] == []


SAID_TO_PROGRAMS = ("captive part", "not judged", "not cleared", "receptacle header connector", "Kind is receptacle")


@pytest.mark.parametrize("room", ["plugin/tabside", "exporters/tabside_exporters"])
def test_no_text_of_the_program_has_an_odd_word(room):
    """Also what no demo craft is told: a message that is seldom printed is read by somebody, too."""
    found = []
    for path in sorted((TOP / room).rglob("*.py")):
        for text in strings_of(path):
            if "(?P<" not in text and not any(words in text for words in SAID_TO_PROGRAMS):
                found += [(path.name, odd[0], text) for odd in ODD.finditer(" ".join(text.split()))]
    assert found == []


def strings_of(path):
    """Texts in a script, without its docstrings and names; what is put into a text is left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    about = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and id(node) not in about
        and " " in node.value
    ]


def test_the_table_of_families_has_its_legend(capsys):
    main(["families"])
    shown = " ".join(capsys.readouterr().out.split())
    for word in ("trade page", "common practice", "from memory", "Pitch in mm"):
        assert word in shown
    assert max(map(len, (listing.LEGEND + "\n" + listing.GRADES).splitlines())) <= 80


APART = re.compile(
    r"in place of the pack|never connect|no bench supply|pack away|battery away|"
    r"bench supply: (0 A|below its limit)|bench supply (and a pack are never|is set to)|"
    r"take the smoke stopper out, or|from a bench supply$|bench supply set to what",
    re.IGNORECASE,
)


def joins_a_supply_to_a_pack(text: str) -> list[str]:
    """Sentences and cells on a bench supply that do not say that it stands in place of the pack."""
    found = re.split(r"\.\s|\|", " ".join(text.split()))
    return [each for each in found if "bench supply" in each.lower() and not APART.search(each)]


@pytest.mark.parametrize("root", [BOAT, pytest.param(COPTER, marks=pytest.mark.slow)])
def test_no_text_puts_a_bench_supply_on_a_pack(root, tmp_path):
    """Taken literally "a bench supply in the pack's lead" joins a supply to a battery, which can burn."""
    main(["export", root, "--to", str(tmp_path), "--as", "markdown"])
    pages = [page.read_text(encoding="utf-8") for page in sorted(tmp_path.glob("*.md"))]
    assert sum("bench supply" in page for page in pages) >= 3
    readme = Path(__file__).parents[2] / "README.md"
    chapters = (Path(__file__).parents[2] / "exporters/tabside_exporters/manual/chapters").glob("*.md")
    own = [path.read_text(encoding="utf-8") for path in (readme, *chapters)]
    told = [". ".join((*CAUTIONS, *(f"{word}: {means}" for word, means in GLOSSARY)))]
    for text in (*pages, *own, *told):
        assert joins_a_supply_to_a_pack(text) == []
