#!/usr/bin/env python3
"""Times `tabside compare`, as a whole process, on a drawn craft and edited copies of it.

    python tests/benchmarks/comparisons_of_grown_crafts.py [--runs 3] [--leads 300]

The craft is that of `checks_of_grown_crafts`.  Prints for each edit the median seconds by the clock and, in brackets,
of the processor, which count on a busy machine: the answer as JSON, then all documents.  Not a test.
"""

from __future__ import annotations

import argparse
import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "kits"))

from checks_of_grown_crafts import grown_craft

NUMBER = re.compile(r'"J(\d+)"')


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--runs", type=int, default=3)
    arguments.add_argument("--leads", type=int, default=300)
    chosen = arguments.parse_args()
    tabside = str(Path(sys.executable).with_name("tabside"))
    with tempfile.TemporaryDirectory() as folder:
        old = grown_craft(chosen.leads).write(Path(folder) / "old")
        text = old.read_text(encoding="utf-8")
        for what, edit in EDITS.items():
            new = Path(folder) / what.replace(" ", "_") / old.name
            new.parent.mkdir()
            new.write_text(edit(text), encoding="utf-8")
            pages = ["--to", str(new.parent / "out")]
            print(f"{what:50s}", end="")
            for more in (["--json"], pages):
                clock, processor = medians_of([tabside, "compare", str(old), str(new), *more], chosen.runs)
                print(f"{clock:8.2f} s ({processor:.2f})", end="")
            print("", flush=True)


def medians_of(command: list[str], runs: int) -> tuple[float, float]:
    """Of a command that finds no change, or some."""
    clock, processor = [], []
    for _ in range(runs):
        start, before = time.perf_counter(), spent()
        ended = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
        clock.append(time.perf_counter() - start)
        processor.append(spent() - before)
        if ended.returncode not in (0, 1):
            sys.exit(f"{' '.join(command)} ended with {ended.returncode}")
    return statistics.median(clock), statistics.median(processor)


def spent() -> float:
    """Seconds of the processor that commands have taken so far."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def renumbered(text: str) -> str:
    return NUMBER.sub(lambda found: f'"J{int(found[1]) + 500}"', text)


def another_family(text: str) -> str:
    """Of every plug of the chain."""
    return text.replace('"JST SH"', '"JST ZH"')


def exchanged(text: str) -> str:
    """TX and RX of the devices, on every second name of a net."""
    return re.sub(r'"([AB])(\d*[02468])"', lambda found: f'"{"BA"["AB".index(found[1])]}{found[2]}"', text)


def other_volts(text: str) -> str:
    return text.replace('"5V 2A"', '"12V 2A"')


def longer(text: str) -> str:
    """All of them at once, under other references."""
    return renumbered(exchanged(another_family(text)))


EDITS: Mapping[str, Callable[[str], str]] = {
    "itself": str,
    "other references": renumbered,
    "other volts": other_volts,
    "another family in the chain": another_family,
    "every second device exchanged": exchanged,
    "all of it under other references": longer,
}


if __name__ == "__main__":
    main()
