"""A kicad-skip `Schematic` in place of a path reads as its file does."""

from __future__ import annotations

from pathlib import Path

import pytest
import sexpdata

from drawing.schematic_text import LIBRARY, SYMBOL, WIRE, schematic, sheet
from tabside.errors import TabsideError
from tabside.read import load_hierarchy
from tabside.read.kicad.sheet_file import Hierarchy

skip = pytest.importorskip("skip")


class Opened:
    """What is used of a kicad-skip `Schematic`, with a tree read as it does."""

    def __init__(self, text: str, filepath: object) -> None:
        self.tree = sexpdata.loads(text)
        self.filepath = filepath


def compared(hierarchy: Hierarchy) -> list[object]:
    """All but the root's digest: an object that may have been edited has another one."""
    return [sheet._replace(file=sheet.file._replace(data=b"")) for sheet in hierarchy.sheets]


@pytest.fixture
def root(tmp_path: Path) -> Path:
    wires = WIRE + '\t(label "t" (at 50.8 45.72 0))\n\t(label nil (at 50.8 45.72 0))\n'
    (tmp_path / "boat.kicad_sch").write_text(schematic(LIBRARY, SYMBOL, wires, sheet("a", "s.kicad_sch", "a")))
    (tmp_path / "s.kicad_sch").write_text(schematic(LIBRARY, SYMBOL, uuid="s"))
    return tmp_path / "boat.kicad_sch"


def test_an_object_reads_as_its_file(root: Path):
    # kicad-skip itself stumbles over a label that is no text; see the next test for its own objects
    text = root.read_text().replace("\t(label nil (at 50.8 45.72 0))\n", "")
    root.write_text(text)
    assert compared(load_hierarchy(skip.Schematic(str(root)))) == compared(load_hierarchy(root))


def test_bare_words_that_sexpdata_takes_for_values_are_words(tmp_path: Path):
    text = schematic("\t(label t (at 0 0 0))\n")
    (label,) = load_hierarchy(Opened(text, str(tmp_path / "x.kicad_sch"))).sheets[0].file.labels
    assert label.text == "t"


def test_edits_in_the_object_count(root: Path):
    root.write_text(root.read_text().replace("\t(label nil (at 50.8 45.72 0))\n", ""))
    opened = skip.Schematic(str(root))
    opened.symbol[0].property.Value.value = "edited"
    assert load_hierarchy(opened).sheets[0].file.symbols[0].fields["Value"] == "edited"
    assert load_hierarchy(root).sheets[0].file.symbols[0].fields["Value"] != "edited"


@pytest.mark.parametrize("filepath", [None, ""])
def test_an_object_without_a_path(filepath):
    hierarchy = load_hierarchy(Opened(schematic(WIRE), filepath))
    assert (hierarchy.root_path, len(hierarchy.sheets[0].file.wires)) == ("", 1)


def test_an_object_without_a_path_but_with_sheets_is_refused():
    with pytest.raises(TabsideError, match=r'sheet "/a/" is to be read from s\.kicad_sch, but .* has no path'):
        load_hierarchy(Opened(schematic(sheet("a", "s.kicad_sch", "a")), None))


def test_an_object_that_is_no_schematic_is_refused():
    with pytest.raises(TabsideError, match=r"x\.kicad_sch: cannot be read as a schematic: .*kicad_pcb"):
        load_hierarchy(Opened("(kicad_pcb (version 20250114))", "x.kicad_sch"))


def test_sheets_that_include_the_objects_own_file_are_refused(root: Path):
    (root.parent / "s.kicad_sch").write_text(schematic(sheet("b", "boat.kicad_sch", "b"), uuid="s"))
    opened = Opened(root.read_text().replace("(label nil ", '(label "n" '), str(root))
    with pytest.raises(TabsideError, match="includes itself"):
        load_hierarchy(opened)


def test_what_is_neither_path_nor_object_is_refused():
    with pytest.raises(TypeError):
        load_hierarchy(5)  # type: ignore[arg-type]


@pytest.mark.kicad("demos")
def test_demo_objects_read_as_their_files(kicad_demos):
    small = [path for path in kicad_demos if path.stat().st_size < 120_000]
    assert small
    for path in small:
        assert compared(load_hierarchy(skip.Schematic(str(path)))) == compared(load_hierarchy(path)), path
