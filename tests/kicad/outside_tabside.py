"""A stand-in for the command `tabside` inside KiCad 10's own system, which hands its words to the real one outside.

The two see one folder.  The stand-in leaves a file with its words there and waits for the answer; `Outside` runs the
real command in the same folder and gives back what it printed.
"""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from pathlib import Path

STAND_IN = """#!/usr/bin/python3
import json, os, sys, time, uuid
name = os.path.join({box!r}, uuid.uuid4().hex)
with open(name + ".part", "w") as file:
    json.dump([os.getcwd(), sys.argv[1:]], file)
os.rename(name + ".part", name + ".asked")
while not os.path.exists(name + ".answer"):
    time.sleep(0.1)
out, err, status = json.load(open(name + ".answer"))
sys.stdout.write(out)
sys.stderr.write(err)
sys.exit(status)
"""


class Outside:
    """Answers the stand-in as long as the `with` block lasts; `asked` has the words of each call."""

    def __init__(self, folder: Path) -> None:
        self.box = folder / "asked"
        self.box.mkdir()
        self.stand_in = folder / "stand-in"
        self.stand_in.write_text(STAND_IN.format(box=str(self.box)), encoding="utf-8")
        self.stand_in.chmod(0o755)
        self.asked: list[list[str]] = []
        self._ended = threading.Event()
        self._thread = threading.Thread(target=self._answer_all)

    def __enter__(self) -> Outside:
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._ended.set()
        self._thread.join()

    def _answer_all(self) -> None:
        while not self._ended.wait(0.1):
            for file in self.box.glob("*.asked"):
                folder, words = json.loads(file.read_text(encoding="utf-8"))
                file.unlink()
                self.asked.append(words)
                command = [str(Path(sys.executable).parent / "tabside"), *words]
                done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
                part = file.with_suffix(".part")
                part.write_text(json.dumps([done.stdout, done.stderr, done.returncode]), encoding="utf-8")
                part.rename(file.with_suffix(".answer"))
