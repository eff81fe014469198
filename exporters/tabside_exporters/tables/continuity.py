"""The continuity sheet: what to measure before power, in the order in which it is done."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.documents.as_json.proof import proof_json
from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, JsonTables
from tabside.documents.rows import CellKind, Column, Row
from tabside.facts import families
from tabside.prove.continuity import spare_plugs
from tabside.prove.measurement import Measurement, RowKind
from tabside.prove.rows.limits import limit_notes
from tabside_exporters.tables.legend import length_legend

COLUMNS = (
    Column("step", "order of work", CellKind.WHOLE),
    Column("cable", "cable or wires that the step is about"),
    Column("test", "what kind of test it is; see the notes"),
    Column("meter", "how the meter is set, and how long the probes stay"),
    Column("wires", "numbers of the wires that are tested"),
    Column("from", "where one probe stays; a cable plug is named by the board connector that it goes into"),
    Column("to", "where the other probe goes"),
    Column("expect", "what the meter must say; tick the box if it does, else stop and find out why"),
    Column(
        "limit_ohm",
        "highest acceptable reading, ohm, after subtracting the probe reading; not known: gauge or length is missing",
        CellKind.HUNDREDTHS,
    ),
    Column("result", "pass: tick it; fail: stop, and run tabside diagnose with the failed steps", CellKind.TICK),
    Column("remarks", "remarks"),
    Column("id", "made of what the step measures: the same as long as that is the same", on_page=False),
)
_HOW = (
    "Work from top to bottom, in step with the plan: a test comes where its cable is made.  Battery and USB "
    "unplugged, capacitors empty (below 1 V); packs come last, at the steps marked volts, and nowhere else.  First "
    "touch the probes together and subtract that reading from all others.",
    "wire: the cable lies loose, with no board on it.  One probe stays, the other goes along the plug that is named: "
    "one contact beeps and no other.",
    "Never push a probe into a small contact: use a spare mating connector with pigtails, or touch the edge of the "
    "contact.",
    "ground check: one end in its real board, no other cable on that board.  A known ground is one that you can name "
    "without this sheet: what the maker calls ground there, a minus pad; not a screw and not a shell unless the maker "
    "says so.  Hold the probes 5 s.  If ground and supply are swapped here, the plug is pinned in mirror image: it "
    "would burn the board.  A board on which you can name no ground: leave the step open and look at contact 1 twice; "
    "first power may follow, since it meters each plug's volts before the plug goes into a board.",
    "after soldering: pads are found by the names printed there; tag each wire before you solder it.",
    "look: no meter finds it; use your eyes, and a magnifier.",
    "Taken for granted: a signal contact of a board without power conducts to ground and to its neighbours less than a "
    "wire does (common practice, no source).  No step relies on the opposite.",
)


def continuity_sheet(build: CraftBuild) -> Iterator[Row]:
    """One row for each measurement."""
    return (_row(step, row) for step, row in enumerate(build.proof.rows, 1))


def _row(step: int, row: Measurement) -> Row:
    return {
        "step": step,
        "cable": row.group,
        "test": row.test.value,
        "meter": row.meter,
        "wires": ", ".join(row.leads),
        "from": f"red on {row.start}" if row.kind is RowKind.VOLTS else row.start,
        "to": f"black {row.end}" if row.kind is RowKind.VOLTS else row.end,
        "expect": row.expect,
        "limit_ohm": row.limit_ohm if row.has_limit else "",
        "result": "",
        "remarks": row.note,
        "id": row.id,
    }


def _tables(build: CraftBuild) -> JsonTables:
    return proof_json(build.proof)


def needs(build: CraftBuild) -> tuple[str, ...]:
    """What must lie on the bench for it, before its first row."""
    plugs = [
        f"{number} x {families.family(family).title}" + (f", {ways}-way" if ways else "")
        for family, ways, number in spare_plugs(build.proof.world)
    ]
    spare = f", and spare mating connectors with pigtails: {'; '.join(plugs)}" if plugs else ""
    return (f"Needed: a meter that beeps{spare}.",) if build.proof.rows else ()


def _notes(build: CraftBuild) -> tuple[str, ...]:
    worth = f"What this sheet is worth: {build.proof.worth}"
    return (*needs(build), worth, *_HOW, *limit_notes(), *length_legend(build.craft.leads, build.craft.settings))


DOCUMENT = Document(
    id="continuity-sheet",
    title="Continuity sheet",
    purpose="What to measure before power, with a box for each test",
    row="measurement",
    columns=COLUMNS,
    rows=continuity_sheet,
    notes=_notes,
    notes_first=True,
    bench=True,
    group="cable",
    tables=_tables,
)
