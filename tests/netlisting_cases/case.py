"""What a netlisting case is, how it is drawn in all its variants, and what each variant's verdict is."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from drawing.drawing_kit import Sheet, nested, renumbered, turned
from programs.kicad_oracle import Net, compare

Written = Mapping[str, str] | Sequence[tuple[str, str]]
ORIENTED = {"r90": (90, ""), "r180": (180, ""), "r270": (270, ""), "mx": (0, "x"), "my": (0, "y")}
USES = {
    **{name: 100 * k for k, name in enumerate(ORIENTED, 1)},
    "a": 600,
    "b": 700,
}  # name of sheet -> added to numbers
AUTOMATIC = re.compile(r"((?:Net|unconnected)-\()([A-Z]+\d+)(.*)")


@dataclass(frozen=True)
class Case:
    """A drawing and the nets it has.

    Names that begin with "/" stand below the sheet; `global:` before a name says that it does not.
    """

    name: str
    draw: Callable[[Sheet], None]
    nets: tuple[tuple[str, str], ...]
    project: Mapping[str, object] | None
    once: bool  # True: a second use of the same sheet would say something else
    any_suffix: bool  # KiCad's order of suffixes _1, _2 follows from its search tree: any order is right
    turns: bool  # False: the drawing says nothing else when it is turned, and cannot be turned
    elsewhere: tuple[tuple[str, str], ...] | None  # nets of the drawing in sheets, where they are not the plain ones
    kicad_judges: bool

    def __str__(self) -> str:
        return self.name

    def differences(self, nets: list[Net], written: list[Net]) -> str:
        """Where these nets are not those written down, one line each; "" when they are."""
        lines = compare(nets, written, any_name=_same_but_for_the_suffix if self.any_suffix else lambda a, b: False)
        if self.any_suffix and sorted(name for name, _ in nets) != sorted(name for name, _ in written):
            lines.append(f"the names are {sorted(name for name, _ in nets)}")
        return "\n".join(lines)

    def sheet(self) -> Sheet:
        sheet = Sheet("case", grid=2.54, origin_mm=(101.6, 101.6))
        self.draw(sheet)
        return sheet

    def write_plain(self, folder: Path) -> Path:
        """The drawing as it stands, as root."""
        return self.sheet().write(folder, project=self.project)

    def write_elsewhere(self, folder: Path) -> Path:
        """One root with the drawing turned by 90, 180 and 270 degrees, mirrored both ways, and twice as it stands."""
        sheet = self.sheet()
        turns = {name: turned(sheet, *how, name=f"{name}_") for name, how in ORIENTED.items()} if self.turns else {}
        root = nested({**turns, "a": sheet} | ({} if self.once else {"b": sheet}), add=USES)
        return root.write(folder, project=self.project)

    def plain_nets(self) -> list[Net]:
        return [(name.removeprefix("global:"), _pins(pins)) for name, pins in self.nets]

    def nets_elsewhere(self) -> list[Net]:
        """Nets of all uses: those with a path by themselves, global ones joined over the whole drawing."""
        out: list[Net] = []
        shared: dict[str, Net] = {}
        for use, add in USES.items():
            if (not self.turns and use in ORIENTED) or (self.once and use == "b"):
                continue
            for name, text in self.elsewhere or self.nets:
                pins = [(renumbered(reference, add), pin) for reference, pin in _pins(text)]
                automatic = AUTOMATIC.fullmatch(name)
                if automatic:
                    out.append((automatic[1] + renumbered(automatic[2], add) + automatic[3], pins))
                elif name.startswith("/"):
                    out.append((f"/{use}{name}", pins))
                else:
                    name = name.removeprefix("global:")
                    shared.setdefault(name, (name, []))[1].extend(pins)
        return out + list(shared.values())


def _same_but_for_the_suffix(one: str, other: str) -> bool:
    return re.sub(r"_\d+$", "", one) == re.sub(r"_\d+$", "", other)


def _pins(text: str) -> list[tuple[str, str]]:
    """ "P1 U1.3" as pins; without a number it is pin 1."""
    return [(reference, pin or "1") for reference, _, pin in (word.partition(".") for word in text.split())]


class Cases(list[Case]):
    """Cases of one subject, collected by a decorator.

        @cases({"Net-(P1-Pad1)": "P1 P2"}, alone="P3")
        def two_ends_meet(sheet): ...

    `alone` names one-pin parts that share a net with nobody.
    """

    def __call__(
        self,
        nets: Written,
        *,
        alone: str = "",
        name: str = "",
        project: Mapping[str, object] | None = None,
        once: bool = False,
        any_suffix: bool = False,
        turns: bool = True,
        elsewhere: Written | None = None,
        kicad_judges: bool = True,
    ) -> Callable[[Callable[[Sheet], None]], Callable[[Sheet], None]]:
        lone = tuple((f"unconnected-({word}-Pad1)", word) for word in alone.split())

        def collect(draw: Callable[[Sheet], None]) -> Callable[[Sheet], None]:
            other = None if elsewhere is None else (*_pairs(elsewhere), *lone)
            said = name or draw.__name__.replace("_", " ").strip()
            self.append(Case(said, draw, (*_pairs(nets), *lone), project, once, any_suffix, turns, other, kicad_judges))
            return draw

        return collect


def _pairs(written: Written) -> tuple[tuple[str, str], ...]:
    return tuple(written.items() if isinstance(written, Mapping) else written)
