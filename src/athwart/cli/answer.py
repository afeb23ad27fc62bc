"""A proposal as plain text for a terminal: six answers, the system, findings, rejections."""

from __future__ import annotations

import json
from math import degrees

import click

from athwart import units
from athwart.cli import say
from athwart.design.proposal import Lane, Proposal
from athwart.findings import SEVERITIES, Finding

MARKS = {"stop": "[STOP]", "caution": "[caution]", "note": "[note]"}
REJECTED_SHOWN = 6


def exit_code(proposal: Proposal) -> int:
    """1 when a finding says stop."""
    return 1 if any(finding.severity == "stop" for finding in proposal.findings) else 0


def show(proposal: Proposal, digest: str, everything: bool, as_json: bool) -> None:
    """Print the answer as text or as JSON."""
    if as_json:
        from athwart.papers.as_json import proposal_json

        click.echo(json.dumps(proposal_json(proposal, digest), indent=1, ensure_ascii=False))
    else:
        click.echo(text(proposal, everything))


def text(proposal: Proposal, everything: bool = False) -> str:
    """The whole answer."""
    parts = [
        _head(proposal),
        _answers(proposal),
        _need(proposal),
        *[_lane(lane, proposal) for lane in proposal.lanes],
    ]
    parts += [_cases(proposal), _rehearsals(proposal), _charging(proposal), _network(proposal), _findings(proposal, everything)]
    if proposal.mode == "propose":
        parts.append(_rejections(proposal, everything))
    if everything and proposal.defaults:
        parts.append(say.bold("Defaults used") + "\n" + say.table(("field", "value"), proposal.defaults))
    parts.append(say.block(_caution(proposal)))
    return "\n\n".join(part for part in parts if part)


def _head(p: Proposal) -> str:
    words = "Examined as it is" if p.mode == "check" else "Proposal"
    return (
        say.bold(f"{p.brief.name}")
        + f"\n{words}, {p.brief.number} issue {p.brief.issue}, rule set {p.brief.choices.rule_set}, catalogue: {p.catalogue.name}"
    )


def _answers(p: Proposal) -> str:
    lines = []
    for a in p.answers:
        verdict = f"  [{a.verdict}]" if a.verdict != "stated" else ""
        lines.append(say.bold(f"{a.number}. {a.question}") + f"  {a.figure}{verdict}")
        lines.append(say.block(a.sentence, indent="   "))
        if a.remark:
            lines.append(say.block(a.remark, indent="   "))
    return "\n".join(lines)


def _show(value: float, kind: str, unit: str | None = None) -> str:
    return units.show(value, kind, unit, plain=True)


def _need(p: Proposal) -> str:
    rows = [
        (
            f"{case.identity}, {'stern made fast' if case.case == 'B' else 'on station'}"
            if case.identity.startswith("bow") or case.case == "C"
            else f"{case.identity}, bow made fast",
            _show(case.beam, "force"),
            _show(case.worst, "force"),
            f"{degrees(case.worst_heading):.0f} deg",
            f"{case.sigma * 100:.0f} %",
        )
        for case in p.need.cases
    ]
    return (
        say.bold("Thrust needed")
        + f"  ({p.need.model})\n"
        + say.table(("case", "wind on the beam", "worst heading", "off the bow", "band"), rows, right=(1, 2, 3, 4))
    )


def _cases(p: Proposal) -> str:
    """The four cases beside the need that rules, as winds held."""
    if not p.cases:
        return ""
    rows = [
        (
            f"{held.case}: {held.name}",
            held.identity,
            "none" if held.wind_beam <= 0.0 else held.beam_words(_show(held.wind_beam, "wind_speed", "kn")),
            "none" if held.wind_worst <= 0.0 else held.worst_words(_show(held.wind_worst, "wind_speed", "kn")),
            f"{degrees(held.worst_heading):.0f} deg",
            f"{100.0 * held.band:.0f} %",
        )
        for held in p.cases
    ]
    table = say.table(("case", "by", "on the beam", "worst heading", "off the bow", "band"), rows, right=(2, 3, 4, 5))
    return say.bold("Largest wind held") + "  (as asked, bank cold and aged)\n" + table


def _rehearsals(p: Proposal) -> str:
    """Shares of success of the manoeuvres rehearsed."""
    if not p.rehearsals and not p.not_rehearsed:
        return ""
    lines = []
    if p.rehearsals:
        rows = [(r.exercise.label, r.success.counted, r.success.between, r.failed_by or "-") for r in p.rehearsals]
        lines.append(say.table(("manoeuvre", "succeeds", "19 times in 20", "the rest fails by"), rows))
    lines += [say.block(f"{name}: not rehearsed. {reason}.", "  ", "    ") for name, reason in p.not_rehearsed]
    return say.bold("Rehearsals") + "\n" + "\n".join(lines)


def _lane(lane: Lane, p: Proposal) -> str:
    unit = lane.unit
    lines = [say.bold(f"Lane {lane.lane}: {lane.thruster.identity}") + ("" if lane.passes else "  DOES NOT PASS")]
    lines.append(f"  unit    {unit.id}  {unit.name} ({lane.kept})")
    if lane.not_computed:
        lines.append(say.block(f"  {lane.not_computed}", hang="          "))
    bank = p.bank(lane.bank)
    if bank is not None:
        lines.append(
            f"  bank    {bank.parallel} x {bank.series} {bank.block.id}, {_show(bank.volts, 'voltage')} "
            f"{units.show(bank.capacity, 'charge', 'Ah', plain=True)} ({bank.kept}), at {bank.place}"
        )
    if lane.cable is not None:
        c = lane.cable
        many = f"{c.parallel} x " if c.parallel > 1 else ""
        run, loop = _show(c.plus, "length", "m"), _show(c.plus + c.minus, "length", "m")
        lines.append(f"  cable   {many}{c.cable.gauge} ({c.kept}), run {run} one way, loop {loop}")
    if lane.fuse is not None:
        lines.append(f"  fuse    {lane.fuse.fuse.rating:g} A {lane.fuse.family.family} ({lane.fuse.kept})")
    if lane.switch is not None or lane.stop is not None:
        switch, stop = lane.switch.id if lane.switch else "none", lane.stop.id if lane.stop else "none"
        lines.append(f"  switch  {switch}; stop {stop} ({lane.stop_kind or 'none'})")
    for name, state in (("design", lane.design), ("peak", lane.peak), ("all on", lane.both_design)):
        if state is not None:
            thrust = _show(state.thrust, "force")
            lines.append(f"  {name:<7} {state.terminal_volts:.2f} V at the unit, {state.current:.0f} A, thrust {thrust}")
    return "\n".join(lines)


def _charging(p: Proposal) -> str:
    lines = []
    for c in p.charging:
        source = f" from {c.from_battery}" if c.from_battery else ""
        row = f"{c.charger.id}" if c.charger else "nothing" if c.kind == "none" else "aboard"
        lines.append(
            f"  {c.bank}: {c.kind}, {row}{source}; {c.output_current:.0f} A out, {c.input_current:.0f} A in; "
            f"{units.show(c.refill_time, 'time', plain=True) if c.refill_time < 1e6 else 'never'} after a docking"
        )
    return say.bold("Charging") + "\n" + "\n".join(lines) if lines else ""


def _network(p: Proposal) -> str:
    n = p.network
    if n is None:
        return ""
    least = min((stop.volts_sag for stop in n.stops), default=0.0)
    line = (
        f"\n  {n.profile}, fed from {n.feed} at {n.feed_at} by {n.feed_fuse:g} A, {n.cable_row}, "
        f"trunk {_show(n.trunk_length, 'length', 'm')}, "
        f"terminators at {' and '.join(dict.fromkeys(n.terminators))}, {n.resistance_power_off:.0f} ohm power off, "
        f"least node {least:.1f} V"
    )
    return say.bold("Control line") + line + "".join(f"\n  change: {change}" for change in n.changes)


def _findings(p: Proposal, everything: bool) -> str:
    counts = {severity: sum(f.severity == severity for f in p.findings) for severity in SEVERITIES}
    head = say.bold("Findings") + f"  {counts['stop']} stop, {counts['caution']} caution, {counts['note']} note"
    shown = [f for f in p.findings if everything or f.severity != "note"]
    lines = [head, *[line for finding in shown for line in _finding(finding)]]
    if not everything and counts["note"]:
        lines.append(f"  ({counts['note']} notes: --all shows them)")
    return "\n".join(lines)


def _finding(f: Finding) -> list[str]:
    figures = f" ({f.value} against {f.limit})" if f.value and f.limit else f" ({f.value})" if f.value else ""
    return [
        say.block(f"{MARKS[f.severity]} {f.code} {f.where}: {f.what}{figures}", indent="  ", hang="      "),
        say.block(f"do: {f.remedy}", indent="      "),
    ]


def _rejections(p: Proposal, everything: bool) -> str:
    if not p.rejections:
        return ""
    nearest = sorted(p.rejections, key=lambda r: (-(r.margin if r.margin is not None else -9.0), r.row))
    shown = p.rejections if everything else tuple(nearest[:REJECTED_SHOWN])
    rows = [(r.identity, r.row, r.rule, r.figure, r.limit) for r in shown]
    more = (
        ""
        if everything or len(p.rejections) <= REJECTED_SHOWN
        else f"\n  ({len(p.rejections)} not taken in all: --all shows them)"
    )
    return say.bold("Not taken") + "\n" + say.table(("for", "unit", "first rule that refused it", "figure", "limit"), rows) + more


def _caution(p: Proposal) -> str:
    count = len(p.unverified)
    rests = (
        f"The answers rest on {count} thing{'s' if count != 1 else ''} nobody has verified: {'; '.join(p.unverified)}. "
        if count
        else ""
    )
    invented = "Equipment from the invented catalogue: not for construction. " if p.catalogue.invented else ""
    return f"{rests}{invented}These are calculations and proposals. Defer to local codes and licensed practice."
