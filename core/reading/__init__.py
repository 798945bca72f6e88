"""From plain words to a question: amounts, what each is of, and what is asked."""

from __future__ import annotations

from core.reading.read import Understood, read

__all__ = ["Understood", "read"]
