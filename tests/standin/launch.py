"""Start the real bot, or the bare one, as its own process that talks to a stand-in.

python -m tests.standin.launch --base http://127.0.0.1:PORT -- run --config FILE
python -m tests.standin.launch --base http://127.0.0.1:PORT --bare
"""

from __future__ import annotations

import argparse
import sys

from tests.standin import guard
from tests.standin.point import point_at


def main(argv: list[str] | None = None) -> int:
    own, rest = _split(sys.argv[1:] if argv is None else argv)
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--base", required=True, help="address of the stand-in")
    parser.add_argument("--bare", action="store_true", help="the bare bot instead of the real one")
    options = parser.parse_args(own)
    guard.install()
    point_at(options.base)
    if options.bare:
        from tests.standin.bare import main as bare_main

        return bare_main()
    # imported late: it must find the addresses changed, and the bare bot must not pay for it
    from bot.__main__ import main as bot_main

    return int(bot_main(rest) or 0)


def _split(argv: list[str]) -> tuple[list[str], list[str]]:
    """Own arguments, and those after -- for the bot."""
    if "--" not in argv:
        return argv, []
    place = argv.index("--")
    return argv[:place], argv[place + 1 :]


if __name__ == "__main__":
    sys.exit(main())
