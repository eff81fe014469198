"""Damages every kind of input in thousands of ways and runs the commands on them, all in one process.

    python tests/kits/fuzz_inputs.py --cases 3000 --seed 1       prints the seed of every case that went wrong

Whatever is damaged: no traceback, no hang, one clear line when a file cannot be read, and a folder of documents that is
whole or untouched.  The same seed makes the same damage.  The sound inputs are made once; a case damages one file,
runs one command or two on it, and puts it back.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any

from random_crafts import sound_plan
from tabside.cli import main as tabside
from tabside.compare.revisions.git_objects import write_revision
from tabside.documents.writing.staging import MANIFEST, replace_files
from tabside.errors import TabsideError
from tabside.files_together import Replacement, _journal

FIXTURES = Path(__file__).parents[2] / "fixtures"
SECONDS = 20  # for one case of one command; a sound file takes a fraction of one
CRAFTS = 6  # drawn by dice, beside the fixtures
HOSTILE = (
    "",
    " ",
    "../../../etc/passwd",
    "/abs/path",
    "a/b",
    "=cmd|' /C calc'!A0",
    "\\",
    '\\"',
    "${ROW}",
    "${X:${X}}",
    "{slash}",
    "\u202egnp.exe",
    "名前",
    "🚤" * 3,
    "x" * 5000,
    "a\tb",
    "line\\nbreak",
    "\x00",
    "\x1b[31m",
    "<script>alert(1)</script>",
    "%s%n",
    "nan",
    "J1",
    "GND",
    "~",
    "~{~{x}}",
    "5V 1e999A",
    "-5V",
    "1:1:1",
    "99999999999S",
    "VBAT,,,,",
    ";;;",
)
NUMBERS = (
    "0",
    "-1",
    "1e308",
    "1e999",
    "-1e999",
    "nan",
    "inf",
    "0x10",
    "99999999999999999999",
    "0.0000000001",
    "1e-400",
    "--1",
)
Cut = Callable[[bytes, random.Random], bytes]
Lines = Iterator[str]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--cases", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    seeds, started = range(arguments.seed, arguments.seed + arguments.cases), time.monotonic()
    wrong, ran = 0, Counter[str]()
    for line in run(seeds, ran):
        wrong += 1
        print(line, flush=True)
    minutes = (time.monotonic() - started) / 60
    print(", ".join(f"{kind} {count}" for kind, count in sorted(ran.items())))
    print(f"seeds {seeds[0]} to {seeds[-1]}: {wrong} wrong; {len(seeds) / minutes:.0f} cases a minute")
    return 1 if wrong else 0


def run(seeds: range, ran: Counter[str] | None = None) -> Lines:
    """What went wrong, with the seed of each case; `ran` counts the kinds of input."""
    with tempfile.TemporaryDirectory() as folder:
        sound = Sound(Path(folder))
        for seed in seeds:
            dice = random.Random(seed)
            (kind,) = dice.choices(list(KINDS), [weight for weight, _ in KINDS.values()])
            if ran is not None:
                ran[kind] += 1
            for line in KINDS[kind][1](sound, dice):
                yield f"seed {seed}: {kind}: {line}"


class Sound:
    """The inputs that are damaged, each made once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.roots = [self._drawn(number) for number in range(CRAFTS)]
        self.fixtures = [
            self._copied("multirotor", "multirotor/sheets"),
            self._copied("survey_boat", "survey_boat/rev_b"),
            self._copied("hostile", "hostile"),
        ]
        self.boards = self._boards()
        self.saved = self._saved()
        self.home = self._home()
        self.repository, self.commit = self._repository()

    def _drawn(self, number: int) -> Path:
        sys.path.append(str(Path(__file__).parents[1]))  # when it runs as a script
        from rules.test_random_crafts import drawn

        root = drawn(sound_plan(number), self.folder / f"craft{number}")
        root.with_name(root.name.removesuffix(".kicad_sch") + ".craft.toml").write_text(CRAFT_FILE, "utf-8")
        root.with_suffix(".kicad_pro").write_text(json.dumps(PROJECT_FILE), "utf-8")
        return root

    def _copied(self, name: str, source: str) -> Path:
        ignored = shutil.ignore_patterns("*.py", "*.md", "__pycache__")
        shutil.copytree(FIXTURES / source, self.folder / name, ignore=ignored)
        return next((self.folder / name).glob("*.kicad_pro")).with_suffix(".kicad_sch")

    def _boards(self) -> Path:
        path = self.folder / "boards" / "pilot.board.toml"
        path.parent.mkdir()
        path.write_text(BOARD_FILE, "utf-8")
        (path.parent / "table.csv").write_text("plug,contact,signal\nTELEM,1,5V\nTELEM,2,TX\nTELEM,3,RX\n", "utf-8")
        (path.parent / "pasted.txt").write_text("J1\n1 5V\n2 TX\npin 3: RX\n4 | GND\n", "utf-8")
        return path

    def _saved(self) -> Path:
        root = self.roots[0]
        _, out, _, crash = _run(["export", str(root), "--to", str(self.folder / "saved"), "--as", "csv", "--json"])
        assert not crash, crash
        (self.folder / "saved.json").write_text(out, "utf-8")
        return self.folder / "saved.json"

    def _home(self) -> Path:
        settings = self.folder / "home" / ".config" / "kicad" / "9.0"
        settings.mkdir(parents=True)
        (settings / "eeschema.json").write_text(json.dumps(EESCHEMA), "utf-8")
        (settings / "kicad_common.json").write_text(json.dumps({"api": {"enable_server": False}}), "utf-8")
        return self.folder / "home"

    def _repository(self) -> tuple[Path, str]:
        folder = self.folder / "repository"
        shutil.copytree(self.roots[0].parent, folder)
        for words in (["init", "-q"], ["add", "."], ["commit", "-q", "-m", "x"]):
            _git(folder, *words)
        return folder, _git(folder, "rev-parse", "HEAD").decode().strip()


def _git(folder: Path, *words: str, stdin: bytes = b"") -> bytes:
    who = ["-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false"]
    environment = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull}
    return subprocess.run(
        ["git", *who, *words], cwd=folder, input=stdin, capture_output=True, check=True, env=environment
    ).stdout


def _damaged(content: bytes, dice: random.Random) -> tuple[bytes, str]:
    done = [dice.choice(sorted(DAMAGES)) for _ in range(dice.choice((1, 1, 1, 2, 5)))]
    for name in done:
        content = DAMAGES[name](content, dice)
    return content, " and ".join(done)


def _damaged_json(content: bytes, dice: random.Random) -> tuple[bytes, str]:
    """Mostly JSON still, with a value of another kind somewhere."""
    if dice.random() < 0.25:
        return _damaged(content, dice)
    said = json.loads(content)
    at, path = said, []
    while isinstance(at, (dict, list)) and at:
        key: Any = dice.choice(list(at)) if isinstance(at, dict) else dice.randrange(len(at))
        path.append(str(key))
        if not isinstance(at[key], (dict, list)) or not at[key] or dice.random() < 0.2:
            deed = dice.random()
            if deed < 0.15:
                del at[key]
            elif deed < 0.25 and isinstance(at, dict):
                at[f"{key}x"] = at.pop(key)
            else:
                at[key] = dice.choice(OTHER_KINDS)
            break
        at = at[key]
    return json.dumps(said).replace('"@huge@"', "9" * 6000).encode(), f"another kind at {'.'.join(path)}"


@contextlib.contextmanager
def _in_place_of(path: Path, content: bytes) -> Iterator[None]:
    before = path.read_bytes()
    path.write_bytes(content)
    try:
        yield
    finally:
        path.write_bytes(before)


def _on_file(victim: Path, content: bytes, what: str, commands: list[list[str]]) -> Lines:
    with _in_place_of(victim, content):
        for command in commands:
            yield from (f"{victim.name}, {what}: {line}" for line in _told(command))


def _schematic(sound: Sound, dice: random.Random) -> Lines:
    root = dice.choice(sound.fixtures if dice.random() < 0.1 else sound.roots)
    victim = dice.choice(sorted(root.parent.glob("*.kicad_sch")))
    content, what = _damaged(victim.read_bytes(), dice)
    commands = [["nets", str(root), "--json"]]
    if dice.random() < 0.2:
        commands.append(["check", str(root), *dice.choice((["--json"], []))])
    with _in_place_of(victim, content):
        for command in commands:
            yield from (f"{victim.name}, {what}: {line}" for line in _told(command))
        if dice.random() < 0.02:
            yield from (f"{victim.name}, {what}: {line}" for line in _exported(root, sound.folder / "out"))
        if dice.random() < 0.02:
            yield from (f"{victim.name}, {what}: {line}" for line in _stamped(root, sound.folder / "stamped"))


def _craft(sound: Sound, dice: random.Random) -> Lines:
    root = dice.choice(sound.roots)
    victim = root.with_name(root.name.removesuffix(".kicad_sch") + ".craft.toml")
    content, what = _damaged(victim.read_bytes(), dice)
    yield from _on_file(victim, content, what, [["check", str(root), "--json"]])


def _project(sound: Sound, dice: random.Random) -> Lines:
    root = dice.choice(sound.roots)
    content, what = _damaged_json(root.with_suffix(".kicad_pro").read_bytes(), dice)
    yield from _on_file(root.with_suffix(".kicad_pro"), content, what, [["nets", str(root), "--json"]])


def _board(sound: Sound, dice: random.Random) -> Lines:
    content, what = _damaged(sound.boards.read_bytes(), dice)
    yield from _on_file(sound.boards, content, what, [["boards", "show", str(sound.boards), "--json"]])


def _table(sound: Sound, dice: random.Random) -> Lines:
    victim = sound.boards.with_name(dice.choice(("table.csv", "pasted.txt")))
    content, what = _damaged(victim.read_bytes(), dice)
    yield from _on_file(victim, content, what, [["boards", "read", str(victim), "--json"]])


def _export(sound: Sound, dice: random.Random) -> Lines:
    content, what = _damaged_json(sound.saved.read_bytes(), dice)
    yield from _on_file(sound.saved, content, what, [["compare", str(sound.saved), str(sound.roots[0]), "--json"]])


def _settings(sound: Sound, dice: random.Random) -> Lines:
    folder = sound.home / ".config" / "kicad" / "9.0"
    victim = folder / dice.choice(("eeschema.json", "kicad_common.json"))
    content, what = _damaged_json(victim.read_bytes(), dice)
    before = dict(os.environ)
    os.environ.update(HOME=str(sound.home), XDG_CONFIG_HOME="", XDG_DATA_HOME="", KICAD_CONFIG_HOME="")
    try:
        commands = [["kicad", "status", "--json"], ["kicad", "install", "--dry-run", "--enable-api", "--json"]]
        yield from _on_file(victim, content, what, [dice.choice(commands)])
    finally:
        os.environ.clear()
        os.environ.update(before)


def _manifest(sound: Sound, dice: random.Random) -> Lines:
    """A folder whose manifest, or the journal of an export that was killed, is damaged."""
    to = sound.folder / "manifest"
    shutil.rmtree(to, ignore_errors=True)
    replace_files(to, {"a.csv": b"old", "b.csv": b"old"})
    (to / "mine.txt").write_text("mine")
    victim, sample = to / MANIFEST, (to / MANIFEST).read_bytes()
    if dice.random() < 0.5:
        (to / ".tabside-staging-x" / "before").mkdir(parents=True)
        victim, sample = (
            to / ".tabside-staging-x" / "journal",
            json.dumps({MANIFEST: [None, "x"], "a.csv": ["y", "z"]}).encode(),
        )
    content, what = _damaged_json(sample, dice)
    victim.write_bytes(content)
    try:
        replace_files(to, {"a.csv": b"new"})
    except TabsideError as error:
        if len(str(error).splitlines()) != 1:
            yield f"{what}: no single line: {error}"
    except Exception as error:
        yield f"{what}: {type(error).__name__}: {error}"
    if (to / "mine.txt").read_text() != "mine" or (to / "a.csv").read_bytes() not in (b"old", b"new"):
        yield f"{what}: a file is lost"


def _stamping(sound: Sound, dice: random.Random) -> Lines:
    root = dice.choice(sound.roots)
    before = root.read_bytes()
    journal = root.with_name(f".{root.name}.stamping")
    content, what = _damaged_json(_journal([Replacement(root.name, before, before + b" ")]), dice)
    journal.write_bytes(content)
    try:
        yield from (f"{what}: {line}" for line in _told(["nets", str(root), "--json"]))
        if root.read_bytes() != before:
            yield f"{what}: the drawing is another"
    finally:
        journal.unlink(missing_ok=True)
        root.write_bytes(before)


def _tree(sound: Sound, dice: random.Random) -> Lines:
    raw = _git(sound.repository, "cat-file", "tree", f"{sound.commit}^{{tree}}")
    content, what = _damaged(raw, dice)
    into = sound.folder / "revision"
    shutil.rmtree(into, ignore_errors=True)
    into.mkdir()
    here, outside = Path.cwd(), sorted(sound.folder.iterdir())
    tree = _git(sound.repository, "hash-object", "-w", "-t", "tree", "--literally", "--stdin", stdin=content).decode()
    commit = f"tree {tree.strip()}\nauthor A <a@example.org> 0 +0000\ncommitter A <a@example.org> 0 +0000\n\nx\n"
    name = _git(sound.repository, "hash-object", "-w", "-t", "commit", "--literally", "--stdin", stdin=commit.encode())
    os.chdir(sound.repository)
    try:
        write_revision(name.decode().strip(), sound.roots[0].name, into)
    except TabsideError as error:
        if len(str(error).splitlines()) != 1:
            yield f"{what}: no single line: {error}"
    except Exception as error:
        yield f"{what}: {type(error).__name__}: {error}"
    finally:
        os.chdir(here)
    if sorted(sound.folder.iterdir()) != outside:
        yield f"{what}: something was written elsewhere"


KINDS: dict[str, tuple[int, Callable[[Sound, random.Random], Lines]]] = {
    "schematic": (50, _schematic),
    "craft file": (20, _craft),
    "project file": (8, _project),
    "board file": (10, _board),
    "table of a board": (5, _table),
    "saved export": (5, _export),
    "KiCad's settings": (1, _settings),
    "manifest": (5, _manifest),
    "journal of a stamping": (1, _stamping),
    "git tree": (1, _tree),
}

PROJECT_FILE = {
    "meta": {"filename": "x.kicad_pro", "version": 1},
    "text_variables": {"BOARD": "pilot", "REV": "A"},
    "schematic": {"bus_aliases": {"PAIR": ["a", "b"]}, "top_level_sheets": []},
    "sheets": [["0", "Root"]],
}
EESCHEMA = {
    "meta": {"version": 3},
    "bom_plugins": {"plugins": [{"name": "other", "command": "python3 other.py", "path": "other.py"}]},
    "netlist": {"plugins": []},
    "system": {"file_history": []},
}
BOARD_FILE = """
[board]
name = "pilot"
title = "autopilot"
source = "manual, page 4"
held = false
[[plugs]]
name = "TELEM"
family = "JST GH"
signals = "5V, TX, RX, CTS, RTS, GND"
seen_from = "printed"
contact_1 = "left"
entry = "side"
[[plugs]]
name = "POWER"
family = "JST GH"
like = "telemetry"
"""
OTHER_KINDS: tuple[Any, ...] = (
    None,
    True,
    0,
    -1,
    1.5,
    1e308,
    "",
    "x",
    "\ud800",
    "\u202e",
    [],
    {},
    [[]],
    {"a": 1},
    "../x",
    "@huge@",
    2**70,
    "nan",
)

CRAFT_FILE = """
[craft]
name = "Coot"
battery = "4S"
[boards.controller]
at_mm = [0, 0, 12]
[defaults]
gauge_awg = 28
service_loop_mm = 15
[limits]
drop_percent_regulated = 3
[wire]
ampacity = "handbook_chassis"
insulation_od_mm = { 28 = 0.9 }
[[stock.cables]]
name = "leftover"
ends = ["jst_sh 4", "jst_sh 4"]
map = [[1, 2], [2, 1]]
length_mm = 100
[[stock.leads]]
ends = ["jst_sh", "jst_gh"]
length_mm = 150
gauge_awg = 28
colour = "RD"
count = 10
price = 3
pack = 4
od_mm = 0.8
[[stock.kits]]
name = "box"
count = 0
price = 2.5
housings = [{ end = "jst_sh 4", count = 5 }, { end = "jst_gh 4", count = 5 }]
contacts = [{ family = "jst_gh", count = 20 }]
wire = [{ gauge_awg = 28, length_mm = 2000 }]
[cutting]
strip_mm = 1.5
[bench]
slack_at = ["controller/J1"]
[[accept]]
rule = "no-return"
at = ["controller/J1:1"]
reason = "meant"
"""


def _told(command: list[str]) -> Lines:
    """What is wrong with how one command ended."""
    status, out, err, crash = _run(command)
    if crash:
        yield f"{command[0]}: {crash}"
        return
    if status not in (0, 1, 2):
        yield f"{command[0]}: exit status {status}"
    lines = err.splitlines()
    if any(not line.startswith("tabside: ") for line in lines):
        yield f"{command[0]}: standard error has another line: {err[:200]!r}"
    if status == 2 and sum(not line.startswith("tabside: warning: ") for line in lines) != 1:
        yield f"{command[0]}: no single clear line: {err[:300]!r}"
    if status != 2 and "--json" in command:
        try:
            json.loads(out)
        except ValueError as error:
            yield f"{command[0]}: no JSON: {error}"


def _stamped(sound: Path, folder: Path) -> Lines:
    """Stamping writes the marks and nothing else, or changes nothing."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(sound.parent, folder)
    root = folder / sound.name
    before = {path: path.read_bytes() for path in root.parent.rglob("*") if path.is_file()}
    nets = _run(["nets", str(root), "--json"])[1]
    yield from _told(["stamp", str(root), "--json"])
    after = {path: path.read_bytes() for path in root.parent.rglob("*") if path.is_file()}
    if before.keys() != after.keys():
        yield f"stamp: other files: {sorted(path.name for path in before.keys() ^ after.keys())}"
    elif _run(["stamp", str(root), "--json"])[0] == 2 and before != after:
        yield "stamp: refused, but the files are others"
    elif _run(["nets", str(root), "--json"])[1] != nets:
        yield "stamp: the nets are others"


def _exported(root: Path, to: Path) -> Lines:
    """A second export over a first: whole, or as it was."""
    shutil.rmtree(to, ignore_errors=True)
    to.mkdir()
    (to / "mine.txt").write_text("mine")
    command = ["export", str(root), "--to", str(to), "--json"]
    yield from _told(command)
    if (to / "mine.txt").read_text() != "mine":
        yield "export: touched a file that is not its own"
    names = {path.name for path in to.iterdir()}
    if len(names) > 1 and "tabside-manifest.json" not in names:
        yield f"export: half-written: {sorted(names)}"
    if any(name.startswith(".") for name in names):
        yield f"export: left {sorted(names)}"
    for path in to.glob("*.json"):
        json.loads(path.read_text("utf-8"))


def _run(command: list[str]) -> tuple[int, str, str, str]:
    """Exit status, standard output, standard error, and what should not have happened."""
    out, err = io.StringIO(), io.StringIO()
    before = signal.signal(signal.SIGALRM, _too_long)
    signal.alarm(SECONDS)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            status = tabside(command)
    except TimeoutError:
        return 0, "", "", f"ran longer than {SECONDS} s"
    except SystemExit as error:
        return 0, "", "", f"left with {error.code}"
    except BaseException as error:
        where = traceback.extract_tb(error.__traceback__)[-1]
        return 0, "", "", f"{type(error).__name__}: {error} ({Path(where.filename).name}:{where.lineno})"[:300]
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
    return status, out.getvalue(), err.getvalue(), ""


def _too_long(number: int, frame: FrameType | None) -> None:
    raise TimeoutError


def _flip(content: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(content) or 1)
    return content[:at] + bytes([dice.randrange(256)]) + content[at + 1 :]


def _cut_out(content: bytes, dice: random.Random) -> bytes:
    at, many = dice.randrange(len(content) or 1), dice.choice((1, 2, 10, 100, 1000))
    return content[:at] + content[at + many :]


def _truncate(content: bytes, dice: random.Random) -> bytes:
    return content[: dice.randrange(len(content) or 1)]


def _repeat(content: bytes, dice: random.Random) -> bytes:
    a, b = sorted(dice.randrange(len(content) or 1) for _ in range(2))
    return content[:b] + content[a : min(b, a + 3000)] + content[b:]


def _insert(content: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(content) or 1)
    junk = dice.choice(
        (b"(", b")", b'"', b"\\", b"\n", b"\x00", b"\xff\xfe", b"((((", b"))))", b"(" * 3000, b"[", b"]", b"=", b"#")
    )
    return content[:at] + junk + content[at:]


def _in_place(pattern: bytes, make: Callable[[random.Random, bytes], bytes]) -> Cut:
    """A damage to one place that a pattern finds."""

    def damage(content: bytes, dice: random.Random) -> bytes:
        places = [found.span() for found in re.finditer(pattern, content)]
        if not places:
            return content
        start, end = dice.choice(places)
        return content[:start] + make(dice, content[start:end]) + content[end:]

    return damage


def _swap_tokens(content: bytes, dice: random.Random) -> bytes:
    places = [found.span() for found in re.finditer(rb'[^\s()"]+', content)]
    if len(places) < 2:
        return content
    (a, b), (c, d) = sorted(dice.sample(places, 2))
    return content[:a] + content[c:d] + content[b:c] + content[a:b] + content[d:]


DAMAGES: dict[str, Cut] = {
    "a byte flipped": _flip,
    "bytes cut out": _cut_out,
    "cut short": _truncate,
    "a part repeated": _repeat,
    "junk put in": _insert,
    "two tokens exchanged": _swap_tokens,
    "a bracket gone": _in_place(rb"[()\[\]]", lambda dice, found: b""),
    "a bracket turned": _in_place(rb"[()]", lambda dice, found: b")" if found == b"(" else b"("),
    "a token gone": _in_place(rb'[^\s()"]+', lambda dice, found: b""),
    "a list gone": _in_place(rb"\([^()]*\)", lambda dice, found: b""),
    "a list emptied": _in_place(rb"\([^()]*\)", lambda dice, found: b"()"),
    "a list doubled": _in_place(rb"\([^()]*\)", lambda dice, found: found * 2),
    "a number changed": _in_place(rb"-?\d+(?:\.\d+)?", lambda dice, found: dice.choice(NUMBERS).encode()),
    "a hostile text": _in_place(rb'"[^"\n]*"', lambda dice, found: b'"' + dice.choice(HOSTILE).encode() + b'"'),
    "a text without its quotation mark": _in_place(rb'"[^"\n]*"', lambda dice, found: found[:-1]),
    "a keyword changed": _in_place(
        rb"\([a-z_]+", lambda dice, found: dice.choice((b"(", b"(x", b"(pin", b"(at", b"(sheet"))
    ),
    "a line gone": _in_place(rb"[^\n]*\n", lambda dice, found: b""),
    "a line doubled": _in_place(rb"[^\n]*\n", lambda dice, found: found * 2),
}

if __name__ == "__main__":
    sys.exit(main())
