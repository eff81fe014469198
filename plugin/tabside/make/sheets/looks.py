"""What needs one look before a cable is made, since the drawing does not say it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from tabside.analysis.joined.lead_ends import EndKind
from tabside.facts import families
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.sheets.cable_plan import CableEnd
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import Craft
from tabside.words.lengths import tenths_up


def plug_looks(job: CableJob, ends: Sequence[CableEnd]) -> tuple[str, ...]:
    said: list[str] = []
    for end in ends:
        if end.has_plug and end.family is None:
            said.append(f"{end.shown}: which family its plug is: the drawing does not say it; look-alikes do not fit")
    mates = {end.key[0]: end.family for made in job.leads for end in made.ends if end.kind is EndKind.MATE}
    for end in ends:
        if end.termination in mates:
            family = mates[end.termination]
            what = f" ({families.family(family).title})" if family else ""
            said.append(
                f"{end.shown}: the plug that mates with the part's own{what}: its housing, contacts and the gauge they "
                "take are in no table here"
            )
    for end in ends:
        face = families.release_face(end.family) if end.family and end.has_plug and end.entry != "side" else None
        if face is not None and face.look_when == "fitting":
            said.append(f"{end.shown}: {face.look}")
    if any(
        made.lead.length_mm is None and all(end.kind is not EndKind.MATED for end in made.ends) for made in job.leads
    ):
        said.append("length not known for every wire: lay a string along the path before you cut or buy anything")
    return tuple(said)


def own_wire_looks(job: CableJob, own_mm: Mapping[str, float | None], craft: Craft) -> Iterator[str]:
    """Whether a part's own wires reach, before any of them is cut."""
    lengths: dict[str, dict[str, float]] = {}
    for made in job.leads:
        kinds = [end.kind for end in made.ends]
        length = tenths_up(own_mm.get(made.lead.mark))
        if EndKind.OWN in kinds and EndKind.MATED not in kinds and length is not None:
            own = next(end.key[0] for end in made.ends if end.kind is EndKind.OWN)
            lengths.setdefault(craft.terminations[own].board, {})[made.lead.mark] = length
    for part, of_marks in lengths.items():
        reach = ", ".join(f"{mark} {length:g} mm" for mark, length in of_marks.items())
        yield (
            f"that the wires of {part} reach, from where they leave it: {reach}. One that is shorter: stop, leave it "
            "uncut, move the places nearer or draw a longer way (a splice, an extension), and plan again"
        )


def gauge_looks(choice: CableChoice, craft: Craft) -> Iterator[str]:
    """Leads of the stock that are taken though the drawing states no gauge."""
    unsaid: dict[int, list[str]] = {}
    for made in choice.job.new:
        source = choice.sources.get(made.lead.mark)
        if made.lead.gauge_awg is None and source is not None and source.stock_lead is not None:
            unsaid.setdefault(source.stock_lead, []).append(made.lead.mark)
    for n, marks in unsaid.items():
        gauge = craft.settings.stock_leads[n].gauge_awg
        said = "of a gauge that nobody states" if gauge is None else f"{gauge} AWG"
        yield f"the gauge of {', '.join(marks)}: not stated; the wires from stock are {said}: enough for the current?"
