"""The bot as it is installed: without the libraries that only the tests need."""

from __future__ import annotations

from pathlib import Path

ONLY_FOR_TESTS = ("numpy", "pandas", "scipy", "uncertainties")


def as_installed(folder: Path) -> dict[str, str]:
    """The environment of a bot that is installed without the libraries that only tests need.

    pint, rapidfuzz and sqlite-utils load numpy or pandas where they find them, which costs 40 MiB and 0.3 s.
    """
    hidden = folder / "without"
    hidden.mkdir()
    # Python runs this at its start; a module that is None counts as not there
    lines = ["import sys", *(f"sys.modules[{name!r}] = None" for name in ONLY_FOR_TESTS)]
    (hidden / "sitecustomize.py").write_text("\n".join(lines), "utf-8")
    return {"PYTHONPATH": str(hidden)}
