"""The one-line diagram of a larger system: ship, lanes, banks and control line on sheets of their own."""

from __future__ import annotations

from collections.abc import Callable

from athwart.design.proposal import Proposal
from athwart.papers.one_line_bank import BankPlan, bank_width, draw_bank
from athwart.papers.one_line_bank import Part as BankPart
from athwart.papers.one_line_base import Board
from athwart.papers.one_line_control import draw_control
from athwart.papers.one_line_lane import draw_drop
from athwart.papers.one_line_plan import (
    DROP_FLAG,
    FLAG,
    FOOT,
    LEFT,
    OVER,
    RIGHT,
    TOP,
    Plan,
    Row,
    draw_rows,
    notes_of,
    put_apart,
    set_height,
    title,
)
from athwart.papers.one_line_ship import Part, draw_negative_bar, draw_ship, negative_room
from athwart.papers.sheet import place_columns
from athwart.papers.symbols import UNIT_HALF

NOTES_TOP = 250.0
SHIP_FOOT = 64.0
"""From the ship's plus bars to its negative bar."""


def draw_sheets(proposal: Proposal, plan: Plan, places: dict[tuple[str, str], str]) -> list[tuple[Board, str]]:
    """All sheets with their titles."""
    made: list[tuple[Board, str]] = []

    def new(words: str) -> Board:
        made.append((Board(len(made) + 1, elsewhere=places), words))
        return made[-1][0]

    packs = _pack(plan)
    if _on_one(proposal, plan, packs, new):
        return made
    if plan.ship.groups or plan.ship.negatives:
        _ship_sheets(plan, new)
    for pack in packs:
        words = ", ".join(row.title.split(" LANE")[0].lower() for row in pack)
        board = new(f"Power one-line diagram, {words}")
        _lanes_sheet(board, plan, pack)
    for bank in plan.banks:
        _bank_sheets(plan, bank, new)
    if plan.control is not None and not _control_under_ship(plan, made):
        _control_sheet(new("Power one-line diagram, control line"), plan)
    _notes(proposal, plan, made[0][0])
    return made


def _on_one(proposal: Proposal, plan: Plan, packs: list[list[Row]], new: Callable[[str], Board]) -> bool:
    """One lane with its bank below the ship's supply, the control line beside that, where all of it finds room on one sheet."""
    ship, width = plan.ship, max(plan.ship.width(), negative_room(plan.ship)) + 12.0
    level = TOP + ship.height + 12.0
    lane_top = level + SHIP_FOOT + 18.0
    if len(plan.rows) != 1 or plan.banks or not ship.groups or lane_top + packs[0][0].tall > NOTES_TOP:
        return False
    beside = RIGHT - LEFT - 4.0 - width
    if plan.control is not None and (plan.control.rows(beside) > 1 or beside < 110.0):
        return False
    board = new("Power one-line diagram, all conductors")
    _ship_column(board, plan, level, level + SHIP_FOOT, "all")
    if plan.control is not None:
        plan.control.spread(beside)
        trunk = (TOP + lane_top) / 2 + 4.0
        title(board.pen, LEFT + width, trunk - 30.0, "CONTROL LINE")
        draw_control(board, plan.circuit, plan.control, LEFT + width, RIGHT - 4.0, trunk, set())
    packs[0][0].height += min(14.0, NOTES_TOP - lane_top - packs[0][0].tall)
    studs = draw_rows(board, plan.circuit, packs[0], LEFT + FLAG, _unit_x(), lane_top, set())
    draw_drop(board, packs[0][0].lane, studs[0])
    _notes(proposal, plan, board)
    return True


def _ship_column(board: Board, plan: Plan, level: float, foot: float, part: Part) -> None:
    board.pen.text((LEFT, TOP + 2.0), "SHIP", 2.8, bold=True)
    draw_ship(board, plan.circuit, plan.ship, LEFT, level, foot, set(), part)
    draw_negative_bar(board, plan.circuit, plan.ship, LEFT, LEFT + plan.ship.width(part), foot, set(), part)


def _notes(proposal: Proposal, plan: Plan, board: Board) -> None:
    lines = notes_of(proposal, plan.circuit)
    top = 286.0 - 2.9 * (-(-len(lines) // 2) + 1)
    place_columns(board.pen, (LEFT, top), tuple(lines), "READING A LABEL", 82.0)


def _unit_x() -> float:
    return RIGHT - DROP_FLAG - UNIT_HALF


def _pack(plan: Plan) -> list[list[Row]]:
    """Lanes to sheets: two, or fewer where they are tall; a bank too tall with its lanes goes apart."""
    left, packs = LEFT + FLAG, list[list[Row]]()
    index = 0
    while index < len(plan.rows):
        pair = plan.rows[index : index + 2]
        for row in pair:
            set_height(plan.circuit, row, left, _unit_x())
        first = pair[0]
        if len(pair) == 2 and pair[1].follows and (sum(row.tall for row in pair) > FOOT - TOP - 30.0 or not first.bank):
            put_apart(plan, first)
            continue
        two = len(pair) == 2 and sum(row.tall for row in pair) <= (FOOT - TOP if packs or plan.ship.groups else FOOT - TOP - 30.0)
        if two and pair[1].follower is not None and index + 2 < len(plan.rows):
            two = False
        packs.append(pair if two else pair[:1])
        index += len(packs[-1])
    return packs


def _lanes_sheet(board: Board, plan: Plan, rows: list[Row]) -> None:
    spare = FOOT - TOP - sum(row.tall for row in rows)
    for row in rows:
        row.height += max(0.0, min(16.0, spare / len(rows)))
    studs = draw_rows(board, plan.circuit, rows, LEFT + FLAG, _unit_x(), TOP, set())
    for row, stud in zip(rows, studs, strict=True):
        draw_drop(board, row.lane, stud)


def _ship_sheets(plan: Plan, new: Callable[[str], Board]) -> None:
    ship, level = plan.ship, TOP + plan.ship.height + 12.0
    foot = level + SHIP_FOOT
    room = RIGHT - LEFT
    parts: tuple[Part, ...] = ("all",) if max(ship.width(), negative_room(ship)) <= room else ("sources", "fuses")
    for part in parts:
        words = {"all": "ship's supply", "sources": "ship's supply, sources", "fuses": "ship's supply, loads"}[part]
        board = new(f"Power one-line diagram, {words}")
        here = level if part != "fuses" else TOP + 12.0
        low = foot if part != "fuses" else here + SHIP_FOOT
        _ship_column(board, plan, here, low, part)


def _bank_sheets(plan: Plan, bank: BankPlan, new: Callable[[str], Board]) -> None:
    words = plan.titles[bank.lane]
    left, top = LEFT + FLAG, TOP + OVER + 6.0
    flags = max(len(bank.plus_out), len(bank.minus_out))
    whole = FLAG + bank_width(plan.circuit, bank, slots=0, flags=flags) <= RIGHT - LEFT
    parts: tuple[BankPart, ...] = ("all",) if whole else ("strings", "loads")
    for part in parts:
        name = {"all": "", "strings": ", strings", "loads": ", loads"}[part]
        board = new(f"Power one-line diagram, bank of lane {bank.lane}{name}")
        title(board.pen, LEFT, top - 3.0, f"{words} OF LANE {bank.lane}")
        height = bank.height if part != "loads" else 64.0
        draw_bank(
            board,
            plan.circuit,
            bank,
            left,
            top,
            top + height,
            minus_slots=0,
            plus_slots=0,
            wired=set(),
            part=part,
        )


def _control_under_ship(plan: Plan, made: list[tuple[Board, str]]) -> bool:
    """The control line below the ship's supply, where both find room on the first sheet."""
    assert plan.control is not None
    trunk = TOP + plan.ship.height + 12.0 + SHIP_FOOT + 62.0
    width = RIGHT - LEFT - 8.0
    whole = max(plan.ship.width(), negative_room(plan.ship)) <= RIGHT - LEFT
    if not (plan.ship.groups and whole) or plan.control.rows(width) > 1 or trunk + 26.0 > NOTES_TOP:
        return False
    board = made[0][0]
    made[0] = board, "Power one-line diagram, ship and control line"
    plan.control.spread(width)
    title(board.pen, LEFT, trunk - 18.0, "CONTROL LINE")
    draw_control(board, plan.circuit, plan.control, LEFT + 4.0, RIGHT - 4.0, trunk, set())
    return True


def _control_sheet(board: Board, plan: Plan) -> None:
    assert plan.control is not None
    title(board.pen, LEFT, TOP + 13.0, "CONTROL LINE")
    draw_control(board, plan.circuit, plan.control, LEFT + 4.0, RIGHT - 4.0, TOP + 42.0, set())
