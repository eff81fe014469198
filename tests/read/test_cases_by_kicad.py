"""KiCad gives on each small drawing the verdict that is written down beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from kicad_oracle import kicad_netlist
from netlisting_cases.all_cases import ALL_CASES
from netlisting_cases.case import Case

pytestmark = pytest.mark.kicad
JUDGED = [case for case in ALL_CASES if case.kicad_judges]


@pytest.mark.parametrize("case", JUDGED, ids=str)
def test_kicad_says_what_is_written_down(case: Case, tmp_path: Path) -> None:
    differences = case.differences(kicad_netlist(case.write_plain(tmp_path)).nets, case.plain_nets())
    assert not differences, differences


@pytest.mark.parametrize("case", JUDGED, ids=str)
def test_kicad_says_so_when_turned_mirrored_and_in_sheets_used_twice(case: Case, tmp_path: Path) -> None:
    differences = case.differences(kicad_netlist(case.write_elsewhere(tmp_path)).nets, case.nets_elsewhere())
    assert not differences, differences
