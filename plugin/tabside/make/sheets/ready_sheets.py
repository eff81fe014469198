"""Sheets that begin with a ready-made cable."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from tabside.facts import families
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import CableJob, plug_pairs
from tabside.make.options.ready_cables import ReadyWay
from tabside.make.options.repin import Hand, Pair, Repin, is_parked
from tabside.make.sheets.cable_plan import CableEnd, CablePlan, Cavity, PlugRow
from tabside.make.sheets.handling import handling_of
from tabside.make.sheets.step_list import StepList
from tabside.make.sheets.when.moments import Moments
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import Craft, Termination
from tabside.words.contacts import counted, listed


def from_ready(
    made: CablePlan, choice: CableChoice, way: ReadyWay, craft: Craft, steps: StepList, moments: Moments
) -> CablePlan:
    """The sheet of a cable that begins as a ready-made one: metered loose before anything is done to it."""
    first = made.ends[0].termination
    proof = _start_proof(made, way, _kind(way))
    steps.test(first, proof)
    for words in (f"{_PEN}{mark_words(made.ends)}", *_new_housing(made, way)):
        steps.label(first, words)
    names = names_of(way, choice.job, craft, steps)
    for plug, termination in enumerate(choice.job.terminations):
        for n, pair in enumerate(way.there):
            steps.fill(termination, pair[plug], names[n])
    now = f"as they sit in the plug for {made.ends[0].shown} now"
    steps.label(first, f"label both ends {made.label}, and tag each wire with its number, {now}", tags=True)
    before = {end.termination: steps.row(end.termination) for end in made.ends}
    over = way.method is Method.RE_HOUSE
    carry_out(way.repin, way.there, names, choice.job.terminations, steps, over=over)
    if moments.loose:
        steps.test(first, "test the finished cable while it is loose", moments.loose)
    touched = sorted({made.ends[move.plug].family or "" for move in way.repin.moves})
    stock = None if way.stock is None else craft.settings.stock_cables[way.stock]
    return replace(
        made,
        method=way.method,
        start_from="straight" if stock is None else f"stock:{stock.name}",
        from_what=_from_what(made, way, craft, choice.bought),
        steps=tuple(steps.steps),
        needs_one_look=(*made.needs_one_look, *_ready_looks(choice, way, craft)),
        why=_why_ready(way),
        rows=plug_rows(made.ends, before, steps, craft, {}),
        start=way.there,
        handling=tuple(handling_of(family) for family in touched if family),
        moves=way.repin.moved,
    )


_PEN = (
    "plug both ends in (battery and USB unplugged), find contact 1 on each board, pen-mark that side of both housings, "
    "take the cable out again"
)


def mark_words(ends: Sequence[CableEnd], held: str = "wires down") -> str:
    """Where the pen mark must lie in the hand: a plug whose mark lies elsewhere is not the one that is drawn."""
    plugs = [end for end in ends if end.has_plug and not end.is_cup]
    sides = {end.shown: end.contact_1_on_tabs for end in plugs if end.contact_1_on_tabs}
    if not sides:
        return ""
    alike = len(set(sides.values())) == 1
    at = next(iter(sides.values())) if alike else listed([f"{side} of {shown}" for shown, side in sides.items()])
    return f"; windows facing you, {held}, the mark must lie at the {at}: else stop, correct the drawing"


def _new_housing(made: CablePlan, way: ReadyWay) -> tuple[str, ...]:
    if way.housing is None:
        return ()
    shown = made.ends[way.repin.plugs[0]].shown
    return (f"hold the empty housing for {shown} beside the old one, the same way round; pen-mark contact 1 on it",)


def _ready_looks(choice: CableChoice, way: ReadyWay, craft: Craft) -> Iterator[str]:
    """What must be seen on the real cable."""
    stock = None if way.stock is None else craft.settings.stock_cables[way.stock]
    if stock is None and way.repin.moves:
        yield (
            "the bought cable: that it is straight, of these plugs, and crimped (the contacts of a moulded or "
            "insulation-displacing one cannot be moved)"
        )
    elif stock is None:
        yield "the bought cable: that it is straight and of these plugs"
    elif stock.length_mm is None:
        yield f'"{stock.name}": length not known: hold it along the path'
    if stock is not None and way.repin.moves and way.repinnable is None:
        yield (
            f'"{stock.name}": that it is crimped: the contacts of a moulded or insulation-displacing one do not '
            "come out (`repinnable` in the craft file settles it)"
        )
    gauges = sorted({made.lead.gauge_awg for made in choice.job.leads if made.lead.gauge_awg is not None})
    if gauges:
        drawn = " and ".join(f"{gauge} AWG" for gauge in gauges)
        yield f"that the wires of the ready-made cable are no thinner than drawn ({drawn})"


def _kind(way: ReadyWay) -> str:
    size = max(n for pair in way.there for n in pair)
    there = set(way.there)
    if there == {(n, n) for n in range(1, size + 1)}:
        return "straight"
    return "reversed" if there == {(n, size + 1 - n) for n in range(1, size + 1)} else "custom order"


def _from_what(made: CablePlan, way: ReadyWay, craft: Craft, bought: bool) -> str:
    first = made.ends[0]
    if way.stock is None:
        title = families.family(first.family).title if first.family else "plugs"
        return f"a bought straight cable, {title} {first.ways}-way both ends"
    cable = craft.settings.stock_cables[way.stock]
    length = f", {cable.length_mm:g} mm" if cable.length_mm is not None else ""
    turned = f", its second end at {first.name}" if way.turned else ""
    housing = ""
    if way.housing is not None:
        housing = f", and an empty {families.family(way.housing[0]).title} {way.housing[1]}-way housing"
    where = "to buy" if bought else "from stock"
    return f'"{cable.name}" {where} ({_kind(way)}{length}){turned}{housing}'


def _why_ready(way: ReadyWay) -> str:
    unused = len(way.repin.unused)
    left = f", {counted(unused, 'wire')} not used" if unused else ""
    if way.kept:
        todo = (
            f"{counted(way.repin.moved, 'contact')} to move{left}"
            if way.repin.moves
            else "it connects the drawn cavities"
        )
        return f"the craft file keeps this cable for this place; {todo}"
    if way.method is Method.PLUG_IN:
        return "wired exactly as drawn, so it is used as is: the cheapest choice for the whole craft"
    if way.method is Method.RE_HOUSE:
        return (
            f"{way.repin.moved} contacts would move{left}; an empty housing is in stock, so all of them go over into "
            "it, and the old one may break"
        )
    return f"{counted(way.repin.moved, 'contact')} to move{left}: the cheapest choice for the whole craft"


def _start_proof(made: CablePlan, way: ReadyWay, kind: str) -> str:
    a, b = (end.shown for end in made.ends)
    pairs = ", ".join(f"{n}-{m}" for n, m in way.there)
    if kind == "straight" and len(way.there) > 8:
        pairs = f"the same numbers, 1-1 to {len(way.there)}-{len(way.there)},"
    lying = {
        "straight": "; laid flat with wires uncrossed, a straight cable has its windows on opposite sides",
        "reversed": "; laid flat with wires uncrossed, a reversed cable has its windows on the same side",
    }.get(kind, "")
    alike = {(m, n) for n, m in way.there} == set(way.there)
    which = "either end may be the one for" if alike else "the end for which this is true is the one for"
    return (
        f"first meter the loose cable, plugged in nowhere, from plug {a} to plug {b}: it must beep for {pairs} and for "
        f"no other pair, counted from contact 1 ({_where_contact_1(made)}); {which} {a}{lying}. If it differs, do not "
        "use this sheet: correct the craft file and plan again"
    )


_WINDOWS = "with the locking-tab side (small windows or tongues over the wires, not the outer latch) facing you"


def _where_contact_1(made: CablePlan) -> str:
    """How contact 1 of a plug is found before it has been plugged in."""
    sides = [end.contact_1_on_tabs for end in made.ends]
    if None in sides:
        return "hold each plug to its board connector: the side at the board's contact-1 mark"
    if len(set(sides)) == 1:
        return f"{_WINDOWS}, wires down, the first from the {sides[0]}"
    said = ", ".join(f"of {end.shown} from the {end.contact_1_on_tabs}" for end in made.ends)
    return f"{_WINDOWS}, wires down, the first {said}"


def names_of(way: ReadyWay, job: CableJob, craft: Craft, steps: StepList) -> dict[int, str]:
    """Lead that is there -> mark of the lead that it becomes, or "spare 3" by its cavity in the first plug."""
    drawn = plug_pairs(job, craft) or ()
    marks = {pair: made.lead.mark for pair, made in zip(drawn, job.leads, strict=True)}
    return {
        n: marks[way.repin.becomes[n]] if n in way.repin.becomes else steps.spare(str(pair[0]))
        for n, pair in enumerate(way.there)
    }


def carry_out(
    repin: Repin,
    there: Sequence[Pair],
    names: Mapping[int, str],
    terminations: Sequence[str],
    steps: StepList,
    *,
    over: bool,
) -> None:
    """Writes the moves down; `over`: into an empty housing, contact by contact, so that nothing is parked."""
    gone: set[int] = set()
    moves = [move for move in repin.moves if not over or move.hand is Hand.LEAVE_OUT]
    for n, move in enumerate(moves):
        termination, lead = terminations[move.plug], names[move.lead]
        if move.hand is Hand.PUT_IN:
            steps.put_in((termination, str(move.cavity)), lead)
        elif move.hand is Hand.TAKE_OUT:
            steps.take_out(termination, move.cavity, lead, parks=is_parked(moves, n))
        else:
            free = move.lead in gone
            gone.add(move.lead)
            then = "; remove the wire, or insulate and tie back both its ends" if free else ""
            steps.leave_out(termination, move.cavity, lead, then)
    if over:
        plug = repin.plugs[0]
        becomes = sorted(repin.becomes.items(), key=lambda item: item[1][plug])
        goes = [(names[wire], there[wire][plug], str(pair[plug])) for wire, pair in becomes]
        steps.go_over(terminations[plug], goes)


def plug_rows(
    ends: Iterable[CableEnd],
    before: Mapping[str, tuple[str | None, ...]],
    steps: StepList,
    craft: Craft,
    colours: Mapping[str, str | None],
) -> tuple[PlugRow, ...]:
    """Each plug before and after."""
    return tuple(
        PlugRow(
            end.board,
            end.termination,
            cavities_of(before.get(end.termination, ()), craft.terminations[end.termination], colours),
            cavities_of(steps.row(end.termination), craft.terminations[end.termination], colours),
        )
        for end in ends
        if end.has_plug and end.ways is not None
    )


def cavities_of(
    row: tuple[str | None, ...], meets: Termination, colours: Mapping[str, str | None]
) -> tuple[Cavity, ...]:
    """What sits in each cavity of a plug, from 1 up, and the signal of the contact that it meets."""
    labels = {contact.number: contact.label for contact in meets.contacts}
    return tuple(
        Cavity(str(n), lead, labels.get(str(n), ""), None if lead is None else colours.get(lead))
        for n, lead in enumerate(row, 1)
    )
