"""Whether a cooler's box holds the kit for the board's socket: by name, then holes."""

from __future__ import annotations

from typing import Final

from layout.build.placed import Build, Fixing
from layout.geometry.holes.holes import Hole, meeting
from layout.parts.form.form import SeatSort
from layout.parts.form.kit import Kit, Known, is_for
from layout.parts.form.screws import Screws
from layout.questions.findings.advice import spoken
from layout.questions.findings.answered import Answered, finding_of, joined, listed
from layout.questions.findings.finding import Finding, Group, ToOrder, Verdict
from layout.standards.screws import KEEPS_ITS_PLATE, TWICE_HELD

__all__ = ["cooler_kits"]

_RULE: Final = "cooler-kit"


def cooler_kits(build: Build, *, every: bool) -> Answered:
    """Return whether each cooler can be mounted; what no file says is assumed.

    ``every`` adds the kits that are assumed to be in their box.
    """
    boards = {
        each.part: each.host
        for each in build.fixings
        if each.sort is SeatSort.PROCESSOR
    }
    return joined(
        [
            _answer(each, each.theirs, boards.get(each.host, each.host), every=every)
            for each in build.fixings
            if each.sort is SeatSort.COOLER and each.theirs is not None
        ]
    )


def _answer(fixing: Fixing, socket: Screws, board: str, *, every: bool) -> Answered:
    cooler, kits = fixing.part, fixing.kits
    names = (cooler, board)
    if kits is None:
        taken = f"{cooler}: a kit for {socket.name} in its box"
        found = _there(names, f"its box holds the kit for {socket.name}", (taken,))
        return Answered(findings=found if every else (), notes=(taken,))
    fitting = [kit for kit in kits if is_for(kit, socket.name)]
    if any(kit.known is Known.SEEN for kit in fitting):
        told = f"its kit for {socket.name} was seen in the box"
        return Answered(findings=_there(names, told))
    if fitting:
        told = f"its kit for {socket.name} is known from the maker's page alone"
        assumed = (f"{cooler}: {told.removeprefix('its ')}",)
        return Answered(findings=_there(names, told, assumed, confirm=True))
    return _missing(cooler, kits, socket)


def _there(
    names: tuple[str, str],
    told: str,
    assumed: tuple[str, ...] = (),
    *,
    confirm: bool = False,
) -> tuple[Finding, ...]:
    owner = spoken(names[0])
    advice = f"confirm the box's revision: {owner}, {told}" if confirm else ""
    return (
        finding_of(
            _RULE,
            Group.HOLES,
            names,
            verdict=Verdict.CLEAR,
            why=told,
            advice=advice,
            assumed=assumed,
        ),
    )


def _missing(cooler: str, kits: tuple[Kit, ...], socket: Screws) -> Answered:
    name, owner = socket.name, spoken(cooler)
    held = (
        f"kits for {listed([kit.socket for kit in kits])}, none" if kits else "no kit"
    )
    wrong = f"{owner}'s box holds no kit for {name}"
    order_it = "order it from the maker before anything else"
    told = (f"{wrong}: {order_it}", *_near(kits, socket), *_plate(name))
    found = finding_of(
        _RULE,
        Group.HOLES,
        (cooler, None),
        verdict=Verdict.MISSING,
        why=f"its box holds {held} for {name}",
        advice="; ".join(told),
    )
    order = ToOrder(what=f"mounting kit for {name}, of the maker", owner=cooler)
    return Answered(findings=(found,), to_order=(order,))


def _near(kits: tuple[Kit, ...], socket: Screws) -> tuple[str, ...]:
    """Return what the kit that comes nearest would do, where holes tell."""
    known = [(kit, kit.holes()) for kit in kits]
    near = [
        (_worst_mm(holes, socket), kit)
        for kit, holes in known
        if holes and socket.holes
    ]
    if not near:
        return ()
    worst_mm, kit = min(near, key=lambda each: each[0])
    holes = _spacing(socket.holes)
    told = f"that for {kit.socket} "
    if worst_mm == 0.0:
        told += (
            f"reaches the holes ({holes}), but height and pressure differ: it is no "
        )
        told += f"kit for {socket.name}"
    else:
        told += f"misses the holes by {worst_mm:.1f} mm ({_spacing(kit.holes())} on "
        told += f"{holes})"
    return (told,)


def _worst_mm(holes: tuple[Hole, ...], socket: Screws) -> float:
    missed = meeting(holes, socket.holes, screw_mm=0.0).missed
    return max((each.length_mm for each in missed), default=0.0)


def _spacing(holes: tuple[Hole, ...]) -> str:
    """Return the spacing of four holes, of slotted ears from where to where.

    Examples
    --------
    >>> from layout.parts.form.kit import cooler_holes
    >>> _spacing(cooler_holes("AM5"))
    '54 x 90'
    """
    ends = [(each.at_mm, each.end_mm) for each in holes]
    x, y = (
        [2 * max(place[side][axis] for place in ends) for side in (0, 1)]
        for axis in (0, 1)
    )
    return " x ".join(
        f"{low:g}" if low == high else f"{low:g} to {high:g}" for low, high in (x, y)
    )


def _plate(name: str) -> tuple[str, ...]:
    """Return what to mind of a back plate that the board brings."""
    if name in TWICE_HELD:
        return ("the board's own back plate stays on, it holds the socket too",)
    if name in KEEPS_ITS_PLATE:
        return ("most kits use the board's own back plate: keep it",)
    return ()
