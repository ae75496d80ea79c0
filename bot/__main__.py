"""`python -m bot` is `wallside`."""

import os
import signal
import sys


def run() -> None:
    """Run the command line; one who is asked to end while it still begins ends as asked.

    A supervisor's SIGTERM is no failure of `serve`. Until it listens for it, there is nothing yet
    that could be lost.
    """
    if sys.argv[1:2] == ["serve"]:
        signal.signal(signal.SIGTERM, lambda *_: os._exit(0))
    from bot.cli import main  # noqa: PLC0415 - importing it takes long

    main()


if __name__ == "__main__":
    run()
