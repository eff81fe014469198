"""KiCad's API server: buttons of plugins appear only while it is switched on.  It is off when KiCad is new."""

from __future__ import annotations

from tabside.kicad.folders import KiCad
from tabside.kicad.install.record import our_folder
from tabside.kicad.install.settings import parse_settings, section, settings_bytes
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.versions import has_button
from tabside.ordinary_file import read_ordinary

HOW = (
    "switch KiCad's API server on to see the buttons: Preferences > Plugins > Enable KiCad API, "
    "or install with --enable-api"
)


class ApiServer:
    """Its switch in kicad_common.json."""

    name = "api_server"

    def install(self, work: Installation) -> None:
        if not has_button(work.kicad.version) or work.kicad.imports or _is_on(work.kicad):
            return
        if not work.enable_api:
            work.changes.remarks.append(HOW)
            return
        self._set(work, True, "switch the API server on")
        work.record.switched_api_on = True

    def remove(self, work: Removal) -> None:
        if not work.record.switched_api_on or not _is_on(work.kicad):
            return
        others = _other_plugins(work.kicad)
        if others:
            work.keep(work.kicad.common_settings)
            work.changes.remarks.append(f"the API server stays on for another plugin ({others[0]})")
            return
        self._set(work, False, "switch the API server off again")

    def state(self, kicad: KiCad) -> str:
        if not has_button(kicad.version):
            return "none in this version"
        return "on" if _is_on(kicad) else "off"

    @staticmethod
    def _set(work: Installation | Removal, on: bool, what: str) -> None:
        path = work.kicad.common_settings
        content = work.changes.read(path)
        settings = {} if content is None else parse_settings(content, path)
        section(settings, "api", path)["enable_server"] = on
        work.edit(path, settings_bytes(settings), what)


def _is_on(kicad: KiCad) -> bool:
    path = kicad.common_settings
    if not path.exists():
        return False
    api = parse_settings(read_ordinary(path), path).get("api")
    return isinstance(api, dict) and api.get("enable_server") is True


def _other_plugins(kicad: KiCad) -> list[str]:
    """Names of the folders of other plugins that need the server."""
    found = [file.parent for folder in (kicad.plugins, kicad.packages) for file in folder.rglob("plugin.json")]
    return sorted(folder.name for folder in found if folder != our_folder(kicad))
