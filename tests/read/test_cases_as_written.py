"""Our nets of each small drawing are those written down beside it, without any KiCad."""

from __future__ import annotations

from pathlib import Path

import pytest

from netlisting_cases.all_cases import ALL_CASES
from netlisting_cases.case import Case
from programs.kicad_oracle import listed
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json


def our_nets(root: Path) -> list[tuple[str, list[tuple[str, str]]]]:
    return listed(nets_json(read_drawing(root)))


@pytest.mark.parametrize("case", ALL_CASES, ids=str)
def test_nets_are_those_written_down(case: Case, tmp_path: Path) -> None:
    differences = case.differences(our_nets(case.write_plain(tmp_path)), case.plain_nets())
    assert not differences, differences


@pytest.mark.parametrize("case", ALL_CASES, ids=str)
def test_nets_stay_when_turned_mirrored_and_in_sheets_used_twice(case: Case, tmp_path: Path) -> None:
    differences = case.differences(our_nets(case.write_elsewhere(tmp_path)), case.nets_elsewhere())
    assert not differences, differences
