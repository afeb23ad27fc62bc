"""Outputs of commands shown in README and documentation, made anew: ``python -m tests.docs_outputs``.

A text block that follows a line ``<!-- output of: athwart ... -->`` is what that command prints. A line ``[...]`` in it stands
for lines left out. The picture of the README is the first sheet the program draws for example 1.
"""

from __future__ import annotations

import re
import shlex
from contextlib import chdir, redirect_stdout, suppress
from io import StringIO
from pathlib import Path

from athwart.cli import main

ROOT = Path(__file__).parent.parent
PAGES = (ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md")), *sorted((ROOT / "docs" / "theory").glob("*.md")))
PICTURE = ROOT / "docs" / "pictures" / "one-line-example-1.svg"
CUT = "[...]"
BLOCK = re.compile(r"<!-- output of: (?P<command>.+?) -->\n```text\n(?P<text>.*?)```", re.DOTALL)


def printed(command: str) -> str:
    """What a command prints on standard output, run from the root of the checkout."""
    words = shlex.split(command)
    if words[0] != "athwart":
        raise ValueError(f"not a command of this program: {command}")
    out = StringIO()
    with chdir(ROOT), redirect_stdout(out), suppress(SystemExit):
        main(words[1:])
    return "\n".join(line.rstrip() for line in out.getvalue().splitlines()) + "\n"


def differs(shown: str, command: str) -> str:
    """What a block shows that the command does not print, in order; empty where they agree."""
    left = printed(command)
    parts = shown.split(CUT + "\n")
    for number, part in enumerate(parts):
        at = left.find(part)
        if at < 0 or (number == 0 and at > 0):
            return next((line for line in part.splitlines() if line not in left), part)
        left = left[at + len(part) :]
    return "" if parts[-1] == "" or not left else left


def renewed(shown: str, command: str) -> str:
    """The block with today's lines; where lines are left out the lines kept are found by their first and last words."""
    now = printed(command).splitlines(keepends=True)
    kept, at = [], 0
    for part in shown.split(CUT + "\n"):
        lines = part.splitlines(keepends=True)
        if not lines:
            kept.append("")
            continue
        start = at if not kept else _like(lines[0], now, at)
        end = _like(lines[-1], now, start) + 1 if CUT in shown else len(now)
        kept.append("".join(now[start:end]))
        at = end
    return (CUT + "\n").join(kept)


def _like(line: str, now: list[str], start: int) -> int:
    """The first line from ``start`` on that begins like a line shown, with as many of its letters as can be had, six at least."""
    line = line.rstrip()
    for length in range(len(line), min(6, len(line)) - 1, -1):
        for index in range(start, len(now)):
            if now[index].startswith(line[:length]):
                return index
    raise ValueError(f"no line like {line!r} is printed any more")


def picture() -> str:
    """The first sheet of the one-line diagram of example 1."""
    from athwart.papers.one_line import one_line
    from athwart.papers.svg import svg
    from tests.unit.papers.made import EXAMPLES, proposal_of

    return svg(one_line(proposal_of(EXAMPLES[0]))[0])


if __name__ == "__main__":
    for page in PAGES:
        old = page.read_text(encoding="utf-8")
        new = BLOCK.sub(lambda m: m[0].replace(m["text"], renewed(m["text"], m["command"])), old)
        if new != old:
            page.write_text(new, encoding="utf-8")
            print(page.relative_to(ROOT))
    PICTURE.write_text(picture(), encoding="utf-8")
