"""A solid that can be turned: the original, its pockets, and the sections of its shell, in the page."""

from moldcalc.panels.solid.solid import MOST, SLOPES, Band, Mark, Piece, SolidPicture

__all__ = ["MOST", "SLOPES", "Band", "Mark", "Piece", "SolidPicture"]
