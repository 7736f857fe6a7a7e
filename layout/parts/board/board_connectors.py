"""Power and signal connectors on a board, each with its plug in it."""

from __future__ import annotations

from layout.geometry.solids.solid import Solid, block
from layout.geometry.space import Axis, Direction
from layout.parts.board.board_angles import height_of
from layout.parts.board.board_plan import BoardPlan
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Piece, Role
from layout.parts.form.link import exact, link, size
from layout.parts.form.mounted import Span
from layout.standards.connectors import OUTLINES
from layout.standards.figure import Figure, practice

__all__ = ["PINS_HEIGHT", "connectors", "power_span_mm", "standing"]

# No specification fixes these places: they are where boards usually have them.
_POWER_HEIGHT = practice(20.0, 4.0, assumed=True)
_USB_HEIGHT = practice(20.0, 4.0, assumed=True)
PINS_HEIGHT = practice(12.0, 2.0, assumed=True)
_DRIVES_HEIGHT = practice(14.0, 2.0, assumed=True)
_PLACE = practice(0.0, 10.0, assumed=True)
_POWER_FROM_REAR_MM = 31.0
_MAIN_FROM_TOP_MM = 90.0
_USB_FROM_TOP_MM = 134.0
_DRIVES_FROM_FRONT_MM = 17.0
_PINS_MM = 9.0
_SMALL_BOARD_MM = 200.0
"""Lower boards have their pins elsewhere: their one slot lies at the lower edge."""


def standing(plan: BoardPlan, x: Span, y: Span, *, height_mm: float) -> Solid:
    """Return a box that stands on the board's top."""
    return block(x, y, (plan.thickness.mm, plan.thickness.mm + height_mm))


def power_span_mm(plan: BoardPlan) -> Span:
    """Return the depths that the processor's power plugs take at the top edge."""
    long_mm = OUTLINES["8-pin power, upright"].length.mm
    return (
        _POWER_FROM_REAR_MM,
        _POWER_FROM_REAR_MM + plan.power_plugs * long_mm,
    )


def connectors(plan: BoardPlan) -> tuple[Piece, ...]:
    """Return every connector's body, as far as the board has room for it."""
    small = plan.height.mm < _SMALL_BOARD_MM
    front = (_main_power(plan), _usb(plan), _drives(plan, small=small))
    top = (_processor_power(plan),) if plan.power_plugs else ()
    return (*front, *top, *(() if small else (_pins(plan),)))


def _main_power(plan: BoardPlan) -> Piece:
    lying = ConnectorKind.MAIN in plan.lying
    outline = OUTLINES[f"24-pin power, {'lying' if lying else 'upright'}"]
    return _at_front(
        plan,
        "main power",
        height_of(plan, ConnectorKind.MAIN, _POWER_HEIGHT),
        size_mm=(outline.width.mm, outline.length.mm),
        middle_mm=plan.upper_mm - _MAIN_FROM_TOP_MM,
    )


def _usb(plan: BoardPlan) -> Piece:
    outline = OUTLINES["19-pin internal USB"]
    return _at_front(
        plan,
        "internal usb",
        height_of(plan, ConnectorKind.USB_19, _USB_HEIGHT),
        size_mm=(outline.width.mm, outline.length.mm),
        middle_mm=plan.upper_mm - _USB_FROM_TOP_MM,
    )


def _drives(plan: BoardPlan, *, small: bool) -> Piece:
    """Return the drives' data connectors, lying at the front edge."""
    long_mm, middle_mm = (18.0, 12.0) if small else (45.0, 70.0)
    return _at_front(
        plan,
        "drive data",
        _DRIVES_HEIGHT,
        size_mm=(_DRIVES_FROM_FRONT_MM, long_mm),
        middle_mm=plan.lower_mm + middle_mm,
    )


def _at_front(
    plan: BoardPlan,
    name: str,
    height: Figure,
    *,
    size_mm: tuple[float, float],
    middle_mm: float,
) -> Piece:
    deep_mm, long_mm = size_mm
    return _piece(
        plan,
        name,
        height,
        x=(plan.depth.mm - deep_mm, plan.depth.mm),
        y=(middle_mm - long_mm / 2, middle_mm + long_mm / 2),
    )


def _processor_power(plan: BoardPlan) -> Piece:
    wide_mm = OUTLINES["8-pin power, upright"].width.mm
    y = (plan.upper_mm - wide_mm, plan.upper_mm)
    x = power_span_mm(plan)
    height = height_of(plan, ConnectorKind.PROCESSOR, _POWER_HEIGHT)
    return _piece(plan, "processor power", height, x=x, y=y)


def _pins(plan: BoardPlan) -> Piece:
    """Return the row of pins at the lower edge: audio, fans, front panel."""
    y = (plan.lower_mm, plan.lower_mm + _PINS_MM)
    x = (15.0, plan.depth.mm - 5.0)
    return _piece(plan, "front panel pins", PINS_HEIGHT, x=x, y=y)


def _piece(plan: BoardPlan, name: str, height: Figure, *, x: Span, y: Span) -> Piece:
    return Piece(
        name=name,
        role=Role.BOARD_CONNECTOR,
        solids=(standing(plan, x, y, height_mm=height.mm),),
        links=(
            exact(f"{name} from the board's rear edge", x[0], Axis.DEPTH),
            size(exact(f"{name}'s depth", x[1] - x[0], Axis.DEPTH), Direction.FRONT),
            exact(f"{name} in the board frame", y[0], Axis.HEIGHT),
            size(exact(f"{name}'s length", y[1] - y[0], Axis.HEIGHT), Direction.UP),
            size(
                link(
                    f"height of {name}",
                    height,
                    Axis.WIDTH,
                    tape=f"board's surface to the top of the plug in {name}",
                ),
                Direction.PANEL,
            ),
            link(
                f"place of {name}",
                _PLACE,
                Axis.DEPTH,
                Axis.HEIGHT,
                tape=f"board's rear or top edge to the near side of {name}",
            ),
            plan.thick,
        ),
    )
