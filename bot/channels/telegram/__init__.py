"""Telegram: python-telegram-bot as transport only, with our own polling loop.

Its own updater acknowledges updates before they are durable; ours does so after the commit.
"""

import os

# Ask the library for lengths of time as `timedelta`, its coming default, before it is imported.
os.environ.setdefault("PTB_TIMEDELTA", "true")
