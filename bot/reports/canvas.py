"""A small drawing board: SVG shapes, and labels that keep clear of one another."""

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from math import dist
from typing import Final, Literal

from bot.reports.glyphs import FAMILY, face, printable

FONT: Final = 12.0
"""The one size of text; the drawing is 360 wide, so this is 12 px on a phone 360 px wide."""

INK: Final = "#111111"

_ASCENT: Final = 0.76
_DESCENT: Final = 0.24

Anchor = Literal["start", "middle", "end"]
Shape = Literal["circle", "up", "down", "square"]
Spot = tuple[float, float, Anchor]
"""Where a label may go: x, the y of its baseline, and which end of it `x` is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle on the page; `top` is the smaller number."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: "Box") -> bool:
        """Whether the two have a point in common."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def nearer(self, one: tuple[float, float], other: tuple[float, float]) -> bool:
        """Whether its middle is nearer to the one point than to the other."""
        middle = (self.left + self.right) / 2, (self.top + self.bottom) / 2
        return dist(middle, one) < dist(middle, other)

    def within(self, other: "Box") -> bool:
        """Whether it lies inside the other."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


class Canvas:
    """Collects shapes in drawing order.

    Attributes:
        width: Of the page.
        taken: Where a label may not go.
        crossed: Where a label had better not go.
    """

    def __init__(self, width: float) -> None:
        self.width = width
        self.taken: list[Box] = []
        self.crossed: list[Box] = []
        self._points: list[tuple[float, float]] = []
        self._shapes: list[str] = []

    def svg(self, height: float) -> str:
        """Return the drawing as an SVG file of that height."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{self.width:g}" height="{height:g}"'
            f' viewBox="0 0 {self.width:g} {height:g}">'
            f'<rect width="{self.width:g}" height="{height:g}" fill="#ffffff"/>'
            f"{''.join(self._shapes)}</svg>"
        )

    def text(
        self,
        x: float,
        y: float,
        words: str,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
        ink: str = INK,
    ) -> Box:
        """Write one line with its baseline at `y`; returns the space it takes."""
        words = printable(words)
        box = self._box(x, y, anchor, words, bold=bold)
        weight = ' font-weight="700"' if bold else ""
        self._shapes.append(
            f'<text x="{box.left:.1f}" y="{y:.1f}" font-family="{FAMILY}" font-size="{FONT:g}"'
            f'{weight} fill="{ink}">{escape(words)}</text>'
        )
        self.taken.append(box)
        return box

    def label(
        self,
        words: str,
        spots: Iterable[Spot],
        *,
        inside: Box,
        owner: tuple[float, float] | None = None,
        ink: str = INK,
    ) -> None:
        """Write a line at the best of several places; nowhere if all are taken.

        Args:
            words: The line.
            spots: Places in order of preference.
            inside: What it may not leave.
            owner: The point it names, in bold; it may not lie nearer to any other point.
            ink: Its colour.
        """
        bold = owner is not None
        best: tuple[int, Spot, Box] | None = None
        for spot in spots:
            box = self._box(*spot, words, bold=bold)
            if not box.within(inside) or any(box.meets(other) for other in self.taken):
                continue
            if owner is not None and any(box.nearer(other, owner) for other in self._points):
                continue
            crossings = self._crossings(box)
            if best is None or crossings < best[0]:
                best = (crossings, spot, box)
            if crossings == 0:
                break
        if best is not None:
            _, (x, y, anchor), box = best
            self.rect(box, fill="#ffffff", opacity=0.75)
            self.text(x, y, words, anchor=anchor, bold=bold, ink=ink)

    def rect(
        self, box: Box, *, fill: str, opacity: float = 1.0, stroke: str = "none", corner: float = 0
    ) -> None:
        """Fill a rectangle."""
        self._shapes.append(
            f'<rect x="{box.left:.1f}" y="{box.top:.1f}" width="{box.right - box.left:.1f}"'
            f' height="{box.bottom - box.top:.1f}" fill="{fill}" fill-opacity="{opacity:g}"'
            f' stroke="{stroke}" rx="{corner:g}"/>'
        )

    def line(
        self,
        points: Iterable[tuple[float, float]],
        *,
        ink: str = INK,
        wide: float = 1.0,
        dashes: str = "",
    ) -> None:
        """Draw a line through points."""
        path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
        self._shapes.append(
            f'<polyline points="{path}" fill="none" stroke="{ink}" stroke-width="{wide:g}"'
            f"{dashed}/>"
        )

    def marker(self, x: float, y: float, shape: Shape, *, ink: str, hollow: bool = False) -> None:
        """Draw a point: filled, or hollow for a late reading."""
        fill = "#ffffff" if hollow else ink
        style = f'fill="{fill}" stroke="{ink}" stroke-width="1.6"'
        match shape:
            case "circle":
                self._shapes.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" {style}/>')
            case "square":
                self._shapes.append(
                    f'<rect x="{x - 3.8:.1f}" y="{y - 3.8:.1f}" width="7.6" height="7.6" {style}/>'
                )
            case "up" | "down":
                tip = -4.6 if shape == "up" else 4.6
                corners = [(x, y + tip), (x - 4.8, y - tip * 0.75), (x + 4.8, y - tip * 0.75)]
                path = " ".join(f"{a:.1f},{b:.1f}" for a, b in corners)
                self._shapes.append(f'<polygon points="{path}" {style}/>')
        self._points.append((x, y))
        self.taken.append(Box(left=x - 5.5, top=y - 5.5, right=x + 5.5, bottom=y + 5.5))

    def cross(self, x: float, y: float) -> None:
        """Draw the mark of a reading that was not taken."""
        self.line([(x - 3.5, y - 3.5), (x + 3.5, y + 3.5)], wide=1.6)
        self.line([(x - 3.5, y + 3.5), (x + 3.5, y - 3.5)], wide=1.6)
        self.taken.append(Box(left=x - 5, top=y - 5, right=x + 5, bottom=y + 5))

    def avoid(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Let labels keep clear of a line between two points if they can."""
        (x1, y1), (x2, y2) = start, end
        pieces = max(1, round(max(abs(x2 - x1), abs(y2 - y1)) / 4))
        for piece in range(pieces + 1):
            x = x1 + (x2 - x1) * piece / pieces
            y = y1 + (y2 - y1) * piece / pieces
            self.crossed.append(Box(left=x - 1, top=y - 1, right=x + 1, bottom=y + 1))

    def _crossings(self, box: Box) -> int:
        """Return how much of what is crossed lies in a box; written out, since it is much."""
        left, top, right, bottom = box.left, box.top, box.right, box.bottom
        return sum(
            1
            for other in self.crossed
            if left < other.right
            and other.left < right
            and top < other.bottom
            and other.top < bottom
        )

    @staticmethod
    def _box(x: float, y: float, anchor: Anchor, words: str, *, bold: bool) -> Box:
        width = face(bold=bold).width(words, FONT)
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
        return Box(
            left=left, top=y - FONT * _ASCENT, right=left + width, bottom=y + FONT * _DESCENT
        )
