"""Documents and formats: what an exporter offers, and how it is found.

A package adds a document by a line in the entry-point group `tabside.documents`, a format by one in
`tabside.formats`; the core imports neither.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, TypeVar

from msgspec import Struct, field

from tabside.documents.about import About
from tabside.documents.build import CraftBuild
from tabside.documents.rows import Column, Row, checked_rows, json_rows
from tabside.errors import TabsideError
from tabside.words.nearest import did_you_mean

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint

JsonTables = Mapping[str, Sequence[Mapping[str, object]]]  # name of the table -> its rows, in JSON's types

DOCUMENTS = "tabside.documents"
FORMATS = "tabside.formats"
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")  # stands in file names


class Totals(Struct, frozen=True):
    """A second, short table below the first."""

    columns: tuple[Column, ...]
    rows: Callable[[CraftBuild], Iterable[Row]]


def _no_notes(build: CraftBuild) -> tuple[str, ...]:
    return ()


class Listed(Struct, frozen=True):
    """A document of a folder, with the files that hold it."""

    id: str
    title: str
    purpose: str
    files: Mapping[str, str]  # format -> name


class Document(Struct, frozen=True):
    """One kind of document."""

    id: str  # "wire-list"; names its files
    title: str
    row: str  # what one row is: "lead"
    columns: tuple[Column, ...]
    rows: Callable[[CraftBuild], Iterable[Row]]
    totals: Totals | None = None  # printed below the table where a format has room for it
    notes: Callable[[CraftBuild], tuple[str, ...]] = _no_notes
    purpose: str = ""  # what a person has it for
    notes_first: bool = False  # notes are read before the first row
    bench: bool = False  # lies on the bench while hands work: carries the cautions
    group: str = ""  # a column; rows with the same cell that follow each other may stand under it as a heading
    # Its tables for JSON, "rows" among them; None: the rows as they are.
    tables: Callable[[CraftBuild], JsonTables] | None = None
    # Writers of its own, by format; a document that has some exists in these formats only.
    written_by: Mapping[str, Callable[[Page, CraftBuild], bytes]] = field(default_factory=dict)
    # Of a document about the folder itself: its rows from all others in the folder, instead of `rows`.
    of_folder: Callable[[Sequence[Listed]], Iterable[Row]] | None = None

    def exists_in(self, format_id: str) -> bool:
        return not self.written_by or format_id in self.written_by


class Page(Struct, frozen=True):
    """A document of one build, ready to be written in any format."""

    document: Document
    about: About
    rows: tuple[Row, ...]
    totals: tuple[Row, ...] | None
    notes: tuple[str, ...]
    tables: JsonTables = field(default_factory=dict)
    folder: tuple[Listed, ...] = ()  # the other documents of the folder, to which a page may lead


class Format(Struct, frozen=True):
    """One way to write a page."""

    id: str  # "csv"
    suffix: str  # "csv", without the dot
    title: str
    write: Callable[[Page], bytes]


_Offer = TypeVar("_Offer", Document, Format)


def find_documents(only: Sequence[str] | None = None) -> dict[str, Document]:
    """The documents that installed packages offer, by id and in that order; `only` picks some of them.

    Raises: TabsideError for an id that nobody offers, and for an offer that does not load.
    """
    return _find(DOCUMENTS, "document", Document, only)


def find_formats(only: Sequence[str] | None = None) -> dict[str, Format]:
    """The formats that installed packages offer, as `find_documents` does."""
    return _find(FORMATS, "format", Format, only)


def make_page(document: Document, build: CraftBuild, about: About, folder: Sequence[Listed] = ()) -> Page:
    """The document's rows for this build; `folder`: the other documents of the folder.

    Raises: TabsideError when they have other columns than the document says.
    """
    given = document.rows(build) if document.of_folder is None else document.of_folder(folder)
    rows = checked_rows(given, document.columns, document.id)
    totals = document.totals
    below = None if totals is None else checked_rows(totals.rows(build), totals.columns, document.id)
    own = document.tables
    tables = {"rows": json_rows(rows, document.columns)} if own is None else own(build)
    return Page(document, about, rows, below, document.notes(build), tables, tuple(folder))


def _find(group: str, what: str, kind: type[_Offer], only: Sequence[str] | None) -> dict[str, _Offer]:
    offers = _entry_points(group, what)
    names = sorted(offers) if only is None else list(dict.fromkeys(only))
    if not names:
        listed = ", ".join(sorted(offers)) or "none: install Tabside again"
        raise TabsideError(f"no {what} is named; there are {listed}")
    for name in names:
        if name not in offers:
            raise TabsideError(f'there is no {what} "{name}"; {_nearest(name, offers)}')
    return {name: _load(offers[name], what, kind) for name in sorted(names)}


def _entry_points(group: str, what: str) -> dict[str, EntryPoint]:
    from importlib.metadata import entry_points  # slow to import: not before an export is asked for

    offers: dict[str, EntryPoint] = {}
    for offer in entry_points(group=group):
        other = offers.setdefault(offer.name, offer)
        if other.value != offer.value:
            values = f"{other.value} and {offer.value}"
            raise TabsideError(f'two packages offer a {what} "{offer.name}": {values}; remove one of them')
    return offers


def _load(offer: EntryPoint, what: str, kind: type[_Offer]) -> _Offer:
    said = f'{what} "{offer.name}" ({offer.value})'
    try:
        loaded = offer.load()
    except Exception as error:  # whatever a package of someone else's does while it is imported
        why = f"{type(error).__name__}: {error}"
        raise TabsideError(f"{said} does not load: {why}; fix or remove the package") from error
    if not isinstance(loaded, kind) or loaded.id != offer.name or not _ID.fullmatch(loaded.id):
        raise TabsideError(f"{said} is no {kind.__name__} of that id; fix or remove the package")
    return loaded


def _nearest(name: str, offers: Iterable[str]) -> str:
    return f"{did_you_mean(name, offers)} there are {', '.join(sorted(offers))}".lstrip()
