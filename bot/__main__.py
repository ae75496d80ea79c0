"""`python -m bot` is `wallside`."""

from bot.cli import main

main()
