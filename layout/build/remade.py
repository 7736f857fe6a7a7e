"""A build with one part made anew on its seat, all else as it stands."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import field, replace

from layout.build.assemble import grown, through
from layout.build.kept import Kept
from layout.build.placed import Build, Mate, PlacedBody
from layout.build.plan import Plan
from layout.build.seats import Offer
from layout.build.tree import Tree, cells_of, mates_of, named
from layout.build.wired import wired
from layout.geometry.solids.cells import Floats, moved
from layout.geometry.space import ORIGIN
from layout.parts.board.board import Board
from layout.parts.card.card import Card
from layout.parts.card.card_support import CardSupport
from layout.parts.form.wish import Wish
from layout.parts.kinds.block import Block
from layout.parts.kinds.hookups import hookup_of
from layout.parts.kinds.kinds import Spec
from layout.values import dataclass

__all__ = ["Remaker", "cells_in"]


@dataclass(frozen=True, slots=True)
class Remaker:
    """A plan with its build, and the seats that every part has there.

    ``anew`` are the forms of parts made anew: each data sheet's are made once.
    """

    plan: Plan
    build: Build
    tree: Tree
    anew: Kept = field(default_factory=Kept)

    @classmethod
    def of(cls, plan: Plan, *, kept: Kept | None = None) -> Remaker:
        """Return the plan put in place; ``kept`` are the parts of other builds.

        Raises
        ------
        SeatError
            If a part asks for a seat that is not there, or is taken.
        """
        tree = grown(plan.entries, plan.case, kept=kept)
        return cls(plan, plan.of(tree), tree)

    def changed(self, key: str, spec: Spec) -> Build:
        """Return the build with another data sheet, or place, for one part.

        Raises
        ------
        SeatError
            If a part asks for a seat that is not there, or is taken.
        """
        return self.plan.changed(key, spec).build(kept=self.tree.kept)

    def with_all(self, parts: Iterable[tuple[str, Spec | None]]) -> Build:
        """Return the build with several parts described otherwise, None: taken out.

        Raises
        ------
        SeatError
            If a part asks for a seat that is not there, or is taken.
        """
        parts = tuple(parts)
        if len(parts) == 1:
            ((key, spec),) = parts
            if spec is not None and self._stays(key, spec):
                return self.remade(key, spec)
        plan = self.plan
        for key, spec in parts:
            plan = plan.without((key,)) if spec is None else plan.changed(key, spec)
        return plan.build(kept=self.tree.kept)

    def remade(self, key: str, spec: Spec) -> Build:
        """Return the build with another data sheet for one part on its seat.

        Raises
        ------
        SeatError
            If the figures make no part.
        """
        if isinstance(spec, Block) or len(self.build.carried_by(key)) > 1:
            return self.changed(key, spec)
        made = Tree(kept=self.anew)
        made.make(key, spec, self.tree.seated[key])
        bodies = iter(made.bodies)
        old = [each for each in self.build.bodies if each.part == key]
        if len(old) != len(made.bodies):
            return self.changed(key, spec)
        build, (part,) = self.build, made.parts
        plugs = (*(e for e in build.plugs if e.part != key), *made.plugs)
        leads = (*(e for e in build.leads if e.part != key), *made.leads)
        return replace(
            build,
            parts=tuple(part if each.key == key else each for each in build.parts),
            bodies=tuple(
                next(bodies) if each.part == key else each for each in build.bodies
            ),
            mates=(
                *(each for each in build.mates if each.guest != key),
                *made.mates,
                *self._through(made.bodies),
            ),
            fixings=(*(e for e in build.fixings if e.part != key), *made.fixings),
            hookups=tuple(
                (each, hookup_of(spec) if each == key else hookup)
                for each, hookup in build.hookups
            ),
            plugs=wired(plugs, leads),
            leads=leads,
        )

    def keeps(self, key: str, spec: Spec, names: Collection[str]) -> bool:
        """Tell whether a part's bodies of these names are the same with another sheet.

        It costs half of making the part anew.

        Raises
        ------
        SeatError
            If the figures make no part.
        """
        now = self.plan.spec(key)
        if isinstance(spec, Block) or isinstance(now, Block | None):
            return False
        if not self._stays(key, spec):
            return False
        taken = self.tree.seated[key]
        forms = (self.tree.forms(key, each, taken) for each in (now, spec))
        then, there = (
            [
                (piece.name, piece.role, piece.solids)
                for form in made
                for piece in form.pieces
                if named(key, piece) in names
            ]
            for made in forms
        )
        return then == there

    def partly(self, key: str, spec: Spec, names: Collection[str]) -> Build | None:
        """Return the build with some bodies of a part that is described otherwise.

        It has those of these names alone, and nothing of what the part carries: a
        third of the work of the whole build, which may still be refused.  None where
        only that one tells where the part goes.

        Raises
        ------
        SeatError
            If the figures make no part.
        """
        taken = self._taken(key, spec)
        if taken is None or isinstance(spec, Block):
            return None
        made = Tree()
        for (_, offer), form in zip(
            taken, self.tree.forms(key, spec, taken), strict=True
        ):
            pieces = tuple(e for e in form.pieces if named(key, e) in names)
            bare = replace(form, pieces=pieces, plugs=(), leads=(), seats=())
            made.put(key, bare, offer)
        case, carried = self.plan.case, self.build.carried_by(key)
        openings = () if case is None else self.tree.formed(case).openings
        others = (each for each in self.build.bodies if each.part not in carried)
        return replace(
            self.build,
            bodies=(*others, *made.bodies),
            mates=(
                *(each for each in self.build.mates if each.guest != key),
                *made.mates,
                *mates_of(key, openings, ORIGIN),
            ),
        )

    def _taken(self, key: str, spec: Spec) -> list[tuple[Wish, Offer]] | None:
        """Return the seats that a part has, or where each is named that it asks for."""
        if isinstance(spec, Block | Board | CardSupport):
            return None
        if self._stays(key, spec):
            return self.tree.seated[key]
        had = dict(self.tree.seated[key])
        taken = []
        for wish in spec.wishes():
            known = [had[wish]] if wish in had else self.tree.seats.named(wish)
            if len(known) != 1:
                return None
            taken.append((wish, known[0]))
        return taken

    def _stays(self, key: str, spec: Spec) -> bool:
        """Tell whether a part asks for the seat that it has.

        Where a card takes other openings than before, all parts are looked at.
        """
        now = self.plan.spec(key)
        if isinstance(spec, Block) or isinstance(now, Block | None):
            return False
        if isinstance(spec, Card) and isinstance(now, Card) and spec.slots != now.slots:
            return False
        return spec.wishes() == now.wishes()

    def _through(self, bodies: Iterable[PlacedBody]) -> list[Mate]:
        """Return the case's openings for bodies that reach into one of them."""
        case = self.plan.case
        return [] if case is None else through(self.tree.formed(case).openings, bodies)

    def cells(self, key: str, spec: Spec) -> dict[str, Floats]:
        """Return the cells in place of one part's bodies with another data sheet.

        Those of what it carries are among them: it may move with the part.  It costs
        half of making the part anew.

        Raises
        ------
        SeatError
            If the figures make no part.
        """
        carried = self.build.carried_by(key)
        if isinstance(spec, Block) or len(carried) > 1:
            return cells_in(self.changed(key, spec), carried)
        taken = self.tree.seated[key]
        return {
            name: moved(cells, offer.at_mm)
            for (_, offer), form in zip(
                taken, Tree(kept=self.anew).bare(key, spec, taken), strict=True
            )
            for name, cells in cells_of(key, form)
        }


def cells_in(build: Build, parts: Collection[str]) -> dict[str, Floats]:
    """Return the cells in place of the bodies of some parts, by name."""
    return {
        each.name: moved(each.body.shape.cells, each.body.at_mm)
        for each in build.bodies
        if each.part in parts
    }
