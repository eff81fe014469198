"""Boards that stand alone while a cable is tested: what is unplugged from them before, and plugged in again after.

A row from a board's known ground wants nothing else plugged into that board, and one along a loose plug wants that plug
out.  What is taken out for it stays out until no later test wants the board alone.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.side import Side
from tabside.compare.work.plugs import Plugs
from tabside.make.sheets.cable_plan import Aside, Step
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.bench.world import World
from tabside.prove.measurement import At, Measurement, RowKind
from tabside.prove.rows.row_words import Words
from tabside.words.contacts import listed


class Tests(NamedTuple):
    """What tests need of the craft around them."""

    new: Side
    plugs: Plugs
    world: World

    def made_possible(self, step: Step, own: Collection[str], later: Collection[str]) -> Step:
        """A test with what is unplugged for it.

        `own`: connectors of the cable that is tested; `later`: boards that a later test wants alone.
        """
        out, stays = [], []
        for board in sorted(boards_alone(step.rows), key=natural):
            for ref in self.plugs.others_on(board, own):
                self.plugs.lay_aside(ref)
                words = f"unplug {self.plugs.cable_in(ref)} from {self.new.name(ref)}: nothing else may be in {board}"
                out.append(Aside(ref, words))
            soldered = [ref for ref in self._soldered_to(board) if ref not in own]
            stays += [f"soldered to {board}, and stays there: {listed(soldered, 40)}"] if soldered else []
        for ref in self.plugs.still_in(_loose_plugs(step.rows)):
            self.plugs.lay_aside(ref)
            out.append(Aside(ref, f"unplug {self.plugs.cable_in(ref)} from {self.new.name(ref)}: its plug is metered"))
        back = self.give_back(later) if out or boards_alone(step.rows) else []
        waiting = self.plugs.laid_aside()
        if waiting:
            names = listed([self.new.name(ref) for ref in waiting], 40)
            stays.append(f"stays out for a later test: {names}")
        return replace(step, unplug=tuple(out), plug_in=tuple(back), around=tuple(stays))

    def give_back(self, later: Collection[str]) -> list[Aside]:
        """What was laid aside, on boards that no later test wants alone."""
        free = [ref for ref in self.plugs.laid_aside() if self.new.terminations[ref].board not in later]
        found = []
        for ref in free:
            words = f"plug {self.plugs.cable_in(ref)} back into {self.new.name(ref)}{self.plugs.which_way(ref)}"
            found.append(Aside(ref, words))
            self.plugs.put_back(ref)
        return found

    def again(self, rows: Iterable[Measurement], soldered: Collection[ContactKey] = ()) -> list[Measurement]:
        """The rows in words for a craft whose boards are in it; `soldered`: ends that stay at their joints."""
        words = Words(self.world, soldered=soldered, rebuilt=True)
        return [words.again(row) for row in rows]

    def _soldered_to(self, board: str) -> list[str]:
        ends = (end for made in self.world.made.values() for end in made.ends)
        met = {end.key[0] for end in ends if self.new.terminations[end.key[0]].kind is Kind.PAD}
        return sorted((ref for ref in met if self.new.terminations[ref].board == board), key=natural)


def _loose_plugs(rows: Iterable[Measurement]) -> set[str]:
    """Connectors whose plug, out of the board, a probe goes to."""
    return {
        end.termination
        for row in rows
        if row.kind is RowKind.BEEP
        for end in row.ends
        if end.at is At.CONTACT and end.termination not in row.plugged
    }


def boards_alone(rows: Iterable[Measurement]) -> set[str]:
    """Boards from whose known ground is measured."""
    return {row.where.board for row in rows if row.where.at is At.GROUND}
