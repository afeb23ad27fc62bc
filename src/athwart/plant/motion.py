"""A boat at low speed under wind, current, lines and side thrusters, in time: one run on plain numbers.

Axes over the ground: x along the heading the manoeuvre aims at, y to its starboard; the boat's heading is counted from there.
Speeds ``surge``, ``sway`` and ``yaw_rate`` are through the water. A step: the driver looks and decides, levers follow after the
delay, units follow their levers, wind and gust are taken at the middle of the step, then one Heun step of the water's loads.
Commands, thrust and gust are held over a step.

What a unit gives comes through one door, :class:`AvailableThrust`: a constant now, a model of bank and motor in time later.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import cos, exp, sin, sqrt
from typing import Literal, NamedTuple, Protocol

from athwart.numerics.chances import shifted, three_deviates
from athwart.thruster.response import Control as Control
from athwart.thruster.response import commanded as lever_says
from athwart.units.names import Ampere, Coulomb, Metre, MetrePerSecond, Newton, Radian, RadianPerSecond, Ratio, Second
from athwart.vessel.added_mass import MUNK_SHARE
from athwart.vessel.harmonics import WindHarmonics
from athwart.vessel.spectra import GustFilter
from athwart.vessel.underwater import SURGE_DRAG, HullInWater

Goal = Literal["stay", "arrive", "travel"]
"""Keep within the limits all the time; come within the goal before time is up; keep within the limits over a way."""
Cause = Literal["none", "thrust", "heat", "volts", "room", "control"]
CAUSES: tuple[Cause, ...] = ("none", "thrust", "heat", "volts", "room", "control")
"""Hard over one way and not enough; the motor trips; the bank is at its floor; not hard over when room or time ran out; hard over
now one way, now the other."""

STEP: Second = 0.1
HOLD: Second = 1.0
"""How long a goal must be kept to count."""
PRESSED_TIME: Second = 3.0
PRESSED: Ratio = 0.6
"""Share of lately full command, one way or both ways, beyond which a failure is laid to thrust or to control, else to room."""
RELEASE: Ratio = 0.4
FULL_LEVER: Ratio = 0.95
WATCHED: Ratio = 0.5
"""Where both ends are steered a unit is driven by a place this share of the way out to it: a push swings the other end too."""
AFT_BAND: Ratio = 3.0
"""Where only the heading is steered a second unit helps beyond this multiple of the dead band, and never brakes."""
LEARN: Second = 15.0
"""Time in which a hand on a lever learns a steady push, so that no error has to stand for it."""
"""A lever once over is let go at this share of the dead band."""
SIDE_LOSS: Ratio = 0.7
POD_LOSS: Ratio = 0.5
FENDER_DAMPING: Second = 0.5


class Motion(NamedTuple):
    """Where the boat is and how she moves."""

    x: Metre
    y: Metre
    heading: Radian
    surge: MetrePerSecond
    sway: MetrePerSecond
    yaw_rate: RadianPerSecond


class AvailableThrust(Protocol):
    """What a unit would settle on at a command between -1 (to port) and 1, at a time of the run; positive pushes to starboard."""

    def available_thrust(self, state: Motion, command: Ratio, time: Second) -> Newton:
        """Thrust for a command held, before the unit's lag and the hull's losses."""
        ...


@dataclass(frozen=True, slots=True)
class SteadyThrust:
    """The steady model behind the door: so much at full command each way, by the command in proportion."""

    to_starboard: Newton
    to_port: Newton

    def available_thrust(self, state: Motion, command: Ratio, time: Second) -> Newton:
        """Thrust for a command."""
        return command * (self.to_starboard if command >= 0.0 else self.to_port)


@dataclass(frozen=True, slots=True)
class Pusher:
    """A side thruster in motion. ``losses`` is the share of yaw moment left at each hundredth of boat speed over jet speed."""

    place: Metre
    thrust: AvailableThrust
    jet_speed: MetrePerSecond
    lag: Second
    reversal: Second
    control: Control
    steps: int = 1
    pod: bool = False
    current: Ampere = 0.0
    run_time: Second = float("inf")
    losses: tuple[Ratio, ...] = (1.0, 1.0)

    def commanded(self, wish: Ratio) -> Ratio:
        """What the lever can say of a wish."""
        return lever_says(wish, self.control, self.steps)

    def moment_left(self, speed: MetrePerSecond) -> Ratio:
        """Share of the standstill yaw moment left under way."""
        last = len(self.losses) - 1
        at = abs(speed) / self.jet_speed * 100.0
        low = min(int(at), last - 1)
        left = self.losses[low] + min(at - low, 1.0) * (self.losses[low + 1] - self.losses[low])
        return 1.0 - POD_LOSS * (1.0 - left) if self.pod else left


@dataclass(frozen=True, slots=True)
class Driver:
    """A hand with a switch (bang-bang, with a dead band and a look ahead) or a controller that gives what is needed.

    Errors are metres of the place steered, or radians times its lever where only the heading is steered.
    """

    kind: Literal["bang-bang", "proportional"]
    delay: Second = 0.5
    dead_band: Metre = 0.4
    look_ahead: Second = 1.5
    gain: float = 1.2  # full command per metre
    gain_rate: float = 2.5  # full command per m/s
    wrong_side: Second = 0.0
    """How long the first push goes the wrong way."""
    kind_aft: Literal["bang-bang", "proportional"] | None = None
    """Of the second unit, where it is driven another way than the first."""

    def is_even(self, *, aft: bool) -> bool:
        """Whether a unit is driven by a lever moved as far as needed."""
        return (self.kind_aft if aft and self.kind_aft is not None else self.kind) == "proportional"

    def wish(
        self,
        error: Metre,
        rate: MetrePerSecond,
        before: Ratio,
        *,
        aft: bool = False,
        spare: bool = False,
        learnt: Ratio = 0.0,
    ) -> Ratio:
        """What is wished of the unit.

        ``before`` is the last wish, ``learnt`` a steady push found needed, ``spare`` a unit used only where the other is not
        enough: it pushes towards the goal while that is far, and leaves stopping to the other.
        """
        if self.is_even(aft=aft):
            wish = -(self.gain * error + self.gain_rate * rate + learnt)
        else:
            ahead = error + self.look_ahead * rate
            band = self.dead_band * (AFT_BAND if spare else 1.0)
            low = RELEASE * band
            minus = ahead > (low if before < 0.0 else band)
            plus = ahead < -(low if before > 0.0 else band)
            wish = float(plus) - float(minus)
        if spare and (abs(error) <= AFT_BAND * self.dead_band or wish * error >= 0.0):
            return 0.0
        return wish

    def learns(self, learnt: Ratio, error: Metre, step: Second, *, aft: bool, spare: bool) -> Ratio:
        """The steady push found needed, a step later; nothing is learnt while the error alone asks for a lever hard over."""
        pull = self.gain * error
        if spare or not self.is_even(aft=aft) or abs(pull) >= 1.0:
            return learnt
        return min(1.0, max(-1.0, learnt + pull * (step / LEARN)))


@dataclass(frozen=True, slots=True)
class Manoeuvre:
    """What is to be done, in metres, radians and seconds; :mod:`athwart.plant.manoeuvres` makes them for a boat."""

    name: str
    goal: Goal
    duration: Second
    heading: Radian = 0.0  # at the beginning, from the heading aimed at
    offset: Metre = 0.0
    speed: MetrePerSecond = 0.0  # ahead, kept by the engine in "travel"
    steers_ends: bool = False
    """Both ends are steered to the line, not the heading alone."""
    bow_end: Metre = 0.0
    stern_end: Metre = 0.0
    limit_heading: Radian = 10.0
    limit_offset: Metre = 1e6
    grace: Second = 0.0
    outside: Metre = -1e6
    """Limits count from this x on."""
    goal_heading: Radian = 10.0
    goal_offset: Metre = 1e6
    goal_rate: RadianPerSecond = 1e6
    goal_speed: MetrePerSecond = 1e6
    way: Metre = 1e6
    line_place: Metre = 0.0
    line_stiffness: float = 0.0  # N/m
    line_damping: float = 0.0  # N s/m
    fender: float = 0.0  # N/m; a quay along her starboard side as she lies at the beginning
    engine_most: Newton = 0.0
    engine_gain: float = 0.0  # N s/m
    yaw_rate: RadianPerSecond = 0.0
    """Of turning at the beginning."""
    sway: MetrePerSecond = 0.0
    """Through the water at the beginning, to starboard."""
    drifting: bool = False
    """Begins with the speed that the wind drives her at."""
    words: str = ""


@dataclass(frozen=True, slots=True)
class Wind:
    """The wind of a run: gusts by their filter, where it comes from (from the heading aimed at), what chances it begins with."""

    gusts: GustFilter
    comes_from: Radian
    begins: tuple[float, float, float] = (0.0, 0.0, 0.0)
    chances: int = 1
    """State of the stream of chances; not nought."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """All that differs from run to run besides the wind; factors multiply what the boat has by itself."""

    current_x: MetrePerSecond = 0.0
    current_y: MetrePerSecond = 0.0
    drag: Ratio = 1.0
    windage: Ratio = 1.0
    lever: Metre = 0.0
    bow: Ratio = 1.0
    stern: Ratio = 1.0
    run_time: Ratio = 1.0
    charge: Ratio = 1.0
    sway: MetrePerSecond = 0.0
    """Drift through the water at the beginning, to starboard."""


@dataclass(frozen=True, slots=True)
class Boat:
    """Hull, wind loads and units of a run.

    ``charge`` is what the bank may give, ``charge_aft`` that of the second unit's own bank, None where both have one."""

    hull: HullInWater
    wind: WindHarmonics
    bow: Pusher
    stern: Pusher | None = None
    charge: Coulomb = float("inf")
    charge_aft: Coulomb | None = None


class Sample(NamedTuple):
    """One instant of a track."""

    time: Second
    motion: Motion
    bow_command: Ratio
    stern_command: Ratio
    bow_thrust: Newton
    stern_thrust: Newton
    wind: MetrePerSecond
    offset: Metre


@dataclass(slots=True)
class Outcome:
    """How a run ended."""

    success: bool
    cause: Cause
    ended: Second
    bow_on: Second = 0.0
    stern_on: Second = 0.0
    charge: Coulomb = 0.0
    worst_offset: Metre = 0.0
    worst_heading: Radian = 0.0
    end_heading: Radian = 0.0
    end_offset: Metre = 0.0
    full_share: Ratio = 0.0
    charge_aft: Coulomb = 0.0
    track: list[Sample] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Water:
    """A hull's motion through the water under given loads: accelerations, exact in the cross flow."""

    hull: HullInWater

    def accelerations(
        self, motion: tuple[float, float, float], ahead: Newton, side: Newton, yaw: float, drag: Ratio = 1.0
    ) -> tuple[float, float, float]:
        """Of surge, sway and yaw, under loads besides the water's own."""
        u, v, r = motion
        h = self.hull
        m = h.inertia
        y, n = h.flow.loads(v, r)
        surge, sway, turning, cross = m.surge, m.sway, m.turning, m.cross
        resistance = 0.5 * SURGE_DRAG * h.water_density * h.surge_area
        x = ahead - drag * resistance * u * abs(u) - h.surge_damping * u + sway * v * r + cross * r * r
        y = side + drag * y - h.sway_damping * v - surge * u * r
        n = yaw + drag * n - h.yaw_damping * r - MUNK_SHARE * (m.sway_added - m.surge_added) * u * v - cross * u * r
        whole = sway * turning - cross * cross
        return x / surge, (turning * y - cross * n) / whole, (sway * n - cross * y) / whole


@dataclass(slots=True)
class _Hand:
    """One unit with its lever in time."""

    unit: Pusher
    factor: Ratio
    keep: Ratio
    wishes: list[Ratio] = field(default_factory=list)
    wish: Ratio = 0.0
    lever: Ratio = 0.0
    thrust: Newton = 0.0
    waits: Second = 0.0
    sense: Ratio = 0.0
    """Which way it was last told to push; the pause begins when that changes while it still pushes."""
    learnt: Ratio = 0.0
    pressed: Ratio = 0.0
    """Share of lately full command, its way kept."""

    def decide(self, driver: Driver, error: Metre, rate: MetrePerSecond, step: Second, *, aft: bool, spare: bool) -> None:
        self.wish = self.unit.commanded(driver.wish(error, rate, self.wish, aft=aft, spare=spare, learnt=self.learnt))
        self.learnt = driver.learns(self.learnt, error, step, aft=aft, spare=spare)
        self.wishes.append(self.wish)

    def act(self, then: int, wrong: bool) -> None:
        lever = self.wishes[then] if then >= 0 else 0.0
        self.lever = -lever if wrong else lever

    def follow(self, state: Motion, time: Second, step: Second) -> None:
        target = self.factor * self.unit.thrust.available_thrust(state, self.lever, time)
        if target * self.sense < 0.0 and abs(self.thrust) > 1.0:
            self.waits = self.unit.reversal
        if target != 0.0:
            self.sense = 1.0 if target > 0.0 else -1.0
        if self.waits > 0.0:
            target = 0.0
            self.waits -= step
        self.thrust = target + (self.thrust - target) * self.keep

    def loads(self, surge: MetrePerSecond) -> tuple[Newton, float]:
        left = self.unit.moment_left(surge)
        return self.thrust * (1.0 - SIDE_LOSS * (1.0 - left)), self.thrust * self.unit.place * left


def simulate(
    boat: Boat,
    task: Manoeuvre,
    wind: Wind,
    driver: Driver,
    given: Conditions | None = None,
    *,
    every: int = 0,
    step: Second = STEP,
) -> Outcome:
    """One run from start to end; a track with a sample at each ``every`` steps where that is more than nought."""
    on = given or Conditions()
    water = Water(boat.hull)
    bow = _hand(boat.bow, on.bow, step)
    stern = _hand(boat.stern, on.stern, step) if boat.stern is not None else None
    hands = [bow] if stern is None else [bow, stern]
    c, n, heading = cos(task.heading), sin(task.heading), task.heading
    x, y = 0.0, task.offset
    u, v, r = task.speed, task.sway + on.sway, task.yaw_rate
    quay = (c, n)
    au = av = 0.0
    is_moored = task.line_stiffness > 0.0 or task.fender > 0.0
    settled = wind.gusts.settled
    g = (wind.begins[0] * settled[0], wind.begins[1] * settled[1], wind.begins[2] * settled[2])
    chances = wind.chances
    wind_x, wind_y = cos(wind.comes_from), sin(wind.comes_from)
    tied_x, tied_y = x + task.line_place * c, y + task.line_place * n
    delay, wrong_steps = int(driver.delay / step + 0.5), int(driver.wrong_side / step + 0.5)
    first = -1
    kept = pressed = busy = full = 0.0
    out = Outcome(task.goal != "arrive", "none", task.duration)
    for k in range(int(task.duration / step + 0.5)):
        time = k * step
        state = Motion(x, y, heading, u, v, r)
        side = u * n + v * c + on.current_y
        # ---- judged
        offset = max(abs(y + task.bow_end * n), abs(y + task.stern_end * n)) if task.steers_ends else 0.0
        turned = abs(heading)
        out.end_heading, out.end_offset = heading, offset
        inside = time >= task.grace and x >= task.outside
        if inside:
            out.worst_offset, out.worst_heading = max(out.worst_offset, offset), max(out.worst_heading, turned)
        kept = kept + step if _is_good(task, turned, r, offset, side, c) else 0.0
        if task.goal == "arrive" and kept >= HOLD:
            out.success, out.ended = True, time
            break
        cause = _failure(
            boat, task, on, out, inside and (turned > task.limit_heading or offset > task.limit_offset), pressed, busy
        )
        if cause != "none":
            out.success, out.cause, out.ended = False, cause, time
            break
        if task.goal == "travel" and x >= task.way:
            out.ended = time
            break
        # ---- the driver decides, the levers follow
        for hand in hands:
            place = hand.unit.place
            if task.steers_ends:
                place *= WATCHED
                hand.decide(driver, y + place * n, side + place * r * c, step, aft=hand is stern, spare=False)
            else:
                hand.decide(driver, place * heading, place * r, step, aft=hand is stern, spare=hand is stern)
        then = k - delay
        if first < 0 and then >= 0 and bow.wishes[then] != 0.0:
            first = k
        bow.act(then, first >= 0 and k - first < wrong_steps)
        if stern is not None:
            stern.act(then, wrong=False)
        for hand in hands:
            hand.follow(state, time, step)
        out.bow_on += step * abs(bow.lever)
        out.stern_on += step * abs(stern.lever) if stern is not None else 0.0
        taken = [step * hand.unit.current * abs(hand.lever) * sqrt(abs(hand.lever)) for hand in hands]
        out.charge += taken[0] if boat.charge_aft is not None else sum(taken)
        out.charge_aft += sum(taken[1:])
        at_full = float(max(abs(hand.lever) for hand in hands) > FULL_LEVER)
        full += step * at_full
        busy += (at_full - busy) * (step / PRESSED_TIME)
        for hand in hands:
            way = hand.lever if abs(hand.lever) > FULL_LEVER else 0.0
            hand.pressed += (way - hand.pressed) * (step / PRESSED_TIME)
        pressed = max(abs(hand.pressed) for hand in hands)
        # ---- gust and wind
        chances = shifted(chances)
        g = wind.gusts.step(g, three_deviates(chances))
        blow = max(0.0, wind.gusts.mean + g[0] + g[1] + g[2])
        # wind and thrust act as in the middle of the step, where the last step's accelerations lead
        half = 0.5 * step
        ue, ve = u + half * au, v + half * av
        turn = half * r
        cm, nm = c - turn * n - 0.5 * turn * turn * c, n + turn * c - 0.5 * turn * turn * n
        over_x, over_y = blow * wind_x + on.current_x, blow * wind_y + on.current_y
        ahead, push, yaw = boat.wind.loads_of(over_x * cm + over_y * nm + ue, over_y * cm - over_x * nm + ve)
        ahead, push, yaw = on.windage * ahead, on.windage * push, on.windage * (yaw + on.lever * push)
        for hand in hands:
            force, moment = hand.loads(ue)
            push, yaw = push + force, yaw + moment
        if task.engine_most > 0.0:
            ahead += min(task.engine_most, max(-task.engine_most, task.engine_gain * (task.speed - ue)))
        if every > 0 and k % every == 0:
            out.track.append(
                Sample(
                    time,
                    state,
                    bow.lever,
                    stern.lever if stern else 0.0,
                    bow.thrust,
                    stern.thrust if stern else 0.0,
                    blow,
                    offset,
                )
            )
        # ---- Heun
        held = (ahead, push, yaw)
        first_loads = _moored(task, held, (x, y, c, n), (u, v, r), on, (tied_x, tied_y), quay) if is_moored else held
        du, dv, dr = water.accelerations((u, v, r), *first_loads, on.drag)
        u1, v1, r1 = u + step * du, v + step * dv, r + step * dr
        if is_moored:
            c1, n1 = cos(heading + step * r), sin(heading + step * r)
            x1, y1 = x + step * (u * c - v * n + on.current_x), y + step * (u * n + v * c + on.current_y)
            held = _moored(task, held, (x1, y1, c1, n1), (u1, v1, r1), on, (tied_x, tied_y), quay)
        eu, ev, er = water.accelerations((u1, v1, r1), *held, on.drag)
        au, av, ar = 0.5 * (du + eu), 0.5 * (dv + ev), 0.5 * (dr + er)
        un, vn, rn = u + step * au, v + step * av, r + step * ar
        turn = 0.5 * step * (r + rn)
        cm, nm = cos(heading + 0.5 * turn), sin(heading + 0.5 * turn)
        um, vm = 0.5 * (u + un), 0.5 * (v + vn)
        x += step * (um * cm - vm * nm + on.current_x)
        y += step * (um * nm + vm * cm + on.current_y)
        heading += turn
        c, n = cos(heading), sin(heading)
        u, v, r = un, vn, rn
    else:
        _at_the_end(task, out, pressed, busy)
    out.full_share = full / max(out.ended, step)
    return out


def _hand(unit: Pusher, factor: Ratio, step: Second) -> _Hand:
    return _Hand(unit, factor, exp(-step / unit.lag) if unit.lag > 0.0 else 0.0)


def _is_good(task: Manoeuvre, turned: Radian, rate: RadianPerSecond, offset: Metre, side: MetrePerSecond, cosine: Ratio) -> bool:
    ends = (task.bow_end, task.stern_end) if task.steers_ends else ()
    return (
        turned <= task.goal_heading
        and abs(rate) <= task.goal_rate
        and offset <= task.goal_offset
        and all(abs(side + end * rate * cosine) <= task.goal_speed for end in ends)
    )


def _laid_to(pressed: Ratio, busy: Ratio) -> Cause:
    """Why room or time ran out: hard over one way, hard over one way and the other, or neither."""
    return "thrust" if pressed > PRESSED else "control" if busy > PRESSED else "room"


def _failure(boat: Boat, task: Manoeuvre, on: Conditions, out: Outcome, lost: bool, pressed: Ratio, busy: Ratio) -> Cause:
    hot_aft = boat.stern is not None and out.stern_on > boat.stern.run_time * on.run_time
    if hot_aft or out.bow_on > boat.bow.run_time * on.run_time:
        return "heat"
    if out.charge > boat.charge * on.charge or (boat.charge_aft is not None and out.charge_aft > boat.charge_aft * on.charge):
        return "volts"
    if lost:
        return _laid_to(pressed, busy)
    return "none"


def _at_the_end(task: Manoeuvre, out: Outcome, pressed: Ratio, busy: Ratio) -> None:
    """A run that came to its last second: kept within the limits it has succeeded, not arrived it has failed."""
    if task.goal == "arrive":
        out.cause = _laid_to(pressed, busy)
    elif task.goal == "travel":
        out.success, out.cause = False, "room"


def _moored(
    task: Manoeuvre,
    held: tuple[Newton, Newton, float],
    at: Sequence[float],
    speeds: Sequence[float],
    on: Conditions,
    tied: tuple[Metre, Metre],
    quay: tuple[Ratio, Ratio],
) -> tuple[Newton, Newton, float]:
    """Loads with those of lines and fenders where the boat is."""
    ahead, push, yaw = held
    if task.line_stiffness > 0.0:
        a, s = _line(task, at, speeds, on, tied)
        ahead, push, yaw = ahead + a, push + s, yaw + task.line_place * s
    if task.fender > 0.0:
        a, s, m = _fender(task, quay, at, speeds, on)
        ahead, push, yaw = ahead + a, push + s, yaw + m
    return ahead, push, yaw


def _line(
    task: Manoeuvre, at: Sequence[float], speeds: Sequence[float], on: Conditions, tied: tuple[Metre, Metre]
) -> tuple[Newton, Newton]:
    """Force ahead and to starboard of lines that hold one place of the boat where it was: springs and dampers."""
    x, y, c, n = at
    u, v, r = speeds
    a = task.line_place
    fx = -task.line_stiffness * (x + a * c - tied[0]) - task.line_damping * (u * c - v * n + on.current_x - a * r * n)
    fy = -task.line_stiffness * (y + a * n - tied[1]) - task.line_damping * (u * n + v * c + on.current_y + a * r * c)
    return fx * c + fy * n, fy * c - fx * n


def _fender(
    task: Manoeuvre, quay: tuple[Ratio, Ratio], at: Sequence[float], speeds: Sequence[float], on: Conditions
) -> tuple[Newton, Newton, float]:
    """Loads on both ends of the quay she lay along: it pushes and never pulls."""
    x, y, c, n = at
    u, v, r = speeds
    c0, n0 = quay
    along, across = c0 * n - n0 * c, n0 * n + c0 * c  # the quay's normal, ahead and to starboard
    middle = c0 * (y - task.offset) - n0 * x
    speed = c0 * (u * n + v * c + on.current_y) - n0 * (u * c - v * n + on.current_x)
    total = moment = 0.0
    for end in (task.bow_end, task.stern_end):
        pressed = middle + end * along
        rate = speed + end * r * across
        force = min(0.0, -task.fender * (pressed + FENDER_DAMPING * rate)) if pressed > 0.0 else 0.0
        total += force
        moment += force * end
    return total * along, total * across, moment * across
