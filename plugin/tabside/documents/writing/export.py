"""All documents of a build, written to a folder in one go."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from msgspec import Struct

from tabside.documents.about import about_build
from tabside.documents.build import CraftBuild
from tabside.documents.dated import STATE_FILE, state_picture
from tabside.documents.document import Document, Format, Listed, find_documents, find_formats, make_page
from tabside.documents.writing.staging import replace_files
from tabside.errors import TabsideError
from tabside.model.craft import Craft

EXPORT_FORMAT = "tabside/export/1"


class ExportResult(Struct, frozen=True):
    """What was written."""

    to: Path  # as named by the user
    files: tuple[str, ...]  # names in that folder, sorted
    documents: dict[str, Sequence[Mapping[str, Any]]]  # document id -> rows, in JSON's types
    beside: dict[str, Sequence[Mapping[str, Any]]]  # further tables of documents, by name: "mistakes"
    craft: Craft  # as drawn
    remarks: tuple[str, ...] = ()  # what a person should know of the folder

    def as_json(self) -> dict[str, Any]:
        """The answer of `export --json`; paths of files begin with the folder as the user named it."""
        from tabside.documents.as_json.model import model_json  # loads a library that only JSON needs

        files = [(self.to / name).as_posix() for name in self.files]
        return {
            "format": EXPORT_FORMAT,
            "files": files,
            "documents": self.documents,
            **self.beside,
            "model": model_json(self.craft),
        }


def export_documents(
    build: CraftBuild,
    to: str | Path,
    only: Sequence[str] | None = None,
    formats: Sequence[str] | None = None,
    *,
    keep_others: bool = False,
) -> ExportResult:
    """Write documents (all, or `only` some) in formats (all, or some) to a folder, replaced whole.

    `keep_others`: documents of an earlier export that are not among them stay.

    Raises: TabsideError for an unknown document or format, and when the folder cannot be written; then nothing of it
    has changed.
    """
    documents, writers = find_documents(only), find_formats(formats)
    about = about_build(build)
    folder = [_listed(document, writers) for document in documents.values() if document.of_folder is None]
    pages = {id: make_page(document, build, about, folder) for id, document in documents.items()}
    for id in only or ():
        if not any(documents[id].exists_in(name) for name in writers):
            ways = " or ".join(sorted(documents[id].written_by))
            raise TabsideError(f"document {id} is written as {ways} only; name that format too")
    files: dict[str, bytes] = {}
    for id, page in pages.items():
        for writer in writers.values():
            if not page.document.exists_in(writer.id):
                continue
            name = f"{id}.{writer.suffix}"
            if name in files:
                raise TabsideError(f"two formats write {name}; name one of them")
            own = page.document.written_by.get(writer.id)
            files[name] = writer.write(page) if own is None else own(page, build)
    if build.dated is not None and "findings.html" in files:
        files[STATE_FILE] = state_picture(build.dated.state)
    target = Path(to)
    remarks = replace_files(target, files, keep_others=keep_others)
    return ExportResult(
        to=target,
        files=tuple(sorted(files)),
        documents={id: page.tables["rows"] for id, page in pages.items()},
        beside={name: rows for page in pages.values() for name, rows in page.tables.items() if name != "rows"},
        craft=build.drawn,
        remarks=remarks,
    )


def _listed(document: Document, writers: Mapping[str, Format]) -> Listed:
    names = {id: f"{document.id}.{writer.suffix}" for id, writer in writers.items() if document.exists_in(id)}
    return Listed(document.id, document.title, document.purpose, names)
