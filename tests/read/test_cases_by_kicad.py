"""KiCad gives on each small drawing the verdict that is written down beside it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor

import pytest

from netlisting_cases.all_cases import ALL_CASES
from netlisting_cases.case import Case
from programs.kicad_oracle import Netlist, kicad_netlist

pytestmark = [pytest.mark.kicad, pytest.mark.slow]
WRITTEN = {"plain": Case.write_plain, "elsewhere": Case.write_elsewhere}
Asked = dict[tuple[str, str], "Future[Netlist]"]  # by case and way of writing


@pytest.fixture(scope="module")
def kicad_says(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    """KiCad's netlists of all the drawings that were asked for, made side by side."""
    items = [item for item in request.session.items if item.path == request.path]
    chosen = [item.callspec.params for item in items if hasattr(item, "callspec")]
    with ThreadPoolExecutor(os.cpu_count()) as pool:

        def judge(case: Case, way: str) -> Netlist:
            return kicad_netlist(WRITTEN[way](case, tmp_path_factory.mktemp("case")))

        yield {(str(p["case"]), p["way"]): pool.submit(judge, p["case"], p["way"]) for p in chosen}
        pool.shutdown(cancel_futures=True)


@pytest.mark.parametrize("way", WRITTEN)
@pytest.mark.parametrize("case", [case for case in ALL_CASES if case.kicad_judges], ids=str)
def test_kicad_says_what_is_written_down(case: Case, way: str, kicad_says: Asked) -> None:
    """ "elsewhere": turned, mirrored, and in a sheet used twice."""
    written = case.plain_nets() if way == "plain" else case.nets_elsewhere()
    differences = case.differences(kicad_says[str(case), way].result().nets, written)
    assert not differences, differences


def test_no_two_cases_have_the_same_name() -> None:
    assert len({str(case) for case in ALL_CASES}) == len(ALL_CASES)
