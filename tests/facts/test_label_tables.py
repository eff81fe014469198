"""Every label of the tables, and of published pinouts, gives the role that stands beside it."""

from __future__ import annotations

import csv
from collections import defaultdict
from pathlib import Path

import pytest

from tabside.facts.labels.role_kinds import kind_of, role_names
from tabside.facts.labels.roles import read_label
from tabside.facts.tables import table_rows
from tabside.model.roles import Direction, RoleClass

# Pin tables typed from the documents that stand in the column `source`, none of them made by this project.
PINOUTS = Path(__file__).parent / "data" / "pinouts.csv"

# Roles of the pin tables that say more than a label can, each with those that its label gives.
SAYS_LESS = {
    "power_out": ("ambiguous_power", "power_5v", "power_3v3"),  # the label is VCC; out and in are not written on it
    "power_in": ("ambiguous_power", "power_5v"),
    "power": ("ambiguous_power", "power_3v3", "power_5v"),
    "pwm": ("signal_any",),  # SIGNAL on a servo lead
    "video_in": ("video",),  # "Video" says no direction
    "video_out": ("video",),
    "buzzer_drive": ("buzzer",),
    "rs232_rx": ("uart_rx",),  # the nine-pin plug says RS-232, RXD alone does not
    "rs232_tx": ("uart_tx",),
    "rs232_rts": ("uart_rts",),
    "rs232_cts": ("uart_cts",),
    "none": ("nc", "unknown"),
    "usb_id": ("unknown",),
    "ethernet": ("unknown",),
    "cell_tap": ("unknown",),  # B1 is no label of the table
    "gpio": ("unknown",),
    "rs232_dcd": ("unknown",),
    "rs232_dtr": ("unknown",),
    "rs232_dsr": ("unknown",),
    "rs232_ri": ("unknown",),
}
# Single labels, each with its reason.
ODD_PINS = {
    ("board C ESC", "1"): "unknown",  # digits alone repeat the contact's number in most drawings
    ("board C ESC", "2"): "unknown",
    ("board C ESC", "3"): "unknown",
    ("board C ESC", "4"): "unknown",
    ("board C ESC", "CU"): "ambiguous_signal",  # without a motor signal beside it
    ("board C ESC", "RX"): "uart_rx",
    ("board E ESC 1-4", "V"): "ambiguous_power",  # V does not say that it is the battery
    ("10-pin 1.27 mm 2x5", "GNDDetect"): "unknown",  # one word that the table does not have
}


def _pins():
    return list(_each_pin())


def _each_pin():
    with PINOUTS.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    plugs = defaultdict(list)
    for row in rows:
        plugs[(row["standard"], row["port"])].append(row["signal"])
    for row in rows:
        yield pytest.param(
            row, plugs[(row["standard"], row["port"])], id=f"{row['standard']}-{row['port']}-{row['pin']}"
        )


@pytest.mark.parametrize(("row", "plug"), _pins())
def test_each_pin_of_the_published_tables_gives_its_role(row, plug):
    role = read_label(row["signal"], plug)
    odd = ODD_PINS.get((row["port"], row["signal"]))
    if odd is not None:
        assert role.name == odd
    else:
        assert role.name in (row["role"], *SAYS_LESS.get(row["role"], ()))


@pytest.mark.parametrize(("row", "plug"), [pin for pin in _pins() if pin.values[0]["standard"] == "DS-009"])
def test_no_pin_of_ds_009_is_taken_the_wrong_way_round(row, plug):
    role = read_label(row["signal"], plug)
    stated = {"out": Direction.DRIVES, "in": Direction.LISTENS, "bidir": Direction.BOTH, "-": Direction.UNKNOWN}
    assert role.direction in (Direction.UNKNOWN, stated[row["direction_at_named_board"]])


@pytest.mark.parametrize("row", table_rows("synonyms"), ids=lambda row: f"{row['label']}={row['role']}")
def test_each_label_of_the_table_gives_its_role_or_keeps_it_among_its_readings(row):
    role = read_label(row["label"])
    assert row["role"] == role.name or row["role"] in [reading.name for reading in role.readings] or _elsewhere(row)


def _elsewhere(row):
    """Labels that need company for this one of their roles."""
    return (row["role"], row["label"]) in {("esc_telemetry", "UART4_RX_EXT")} and (
        read_label(row["label"], ["CUR"]).name == row["role"]
    )


@pytest.mark.parametrize("row", table_rows("synonyms"), ids=lambda row: row["label"])
def test_case_and_separators_do_not_matter(row):
    label = row["label"]
    expected = read_label(label).name
    assert read_label(f"  {label} ").name == expected
    assert read_label(label.upper()).name == expected
    assert read_label(label.lower()).name == expected
    if " " in label and "(" not in label and "/" not in label:
        assert read_label(label.replace(" ", "_")).name == expected


def test_no_label_of_the_table_is_a_ground_and_a_supply_at_once():
    # The one mistake that burns a board.
    by_label = defaultdict(set)
    for row in table_rows("synonyms"):
        kind = kind_of(row["role"])
        assert kind is not None
        by_label[row["label"].upper()].add(kind.cls)
    assert [label for label, found in by_label.items() if {RoleClass.GROUND, RoleClass.SUPPLY} <= found] == []


def test_words_around_a_label_make_no_ground_or_supply_of_a_signal():
    signals = [row["label"] for row in table_rows("synonyms") if kind_of(row["role"]).cls is RoleClass.SIGNAL]
    for label in signals:
        for word in ("EN", "FAULT", "ZZTOP"):
            found = read_label(f"{label}_{word}")
            assert found.cls not in (RoleClass.GROUND, RoleClass.SUPPLY), (label, word, found)


def test_every_role_of_the_pin_tables_is_a_role_of_ours():
    with PINOUTS.open(encoding="utf-8", newline="") as file:
        roles = {row["role"] for row in csv.DictReader(file)}
    assert roles - set(role_names()) == {"none"}
