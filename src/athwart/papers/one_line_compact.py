"""The one-line diagram of a small system on one sheet, all conductors drawn through.

Between the ship's column and the lanes stand upright channels, one a conductor; below the lanes level ones for the control
line's feed and the units' drops. No two conductors share a stretch of either.
"""

from __future__ import annotations

from athwart.design.netlist import Conductor
from athwart.design.proposal import Proposal
from athwart.papers.one_line_base import Board, two_lines, wide, wire
from athwart.papers.one_line_control import ControlDrawn, draw_control
from athwart.papers.one_line_plan import FOOT, LEFT, RIGHT, TOP, Plan, draw_rows, notes_of, row_width, set_height, title
from athwart.papers.one_line_ship import FUSE_DOWN, NEGATIVE, draw_negative_bar, draw_ship
from athwart.papers.scene import Point
from athwart.papers.sheet import place_columns
from athwart.papers.symbols import STEP, UNIT_HALF, label

CHANNEL = 2.8
MOST_ROWS = 2


def draw_compact(proposal: Proposal, plan: Plan, places: dict[tuple[str, str], str]) -> Board | None:
    """The one sheet; None where the system does not fit on it."""
    return _Compact(proposal, plan, places).draw()


class _Compact:
    """Places of everything on the one sheet."""

    def __init__(self, proposal: Proposal, plan: Plan, places: dict[tuple[str, str], str]) -> None:
        self.proposal, self.plan, self.places = proposal, plan, places
        self.circuit = plan.circuit
        self.inputs = [entry for row in plan.rows if row.bank for entry in self._of_charger(row.bank.charger, "in+")]
        self.minus = [entry for row in plan.rows if row.bank for entry in self._of_charger(row.bank.charger, "in-")]
        self.links = [entry for row in plan.rows if row.bank for entry in row.bank.links]
        self.feed_plus, self.feed_minus = self._feed("+"), self._feed("-")
        self.drops = [row.lane.drop for row in plan.rows if row.lane.drop is not None]

    def _of_charger(self, charger: object, stud: str) -> list[Conductor]:
        from athwart.design.netlist import Component

        return self.circuit.at(charger.tag, stud) if isinstance(charger, Component) else []

    def _feed(self, stud: str) -> Conductor | None:
        """The feed of the control line where it comes from the ship."""
        feeds = [entry for entry in self.circuit.netlist.components if entry.kind == "feed"]
        for feed in feeds:
            for conductor in self.circuit.at(feed.tag, stud):
                if conductor.lane == 0:
                    return conductor
        return None

    def _fits_in_words(self) -> bool:
        plan = self.plan
        if len(plan.rows) > MOST_ROWS or plan.banks or not plan.ship.groups:
            return False
        last = plan.ship.groups[-1]
        if any(group.fuses or group.direct for group in plan.ship.groups[:-1]) or last.direct:
            return False
        return all(entry.lane == 0 for entry in [*self.inputs, *self.minus])

    def draw(self) -> Board | None:
        """Reckon the places, draw if they suffice."""
        if not self._fits_in_words():
            return None
        plan, circuit = self.plan, self.circuit
        ship_right = LEFT + max(plan.ship.width(), 40.0)
        negatives = [*self.minus, *self.links]
        feed = self.feed_plus is not None
        channels = len(self.inputs) + len(negatives) + 2 * feed
        lanes_left = ship_right + CHANNEL * (channels + 1)
        unit_x = RIGHT - UNIT_HALF - 3.0 - 4.0 * len(self.drops)
        if lanes_left + max(row_width(circuit, row) for row in plan.rows) > unit_x + UNIT_HALF:
            return None
        for row in plan.rows:
            set_height(circuit, row, lanes_left, unit_x)
        level = TOP + 11.0 + plan.ship.height
        below = 0.0 if plan.control is None else 18.0 + (16.0 if feed else 20.0) + 8.0 * len(self.drops)
        spare = FOOT - 26.0 - below - max(TOP + sum(row.tall for row in plan.rows), level + 62.0)
        if spare < 0 or (plan.control is not None and plan.control.rows(RIGHT - LEFT - 8.0) > 1):
            return None
        for row in plan.rows:
            row.height += min(14.0, spare / 3 / len(plan.rows))
        spare = FOOT - 26.0 - below - max(TOP + sum(row.tall for row in plan.rows), level + 62.0)
        lanes_top = TOP + min(26.0, spare / 2)
        bar = max(lanes_top + sum(row.tall for row in plan.rows), level + 62.0) + min(10.0, spare / 4)
        trunk = bar + below
        if plan.control is not None:
            plan.control.spread(RIGHT - LEFT - 8.0)
        self.board = Board(1, elsewhere=self.places)
        self._draw_ship_and_lanes(ship_right, lanes_left, unit_x, level, lanes_top, bar, trunk, negatives)
        lines = notes_of(self.proposal, circuit)
        foot = trunk + 28.0 if plan.control is not None else bar + 14.0
        tall = 2.9 * (-(-len(lines) // 2) + 1)
        if foot + tall > 286.0:
            return None
        place_columns(self.board.pen, (LEFT, 286.0 - tall), tuple(lines), "READING A LABEL", 82.0)
        return self.board

    def _draw_ship_and_lanes(
        self,
        ship_right: float,
        lanes_left: float,
        unit_x: float,
        level: float,
        lanes_top: float,
        bar: float,
        trunk: float,
        negatives: list[Conductor],
    ) -> None:
        board, plan, circuit = self.board, self.plan, self.circuit
        through = [*self.inputs, *negatives, *(entry for entry in (self.feed_plus, self.feed_minus) if entry is not None)]
        wired = {entry.tag for entry in through}
        board.pen.text((LEFT, TOP + 2.0), "SHIP", 2.8, bold=True)
        loads = draw_ship(board, circuit, plan.ship, LEFT, level, bar, wired)
        studs = draw_rows(board, circuit, plan.rows, lanes_left, unit_x, lanes_top, wired)
        rows_at = {port.stud: port.at for port in board.pen.ports}
        channel = ship_right
        for index, conductor in enumerate(self.inputs):
            channel += CHANNEL
            self._input(conductor, loads[conductor.tag], channel, rows_at, level, len(self.inputs) - index)
        for conductor in negatives:
            channel += CHANNEL
            self._negative(conductor, channel, rows_at, bar)
        bar_right = channel + CHANNEL + 1.0 if self.feed_minus is not None else channel + 1.0
        draw_negative_bar(board, circuit, plan.ship, LEFT, bar_right, bar, wired)
        if plan.control is None:
            return
        title(board.pen, LEFT, trunk - 4.0, "CONTROL LINE")
        drawn = draw_control(
            board,
            circuit,
            plan.control,
            LEFT + 4.0,
            RIGHT - 4.0,
            trunk,
            wired | {entry.tag for entry in self.drops},
            0.0 if self.feed_plus else 8.0 * len(self.drops),
        )
        self._draw_feed(loads, drawn, channel + CHANNEL, bar, level)
        self._draw_drops(studs, drawn, trunk, unit_x)

    def _input(self, conductor: Conductor, fuse: Point, channel: float, ports: dict[str, Point], level: float, turn: int) -> None:
        """From a fuse of the ship's block to a charger: down, over, along its channel, in."""
        end = ports[f"{conductor.end.component}:{conductor.end.terminal}"]
        over = self._over(level) + 2.5 * turn
        wire(self.board.pen, conductor, fuse, (fuse[0], over), (channel, over), (channel, end[1]), end)

    def _over(self, level: float) -> float:
        """Level lines below the ship's fuses run clear of what hangs there in flags."""
        flagged = [fuse for fuse in self.plan.ship.groups[-1].fuses if not self._is_through(fuse.tag)]
        return level + FUSE_DOWN + (9.0 if flagged else -3.0)

    def _is_through(self, fuse: str) -> bool:
        tags = {entry.tag for entry in [*self.inputs, self.feed_plus] if entry is not None}
        return any(entry.tag in tags for entry in self.circuit.at(fuse, "2"))

    def _negative(self, conductor: Conductor, channel: float, ports: dict[str, Point], bar: float) -> None:
        """From a charger or a bank's minus down its channel to the negative bar."""
        near = conductor.start if conductor.end.component == NEGATIVE else conductor.end
        if conductor in self.links:
            row = next(row for row in self.plan.rows if row.bank is not None and conductor in row.bank.links)
            start = self._rail_left(row.lane.lane)
        else:
            start = ports[f"{near.component}:{near.terminal}"]
        wire(self.board.pen, conductor, start, (channel, start[1]), (channel, bar))

    def _rail_left(self, lane: int) -> Point:
        """Left end of the minus rail of a lane's bank."""
        row = next(row for row in self.plan.rows if row.lane.lane == lane)
        assert row.bank is not None
        if row.bank.minus_bar is not None:
            port = next(port for port in self.board.pen.ports if port.stud == f"{row.bank.minus_bar}:1")
            return port.at
        return self.board.rails[lane]

    def _draw_feed(self, loads: dict[str, Point], drawn: ControlDrawn, channel: float, bar: float, level: float) -> None:
        """Plus from its fuse, minus from the bar, along the foot to the feed of the control line."""
        if self.feed_plus is None or self.feed_minus is None or drawn.feed_plus is None or drawn.feed_minus is None:
            return
        pen, first, second = self.board.pen, bar + 9.0, bar + 17.0
        fuse = loads[self.feed_plus.tag]
        out, over = channel + CHANNEL, self._over(level)
        plus, minus = drawn.feed_plus, drawn.feed_minus
        wire(pen, self.feed_plus, fuse, (fuse[0], over), (out, over), (out, first), (plus[0], first), plus)
        wire(pen, self.feed_minus, (channel, bar), (channel, second), (minus[0], second), minus)
        words = wide(two_lines(self.feed_plus)) + 4.0
        for conductor, y, end in ((self.feed_plus, first, plus[0]), (self.feed_minus, second, minus[0])):
            if minus[0] + words <= channel:
                x = minus[0] + 2.5
            else:
                x = out + 2.0 if plus[0] - out >= words else max(out, end) + 3.0
            label(pen, (x, y - 1.3 - STEP), two_lines(conductor), conductor.tag)

    def _draw_drops(self, studs: list[Point], drawn: ControlDrawn, trunk: float, unit_x: float) -> None:
        """From each unit down its channel at the right, along the foot to its tee."""
        pen = self.board.pen
        tees = [(drawn.tees[tee.tag], tee) for tee in self.plan.control.tees] if self.plan.control else []
        rows = [row for row in self.plan.rows if row.lane.drop is not None]
        studs = [stud for row, stud in zip(self.plan.rows, studs, strict=True) if row.lane.drop is not None]
        for index, (row, stud) in enumerate(zip(rows, studs, strict=True)):
            conductor = row.lane.drop
            assert conductor is not None
            at, tee = next((place, tee) for place, tee in tees if tee.tag in (conductor.start.component, conductor.end.component))
            out = unit_x + UNIT_HALF + 4.0 * (len(rows) - index)
            over = trunk - 8.0 - 8.0 * index
            foot = (at[0], at[1] - 3.2) if tee.kind == "feed" else at
            wire(pen, conductor, foot, (at[0], over), (out, over), (out, stud[1]), stud)
            label(pen, (unit_x + UNIT_HALF - 2.0, over - 1.3 - STEP), two_lines(conductor), conductor.tag, anchor="end")
