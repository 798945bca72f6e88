"""What a group or a person has recorded: one SQLite file, scoped by space."""

from core.library.library import Library
from core.library.space import Space

__all__ = ["Library", "Space"]
