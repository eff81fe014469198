"""What does not change a drawing's meaning does not change its nets: order in the file, place, UUIDs."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from pathlib import Path
from uuid import UUID

import pytest

from drawing.drawing_kit import turned
from netlisting_cases.all_cases import ALL_CASES
from netlisting_cases.case import Case
from programs.kicad_installation import kicad_demo_roots
from programs.kicad_oracle import compare, listed, mended_copy, top_lists
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

UUID_TEXT = re.compile(r"\b[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\b")


def our_nets(root: Path) -> list[tuple[str, list[tuple[str, str]]]]:
    return listed(nets_json(read_drawing(root)))


@pytest.mark.parametrize("case", ALL_CASES, ids=str)
def test_nets_stay_when_the_items_of_the_files_change_their_order(case: Case, tmp_path: Path) -> None:
    for seed in (1, 2):
        shuffled = random.Random(seed)
        root = case.sheet().write(
            tmp_path / str(seed), project=case.project, order=lambda items, by=shuffled: by.sample(items, len(items))
        )
        differences = case.differences(our_nets(root), case.plain_nets())
        assert not differences, f"seed {seed}:\n{differences}"


@pytest.mark.parametrize("case", ALL_CASES, ids=str)
def test_nets_stay_when_everything_moves_and_gets_new_uuids(case: Case, tmp_path: Path) -> None:
    """By a distance that is on no grid, beyond the page's edge."""
    moved = turned(case.sheet(), by_mm=(-150.0003, 33.3331), name="moved_") if case.turns else case.sheet()
    root = moved.write(tmp_path, seed="another", project=case.project)
    differences = case.differences(our_nets(root), case.plain_nets())
    assert not differences, differences


def changed(root: Path, folder: Path, change: Callable[[str], str]) -> Path:
    """A copy of a project with this change made to the text of each of its files."""
    new_root = mended_copy(root, folder)
    for path in folder.rglob("*.kicad_sch"):
        path.write_text(change(path.read_text(encoding="utf-8")), encoding="utf-8")
    return new_root


def in_another_order(text: str, shuffled: random.Random) -> str:
    """Lists of the file in another order, but for its head, up to the library symbols."""
    spans = list(top_lists(text))
    head = max(end for tag, _, end in spans if tag in ("version", "uuid", "paper", "lib_symbols"))
    rest = [text[start:end] for _, start, end in spans if start >= head]
    return text[:head] + "\n" + "\n".join(shuffled.sample(rest, len(rest))) + "\n)\n"


def with_new_uuids(text: str) -> str:
    """Every UUID with all its bits turned over: the same ones stay the same, the order of all is reversed."""
    return UUID_TEXT.sub(lambda found: str(UUID(int=UUID(found[0]).int ^ (2**128 - 1))), text)


SMALL_DEMOS = [root for root in kicad_demo_roots() if root.stem != "vme-wren"]


@pytest.mark.kicad("demos")
@pytest.mark.slow
@pytest.mark.parametrize("root", SMALL_DEMOS or [None], ids=lambda root: root.stem if root else "none found")
def test_nets_of_a_demo_stay_with_another_order_and_other_uuids(root: Path, tmp_path: Path) -> None:
    expected = our_nets(root)
    shuffled = random.Random(root.stem)
    for name, change in {"order": lambda text: in_another_order(text, shuffled), "uuids": with_new_uuids}.items():
        differences = compare(our_nets(changed(root, tmp_path / name, change)), expected)
        assert not differences, f"{name}:\n" + "\n".join(differences[:20])
