"""``athwart catalogue``: list an equipment catalogue, or hold it against physics."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from athwart.cli import say

if TYPE_CHECKING:
    from athwart.catalogue.cells import Column
    from athwart.catalogue.records import Catalogue, Row

ALWAYS = ("id", "name")
NOT_LISTED = frozenset({"maker", "invented", "note"})
WIDEST_WORDS = 44
MAIN: dict[str, tuple[str, ...]] = {
    "thruster units": (
        "id",
        "drive",
        "housing",
        "control",
        "volts",
        "thrust",
        "tunnel_diameter",
        "rated_current",
        "rated_time",
        "at_limit",
        "mass",
        "noise",
        "ignition_protected",
        "price",
    ),
    "battery blocks": (
        "id",
        "chemistry",
        "volts",
        "capacity",
        "resistance",
        "cranking",
        "short_circuit",
        "discharge_continuous",
        "discharge_peak",
        "discharge_peak_time",
        "mass",
        "price",
    ),
    "chargers": ("id", "kind", "volts_in", "volts_out", "current_out", "current_in", "charge_volts", "isolated", "mass", "price"),
}
"""Columns of the wide tables that fit a screen; ``--wide`` shows all."""

_OWN = click.option(
    "--catalogue",
    "own",
    type=click.Path(exists=True, path_type=Path),
    metavar="PATH",
    help="Own equipment on top of the built-in: a folder of CSV, a CSV or an XLSX file.",
)
_ONLY_OWN = click.option("--only-own", is_flag=True, help="The own catalogue alone, without the built-in one.")
_JSON = click.option("--json", "as_json", is_flag=True, help="As JSON, units in the keys.")


@click.group(short_help="List or check an equipment catalogue.")
def catalogue() -> None:
    """List an equipment catalogue, or hold its figures against physics.

    The built-in catalogue is invented and not for construction.
    """


@catalogue.command("list", short_help="List the tables, or the rows of one.")
@click.argument("kind", required=False)
@_OWN
@_ONLY_OWN
@click.option(
    "--units",
    "system",
    type=click.Choice(("metric", "imperial")),
    default="metric",
    show_default=True,
    help="Units of the table.",
)
@click.option("--wide", is_flag=True, help="All columns of a wide table.")
@_JSON
def list_rows(kind: str | None, own: Path | None, only_own: bool, system: str, wide: bool, as_json: bool) -> None:
    """List the tables with their number of rows, or all rows of one KIND, such as "thruster units".

    A part of the name is enough where it is the only one.
    """
    from athwart.catalogue.records import SHEETS
    from athwart.store.catalogues import catalogue_for

    chosen = catalogue_for(own, only_own)
    if kind is None:
        _overview(chosen, as_json)
        return
    sheet = _sheet_of(kind)
    rows = _curves(chosen) if sheet not in SHEETS else chosen.tables()[sheet]
    if as_json:
        body = [_as_json(sheet, row) for row in rows]
        click.echo(
            json.dumps(
                {"catalogue": chosen.name, "digest": chosen.digest, "table": sheet, "rows": body}, indent=1, ensure_ascii=False
            )
        )
        return
    click.echo(say.bold(f"{sheet}: {len(rows)}") + f"  ({chosen.name})")
    click.echo(_curve_table(chosen) if sheet not in SHEETS else _table(sheet, chosen.tables()[sheet], system, wide))


@catalogue.command(short_help="Hold a catalogue against physics.")
@click.argument("path", required=False, type=click.Path(exists=True, path_type=Path))
@click.option("--good-rows-only", is_flag=True, help="Check the rows that could be read; the others are still named.")
@_JSON
@click.pass_context
def check(ctx: click.Context, path: Path | None, good_rows_only: bool, as_json: bool) -> int:
    """Hold the tables at PATH, or the built-in ones, against physics.

    Exit code 0: nothing to doubt; 1: figures that cannot well be true; 2: tables that could not be read.
    """
    from athwart.catalogue.builtin import builtin
    from athwart.catalogue.plausibility import implausible
    from athwart.store.catalogues import read_catalogue

    mistakes: tuple[object, ...] = ()
    chosen = builtin()
    if path is not None:
        loaded = read_catalogue(path, good_rows_only=good_rows_only, base=chosen)
        chosen, mistakes = loaded.catalogue, loaded.mistakes
    found = implausible(chosen)
    for mistake in mistakes:
        click.echo(str(mistake), err=True)
    count = sum(len(rows) for rows in chosen.tables().values())
    if as_json:
        body = {"catalogue": chosen.name, "digest": chosen.digest, "rows": count, "not_read": [str(m) for m in mistakes]}
        click.echo(json.dumps(body | {"implausible": [asdict(entry) for entry in found]}, indent=1, ensure_ascii=False))
    else:
        if found:
            heads = ("table", "row", "what", "value", "should be", "formula", "source")
            click.echo(say.table(heads, [(e.sheet, e.row, e.what, e.value, e.limit, e.formula or "-", e.source) for e in found]))
        words = f"{len(found)} figures cannot well be true" if found else "nothing to doubt"
        click.echo(f"{chosen.name}: {count} rows, {words}." + (f" {len(mistakes)} cells could not be read." if mistakes else ""))
    return 2 if mistakes else 1 if found else 0


def _sheet_of(kind: str) -> str:
    from difflib import get_close_matches

    from athwart.catalogue.reading import SHEET_NAMES, sheet_name

    wanted = sheet_name(kind)
    found = [name for name in SHEET_NAMES if name == wanted] or [name for name in SHEET_NAMES if wanted and wanted in name]
    if len(found) == 1:
        return found[0]
    near = get_close_matches(wanted, SHEET_NAMES, 1)
    hint = f" Did you mean {near[0]!r}?" if near and not found else ""
    raise click.UsageError(
        f"{'Several tables match' if found else 'No table'} {kind!r}.{hint} Tables: {', '.join(found or SHEET_NAMES)}."
    )


def _overview(chosen: Catalogue, as_json: bool) -> None:
    counts = {sheet: len(rows) for sheet, rows in chosen.tables().items()} | {"fuse curves": len(chosen.fuse_families)}
    if as_json:
        click.echo(
            json.dumps(
                {"catalogue": chosen.name, "digest": chosen.digest, "invented": chosen.invented, "tables": counts},
                indent=1,
                ensure_ascii=False,
            )
        )
        return
    click.echo(say.bold(chosen.name))
    click.echo(say.table(("table", "rows"), [(sheet, str(count)) for sheet, count in counts.items()], right=(1,)))
    click.echo("athwart catalogue list TABLE shows its rows.")


# ---- rows as text


def _table(sheet: str, rows: tuple[Row, ...], system: str, wide: bool) -> str:
    """Aligned columns, units in the heads, columns without any figure left out."""
    from athwart.catalogue.cells import columns_of
    from athwart.catalogue.records import SHEETS

    columns = [column for column in columns_of(SHEETS[sheet][1]) if column.name not in NOT_LISTED]
    order = MAIN[sheet] if not wide and sheet in MAIN else ALWAYS
    if order is not ALWAYS:
        columns = [column for column in columns if column.name in order]
    columns.sort(key=lambda column: order.index(column.name) if column.name in order else len(order))
    columns = [column for column in columns if column.needed or any(getattr(row, column.name) is not None for row in rows)]
    cells = [[_shown(column, getattr(row, column.name), system) for column in columns] for row in rows]
    right = [place for place, column in enumerate(columns) if column.kind not in ("", "flag")]
    return say.table([_head(column, system) for column in columns], cells, right=right)


def _printed_unit(column: Column, system: str) -> str:
    """The unit a column is printed in: its own, or the imperial one of its kind where that is another and no scale."""
    from athwart.units import QUANTITIES, SYSTEMS

    if system == "metric" or column.kind not in QUANTITIES:
        return column.unit
    quantity = QUANTITIES[column.kind]
    imperial = "in" if column.kind == "length" else SYSTEMS["imperial"][column.kind]
    return imperial if imperial in quantity.table and quantity.imperial != quantity.metric else column.unit


def _head(column: Column, system: str) -> str:
    unit = _printed_unit(column, system)
    words = column.stem.replace("_", " ")
    if column.kind == "per_km":
        return column.header.replace("_ohm_per_km", " [ohm/km]").replace("ohm_per_km", "ohm/km").replace("_", " ")
    return f"{words} [{unit}]" if unit else words


def _shown(column: Column, value: object, system: str) -> str:
    from athwart.units import QUANTITIES

    if value is None:
        return "?"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value if len(value) <= WIDEST_WORDS else value[: WIDEST_WORDS - 1] + "…"
    assert isinstance(value, (int, float))
    if column.kind == "per_km":
        return f"{value * 1e3:.4g}"
    if column.kind in QUANTITIES and (unit := _printed_unit(column, system)):
        return f"{QUANTITIES[column.kind].table[unit].from_si(value):.5g}"
    return f"{value:.6g}"


def _as_json(sheet: str, row: object) -> dict[str, object]:
    """A row under the heads of its table, numbers in the units of the heads."""
    from athwart.catalogue.cells import columns_of
    from athwart.catalogue.records import SHEETS
    from athwart.units import QUANTITIES

    if sheet not in SHEETS:
        assert isinstance(row, dict)
        return row
    found: dict[str, object] = {}
    for column in columns_of(SHEETS[sheet][1]):
        value = getattr(row, column.name)
        if isinstance(value, float) and column.kind == "per_km":
            value = float(f"{value * 1e3:.12g}")
        elif isinstance(value, float) and column.unit:
            value = float(f"{QUANTITIES[column.kind].table[column.unit].from_si(value):.12g}")
        found[column.header] = value
    return found


def _curves(chosen: Catalogue) -> tuple[dict[str, object], ...]:
    from math import inf, isnan

    def seconds(value: float) -> float | str | None:
        return None if isnan(value) else "never" if value == inf else value

    return tuple(
        {
            "family": family.family,
            "form": family.form,
            "most_V": family.volts_most,
            "breaking": [{"to_V": volts, "current_A": current} for volts, current in family.breaking_capacity],
            "points": [{"multiple": x, "least_s": seconds(low), "most_s": seconds(high)} for x, low, high in family.points],
            "current_limiting": family.current_limiting,
            "ignition_protected": family.ignition_protected,
            "source": family.source,
            "verified": family.verified,
        }
        for family in chosen.fuse_families.values()
    )


def _curve_table(chosen: Catalogue) -> str:
    from math import inf, isnan

    def seconds(value: float) -> str:
        return "?" if isnan(value) else "never" if value == inf else f"{value:g}"

    rows = [
        (
            family.family,
            family.form,
            f"{family.volts_most:g}",
            f"{x:g}",
            seconds(low),
            seconds(high),
            "yes" if family.verified else "no",
        )
        for family in chosen.fuse_families.values()
        for x, low, high in family.points
    ]
    return say.table(("family", "form", "most [V]", "x rating", "least [s]", "most [s]", "verified"), rows, right=(2, 3, 4, 5))
