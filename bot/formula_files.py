"""Formulas as files on this machine, for the local chat and the command line. Discord has attachments instead."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import ClassVar

from bot.desk import COMMANDS
from core.action import Action, Actor
from core.actions.formula_files import NEED_FILE, ExportFormulas, ImportFormulas, told
from core.answer import Answer, Missing, Worked, line
from core.compounds import FormulaName, SeenBy, Words
from core.errors import BadInput, OutOfRange
from core.library import Library
from core.library.carrying import TakenOut
from core.library.portable import Portable
from core.library.portable_text import LARGEST_FILE, to_csv, to_json
from core.question import Question, slot

SHAPES: dict[str, Callable[[Iterable[Portable]], str]] = {".json": to_json, ".csv": to_csv}
NEED_NAME = replace(NEED_FILE, what=line("the name of the file"), how=line("Such as formulas.json or formulas.csv."))


@dataclass(frozen=True, slots=True, kw_only=True)
class ExportToFile(ExportFormulas):
    """Your formulas as a file, JSON or CSV: every version, every test, who may see them."""

    file: Words | None = slot("The file to make; its ending says which", example="formulas.json", required=True)

    def act(self, library: Library, actor: Actor) -> Answer:
        """Write the file, and further ones where one does not hold all. Nothing that is there is overwritten."""
        if not self.file:
            return Missing(intent=self.command, headline=line("Into which file?"), needs=(NEED_NAME,))
        path = Path(self.file).expanduser()
        if path.suffix.casefold() not in SHAPES:
            raise BadInput(self.file, "The file's name must end in .json or .csv, so that I know which to make.")
        answers: list[Worked] = []
        after = self.after
        while not answers or after:
            out = replace(self, after=after).take(library, actor)
            if not out.found:
                return told(out)
            name = path.with_stem(f"{path.stem}-{len(answers) + 1}") if answers else path
            _write(name, out)
            answer = told(out, more=False)
            answers.append(replace(answer, body=(line("In the file {}.", str(name)), *answer.body)))
            after = FormulaName(out.after)
        first, *rest = answers
        return replace(first, then=tuple(rest))


def _write(path: Path, out: TakenOut) -> None:
    """The file, whole or not at all."""
    text = SHAPES[path.suffix.casefold()](out.found)
    try:
        with path.open("x", encoding="utf-8", newline="") as file:
            try:
                file.write(text)
            except OSError:
                with contextlib.suppress(OSError):
                    path.unlink()
                raise
    except FileExistsError:
        raise BadInput(str(path), f"There is a file {path} already. Give another name; I overwrite nothing.") from None
    except (OSError, ValueError) as error:
        raise BadInput(
            str(path), f"I can't write {path}: {_why(error)}. Give a name in a folder that is there."
        ) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportFromFile(Action):
    """Record the formulas of a file that was exported here: all of it or nothing."""

    command: ClassVar[str] = ImportFormulas.command

    file: Words | None = slot("The file, JSON or CSV as exported here", example="formulas.json", required=True)
    seen_by: SeenBy | None = slot("Who may see them (as the file says, if left out)")

    def act(self, library: Library, actor: Actor) -> Answer:
        """Read the file and take it in."""
        if not self.file:
            return Missing(intent=self.command, headline=line("From which file?"), needs=(NEED_NAME,))
        return ImportFormulas(data=_read(Path(self.file).expanduser()), seen_by=self.seen_by).act(library, actor)


def _read(path: Path) -> bytes:
    """What the file holds; OutOfRange for more than is taken, before it is read."""
    try:
        if not path.is_file():
            raise BadInput(str(path), f"There is no file {path}. Check its name and folder.")
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, BadInput):
            raise
        raise BadInput(str(path), f"I can't read {path}: {_why(error)}.") from error
    if len(data) > LARGEST_FILE:
        raise OutOfRange(str(path), f"That file is too large: at most {LARGEST_FILE // 1024:,} KiB at a time.")
    return data


def _why(error: Exception) -> str:
    return (error.strerror or "") if isinstance(error, OSError) and error.strerror else "its name can't be used"


FILE_COMMANDS: dict[str, type[Question | Action]] = {kind.command: kind for kind in (ExportToFile, ImportFromFile)}
LOCAL_COMMANDS: dict[str, type[Question | Action]] = {**COMMANDS, **FILE_COMMANDS}
