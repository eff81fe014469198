"""The sheets of a drawing: the root, and below it each use of each sheet file."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable

from tabside.errors import TabsideError
from tabside.model.escapes import unescape
from tabside.model.natural import natural
from tabside.read.kicad.content import NEWEST_OF_KICAD_9, NEWEST_VERSION, Memory
from tabside.read.kicad.labels import expand
from tabside.read.kicad.project_file import ProjectFile, TopLevelSheet, read_project_file
from tabside.read.kicad.schematic_file import read_sheet_file
from tabside.read.kicad.sheet_file import Hierarchy, SheetFile, SheetInstance, SheetSymbol
from tabside.read.missing_file import must_be_there

MOST_SHEETS = 10_000
DEEPEST_SHEET = 100
_ABSOLUTE = r"[/\\]|[A-Za-z]:"


def load_hierarchy(
    source: object, *, kicad: int | None = None, variant: str | None = None, keeps_bytes: bool = True
) -> Hierarchy:
    """All sheets of the drawing whose root is `source`: the path of a .kicad_sch, or a kicad-skip `Schematic`.

    `kicad` says by whose rules it is read, 9's or 10's; without it the newest format among its files decides.
    `variant` names one of its design variants (KiCad 10).  `keeps_bytes`: whether each file's bytes are held, for
    whoever hashes them; in a large drawing they are a quarter of the memory.

    Sub-sheets are read from the files that the sheets name, relative to the file that holds them.  A file that is used
    many times is read once.

    Raises: TabsideError for a file that is missing, unreadable, damaged, outside of the project's folder, named by an
    absolute path, or that includes itself; for more than 10 000 sheets, or more than 100 within one another; for a
    variant that the drawing does not have.
    """
    if isinstance(source, (str, os.PathLike)):
        must_be_there(os.fspath(source), os.fspath(source))
        return _Loader(os.fspath(source), kicad, variant, keeps_bytes=keeps_bytes).load(None)
    from tabside.read.kicad.skip_source import is_tree_source, path_of, sheet_file_of_source

    if not is_tree_source(source):
        raise TypeError("a path or an object with a tree and a filepath is expected")
    path = path_of(source)
    return _Loader(path, kicad, variant).load(sheet_file_of_source(source, path or "schematic object"))


def kicad_of(versions: Iterable[int]) -> int:
    """By whose rules a drawing of these file formats is read, where nobody says: the newest format decides."""
    return 9 if max(versions) <= NEWEST_OF_KICAD_9 else 10


class _Loader:
    def __init__(self, root: str, kicad: int | None, variant: str | None, *, keeps_bytes: bool = True) -> None:
        self.root = root  # as given; "" for an object without a path
        self.kicad, self.variant = kicad, variant
        self.folder = os.path.dirname(root)
        self.keeps_bytes = keeps_bytes
        self.memory = Memory()
        self.files: dict[str, SheetFile] = {}  # by real path
        self.sheets: list[SheetInstance] = []
        self.warnings: list[str] = []
        self.project = ProjectFile()
        self.variables: dict[str, str] = {}

    def load(self, root_file: SheetFile | None) -> Hierarchy:
        if root_file is None:
            _look_at_suffix(self.root)
            root_file = self._file(self.root)
        elif self.root:
            self.files[_real_path(self.root)] = root_file
        if self.root:
            self.project = read_project_file(self.root, self.root)
        self.warnings += self.project.warnings
        self.variables = {**self.project.text_variables, "KIPRJMOD": "."}
        try:
            roots = self._roots(root_file)
        except _Refused as e:
            raise TabsideError(e.what, file=os.path.splitext(self.root)[0] + ".kicad_pro") from None
        for file, shown, path, names in roots:
            page = file.pages.get("/", "")
            self._add(SheetInstance(file, path, names, 0, None, None, page), shown, (_real_path(file.path),))
        files = list({id(sheet.file): sheet.file for sheet in self.sheets}.values())
        self._warn_of_newer(files)
        if self.variant is not None:
            self._look_for_variant(self.variant, files)
        aliases: dict[str, tuple[str, ...]] = {}
        for file in files:
            aliases.update(file.bus_aliases)
        aliases.update(self.project.bus_aliases)
        return Hierarchy(
            root_path=os.path.abspath(self.root) if self.root else "",
            sheets=tuple(self.sheets),
            text_variables=self.project.text_variables,
            bus_aliases=aliases,
            warnings=tuple(self.warnings),
            kicad=self.kicad or kicad_of(file.version for file in files),
            variant=self.variant or "",
        )

    def _file(self, shown: str) -> SheetFile:
        key = _real_path(shown)
        file = self.files.get(key)
        if file is None:
            file = read_sheet_file(shown, shown, self.memory)
            file = self.files[key] = file if self.keeps_bytes else file._replace(data=b"")
        return file

    def _roots(self, root_file: SheetFile) -> list[tuple[SheetFile, str, str, str]]:
        """(file, file as shown, path, human path) of each root: one, or several with KiCad 10."""
        listed = self.project.top_level_sheets
        if len(listed) < 2:
            return [(root_file, self.root, f"/{root_file.uuid}", "/")]
        own = [sheet for sheet in listed if self._is_root(sheet)]
        if not own:
            self.warnings.append(
                f"{self.root}: is none of the top-level sheets that its project lists; read without the others"
            )
            return [(root_file, self.root, f"/{root_file.uuid}", "/")]
        roots = []
        for sheet in [own[0], *(sheet for sheet in listed if sheet is not own[0])]:
            shown = self.root if sheet is own[0] else self._inside(sheet.file, self.folder, f'top-level "{sheet.name}"')
            file = root_file if sheet is own[0] else self._file(shown)
            name = sheet.name or os.path.splitext(os.path.basename(shown))[0]
            roots.append((file, shown, f"/{_root_uuid(file, sheet)}", f"/{unescape(name)}/"))
        return roots

    def _is_root(self, sheet: TopLevelSheet) -> bool:
        return os.path.normpath(sheet.file.replace("\\", "/")) == os.path.basename(self.root)

    def _add(self, sheet: SheetInstance, shown: str, above: tuple[str, ...]) -> None:
        """Append the sheet and all below it.  `above`: the real paths of its file and those around it."""
        if len(self.sheets) >= MOST_SHEETS:
            raise TabsideError(f"the drawing has more than {MOST_SHEETS} sheets", file=shown)
        index = len(self.sheets)
        self.sheets.append(sheet)
        self._warn_of_equal_names(sheet, shown)
        for page, symbol in self._in_page_order(sheet):
            name = unescape(expand(symbol.name, self.variables.get))
            names = f"{sheet.names}{name}/"
            try:
                below = self._sub_sheet(symbol, names, shown, above, sheet.depth + 1)
            except _Refused as e:
                raise _at_sheet(e.what, shown, sheet.file, symbol) from None
            try:
                file = self._file(below)
            except TabsideError as e:
                what = f'{e.what} (sheet "{_short(names)}" of {shown})'
                raise TabsideError(what, file=e.file, line=e.line, column=e.column) from None
            inside = SheetInstance(file, f"{sheet.path}/{symbol.uuid}", names, sheet.depth + 1, symbol, index, page)
            self._add(inside, below, (*above, _real_path(below)))

    def _in_page_order(self, sheet: SheetInstance) -> list[tuple[str, SheetSymbol]]:
        """The sheets in one, with their page numbers."""
        root = self.sheets[0]
        below_root = sheet.path.removeprefix(root.path)
        pages = [
            (symbol.pages.get(sheet.path) or root.file.pages.get(f"{below_root}/{symbol.uuid}", ""), symbol)
            for symbol in sheet.file.sheets
        ]
        return sorted(pages, key=lambda p: (natural(p[0]), p[1].at, p[1].uuid))

    def _sub_sheet(self, symbol: SheetSymbol, names: str, shown: str, above: tuple[str, ...], depth: int) -> str:
        """The file of a sheet, as shown.  Raises: _Refused."""
        what, written = f'sheet "{_short(names)}"', _short(symbol.file)
        if not self.root:
            raise _Refused(f"{what} is to be read from {written}, but the schematic object has no path")
        if depth > DEEPEST_SHEET:
            raise _Refused(f"{what} lies more than {DEEPEST_SHEET} sheets deep")
        below = self._inside(symbol.file, os.path.dirname(shown), what)
        if not os.path.lexists(below):
            raise _Refused(f"{what} names {written}, which does not exist; put the file there or remove the sheet")
        if _real_path(below) in above:
            raise _Refused(f"{what} names {written}, which includes itself; a sheet cannot hold itself")
        return below

    def _inside(self, written: str, folder: str, what: str) -> str:
        """The file that `written` means, seen from `folder`; it lies in the project's folder.  Raises: _Refused."""
        if not written.strip():
            raise _Refused(f"{what} names no file")
        named = f"{what} names {_short(written)}"
        relative = expand(written, self.variables.get).replace("\\", "/")
        if "${" in relative:
            raise _Refused(f"{named}, with a variable not known here; write the file's name without it")
        if written.startswith("${KIPRJMOD}"):
            folder = self.folder
        if re.match(_ABSOLUTE, relative):
            raise _Refused(f"{named} by an absolute path; write it relative to this file")
        path = os.path.normpath(os.path.join(folder, relative))
        if os.path.relpath(path, self.folder or ".").split(os.sep)[0] == os.pardir:
            raise _Refused(f"{named}, which lies outside of the project's folder; put it inside")
        return path

    def _look_for_variant(self, wanted: str, files: list[SheetFile]) -> None:
        """Raise when the drawing has no such variant."""
        names = set(self.project.variants)
        for file in files:
            for variants in [*(symbol.variants for symbol in file.symbols), *(sheet.variants for sheet in file.sheets)]:
                names.update(name for changes in variants.values() for name in changes)
        if wanted not in names:
            there = f"there are {', '.join(sorted(names, key=natural))}" if names else "it has none"
            raise TabsideError(f'the drawing has no variant "{wanted}"; {there}', file=self.root or "schematic object")

    def _warn_of_newer(self, files: list[SheetFile]) -> None:
        newer = [file for file in files if file.version > NEWEST_VERSION]
        if newer:
            self.warnings.append(
                f"{os.path.relpath(newer[0].path) if newer[0].path else 'schematic object'}: file format "
                f"{newer[0].version} is newer than {NEWEST_VERSION}, the newest that is known here; "
                "what is new in it is left out"
            )

    def _warn_of_equal_names(self, sheet: SheetInstance, shown: str) -> None:
        names: dict[str, int] = {}
        for symbol in sheet.file.sheets:
            names[symbol.name] = names.get(symbol.name, 0) + 1
        for name, count in names.items():
            if count > 1:
                self.warnings.append(
                    f'{shown}: {count} sheets are named "{sheet.names}{name}/"; nets of equal name in them become one'
                )


class _Refused(Exception):  # noqa: N818 - becomes a TabsideError with the sheet's place
    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


def _at_sheet(what: str, shown: str, file: SheetFile, symbol: SheetSymbol) -> TabsideError:
    """The error with the place of the sheet's symbol in its parent's file."""
    from tabside.read.kicad.schematic_file import place_of_list

    place = place_of_list(file.path, "sheet", file.sheets.index(symbol))
    line, column = place or (None, None)
    return TabsideError(what, file=shown or "schematic object", line=line, column=column)


def _real_path(path: str) -> str:
    try:
        return os.path.realpath(path)
    except ValueError:  # a NUL in the name: reading says so
        return path


def _short(text: str) -> str:
    return text if len(text) <= 120 else text[:117] + "..."


def _look_at_suffix(path: str) -> None:
    if path.endswith((".kicad_pro", ".kicad_pcb", ".kicad_prl")):
        raise TabsideError("is no schematic; name the .kicad_sch file beside it", file=path)


def _root_uuid(file: SheetFile, sheet: TopLevelSheet) -> str:
    """The uuid that begins the paths of a top-level sheet: the file's own, unless its symbols say the project's."""
    own = f"/{file.uuid}"
    paths = [path for symbol in file.symbols for path in symbol.instances]
    if sheet.uuid and own not in paths and f"/{sheet.uuid}" in paths:
        return sheet.uuid
    return file.uuid
