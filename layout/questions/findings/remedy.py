"""What helps: changes that the program tries itself, and what it cannot try."""

from __future__ import annotations

from typing import Final

from layout.values import dataclass

__all__ = ["HOSES_APART", "HOSES_SHORT", "NOTHING", "Remedy"]

NOTHING: Final = (
    "nothing that can be tried mends it: take other parts, or a case with more room"
)


_TAKE: Final = "take "


@dataclass(frozen=True, slots=True)
class Remedy:
    """What helps where there is too little room.

    Parameters
    ----------
    tried : str
        Changes that the program tries itself, as 'take a shorter card'.
    others : str
        What it cannot try, as 'take a deeper case'.

    Examples
    --------
    >>> remedy = Remedy("take a shorter card", "take a deeper case")
    >>> remedy.told, remedy.left
    ('take a shorter card, or a deeper case', 'take a deeper case')
    """

    tried: str = ""
    others: str = ""

    @property
    def told(self) -> str:
        """Return everything that may help."""
        others = self.others
        if self.tried.startswith(_TAKE):  # said once for both
            others = others.removeprefix(_TAKE)
        return _OR.join(filter(None, (self.tried, others)))

    def without(self, done: str) -> Remedy:
        """Return the remedy without the changes that name what is done already.

        Examples
        --------
        >>> Remedy("take angled plugs, or a lower card").without("angled").told
        'take a lower card'
        """
        first, *rest = self.tried.split(_OR)
        kept = [each for each in (first, *rest) if done not in each]
        if kept and done in first and first.startswith(_TAKE):
            kept[0] = _TAKE + kept[0]
        return Remedy(_OR.join(kept), self.others)

    @property
    def left(self) -> str:
        """Return what may still help once every change that is tried has failed."""
        return self.others or NOTHING


_OR: Final = ", or "
_RADIATOR: Final = "turn the radiator end for end, or take another mount"
HOSES_SHORT: Final = Remedy(_RADIATOR, "take a cooler with longer hoses")
HOSES_APART: Final = Remedy(_RADIATOR, "take longer hoses")
