"""The ready ports, held against the guideline's own table of contacts (Connector standard DS-009, Rev 0.1.0)."""

import csv
from pathlib import Path

import pytest

from tabside.facts import families
from tabside.facts.ports import port, port_ids

DOCUMENT = Path(__file__).parent / "data" / "pinouts.csv"
TITLES = {
    "telemetry": "TELEM / any UART",
    "gps": "GPS full + safety switch",
    "gps_basic": "GPS basic",
    "can": "CAN",
    "i2c": "I2C",
    "spi": "SPI",
    "power": "POWER analog",
    "debug": "DEBUG full",
    "debug_mini": "DEBUG mini",
}


def in_document(title):
    with DOCUMENT.open(encoding="utf-8", newline="") as rows:
        return [row for row in csv.DictReader(rows) if row["standard"] == "DS-009" and row["port"] == title]


def test_every_port_of_the_guideline_is_there_and_no_other():
    assert set(port_ids()) == set(TITLES)


@pytest.mark.parametrize("name", TITLES)
def test_a_port_has_the_contacts_of_the_documents_table(name):
    found, rows = port(name), in_document(TITLES[name])
    assert [(str(n), signal) for n, signal in enumerate(found.signals, 1)] == [(r["pin"], r["signal"]) for r in rows]
    assert {found.family} == {row["family"] for row in rows}
    assert families.family(found.family).circuits is None or len(rows) in families.family(found.family).circuits


@pytest.mark.parametrize("name", TITLES)
def test_a_port_gives_and_takes_what_the_document_says(name):
    found = port(name)
    for words, role in ((found.gives, "power_out"), (found.takes, "power_in")):
        rails = {entry.split(":")[0]: entry.split(":")[1] for entry in words.split("; ") if entry}
        stated = {row["pin"]: row["volts"] for row in in_document(TITLES[name]) if row["role"] == role}
        assert rails == {pin: volts.lstrip("+").replace("..", "-") + "V" for pin, volts in stated.items()}


@pytest.mark.parametrize("text", ["GPS basic", "gps-basic", "gps_basic", "GpsBasic"])
def test_case_and_blanks_do_not_matter(text):
    assert port(text).id == "gps_basic"


def test_another_word_is_no_port():
    assert port("telem3") is None
