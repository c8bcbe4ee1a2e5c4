"""Pieces of SVG: tags, text that stays text, dimension lines, and a scale."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from unicodedata import category
from xml.sax.saxutils import escape, quoteattr

TEXT_SIZE = 12.0
_WIDE = 0.62  # mean width of a letter over its size, for placing only
_UNSHOWN = "\N{REPLACEMENT CHARACTER}"
_LONGEST = 60
_SAME = 0.05  # mm


def visible(text: str) -> str:
    """Replace what is no visible character: controls, direction marks, unassigned ones.

    Line breaks become spaces. A viewer then shows text in the order in which it stands.
    """
    return "".join(
        " " if c in "\n\t" else _UNSHOWN if category(c)[0] == "C" else c
        for c in text.replace("\r\n", "\n")
    )


def tag(name: str, body: str = "", /, **attributes: object) -> str:
    """Return one element; ``body`` is SVG already, attributes are escaped here."""
    written = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(visible(_text(value)))}"
        for key, value in attributes.items()
        if value is not None and value != ""
    )
    return f"<{name}{written}>{body}</{name}>" if body else f"<{name}{written}/>"


def words(name: str, text: str, /, **attributes: object) -> str:
    """Return one element that holds a person's text."""
    return tag(name, escape(visible(text)), **attributes)


def shortened(text: str, most: int = _LONGEST) -> str:
    """Cut a long name where a drawing has no room; the tables have it whole."""
    return text if len(text) <= most else f"{text[: most - 1]}…"


def label(
    x: float, y: float, text: str, *, at: str = "start", class_: str = "", turned: bool = False
) -> str:
    """Return a text at a place; ``at`` is start, middle or end; ``turned`` reads upwards."""
    turn = f"rotate(-90 {_text(x)} {_text(y)})" if turned else None
    return words(
        "text", text, x=x, y=y, text_anchor=None if at == "start" else at, class_=class_,
        transform=turn,
    )  # fmt: skip


def width_of(text: str, size: float = TEXT_SIZE) -> float:
    """Return about how wide a text is [px]."""
    return len(text) * size * _WIDE


def rect(x: float, y: float, width: float, height: float, class_: str, **more: object) -> str:
    """Return a rectangle by its upper left corner and size [px]."""
    return tag("rect", x=x, y=y, width=width, height=height, class_=class_, **more)


def path(d: str, class_: str, **more: object) -> str:
    """Return a line or outline."""
    return tag("path", d=d, class_=class_, **more)


def across(x1: float, x2: float, y: float, text: str) -> str:
    """Return a horizontal dimension; where it is narrow, its text is below the line or turned."""
    line = path(f"M{_text(x1)},{_text(y)} H{_text(x2)}{_ticks([(x1, y), (x2, y)])}", "d-dim")
    middle = (x1 + x2) / 2
    if width_of(text) <= x2 - x1 - 4:
        return line + label(middle, y - 4, text, at="middle")
    if width_of(text) <= 1.9 * (x2 - x1):
        return line + label(middle, y + 14, text, at="middle")
    return line + label(middle + 4, y + 7, text, at="end", turned=True)


def up(x: float, y1: float, y2: float, text: str) -> str:
    """Return a vertical dimension from y1 up to y2, its text beside it."""
    line = path(f"M{_text(x)},{_text(y1)} V{_text(y2)}{_ticks([(x, y1), (x, y2)])}", "d-dim")
    middle = (y1 + y2) / 2
    if width_of(text) <= y1 - y2 - 4:
        return line + label(x - 4, middle, text, at="middle", turned=True)
    return line + label(x - 5, middle + 4, text, at="end")


def alike(stretches: Iterable[tuple[float, float]]) -> list[tuple[float, float, float, int]]:
    """Put neighbouring stretches [mm] of one length together.

    Returns start, end, the one length, and how many, for each run.
    """
    found: list[tuple[float, float, float, int]] = []
    for start, end in stretches:
        long = end - start
        if found and abs(long - found[-1][2]) < _SAME:
            first, _, before, count = found[-1]
            found[-1] = (first, end, before, count + 1)
        else:
            found.append((start, end, long, 1))
    return found


def _ticks(places: list[tuple[float, float]]) -> str:
    return "".join(f" M{_text(x - 3)},{_text(y + 3)} l6,-6" for x, y in places)


def _text(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.2f}".rstrip("0").rstrip(".")
    return str(value)


def number(value: float) -> str:
    """Return a coordinate as SVG writes it."""
    return _text(float(value))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """Where millimetres of the furniture land on the sheet: pixels per mm and the origin."""

    per_mm: float
    left: float
    foot: float

    def x(self, along: float) -> float:
        """Place across the sheet [px] of a place along the unit [mm]."""
        return self.left + along * self.per_mm

    def y(self, height: float) -> float:
        """Place down the sheet [px] of a height above the underside [mm]."""
        return self.foot - height * self.per_mm

    def box(
        self, left: float, bottom: float, right: float, top: float, class_: str, **more: object
    ) -> str:
        """Return a rectangle given by its edges [mm]."""
        return rect(
            self.x(left), self.y(top), (right - left) * self.per_mm, (top - bottom) * self.per_mm,
            class_, **more,
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A finished drawing: what it shows, said in words too, and its body.

    ``key`` is its name on a page; ``wide`` asks for room to scroll on a narrow screen.
    """

    key: str
    title: str
    description: str
    width: float
    height: float
    body: str
    wide: bool = False


def inner(drawing: Drawing, defs: str) -> str:
    """Return a drawing as one SVG element to be set into a page."""
    key = drawing.key
    return tag(
        "svg",
        words("title", drawing.title, id=f"{key}-title")
        + words("desc", drawing.description, id=f"{key}-desc")
        + defs
        + drawing.body,
        xmlns="http://www.w3.org/2000/svg",
        class_="drawing wide" if drawing.wide else "drawing",
        viewBox=f"0 0 {number(drawing.width)} {number(drawing.height)}",
        width=number(drawing.width),
        height=number(drawing.height),
        role="img",
        aria_labelledby=f"{key}-title {key}-desc",
    )
