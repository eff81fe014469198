"""A wheel of this project installed into an environment of its own, as `pip install` and `pipx install` do it."""

from __future__ import annotations

import os
import subprocess
import sys
import venv
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

TOP = Path(__file__).parents[1]
BOAT = TOP / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


@pytest.fixture(scope="module")
def tools(tmp_path_factory):
    """An environment with pipx, beside which Tabside is installed."""
    folder = tmp_path_factory.mktemp("tools")
    venv.create(folder, with_pip=True)
    done = subprocess.run(
        [folder / "bin" / "pip", "install", "-q", "pipx"], capture_output=True, text=True, check=False
    )
    if done.returncode:
        pytest.skip("packages cannot be fetched here")
    return folder


@pytest.mark.skipif(sys.platform == "win32", reason="not tried on Windows")
def test_pipx_makes_a_command_that_exports_opens_the_manual_and_goes_into_kicad(tools, tmp_path):
    homes = {"PIPX_HOME": str(tmp_path / "pipx"), "PIPX_BIN_DIR": str(tmp_path / "bin"), "HOME": str(tmp_path)}
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "KICAD_"))} | homes

    def run(*words):
        done = subprocess.run(words, env=environment, capture_output=True, text=True, check=False, cwd=tmp_path)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    run(tools / "bin" / "pipx", "install", "--python", sys.executable, TOP)
    tabside = tmp_path / "bin" / "tabside"
    run(tabside, "export", BOAT, "--to", tmp_path / "made")
    assert (tmp_path / "made" / "index.html").exists()
    page = Path(run(tabside, "manual", "--where").strip())
    assert page.read_bytes().count(b"data:image/png") >= 7 and b'id="rule-role-clash"' in page.read_bytes()
    (tmp_path / ".config" / "kicad" / "9.0").mkdir(parents=True)
    run(tabside, "kicad", "install", "--enable-api", "--kicad", "9.0")
    assert (tmp_path / ".local/share/kicad/9.0/plugins/tabside/plugin.json").exists()
