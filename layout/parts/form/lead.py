"""A lead: a cable of a known length that must reach a plug."""

from __future__ import annotations

from layout.geometry.space import Direction, Vector
from layout.parts.form.cable import CableForm
from layout.parts.form.connector import ConnectorKind
from layout.standards.bends import BendRule
from layout.standards.figure import Figure
from layout.values import dataclass

__all__ = ["Lead"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """A lead that leaves a part, at the origin of the seat the part sits on.

    Parameters
    ----------
    name : str
        What a person calls it.
    kinds : frozenset of ConnectorKind
        The plugs it may end in.
    length : Figure
        From where it leaves the part's case to the wire side of its first plug.
    at_mm : Vector
        Where it leaves the case.
    out : Direction
        Which way it leaves.
    ahead_mm : float
        How far it runs on in its own plug before it can turn.
    plugs : int
        How many plugs it has, one after the other.
    between : Figure or None
        From one plug to the next, where there are several.
    leads : int
        How many such leads there are.
    of : str
        Name of the body it leaves; empty for the part's main body.
    form : CableForm
        How its wires are held together.
    rule : BendRule or None
        By which rule it bends; None: the usual one of its form.
    from_plug : bool
        Whether it starts at a plug of its part, of the kind it ends in.
    """

    name: str
    kinds: frozenset[ConnectorKind]
    length: Figure
    at_mm: Vector
    out: Direction
    ahead_mm: float
    plugs: int = 1
    between: Figure | None = None
    leads: int = 1
    of: str = ""
    form: CableForm = CableForm.LOOSE
    rule: BendRule | None = None
    from_plug: bool = False
