"""The buttons on KiCad 10's left toolbar: put there, found there already, and taken off again.

Source of the files: KiCad 10.0.7, which wrote them when `Customize toolbars` was ticked, and left ours as it was.
"""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from tabside.errors import TabsideError
from tabside.kicad.folders import Machine, find_kicads
from tabside.kicad.install.installing import carry_out, plan_install, plan_removal, status

BUTTONS = {"name": "control.IPCPlugin", "type": "CONTROL"}
GRID = {"name": "common.Control.toggleGrid", "type": "TOOL"}


class Home:
    def __init__(self, folder: Path, version: str = "10.0") -> None:
        self.machine = Machine("linux", folder, {}, folder / "Documents")
        self.settings = folder / ".config" / "kicad" / version
        self.settings.mkdir(parents=True)
        self.file = self.settings / "toolbars" / "eeschema-toolbars.json"
        self.write("eeschema.json", {"bom": {"plugins": [], "selected_plugin": ""}, "netlist": {"plugins": []}})
        self.write("kicad_common.json", {"api": {"enable_server": False}})

    def write(self, name, said):
        path = self.settings / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(json.dumps(said, indent=2) + "\n", encoding="utf-8")

    def arrange(self, toolbars, *, on=True):
        self.write("toolbars/eeschema-toolbars.json", {"meta": {"version": 1}, "toolbars": toolbars})
        self.write("eeschema.json", self.eeschema | {"appearance": {"custom_toolbars": on}})

    @property
    def eeschema(self):
        return json.loads((self.settings / "eeschema.json").read_text("utf-8"))

    @property
    def toolbars(self):
        return json.loads(self.file.read_text("utf-8"))["toolbars"] if self.file.exists() else []

    @property
    def are_on(self):
        return self.eeschema.get("appearance", {}).get("custom_toolbars", False)

    def install(self, enable_api=True):
        return self._do(plan_install(find_kicads(self.machine), ["/bin/tabside"], enable_api))

    def remove(self):
        return self._do(plan_removal(find_kicads(self.machine)))

    def _do(self, plan):
        planned, refused = plan
        if refused:
            raise refused[0]
        carry_out(planned, self.machine)
        return " ".join(remark for _, changes in planned for remark in changes.remarks)

    @property
    def state(self):
        return status(self.machine)["kicads"][0]["toolbars"]

    def everything(self):
        return {str(path): path.read_bytes() for path in self.settings.rglob("*") if path.is_file()}


@pytest.fixture
def home(tmp_path):
    return Home(tmp_path)


def test_the_buttons_come_to_the_end_of_kicad_s_own_left_toolbar_and_go_without_a_trace(home):
    before = home.everything()
    home.install()
    left, top = home.toolbars
    assert left["name"] == "LEFT" and left["contents"][0] == GRID and left["contents"][-1] == BUTTONS
    # Source: KiCad 10.0.7, where the buttons did nothing while two toolbars had them.
    assert top["name"] == "TOP_MAIN" and BUTTONS not in top["contents"] and len(top["contents"]) > 40
    assert home.are_on and home.state == "buttons on the left"
    home.remove()
    assert home.everything() == before and not home.file.parent.exists()


def test_a_second_install_changes_nothing_more(home):
    home.install()
    once = home.everything()
    home.install()
    assert home.everything() == once


def test_without_consent_nothing_is_arranged_and_the_way_is_told(home):
    assert "--enable-api" in home.install(enable_api=False)
    assert not home.file.exists() and not home.are_on


@pytest.mark.parametrize("version", ["9.0", "8.0", "11.0"])
def test_other_versions_are_left_alone(tmp_path, version):
    home = Home(tmp_path, version)
    home.install()
    assert not home.file.exists() and not home.are_on and home.state == "none in this version"


def test_a_left_toolbar_that_somebody_arranged_keeps_what_it_has(home):
    home.arrange([{"contents": [GRID], "name": "LEFT"}, {"contents": [BUTTONS], "name": "TOP_MAIN"}])
    before = home.everything()
    home.install()
    assert home.toolbars == [
        {"contents": [GRID, {"type": "SEPARATOR"}, BUTTONS], "name": "LEFT"},
        {"contents": [], "name": "TOP_MAIN"},
    ]
    home.remove()
    assert home.everything() == before


def test_buttons_that_somebody_has_put_elsewhere_stay_there(home):
    home.arrange([{"contents": [BUTTONS], "name": "RIGHT"}])
    before = copy.deepcopy(home.toolbars)
    home.install()
    assert home.toolbars == before
    home.remove()
    assert home.toolbars == before and home.are_on


def test_toolbars_that_somebody_arranged_and_switched_off_are_not_switched_on(home):
    home.arrange([{"contents": [GRID], "name": "LEFT"}], on=False)
    assert "switched off" in home.install()
    assert home.toolbars == [{"contents": [GRID], "name": "LEFT"}] and not home.are_on


def test_after_kicad_has_written_its_settings_again_only_ours_goes(home):
    home.install()
    home.write("eeschema.json", home.eeschema | {"window": {"pos_x": 17}})
    kept = {"contents": [GRID], "name": "RIGHT"}
    home.write("toolbars/eeschema-toolbars.json", {"meta": {"version": 1}, "toolbars": [*home.toolbars, kept]})
    home.remove()
    assert home.toolbars == [kept] and home.are_on  # somebody has arranged another one since
    assert home.eeschema["window"] == {"pos_x": 17}


def test_when_kicad_has_only_written_its_settings_again_its_own_toolbars_come_back(home):
    home.install()
    home.write("eeschema.json", home.eeschema | {"window": {"pos_x": 17}})
    home.remove()
    assert not home.are_on and not home.file.exists()


@pytest.mark.parametrize("said", [{"toolbars": 3}, {"toolbars": [3]}, {"toolbars": [{"contents": 3}]}])
def test_a_file_that_is_not_made_as_kicad_makes_it_is_told_and_left(home, said):
    home.write("toolbars/eeschema-toolbars.json", said)
    before = home.everything()
    with pytest.raises(TabsideError, match="eeschema-toolbars"):
        home.install()
    assert home.everything() == before
