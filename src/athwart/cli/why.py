"""``athwart why``: the derivation of a number of the answer, as a tree."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import click

from athwart.cli import asked, say


@click.command(short_help="Show how any number of the answer came about.")
@asked.of_brief
@click.argument("quantity", required=False)
@click.option("--unit", "identity", metavar="IDENTITY", help="Which thruster, where there are several; the first unless said.")
@click.option("--depth", type=click.IntRange(1, 20), default=20, show_default=True, help="How far down the tree goes.")
@click.option("--as-found", is_flag=True, help="Of what is aboard, as `check` sees it, not of the proposal.")
def why(
    brief: Path, quantity: str | None, identity: str | None, depth: int, own: Path | None, only_own: bool, as_found: bool
) -> None:
    """Show the derivation of a QUANTITY of the answer to BRIEF: formula, numbers, source, validity, origin of every input.

    Without QUANTITY the ones that can be asked for are listed.
    """
    from athwart.design import derive
    from athwart.design.search.propose import check, propose
    from athwart.errors import UnknownName
    from athwart.store.briefs import read_brief
    from athwart.store.catalogues import catalogue_for

    if quantity is None:
        click.echo(say.table(("quantity", "what it is"), [(q.name, q.words) for q in derive.QUANTITIES.values()]))
        return
    wanted = derive.quantity(quantity)
    file = read_brief(brief)
    search = check if as_found else propose
    with asked.placed(file):
        proposal = search(file.brief, catalogue_for(own, only_own), defaults=file.defaults)
    names = [lane.thruster.identity for lane in proposal.lanes]
    if identity is not None and identity not in names:
        raise UnknownName("thruster", identity, ", ".join(names))
    lane = proposal.lane(identity or names[0])
    tree = derive.derive(proposal, wanted, lane, file.origins)
    click.echo(say.bold(f"{wanted.name}: {wanted.words}") + f"\n{derive.headline(proposal, lane)}\n")
    for line in lines(tree, depth):
        click.echo(line)


def lines(tree: object, depth: int) -> list[str]:
    """The tree as text, a formula already shown is only named again."""
    from athwart.design.derive import Derived

    out: list[str] = []
    shown: dict[tuple[str, str], str] = {}

    def walk(node: Derived, name: str, indent: str, left: int) -> None:
        head = f"{name} = {node.text}" if name else f"{node.formula.symbol} = {node.text}"
        key = (node.formula.name, node.text)
        if key in shown:
            out.append(f"{indent}{head}   (derived above: {shown[key]})")
            return
        shown[key] = node.formula.name.rsplit(".", 1)[-1]
        out.append(say.bold(f"{indent}{head}"))
        inner = indent + "  "
        out.append(say.block(f"{node.formula.symbol}: {_expression(node)}", indent=inner, hang=inner + "  "))
        out.append(say.block(_provenance(node), indent=inner, hang=inner + "  "))
        if left <= 1:
            return
        for label, entry in node.inputs:
            if isinstance(entry, Derived):
                walk(entry, label, inner + "| ", left - 1)
            else:
                out.append(say.block(f"{label} = {entry.text}   [{entry.origin}]", indent=inner + "| ", hang=inner + "|     "))
        for entry in node.inside:
            walk(entry, f"within: {entry.formula.symbol}", inner + "| ", left - 1)

    assert isinstance(tree, Derived)
    walk(tree, "", "", depth)
    return out


def _expression(node: object) -> str:
    from athwart.design.derive import Derived

    assert isinstance(node, Derived)
    if node.formula.kind == "table":
        return node.formula.expr
    if node.formula.kind == "equation":
        return f"{node.formula.expr} = 0"
    from athwart.expressions import ExpressionError, render

    scope = vars(import_module(f"athwart.{node.formula.name.rsplit('.', 1)[0]}"))
    numbers: dict[str, object] = {name: value for name, value in scope.items() if name.isupper() and isinstance(value, float)}
    numbers |= {name: entry.value for name, entry in node.inputs}
    try:
        return f"{node.formula.expr} = {render(node.formula.expr, numbers)}"
    except ExpressionError:
        return node.formula.expr


def _provenance(node: object) -> str:
    from athwart.design.derive import Derived
    from athwart.sources import source

    assert isinstance(node, Derived)
    entry = source(node.formula.source)
    seen = "" if entry.verified else f", {entry.seen}: not verified"
    valid = f"; valid: {node.formula.valid}" if node.formula.valid else ""
    return f"[{node.formula.name}; source: {entry.title}{seen}{valid}]"
