"""The continuity sheet: what to measure before power, in the order in which it is done."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.documents.build import Build
from tabside.documents.document import Document
from tabside.documents.rows import CellKind, Column, Row
from tabside.prove.continuity import continuity
from tabside.prove.limits import limit_notes
from tabside.prove.measurement import Measurement
from tabside_exporters.tables.legend import length_legend

COLUMNS = (
    Column("step", "order of work", CellKind.WHOLE),
    Column("cable", "cable or leads that the step is about"),
    Column("test", "what kind of measurement it is; see the notes"),
    Column("leads", "marks of the leads that are measured"),
    Column("from", "where one probe goes; a plug is named by the board and termination that it goes into"),
    Column("to", "where the other probe goes"),
    Column("expect", "what the meter must say"),
    Column(
        "limit_ohm",
        "the most that a good lead may read, ohm; not known: gauge or length is missing",
        CellKind.HUNDREDTHS,
    ),
    Column("result", "tick it when it is so; stop and find out why when it is not", CellKind.TICK),
    Column("note", "what to mind"),
)
_HOW = (
    "Work from top to bottom, cable by cable, battery disconnected.  Write the reading of the bare probes down first "
    "and take it off each reading.",
    "lead, must be open: the cable lies loose, with no board on it.  Push no probe into a small contact: plug it "
    "into a spare receptacle and touch that, or touch the contact's edge.",
    "must be open: neighbouring cavities, and supplies against ground.  Leads of one net are left out.",
    "landmark: one end plugged into its real board, everything else unplugged.  The known ground is one that you know "
    "without this sheet: a USB shell, the battery's minus pad.  Then the other end.  If ground and supply are "
    "exchanged here, the cable is pinned in mirror image: it would burn the board.",
    "by eye: the lead begins inside a part, where no probe reaches.",
)


def continuity_sheet(build: Build) -> Iterator[Row]:
    """One row for each measurement."""
    return (_row(step, each) for step, each in enumerate(continuity(build), 1))


def _row(step: int, each: Measurement) -> Row:
    return {
        "step": step,
        "cable": each.group,
        "test": each.test.value,
        "leads": ", ".join(each.leads),
        "from": each.start,
        "to": each.end,
        "expect": each.expect,
        "limit_ohm": each.limit_ohm if each.has_limit else "",
        "result": "",
        "note": each.note,
    }


def _notes(build: Build) -> tuple[str, ...]:
    return (*_HOW, *limit_notes(), *length_legend(build.craft.leads, build.craft.settings))


DOCUMENT = Document(
    id="continuity-sheet",
    title="Continuity sheet",
    row="measurement",
    columns=COLUMNS,
    rows=continuity_sheet,
    notes=_notes,
    bench=True,
    group="cable",
)
