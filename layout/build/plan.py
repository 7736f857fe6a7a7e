"""A plan: what a build is made of, before it is put in place."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from layout.build.assemble import Entry, assemble, grown
from layout.build.kept import Kept
from layout.build.placed import Build, OwnNeed
from layout.build.tree import Tree
from layout.parts.case.case import Case
from layout.parts.kinds.kinds import Spec
from layout.values import dataclass

__all__ = ["Plan"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The parts and the case of a build, and what its file asks for besides."""

    name: str
    entries: tuple[Entry, ...]
    case: Case | None = None
    needs: tuple[tuple[str, float], ...] = ()
    own_needs: tuple[OwnNeed, ...] = ()

    def build(self, *, kept: Kept | None = None) -> Build:
        """Return every part in its place.

        Parameters
        ----------
        kept : Kept, optional
            Parts of other builds: those of the same data sheet are theirs.

        Raises
        ------
        SeatError
            If a part asks for a seat that is not there, or is taken.
        """
        return self.of(grown(self.entries, self.case, kept=kept))

    def of(self, tree: Tree) -> Build:
        """Return the build of the seat tree that was grown of this very plan."""
        return assemble(
            name=self.name,
            entries=self.entries,
            case=self.case,
            needs=self.needs,
            own_needs=self.own_needs,
            tree=tree,
        )

    def spec(self, key: str) -> Spec | None:
        """Return what a part's data sheet says; None where there is no such part."""
        return next((each.spec for each in self.entries if each.key == key), None)

    def changed(self, key: str, spec: Spec) -> Plan:
        """Return the plan with another data sheet, or place, for one part."""
        entries = tuple(
            replace(each, spec=spec) if each.key == key else each
            for each in self.entries
        )
        return replace(self, entries=entries)

    def having(self, key: str, spec: Spec) -> Plan:
        """Return the plan with one part more, the last of all."""
        return replace(self, entries=(*self.entries, Entry(key=key, spec=spec)))

    def without(self, keys: Collection[str]) -> Plan:
        """Return the plan without some parts, nor the needs that name them."""
        return replace(
            self,
            entries=tuple(each for each in self.entries if each.key not in keys),
            own_needs=tuple(
                need
                for need in self.own_needs
                if not {name.partition("/")[0] for name in (need.a, need.b)} & {*keys}
            ),
        )
