"""Builds of plain boxes for the questions' own tests: no files, no part kinds."""

from __future__ import annotations

from layout.build.placed import Build, Mate, OwnNeed, PlacedBody
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.solids.solid import block
from layout.geometry.space import Vector
from layout.parts.form.form import Link, Role
from layout.standards.figure import Figure, Standing

Span = tuple[float, float]


def placed(
    name: str,
    role: Role,
    spans: tuple[Span, Span, Span],
    *,
    where: str | None = None,
    chain: tuple[tuple[str, Link], ...] = (),
) -> PlacedBody:
    body = Body(name=name, shape=Shape((block(*spans),)))
    part = name.split("/", maxsplit=1)[0]
    return PlacedBody(part=part, body=body, role=role, where=where, chain=chain)


def link(label: str, plus_minus_mm: Vector, *, assumed: bool = False) -> Link:
    figure = Figure(
        mm=1.0, standing=Standing.MEMORY, source="invented", assumed=assumed
    )
    x, y, z = (1.0 if each else 0.0 for each in plus_minus_mm)
    return Link(
        label=label,
        plus_minus_mm=plus_minus_mm,
        figure=figure,
        low=(x, y, z),
        high=(x, y, z),
    )


def build_of(
    *bodies: PlacedBody,
    mates: tuple[Mate, ...] = (),
    needs: tuple[tuple[str, float], ...] = (),
    own_needs: tuple[OwnNeed, ...] = (),
) -> Build:
    return Build(
        name="boxes",
        parts=(),
        bodies=bodies,
        mates=mates,
        needs=needs,
        own_needs=own_needs,
    )


def panel_and_cooler(height_mm: float, **chain: tuple[tuple[str, Link], ...]) -> Build:
    """Return a side panel whose inside lies at z = 170, over a cooler."""
    return build_of(
        placed(
            "case/side panel",
            Role.SIDE_PANEL,
            ((0, 400), (0, 400), (170, 171)),
            chain=chain.get("panel", ()),
        ),
        placed(
            "cooler",
            Role.COOLER,
            ((50, 150), (200, 320), (15, 15 + height_mm)),
            chain=chain.get("cooler", ()),
        ),
    )
