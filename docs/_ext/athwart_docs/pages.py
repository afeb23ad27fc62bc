"""The pages made from the program itself: findings, formula book, register of sources, theirs and ours.

Each function returns pages as a mapping from file name to MyST Markdown; :func:`write_all` lays them down below
``docs/_generated``. Nothing here is typed by hand, so page and program cannot disagree.
"""

from __future__ import annotations

import importlib
import math
import pkgutil
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from pathlib import Path

import athwart
from athwart.explain import FORMULAS, Formula
from athwart.expressions import render
from athwart.findings import CODES, Code
from athwart.sources import Seen, register, source
from athwart_docs import docstrings
from tests import published
from tests.published._check import Check

SEEN_IN_WORDS: Mapping[Seen, str] = {
    "read": "the place named was read",
    "excerpt": "only an excerpt was read",
    "memory": "from memory, not verified",
    "practice": "common practice, no source",
    "own": "our own arithmetic",
    "judgement": "a default chosen for this program",
}
SEVERITY_IN_WORDS = {
    "stop": "do not build it like this",
    "caution": "look at it before building",
    "note": "good to know",
}
KIND_IN_WORDS = {
    "closed": "value",
    "equation": "equation that the value satisfies (the expression is zero)",
    "table": "look-up or choice",
}


def load_everything() -> None:
    """Import every module of athwart, so that the registers are full."""
    for module in pkgutil.walk_packages(athwart.__path__, "athwart."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)


def published_checks() -> list[Check]:
    """All checks of other people's figures, in the order of their modules."""
    checks: list[Check] = []
    for module in sorted(pkgutil.iter_modules(published.__path__), key=lambda found: found.name):
        if module.name.startswith("test_"):
            checks += importlib.import_module(f"tests.published.{module.name}").CHECKS
    return checks


# ---- Markdown


def cell(text: object) -> str:
    """Text safe inside a table cell."""
    return prose(str(text)).replace("|", "\\|").replace("\n", " ")


def prose(text: str) -> str:
    """Docstring prose as Markdown: roles become code, characters of Markdown are kept as they are."""
    text = re.sub(r":[a-z:]+:`~?([^`]+)`", r"``\1``", text)
    parts = re.split(r"(``?[^`]+``?)", text)
    return "".join(part if part.startswith("`") else re.sub(r"([*_<>\[\]#])", r"\\\1", part) for part in parts)


def examples(section: str) -> str:
    """An Examples section: prose as prose, sessions as code."""
    text = "**Examples.** "
    for block in re.split(r"\n\s*\n", section.strip()):
        session = block.find(">>>")
        words, code = (block, "") if session < 0 else (block[:session].strip(), block[session:].strip())
        text += f"{prose(words)}\n\n" if words else "\n\n"
        text += f"```pycon\n{code}\n```\n\n" if code else ""
    return text


def table(head: tuple[str, ...], rows: Iterable[tuple[object, ...]]) -> str:
    """A Markdown table."""
    lines = [" | ".join(head), " | ".join("---" for _ in head)]
    lines += [" | ".join(cell(entry) or " " for entry in row) for row in rows]
    return "\n".join(f"| {line} |" for line in lines) + "\n"


def toctree(names: Iterable[str]) -> str:
    """A hidden table of contents."""
    return "\n".join(["```{toctree}", ":hidden:", ":maxdepth: 1", "", *names, "```", ""])


def source_link(key: str, up: str) -> str:
    """A link to an entry of the register."""
    return f"[{prose(source(key).title)}]({up}sources.md#source-{key})"


# ---- findings


def finding_pages() -> dict[str, str]:
    """A page for every finding code, and an index."""
    pages = {f"findings/{code}.md": _finding_page(entry) for code, entry in sorted(CODES.items())}
    rows = [(f"[{code}]({code}.md)", entry.severity, entry.title) for code, entry in sorted(CODES.items())]
    index = f"# Findings\n\n{len(CODES)} codes. A code never changes its meaning and is never used again.\n\n"
    index += "\n".join(f"- **{severity}**: {words}" for severity, words in SEVERITY_IN_WORDS.items()) + "\n\n"
    lines = ["| Code | Usually | What it says |", "| --- | --- | --- |"]
    lines += [f"| {link} | {severity} | {cell(title)} |" for link, severity, title in rows]
    pages["findings/index.md"] = index + "\n".join(lines) + "\n\n" + toctree(sorted(CODES))
    return pages


def _finding_page(entry: Code) -> str:
    return (
        f"# {entry.code}: {prose(entry.title)}\n\n"
        f"Usually a **{entry.severity}**: {SEVERITY_IN_WORDS[entry.severity]}.\n\n"
        f"## What it says\n\n{prose(entry.says)}\n\n"
        f"## Why it matters\n\n{prose(entry.why)}\n\n"
        f"## What to do\n\n{prose(entry.remedy)}\n\n"
        f"## Source\n\n{source_link(entry.source, '../')}: {SEEN_IN_WORDS[source(entry.source).seen]}.\n"
    )


# ---- formula book


def formula_pages() -> dict[str, str]:
    """One page a module, and an index."""
    modules: dict[str, list[tuple[str, Formula]]] = defaultdict(list)
    for name, entry in sorted(FORMULAS.items()):
        modules[name.rpartition(".")[0]].append((name, entry))
    pages = {}
    for module, entries in modules.items():
        text = f"# {module}\n\n{prose(_module_summary(module))}\n\n"
        pages[f"formulas/{module}.md"] = text + "\n".join(_formula_entry(name, entry) for name, entry in entries)
    index = f"# Formula book\n\n{len(FORMULAS)} formulas, by module. Every one can be evaluated with `athwart reckon`.\n\n"
    lines = ["| Module | Formulas |", "| --- | --- |"]
    for module, entries in modules.items():
        links = ", ".join(f"`{name.rpartition('.')[2]}`" for name, _ in entries)
        lines.append(f"| [{module}]({module}.md) | {links} |")
    pages["formulas/index.md"] = index + "\n".join(lines) + "\n\n" + toctree(modules)
    return pages


def _module_summary(module: str) -> str:
    doc = importlib.import_module(f"athwart.{module}").__doc__ or ""
    return doc.strip().partition("\n\n")[0].replace("\n", " ")


def _formula_entry(name: str, entry: Formula) -> str:
    doc = docstrings.read(entry.func)
    text = f"## {name.rpartition('.')[2]}\n\n{prose(doc.summary)}\n\n"
    if doc.body:
        text += prose(doc.body) + "\n\n"
    if entry.kind == "table":
        text += f"{prose(entry.expr)}\n\n"
    else:
        sides = {"closed": f"{entry.symbol} = ", "equation": "0 = "}[entry.kind]
        text += f"```text\n{sides}{render(entry.expr, {'result': entry.symbol})}\n```\n\n"
    text += f"- Symbol {prose(entry.symbol)}, unit {prose(entry.unit)}; {KIND_IN_WORDS[entry.kind]}\n"
    if entry.valid:
        text += f"- Valid: {prose(entry.valid)}\n"
    text += f"- Source: {source_link(entry.source, '../')}, {SEEN_IN_WORDS[source(entry.source).seen]}\n\n"
    if doc.parameters:
        text += table(("Argument", "Meaning", "Unit"), ((f"`{p.name}`", p.text, p.unit) for p in doc.parameters.values())) + "\n"
    for section in ("Returns", "Notes", "References"):
        if section in doc.sections:
            text += f"**{section}.** {prose(doc.sections[section])}\n\n"
    if "Examples" in doc.sections:
        text += examples(doc.sections["Examples"])
    return text


# ---- sources


def source_pages() -> dict[str, str]:
    """The register, one entry after the other."""
    used: dict[str, list[str]] = defaultdict(list)
    for name, entry in sorted(FORMULAS.items()):
        used[entry.source].append(f"[{name}](formulas/{name.rpartition('.')[0]}.md)")
    for name, code in sorted(CODES.items()):
        used[code.source].append(f"[{name}](findings/{name}.md)")
    text = "# Sources\n\nEvery formula, table and limit names one of these. How it was seen is part of it.\n\n"
    for key, found in sorted(register().items()):
        where = ", ".join(part for part in (found.author, found.edition, found.place) if part)
        text += f"(source-{key})=\n## {prose(found.title)}\n\n"
        text += (prose(where) + "\n\n") if where else ""
        text += f"- Key: `{key}`\n- Seen: {SEEN_IN_WORDS[found.seen]}\n- Taken: {prose(found.taken)}\n"
        text += f"- Licence: {prose(found.licence)}\n" if found.licence else ""
        text += f"- Note: {prose(found.note)}\n" if found.note else ""
        text += f"- Used by: {', '.join(used[key])}\n" if used[key] else ""
        text += "\n"
    return {"sources.md": text}


# ---- theirs and ours


def published_pages() -> dict[str, str]:
    """Other people's printed figures beside ours; a figure that no longer holds stops the build."""
    checks = published_checks()
    by_source: dict[str, list[Check]] = defaultdict(list)
    for check in checks:
        check.holds()
        by_source[check.source].append(check)
    text = (
        "# Theirs and ours\n\n"
        f"{len(checks)} figures printed by {len(by_source)} sources, beside what athwart computes. "
        "What is not here is not validated. "
        "The tolerance is half the last printed digit, or its reason stands below the table.\n\n"
    )
    for key, group in sorted(by_source.items()):
        text += f"## {prose(source(key).title)}\n\nSource {source_link(key, '')}, {SEEN_IN_WORDS[source(key).seen]}.\n\n"
        head = ("Place", "Quantity", "Theirs", "Ours", "Unit", "Difference", "Allowed")
        text += table(head, (_published_row(check) for check in group)) + "\n"
        reasons = {check.quantity: check.reason for check in group if check.reason}
        text += "\n".join(f"- {prose(quantity)}: {prose(reason)}" for quantity, reason in reasons.items()) + "\n\n"
    return {"published.md": text}


def _published_row(check: Check) -> tuple[object, ...]:
    ours = check.ours()
    decimals = max(0, 1 - math.floor(math.log10(check.tolerance)))
    shown = f"{ours:.{decimals}f}" if decimals < 9 else f"{ours:.6g}"
    return (check.place, check.quantity, check.theirs, shown, check.unit, f"{ours - check.printed:+.2g}", f"±{check.tolerance:g}")


# ---- all


def all_pages() -> dict[str, str]:
    """Every generated page."""
    load_everything()
    return finding_pages() | formula_pages() | source_pages() | published_pages()


def write_all(folder: Path) -> None:
    """Write the pages below ``folder``; untouched when nothing changed, removed when they no longer belong."""
    pages = all_pages()
    for name, text in pages.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")
    for path in folder.rglob("*.md"):
        if path.relative_to(folder).as_posix() not in pages:
            path.unlink()
