"""The house as a newcomer walks it: no folder too full to see at a glance."""

from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
MOST = 15
FULL = ("plugin/tabside/rules", "plugin/tabside/kicad/loaded/icons")  # one check a file; pictures in four forms


@pytest.mark.parametrize("root", ["plugin", "exporters"])
def test_no_folder_holds_more_than_fifteen_files(root):
    counts: dict[str, int] = {}
    for path in (TOP / root).rglob("*"):
        if path.is_file() and "__pycache__" not in path.parts:
            folder = path.parent.relative_to(TOP).as_posix()
            counts[folder] = counts.get(folder, 0) + 1
    assert {folder: count for folder, count in counts.items() if count > MOST and folder not in FULL} == {}
