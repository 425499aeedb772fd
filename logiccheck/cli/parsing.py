"""The parser for the command line, made from the table of commands."""

from __future__ import annotations

import argparse
import sys
from typing import IO

from logiccheck.base.suggest import near
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.cli.commands import COMMANDS, EXIT
from logiccheck.cli.options import JSON
from logiccheck.cli.streams import tell
from logiccheck.cli.values import TYPES


class _Parser(argparse.ArgumentParser):
    """What it prints and nobody can take is an error like any other, not silence."""

    def _print_message(self, message: str, file: IO[str] | None = None) -> None:  # type: ignore[override]
        if file is sys.stdout:
            file.write(message)
        else:
            tell(message.removesuffix("\n"))


def parser() -> argparse.ArgumentParser:
    """The parser for the whole command line."""
    top = _Parser(
        prog="logiccheck",
        description="Proves that the rules of a vehicle's power distribution controller can do nothing unsafe, "
        "or shows the shortest story in which they do.",
        epilog=EXIT,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="version", version=f"logiccheck {VERSION} (language {LANGUAGE})")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for command in COMMANDS:
        sub = commands.add_parser(
            command.name,
            help=command.help,
            description=command.help[0].upper() + command.help[1:] + ".",
            epilog=EXIT,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        for argument in (*command.arguments, JSON):
            more = dict(argument.more)
            if "type" in more:
                more["type"] = TYPES[more["type"]]
            sub.add_argument(*argument.names, help=argument.help, **more)
        sub.set_defaults(module=command.module)
    return top


def parsed(argv: list[str]) -> argparse.Namespace:
    """The arguments as a command understands them, in `called` as they came; SystemExit with status 2 if it does not,
    and what may be meant."""
    top = parser()
    names = [command.name for command in COMMANDS]
    if argv and not argv[0].startswith("-") and argv[0] not in names:
        top.error(f"there is no command {argv[0]}. {_meant(argv[0], names, 'Commands')}")
    arguments, left = top.parse_known_args(argv)
    options = [each for each in left if each.startswith("-")]
    if options:
        name = options[0].partition("=")[0]
        command = next(command for command in COMMANDS if command.module == arguments.module)
        named = (each for argument in (*command.arguments, JSON) for each in argument.names)
        known = [each for each in named if each.startswith("-")]
        top.error(f"{command.name} has no option {name}. {_meant(name, [*known, '--help'], 'Options')}")
    if left:
        top.error(f"one argument is too much: {left[0]}")
    arguments.called = argv
    return arguments


def _meant(name: str, known: list[str], what: str) -> str:
    close = near(name, known)
    return f"Did you mean {' or '.join(close)}?" if close else f"{what}: {', '.join(known)}."
