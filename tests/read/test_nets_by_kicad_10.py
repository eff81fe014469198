"""Our nets by KiCad 10's rules are those of KiCad 10's own netlist."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from drawing.kicad_10_drawings import DRAWINGS
from drawing.unpredictable_names import is_excused, names_on
from fixture_kit import ROOTS, name_of
from netlisting_cases.all_cases import ALL_CASES
from netlisting_cases.case import Case
from programs.kicad_installation import kicad_10_demo_roots
from programs.kicad_oracle import Net, compare, kicad_10_netlist, listed, upgrade_to_10
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

pytestmark = [pytest.mark.kicad("cli10"), pytest.mark.slow]

# KiCad 10 names the net of a part without a number, U?, by a uuid that stands in no file.
NEVER_ANNOTATED = re.compile(r"-\(\w+\?-")


def differences(root: Path, theirs: list[Net], kicad: int | None = 10) -> list[str]:
    drawing = read_drawing(root, kicad=kicad)
    given = names_on(drawing)

    def any_name(our: str, their: str) -> bool:
        return is_excused(our, their, given) or bool(NEVER_ANNOTATED.search(our) and NEVER_ANNOTATED.search(their))

    return compare(listed(nets_json(drawing)), theirs, any_name=any_name)


@pytest.mark.kicad("cli10", "demos10")
@pytest.mark.parametrize("root", kicad_10_demo_roots() or [None], ids=lambda root: root.stem if root else "none found")
def test_demo_projects_of_kicad_10(root: Path) -> None:
    theirs = kicad_10_netlist(root).nets
    assert theirs
    found = differences(root, theirs)
    assert not found, f"{len(found)} differences:\n" + "\n".join(found[:40])


@pytest.mark.parametrize("name", DRAWINGS)
def test_what_kicad_10_brought_and_what_it_reads_otherwise(name: str, tmp_path: Path) -> None:
    root = DRAWINGS[name]().write(tmp_path)
    assert not differences(root, kicad_10_netlist(root).nets)


@pytest.mark.parametrize("root", ROOTS, ids=name_of)
def test_our_own_drawings_saved_by_kicad_10(root: Path, tmp_path: Path) -> None:
    copy = shutil.copytree(root.parent, tmp_path / "copy") / root.name
    upgrade_to_10(copy)
    assert read_drawing(copy).kicad == 10
    assert not differences(copy, kicad_10_netlist(copy).nets, kicad=None)


@pytest.mark.slow
@pytest.mark.parametrize("way", ["saved by KiCad 10", "turned and in sheets"])
@pytest.mark.parametrize("case", [case for case in ALL_CASES if case.kicad_judges], ids=str)
def test_each_small_drawing(case: Case, way: str, tmp_path: Path) -> None:
    if way == "saved by KiCad 10":
        root = case.write_plain(tmp_path)
        upgrade_to_10(root)
    else:
        root = case.write_elsewhere(tmp_path)
    assert not differences(root, kicad_10_netlist(root).nets)
