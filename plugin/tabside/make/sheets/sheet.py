"""One sheet for each cable: method, steps, what needs one look, and the reasons."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from tabside.analysis.lead_ends import EndKind, WireFrom
from tabside.make.method import Method
from tabside.make.needs.own_plugs import own_plug, why_not_moved
from tabside.make.needs.shapes import Shape
from tabside.make.sheets.cable_plan import CableEnd, CablePlan, Handling
from tabside.make.sheets.handling import handling_of
from tabside.make.sheets.loose_sheets import cable_method, crimped_ends, lead_method, loose_steps, source_words
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.ready_sheets import captive_repin, carry_out, from_ready, plug_rows
from tabside.make.sheets.step_list import StepList
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import Craft
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement

_PEN = (
    "Plug it in, hold a pen to the side of contact 1, and mark both housings there; never trust a picture instead.",
    "Flag both ends with {label}.",
    "Tag leads of equal colour, so that they stay apart when they are out.",
)

_PEN_LOOSE = (
    "Hold each empty housing in its receptacle, a pen to the side of contact 1, and mark it there; never trust a "
    "picture instead."
)
_PEN_PLUG = "Hold the plug to its receptacle, a pen to the side of contact 1, and mark it there."


def sheet(
    choice: CableChoice,
    craft: Craft,
    views: Views,
    proof: tuple[Measurement, ...],
    cut_words: Mapping[str, str],
    colours: Mapping[str, str | None],
) -> CablePlan:
    """How this cable is made; `cut_words` says what each lead is cut from, `colours` what colour it then has."""
    shape = choice.shape
    ends = tuple(views.end(reference, shape.leads) for reference in shape.terminations)
    by_name = {end.termination: end for end in ends}
    made = CablePlan(
        mark=shape.mark,
        label=shape.label,
        leads=tuple(each.lead.mark for each in shape.leads),
        ends=ends,
        method=Method.AS_BOUGHT,
        start_from=None,
        from_what="",
        steps=(),
        needs_one_look=_looks(shape, ends),
        minutes=choice.work.minutes,
        cost=choice.work.money,
        why="",
        rows=(),
        start_proof="",
        proof=proof,
        handling=(),
        preparation=tuple(text.format(label=shape.label) for text in _PEN) if shape.mark else (),
        warnings=choice.not_used,
    )
    steps = StepList(by_name, colours)
    if choice.ready is not None:
        return _faces(from_ready(made, choice, choice.ready, craft, steps), views)
    stopped = _stopped(choice, craft)
    if stopped:
        return replace(made, method=_method(choice), stopped=stopped, why=stopped, preparation=())
    own = own_plug(shape, craft)
    if own is not None:
        return _faces(_own_repinned(made, shape, craft, own, steps), views)
    return _faces(_lead_by_lead(made, choice, craft, steps, cut_words, colours), views)


def _faces(made: CablePlan, views: Views) -> CablePlan:
    """Adds what is not known of the faces of plugs that hands work on."""
    worked = {step.end for step in made.steps if step.occupancy}
    looks = [text for end in made.ends if end.name in worked for text in views.looks(end)]
    return replace(made, needs_one_look=(*looks, *made.needs_one_look))


def _looks(shape: Shape, ends: Sequence[CableEnd]) -> tuple[str, ...]:
    said: list[str] = []
    for end in ends:
        if end.has_plug and end.family is None:
            said.append(f"{end.name}: which family its plug is: the drawing does not say it; look-alikes do not fit")
    mates = {end.key[0]: end.family for made in shape.leads for end in made.ends if end.kind is EndKind.MATE}
    for end in ends:
        if end.termination in mates:
            said.append(
                f"{end.name}: the plug that mates with the part's own ({mates[end.termination]}): its housing, "
                "contacts and the gauge they take are in no table here"
            )
    if any(each.lead.length_mm is None for each in shape.leads):
        said.append("lengths: not known for every lead; lay a string along the path before anything is cut or bought")
    return tuple(said)


def _stopped(choice: CableChoice, craft: Craft) -> str:
    """Why it cannot be made as drawn."""
    shape = choice.shape
    if choice.stopped:
        marks = ", ".join(choice.stopped)
        return f"no contact of the plug takes the gauge of {marks}, and no ready lead does: change gauge or family"
    if any(end.kind is EndKind.SLOT for made in shape.new for end in made.ends):
        return "an insulation-displacing plug is not made by hand, and no ready-made cable fits: have it made"
    return why_not_moved(shape, craft)


def _own_repinned(made: CablePlan, shape: Shape, craft: Craft, own: tuple[str, str], steps: StepList) -> CablePlan:
    part, there = own
    repin, pairs, names = captive_repin(shape, craft, part, there)
    repin = replace(repin, moves=tuple(move for move in repin.moves if move.plug == 1))
    plug = tuple(replace(end, has_plug=True) if end.termination == there else end for end in made.ends)
    for n, pair in enumerate(pairs):
        if pair[1] <= len(steps.row(there)):
            steps.fill(there, pair[1], names[n])
    before = {there: steps.row(there)}
    carry_out(repin, pairs, names, (part, there), steps, over=False)
    costs = craft.settings.costs
    family = craft.terminations[part].family or ""
    return replace(
        made,
        method=Method.RE_PIN,
        from_what=f"the plug that {part} brings along",
        steps=tuple(steps.steps),
        minutes=costs.move_minutes * repin.moved + costs.leave_out_minutes * len(repin.unused),
        why=f"{repin.moved} contacts of the part's own plug sit in another order than {there} has",
        rows=plug_rows([end for end in plug if end.termination == there], before, steps, craft, {}),
        start_proof=(
            f"Before any step: the part's own markings say which lead is which; prove that cavity n of its plug holds "
            f"contact n of {part} as drawn. If not, this sheet is void."
        ),
        handling=(handling_of(family, crimped=False),),
        moves=repin.moved,
    )


def _method(choice: CableChoice) -> Method:
    return cable_method([lead_method(made, choice.sources.get(made.lead.mark)) for made in choice.shape.leads])


def _lead_by_lead(
    made: CablePlan,
    choice: CableChoice,
    craft: Craft,
    steps: StepList,
    cut_words: Mapping[str, str],
    colours: Mapping[str, str | None],
) -> CablePlan:
    loose_steps(choice, craft, steps, cut_words)
    crimped = {
        end.family
        for each in choice.shape.new
        for end in crimped_ends(each, choice.sources.get(each.lead.mark))
        if end.family is not None
    }
    handled = {
        end.family
        for each in choice.shape.new
        for end in each.ends
        if end.kind is EndKind.CONTACT and end.family is not None
    }
    method = _method(choice)
    before = {end.termination: () for end in made.ends}
    extra = _own_minutes(choice, craft)
    return replace(
        made,
        method=method,
        preparation=(_PEN_LOOSE if handled else _PEN_PLUG, *made.preparation[1:]) if made.preparation else (),
        needs_one_look=(*made.needs_one_look, *_gauge_looks(choice, craft)),
        from_what=_loose_from(choice, method, craft),
        steps=tuple(steps.steps),
        minutes=made.minutes + extra,
        why=_WHY[method],
        rows=plug_rows(made.ends, before, steps, craft, colours) if handled else (),
        handling=_handlings(handled, crimped),
    )


def _gauge_looks(choice: CableChoice, craft: Craft) -> Iterator[str]:
    """Leads of the stock that are taken though the drawing states no gauge."""
    unsaid: dict[int, list[str]] = {}
    for made in choice.shape.new:
        source = choice.sources.get(made.lead.mark)
        if made.lead.gauge_awg is None and source is not None and source.stock_lead is not None:
            unsaid.setdefault(source.stock_lead, []).append(made.lead.mark)
    for n, marks in unsaid.items():
        gauge = craft.settings.stock_leads[n].gauge_awg
        said = "of a gauge that nobody states" if gauge is None else f"{gauge} AWG"
        yield f"the gauge of {', '.join(marks)}: not stated; the leads from stock are {said}: enough for the current?"


def _handlings(handled: set[str], crimped: set[str]) -> tuple[Handling, ...]:
    return tuple(handling_of(family, crimped=family in crimped) for family in sorted(handled, key=natural))


def _own_minutes(choice: CableChoice, craft: Craft) -> float:
    """Work on a part's own leads, which leaves nothing to choose."""
    costs, minutes = craft.settings.costs, 0.0
    for made in choice.shape.leads:
        if made.wire_from is WireFrom.CAPTIVE and EndKind.MATED not in {end.kind for end in made.ends}:
            soldered = any(end.kind not in (EndKind.OWN, EndKind.CONTACT) for end in made.ends)
            minutes += costs.cut_minutes + (costs.solder_minutes if soldered else costs.crimp_minutes)
    return minutes


_WHY = {
    Method.DIRECT: "the part's own plug mates as it is, contact for contact",
    Method.AS_BOUGHT: "one object as it is sold: never cut, never re-pinned",
    Method.ASSEMBLE: "pre-crimped leads into empty housings: the cheapest of all ways for the whole craft",
    Method.TAIL: "a plug on one end, the other cut to length and soldered",
    Method.SOLDER: "no plug that takes crimped contacts on either end",
    Method.CRIMP: "no ready-made cable and no pre-crimped lead serves all of its plugs",
}


def _loose_from(choice: CableChoice, method: Method, craft: Craft) -> str:
    if method is Method.DIRECT:
        return "the part's own plug"
    if method is Method.AS_BOUGHT:
        return "a ready-made cable, bought whole"
    texts: dict[str, int] = {}
    for made in choice.shape.leads:
        source = choice.sources.get(made.lead.mark)
        text = "the part's own leads" if source is None else source_words(source, craft)
        texts[text] = texts.get(text, 0) + 1
    return ", ".join(f"{count} x {text}" if count > 1 else text for text, count in texts.items())
