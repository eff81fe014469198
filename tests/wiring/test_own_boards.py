"""Signals of an own board's connector, read off the nets of its KiCad project."""

import pytest

from drawing.drawing_kit import Pin, Sheet, connector, part, two_pin
from tabside.board_reading import read_board
from tabside.errors import TabsideError

FILE = """
[board]
name = "logger"
drawn_in = "logger/logger.kicad_sch"
[[plugs]]
name = "BUS"
reference = "J1"
"""
CHIP = part(
    [Pin("1", (-10.16, 0), "TXD"), Pin("2", (-10.16, -2.54), "RXD"), Pin("3", (-10.16, -5.08), "3")], name="chip"
)


@pytest.fixture
def own(tmp_path):
    """A function that writes a project (what `draw` draws beside J1 with its pins) and reads the board."""

    def read(draw, ways=3, text=FILE, **more):
        root = Sheet("logger")
        j1 = root.place(connector(ways), (50.8, 50.8), reference="J1", value="BUS", **more)
        draw(root, j1)
        (tmp_path / "logger").mkdir(exist_ok=True)
        root.write(tmp_path / "logger")
        (tmp_path / "logger.board.toml").write_text(text)
        return read_board(tmp_path / "logger.board.toml")

    return read


def signals(held, plug=0):
    return [contact.label or ("nc" if contact.flagged_empty else "") for contact in held.plugs[plug].contacts]


def chip(root):
    return root.place(CHIP, (127, 50.8), reference="U1")


def test_names_of_labels_and_power_symbols_are_the_signals(own):
    def draw(root, j1):
        root.power("+5V", j1.pin("1"))
        root.label("local", "TX", j1.pin("2"))
        root.label("global", "GND", j1.pin("3"))

    held = own(draw)
    assert signals(held) == ["+5V", "TX", "GND"]
    assert held.board.plugs[0].nets == ("+5V", "/TX", "GND")


def test_a_net_without_a_name_is_followed_through_one_part_in_line(own):
    def draw(root, j1):
        resistor = root.place(two_pin("R"), (76.2, 76.2), reference="R1")
        root.wire(j1.pin("1"), resistor.pin("1"))
        root.label("local", "TX", resistor.pin("2"))
        pull_up = root.place(two_pin("R"), (101.6, 101.6), reference="R2")
        u1 = chip(root)
        root.wire(j1.pin("2"), pull_up.pin("1"), u1.pin("2"))
        root.power("+3V3", pull_up.pin("2"))
        root.power("GND", j1.pin("3"))

    # A pull-up beside the chip is no way on: the chip's pin says what the contact is.
    assert signals(own(draw)) == ["TX", "RXD", "GND"]


def test_the_far_pins_name_serves_behind_a_part_too(own):
    def draw(root, j1):
        resistor = root.place(two_pin("R"), (76.2, 76.2), reference="R1")
        u1 = chip(root)
        root.wire(j1.pin("1"), resistor.pin("1"))
        root.wire(resistor.pin("2"), u1.pin("1"))
        root.wire(j1.pin("2"), u1.pin("3"))  # whose name is its number
        root.power("GND", j1.pin("3"))

    held = own(draw)
    assert signals(held) == ["TXD", "", "GND"] and held.board.plugs[0].unknown == (2,)


def test_a_part_that_is_not_fitted_leads_nowhere(own):
    def draw(root, j1):
        resistor = root.place(two_pin("R"), (76.2, 76.2), reference="R1", dnp=True)
        root.wire(j1.pin("1"), resistor.pin("1"))
        root.label("local", "TX", resistor.pin("2"))

    assert signals(own(draw))[0] == "nc"


def test_a_capacitor_beside_does_not_hide_a_fuse(own):
    def draw(root, j1):
        fuse = root.place(two_pin("F"), (76.2, 76.2), reference="F1")
        capacitor = root.place(two_pin("C"), (101.6, 101.6), reference="C1")
        root.wire(j1.pin("1"), fuse.pin("1"), capacitor.pin("1"))
        root.power("GND", capacitor.pin("2"))
        root.power("+BATT", fuse.pin("2"))

    assert signals(own(draw))[0] == "+BATT"


def test_a_connector_brings_its_footprint_and_fields(own):
    header = "Connector_JST:JST_GH_SM03B-GHS-TB_1x03-1MP_P1.25mm_Horizontal"
    held = own(
        lambda root, j1: None, footprint=header, fields={"Gives": "1:5V 1A", "Board": "other", "Signals": "a b c"}
    )
    plug = held.plugs[0]
    assert (plug.family, plug.entry, plug.contact_1, plug.board) == ("jst_gh", "side", "left", "logger")
    assert held.board.plugs[0].fields["Gives"] == "1:5V 1A" and signals(held) == ["nc", "nc", "nc"]


def test_a_changed_project_changes_the_files_hash(own):
    before = own(lambda root, j1: root.label("local", "TX", j1.pin("1"))).board.file_hash
    after = own(lambda root, j1: root.label("local", "RX", j1.pin("1"))).board.file_hash
    assert before != after


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (FILE.replace('"J1"', '"J11"'), 'plugs[0].reference: logger/logger.kicad_sch has no "J11"; did you mean "J1"?'),
        (FILE.replace("logger.kicad_sch", "other.kicad_sch"), 'board.drawn_in: "logger/other.kicad_sch" is not there'),
    ],
)
def test_what_is_not_in_the_project_is_told(own, text, said):
    with pytest.raises(TabsideError) as error:
        own(lambda root, j1: None, text=text)
    assert said in str(error.value) and str(error.value).startswith("logger.board.toml: ")
