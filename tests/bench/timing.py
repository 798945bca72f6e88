"""Times in milliseconds, and how they are printed.

Work in this process is timed by its own processor time, which other programs on the machine do not lengthen.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable, Iterable, Sequence

from tests.standin.load import percentile


def milliseconds(work: Callable[[], object]) -> float:
    """The processor time of one call."""
    began = time.thread_time_ns()
    work()
    return (time.thread_time_ns() - began) / 1e6


def spread(times: Sequence[float]) -> str:
    """Median, 95th percentile and worst of some times."""
    ordered = sorted(times)
    middle, late = statistics.median(ordered), percentile(ordered, 0.95)
    return f"median {middle:.2f} ms, p95 {late:.2f} ms, worst {ordered[-1]:.2f} ms"


def heading(text: str) -> None:
    print(f"\n{text}\n{'-' * len(text)}")


def table(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """Rows under their columns: words to the left, numbers to the right, two decimals."""
    cells = [[f"{cell:.2f}" if isinstance(cell, float) else str(cell) for cell in row] for row in rows]
    widths = [max(len(row[i]) for row in [list(columns), *cells]) for i in range(len(columns))]
    for row in [list(columns), *cells]:
        print(
            "  ".join(
                cell.ljust(w) if i == 0 else cell.rjust(w) for i, (cell, w) in enumerate(zip(row, widths, strict=True))
            )
        )
