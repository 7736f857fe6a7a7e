"""A cable from its make-up: how thick it is, how flat it lies, how tightly it bends."""

from __future__ import annotations

import math
from dataclasses import replace
from enum import Enum

from layout.parts.form.errors import PartError
from layout.standards.bends import BENDS, Bend, BendRule
from layout.standards.figure import Figure, practice
from layout.standards.packings import bundle_mm, mixed_bundle_mm
from layout.standards.wires import STRANDED, WALL, solid_mm
from layout.values import dataclass

__all__ = ["Cable", "CableForm", "Strands"]


class CableForm(Enum):
    """How a cable's wires are held together."""

    LOOSE = "loose"  # they spread as they bend
    COMBED = "combed"  # side by side in two rows, as the plug has them
    SLEEVED = "sleeved"
    TAPED = "taped"

    @property
    def bound(self) -> bool:
        """Tell whether the wires bend as one bundle."""
        return self in {CableForm.SLEEVED, CableForm.TAPED}


_ROWS_OF_A_PLUG = 2
_SLEEVE = {
    CableForm.SLEEVED: practice(0.5, 0.2, assumed=True),
    CableForm.TAPED: practice(0.3, 0.1, assumed=True),
}


@dataclass(frozen=True, slots=True)
class Strands:
    """Wires of one gauge in a cable."""

    count: int
    gauge: int

    def __post_init__(self) -> None:
        if self.count < 1:
            raise PartError(field="wires", found=str(self.count), right="1 or more")

    def wire_mm(self, wall_mm: float) -> float:
        """Return an insulated wire's diameter; stranded where the chart has it."""
        conductor = STRANDED.get(self.gauge)
        bare_mm = conductor.mm if conductor else solid_mm(self.gauge)
        return bare_mm + 2 * wall_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """A cable as it was made.

    Parameters
    ----------
    strands : tuple of Strands
        How many wires of each gauge.
    form : CableForm
        How they are held together.
    wall : Figure
        Insulation round each wire.
    rule : BendRule or None
        By which rule it bends; None: loose and combed wires each by itself, what is
        sleeved or taped as one bundle in the run.
    least_mm : float or None
        The least radius of the bend's inside, where it is told; None: by the rule.
    """

    strands: tuple[Strands, ...]
    form: CableForm = CableForm.LOOSE
    wall: Figure = WALL
    rule: BendRule | None = None
    least_mm: float | None = None

    def times(self, count: int) -> Cable:
        """Return several such cables side by side as one."""
        if count == 1:
            return self
        strands = tuple(
            Strands(each.count * count, each.gauge) for each in self.strands
        )
        return replace(self, strands=strands)

    @property
    def wires(self) -> int:
        """Return how many wires there are."""
        return sum(each.count for each in self.strands)

    @property
    def wire_mm(self) -> float:
        """Return the thickest wire's diameter."""
        return max(each.wire_mm(self.wall.mm) for each in self.strands)

    @property
    def bundle_mm(self) -> float:
        """Return the diameter of all wires drawn together, its sleeve round them."""
        groups = [(each.count, each.wire_mm(self.wall.mm)) for each in self.strands]
        one_size = len(groups) == 1
        bare_mm = bundle_mm(*groups[0]) if one_size else mixed_bundle_mm(groups)
        sleeve = _SLEEVE.get(self.form)
        return bare_mm + (2 * sleeve.mm if sleeve else 0.0)

    def flat_mm(self, width_mm: float) -> tuple[float, float]:
        """Return thickness and width where there is ``width_mm`` to spread into.

        Loose wires lie in as few layers as the width allows, combed ones in the two
        rows of their plug; a bound cable stays round.

        Examples
        --------
        >>> cable = Cable(strands=(Strands(8, 18),))
        >>> [round(mm, 1) for mm in cable.flat_mm(9.0)]
        [4.0, 8.0]
        """
        wire_mm = self.wire_mm
        if self.form.bound:
            return self.bundle_mm, self.bundle_mm
        if self.form is CableForm.COMBED:
            in_a_row = math.ceil(self.wires / _ROWS_OF_A_PLUG)
            return min(_ROWS_OF_A_PLUG, self.wires) * wire_mm, in_a_row * wire_mm
        in_a_layer = max(1, min(self.wires, math.floor(width_mm / wire_mm + 1e-9)))
        layers = math.ceil(self.wires / in_a_layer)
        return layers * wire_mm, math.ceil(self.wires / layers) * wire_mm

    @property
    def bend(self) -> Bend:
        """Return the rule by which the cable bends."""
        usual = BendRule.IN_THE_RUN if self.form.bound else BendRule.LOOSE
        return BENDS[self.rule or usual]

    @property
    def inside_radius_mm(self) -> float:
        """Return the least radius of the bend's inside."""
        if self.least_mm is not None:
            return self.least_mm
        return self.bend.radius_mm(wire_mm=self.wire_mm, bundle_mm=self.bundle_mm)
