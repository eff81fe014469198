"""Takes the pictures of manual and README again: KiCad 9's windows on an invisible screen, pages in a browser.

    python tests/kicad/manual_pictures.py [NAME ...]

Needs what `press_the_button.py` needs, and Chromium.  Pictures are cut to what they show and written with few colours.
"""

from __future__ import annotations

import importlib
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import press_the_button as button

sys.path.insert(0, str(Path(__file__).parents[1] / "kits"))
manual_craft = importlib.import_module("manual_craft")

PICTURES = Path(__file__).parents[2] / "exporters" / "tabside_exporters" / "manual" / "pictures"
FIXTURES = Path(__file__).parents[2] / "fixtures"
SHEET = "tern.kicad_sch"
AT = replace(button.KICAD_9, size=(1400, 900))
CHROMIUM = (
    *("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync", "--hide-scrollbars"),
)
MODEM_TEXT = "HOST (JST GH)\n1 GND\n2 CTS\n3 RTS\n4 TX\n5 RX\n6 5V\n"

Environment = dict[str, str]


def main(names: list[str]) -> int:
    for name, take in TAKES.items():
        if names and name not in names:
            continue
        # Each in a home of its own: a KiCad that was ended notes in it that it may still be running.
        with tempfile.TemporaryDirectory(prefix="pictures-", ignore_cleanup_errors=True) as folder:
            home = Path(folder)
            environment = button.prepare(home, AT)
            button.tabside(environment, "kicad", "install", "--enable-api")
            file = (FIXTURES / "pictures" if name in OF_README else PICTURES) / f"{name}.png"
            take(environment, manual_craft.new_project(home), file)
            print(name, file.stat().st_size, flush=True)
    return 0


def _template_dialog(environment: Environment, project: Path, to: Path) -> None:
    corner: list[int] = []

    def act(shown: Environment) -> None:
        subprocess.run(["wmctrl", "-a", "KiCad 9.0"], env=shown, check=False)
        subprocess.run(["xdotool", "key", "ctrl+t"], env=shown, check=False)
        button.wait_for(lambda: "Project Template Selector" in button.windows(shown), "the templates")
        time.sleep(2)
        corner.extend(_corner(shown, "Project Template Selector"))
        for right, down in ((228, 62), (60, 140)):  # the tab, the template: seen in 9.0.8
            button.click(shown, corner[0] + right, corner[1] + down)
            time.sleep(1)

    _window(environment, project, ["kicad"], "KiCad 9.0", act, to, lambda: f"710x520+{corner[0]}+{corner[1] + 20}")


def _corner(shown: Environment, title: str) -> tuple[int, int]:
    """Where the inside of a window begins."""
    command = ["xdotool", "search", "--name", title, "getwindowgeometry", "--shell"]
    said = subprocess.run(command, env=shown, capture_output=True, text=True, check=True).stdout
    found = dict(line.split("=") for line in said.splitlines())
    return int(found["X"]), int(found["Y"])


def _editor(environment: Environment, project: Path, to: Path) -> None:
    def act(shown: Environment) -> None:
        button.wait_for(lambda: button.first_button(shown, AT) is not None, "the buttons")
        time.sleep(2)

    _window(environment, project, ["eeschema", SHEET], _title(), act, to, crop="1400x640+0+0")


def _modem(environment: Environment, project: Path, to: Path) -> None:
    """The modem from a board file, put down and wired."""
    _type_modem(environment, project)
    manual_craft.put_modem(project / SHEET)
    manual_craft.turn_modem(project / SHEET)
    settings = project.parent / ".config/kicad/9.0/eeschema.json"
    said = json.loads(settings.read_text("utf-8"))
    said.setdefault("aui", {}).update({"design_blocks_show": True})
    settings.write_text(json.dumps(said), encoding="utf-8")

    def act(shown: Environment) -> None:
        button.wait_for(lambda: button.first_button(shown, AT) is not None, "the buttons")
        time.sleep(2)

    _window(environment, project, ["eeschema", SHEET], _title(), act, to, crop="1400x640+0+0")


def _type_modem(environment: Environment, project: Path) -> None:
    (project / "modem.txt").write_text(MODEM_TEXT, encoding="utf-8")
    here = os.getcwd()
    os.chdir(project)
    try:
        button.tabside(environment, "boards", "read", "modem.txt", "--to", "boards/modem.board.toml", "--force")
        file = project / "boards" / "modem.board.toml"
        more = 'contact_1 = "left"\nentry = "side"\ntabs = "board"\ntakes = "4.5-5.5V 0.2A"\n'
        file.write_text(file.read_text("utf-8") + more, encoding="utf-8")
        button.tabside(environment, "boards", "library", "boards/modem.board.toml", "--into", ".")
    finally:
        os.chdir(here)


def _findings(environment: Environment, project: Path, to: Path) -> None:
    wrong = manual_craft.new_project(project.parent / "wrong")
    _type_modem(environment, wrong)
    manual_craft.put_modem(wrong / SHEET)
    manual_craft.name_modem(wrong / "tern.craft.toml")
    _page(environment, wrong, "findings", to, (1000, 1500), crop="1000x700+0+700")


def _plan(environment: Environment, project: Path, to: Path) -> None:
    _page(environment, _right(environment, project), "plan", to, (1000, 2600), crop="1000x640+0+1440")


def _bench(environment: Environment, project: Path, to: Path) -> None:
    _page(environment, _right(environment, project), "bench", to, (1000, 3000), crop="1000x640+0+1480")


def _boats_finding(environment: Environment, project: Path, to: Path) -> None:
    _boats_page("rev_a", "findings", to, (1000, 2200), "1000x430+0+1450")


def _boats_picture(environment: Environment, project: Path, to: Path) -> None:
    _boats_page("rev_b", "craft-picture", to, (1200, 900), "1140x650+0+100")


def _boats_page(revision: str, document: str, to: Path, size: tuple[int, int], crop: str) -> None:
    with tempfile.TemporaryDirectory(prefix="pictures-") as made:
        boat = FIXTURES / "survey_boat" / revision / "survey_boat.kicad_sch"
        command = ["export", str(boat), "--to", made, "--only", document, "--as", "html"]
        subprocess.run([str(Path(sys.executable).parent / "tabside"), *command], capture_output=True, check=False)
        _browse(Path(made) / f"{document}.html", to, size, crop)


def _right(environment: Environment, project: Path) -> Path:
    folder = project.parent / "right" / "tern"
    if not folder.exists():
        manual_craft.new_project(folder.parent)
        _type_modem(environment, folder)
        manual_craft.put_modem(folder / SHEET)
        manual_craft.turn_modem(folder / SHEET)
        manual_craft.name_modem(folder / "tern.craft.toml")
    return folder


def _board_back(environment: Environment, project: Path, to: Path) -> None:
    _type_modem(environment, project)
    page = project / "modem.html"
    button.tabside(environment, "boards", "show", str(project / "boards" / "modem.board.toml"), "--to", str(page))
    _browse(page, to, (900, 560))


def _page(
    environment: Environment, project: Path, document: str, to: Path, size: tuple[int, int], crop: str = ""
) -> None:
    made = project / "made"
    command = ["export", str(project / SHEET), "--to", str(made), "--only", document, "--as", "html"]
    subprocess.run(
        [str(Path(sys.executable).parent / "tabside"), *command], env=environment, capture_output=True, check=False
    )
    _browse(made / f"{document}.html", to, size, crop)


def _browse(page: Path, to: Path, size: tuple[int, int], crop: str = "") -> None:
    raw = page.with_suffix(".raw.png")
    window = f"--window-size={size[0]},{size[1]}"
    subprocess.run([*CHROMIUM, window, f"--screenshot={raw}", page.as_uri()], capture_output=True, check=True)
    _shrunk(raw, to, crop)


def _window(
    environment: Environment,
    project: Path,
    command: list[str],
    title: str,
    act: Callable[[Environment], None],
    to: Path,
    crop: str | Callable[[], str],
) -> None:
    """Start a program, wait for its window, do something, take the screen."""
    log, raw = project.parent / "log", project.parent / "raw.png"
    with button.screen(environment, log, AT) as shown:
        with log.open("ab") as out:
            process = subprocess.Popen(
                ["dbus-run-session", "--", *command],
                cwd=project,
                env=shown,
                stdout=out,
                stderr=out,
                start_new_session=True,
            )
        try:
            button.wait_for(lambda: any(title in each for each in button.windows(shown)), title)
            time.sleep(3)
            try:
                act(shown)
            finally:
                button.take_picture(shown, raw)
        finally:
            os.killpg(process.pid, signal.SIGTERM)  # the session that we started
            process.wait()
    _shrunk(raw, to, crop if isinstance(crop, str) else crop())


def _title() -> str:
    return "tern — Schematic Editor"


def _shrunk(raw: Path, to: Path, crop: str) -> None:
    cut = ["-crop", crop, "+repage"] if crop else ["-trim", "+repage"]
    few = ["+dither", "-colors", "32", "-depth", "8", "-strip", "-define", "png:compression-level=9"]
    subprocess.run(["convert", str(raw), *cut, *few, f"PNG8:{to}"], check=True)


TAKES: dict[str, Callable[[Environment, Path, Path], None]] = {
    "template": _template_dialog,
    "editor": _editor,
    "modem": _modem,
    "board-back": _board_back,
    "findings": _findings,
    "plan": _plan,
    "bench": _bench,
    "finding": _boats_finding,
    "craft": _boats_picture,
}
OF_README = frozenset({"finding", "craft"})

if __name__ == "__main__":
    shutil.which("convert") or sys.exit("not installed: ImageMagick")
    sys.exit(main(sys.argv[1:]))
