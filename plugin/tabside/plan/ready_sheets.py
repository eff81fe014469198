"""Steps that turn a ready-made cable, or the plug that a part brings along, into the drawn one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from ..model.craft import Craft
from .cable_plan import CableEnd, Cavity, Method, PlugRow
from .methods import Choice
from .ready_cables import ReadyWay
from .repin import Hand, Pair, Repin, plan_repin
from .shapes import Shape, plug_pairs
from .step_list import SPARE, StepList


def names_of(way: ReadyWay, shape: Shape, craft: Craft) -> dict[int, str]:
    """Lead that is there -> mark of the lead that it becomes, or "spare 3" by its cavity in the first plug."""
    drawn = plug_pairs(shape, craft) or ()
    marks = {pair: made.lead.mark for pair, made in zip(drawn, shape.leads, strict=True)}
    return {
        n: marks[way.repin.becomes[n]] if n in way.repin.becomes else f"{SPARE}{pair[0]}"
        for n, pair in enumerate(way.there)
    }


def ready_steps(choice: Choice, way: ReadyWay, craft: Craft, steps: StepList) -> None:
    """The steps at both plugs."""
    names = names_of(way, choice.shape, craft)
    for plug, termination in enumerate(choice.shape.terminations):
        for n, pair in enumerate(way.there):
            steps.fill(termination, pair[plug], names[n])
    carry_out(way.repin, way.there, names, choice.shape.terminations, steps, over=way.method is Method.RE_HOUSE)


def carry_out(
    repin: Repin,
    there: Sequence[Pair],
    names: Mapping[int, str],
    terminations: Sequence[str],
    steps: StepList,
    *,
    over: bool,
) -> None:
    """Writes the moves down; `over`: into an empty housing, so that contacts which keep their cavity come along."""
    worked = repin.plugs[0] if over else None
    if worked is not None:
        steps.move_over(terminations[worked])
    gone: set[int] = set()
    moves = list(repin.moves)
    for k, move in enumerate(moves):
        termination, lead = terminations[move.plug], names[move.lead]
        if move.hand is Hand.PUT_IN:
            steps.put_in(termination, str(move.cavity), lead)
        elif move.hand is Hand.TAKE_OUT:
            next_in = next(each for each in moves[k + 1 :] if each.hand is Hand.PUT_IN)
            steps.take_out(termination, move.cavity, lead, parks=next_in.lead != move.lead)
        else:
            free = move.lead in gone
            gone.add(move.lead)
            steps.leave_out(
                termination, move.cavity, lead, "; remove the lead, or insulate both its ends" if free else ""
            )
    if worked is not None:
        for n, pair in repin.becomes.items():
            if there[n][worked] == pair[worked]:
                steps.take_out(terminations[worked], pair[worked], names[n], parks=False)
                steps.put_in(terminations[worked], str(pair[worked]), names[n])


def captive_repin(shape: Shape, craft: Craft, own: str, there: str) -> tuple[Repin, tuple[Pair, ...], dict[int, str]]:
    """The moves in a part's own plug, all its leads counted: those that are not drawn, too."""
    goes = {}
    marks = {}
    for made in shape.leads:
        keys = dict(made.lead.ends)
        goes[int(keys[own])] = int(keys[there])
        marks[int(keys[own])] = made.lead.mark
    numbers = [int(each.number) for each in craft.terminations[own].contacts if each.number.isdecimal()]
    pairs = tuple((n, n) for n in sorted(numbers))
    repin = plan_repin(pairs, list(goes.items()), at=1)
    if repin is None:  # each lead keeps its place inside the part, so there always is one
        raise AssertionError(shape.label)
    return repin, pairs, {k: marks.get(n, f"{SPARE}{n}") for k, (n, _) in enumerate(pairs)}


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
            _cavities(end, before.get(end.termination, ()), craft, colours),
            _cavities(end, steps.row(end.termination), craft, colours),
        )
        for end in ends
        if end.has_plug and end.ways is not None
    )  # fmt: skip


def _cavities(
    end: CableEnd, row: tuple[str | None, ...], craft: Craft, colours: Mapping[str, str | None]
) -> tuple[Cavity, ...]:
    labels = {each.number: each.label for each in craft.terminations[end.termination].contacts}
    return tuple(
        Cavity(str(n), lead, labels.get(str(n), ""), None if lead is None else colours.get(lead))
        for n, lead in enumerate(row, 1)
    )
