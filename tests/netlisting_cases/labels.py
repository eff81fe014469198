"""What names join: local, global and hierarchical labels, power symbols, hidden power pins.

Source of every verdict: seen in KiCad 9.0.8.
"""

from __future__ import annotations

from drawing.drawing_kit import Pin, Sheet, part, power, power_flag

from .case import Cases

LABELS = Cases()


def below(name: str = "below") -> Sheet:
    """An empty sub-sheet on the cases' grid."""
    return Sheet(name, grid=2.54, origin_mm=(101.6, 101.6))


@LABELS({"/X": "P1 P2", "/Y": "P3"})
def equal_local_labels_on_one_sheet(s: Sheet) -> None:
    s.label("local", "X", (0, 0), (0, 4))
    s.label("local", "Y", (0, 8))
    s.probes(P1=(0, 0), P2=(0, 4), P3=(0, 8))


@LABELS({"/X": "P1", "/sub/X": "P5"})
def equal_local_labels_on_two_sheets(s: Sheet) -> None:
    child = below()
    for sheet, reference in ((s, "P1"), (child, "P5")):
        sheet.label("local", "X", (0, 0))
        sheet.probes(**{reference: (0, 0)})
    s.sheet(child, "sub", (8, 0), (8, 4))


@LABELS({"X": "P1 P5"})
def equal_global_labels_on_two_sheets(s: Sheet) -> None:
    child = below()
    for sheet, reference in ((s, "P1"), (child, "P5")):
        sheet.label("global", "X", (0, 0))
        sheet.probes(**{reference: (0, 0)})
    s.sheet(child, "sub", (8, 0), (8, 4))


@LABELS({"/X": "P1 P2"})
def hierarchical_label_without_a_sheet_pin_is_a_local_one(s: Sheet) -> None:
    s.label("hierarchical", "X", (0, 0))
    s.label("local", "X", (0, 4))
    s.probes(P1=(0, 0), P2=(0, 4))


@LABELS({"X": "P1 P2 P3 P4"})
def four_kinds_of_one_text_on_one_sheet(s: Sheet) -> None:
    for y, kind in ((0, "local"), (4, "global"), (8, "hierarchical")):
        s.label(kind, "X", (0, y))
    s.power("X", (0, 12))
    s.probes(P1=(0, 0), P2=(0, 4), P3=(0, 8), P4=(0, 12))


@LABELS({"/X": "P1", "X": "P5"})
def local_label_equal_to_a_global_one_on_another_sheet(s: Sheet) -> None:
    child = below()
    s.label("local", "X", (0, 0))
    child.label("global", "X", (0, 0))
    s.probes(P1=(0, 0))
    child.probes(P5=(0, 0))
    s.sheet(child, "sub", (8, 0), (8, 4))


@LABELS({"/X": "P1", "/sub/X": "P2 P5"})
def sheet_pin_does_not_join_a_label_of_its_text(s: Sheet) -> None:
    child = below()
    child.label("hierarchical", "X", (0, 0))
    child.probes(P5=(0, 0))
    s.sheet(child, "sub", (8, 0), (8, 4), left=["X"])
    s.wire((4, 1), (8, 1))
    s.label("local", "X", (0, 0))
    s.probes(P1=(0, 0), P2=(4, 1))


@LABELS({"/A": "P1 P2 P3"})
def a_wire_with_two_labels_joins_both_names(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.label("local", "A", (0, 0), (0, 4))
    s.label("local", "B", (8, 0), (0, 8))
    s.probes(P1=(0, 0), P2=(0, 4), P3=(0, 8))


@LABELS({"A": "P1 P2 P3"})
def a_wire_with_two_global_labels_joins_both_names(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.label("global", "A", (0, 0), (0, 4))
    s.label("global", "B", (8, 0), (0, 8))
    s.probes(P1=(0, 0), P2=(0, 4), P3=(0, 8))


@LABELS({"/lead": "P1", "/Lead": "P2", "/ lead ": "P3", "/le ad": "P4 P5"})
def case_and_blanks_count(s: Sheet) -> None:
    for k, text in enumerate(("lead", "Lead", " lead ", "le ad", "le ad"), 1):
        s.label("local", text, (0, 4 * k))
        s.probes(**{f"P{k}": (0, 4 * k)})


@LABELS({"/BAR": "P1 P2", "/${NOBODY}": "P3"}, project={"text_variables": {"FOO": "BAR"}})
def text_variables_are_expanded_before_names_are_compared(s: Sheet) -> None:
    for k, text in enumerate(("${FOO}", "BAR", "${NOBODY}"), 1):
        s.label("local", text, (0, 4 * k))
        s.probes(**{f"P{k}": (0, 4 * k)})


@LABELS({"/A/B": "P1 P2"})
def slash_is_the_same_in_both_spellings(s: Sheet) -> None:
    s.label("local", "A/B", (0, 0))
    s.label("local", "A{slash}B", (0, 4))
    s.probes(P1=(0, 0), P2=(0, 4))


@LABELS([("/X", "P1 P2"), ("global:/X", "P3 P4")])
def two_nets_that_show_the_same_name_stay_apart(s: Sheet) -> None:
    s.label("local", "X", (0, 0), (0, 4))
    s.label("global", "/X", (0, 8), (0, 12))
    s.probes(P1=(0, 0), P2=(0, 4), P3=(0, 8), P4=(0, 12))


@LABELS({"/AB": "P1 P2"})
def line_breaks_in_a_label_are_dropped(s: Sheet) -> None:
    s.label("local", "A\nB", (0, 0))
    s.label("local", "AB", (0, 4))
    s.probes(P1=(0, 0), P2=(0, 4))


for _escape, _shown in {
    "backslash": "\\",
    "lt": "<",
    "gt": ">",
    "colon": ":",
    "dblquote": '"',
    "quote": "'",
    "bar": "|",
    "comma": ",",
    "space": " ",
    "dollar": "$",
    "tab": "\t",
    "return": "",
    "brace": "{",
}.items():

    @LABELS({f"/A{_shown}B": "P1"}, name=f"escape {{{_escape}}} in a label")
    def _escaped(s: Sheet, escape: str = _escape) -> None:
        s.label("local", f"A{{{escape}}}B", (0, 0))
        s.probes(P1=(0, 0))


for _text in ("~{RST}", "A^{2}", "A_{n}", "A{tilde}B"):

    @LABELS({f"/{_text}": "P1 P2"}, name=f"{_text} stays as it is")
    def _marked(s: Sheet, text: str = _text) -> None:
        s.label("local", text, (0, 0), (0, 4))
        s.probes(P1=(0, 0), P2=(0, 4))


@LABELS({"/<NO NET>": "P1"})
def empty_label(s: Sheet) -> None:
    s.label("local", "", (0, 0))
    s.probes(P1=(0, 0))


# Power.


@LABELS({"GND": "P1 P2 P5"})
def power_symbols_join_over_all_sheets(s: Sheet) -> None:
    child = below()
    s.power("GND", (0, 0), (0, 4))
    child.power("GND", (0, 0))
    s.probes(P1=(0, 0), P2=(0, 4))
    child.probes(P5=(0, 0))
    s.sheet(child, "sub", (8, 0), (8, 4))


@LABELS({"GND": "P1 P2"})
def power_symbol_and_global_label_of_one_text(s: Sheet) -> None:
    s.power("GND", (0, 0))
    s.label("global", "GND", (0, 4))
    s.probes(P1=(0, 0), P2=(0, 4))


@LABELS({"+3V3": "P1 P2"})
def the_value_of_a_power_symbol_names_the_net(s: Sheet) -> None:
    s.place(power("+5V"), (0, 0), value="+3V3")
    s.place(power("+12V", hidden=True), (0, 4), value="+3V3")
    s.probes(P1=(0, 0), P2=(0, 4))


@LABELS({"~": "P1"})
def power_symbol_without_a_value(s: Sheet) -> None:
    s.place(power("+5V"), (0, 0), value="")
    s.probes(P1=(0, 0))


@LABELS({"VCC": "P1 P2"})
def all_power_pins_of_a_power_symbol_share_its_net(s: Sheet) -> None:
    pins = [Pin("1", (0, 0), "a", "power_in", length=0), Pin("2", (4 * 2.54, 0), "b", "power_in", length=0)]
    symbol = part(pins, name="power_two", prefix="#PWR")
    s.place(type(symbol)(**{**symbol.__dict__, "power": "(power)"}), (0, 0), value="VCC")
    s.probes(P1=(0, 0), P2=(4, 0))


def _hidden(kind: str = "power_in", hidden: bool = True) -> object:
    pins = [Pin("1", (0, 0), "A"), Pin("2", (0, 2 * 2.54), "VDD", kind, hidden=hidden)]
    return part(pins, name=f"logic_{kind}_{hidden}")


@LABELS({"VDD": "U1.2 U2.2 P1", "Net-(U1-A)": "U1.1 U2.1"})
def hidden_power_pin_joins_the_global_net_of_its_name(s: Sheet) -> None:
    s.place(_hidden(), (0, 0), reference="U1")
    s.place(_hidden(), (8, 0), reference="U2")
    s.wire((0, 0), (8, 0))
    s.label("global", "VDD", (20, 0))
    s.probes(P1=(20, 0))


@LABELS({"VDD": "U1.2 P1 P2", "unconnected-(U1-A-Pad1)": "U1.1"})
def what_is_wired_to_a_hidden_power_pin_is_on_its_global_net(s: Sheet) -> None:
    s.place(_hidden(), (0, 0), reference="U1")
    s.wire((0, -2), (4, -2))
    s.label("global", "VDD", (20, 0))
    s.probes(P1=(4, -2), P2=(20, 0))


@LABELS(
    {"Net-(U1-VDD)": "U1.2 U2.2", "unconnected-(U1-A-Pad1)": "U1.1", "unconnected-(U2-A-Pad1)": "U2.1", "VDD": "P1"}
)
def hidden_passive_pins_are_not_special(s: Sheet) -> None:
    s.place(_hidden("passive"), (0, 0), reference="U1")
    s.place(_hidden("passive"), (8, 0), reference="U2")
    s.wire((0, -2), (8, -2))
    s.label("global", "VDD", (20, 0))
    s.probes(P1=(20, 0))


@LABELS(
    {
        "unconnected-(U1-VDD-Pad2)": "U1.2",
        "unconnected-(U2-VDD-Pad2)": "U2.2",
        "unconnected-(U1-A-Pad1)": "U1.1",
        "unconnected-(U2-A-Pad1)": "U2.1",
    }
)
def visible_power_pins_are_not_special(s: Sheet) -> None:
    s.place(_hidden(hidden=False), (0, 0), reference="U1")
    s.place(_hidden(hidden=False), (8, 0), reference="U2")


@LABELS({"Net-(P1-Pad1)": "P1", "Net-(P2-Pad1)": "P2 P3"})
def power_flags_join_nothing_and_name_nothing(s: Sheet) -> None:
    for at in ((0, 0), (8, 0)):
        s.place(power_flag(), at, value="PWR_FLAG")
    s.wire((8, 0), (12, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(12, 0))


@LABELS({"GND": "P1 P2"})
def ground_symbols_on_two_ends_of_the_same_drawing(s: Sheet) -> None:
    s.wire((0, 0), (4, 0))
    s.power("GND", (4, 0), (20, 4))
    s.wire((20, 4), (24, 4))
    s.probes(P1=(0, 0), P2=(24, 4))
