"""How documents and formats are found."""

import subprocess
import sys
from importlib import import_module, metadata
from pathlib import Path

import pytest

import tabside_exporters
from tabside.documents import document as documents
from tabside.documents.document import DOCUMENTS, FORMATS, Document, Format, find_documents, find_formats
from tabside.documents.rows import CellKind, Column
from tabside.errors import TabsideError


class Offer:
    """An entry point of a package of someone else's."""

    def __init__(self, name, loaded, value="other:THING"):
        self.name, self.loaded, self.value = name, loaded, value

    def load(self):
        if isinstance(self.loaded, Exception):
            raise self.loaded
        return self.loaded


@pytest.fixture
def offers(monkeypatch):
    def install(*entry_points):
        monkeypatch.setattr(metadata, "entry_points", lambda group: list(entry_points))

    return install


def a_document(id):
    return Document(id, "Title", "row", (), lambda build: None)


def test_the_documents_and_formats_of_this_project_are_found_in_order():
    ours = {"bom", "continuity-sheet", "cut-list", "end-to-end", "findings", "first-power", "port-list", "wire-list"}
    assert ours <= set(find_documents()) and list(find_documents()) == sorted(find_documents())
    assert list(find_formats()) == ["csv", "html", "json", "markdown", "xlsx"]
    assert [format.suffix for format in find_formats().values()] == ["csv", "html", "json", "md", "xlsx"]


def test_some_of_them_can_be_named():
    assert list(find_documents(["wire-list", "bom", "bom"])) == ["bom", "wire-list"]


@pytest.mark.parametrize(
    ("group", "attribute", "kind"), [(DOCUMENTS, "DOCUMENT", Document), (FORMATS, "FORMAT", Format)]
)
def test_every_module_that_has_one_is_an_entry_point(group, attribute, kind):
    found = {}
    for room in ("formats", "pages", "picture", "tables"):
        for path in (Path(tabside_exporters.__file__).parent / room).glob("*.py"):
            module = f"tabside_exporters.{room}.{path.stem}"
            offered = getattr(import_module(module), attribute, None)
            if offered is not None:
                found[offered.id] = f"{module}:{attribute}"
                assert isinstance(offered, kind)
    assert found == {point.name: point.value for point in metadata.entry_points(group=group)}


def test_a_document_that_nobody_offers_is_told_with_what_there_is():
    with pytest.raises(TabsideError) as error:
        find_documents(["wire-lsit"])
    listed = ", ".join(find_documents())
    assert str(error.value) == f'there is no document "wire-lsit"; did you mean "wire-list"? there are {listed}'


def test_a_format_that_nobody_offers_is_told_with_what_there_is():
    with pytest.raises(TabsideError) as error:
        find_formats(["docx"])
    assert str(error.value) == 'there is no format "docx"; there are csv, html, json, markdown, xlsx'


def test_naming_none_is_an_error():
    with pytest.raises(
        TabsideError, match="no document is named; there are bench, board-entry, bom, continuity-sheet, craft-picture, "
    ):
        find_documents([])


def test_a_document_of_someone_else_is_found_beside_ours(offers):
    offers(Offer("pin-list", a_document("pin-list")))
    assert list(find_documents()) == ["pin-list"]


@pytest.mark.parametrize(
    ("loaded", "said"),
    [
        (ImportError("No module named 'odd'"), "does not load: ImportError: No module named 'odd'"),
        (RuntimeError("two\nlines"), "does not load: RuntimeError: two lines"),
        ("a text", "is no Document of that id"),
        (a_document("other-name"), "is no Document of that id"),
    ],
)
def test_an_offer_that_does_not_load_is_one_clear_line(offers, loaded, said):
    offers(Offer("odd", loaded))
    with pytest.raises(TabsideError) as error:
        find_documents()
    assert str(error.value) == f'document "odd" (other:THING) {said}; fix or remove the package'


def test_an_offer_that_does_not_load_is_no_matter_when_it_is_not_asked_for(offers):
    offers(Offer("odd", ImportError("x")), Offer("good", a_document("good")))
    assert list(find_documents(["good"])) == ["good"]


@pytest.mark.parametrize("id", ["../x", "a/b", "A B", "", "a\\b", ".."])
def test_an_id_that_is_no_file_name_is_refused(offers, id):
    offers(Offer(id, a_document(id)))
    with pytest.raises(TabsideError, match="is no Document of that id"):
        find_documents()


def test_two_packages_with_the_same_document_are_told(offers):
    offers(Offer("a", a_document("a"), "one:A"), Offer("a", a_document("a"), "two:A"))
    with pytest.raises(TabsideError, match='two packages offer a document "a": one:A and two:A; remove one of them'):
        find_documents()


def test_the_core_loads_neither_an_exporter_nor_the_table_library():
    code = (
        "import sys, tabside.documents.writing.export, tabside.documents.build, tabside.documents.document;"
        "print([m for m in sys.modules if m.partition('.')[0] in ('pandas', 'numpy', 'tabside_exporters', 'tabulate')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


@pytest.mark.parametrize(
    ("kind", "cell"), [(CellKind.WHOLE, "3"), (CellKind.WHOLE, 1.5), (CellKind.TENTHS, "long"), (CellKind.TEXT, 3)]
)
def test_a_cell_of_another_kind_than_its_column_says_is_an_error(kind, cell):
    document = Document("x", "X", "row", (Column("a", "", kind),), lambda build: [{"a": cell}])
    with pytest.raises(TabsideError, match=f"document x, column a: {cell!r} is no {kind.value}"):
        documents.make_page(document, None, None)


def test_a_table_with_other_columns_than_its_document_says_is_an_error():
    document = Document("x", "X", "row", (Column("a", ""),), lambda build: [{"b": "1"}])
    with pytest.raises(TabsideError, match="document x gives columns b; it must give a"):
        documents.make_page(document, None, None)
