"""The command line: one module a command, imported only when it is asked for.

Exit codes: 0 fine, 1 a ``stop`` finding, 2 input not understood, 3 the model could not answer, 4 internal error.
Results go to standard output, everything else to standard error.
"""

from __future__ import annotations

import sys
from importlib import import_module

import click

from athwart import __version__
from athwart.errors import AthwartError, InputError, NotComputed

COMMANDS: dict[str, tuple[str, str, str]] = {
    "new": ("athwart.cli.new", "new", "Write a commented brief, from an example or by questions."),
    "propose": (
        "athwart.cli.propose",
        "propose",
        "Answer a brief: the six answers, a complete system, its findings, its papers.",
    ),
    "check": ("athwart.cli.check", "check", "Examine what is aboard; choose nothing."),
    "why": ("athwart.cli.why", "why", "Show how any number of the answer came about, as a tree."),
    "rehearse": ("athwart.cli.rehearse", "rehearse", "Rehearse manoeuvres in gusts: how often they work, what stops them."),
    "reckon": ("athwart.cli.reckon", "reckon", "Evaluate one formula of the book by hand."),
    "sources": ("athwart.cli.sources", "sources", "List the register of sources."),
    "catalogue": ("athwart.cli.catalogue", "catalogue", "List or check an equipment catalogue."),
}


class LazyGroup(click.Group):
    """A group whose commands are imported on first use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names in the order of the job."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import the command's module and return the command."""
        if cmd_name not in COMMANDS:
            return None
        module, attribute, _ = COMMANDS[cmd_name]
        command = getattr(import_module(module), attribute)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """One line a command, without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, words) for name, (_, _, words) in COMMANDS.items()])

    def resolve_command(self, ctx: click.Context, args: list[str]) -> tuple[str | None, click.Command | None, list[str]]:
        """As click does, with a guess for a mistyped name."""
        from difflib import get_close_matches

        if args and not args[0].startswith("-") and args[0] not in COMMANDS:
            near = get_close_matches(args[0], COMMANDS, n=1)
            hint = f" Did you mean {near[0]!r}?" if near else f" Commands: {', '.join(COMMANDS)}."
            raise click.UsageError(f"No command {args[0]!r}.{hint}")
        return super().resolve_command(ctx, args)


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="athwart")
def root() -> None:
    """Bow and stern thruster systems for boats of 6 to 40 m: from a brief to papers an installer can build from.

    Results are calculations and proposals. Local codes, class rules and licensed practice decide.
    """


def main(arguments: list[str] | None = None) -> None:
    """Entry point of the ``athwart`` command: turns every error into one clear message and an exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        code = root.main(arguments, prog_name="athwart", standalone_mode=False)
    except click.exceptions.Abort:
        _say("Stopped.")
        sys.exit(130)
    except click.ClickException as error:
        error.show(sys.stderr)
        sys.exit(2)
    except InputError as error:
        from athwart.cli.say import mistakes

        mistakes(error)
        sys.exit(2)
    except NotComputed as error:
        _say(f"Not computed: {error}")
        sys.exit(3)
    except AthwartError as error:
        _say(str(error))
        sys.exit(2)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as error:
        _say(f"{error.filename or 'a file'}: {error.strerror or error}")
        sys.exit(2)
    except Exception as error:
        from athwart.cli.say import internal

        internal(error)
        sys.exit(4)
    sys.exit(code if isinstance(code, int) else 0)


def _say(text: str) -> None:
    click.echo(text, err=True)
