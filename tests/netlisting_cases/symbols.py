"""Where a symbol's pins lie, and which pins it has: units, body styles, alternates, hidden and stacked pins.

Source of every verdict: seen in KiCad 9.0.8.
"""

from __future__ import annotations

from drawing.drawing_kit import Pin, Placed, Sheet, connector, multi_unit, part, power

from .case import Cases

SYMBOLS = Cases()
G = 2.54

# Sheet positions (y downwards, in steps) of library pins A (1, 3) and B (2, -1), y upwards, by angle and mirror:
# flip y, turn counter-clockwise on the screen, then mirror (`x` negates dy, `y` negates dx).
PLACED_AT = {
    (0, ""): ((1, -3), (2, 1)),
    (90, ""): ((-3, -1), (1, -2)),
    (180, ""): ((-1, 3), (-2, -1)),
    (270, ""): ((3, 1), (-1, 2)),
    (0, "x"): ((1, 3), (2, -1)),
    (90, "x"): ((-3, 1), (1, 2)),
    (180, "x"): ((-1, -3), (-2, 1)),
    (270, "x"): ((3, -1), (-1, -2)),
    (0, "y"): ((-1, -3), (-2, 1)),
    (90, "y"): ((3, -1), (-1, -2)),
    (180, "y"): ((1, 3), (2, -1)),
    (270, "y"): ((-3, 1), (1, 2)),
}

for _how, _places in PLACED_AT.items():

    @SYMBOLS(
        {"Net-(U1-A)": "P1 U1.1", "Net-(U1-B)": "P2 U1.2"},
        name=f"symbol placed at {_how[0]} degrees" + (f", mirrored {_how[1]}" if _how[1] else ""),
    )
    def _placed(
        s: Sheet, how: tuple[int, str] = _how, places: tuple[tuple[int, int], tuple[int, int]] = _places
    ) -> None:
        u1 = part([Pin("1", (G, 3 * G), "A"), Pin("2", (2 * G, -G), "B")], name="skew")
        s.place(u1, (0, 0), how[0], how[1], reference="U1")
        s.probes(P1=places[0], P2=places[1])


def _styled() -> list[Pin]:
    """One pin for each combination of unit 0 to 2 and body style 0 to 2; its name says which."""
    return [Pin(f"{u}{s}", (0, 2 * G * (3 * u + s)), f"U{u}S{s}", unit=u, style=s) for u in range(3) for s in range(3)]


for _unit, _style, _has in ((1, 1, "00 01 10 11"), (2, 1, "00 01 20 21"), (1, 2, "00 02 10 12"), (2, 2, "00 02 20 22")):

    @SYMBOLS(
        {f"unconnected-(U1{'AB'[_unit - 1]}-U{pin[0]}S{pin[1]}-Pad{pin})": f"U1.{pin}" for pin in _has.split()},
        name=f"pins of unit {_unit} in body style {_style}",
    )
    def _unit_and_style(s: Sheet, unit: int = _unit, style: int = _style) -> None:
        s.place(part(_styled(), name="styled"), (0, 0), reference="U1", unit=unit, style=style)


def _two_units(shared: bool = False) -> Placed | object:
    return multi_unit(
        [[Pin("1", (0, 0), "A")], [Pin("2", (0, 0), "B")]],
        name="pair_shared" if shared else "pair",
        shared=[Pin("3", (0, 2 * G), "V")] if shared else [],
    )


@SYMBOLS({"Net-(U1A-A)": "U1.1 U2.2", "unconnected-(U1B-B-Pad2)": "U1.2", "unconnected-(U2A-A-Pad1)": "U2.1"})
def units_of_two_parts(s: Sheet) -> None:
    for k, (reference, unit) in enumerate((("U1", 1), ("U1", 2), ("U2", 1), ("U2", 2))):
        s.place(_two_units(), (0, 4 * k), reference=reference, unit=unit)
    s.wire((0, 0), (4, 0), (4, 12), (0, 12))


@SYMBOLS({"Net-(U1B-B)": "P1 U1.2"})
def unit_said_for_the_sheet_path_wins_over_the_symbols_own(s: Sheet) -> None:
    s.place(_two_units(), (0, 0), reference="U1", unit=1, units=dict.fromkeys(range(9), 2))
    s.probes(P1=(0, 0))


@SYMBOLS(
    {
        "Net-(U1A-V)": "P1 U1.3",
        "Net-(U1B-V)": "P2 U1.3",
        "unconnected-(U1A-A-Pad1)": "U1.1",
        "unconnected-(U1B-B-Pad2)": "U1.2",
    }
)
def shared_pin_of_two_units_wired_differently(s: Sheet) -> None:
    s.place(_two_units(True), (0, 0), reference="U1", unit=1)
    s.place(_two_units(True), (8, 0), reference="U1", unit=2)
    s.probes(P1=(0, -2), P2=(8, -2))


@SYMBOLS(
    {
        "unconnected-(U1A-V-Pad3)": "U1.3",
        "unconnected-(U1B-V-Pad3)": "U1.3",
        "unconnected-(U1A-A-Pad1)": "U1.1",
        "unconnected-(U1B-B-Pad2)": "U1.2",
    }
)
def shared_pin_of_two_units_left_open(s: Sheet) -> None:
    s.place(_two_units(True), (0, 0), reference="U1", unit=1)
    s.place(_two_units(True), (8, 0), reference="U1", unit=2)


@SYMBOLS({"Net-(P1-Pad1)": "P1 U1.1", "Net-(P2-Pad1)": "P2 U1.1"})
def the_same_pin_number_twice(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0)), Pin("1", (4 * G, 0))], name="twice"), (0, 0), reference="U1")
    s.probes(P1=(0, 0), P2=(4, 0))


@SYMBOLS({"Net-(P1-Pad1)": "P1 U1.1"})
def the_same_pin_number_twice_on_one_net(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0)), Pin("1", (4 * G, 0))], name="twice"), (0, 0), reference="U1")
    s.wire((0, 0), (4, 0))
    s.probes(P1=(0, 0))


@SYMBOLS({"Net-(U1-B)": "U1.1 U1.2 U1.3"})
def pins_stacked_on_each_other_one_of_them_hidden(s: Sheet) -> None:
    pins = [Pin("1", (0, 0), "A"), Pin("2", (0, 0), "A"), Pin("3", (0, 0), "B", hidden=True)]
    s.place(part(pins, name="stacked"), (0, 0), reference="U1")


@SYMBOLS({"Net-(U1-A-Pad1)": "U1.1 U1.2"})
def stacked_pins_of_one_name(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "A"), Pin("2", (0, 0), "A")], name="stacked2"), (0, 0), reference="U1")


@SYMBOLS({"Net-(U1-A)": "P1 U1.[1-3,5]"})
def bracketed_pin_number_is_plain_text(s: Sheet) -> None:
    s.place(part([Pin("[1-3,5]", (0, 0), "A")], name="bracketed"), (0, 0), reference="U1")
    s.probes(P1=(0, 0))


@SYMBOLS({"unconnected-(U1-A-Pad1)": "U1.1"}, alone="P1")
def pin_of_type_no_connect_joins_nothing(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "A", "no_connect")], name="nc"), (0, 0), reference="U1")
    s.probes(P1=(0, 0))


for _type in (
    "free",
    "unspecified",
    "passive",
    "input",
    "output",
    "bidirectional",
    "tri_state",
    "power_in",
    "power_out",
    "open_collector",
    "open_emitter",
):

    @SYMBOLS({"Net-(U1-A)": "P1 U1.1"}, name=f"pin of type {_type} joins")
    def _typed(s: Sheet, kind: str = _type) -> None:
        s.place(part([Pin("1", (0, 0), "A", kind)], name=f"typed_{kind}"), (0, 0), reference="U1")
        s.probes(P1=(0, 0))


@SYMBOLS({"Net-(U1-A)": "P1 U1.1"})
def hidden_pin_joins_like_a_visible_one(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "A", "input", hidden=True)], name="hidden"), (0, 0), reference="U1")
    s.wire((0, 0), (4, 0))
    s.probes(P1=(4, 0))


@SYMBOLS({"Net-(U1-PA1)": "U1.1 U2.1", "unconnected-(U3-PA1-Pad1)": "U3.1"})
def chosen_alternate_function_does_not_name_the_net(s: Sheet) -> None:
    symbol = part([Pin("1", (0, 0), "PA1", "bidirectional", alternates={"TX": "output", "A": "input"})], name="mcu")
    s.place(symbol, (0, 0), reference="U1", alternates={"1": "TX"})
    s.place(symbol, (4, 0), reference="U2", alternates={"1": "A"})
    s.place(symbol, (8, 0), reference="U3", alternates={"1": "TX"})
    s.wire((0, 0), (4, 0))


@SYMBOLS({"unconnected-(U1-A-Pad1)": "U1.1"}, alone="P1")
def alternate_of_type_no_connect_joins_nothing(s: Sheet) -> None:
    symbol = part([Pin("1", (0, 0), "A", alternates={"NC": "no_connect"})], name="alternate_nc")
    s.place(symbol, (0, 0), reference="U1", alternates={"1": "NC"})
    s.probes(P1=(0, 0))


@SYMBOLS({"Net-(U1-A)": "P1 U1.1", "Net-(U2-A)": "P2 U2.1"})
def lib_name_selects_the_entry(s: Sheet) -> None:
    """U2 has the same lib_id, but was edited in the drawing: its pin lies elsewhere."""
    s.place(part([Pin("1", (0, 0), "A")], name="edited"), (0, 0), reference="U1")
    s.place(
        part([Pin("1", (4 * G, 0), "A")], name="edited_1"),
        (0, 8),
        reference="U2",
        lib_name="edited_1",
        lib_id="kit:edited",
    )
    s.probes(P1=(0, 0), P2=(4, 8))


@SYMBOLS({"Net-(J1-Pad??)": "J1.1 J1.2 P2", "/X": "J2.1 J2.2 J2.3"}, alone="P1")
def symbol_without_its_entry_has_all_its_pins_on_its_own_point(s: Sheet) -> None:
    """The pins that the placed symbol lists by itself; nothing says where they are, nor what they are called."""
    s.place(connector(2), (0, 0), reference="J1", lib_id="kit:lost")
    s.place(connector(3), (8, 0), reference="J2", lib_id="kit:lost")
    s.hidden_from_library.add("kit:lost")
    s.label("local", "X", (8, 0))
    s.probes(P1=(-2, 0), P2=(0, 0))


@SYMBOLS({}, alone="P1 P2")
def symbol_without_its_entry_and_without_pins_of_its_own(s: Sheet) -> None:
    s.place(connector(2), (0, 0), reference="J1", lib_id="kit:lost", pin_entries=False)
    s.hidden_from_library.add("kit:lost")
    s.probes(P1=(-2, 0), P2=(0, 0))


@SYMBOLS({"Net-(J1-Pad??)": "J1.1 J1.2"}, alone="P1")
def symbol_with_a_wrong_lib_name(s: Sheet) -> None:
    """That its lib_id has an entry does not help."""
    s.place(connector(2), (0, 0), reference="J1", lib_name="conn_lost")
    s.hidden_from_library.add("conn_lost")
    s.place(connector(2), (0, 8), reference="#J2")
    s.probes(P1=(-2, 0))


@SYMBOLS({"Net-(U1-A)": "U1.1 U2.1 U3.1 U4.1"})
def flags_for_bom_board_and_population_change_nothing(s: Sheet) -> None:
    symbol = part([Pin("1", (0, 0), "A")], name="flagged")
    for k, flags in enumerate(({"in_bom": False}, {"on_board": False}, {"dnp": True}, {}), 1):
        s.place(symbol, (0, 0), reference=f"U{k}", **flags)


@SYMBOLS({}, alone="P1")
def references_that_begin_with_a_hash_are_not_listed(s: Sheet) -> None:
    s.place(part([Pin("1", (0, 0), "A")], name="hash", prefix="#X"), (0, 0), reference="#X1")
    s.probes(P1=(4, 0))


@SYMBOLS({"VCC": "P1"})
def power_symbol_with_another_reference_is_not_listed(s: Sheet) -> None:
    s.place(power("VCC"), (0, 0), reference="U7", value="VCC")
    s.probes(P1=(0, 0))
