"""Where things are: body axes from the brief's datum, routes between places.

Body x is metres forward of midships (half the length overall); the brief counts from the transom or from the bow.
"""

from __future__ import annotations

from dataclasses import dataclass

from athwart.design.brief import Brief, Route
from athwart.units import Metre


def body_x(brief: Brief, x: Metre) -> Metre:
    """Brief's x to metres forward of midships."""
    half = brief.boat.length_overall / 2
    return x - half if brief.boat.x_from == "transom" else half - x


def from_transom(brief: Brief, x: Metre) -> Metre:
    """Brief's x to metres forward of the transom."""
    return x if brief.boat.x_from == "transom" else brief.boat.length_overall - x


def waterline_middle(brief: Brief) -> Metre:
    """Middle of the waterline from amidships: of the profile given, else from the transom (a sailing yacht: amidships)."""
    boat = brief.boat
    if boat.underwater:
        ends = [body_x(brief, x) for x, _ in boat.underwater]
        return 0.5 * (min(ends) + max(ends))
    if boat.kind == "sailing yacht":
        return 0.0
    return 0.5 * (boat.length_waterline - boat.length_overall)


@dataclass(frozen=True, slots=True)
class RunOf:
    """A route as used: one-way lengths, conditions, and whether it was given or assumed."""

    plus: Metre
    minus: Metre
    engine_space: bool
    bundled: int
    sheathed: bool
    given: bool
    words: str

    @property
    def loop(self) -> Metre:
        """There and back."""
        return self.plus + self.minus


def route(brief: Brief, start: str, end: str) -> Route | None:
    """The route between two places, in either direction."""
    wanted = {start, end}
    return next((entry for entry in brief.layout.routes if set(entry.between) == wanted), None)


def run_between(brief: Brief, start: str, end: str) -> RunOf:
    """Route between two places; not given, it is estimated from the places (1.3 times the distance plus 1 m) and says so."""
    found = route(brief, start, end)
    if found is not None:
        minus = found.plus if found.minus is None else found.minus
        return RunOf(found.plus, minus, found.engine_space, found.bundled, found.sheathed, True, f"{start} to {end}")
    if start == end:
        return RunOf(1.0, 1.0, False, 1, False, False, f"within {start}, assumed 1 m")
    a, b = brief.place(start), brief.place(end)
    if a is None or b is None:
        length = 0.6 * brief.boat.length_overall
        return RunOf(length, length, False, 1, False, False, f"{start} to {end}, not given: 0.6 of the boat's length assumed")
    length = 1.3 * (abs(a.x - b.x) + abs(a.height - b.height)) + 1.0
    return RunOf(
        length, length, a.engine_space or b.engine_space, 1, False, False, f"{start} to {end}, not given: estimated from places"
    )
