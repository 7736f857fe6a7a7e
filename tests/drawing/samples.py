"""Builds with their findings, made by hand: no files, no part kinds, no rules."""

from __future__ import annotations

import random

from shapely.geometry import Point, Polygon, box

from layout.build.placed import Build, PlacedBody, PlacedPart
from layout.geometry.bodies.body import Body, Shape
from layout.geometry.relations.query import relation
from layout.geometry.relations.relation import State
from layout.geometry.solids.solid import Solid, block, rectangle
from layout.geometry.space import Vector
from layout.parts.form.form import Role
from layout.questions.findings.finding import Check, Finding, Group, Verdict

Span = tuple[float, float]
Asked = tuple[str, str, float, float]
"""Bodies a and b, the need and the tolerance, mm."""

CASE: Vector = (430.0, 460.0, 210.0)


def placed(
    name: str,
    role: Role,
    spans: tuple[Span, Span, Span],
    *,
    where: str | None = None,
) -> PlacedBody:
    body = Body(name=name, shape=Shape((block(*spans),)))
    return _placed(body, role, where)


def _placed(body: Body, role: Role, where: str | None = None) -> PlacedBody:
    part = body.name.split("/", maxsplit=1)[0]
    return PlacedBody(part=part, body=body, role=role, where=where, chain=())


def part(key: str, kind: str, size: str) -> PlacedPart:
    return PlacedPart(
        key=key, kind=kind, size=size, seat="", at_mm=(0, 0, 0), approach=None
    )


def case_bodies() -> list[PlacedBody]:
    depth, height, width = CASE
    openings = [(255, 150, 275, 230), (255, 300, 275, 380), (60, 432, 200, 450)]
    sheet = Polygon(
        box(0, 0, depth, height).exterior, [box(*each).exterior for each in openings]
    )
    tray = Solid(sheet, rectangle((0, depth), (-1, 0)))
    across = (-25.0, width)
    return [
        placed(
            "case/side panel", Role.SIDE_PANEL, ((0, depth), (0, height), (width, 211))
        ),
        placed(
            "case/back panel", Role.BACK_PANEL, ((0, depth), (0, height), (-26, -25))
        ),
        placed("case/floor", Role.FLOOR, ((0, depth), (-1, 0), across)),
        placed("case/top", Role.TOP, ((0, depth), (height, height + 1), across)),
        placed("case/rear", Role.REAR, ((-1, 0), (0, height), across)),
        placed("case/front", Role.FRONT, ((depth, depth + 1), (0, height), across)),
        _placed(Body(name="case/tray", shape=Shape((tray,))), Role.TRAY),
        placed("case/shroud", Role.SHROUD, ((0, 385), (100, 101), (0, width))),
        placed("case/upper cut-out", Role.CUT_OUT, ((255, 275), (300, 380), (-1, 0))),
        placed("case/lower cut-out", Role.CUT_OUT, ((255, 275), (150, 230), (-1, 0))),
        placed("case/top cut-out", Role.CUT_OUT, ((60, 200), (432, 450), (-1, 0))),
    ]


def board_bodies() -> list[PlacedBody]:
    slots = [
        placed(
            f"board/card slot {n}", Role.CARD_SLOT, ((48, 137), (y, y + 7.5), (8, 19))
        )
        for n, y in enumerate((254, 193, 152), start=1)
    ]
    banks = [
        placed(
            f"board/memory slot {n}",
            Role.MEMORY_SLOT,
            ((150 + 9.5 * n, 156 + 9.5 * n), (272, 412), (8, 16)),
        )
        for n in (1, 2, 3, 4)
    ]
    return [
        placed("board", Role.BOARD, ((2, 246), (124, 429), (6.4, 8))),
        placed(
            "board/rear connectors",
            Role.REAR_CONNECTORS,
            ((0, 30), (275, 424), (8, 46)),
        ),
        placed(
            "board/rear heatsink",
            Role.REGULATOR_HEATSINK,
            ((32, 60), (280, 400), (8, 38)),
        ),
        placed(
            "board/top heatsink",
            Role.REGULATOR_HEATSINK,
            ((62, 145), (402, 424), (8, 38)),
        ),
        placed(
            "board/main power", Role.BOARD_CONNECTOR, ((235, 246), (300, 352), (8, 22))
        ),
        placed("processor", Role.PROCESSOR, ((80, 117), (320, 365), (8, 15.8))),
        *banks,
        *slots,
    ]


def tower() -> tuple[Build, Check]:
    """Return a tower of some forty bodies, with findings of every verdict."""
    bodies = [
        *case_bodies(),
        *board_bodies(),
        placed("cooler", Role.COOLER, ((73, 123), (280, 400), (15.8, 207.2))),
        placed("cooler/fan 1", Role.COOLER_FAN, ((123, 148), (282, 402), (50, 170))),
        placed("cooler/fan 2", Role.COOLER_FAN, ((48, 73), (280, 400), (50, 170))),
        placed("memory/module 1", Role.MEMORY, ((169, 176), (275, 408), (12, 52))),
        placed("memory/module 2", Role.MEMORY, ((188, 195), (275, 408), (12, 52))),
        placed("card", Role.CARD, ((0, 312), (158, 200), (10, 147))),
        placed("card/bracket", Role.CARD_BRACKET, ((-1, 0), (150, 210), (4, 130))),
        placed("card/plug", Role.CARD_PLUG, ((228, 250), (170, 182), (147, 182))),
        placed("supply", Role.SUPPLY, ((0, 180), (2, 88), (30, 180))),
        placed("supply/leads", Role.SUPPLY_LEADS, ((180, 225), (10, 80), (40, 170))),
        placed("supply/vent", Role.SUPPLY_VENT, ((15, 145), (1.5, 2), (40, 170))),
        placed("cage", Role.CAGE, ((218, 365), (0, 98), (20, 150))),
        placed("drive 1", Role.DRIVE, ((219, 363), (10, 36), (30, 131.6))),
        placed("drive 2", Role.DRIVE, ((219, 363), (52, 78), (30, 131.6))),
        placed("small drive", Role.DRIVE, ((290, 390), (250, 320), (-10, -3))),
        *(
            placed(
                f"front fans/fan {n}",
                Role.FAN,
                ((405, 430), (y, y + 120), (40, 160)),
                where="front",
            )
            for n, y in enumerate((335, 215, 95), start=1)
        ),
        placed(
            "radiator/radiator",
            Role.RADIATOR,
            ((378, 405), (95, 455), (40, 160)),
            where="front",
        ),
        placed("rear fan", Role.FAN, ((0, 25), (300, 420), (55, 175)), where="rear"),
        *(
            placed(
                f"top fans/fan {n}",
                Role.FAN,
                ((x, x + 120), (435, 460), (48, 168)),
                where="top",
            )
            for n, x in enumerate((50, 180), start=1)
        ),
    ]
    parts = (
        part("board", "board", "305 x 244"),
        part("processor", "processor", ""),
        part("cooler", "tower cooler", "158 high"),
        part("memory", "memory", "2 x 44 high"),
        part("card", "card", "312 long"),
        part("supply", "supply", "180 long"),
        part("cage", "cage", "147 deep"),
        part("drive 1", "drive", "3.5 in"),
        part("drive 2", "drive", "3.5 in"),
        part("small drive", "drive", "2.5 in"),
        part("front fans", "fan", "3 x 120"),
        part("radiator", "radiator", "360 x 27"),
        part("rear fan", "fan", "120"),
        part("top fans", "fan", "2 x 120"),
    )
    asked: tuple[Asked, ...] = (
        ("cooler", "case/side panel", 2, 0.9),
        ("cooler/fan 1", "memory/module 1", 1, 1.2),
        ("cooler", "top fans/fan 1", 5, 1.0),
        ("cooler/fan 2", "rear fan", 20, 1.5),
        ("card", "radiator/radiator", 5, 1.4),
        ("card", "case/side panel", 10, 1.0),
        ("card/plug", "case/side panel", 38, 1.2),
        ("card", "case/shroud", 10, 1.0),
        ("supply/leads", "cage", 0, 1.0),
        ("supply", "cage", 60, 1.0),
        ("supply", "case/shroud", 5, 0.8),
        ("cage", "radiator/radiator", 12, 1.5),
        ("cage", "case/shroud", 0, 0.8),
        ("board", "top fans/fan 2", 5, 1.0),
        ("memory/module 2", "top fans/fan 2", 2, 1.0),
        ("small drive", "case/back panel", 5, 0.5),
    )
    build = Build(
        name="Editing machine for the radio studio",
        parts=parts,
        bodies=tuple(bodies),
        case_name="quiet tower",
        case_size_mm=CASE,
    )
    missing = Finding(
        id="fan-header:rear fan",
        rule="fan-header",
        group=Group.HOOKUP,
        a="rear fan",
        b=None,
        gap_mm=None,
        need_mm=None,
        tolerance_mm=None,
        margin_mm=None,
        verdict=Verdict.MISSING,
        axis=None,
        from_mm=None,
        to_mm=None,
        overlap=None,
        assumed=(),
        why="a fan needs a header",
        source="common practice, no source",
        advice="take a board with one more fan header",
    )
    return build, check_of(build, asked, (missing,))


def clear_tower() -> tuple[Build, Check]:
    """Return a build of few parts in which everything clears."""
    build, _ = tower()
    kept = {"case", "board", "processor", "memory", "front fans", "rear fan"}
    bodies = [each for each in build.bodies if each.part in kept]
    bodies.append(placed("cooler", Role.COOLER, ((60, 140), (300, 390), (15.8, 62))))
    bodies.append(placed("supply", Role.SUPPLY, ((0, 140), (2, 88), (30, 180))))
    few = Build(
        name="Plotting desk for the surveyor's office",
        parts=(
            *(each for each in build.parts if each.key in kept),
            part("cooler", "low cooler", "46 high"),
            part("supply", "supply", "140 long"),
        ),
        bodies=tuple(bodies),
        case_name="quiet tower",
        case_size_mm=CASE,
    )
    asked: tuple[Asked, ...] = (
        ("cooler", "case/side panel", 2, 0.9),
        ("cooler", "memory/module 1", 1, 1.2),
        ("cooler", "rear fan", 20, 1.2),
        ("supply", "case/shroud", 5, 0.8),
        ("board", "front fans/fan 2", 20, 1.0),
    )
    return few, check_of(few, asked)


def blocks() -> tuple[Build, Check]:
    """Return raw outlines alone: a bracket with a hole, a ramp, and a post."""
    bracket = Solid(
        Polygon(
            [(0, 0), (60, 0), (60, 25), (0, 40)],
            [Point(20, 15).buffer(6).exterior.coords],
        ),
        rectangle((0, 60), (0, 30)),
    )
    ramp = Solid(
        Polygon([(0, 0), (50, 0), (50, 30)]), Polygon([(0, 0), (50, 5), (50, 30)])
    )
    bodies = (
        _placed(Body(name="odd bracket", shape=Shape((bracket,))), Role.BLOCK),
        _placed(
            Body(name="ramp $5 & <b>", shape=Shape((ramp,)), at_mm=(64.2, 5, 0)),
            Role.BLOCK,
        ),
        placed("post", Role.BLOCK, ((30, 42), (20, 90), (10, 22))),
    )
    build = Build(name="blocks $1 of $2", parts=(), bodies=bodies)
    asked: tuple[Asked, ...] = (
        ("odd bracket", "ramp $5 & <b>", 5, 0),
        ("odd bracket", "post", 0, 0),
        ("ramp $5 & <b>", "post", 4, 0),
    )
    return build, check_of(build, asked)


def random_build(seed: int) -> tuple[Build, Check]:
    """Return boxes strewn in a case, with findings between any of them."""
    draw = random.Random(seed)  # noqa: S311 - a test's seed, no secret
    roles = [each for each in Role if each.is_matter and each.value not in _WALLS]
    bodies, keys = case_bodies(), []
    for n in range(draw.randint(4, 26)):
        spans = []
        for room in CASE:
            size = draw.uniform(4, room * 0.45)
            low = draw.uniform(0, room - size)
            spans.append((round(low, 1), round(low + size, 1)))
        keys.append(f"part {n} " + "with a long name" * draw.randint(0, 1))
        bodies.append(
            placed(keys[-1], draw.choice(roles), (spans[0], spans[1], spans[2]))
        )
    build = Build(
        name=f"random {seed}",
        parts=tuple(part(key, "block", "99.5 long") for key in keys),
        bodies=tuple(bodies),
        case_name="quiet tower",
        case_size_mm=CASE,
    )
    asked = []
    for _ in range(draw.randint(0, 18)):
        a, b = draw.sample(keys, 2)
        asked.append((a, b, draw.uniform(0, 20), draw.uniform(0, 2)))
    return build, check_of(build, tuple(asked))


_WALLS = {"side panel", "back panel", "floor", "top", "front", "rear", "tray"}


def check_of(
    build: Build, asked: tuple[Asked, ...], more: tuple[Finding, ...] = ()
) -> Check:
    bodies = {each.name: each.body for each in build.bodies}
    found = [*more, *(_finding(bodies, each) for each in asked)]
    order = {verdict: -n for n, verdict in enumerate(Verdict)}
    found.sort(key=lambda each: (order[each.verdict], each.margin_mm or 0.0, each.id))
    return Check(
        build=build.name,
        verdict=found[0].verdict if found else Verdict.CLEAR,
        findings=tuple(found),
        notes=(),
    )


def _finding(bodies: dict[str, Body], asked: Asked) -> Finding:
    a, b = bodies[asked[0]], bodies[asked[1]]
    need_mm, tolerance_mm = asked[2:]
    stands = relation(a, b)
    witness, overlap = stands.witness, stands.overlap
    room = -overlap.mm if overlap else stands.gap_mm
    if stands.state is State.INTERFERING:
        verdict = Verdict.CLASH
    elif stands.gap_mm < need_mm - 1e-6:
        verdict = Verdict.SHORT
    elif stands.gap_mm - tolerance_mm < need_mm - 1e-6:
        verdict = Verdict.TIGHT
    else:
        verdict = Verdict.CLEAR
    return Finding(
        id=f"room:{a.name}:{b.name}",
        rule="room",
        group=Group.DISTANCE,
        a=a.name,
        b=b.name,
        gap_mm=stands.gap_mm,
        need_mm=need_mm,
        tolerance_mm=tolerance_mm,
        margin_mm=room - need_mm,
        verdict=verdict,
        axis=overlap.axis if overlap else witness.axis if witness else None,
        from_mm=witness.from_mm if witness else None,
        to_mm=witness.to_mm if witness else None,
        overlap=overlap,
        assumed=("socket centre from the board's top edge",)
        if "cooler" in a.name
        else (),
        why="room",
        source="common practice, no source",
        advice="",
    )
