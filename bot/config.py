"""Settings from a TOML file and the environment, built once at start and passed in. The token is never printed."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import platformdirs

TOKEN = "DISCORD_TOKEN"
TOKEN_FILE = "DISCORD_TOKEN_FILE"
KNOWN = {
    "database": str,
    "token_file": str,
    "log_level": str,
    "shard_count": int,
    "shard_ids": list,
    "health_port": int,
}
LEVELS = ("DEBUG", "INFO", "WARNING", "ERROR")


class ConfigError(ValueError):
    """The settings can't be used; the message says which and what to do."""


@dataclass(frozen=True, slots=True)
class Secret:
    """A text that never shows itself."""

    _text: str = field(repr=False)

    def reveal(self) -> str:
        """The text itself, for the one place that needs it."""
        return self._text

    def __str__(self) -> str:
        return "********"


@dataclass(frozen=True, slots=True)
class Config:
    """`token` is None where none was given; `shard_ids` None means all of `shard_count` (None: Discord decides)."""

    database: Path
    token: Secret | None = None
    log_level: str = "INFO"
    shard_count: int | None = None
    shard_ids: tuple[int, ...] | None = None
    health_port: int | None = None


def default_database() -> Path:
    """Where the local library lives: the user's own data folder."""
    return Path(platformdirs.user_data_dir("steelyard", appauthor=False)) / "library.db"


def load(path: Path | None, environ: Mapping[str, str] | None = None, database: Path | None = None) -> Config:
    """The settings of the file at `path` (none: defaults), the environment and `--db`. Raises ConfigError."""
    env = os.environ if environ is None else environ
    table = _read(path) if path is not None else {}
    for key, value in table.items():
        if key not in KNOWN:
            raise ConfigError(f"The settings file has an unknown line “{key}”. Known: {', '.join(KNOWN)}.")
        if not isinstance(value, KNOWN[key]) or isinstance(value, bool):
            raise ConfigError(f"The setting “{key}” must be {KNOWN[key].__name__}, as in config.example.toml.")
    level = table.get("log_level", "INFO").upper()
    if level not in LEVELS:
        raise ConfigError(f"log_level must be one of {', '.join(LEVELS)}.")
    base = path.parent if path is not None else Path()
    chosen = database or (base / table["database"] if "database" in table else default_database())
    return Config(
        database=chosen.expanduser(),
        token=_token(env, base / table["token_file"] if "token_file" in table else None),
        log_level=level,
        **_shards(table),
        health_port=table.get("health_port"),
    )


def _read(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_text("utf-8"))
    except FileNotFoundError:
        raise ConfigError(f"There is no settings file {path}. Copy config.example.toml and name it.") from None
    except (OSError, UnicodeDecodeError) as error:
        raise ConfigError(f"The settings file {path} can't be read: {type(error).__name__}.") from None
    except tomllib.TOMLDecodeError as error:
        raise ConfigError(f"The settings file {path} is not valid TOML: {error}.") from None


def _shards(table: Mapping[str, Any]) -> dict[str, Any]:
    count, ids = table.get("shard_count"), table.get("shard_ids")
    if ids is not None:
        if count is None or not ids or not all(isinstance(i, int) and 0 <= i < count for i in ids):
            raise ConfigError("shard_ids needs shard_count, and each id from 0 to one less than it, such as [0, 1].")
        return {"shard_count": count, "shard_ids": tuple(sorted(set(ids)))}
    if count is not None and count < 1:
        raise ConfigError("shard_count must be 1 or more.")
    return {"shard_count": count, "shard_ids": None}


def _token(env: Mapping[str, str], named: Path | None) -> Secret | None:
    if env.get(TOKEN, "").strip():
        return Secret(env[TOKEN].strip())
    file = Path(env[TOKEN_FILE]) if env.get(TOKEN_FILE) else named
    if file is None:
        return None
    try:
        text = file.expanduser().read_text("utf-8").strip()
    except OSError as error:
        raise ConfigError(f"The token file {file} can't be read: {type(error).__name__}.") from None
    if not text:
        raise ConfigError(f"The token file {file} is empty.")
    return Secret(text)
