"""python -m tests.bench [part ...] [--rounds N]: print what it all costs. Nothing passes or fails here."""

from __future__ import annotations

import argparse
import gc
import os
import platform
from collections.abc import Callable

from tests.bench import core_part, library_part, process_part
from tests.standin import guard

PARTS: dict[str, Callable[[int], None]] = {
    "core": core_part.core,
    "sums": core_part.sums,
    "tables": core_part.tables,
    "corpus": core_part.corpus,
    "library": library_part.library,
    "imports": library_part.imports,
    "start": process_part.start,
    "cpu": process_part.cpu,
    "locked": process_part.locked,
}


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("parts", nargs="*", metavar="part", help=f"any of {', '.join(PARTS)} (all, if none is named)")
    parser.add_argument("--rounds", type=int, default=5, help="rounds of each measurement (default 5)")
    options = parser.parse_args()
    unknown = set(options.parts) - set(PARTS)
    if unknown:
        parser.error(f"no part {', '.join(sorted(unknown))}; there are {', '.join(PARTS)}")
    guard.install()
    gc.collect()
    gc.freeze()  # as the service does at its start; else one call pays for all that the tests' modules hold
    print(
        f"Python {platform.python_version()}, {os.cpu_count()} processors, load {os.getloadavg()[0]:.1f} at the start"
    )
    for name, part in PARTS.items():
        if not options.parts or name in options.parts:
            part(options.rounds)


if __name__ == "__main__":
    main()
