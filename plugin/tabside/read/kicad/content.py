"""What a schematic file holds, ordered by kind: from text (trimmed before it is parsed) or from a whole tree.

Both ways give the same `SheetFile`; the one from text is about ten times as fast.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from tabside.read.kicad import items
from tabside.read.kicad.library_symbol import TILDE_IS_TEXT, library_symbol
from tabside.read.kicad.sheet_file import LibSymbol, SheetFile
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import Node, WrongContent, head_of, point_of, text_at, whole_number
from tabside.read.kicad.text.trimming import LIBRARY_NAME, Trimmer, lists_and_library, symbol_parts

OLDEST_VERSION = 20210621  # KiCad 6 development, the first with today's overbars
NEWEST_OF_KICAD_9 = 20250114
NEWEST_VERSION = 20260306  # KiCad 10
INSTANCES_IN_SYMBOLS = 20221002  # KiCad 6 keeps references in the root file, 7 in each symbol
_BATCH = 500  # lists that are parsed together

_LINES = ("wire", "bus", "bus_entry", "junction", "no_connect")
_OTHERS = (
    "version",
    "uuid",
    "title_block",
    "sheet",
    "bus_alias",
    "symbol_instances",
    "sheet_instances",
    *items.LABEL_KINDS,
)

_line_trimmer = Trimmer(1, "stroke", "uuid", "color", "diameter")
_other_trimmer = Trimmer(2, "effects", "stroke", "fill", "fields_autoplaced", "exclude_from_sim")
_library_trimmer = Trimmer(
    3,
    *("property", "effects", "polyline", "rectangle", "circle", "arc", "bezier", "text", "text_box", "stroke", "fill"),
    *("length", "pin_names", "pin_numbers", "exclude_from_sim", "in_bom", "on_board", "embedded_fonts"),
    *("embedded_files", "in_pos_files", "unit_name", "body_styles"),
)


class Memory:
    """What was worked out for one file of a project and holds in others: the same text means the same."""

    def __init__(self) -> None:
        self.library: dict[tuple[str, bool], LibSymbol] = {}
        self.fields: dict[str, tuple[str, str]] = {}  # `"name" "value"` as written -> both texts


class _Content(NamedTuple):
    version: int
    by_head: dict[str, list[Node]]  # without symbols and library
    symbols: Iterable[tuple[Node, dict[str, str]]]
    library: Callable[[set[str]], dict[str, LibSymbol]]  # the symbols of these names
    symbol_node: Callable[[int], Node]  # the whole list of a placed symbol


def sheet_file_of_text(text: str, path: str, data: bytes, memory: Memory) -> SheetFile:
    """The file's content.  Raises: NotSeen, BadBrackets, WrongContent: then the text is to be looked at whole."""
    return _sheet_file(_content_of_text(text, memory), path, data)


def sheet_file_of_tree(tree: Node, path: str, data: bytes) -> SheetFile:
    """The file's content, from a tree of `Atom`, `str` and lists.  Raises: WrongContent."""
    return _sheet_file(_content_of_tree(tree), path, data)


def _sheet_file(content: _Content, path: str, data: bytes) -> SheetFile:
    version, nodes = content.version, content.by_head
    symbols = tuple(items.placed_symbol(node, fields, version) for node, fields in content.symbols)
    library = content.library({symbol.lib_name or symbol.lib_id for symbol in symbols})
    symbols = tuple(
        symbol
        if (symbol.lib_name or symbol.lib_id) in library
        else symbol._replace(own_pins=items.own_pins(content.symbol_node(index)))
        for index, symbol in enumerate(symbols)
    )
    instances: dict[str, tuple[str, int, str, str]] = {}
    if version < INSTANCES_IN_SYMBOLS:
        for node in nodes.get("symbol_instances", ()):
            instances |= items.symbol_instances(node, version)
    uuid, title, pages = nodes.get("uuid"), nodes.get("title_block"), nodes.get("sheet_instances")
    return SheetFile(
        path=path,
        version=version,
        uuid=text_at(uuid[0], 1) if uuid else "",
        title_block=items.title_block(title[0]) if title else {},
        lib_symbols=library,
        symbols=symbols,
        sheets=tuple(items.sheet_symbol(node, version) for node in nodes.get("sheet", ())),
        wires=tuple(map(items.line, nodes.get("wire", ()))),
        buses=tuple(map(items.line, nodes.get("bus", ()))),
        junctions=tuple(point_of(node, "at") for node in nodes.get("junction", ())),
        no_connects=tuple(point_of(node, "at") for node in nodes.get("no_connect", ())),
        bus_entries=tuple(map(items.bus_entry, nodes.get("bus_entry", ()))),
        labels=tuple(items.label(node, version) for head in items.LABEL_KINDS for node in nodes.get(head, ())),
        bus_aliases=dict(map(items.bus_alias, nodes.get("bus_alias", ()))),
        symbol_instances=instances,
        data=data,
        pages=items.sheet_pages(pages[0]) if pages else {},
    )


def _content_of_tree(tree: Node) -> _Content:
    if head_of(tree) != "kicad_sch":
        raise WrongContent(f"a schematic begins with (kicad_sch; this is ({head_of(tree)[:40]} ...)", tree)
    by_head: dict[str, list[Node]] = {}
    library: dict[str, Node] = {}
    for index, node in enumerate(tree[1:], 1):
        head = head_of(node)
        if not isinstance(node, list):
            raise WrongContent(f"a list is expected, not {str(node)[:40]!r}", tree, index)
        if head == "lib_symbols":
            library |= {text_at(symbol, 1): symbol for symbol in node if head_of(symbol) == "symbol"}
        else:
            by_head.setdefault(head, []).append(node)
    version = _version(by_head, tree)
    return _Content(
        version,
        by_head,
        [(node, items.fields_of(node, version)) for node in by_head.get("symbol", ())],
        lambda names: {name: library_symbol(library[name], version) for name in library if name in names},
        lambda index: by_head["symbol"][index],
    )


def _version(by_head: dict[str, list[Node]], tree: Node | None = None) -> int:
    nodes = by_head.get("version")
    if not nodes:
        raise WrongContent("the file's format number (version N) is missing", tree)
    version = whole_number(nodes[0], 1)
    if version < OLDEST_VERSION:
        raise WrongContent(
            f"file format {version} is older than KiCad 6; open the drawing in a newer KiCad and save it", nodes[0], 1
        )
    return version


def _content_of_text(text: str, memory: Memory) -> _Content:
    lines: list[str] = []
    others: list[str] = []
    symbols: list[str] = []
    library: list[str] = []
    into = {"symbol": symbols, "lib_symbols symbol": library}
    into |= dict.fromkeys(_LINES, lines) | dict.fromkeys(_OTHERS, others)
    for head, written in lists_and_library(text):
        kept = into.get(head)
        if kept is not None:
            kept.append(written)
    by_head: dict[str, list[Node]] = {}
    for node in _parsed(_other_trimmer, others) + _parsed(_line_trimmer, lines):
        by_head.setdefault(node[0], []).append(node)
    version = _version(by_head)
    by_name = {_name_of(symbol): symbol for symbol in library}
    return _Content(
        version,
        by_head,
        _placed(symbols, version, memory),
        lambda names: _library({name: by_name[name] for name in by_name if name in names}, version, memory),
        lambda index: parse(symbols[index]),
    )


def _parsed(trimmer: Trimmer, written: list[str]) -> list[Node]:
    return [node for some in _batches(written) for node in parse(f"({trimmer.trim(' '.join(some))})")]


def _batches(texts: Sequence[str]) -> Iterator[Sequence[str]]:
    """All of them in turn, so many at a time that the words of a batch stay in the processor's memory."""
    return (texts[start : start + _BATCH] for start in range(0, len(texts), _BATCH))


def _placed(symbols: list[str], version: int, memory: Memory) -> Iterator[tuple[Node, dict[str, str]]]:
    """Each placed symbol's list and its fields, a batch at a time: no more lists are kept than are looked at.

    Fields repeat in many symbols, so each is parsed once.
    """
    for some in _batches(symbols):
        parts = [symbol_parts(written) for written in some]
        new = {pair for part in parts if part is not None for pair in part[1]} - memory.fields.keys()
        texts = parse(f"({' '.join(new)})")
        memory.fields.update(zip(new, zip(texts[::2], texts[1::2], strict=True), strict=True))
        bare = [written if part is None else part[0] for written, part in zip(some, parts, strict=True)]
        for node, part in zip(parse(f"({' '.join(bare)})"), parts, strict=True):
            if part is None:
                fields = items.fields_of(node, version)
            else:
                fields = items.without_tildes(dict([memory.fields[pair] for pair in part[1]]), version)
            yield node, fields


def _library(written: dict[str, str], version: int, memory: Memory) -> dict[str, LibSymbol]:
    """The library symbols by name; each different text is parsed once in a project."""
    tilde = version < TILDE_IS_TEXT
    new = [text for text in written.values() if (text, tilde) not in memory.library]
    for text, node in zip(new, _parsed(_library_trimmer, new), strict=True):
        memory.library[text, tilde] = library_symbol(node, version)
    return {name: memory.library[text, tilde] for name, text in written.items()}


def _name_of(library_text: str) -> str:
    """The name of a library symbol, from its text."""
    found = LIBRARY_NAME.match(library_text)
    if found is not None and "\\" not in found[1]:
        return found[1][1:-1]
    return text_at(parse(_library_trimmer.trim(library_text)), 1)
