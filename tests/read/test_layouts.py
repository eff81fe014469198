"""The same drawing in any legal layout reads the same, trimmed first or not."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
import sexpdata
from hypothesis import given, settings
from hypothesis import strategies as st

from drawing.schematic_text import FULL, LIBRARY, SYMBOL, schematic
from tabside.read import load_hierarchy
from tabside.read.kicad.content import Memory, sheet_file_of_text, sheet_file_of_tree
from tabside.read.kicad.sheet_file import SheetFile
from tabside.read.kicad.text.damage import Text
from tabside.read.kicad.text.escapes import plain
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import Atom, BadBrackets
from tabside.read.kicad.text.trimming import NotSeen


def read(text: str) -> SheetFile:
    """As a file with this text is read, by the fast way."""
    return sheet_file_of_text(plain(text), "/boat.kicad_sch", b"", Memory())


def read_whole(text: str) -> SheetFile:
    """With nothing trimmed, sexpdata's tree of the whole text."""
    return sheet_file_of_tree(parse(text), "/boat.kicad_sch", b"")


def read_as_files_are(text: str) -> SheetFile:
    """The fast way, or the whole way where that does not follow."""
    try:
        return read(text)
    except (NotSeen, BadBrackets):
        return read_whole(text)


def stored(folder: Path, content: bytes) -> SheetFile:
    file = folder / "boat.kicad_sch"
    file.write_bytes(content)
    return load_hierarchy(file).sheets[0].file._replace(path="/boat.kicad_sch", data=b"")


def one_line(text: str) -> str:
    """All blanks outside of quotes made as few as can be."""
    return written(parse(text), lambda: " ")


def written(tree: object, blank) -> str:
    """The text of a tree, with blanks of one's choice between its parts."""
    if isinstance(tree, list):
        parts = [written(part, blank) for part in tree]
        return "(" + "".join(part if index == 0 else blank() + part for index, part in enumerate(parts)) + ")"
    if isinstance(tree, Atom):
        return str(tree)
    assert isinstance(tree, str)
    return '"' + tree.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


SINGLE_SHEET = FULL[: FULL.index("\t(sheet\n")] + FULL[FULL.index("\t(sheet_instances") :]


@pytest.mark.kicad("demos")
def test_trimmed_and_whole_demo_files_read_the_same(kicad_demos):
    files = sorted({path for root in kicad_demos for path in root.parent.rglob("*.kicad_sch")})
    assert len(files) >= len(kicad_demos)
    memory = Memory()
    for path in files:
        text = path.read_text(encoding="utf-8")
        assert sheet_file_of_text(plain(text), "", b"", memory) == sheet_file_of_tree(parse(text), "", b""), path


@pytest.mark.kicad("demos")
def test_demo_files_in_one_line_read_the_same(kicad_demos):
    for path in kicad_demos[:12]:
        text = path.read_text(encoding="utf-8")
        assert read(one_line(text)) == read(text), path


def test_trimmed_and_whole_read_the_same():
    assert read(FULL) == read_whole(FULL)


@pytest.mark.parametrize(
    "change",
    [
        pytest.param(one_line, id="one line"),
        pytest.param(lambda text: text.replace("\n", "\r\n"), id="CRLF"),
        pytest.param(lambda text: text.replace("\n", "\r"), id="CR"),
        pytest.param(lambda text: text.replace("\t", "  "), id="two blanks for each tab"),
        pytest.param(lambda text: text.replace("(", "( "), id="blank behind each bracket"),
        pytest.param(lambda text: text.replace("\t(", "\v\f("), id="rare blanks"),
        pytest.param(
            lambda text: text.replace("\t(wire", "\t# no wire (\n\t(wire"), id="comment line, which KiCad reads"
        ),
    ],
)
def test_layout_does_not_matter(change):
    assert change(FULL) != FULL
    expected = read(FULL)
    if "( effects" in change(FULL):  # there it changes texts too
        change = lambda text: text.replace("\t(", "\t( ")  # noqa: E731
    assert read(change(FULL)) == expected


def test_bytes_that_editors_add_do_not_matter(tmp_path: Path):
    plain_bytes = SINGLE_SHEET.encode()
    expected = stored(tmp_path, plain_bytes)
    assert expected.symbols
    assert stored(tmp_path, b"\xef\xbb\xbf" + plain_bytes) == expected
    assert stored(tmp_path, plain_bytes.replace(b"\n", b"\r\n")) == expected


def test_lists_nested_deeper_than_trimming_sees_are_read_whole(tmp_path: Path):
    deep = "\t(novelty " + "(x " * 150 + ")" * 150 + ")\n"
    text = SINGLE_SHEET.replace("\t(wire", deep + "\t(wire", 1)
    with pytest.raises(NotSeen):
        read(text)
    assert stored(tmp_path, text.encode()) == read(SINGLE_SHEET)


BLANKS = (" ", "\n", "\t", "\r\n", "  ", "\n\t\t")


def novelty(chance: random.Random, depth: int = 0) -> list:
    """A list that no reader knows, with anything in it."""
    parts: list = [Atom("novelty")]
    for _ in range(chance.randrange(4)):
        if depth < 3 and chance.random() < 0.4:
            parts.append(novelty(chance, depth + 1))
        else:
            parts.append(chance.choice((Atom("yes"), Atom("1.5"), some_text(chance))))
    return parts


def some_text(chance: random.Random) -> str:
    return "".join(chance.choices('ab ()"\\\n\t;#[]é~${}', k=chance.randrange(12)))


def changed(node: list, chance: random.Random) -> list:
    """The same tree with unknown lists put in, and other texts in fields."""
    parts: list = []
    for part in node:
        parts.append(changed(part, chance) if isinstance(part, list) else part)
        if isinstance(part, list) and chance.random() < 0.05:
            parts.append(novelty(chance))
    if parts[0] == "property" and parts[1] != "private" and chance.random() < 0.5:
        parts[2] = some_text(chance)
    return parts


@settings(max_examples=200, deadline=None)
@given(seed=st.integers(0, 2**32))
def test_any_blanks_any_texts_and_unknown_lists_read_the_same(seed):
    """Random layout of the same tree, with random texts and unknown lists nested up to four deep."""
    chance = random.Random(seed)
    text = written(changed(parse(FULL), chance), lambda: chance.choice(BLANKS))
    assert read_as_files_are(text) == read_whole(text)


@pytest.mark.parametrize(
    ("quoted", "meant"),
    [
        # KiCad 9.0.8: label "A\x41\101\v\qB\x" gives the net name "AAA<VT>\qBx"
        pytest.param(r"A\x41\101\v\qB\x", "AAA\v\\qBx", id="kicad's escapes"),
        pytest.param(r"\xc3\xa9", "é", id="bytes of UTF-8"),
        pytest.param(r"a\"b\\c\\n", 'a"b\\c\\n', id="quotes and backslashes"),
        pytest.param(r"a\nb\rc\td", "a\nb\rc\td", id="line breaks"),
        pytest.param("tab\there", "tab\there", id="a tab as it is"),
        pytest.param("(wire (pts", "(wire (pts", id="brackets"),
        pytest.param("; # no comment", "; # no comment", id="comment marks"),
    ],
)
def test_escapes_in_quoted_texts(quoted, meant):
    text = schematic(
        f'\t(label "{quoted}" (at 0 0 0))\n', LIBRARY, SYMBOL.replace("pilot (effects", quoted + "(effects")
    )
    file = read(text)
    assert file.labels[0].text == meant
    assert file.symbols[0].fields["Value"] == meant + '(effects of "wind") \\ side'


def test_words_that_sexpdata_takes_for_values_stay_words():
    file = read(schematic("\t(label t (at 0 0 0))\n\t(label nil (at 1 0 0))\n\t(label 007 (at 2 0 0))\n"))
    assert [label.text for label in file.labels] == ["t", "nil", "007"]


@pytest.mark.kicad("demos")
def test_demo_files_written_by_sexpdata_read_the_same(kicad_demos, tmp_path: Path):
    """The layout in which kicad-skip saves: sexpdata's one line, numbers written anew."""
    for path in [path for path in kicad_demos if path.stat().st_size < 120_000]:
        text = path.read_text(encoding="utf-8")
        again = sexpdata.dumps(sexpdata.loads(text, nil=None, true=None))
        assert read(again) == read(text), path


@pytest.mark.kicad("demos")
def test_places_tell_the_same_tree(kicad_demos):
    """The exact scanner that finds damage and sexpdata agree on what is in a file."""
    for path in [path for path in kicad_demos if path.stat().st_size < 120_000]:
        text = path.read_text(encoding="utf-8")
        assert Text(text).tree() == parse(text), path
