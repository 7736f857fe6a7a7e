"""What a rule is: which bodies need room between them, how much, why, who says so."""

from __future__ import annotations

from layout.build.placed import Build, PlacedBody
from layout.geometry.space import Axis, Direction
from layout.parts.form.form import Role
from layout.questions.clearances.cures import Cure, first_fitting
from layout.questions.findings.finding import Group
from layout.questions.findings.remedy import Remedy
from layout.standards.figure import COMMON_PRACTICE
from layout.values import dataclass

__all__ = ["Picked", "Rule", "long", "looking", "of"]


@dataclass(frozen=True, slots=True)
class Picked:
    """Which bodies a rule means.

    Parameters
    ----------
    roles : frozenset of Role
    where : frozenset of str, optional
        The places they sit at; default: wherever they sit.
    elsewhere : str, optional
        A place at which they do not sit.
    named : str, optional
        The one part or body meant; default: all of those roles.
    along : Axis, optional
        The axis along which its part's own depth runs: a card's length, say.
    looks : Direction, optional
        Where its part's own underside looks: a card's fan side.
    """

    roles: frozenset[Role]
    where: frozenset[str] | None = None
    elsewhere: str | None = None
    named: str | None = None
    along: Axis | None = None
    looks: Direction | None = None

    def holds(self, body: PlacedBody) -> bool:
        """Tell whether the rule means this body."""
        return (
            body.role in self.roles
            and (self.where is None or body.where in self.where)
            and (self.elsewhere is None or body.where != self.elsewhere)
            and (self.named is None or self.named in {body.part, body.name})
            and (self.along is None or self.along is body.turn.axis(Axis.DEPTH))
            and (self.looks is None or self.looks is _underside(body))
        )


def _underside(body: PlacedBody) -> Direction:
    """Return where a body's own underside looks."""
    return body.turn.direction(Direction.DOWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A need between two sorts of bodies.

    Parameters
    ----------
    a, b : tuple of Picked
        A body is meant where any of them holds; which of two bodies is a and which
        is b decides how the finding reads.
    nearest_only : bool
        Whether only the nearest b of each a makes a finding.
    remedy : Remedy
        What a builder does when the room is not there; it names nothing but the two.
    cures : tuple of Cure
        What helps better where the machine can have it, the best first.
    only_with : frozenset of Role
        Bodies without which nobody asks; empty: it is always asked.
    """

    name: str
    group: Group = Group.DISTANCE
    a: tuple[Picked, ...]
    b: tuple[Picked, ...]
    need_mm: float
    why: str
    source: str = COMMON_PRACTICE
    remedy: Remedy
    cures: tuple[Cure, ...] = ()
    nearest_only: bool = False
    only_with: frozenset[Role] = frozenset()

    @property
    def remedies(self) -> tuple[Remedy, ...]:
        """Return everything that may help."""
        return (*(each.remedy for each in self.cures), self.remedy)

    def remedy_for(self, build: Build, a: PlacedBody, b: PlacedBody) -> Remedy:
        """Return what helps two bodies of a machine."""
        return first_fitting(self.cures, self.remedy, build, bodies=(a, b))

    def means(self, a: PlacedBody, b: PlacedBody) -> bool:
        """Tell whether the rule asks about this ordered pair."""
        return any(each.holds(a) for each in self.a) and any(
            each.holds(b) for each in self.b
        )


def of(*roles: Role, on: str | None = None) -> Picked:
    """Pick bodies by role; ``on`` names the mounts, separated by commas."""
    return Picked(frozenset(roles), frozenset(on.split(", ")) if on else None)


def long(axis: Axis, *roles: Role) -> Picked:
    """Pick bodies by role whose parts lie along an axis."""
    return Picked(frozenset(roles), along=axis)


def looking(looks: Direction, *roles: Role) -> Picked:
    """Pick bodies by role whose parts look a way with their own underside."""
    return Picked(frozenset(roles), looks=looks)
