"""Pictures of a rehearsal: one run's track with the hull drawn on it, heading, thrust and wind over time, successes by direction.

The run drawn is a typical one, said by its number; the grey bands are of the runs whose tracks were kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, degrees, hypot, pi, sin

from athwart.design.robustness.cases import Polar
from athwart.design.robustness.rehearsal import KEPT, Rehearsal, TrackBand
from athwart.papers.charts import TINY, Chart, spread
from athwart.papers.figures import number
from athwart.plant.motion import Sample
from athwart.units import KNOT

Point = tuple[float, float]
NICE = (
    0.5,
    1.0,
    2.0,
    5.0,
    10.0,
    20.0,
    30.0,
    45.0,
    60.0,
    90.0,
    100.0,
    200.0,
    250.0,
    500.0,
    1000.0,
    2000.0,
    2500.0,
    5000.0,
    10_000.0,
)
OUTLINE = ((0.5, 0.0), (0.36, 0.36), (0.12, 0.5), (-0.46, 0.46), (-0.5, 0.38))
"""Half a plan of a hull: share of the length forward, share of the beam to one side (drawn, not measured)."""
LEAST_IN_SECTOR = 8
"""Runs that a sector needs to be drawn."""
STYLES = ("full", "dashed", "dash-dot", "dotted")


def _step(span: float, most: int = 6) -> float:
    return next((step for step in NICE if span / step <= most), span / most)


# ---- the track


def track(
    r: Rehearsal, length: float, beam: float, width: float = 120.0, height: float = 100.0, *, spacing: float | None = None
) -> Chart:
    """One run from above, up the page along the heading aimed at, with the hull at intervals and the wind's direction.

    ``spacing`` between the middles of a catamaran's hulls.
    """
    chart = Chart(width, height)
    samples = r.typical.track
    xs = [s.motion.x for s in samples]
    ys = [s.motion.y for s in samples]
    reach = 0.62 * length
    low_x, high_x, low_y, high_y = min(xs) - reach, max(xs) + reach, min(ys) - reach, max(ys) + reach
    top, bottom, left, right = 11.0, height - 6.0, 4.0, width - 26.0
    scale = min((bottom - top) / (high_x - low_x), (right - left) / (high_y - low_y))
    middle = 0.5 * (left + right), 0.5 * (top + bottom)
    centre = 0.5 * (low_y + high_y), 0.5 * (low_x + high_x)

    def at(x: float, y: float) -> Point:
        return middle[0] + scale * (y - centre[0]), middle[1] - scale * (x - centre[1])

    end = "succeeds" if r.typical.success else f"fails: {r.typical.cause}"
    chart.text(
        (0.0, 3.2), f"{r.exercise.name}, run {r.typical_run} of {r.runs}, seed {r.seed}: {end} after {r.typical.ended:.0f} s"
    )
    for sample in _some(samples, 7):
        for outline in _hulls(sample, length, beam, spacing, at):
            chart.line(outline, "full", 0.22)
    for sample in (samples[0], samples[-1]):
        for outline in _hulls(sample, length, beam, spacing, at):
            chart.line(outline, "full", 0.55)
    chart.line([at(s.motion.x, s.motion.y) for s in samples], "dashed", 0.3)
    first, last = at(xs[0], ys[0]), at(xs[-1], ys[-1])
    chart.dot(first, 0.7)
    if hypot(first[0] - last[0], first[1] - last[1]) > 3.0:
        chart.circle(last, 0.9, weight=0.3)
    mean = sum(s.wind for s in samples) / len(samples) / KNOT
    _wind(chart, (width - 13.0, 22.0), r.typical_wind, f"wind {number(mean, 0)} kn, mean")
    bar = _step(width / scale, 8)
    chart.line([(width - 24.0, height - 9.0), (width - 24.0 + bar * scale, height - 9.0)], "full", 0.5)
    chart.text((width - 24.0, height - 10.2), f"{number(bar, 1 if bar < 1 else 0)} m", TINY)
    chart.text((0.0, height - 1.2), "dot: start; thick: first and last; hull every few seconds", TINY)
    return chart


def _some(samples: Sequence[Sample], count: int) -> list[Sample]:
    step = max(1, len(samples) // count)
    return list(samples[::step])


def _hulls(sample: Sample, length: float, beam: float, spacing: float | None, at: object) -> list[list[Point]]:
    """Outline of the hull, or of both hulls of a catamaran."""
    assert callable(at)
    m = sample.motion
    one, sides = (beam, (0.0,)) if spacing is None else (beam - spacing, (-0.5 * spacing, 0.5 * spacing))
    half = [(a * length, b * one) for a, b in OUTLINE]
    outline = [*half, *[(a, -b) for a, b in reversed(half)]]
    c, n = cos(m.heading), sin(m.heading)
    found = []
    for side in sides:
        points = [at(m.x + a * c - (b + side) * n, m.y + a * n + (b + side) * c) for a, b in outline]
        found.append([*points, points[0]])
    return found


def _wind(chart: Chart, centre: Point, comes_from: float, words: str) -> None:
    """An arrow that flies with the wind."""
    length = 8.0
    dx, dy = -sin(comes_from), cos(comes_from)
    tip = centre[0] + dx * length, centre[1] + dy * length
    tail = centre[0] - dx * length, centre[1] - dy * length
    chart.line([tail, tip], "full", 0.45)
    for side in (0.45, -0.45):
        a = comes_from + side
        chart.line([tip, (tip[0] + 3.2 * sin(a), tip[1] - 3.2 * cos(a))], "full", 0.45)
    chart.text((centre[0], 8.6), words, TINY, "middle")


# ---- over time


def over_time(r: Rehearsal, width: float = 162.0, height: float = 116.0) -> Chart:
    """Heading off the one aimed at with the band of the runs kept, thrust of the units and wind, over seconds."""
    chart = Chart(width, height)
    samples = r.typical.track
    duration = max(r.exercise.manoeuvres[0].duration, 1.0)
    left, right = 14.0, width - 4.0
    bands = dict(r.tracks)
    panels = [
        ("degrees off the heading aimed at", [degrees(s.motion.heading) for s in samples], bands.get("heading"), degrees(1.0)),
        ("bow thrust, N (to starboard above)", [s.bow_thrust for s in samples], None, 1.0),
    ]
    if r.exercise.manoeuvres[0].steers_ends:
        sideways = [s.motion.y for s in samples]
        panels.insert(1, ("metres to starboard of the line, amidships", sideways, bands.get("sideways"), 1.0))
    if any(s.stern_thrust for s in samples):
        panels.append(("stern thrust, N", [s.stern_thrust for s in samples], None, 1.0))
    panels.append(("wind at the silhouette, knots", [s.wind / KNOT for s in samples], None, 1.0))
    gap = 7.5
    each = (height - 10.0 - gap * len(panels)) / len(panels)
    chart.text(
        (0.0, 3.2),
        f"run {r.typical_run} (line); grey: 5 to 95 of 100 of the first {min(KEPT, r.runs)} runs, where they are still under way",
    )
    for place, (words, values, band, factor) in enumerate(panels):
        top = 5.5 + gap * 0.75 + place * (each + gap)
        _panel(chart, (left, right, top, top + each), words, [s.time for s in samples], values, band, factor, duration)
    bottom = height - 1.0
    step = _step(duration, 9)
    for k in range(int(duration / step + 1e-9) + 1):
        x = left + (right - left) * k * step / duration
        chart.text((x, bottom), number(k * step), TINY, "middle")
    chart.text((0.0, bottom), "seconds", TINY)
    return chart


def _panel(
    chart: Chart,
    frame: tuple[float, float, float, float],
    words: str,
    times: Sequence[float],
    values: Sequence[float],
    band: TrackBand | None,
    factor: float,
    duration: float,
) -> None:
    left, right, top, bottom = frame
    low, high = min([*values, 0.0]), max([*values, 0.0])
    if band is not None and band.bands:
        low, high = min(low, *(v * factor for v in band.bands[0])), max(high, *(v * factor for v in band.bands[-1]))
    step = _step(max(high - low, 1e-6), 4)
    low, high = step * int(low / step - 0.999), step * int(high / step + 0.999)

    def at(time: float, value: float) -> Point:
        return left + (right - left) * time / duration, bottom - (bottom - top) * (value - low) / max(high - low, 1e-9)

    chart.text((left, top - 1.2), words, TINY)
    if band is not None and len(band.times) > 1:
        upper = [at(t, v * factor) for t, v in zip(band.times, band.bands[-1], strict=True)]
        lower = [at(t, v * factor) for t, v in zip(band.times, band.bands[0], strict=True)]
        chart.area([*upper, *reversed(lower)])
    for k in range(round((high - low) / step) + 1):
        value = low + k * step
        chart.line([at(0.0, value), at(duration, value)], "full" if abs(value) < 1e-9 else "dotted", 0.2)
        chart.text((left - 1.2, at(0.0, value)[1] + 0.8), number(value, 0 if step >= 1.0 else 1), TINY, "end")
    if len(times) > 1:
        chart.line([at(t, v) for t, v in zip(times, values, strict=True)], "full", 0.4)


# ---- by direction


def success_polar(r: Rehearsal, side: float = 74.0) -> Chart:
    """Share of successes by where the wind came from at the start, off the bow; grey: the interval of each sector."""
    chart = Chart(side + 10.0, side + 12.0)
    centre, radius = (side / 2 + 5.0, side / 2 + 9.0), side / 2 - 6.0

    def at(angle: float, share: float) -> Point:
        return centre[0] + radius * share * sin(angle), centre[1] - radius * share * cos(angle)

    chart.text((0.0, 3.2), f"{r.exercise.name}: {r.success.counted} runs ({r.success.between})")
    half = pi / 24.0
    sectors = [(angle, share) for angle, share in r.by_heading if share.of >= LEAST_IN_SECTOR]
    for angle, share in sectors:
        inside, outside = share.interval
        chart.area([*_arc(at, angle, half, outside), *reversed(_arc(at, angle, half, inside))])
    for ring in (0.25, 0.5, 0.75, 1.0):
        chart.circle(centre, radius * ring, "full" if ring == 1.0 else "dotted", 0.2)
    for angle, share in sectors:
        chart.line(_arc(at, angle, half, share.value), "full", 0.6)
    for around in range(0, 360, 30):
        angle = around * pi / 180.0
        x, y = centre[0] + (radius + 3.2) * sin(angle), centre[1] - (radius + 3.2) * cos(angle)
        shown = around if around <= 180 else 360 - around
        chart.text((x, y + 0.8), "0° bow" if around == 0 else f"{shown}°", TINY, "middle")
    for ring in (0.5, 1.0):
        chart.text(
            (at(195.0 * pi / 180.0, ring)[0], at(195.0 * pi / 180.0, ring)[1] + 0.8), f"{ring:.0%}", TINY, "middle", ground=True
        )
    return chart


def _arc(at: object, angle: float, half: float, share: float) -> list[Point]:
    assert callable(at)
    return [at(angle - half + half * k / 3.0, share) for k in range(7)]


# ---- wind held, several curves


def held_polar(polar: Polar, asked: float, side: float = 84.0) -> Chart:
    """Largest wind held (knots, as asked) over its angle off the bow, one line a curve; dashed ring: the wind asked."""
    rows = len(polar.curves)
    chart = Chart(side + 74.0, side + 10.0)
    centre, radius = (side / 2 + 4.0, side / 2 + 7.0), side / 2 - 6.0
    top = max([asked, *(min(speed, 2.2 * asked) for curve in polar.curves for _, speed in curve.points)]) / KNOT
    ring = 10.0 if top >= 30.0 else 5.0
    most = ring * (int(top / ring) + 1)

    def at(angle: float, speed: float) -> Point:
        share = min(speed / KNOT, most) / most
        return centre[0] + radius * share * sin(angle), centre[1] - radius * share * cos(angle)

    chart.text((0.0, 3.2), f"Case {polar.case}, {polar.name}: largest wind held, knots as asked")
    for k in range(1, round(most / ring) + 1):
        chart.circle(centre, radius * k * ring / most, "full" if k * ring >= most else "dotted", 0.2)
    for around in range(0, 360, 30):
        angle = around * pi / 180.0
        x, y = centre[0] + (radius + 3.2) * sin(angle), centre[1] - (radius + 3.2) * cos(angle)
        shown = around if around <= 180 else 360 - around
        chart.text((x, y + 0.8), "0° bow" if around == 0 else f"{shown}°", TINY, "middle")
    for k in range(1, round(most / ring) + 1):
        x, y = at(195.0 * pi / 180.0, k * ring * KNOT)
        chart.text((x, y + 0.8), number(k * ring), TINY, "middle", ground=True)
    chart.circle(centre, radius * min(asked / KNOT, most) / most, "dashed", 0.25)
    places = spread([18.0 + 9.0 * k for k in range(rows)], 9.0, 12.0, side)
    for curve, style, weight, y in zip(polar.curves, STYLES, (0.6, 0.45, 0.45, 0.7), places, strict=False):
        chart.line([at(angle, speed) for angle, speed in [*curve.points, curve.points[0]]], style, weight)
        x = side + 10.0
        chart.line([(x, y), (x + 8.0, y)], style, weight)
        chart.text((x + 9.5, y + 0.8), curve.name, TINY)
        angle, speed = curve.least
        chart.text((x + 9.5, y + 4.0), f"least {number(speed / KNOT, 1)} kn at {abs(degrees(angle)):.0f}°", TINY)
    y = places[-1] + 11.0
    chart.line([(side + 10.0, y), (side + 18.0, y)], "dashed", 0.25)
    chart.text((side + 19.5, y + 0.8), f"asked {number(asked / KNOT, 1)} kn", TINY)
    return chart
