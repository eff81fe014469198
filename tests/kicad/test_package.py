"""The package for KiCad's Plugin and Content Manager, judged by the validator of KiCad's own Python library."""

from __future__ import annotations

import ast
import io
import json
import os
import subprocess
import sys
import zipfile

import pytest

from tabside.kicad.install.scripts import loaded_files
from tabside.kicad.package import main, package_bytes
from tabside.kicad.symbols import library_text


def test_the_same_version_gives_the_same_bytes():
    assert package_bytes() == package_bytes()


def test_it_holds_what_kicad_unpacks_and_nothing_else():
    with zipfile.ZipFile(io.BytesIO(package_bytes())) as package:
        names = package.namelist()
        said = json.loads(package.read("metadata.json"))
        plugin = json.loads(package.read("plugins/plugin.json"))
        assert package.read("plugins/requirements.txt") == b""
        symbols = package.read("symbols/tabside.kicad_sym").decode()
    # Source: KiCad's package schema and its manager's list of folders, both 9.0.8.
    assert {name.split("/")[0] for name in names} == {"metadata.json", "plugins", "resources", "symbols"}
    assert symbols == library_text((9, 0)) and "(version 20241209)" in symbols
    assert said["identifier"] == plugin["identifier"]
    # Source: KiCad 9.0.8 refuses, with no word but in its trace, an identifier with fewer than two dots.
    assert plugin["identifier"].count(".") == 2
    assert len(said["versions"]) == 1
    assert all(action["scopes"] == ["schematic"] for action in plugin["actions"])


def test_kicads_own_validator_accepts_it(tmp_path):
    if not _has_validator():
        reason = "kicad-python is not installed (pip install -e '.[dev]')"
        pytest.fail(reason) if os.environ.get("TABSIDE_NEED_KICAD") == "1" else pytest.skip(reason)
    main([str(tmp_path)])
    (package,) = tmp_path.glob("*.zip")
    for what in (package, _unpacked(package, tmp_path / "plugin")):
        command = [sys.executable, "-m", "kipy.packaging", "validate", str(what)]
        ended = subprocess.run(command, capture_output=True, text=True, check=False)
        assert ended.returncode == 0, ended.stdout + ended.stderr


@pytest.mark.parametrize("name", [name for name in loaded_files() if name.endswith(".py")])
def test_what_kicad_loads_is_python_3_9_and_needs_the_standard_library_only(name):
    tree = ast.parse(loaded_files()[name], feature_version=(3, 9))
    imported = {
        (node.module if isinstance(node, ast.ImportFrom) else alias.name).split(".")[0]
        for node in ast.walk(tree)
        if isinstance(node, (ast.Import, ast.ImportFrom))
        for alias in node.names
    }
    ours = {file.removesuffix(".py") for file in loaded_files()}
    assert imported <= set(sys.stdlib_module_names) | ours
    annotated = any(getattr(node, "annotation", None) or getattr(node, "returns", None) for node in ast.walk(tree))
    postponed = any(isinstance(node, ast.ImportFrom) and node.module == "__future__" for node in tree.body)
    assert postponed or not annotated  # else 3.9 would evaluate `X | Y`


def _has_validator() -> bool:
    try:
        import kipy.packaging  # noqa: F401
    except ImportError:
        return False
    return True


def _unpacked(package, folder):
    with zipfile.ZipFile(package) as opened:
        for name in opened.namelist():
            if name.startswith("plugins/"):
                target = folder / name.removeprefix("plugins/")
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(opened.read(name))
    return folder
