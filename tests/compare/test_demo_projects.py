"""KiCad's own demo projects as crafts that nobody here drew: a harmless copy is the same build, another demo is not.

Outside check: the demo projects of KiCad 9.0.8, as its package installs them.
"""

from __future__ import annotations

import re
import shutil
from itertools import pairwise
from pathlib import Path
from uuid import UUID

import pytest

from programs.kicad_installation import kicad_demo_roots
from tabside.compare import compare_crafts
from tabside.craft_reading import read_craft
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

UUID_TEXT = re.compile(r"\b[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\b")
REFERENCE = re.compile(r'(\((?:property "Reference"|reference) ")([A-Z]+)(\d+)"')
SMALL = [root for root in kicad_demo_roots() if root.stem not in ("vme-wren", "video")]
pytestmark = [pytest.mark.kicad("demos"), pytest.mark.slow]


def harmless_copy(root: Path, folder: Path) -> Path:
    """Every UUID another one, every reference numbered 500 higher, every line wrapped elsewhere."""
    shutil.copytree(root.parent, folder, ignore=shutil.ignore_patterns("*.kicad_pcb", "*.step", "*.wrl", "*-backups"))
    for path in folder.rglob("*.kicad_sch"):
        text = path.read_text(encoding="utf-8")
        text = UUID_TEXT.sub(lambda found: str(UUID(int=UUID(found[0]).int ^ (2**128 - 1))), text)
        text = REFERENCE.sub(lambda found: f'{found[1]}{found[2]}{int(found[3]) + 500}"', text)
        path.write_text(text.replace("\n\t\t\t", "\n   "), encoding="utf-8")
    return folder / root.name


def partition(root: Path) -> set[frozenset[tuple[str, str]]]:
    return {frozenset((ref, pin) for ref, pin in net["pins"]) for net in nets_json(read_drawing(root))["nets"]}


def renumbered(nets: set[frozenset[tuple[str, str]]]) -> set[frozenset[tuple[str, str]]]:
    def higher(reference: str) -> str:
        found = re.fullmatch(r"([A-Z]+)(\d+)", reference)
        return f"{found[1]}{int(found[2]) + 500}" if found else reference

    return {frozenset((higher(ref), pin) for ref, pin in net) for net in nets}


@pytest.mark.parametrize("root", SMALL or [None], ids=lambda root: root.stem if root else "none found")
def test_a_harmless_copy_of_a_demo_is_the_same_build(root, tmp_path):
    copy = harmless_copy(root, tmp_path / "copy")
    assert partition(copy) == renumbered(partition(root))
    found = compare_crafts(read_craft(root), read_craft(copy))
    assert found.same, found.changes[:5]


def test_two_demos_are_not_the_same_build():
    crafts = [read_craft(root) for root in SMALL]
    with_leads = [craft for craft in crafts if craft.leads]
    assert len(with_leads) >= 2
    for one, other in pairwise(with_leads):
        assert not compare_crafts(one, other).same


def test_no_two_wires_of_a_demo_join_the_same_two_contacts():
    for root in SMALL:
        joined = [frozenset(lead.ends) for lead in read_craft(root).leads]
        assert len(joined) == len(set(joined)), root
