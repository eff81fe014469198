"""`tabside watch`: checks again at every save."""

from __future__ import annotations

import gc
import os
from argparse import Namespace
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from tabside.analysis.judgement import Judgement
from tabside.cli.printing.watch_report import Teller
from tabside.craft_reading import craft_file_beside, craft_of
from tabside.documents.build import craft_build
from tabside.documents.dated import dated
from tabside.documents.writing.export import export_documents
from tabside.errors import TabsideError
from tabside.model.findings import Verdict
from tabside.read import drawing_of, load_hierarchy
from tabside.read.craft.board_files import board_paths
from tabside.read.kicad.lock import on_screen
from tabside.read.saves import State, state_of, wait_for_save
from tabside.rules import check_judgement

HALF_WRITTEN_S = 0.5  # what cannot be read may be half-written: so long it may take to be whole
TRIED_AGAIN_S = 2.0  # what cannot be read may lack a file in a folder that is not watched


def run(arguments: Namespace) -> int:
    """Until Ctrl-C.  Raises: TabsideError when there is no such drawing at all."""
    if not os.path.lexists(arguments.root) or (os.path.exists(arguments.root) and not os.path.isfile(arguments.root)):
        load_hierarchy(arguments.root)  # says so: no save makes a folder or a pipe a drawing
    gc.enable()  # for days of checks; a single one makes next to no circles
    with suppress(KeyboardInterrupt):
        _Watch(arguments).run()
    return 0


@dataclass(slots=True)
class _Checked:
    judgement: Judgement
    verdict: Verdict
    warnings: tuple[str, ...]
    files: tuple[tuple[str, str], ...]  # of the drawing, with their sha256


@dataclass(slots=True)
class _Watch:
    arguments: Namespace
    teller: Teller = field(init=False)
    folders: frozenset[Path] = field(init=False)

    def __post_init__(self) -> None:
        self.teller = Teller(as_json=self.arguments.json)
        self.folders = frozenset([Path(self.arguments.root).parent])

    def run(self) -> None:
        """Check, tell, and wait for the next save; what was saved while it was read is read again."""
        while True:
            before = state_of(self.folders)
            problem = self._look()
            if problem is None:
                self._wait(before, None)
                continue
            after = wait_for_save(self.folders, before, HALF_WRITTEN_S)
            if after == before:
                self.teller.tell_problem(problem)
                self._wait(before, TRIED_AGAIN_S)

    def _look(self) -> TabsideError | None:
        """Check and tell what changed; or what cannot be read."""
        try:
            checked = self._check()
        except TabsideError as problem:
            return problem
        warnings = (*checked.warnings, *self._write_page(checked))
        self.teller.tell(checked.judgement.craft, checked.verdict, warnings)
        return None

    def _wait(self, before: State, at_most_s: float | None) -> None:
        # Folders that the last reading added are new to `before`: only saves in the others can be told from it.
        known = frozenset(path for path, *_ in before)
        now = state_of(self.folders)
        wait_for_save(self.folders, before | {stamp for stamp in now if stamp[0] not in known}, at_most_s)

    def _check(self) -> _Checked:
        root = self.arguments.root
        hierarchy = load_hierarchy(root, kicad=self.arguments.kicad, variant=self.arguments.variant)
        files = {sheet.file.path for sheet in hierarchy.sheets}
        self.folders |= {Path(file).parent for file in files}
        drawing = drawing_of(hierarchy)
        judgement = Judgement(craft_of(drawing, root))
        self.folders |= self._board_folders(judgement)
        return _Checked(judgement, check_judgement(judgement), tuple(drawing.warnings), drawing.files)

    def _board_folders(self, judgement: Judgement) -> set[Path]:
        craft_file = craft_file_beside(self.arguments.root)
        patterns = judgement.craft.settings.board_files
        return {Path(path).parent for path in board_paths(patterns, craft_file)} if craft_file and patterns else set()

    def _write_page(self, checked: _Checked) -> tuple[str, ...]:
        """The findings page; what hindered it is no reason to stop, and is told as a warning."""
        if self.arguments.to is None:
            return ()
        craft = checked.judgement.craft
        root, to = self.arguments.root, self.arguments.to
        seen = on_screen(root, [file for file, _ in checked.files])
        build = craft_build(
            craft,
            checked.verdict,
            judgement=checked.judgement,
            on_screen=seen,
            dated=dated(root, checked.files, to, craft.drawing_hash, seen),
        )
        try:
            export_documents(build, self.arguments.to, only=["findings"], formats=["html"], keep_others=True)
        except TabsideError as problem:
            return (str(problem),)
        return ()
