"""Where contact 1 of each plug lies on face `tabs`, as far as the drawing settles it; nothing is guessed."""

from __future__ import annotations

from collections.abc import Mapping

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, is_polarised
from tabside.facts import families
from tabside.make.needs.cable_jobs import BARE
from tabside.make.sheets.cable_plan import CableEnd
from tabside.model.craft import Craft, Kind, Termination
from tabside.wiring import faces
from tabside.words.contacts import listed


def contact_1_on_tabs(termination: Termination) -> str | None:
    """ "left" or "right" on face `tabs`; None when `Contact 1`, `Entry` or `Tabs` is not known."""
    return faces.contact_1_on_tabs(termination.entry, termination.tabs, termination.contact_1)


class Views:
    """The faces of a craft's plugs, held against each other.

    One housing has one `tabs` order whatever receptacle it meets: families whose receptacles disagree have none here.
    """

    def __init__(self, craft: Craft) -> None:
        self._craft = craft
        seen: dict[str, set[str]] = {}
        for termination in craft.terminations.values():
            side = contact_1_on_tabs(termination)
            if termination.family is not None and side is not None and termination.takes_plug:
                seen.setdefault(termination.family, set()).add(side)
        self._clashing: dict[str, list[str]] = {}  # by termination: facts of it that cannot both be true, in words
        for oddity in craft.oddities:
            if oddity.what == "contradiction":
                self._clashing.setdefault(oddity.reference, []).append(oddity.facts or oddity.message)
        self._disagree: Mapping[str, bool] = {family: len(sides) > 1 for family, sides in seen.items()}

    def disagree(self, family: str | None) -> bool:
        return family is not None and self._disagree.get(family, False)

    def end(self, reference: str, leads: tuple[MadeLead, ...]) -> CableEnd:
        met = self._craft.terminations[reference]
        kinds = {end.kind for made in leads for end in made.ends if end.key[0] == reference}
        plug = bool(kinds - set(BARE) - {EndKind.OWN}) or EndKind.CUP in kinds
        family = met.family if plug or met.kind is Kind.CAPTIVE else None
        side = contact_1_on_tabs(met) if plug and not self.disagree(met.family) and met.rows == 1 else None
        return CableEnd(
            met.board, reference, family, met.ways if plug else None, plug, met.entry, met.tabs, met.contact_1, side
        )

    def wants_a_look(self, end: CableEnd) -> bool:
        """Whether the drawing leaves open which way round the plug of this end shows its row, or contradicts itself."""
        unknown = end.has_plug and faces.is_unknown(self._craft.terminations[end.termination])
        return unknown or end.termination in self._clashing

    def looks(self, end: CableEnd) -> tuple[str, ...]:
        """What one look at the real part must still settle about this plug."""
        clashing = self._clashing.get(end.termination)
        if clashing:
            return tuple(
                f"{end.name}: the drawing contradicts itself: {text}. Look at the real part before you buy or make "
                "anything for it, and correct the drawing; no side is given here: find contact 1 on the board and "
                "count from there"
                for text in clashing
            )
        if is_polarised(self._craft, end.termination):
            return ()
        said = []
        if end.family is not None and self.disagree(end.family):
            title = families.family(end.family).title
            said.append(
                f"{end.name}: the drawing contradicts itself on which way round the {title} plug sits; one of its "
                "connectors is drawn wrong, so no side is given: find contact 1 on the real plug"
            )
            return tuple(said)
        unknown = [
            what
            for what, value in (("Contact 1", end.contact_1), ("Entry", end.entry), ("Tabs", end.tabs))
            if value is None
        ]
        if unknown:
            said.append(
                f"{end.name}: {listed(unknown)} not stated, so left and right cannot be given: find contact 1 "
                "on the board and count from there"
            )
        return tuple(said)


def from_left(end: CableEnd, place: int | None) -> int | None:
    """The place counted from the left of face `tabs`."""
    if place is None or end.ways is None or end.contact_1_on_tabs is None:
        return None
    return place if end.contact_1_on_tabs == "left" else end.ways + 1 - place
