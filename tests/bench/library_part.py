"""The library as it grows from 1,000 to 100,000 records: looking up, completing; and what imports cost."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from core.library import Library
from tests.bench.installed import as_installed
from tests.bench.timing import heading, milliseconds, table
from tests.core.library.shelves import GROUP, filled
from tests.standin.load import percentile
from tests.standin.run import ROOT

SIZES = (1_000, 10_000, 100_000)
ASKED = 300  # of each kind of look-up
USER = "7"


def library(rounds: int) -> None:
    """Half materials, half formulas; names drawn from few words, so that many begin alike."""
    heading("Library: as it grows (aim: p95 at most 5 ms at 100,000)")
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for size in SIZES:
            rows += _grown(Library(Path(folder) / f"{size}.db"), size)
    table(("look-up", "records", "median ms", "p95 ms", "worst ms"), rows)


def _grown(library: Library, size: int) -> list[tuple[str, int, float, float, float]]:
    names = filled(library, size)
    draw = random.Random(7)
    materials = [draw.choice(names[::2]) for _ in range(ASKED)]
    formulas = [draw.choice(names[1::2]) for _ in range(ASKED)]

    def misspelt(name: str) -> str:
        place = draw.randrange(len(name) - 2)
        return name[:place] + name[place + 1] + name[place] + name[place + 2 :]

    kinds: dict[str, Callable[[int], object]] = {
        "a material by name": lambda n: library.book((GROUP,), USER).material(materials[n]),
        "a formula by name": lambda n: library.book((GROUP,), USER).formula(formulas[n]),
        "a name that is not there": lambda n: library.book((GROUP,), USER).material(f"nothing {n}"),
        "completing 1 letter": lambda n: library.book((GROUP,), USER).names("material", materials[n][:1]),
        "completing 4 letters": lambda n: library.book((GROUP,), USER).names("formula", formulas[n][:4]),
        "completing a slip": lambda n: library.book((GROUP,), USER).names("material", misspelt(materials[n])),
    }
    rows = []
    for kind, work in kinds.items():
        work(0)
        times = sorted(milliseconds(lambda n=n, w=work: w(n)) for n in range(ASKED))  # type: ignore[misc]
        rows.append((kind, size, percentile(times, 0.5), percentile(times, 0.95), times[-1]))
    library.close()
    return rows


def imports(rounds: int) -> None:
    """What loading each part costs a fresh interpreter: time and memory above a bare one."""
    heading("Imports: a fresh interpreter each, medians")
    code = (
        "import time; began = time.perf_counter(); {0}; "
        "took = time.perf_counter() - began; status = open('/proc/self/status').read(); "
        "print(took * 1000, int(status.split('VmRSS:')[1].split()[0]) / 1024)"
    )
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        env = {**os.environ, **as_installed(Path(folder))}
        for what in ("pass", "import core.units", "import core.reading", "import core.library", "import bot.client"):
            found = []
            for _ in range(max(3, rounds)):
                command = [sys.executable, "-c", code.format(what)]
                done = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, check=True)
                found.append(tuple(float(number) for number in done.stdout.split()))
            rows.append((what, *sorted(found)[len(found) // 2]))
    table(("import", "ms", "MiB in all"), rows)
