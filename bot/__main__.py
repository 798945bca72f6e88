"""The command line: chat, ask, run, sync, check, backup, restore, export, import."""

from __future__ import annotations

import argparse
import contextlib
import io
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from bot.config import Config, ConfigError, load
from core.errors import LibraryUnavailable

if TYPE_CHECKING:
    from core.action import Action

# Exit codes: 2 the command line or the settings are wrong, 1 something failed.
WRONG_USE, FAILED = 2, 1


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; every failure ends in one clear line and an exit code."""
    for stream in (sys.stdin, sys.stdout, sys.stderr):
        # Bytes that are no text, and signs that the terminal lacks, become a question mark, not an exception.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    options = parser().parse_args(argv)
    try:
        config = load(options.config, database=options.db)
        return int(COMMANDS[options.command](options, config))
    except ConfigError as error:
        return _complain(str(error), WRONG_USE)
    except LibraryUnavailable as error:
        return _complain(error.sentence, FAILED)
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # The reader has gone (`| head`): leave quietly, and keep Python from complaining about stdout at exit.
        with contextlib.suppress(OSError):
            sys.stdout = open("/dev/null", "w")  # noqa: SIM115
        return 0


def parser() -> argparse.ArgumentParser:
    """The command line's grammar."""
    top = argparse.ArgumentParser(
        prog="python -m bot", description="Measurement questions for candle makers, answered by weight."
    )
    shared = argparse.ArgumentParser(add_help=False)
    shared.add_argument("--config", type=Path, help="settings file, as config.example.toml")
    shared.add_argument("--db", type=Path, help="the library file (default: in your data folder)")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, says: str) -> argparse.ArgumentParser:
        return commands.add_parser(name, help=says, description=says, parents=[shared])

    chat = command("chat", "talk in the terminal; needs no server and no token")
    chat.add_argument("question", nargs="*", help="a first question, if you like")
    ask = command("ask", "answer one question, or with --json one a line from standard input")
    ask.add_argument("question", nargs="*", help="the question, in plain words or as /load wax:450g load:8%%")
    ask.add_argument("--json", action="store_true", help="one JSON object a line")
    command("run", "run the Discord bot")
    sync = command("sync", "register the slash commands with Discord")
    sync.add_argument("--guild", type=int, help="only in this server (at once; for trying out)")
    command("check", "look over the settings and the library, one line for each thing that is wrong")
    command("backup", "copy the library while it is in use").add_argument("target", type=Path)
    command("restore", "put a backup in the library's place").add_argument("source", type=Path)
    export = command("export", "write the formulas with their versions and tests to a file, .json or .csv")
    export.add_argument("target", help="the file to make; nothing is overwritten")
    export.add_argument("--formula", help="only this one")
    take_in = command("import", "take in the formulas of such a file: all of it or nothing")
    take_in.add_argument("source", help="the file")
    take_in.add_argument("--only-me", action="store_true", help="only you may see them")
    for each in (export, take_in):
        each.add_argument("--server", type=int, help="of the Discord server of that id, not of the local chat")
    return top


def _chat(options: argparse.Namespace, config: Config) -> int:
    from bot.chat import chat
    from bot.desk import Desk
    from bot.formula_files import LOCAL_COMMANDS
    from core.library import Library

    return chat(
        Desk(Library(config.database), commands=LOCAL_COMMANDS),
        config.database.with_suffix(".history"),
        " ".join(options.question),
    )


def _ask(options: argparse.Namespace, config: Config) -> int:
    from bot.ask_lines import ask_json, ask_once
    from bot.desk import Desk
    from bot.formula_files import LOCAL_COMMANDS
    from core.library import Library

    desk = Desk(Library(config.database), commands=LOCAL_COMMANDS)
    question = " ".join(options.question)
    if options.json:
        return ask_json([question] if options.question else sys.stdin, desk, sys.stdout)
    if not options.question:
        if sys.stdin.isatty():
            return _complain("What is the question? For example: python -m bot ask “450 g wax at 8 %”", WRONG_USE)
        question = sys.stdin.read()
    return ask_once(question, desk, sys.stdout)


def _run(options: argparse.Namespace, config: Config) -> int:
    from bot.service import run

    return run(config)


def _sync(options: argparse.Namespace, config: Config) -> int:
    from bot.service import sync

    return sync(config, options.guild)


def _check(options: argparse.Namespace, config: Config) -> int:
    from core.library import Library

    troubles = Library(config.database).check()
    if config.token is None:
        troubles.append("No token: set DISCORD_TOKEN (only `run` and `sync` need it; chat and ask do not).")
    for trouble in troubles:
        print(trouble)
    if not troubles:
        print("All is well: settings read, library sound, token given.")
    return FAILED if troubles else 0


def _backup(options: argparse.Namespace, config: Config) -> int:
    from core.library import Library

    Library(config.database).backup(options.target)
    print(f"Saved the library to {options.target}.")
    return 0


def _restore(options: argparse.Namespace, config: Config) -> int:
    from core.library import Library

    kept = Library(config.database).restore(options.source)
    print(f"Restored the library from {options.source}." + (f" The old one is kept as {kept}." if kept else ""))
    return 0


def _export(options: argparse.Namespace, config: Config) -> int:
    from bot.formula_files import ExportToFile
    from core.compounds import FormulaName, Words

    only = FormulaName(options.formula) if options.formula else None
    return _with_file(ExportToFile(file=Words(options.target), formula=only), options, config)


def _import(options: argparse.Namespace, config: Config) -> int:
    from bot.formula_files import ImportFromFile
    from core.compounds import SeenBy, Words

    seen_by = SeenBy.ME if options.only_me else None
    return _with_file(ImportFromFile(file=Words(options.source), seen_by=seen_by), options, config)


def _with_file(action: Action, options: argparse.Namespace, config: Config) -> int:
    """Do it on the local shelf, or on a server's for whoever runs the bot."""
    from bot.clock import now
    from bot.desk import LOCAL, Asker, Desk
    from bot.text import page
    from core.answer import Worked
    from core.book import Preferences
    from core.library import Library

    asker = LOCAL
    if options.server is not None:
        asker = Asker(user="local", name="whoever runs the bot", spaces=(f"guild:{options.server}",))
    answered = Desk(Library(config.database)).act(action, asker, now())
    text = page(answered, Preferences())
    if not isinstance(answered, Worked):
        return _complain(text, FAILED)
    print(text)
    return 0


COMMANDS = {
    "chat": _chat,
    "ask": _ask,
    "run": _run,
    "sync": _sync,
    "check": _check,
    "backup": _backup,
    "restore": _restore,
    "export": _export,
    "import": _import,
}


def _complain(sentence: str, code: int) -> int:
    print(sentence, file=sys.stderr)
    return code


if __name__ == "__main__":
    sys.exit(main())
