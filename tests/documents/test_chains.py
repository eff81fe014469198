"""End to end: nets of own boards, through the harness, to the nets of the boards at the other ends."""

import json
import shutil

import pytest

from fixture_kit import FIXTURES
from tabside.cli import main
from tabside.craft_reading import read_craft
from tabside.documents.chains import chains
from tabside.rules import check_craft

HARNESS = FIXTURES / "own_boards" / "harness" / "harness.kicad_sch"

# The nets as the two projects and the harness are drawn, followed by hand on paper.
CHAINS = {
    ("logger", "+5V", "valve", "+5V"),
    ("logger", "Net-(J1-Pin_2)", "valve", "/CAN_H"),  # named by the transceiver's pin alone
    ("logger", "Net-(J1-Pin_3)", "valve", "/CAN_L"),
    ("logger", "Net-(J1-Pin_4)", "valve", "/RX"),  # behind a resistor TX
    ("logger", "/RX", "valve", "/TX"),
    ("logger", "GND", "valve", "GND"),
    ("logger", "+BATT", "pack", ""),
    ("logger", "GND", "pack", ""),
}


@pytest.fixture
def copied(tmp_path):
    shutil.copytree(HARNESS.parents[1], tmp_path / "own", ignore=shutil.ignore_patterns("draw.py", "__pycache__"))
    return tmp_path / "own" / "harness" / "harness.kicad_sch"


def test_every_net_comes_out_where_it_is_drawn():
    found = {(chain.board, chain.net, chain.far_board, chain.far_net) for chain in chains(read_craft(HARNESS))}
    back = {(b, net_b, a, net_a) for a, net_a, b, net_b in CHAINS if b == "valve"}
    assert found == CHAINS | back


def test_a_chain_passes_the_fuse():
    (chain,) = [each for each in chains(read_craft(HARNESS)) if each.net == "+BATT"]
    assert chain.through[1] == "F1" and len(chain.through) == 3 and chain.far.label == "BAT+"


def test_the_demo_is_sound():
    assert [each for each in check_craft(read_craft(HARNESS)).findings if each.severity != "note"] == []


def test_it_is_exported_as_a_table(tmp_path, capsys):
    assert main(["export", str(HARNESS), "--only", "end-to-end", "--to", str(tmp_path / "out"), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)["documents"]["end-to-end"]
    assert len(rows) == len(CHAINS) + 6
    assert {"board": "logger", "net": "/RX", "to_board": "valve", "to_net": "/TX"}.items() <= next(
        row.items() for row in rows if row["net"] == "/RX" and row["board"] == "logger"
    )


def test_a_changed_project_is_found_in_the_harness(copied):
    valve = copied.parents[1] / "valve" / "valve.kicad_sch"
    text = valve.read_text(encoding="utf-8")
    valve.write_text(text.replace('(label "CAN_H"', '(label "CAN_X"').replace('(label "CAN_L"', '(label "CAN_H"'))
    found = [each for each in check_craft(read_craft(copied)).findings if each.rule == "board-differs"]
    assert [each.severity for each in found] == ["error"]
    assert "contact 3 is CAN_L, the board file says CAN_H" in found[0].message


def test_boards_without_projects_have_no_chains():
    assert chains(read_craft(FIXTURES / "hostile" / "hostile.kicad_sch")) == ()
