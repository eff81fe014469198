"""Damages schematics and craft files in thousands of ways and runs the commands on them.

    python tests/fuzz_inputs.py --cases 3000 --seed 1       prints the seed of every case that went wrong

Whatever is damaged: no traceback, no hang, one clear line when a file cannot be read, and a folder of documents that is
whole or untouched.  The same seed makes the same damage.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import random
import re
import shutil
import signal
import sys
import tempfile
import traceback
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType

from random_crafts import sound_plan
from tabside.cli import main as tabside

FIXTURES = Path(__file__).parents[1] / "fixtures"
SECONDS = 20  # for one case of one command; a sound file takes a fraction of one
EXPORT_EVERY = 10
HOSTILE = (
    "", " ", "../../../etc/passwd", "/abs/path", "a/b", "=cmd|' /C calc'!A0", "\\", '\\"', "${ROW}", "${X:${X}}",
    "{slash}", "\u202egnp.exe", "名前", "🚤" * 3, "x" * 5000, "a\tb", "line\\nbreak", "\x00", "\x1b[31m",
    "<script>alert(1)</script>",
    "%s%n", "nan", "J1", "GND", "~", "~{~{x}}", "5V 1e999A", "-5V", "1:1:1", "99999999999S", "VBAT,,,,", ";;;",
)  # fmt: skip
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


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--cases", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    arguments = parser.parse_args()
    seeds = range(arguments.seed, arguments.seed + arguments.cases)
    wrong = list(run(seeds))
    print("\n".join(wrong))
    print(f"seeds {seeds[0]} to {seeds[-1]}: {len(wrong)} wrong")
    return 1 if wrong else 0


def run(seeds: range) -> Iterator[str]:
    """What went wrong, with the seed of each case."""
    with tempfile.TemporaryDirectory() as folder:
        for seed in seeds:
            for line in case(seed, Path(folder) / "case"):
                yield f"seed {seed}: {line}"


def case(seed: int, folder: Path) -> Iterator[str]:
    """Damage one file of one craft, and run the commands on it."""
    dice = random.Random(seed)
    shutil.rmtree(folder, ignore_errors=True)
    root = sound_files(dice, folder)
    victim = dice.choice(sorted(path for path in root.parent.iterdir() if path.suffix in (".kicad_sch", ".toml")))
    content, done = victim.read_bytes(), []
    for _ in range(dice.choice((1, 1, 1, 2, 5))):
        name = dice.choice(sorted(DAMAGES))
        done.append(name)
        content = DAMAGES[name](content, dice)
    victim.write_bytes(content)
    commands = [["nets", str(root), "--json"], ["check", str(root)], ["check", str(root), "--json"]]
    for command in commands:
        yield from (f"{victim.name}, {' and '.join(done)}: {line}" for line in _told(command))
    if seed % EXPORT_EVERY == 0:
        yield from (f"{victim.name}, {' and '.join(done)}: {line}" for line in _exported(root, folder / "out"))
    yield from (f"{victim.name}, {' and '.join(done)}: {line}" for line in _stamped(root))


def sound_files(dice: random.Random, folder: Path) -> Path:
    """A craft to damage: a small random one mostly, a fixture at times."""
    if dice.random() < 0.15:
        source = FIXTURES / dice.choice(("multirotor/sheets", "survey_boat/rev_b", "hostile"))
        shutil.copytree(source, folder, ignore=shutil.ignore_patterns("*.py", "*.md", "__pycache__"))
        return folder / f"{source.parent.name if source.name in ('sheets', 'rev_b') else source.name}.kicad_sch"
    from rules.test_random_crafts import drawn

    root = drawn(sound_plan(dice.randrange(1000)), folder)
    root.with_name(root.name.removesuffix(".kicad_sch") + ".craft.toml").write_text(CRAFT_FILE, "utf-8")
    return root


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


def _told(command: list[str]) -> Iterator[str]:
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


def _stamped(root: Path) -> Iterator[str]:
    """Stamping writes the marks and nothing else, or changes nothing."""
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


def _exported(root: Path, to: Path) -> Iterator[str]:
    """A second export over a first: whole, or as it was."""
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
