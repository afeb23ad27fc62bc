"""The manoeuvres that a boat is rehearsed in, made from her size: what is kept, what is reached, how much room there is.

Every limit here is an own judgement, shipped as a visible default: rooms in metres grow with the boat, times with the root of her
length. Where she has no stern unit her stern is made fast in the manoeuvres that would need one, and the words say so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import pi, radians, sqrt
from typing import Literal

from athwart.explain import formula
from athwart.plant.motion import Manoeuvre
from athwart.units.names import Kilogram, Metre, MetrePerSecond, Newton, NewtonPerMetre, Radian, Second
from athwart.vessel.hydrostatics import G

WindFrom = Literal["asked", "abeam", "from port"]

HEADING_ROOM: Radian = radians(15.0)
TURN_DONE: Radian = radians(8.0)
TURN_RATE_DONE: float = radians(1.5)
SWING_OUT: Radian = radians(20.0)
SWING_LEFT: float = radians(0.5)
SWING_ROOM: Radian = radians(25.0)
GRACE: Second = 3.0
TURN_TIME_12: Second = 60.0
"""For a quarter turn of a boat of 12 m; others by the root of length."""
LEAVE_TIME_12: Second = 45.0
STOP_TIME_12: Second = 40.0
BERTH_SPEED: MetrePerSecond = 1.0
STOPPED: MetrePerSecond = 0.15
LINE_PERIOD: Second = 6.0
FENDER_PERIOD: Second = 4.0
LINE_DAMPING = 0.5
ENGINE_SHARE = 0.03
"""Most push of the engine in a berth as a share of weight."""
ENGINE_TIME: Second = 3.0
DRIFT_TURN = 0.7
"""Share of the drift's speed that the bow swings with about a stern made fast."""


@formula(
    "k", "N/m", "displacement * (2 * pi / period) ** 2", source="own-judgement", valid="one line, one fender or a few together"
)
def line_stiffness(displacement: Kilogram, period: Second) -> NewtonPerMetre:
    """Stiffness of lines or fenders by the period in which the boat swings in them: 6 s in lines, 4 s against fenders.

    Parameters
    ----------
    displacement : Of the boat. [kg]
    period : Of her swing. [s]

    Examples
    --------
    >>> round(line_stiffness(10_000.0, 6.0))
    10966
    """
    return displacement * (2.0 * pi / period) ** 2


@dataclass(frozen=True, slots=True)
class Size:
    """What the manoeuvres are cut to. Places are from amidships."""

    length: Metre
    beam: Metre
    displacement: Kilogram
    has_stern_unit: bool
    """Beside a bow unit."""
    hold: Second
    drift: MetrePerSecond
    """Steady drift in the mean wind abeam, to which a drift that is stopped begins."""
    stern_only: bool = False
    """The only unit is at the stern: the bow is made fast where an end has to be."""

    @property
    def tied_end(self) -> Metre:
        """The end made fast where a manoeuvre needs one: the one away from the unit."""
        return self.half if self.stern_only else -self.half

    @property
    def ends(self) -> tuple[str, str]:
        """The end that the unit moves, and the one made fast."""
        return ("stern", "bow") if self.stern_only else ("bow", "stern")

    @property
    def half(self) -> Metre:
        """From amidships to an end."""
        return 0.5 * self.length

    def time(self, of_12: Second) -> Second:
        """A time for a boat of 12 m, scaled to this one by the root of length."""
        return of_12 * sqrt(self.length / 12.0)


@dataclass(frozen=True, slots=True)
class Exercise:
    """A manoeuvre with where its wind comes from, and the words for it."""

    name: str
    manoeuvres: tuple[Manoeuvre, ...]
    """One, or its two sides: runs take them in turn."""
    wind: WindFrom
    words: str
    aside: str = ""
    """What has to be known beside the name, such as which end is made fast."""

    @property
    def label(self) -> str:
        """Name, with what has to be known beside it."""
        return f"{self.name} ({self.aside})" if self.aside else self.name


def exercises(size: Size) -> Mapping[str, Exercise]:
    """All manoeuvres for a boat, by name.

    >>> sorted(exercises(Size(12.0, 4.0, 11e3, False, 60.0, 0.6)))
    ['box berth', 'hold heading', 'hold station', 'leave quay', 'quarter turn', 'stop drift']
    """
    made = (_heading(size), _station(size), _turn(size), _leave(size), _berth(size), _stop(size))
    return {one.name: one for one in made}


def _tied(size: Size, task: Manoeuvre) -> Manoeuvre:
    """The same with the end away from the unit made fast by lines that give a little."""
    stiffness = line_stiffness(size.displacement, LINE_PERIOD)
    damping = 2.0 * LINE_DAMPING * sqrt(stiffness * size.displacement)
    return replace(task, line_place=size.tied_end, line_stiffness=stiffness, line_damping=damping)


def berth_push(displacement: Kilogram) -> Newton:
    """Most that is used of the engine in a berth, to keep way on or off."""
    return ENGINE_SHARE * G * displacement


def _heading(size: Size) -> Exercise:
    words = f"hold the heading within {HEADING_ROOM * 180 / pi:.0f} degrees for {size.hold:.0f} s, boat free to drift"
    task = Manoeuvre("hold heading", "stay", size.hold, limit_heading=HEADING_ROOM, grace=GRACE, words=words)
    return Exercise(task.name, (task,), "asked", words)


def _station(size: Size) -> Exercise:
    if not size.has_stern_unit:
        moved, fast = size.ends
        words = f"hold the {moved} within {HEADING_ROOM * 180 / pi:.0f} degrees for {size.hold:.0f} s, {fast} made fast"
        task = Manoeuvre("hold station", "stay", size.hold, limit_heading=HEADING_ROOM, grace=GRACE, words=words)
        return Exercise(task.name, (_tied(size, task),), "asked", words, f"{fast} fast")
    room = max(1.5, 0.12 * size.length)
    words = (
        f"keep both ends within {room:.1f} m of the line for {size.hold:.0f} s by bow and stern unit, the engine "
        "holding her from going ahead or astern"
    )
    task = Manoeuvre(
        "hold station", "stay", size.hold, steers_ends=True, bow_end=size.half, stern_end=-size.half,
        limit_heading=HEADING_ROOM, limit_offset=room, grace=GRACE, words=words, engine_most=berth_push(size.displacement),
        engine_gain=size.displacement / ENGINE_TIME,
    )  # fmt: skip
    return Exercise(task.name, (task,), "asked", words)


def _turn(size: Size) -> Exercise:
    time = size.time(TURN_TIME_12)
    words = f"turn a quarter to either side within {time:.0f} s, boat free to drift"
    both = tuple(
        Manoeuvre(
            f"quarter turn to {side}",
            "arrive",
            time,
            heading=begins,
            goal_heading=TURN_DONE,
            goal_rate=TURN_RATE_DONE,
            words=words,
        )
        for side, begins in (("port", pi / 2.0), ("starboard", -pi / 2.0))
    )
    return Exercise("quarter turn", both, "asked", words)


def _leave(size: Size) -> Exercise:
    time = size.time(LEAVE_TIME_12)
    fender = line_stiffness(size.displacement, FENDER_PERIOD)
    if size.has_stern_unit:
        away = max(2.0, 0.25 * size.length)
        words = f"leave a quay to starboard sideways by {away:.1f} m within {time:.0f} s, the wind blowing on to it"
        task = Manoeuvre(
            "leave quay", "arrive", time, offset=away, steers_ends=True, bow_end=size.half, stern_end=-size.half, fender=fender,
            goal_offset=0.25 * away, words=words,
        )  # fmt: skip
    else:
        moved, fast = size.ends
        words = (
            f"swing the {moved} {SWING_OUT * 180 / pi:.0f} degrees off a quay to starboard within {time:.0f} s, {fast} made "
            "fast, the wind blowing on to it"
        )
        out = -SWING_OUT if size.stern_only else SWING_OUT
        task = Manoeuvre(
            "leave quay", "arrive", time, heading=out, bow_end=size.half, stern_end=-size.half, fender=fender,
            goal_heading=radians(4.0), words=words,
        )  # fmt: skip
        return Exercise("leave quay", (_tied(size, task),), "from port", words, f"{fast} fast")
    return Exercise("leave quay", (task,), "from port", words)


def _berth(size: Size) -> Exercise:
    room = max(0.75, 0.2 * size.beam)
    way, outside = 2.0 * size.length, size.length
    push = berth_push(size.displacement)
    words = (
        f"enter a box berth at {BERTH_SPEED:.1f} m/s in a cross wind with {room:.2f} m to spare each side, the stern held by "
        + ("the stern unit" if size.has_stern_unit else "engine and rudder")
    )
    task = Manoeuvre(
        "box berth", "travel", 1.6 * way / BERTH_SPEED, speed=BERTH_SPEED, steers_ends=True, bow_end=size.half,
        stern_end=-size.half, limit_heading=HEADING_ROOM, limit_offset=room, outside=outside, way=way, engine_most=push,
        engine_gain=size.displacement / ENGINE_TIME, words=words,
    )  # fmt: skip
    return Exercise("box berth", (task,), "abeam", words, "" if size.has_stern_unit else "helm astern")


def _stop(size: Size) -> Exercise:
    time = size.time(STOP_TIME_12)
    if size.has_stern_unit:
        room = max(3.0, 0.4 * size.length)
        words = f"stop a drift of {size.drift:.1f} m/s down the wind within {time:.0f} s and {room:.1f} m"
        task = Manoeuvre(
            "stop drift", "arrive", time, steers_ends=True, bow_end=size.half, stern_end=-size.half, limit_offset=room,
            goal_offset=room, goal_speed=STOPPED, drifting=True, words=words,
        )  # fmt: skip
        return Exercise("stop drift", (task,), "abeam", words)
    rate = DRIFT_TURN * size.drift / size.length
    moved, fast = size.ends
    words = (
        f"stop a {moved} that swings off at {rate * 180 / pi:.1f} degrees a second within {time:.0f} s and "
        f"{SWING_ROOM * 180 / pi:.0f} degrees, {fast} made fast"
    )
    turn = -rate if size.stern_only else rate
    task = Manoeuvre(
        "stop drift", "arrive", time, yaw_rate=turn, sway=rate * size.half, goal_heading=SWING_ROOM, goal_rate=SWING_LEFT,
        limit_heading=SWING_ROOM, words=words,
    )  # fmt: skip
    return Exercise("stop drift", (_tied(size, task),), "from port", words, f"{fast} fast")
