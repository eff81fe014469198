"""Sheets and their uses: sheet pins, paths, files, references.

Source of every verdict: seen in KiCad 9.0.8.
"""

from __future__ import annotations

from drawing.drawing_kit import Pin, Sheet, part

from .case import Cases
from .labels import below

HIERARCHY = Cases()


def port(label: str, reference: str, *, name: str = "below", kind: str = "hierarchical") -> Sheet:
    """A sheet with one labelled probe."""
    child = below(name)
    child.label(kind, label, (0, 0))
    child.probes(**{reference: (0, 0)})
    return child


@HIERARCHY({"/sub/X": "P1 P5"})
def sheet_pin_meets_the_hierarchical_label_of_its_text(s: Sheet) -> None:
    s.sheet(port("X", "P5"), "sub", (0, 0), (8, 4), left=["X"])
    s.probes(P1=(0, 1))


@HIERARCHY({"/sub/x": "P5", "/X": "P1"})
def case_counts_between_sheet_pin_and_label(s: Sheet) -> None:
    s.sheet(port("x", "P5"), "sub", (0, 0), (8, 4), left=["X"])
    s.label("local", "X", (0, 1))
    s.probes(P1=(0, 1))


@HIERARCHY({"/X": "P1 P2"})
def sheet_pin_without_a_label_below_names_the_net(s: Sheet) -> None:
    """With the path of the sheet that it stands on, not of the one it leads to."""
    s.sheet(below(), "sub", (0, 0), (8, 4), left=["X"])
    s.wire((-4, 1), (0, 1))
    s.probes(P1=(-4, 1), P2=(0, 1))


@HIERARCHY({"/sub/X": "P5"}, alone="P1")
def hierarchical_label_without_a_sheet_pin_above(s: Sheet) -> None:
    s.sheet(port("X", "P5"), "sub", (0, 0), (8, 4))
    s.probes(P1=(0, 1))


@HIERARCHY({"/one/X": "P1 P5", "/two/X": "P2 P15"})
def a_sheet_used_twice_has_two_sets_of_nets(s: Sheet) -> None:
    child = port("X", "P5")
    s.sheet(child, "one", (0, 0), (8, 4), left=["X"], add=0)
    s.sheet(child, "two", (0, 8), (8, 4), left=["X"], add=10)
    s.probes(P1=(0, 1), P2=(0, 9))


@HIERARCHY({"/one/X": "P5 P15"})
def two_uses_of_a_sheet_wired_together(s: Sheet) -> None:
    """Both names stand equally deep; the smaller one wins."""
    child = port("X", "P5")
    s.sheet(child, "one", (0, 0), (8, 4), left=["X"], add=0)
    s.sheet(child, "two", (0, 8), (8, 4), left=["X"], add=10)
    s.wire((0, 1), (0, 9))


@HIERARCHY({"/mid/Y": "P1 P9"})
def sheet_pins_pass_through_two_levels(s: Sheet) -> None:
    middle = below("middle")
    middle.sheet(port("X", "P9", name="lowest"), "low", (0, 0), (8, 4), left=["X"])
    middle.wire((-4, 1), (0, 1))
    middle.label("hierarchical", "Y", (-4, 1))
    s.sheet(middle, "mid", (0, 0), (8, 4), left=["Y"])
    s.probes(P1=(0, 1))


@HIERARCHY({"/mid/X": "P1 P8", "/mid/low/X": "P9"})
def a_sheet_between_that_passes_nothing_on(s: Sheet) -> None:
    middle = port("X", "P8", name="middle")
    middle.sheet(port("X", "P9", name="lowest"), "low", (8, 0), (8, 4), left=["X"])
    s.sheet(middle, "mid", (0, 0), (8, 4), left=["X"])
    s.probes(P1=(0, 1))


@HIERARCHY({"/one/X": "P5 P6"})
def sheet_pins_of_two_sheets_on_one_point(s: Sheet) -> None:
    s.sheet(port("X", "P5", name="first"), "one", (0, 0), (8, 4), right=["X"])
    s.sheet(port("Y", "P6", name="second"), "two", (8, 0), (8, 4), left=["Y"])


@HIERARCHY({"/sub/X": "P1 P5"})
def sheet_file_in_a_folder_of_its_own(s: Sheet) -> None:
    """Relative to the folder of the file that holds the sheet, not of the root."""
    outer = Sheet("part/outer", grid=2.54, origin_mm=(101.6, 101.6))
    outer.label("hierarchical", "X", (0, 0))
    outer.probes(P5=(0, 0))
    s.sheet(outer, "sub", (0, 0), (8, 4), left=["X"])
    s.probes(P1=(0, 1))


@HIERARCHY({"/sub/Y": "P1 P9"}, turns=False)
def sheet_file_below_a_sheet_in_a_folder_of_its_own(s: Sheet) -> None:
    lowest = port("X", "P9", name="part/deep/lowest")
    middle = below("part/middle")
    middle.sheet(lowest, "low", (0, 0), (8, 4), left=["X"], file="deep/lowest.kicad_sch")
    middle.label("hierarchical", "Y", (0, 1))
    s.sheet(middle, "sub", (0, 0), (8, 4), left=["Y"])
    s.probes(P1=(0, 1))


@HIERARCHY({"/sub/X": "P1 P5"}, turns=False)
def sheet_file_written_with_a_backslash(s: Sheet) -> None:
    s.sheet(port("X", "P5", name="part/leaf"), "sub", (0, 0), (8, 4), left=["X"], file="part\\leaf.kicad_sch")
    s.probes(P1=(0, 1))


@HIERARCHY({"/a/b c/X": "P1 P5"})
def sheet_names_stand_unescaped_in_the_path(s: Sheet) -> None:
    s.sheet(port("X", "P5"), "a/b c", (0, 0), (8, 4), left=["X"])
    s.probes(P1=(0, 1))


@HIERARCHY({"/same/X": "P5 P6"})
def equal_sheet_names_merge_nets_of_equal_path_names(s: Sheet) -> None:
    s.sheet(port("X", "P5", name="first", kind="local"), "same", (0, 0), (8, 4))
    s.sheet(port("X", "P6", name="second", kind="local"), "same", (0, 8), (8, 4))


# References.


def _named() -> object:
    return part([Pin("1", (0, 0), "A")], name="named")


@HIERARCHY({"/X": "U1.1 P1"}, alone="P2", once=True)
def without_its_reference_a_part_names_no_net(s: Sheet) -> None:
    """Its nets are left out where it would name them; under a label it stands with its own reference."""
    s.place(_named(), (0, 0), reference="U1", instances=False)
    s.place(_named(), (0, 4), reference="U2", instances=False)
    s.label("local", "X", (0, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@HIERARCHY({"/X": "U?.1 P1", "unconnected-(P2-Pad1)": "P2 U?.1"}, alone="P3")
def parts_never_annotated(s: Sheet) -> None:
    for y in (0, 4, 8, 12):
        s.place(_named(), (0, y), reference="U?")
    s.wire((0, 8), (0, 12))
    s.label("local", "X", (0, 0))
    s.probes(P1=(0, 0), P2=(0, 4), P3=(20, 0))
