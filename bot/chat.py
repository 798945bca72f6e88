"""The local chat: the same desk as on Discord, in the terminal, without a server or a token."""

from __future__ import annotations

import itertools
import shutil
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

from bot.clock import now
from bot.desk import LOCAL, Desk
from bot.help import command_help, overview
from bot.text import page
from bot.unforeseen import answered

GREETING = """Steelyard: measurement questions for candle makers, answered by weight.
Three things to try:
  450 g soy wax at 8 %, how much fragrance?
  is 1 oz of fragrance oil the same as 1 fl oz?
  /batch fills:12 x 180g load:8%
Type “help” for everything, “quit” to leave."""

LEAVING = {"quit", "exit", "bye", ":q"}


def answer_text(text: str, desk: Desk, width: int = 0) -> str:
    """What the chat prints for one line typed."""
    word, _, rest = text.strip().partition(" ")
    if word.casefold() in ("help", "/help", "?"):
        named = rest.strip().removeprefix("/")
        return command_help(named, desk.commands) if named else overview(desk.commands)
    given = answered(desk, text, LOCAL, now())
    book = desk.book(LOCAL)
    shown = page(given, book.preferences, width)
    return f"{shown}\n{book.trouble}" if book.trouble else shown


def chat(desk: Desk, history: Path, first: str = "") -> int:
    """Talk until `quit` or the end of input, `first` being a question to begin with; 0 when it ends as it should."""
    print(GREETING, end="\n\n")
    typed = _typed(history, desk.commands) if sys.stdin.isatty() else _piped(sys.stdin)
    for text in itertools.chain(_piped([first] if first else []), typed):
        if text.strip().casefold() in LEAVING:
            break
        if text.strip():
            print(answer_text(text, desk, shutil.get_terminal_size().columns - 1), end="\n\n", flush=True)
    print("Goodbye. Weigh twice, pour once.")
    return 0


def _piped(stream: Iterable[str]) -> Iterator[str]:
    """Lines from a pipe, echoed so that what is printed reads as a conversation."""
    for text in stream:
        text = text.rstrip("\n")
        if text.strip():
            print(f"> {text}")
        yield text


def _typed(history: Path, commands: Iterable[str]) -> Iterator[str]:
    """Lines from a terminal, with editing, history and completion of the commands."""
    from prompt_toolkit import PromptSession
    from prompt_toolkit.completion import WordCompleter
    from prompt_toolkit.history import FileHistory, InMemoryHistory

    words = [f"/{command}" for command in commands] + ["help", "quit"]
    session: PromptSession[str] = PromptSession(
        history=FileHistory(str(history)) if _writable(history) else InMemoryHistory(),
        completer=WordCompleter(words, sentence=True),
        complete_while_typing=False,
    )
    while True:
        try:
            yield session.prompt("> ")
        except KeyboardInterrupt:
            continue
        except EOFError:
            return


def _writable(path: Path) -> bool:
    """Whether what was typed can be kept in a file beside the library, readable only by its owner."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch(mode=0o600)
    except OSError:
        return False
    return True
