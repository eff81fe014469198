"""What a net is called: which of its drivers wins, and how the name is made of it.

Source of every verdict: seen in KiCad 9.0.8.
"""

from __future__ import annotations

from drawing.drawing_kit import Pin, Sheet, part, power_flag, two_pin

from .case import Cases
from .hierarchy import port
from .labels import below

NAMES = Cases()
# From the strongest down; all on one wire of the root sheet.
RANKS = ("global", "power", "local", "hierarchical", "sheet pin")
NAME_OF = {"global": "Z", "power": "Y", "local": "/C", "hierarchical": "/B", "sheet pin": "/A"}


def _drive(s: Sheet, kind: str, at: tuple[float, float]) -> None:
    """Put a driver of this kind on a point; the stronger it is, the later its name in the alphabet."""
    if kind == "power":
        s.power("Y", at)
    elif kind == "sheet pin":
        s.sheet(below(), "sub", at, (8, 4), pins={"A": at})
    else:
        s.label(kind, {"global": "Z", "local": "C", "hierarchical": "B"}[kind], at)


for _index, _strong in enumerate(RANKS):
    for _weak in RANKS[_index + 1 :]:

        @NAMES({NAME_OF[_strong]: "P1 P2"}, name=f"{_strong} beats {_weak}")
        def _beats(s: Sheet, strong: str = _strong, weak: str = _weak) -> None:
            s.wire((0, 0), (8, 0))
            _drive(s, strong, (0, 0))
            _drive(s, weak, (8, 0))
            s.probes(P1=(0, 0), P2=(8, 0))

    @NAMES({NAME_OF[_strong]: "U1.1"}, name=f"{_strong} beats pin")
    def _beats_pin(s: Sheet, strong: str = _strong) -> None:
        s.place(part([Pin("1", (0, 0), "0")], name="named"), (0, 0), reference="U1")
        _drive(s, strong, (0, 0))


@NAMES({"/B": "P1", "/A": "P2"}, name="capital letters come before small ones")
def _capitals(s: Sheet) -> None:
    for y, texts in ((0, ("a", "B")), (4, ("b", "A"))):
        s.wire((0, y), (8, y))
        s.label("local", texts[0], (0, y))
        s.label("local", texts[1], (8, y))
    s.probes(P1=(0, 0), P2=(0, 4))


_ROW = {"unconnected-(R2-Pad2)": "R2.2", "unconnected-(R10-Pad2)": "R10.2"}


@NAMES({"Net-(R10-Pad1)": "R2.1 R10.1", **_ROW}, elsewhere={"Net-(R2-Pad1)": "R2.1 R10.1", **_ROW})
def smallest_name_by_characters_not_by_number(s: Sheet) -> None:
    """R10 before R2; in the uses elsewhere they are R102 and R110."""
    s.place(two_pin(), (0, 0), reference="R2")
    s.place(two_pin(), (8, 0), reference="R10")
    s.wire((0, -1.5), (8, -1.5))


@NAMES({"Net-(U9-IN)": "P1 U9.1"})
def a_name_with_pad_loses_against_one_without(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "IN")], name="in"), (0, 0), reference="U9")
    s.probes(P1=(0, 0))


@NAMES({"Net-(U1-IN-Pad3)": "U1.3 Z1", "unconnected-(U1-IN-Pad4)": "U1.4"})
def a_pin_name_that_the_part_has_twice_carries_the_number(s: Sheet) -> None:
    s.place(part([Pin("3", (0, 0), "IN"), Pin("4", (8 * 2.54, 0), "IN")], name="twin"), (0, 0), reference="U1")
    s.wire((0, 0), (4, 0))
    s.place(_open(), (4, 0), reference="Z1")


def _open() -> object:
    """A probe without a pin name."""
    return part([Pin("1", (0, 0), "~", length=0)], name="open", prefix="P")


for _shown, _name in (("empty", ""), ("a tilde", "~"), ("equal to its number", "1")):

    @NAMES({"Net-(U1-Pad1)": "U1.1 U2.1"}, name=f"pin name is {_shown}")
    def _nameless(s: Sheet, name: str = _name) -> None:
        symbol = part([Pin("1", (0, 0), name)], name=f"nameless_{len(name)}{name.isdigit()}")
        s.place(symbol, (0, 0), reference="U1")
        s.place(symbol, (0, 0), reference="U2")


@NAMES({"unconnected-(U1-IN-Pad1)": "U1.1", "unconnected-(U1-Pad2)": "U1.2"})
def lone_pins(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "IN"), Pin("2", (8, 0))], name="lone"), (0, 0), reference="U1")


@NAMES({"unconnected-(U1-IN-Pad1)": "U1.1 U2.1"})
def no_connect_flag_on_a_net_of_two_named_pins(s: Sheet) -> None:
    symbol = part([Pin("1", (0, 0), "IN")], name="in")
    s.place(symbol, (0, 0), reference="U1")
    s.place(symbol, (4, 0), reference="U2")
    s.wire((0, 0), (4, 0))
    s.no_connect((4, 0))


@NAMES({"Net-(U1-IN)": "U1.1"})
def a_lone_pin_with_a_nameless_pin_on_it_is_not_unconnected(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "IN")], name="in"), (0, 0), reference="U1")
    s.place(power_flag(), (0, 0), value="PWR_FLAG")


@NAMES({"Net-(U1-~{CS})": "U1.1 P1"})
def overbars_stay(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "~{CS}")], name="bar"), (0, 0), reference="U1")
    s.place(_open(), (0, 0), reference="P1")


@NAMES({"Net-(U1-A/B)": "U1.1 P1"})
def slash_in_a_pin_name(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "A/B")], name="slashed"), (0, 0), reference="U1")
    s.place(_open(), (0, 0), reference="P1")


@NAMES({"/sub/X": "P1 P5"})
def label_below_names_the_net_of_a_bare_sheet_pin(s: Sheet) -> None:
    s.sheet(port("X", "P5"), "sub", (0, 0), (8, 4), left=["X"])
    s.probes(P1=(0, 1))


@NAMES({"/Z": "P1 P5"})
def a_label_of_the_upper_sheet_beats_one_of_its_kind_below(s: Sheet) -> None:
    s.sheet(port("A", "P5"), "sub", (0, 0), (8, 4), left=["A"])
    s.label("local", "Z", (0, 1))
    s.probes(P1=(0, 1))


@NAMES({"/sub/Z": "P1 P5"})
def a_local_label_below_beats_the_hierarchical_one_and_the_sheet_pin(s: Sheet) -> None:
    child = port("A", "P5")
    child.label("local", "Z", (0, 0))
    s.sheet(child, "sub", (0, 0), (8, 4), left=["A"])
    s.probes(P1=(0, 1))


@NAMES({"Z": "P1 P5"})
def a_global_label_below_beats_a_local_one_above(s: Sheet) -> None:
    child = port("A", "P5")
    child.label("global", "Z", (0, 0))
    s.sheet(child, "sub", (0, 0), (8, 4), left=["A"])
    s.label("local", "B", (0, 1))
    s.probes(P1=(0, 1))


@NAMES({"Z": "P1 P5"})
def a_power_symbol_below_beats_a_local_label_above(s: Sheet) -> None:
    child = port("A", "P5")
    child.power("Z", (0, 0))
    s.sheet(child, "sub", (0, 0), (8, 4), left=["A"])
    s.label("local", "B", (0, 1))
    s.probes(P1=(0, 1))


@NAMES({"/Z": "P5 P6"})
def an_output_among_sheet_pins_names_first(s: Sheet) -> None:
    s.sheet(below("first"), "one", (0, 0), (8, 4), right=["A"], shapes={"A": "input"})
    s.sheet(below("second"), "two", (20, 0), (8, 4), left=["Z"], shapes={"Z": "output"})
    s.wire((8, 1), (20, 1))
    s.probes(P5=(8, 1), P6=(20, 1))


@NAMES({"Net-(U1-A)": "U1.1 P1", "Net-(U1-A)_1": "U1.2 P2", "Net-(U1-A)_2": "U1.3 P3"}, any_suffix=True)
def automatic_names_that_would_be_equal_get_suffixes(s: Sheet) -> None:
    for k in (1, 2, 3):
        s.place(part([Pin(str(k), (0, 0), "A")], name=f"single_{k}"), (0, 8 * k), reference="U1")
        s.place(_open(), (0, 8 * k), reference=f"P{k}")


@NAMES(
    {"Net-(U1-A)": "P2", "Net-(U1-A)_1": "U1.1 P1"},
    elsewhere={"global:Net-(U1-A)": "P2", "Net-(U1-A)": "U1.1 P1"},
)
def a_global_label_that_looks_like_an_automatic_name(s: Sheet) -> None:
    """Elsewhere the part is U101 and so on, and its name is free."""
    s.place(part([Pin("1", (0, 0), "A")], name="single"), (0, 0), reference="U1")
    s.label("global", "Net-(U1-A)", (8, 0))
    s.probes(P1=(0, 0), P2=(8, 0))
