"""The project template as a new user meets it."""

import re
import shutil
from pathlib import Path

import pytest

from tabside.craft_reading import read_craft
from tabside.rules import check_craft

TEMPLATE = Path(__file__).parents[3] / "plugin" / "tabside" / "kicad" / "template" / "tabside_craft"


@pytest.mark.parametrize("mark", [r"# ?", r"# "])
def test_the_craft_file_is_valid_with_every_comment_taken_away(tmp_path, mark):
    """The examples as well as the file without any: whoever takes the marks away must not get an error."""
    folder = tmp_path / "craft"
    shutil.copytree(TEMPLATE, folder)
    path = next(folder.glob("*.craft.toml"))
    text = path.read_text(encoding="utf-8")
    for changed in (re.sub(f"(?m)^{mark}", "", text), re.sub(r"(?m)\s*#.*$", "", text)):
        assert changed != text
        path.write_text(changed, encoding="utf-8")
        verdict = check_craft(read_craft(path.with_name("tabside_craft.kicad_sch")))
        assert {finding.severity for finding in verdict.findings} == {"note"}
