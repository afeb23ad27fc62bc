"""What the one-line diagram has to show, sorted into ship, lanes with or without their bank, banks apart, control line."""

from __future__ import annotations

from dataclasses import dataclass, field

from athwart.design.netlist import Conductor
from athwart.design.proposal import Proposal
from athwart.papers.one_line_bank import BankPlan, bank_width, draw_bank, plan_bank
from athwart.papers.one_line_base import Board, Circuit, flag, room
from athwart.papers.one_line_control import ControlPlan, plan_control
from athwart.papers.one_line_lane import (
    LEAST_GAP,
    LanePlan,
    draw_lane,
    lane_width,
    loop_pieces,
    plan_lane,
    set_rows,
)
from athwart.papers.one_line_ship import ShipPlan, plan_ship
from athwart.papers.scene import Pen, Point, width_of
from athwart.papers.sheet import FRAME, notices
from athwart.papers.symbols import UNIT_HALF

LEFT, RIGHT = FRAME.left + 6.0, FRAME.right - 6.0
TOP, FOOT = FRAME.top + 6.0, 252.0
OVER, UNDER = 14.0, 8.0
"""Room over the plus rail of a lane and under its minus rail."""
FLAG, DROP_FLAG = 17.0, 22.0
INLINE_STRINGS, INLINE_SERIES, INLINE_COLUMNS = 2, 4, 2


@dataclass(slots=True)
class Row:
    """A lane with its bank, if the bank is drawn in it."""

    lane: LanePlan
    bank: BankPlan | None
    title: str
    bank_title: str = ""
    follower: Row | None = None  # the next lane, on the bank drawn in this one
    follows: bool = False
    height: float = 56.0

    @property
    def tall(self) -> float:
        """With the room above and below."""
        return OVER + self.height + UNDER


@dataclass(slots=True)
class Plan:
    """All of it."""

    circuit: Circuit
    ship: ShipPlan
    control: ControlPlan | None
    rows: list[Row]
    banks: list[BankPlan] = field(default_factory=list)  # on sheets of their own
    titles: dict[int, str] = field(default_factory=dict)  # of those, by lane


def plan_of(proposal: Proposal) -> Plan:
    """Sort the netlist of a proposal."""
    circuit = Circuit(proposal.netlist)
    plan = Plan(circuit, plan_ship(circuit), plan_control(circuit), [])
    for lane in proposal.lanes:
        row = Row(plan_lane(circuit, lane.lane), plan_bank(circuit, lane.lane), f"{lane.thruster.identity.upper()} LANE")
        plan.rows.append(row)
    for row, lane in zip(plan.rows, proposal.lanes, strict=True):
        sharers = [other.lane for other in proposal.lanes if lane.bank is not None and other.bank == lane.bank]
        owner = plan.rows[sharers[0] - 1].bank if sharers else None
        row.title += _volts(owner)
        if row.bank is not None:
            plan.titles[row.lane.lane] = f"{'SHARED ' if len(sharers) > 1 else ''}BANK{_volts(row.bank)}"
            row.bank_title = plan.titles[row.lane.lane] if len(sharers) > 1 else ""
            if len(sharers) == 2 and sharers[1] == row.lane.lane + 1:
                row.follower = plan.rows[sharers[1] - 1]
                row.follower.follows = True
            if len(sharers) > 2 or (len(sharers) == 2 and row.follower is None) or not _fits_inline(circuit, row):
                put_apart(plan, row)
    return plan


def put_apart(plan: Plan, row: Row) -> None:
    """The bank of a row on a sheet of its own."""
    if row.bank is None:
        return
    plan.banks.append(row.bank)
    row.bank, row.bank_title = None, ""
    if row.follower is not None:
        row.follower.follows = False
        row.follower = None


def _volts(bank: BankPlan | None) -> str:
    if bank is None:
        return ""
    volts = sum(float(block.facts.get("volts", 0.0)) for block in bank.strings[0])
    return f"  {volts:g} V"


def _fits_inline(circuit: Circuit, row: Row) -> bool:
    bank = row.bank
    if bank is None:
        return False
    if len(bank.strings) > INLINE_STRINGS or bank.series > INLINE_SERIES or len(bank.columns) > INLINE_COLUMNS:
        return False
    return FLAG + row_width(circuit, row) + DROP_FLAG <= RIGHT - LEFT


def row_width(circuit: Circuit, row: Row) -> float:
    """Level room of a row from the left end of its charger to the right side of its unit."""
    bank = 0.0
    if row.bank is not None:
        bank = bank_width(circuit, row.bank, slots=sum(slot_counts(circuit, row)), flags=flag_count(circuit, row))
    return bank + lane_width(row.lane) + UNIT_HALF


def row_tags(circuit: Circuit, row: Row | None) -> set[str]:
    """Conductors on the bank's rails that a lane draws itself."""
    if row is None:
        return set()
    lane = row.lane
    tags = {piece.tag for piece in [*lane.pieces, *loop_pieces(circuit, lane)]}
    if lane.back is not None:
        tags.add(lane.back.tag)
    if lane.control_fuse is not None:
        tags |= {entry.tag for entry in circuit.at(lane.control_fuse.tag, "1")}
    return tags


def slot_counts(circuit: Circuit, row: Row) -> tuple[int, int]:
    """Free places on the minus and plus rails: own stop return and control tap, then what the lane below needs."""
    if row.bank is None:
        return 0, 0
    tags = row_tags(circuit, row) | row_tags(circuit, row.follower)
    own_first = row.lane.pieces[0].tag if row.lane.pieces else ""
    own_back = row.lane.back.tag if row.lane.back else ""
    minus = {entry.tag for entry in row.bank.minus_out} & tags - {own_back}
    plus = {entry.tag for entry in row.bank.plus_out} & tags - {own_first}
    return len(minus), len(plus)


def flag_count(circuit: Circuit, row: Row) -> int:
    """Flags on the rails for what no lane here draws."""
    if row.bank is None:
        return 0
    own = row_tags(circuit, row) | row_tags(circuit, row.follower)
    return max(sum(entry.tag not in own for entry in side) for side in (row.bank.plus_out, row.bank.minus_out))


def set_height(circuit: Circuit, row: Row, left: float, unit_x: float) -> None:
    """Height of a row, now that it is known where it begins and where its unit stands."""
    lane = row.lane
    clear = left
    if row.bank is not None:
        clear += bank_width(circuit, row.bank, slots=sum(slot_counts(circuit, row)), flags=flag_count(circuit, row))
    if row.follows:
        clear = max(clear, unit_x - lane_width(lane))
    tap = 19.0
    if lane.control_fuse is not None and lane.control_at is not None:
        pieces = [max(room(piece), LEAST_GAP) + 12.0 for piece in lane.pieces]
        spare = max(0.0, unit_x - clear - sum(pieces) + 12.0)
        tap = sum(pieces[: lane.control_at + 1]) + spare * (lane.control_at + 1) / len(pieces) + 4.0
    set_rows(circuit, lane, unit_x - clear, tap)
    row.height = max(lane.height, row.bank.height if row.bank else 0.0)


def title(pen: Pen, x: float, top: float, words: str) -> float:
    """Title of a lane or a bank over its plus rail; gives back where it ends."""
    if words:
        pen.text((x, top - 10.0), words, 2.8, bold=True)
    return x + width_of(words, 2.8)


def draw_rows(
    board: Board, circuit: Circuit, rows: list[Row], left: float, unit_x: float, top: float, wired: set[str]
) -> list[Point]:
    """Rows below one another, the first from ``top``; gives back the network stud of each unit.

    A row whose bank stands in the row above hangs on that bank's rails; one whose bank is on another sheet begins with flags.
    """
    studs: list[Point] = []
    over: _Shared | None = None
    for row in rows:
        rail = top + OVER
        if row.bank is not None:
            stud, over = _row_with_bank(board, circuit, row, left, unit_x, rail, wired)
        elif row.follows and over is not None:
            stud = _row_below(board, circuit, row, over, unit_x, rail)
        else:
            stud = _row_alone(board, circuit, row, left, unit_x, rail)
        studs.append(stud)
        top += row.tall
    return studs


@dataclass(slots=True)
class _Shared:
    """What a bank leaves free for the lane below it."""

    top: float
    bottom: float
    minus: list[float]
    plus: list[float]


def _row_with_bank(
    board: Board, circuit: Circuit, row: Row, left: float, unit_x: float, top: float, wired: set[str]
) -> tuple[Point, _Shared]:
    assert row.bank is not None
    bottom, lane = top + row.height, row.lane
    minus, plus = slot_counts(circuit, row)
    own = row_tags(circuit, row) | row_tags(circuit, row.follower)
    bank = draw_bank(board, circuit, row.bank, left, top, bottom, minus_slots=minus, plus_slots=plus, wired=own | wired)
    shared = _Shared(top, bottom, list(bank.minus_slots), list(bank.plus_slots))
    on_minus, on_plus = {entry.tag for entry in row.bank.minus_out}, {entry.tag for entry in row.bank.plus_out}
    back_to = (shared.minus.pop(0), bottom) if _returns_to(circuit, lane, on_minus) else None
    tap_at = (shared.plus.pop(0), top) if _taps_on(circuit, lane, on_plus) else None
    clear = max(bank.clear, bank.plus_right, bank.minus_right)
    end = title(board.pen, bank.link_left, top, row.bank_title)
    title(board.pen, max(clear, end + 6.0 if row.bank_title else 0.0), top, row.title)
    start, foot = ((bank.plus_right, top),), ((bank.minus_right, bottom),)
    return draw_lane(board, circuit, lane, start, foot, clear, unit_x, back_to=back_to, tap_at=tap_at), shared


def _returns_to(circuit: Circuit, lane: LanePlan, tags: set[str]) -> bool:
    return lane.coil is not None and loop_pieces(circuit, lane)[-1].tag in tags


def _taps_on(circuit: Circuit, lane: LanePlan, tags: set[str]) -> bool:
    return lane.control_fuse is not None and lane.control_at == -1 and circuit.at(lane.control_fuse.tag, "1")[0].tag in tags


def _row_below(board: Board, circuit: Circuit, row: Row, over: _Shared, unit_x: float, top: float) -> Point:
    """A lane on the bank of the lane above."""
    bottom, lane = top + row.height, row.lane
    down, up = over.plus.pop(0), over.minus.pop(0)
    start, foot = ((down, over.top), (down, top)), ((up, over.bottom), (up, bottom))
    back_to = (over.minus.pop(0), over.bottom) if over.minus and lane.coil is not None else None
    tap_at: Point | None = None
    clear = down + 3.0
    if over.plus and lane.control_fuse is not None and lane.control_at == -1:
        tap_at = (over.plus.pop(0), over.top)
        clear = tap_at[0] + 16.0
    title(board.pen, clear, top, row.title)
    return draw_lane(board, circuit, lane, start, foot, clear, unit_x, back_to=back_to, tap_at=tap_at)


def _row_alone(board: Board, circuit: Circuit, row: Row, left: float, unit_x: float, top: float) -> Point:
    """A lane whose bank is elsewhere, or which has none."""
    bottom, lane = top + row.height, row.lane
    title(board.pen, left, top, row.title)
    start, foot = ((left, top),), ((left, bottom),)
    tap_at: Point | None = None
    if lane.pump is None:
        flag(board, lane.pieces[0], lane.pieces[0].end, (left, top), "left")
        assert lane.back is not None
        flag(board, lane.back, lane.back.start, (left, bottom), "left")
    if lane.control_fuse is not None and lane.control_at == -1:
        tap_at = (left + 12.0, top + 9.0)
        tapped: Conductor = circuit.at(lane.control_fuse.tag, "1")[0]
        flag(board, tapped, tapped.end, tap_at, "left")
    return draw_lane(board, circuit, lane, start, foot, left, unit_x, back_to=None, tap_at=tap_at)


def notes_of(proposal: Proposal, circuit: Circuit) -> list[str]:
    """What a reader has to know: how to read a label, what stops how, what ties the negatives."""
    lines = [
        "1P2 = lane 1, plus, second piece. P plus, N minus, L link in",
        "a string, C control, T trunk, D drop, H hydraulic line. Length",
        "is that of the conductor, one way. Dot: joined, on the stud of",
        "the part beside it. Crossing without dot: not joined. Switches",
        "drawn off, contactors at rest, stop buttons released.",
    ]
    lines += _stop_notes(circuit) + _tie_notes(proposal, circuit)
    lines.append("9T, 9D: signal pair and supply pair; size of one supply core.")
    return [*lines, *notices(proposal)]


def _stop_notes(circuit: Circuit) -> list[str]:
    lines = []
    for kind, words in (("energise to run", "energise to run"), ("latching", "latching, a pulse opens it")):
        for fed in ("bank of the unit", "ship's supply"):
            coils = [
                coil.tag.removesuffix(" coil")
                for coil in circuit.of_kind("stop coil")
                if coil.stop == kind and coil.facts.get("fed from") == fed
            ]
            if coils:
                lines += _fold(f"{', '.join(coils)}: {words}; fed from the {fed}.")
    return lines


def _tie_notes(proposal: Proposal, circuit: Circuit) -> list[str]:
    links = [entry.tag for entry in circuit.netlist.conductors if entry.purpose == "common negative link"]
    lines = (
        _fold(f"Bank minus to ship's minus: {', '.join(links)}.")
        if links
        else ["No common negative link: bank minus kept apart from X0.2."]
    )
    for charger in circuit.of_kind("charger"):
        minus = [entry.tag for entry in circuit.at(charger.tag, "in-")]
        if charger.facts.get("second tie") is True:
            lines += _fold(f"{charger.tag} not isolated: {minus[0]} is a second tie, sized as one.")
        elif minus and charger.facts.get("isolated") is True:
            lines.append(f"{charger.tag} isolated: no tie through it.")
    if proposal.brief.supply.common_negative == "isolated":
        apart = [entry.tag for entry in circuit.of_kind("unit") if entry.facts.get("network isolated") is True]
        words = f"isolated at {', '.join(apart)}" if apart else "not said to be isolated at any unit"
        lines += _fold(f"Network interface {words}.")
    return lines


def _fold(words: str, most: int = 62) -> list[str]:
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) > most:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines
