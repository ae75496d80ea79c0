"""What a message says that cannot wait, in every shipped language at once.

The seam is `hear`: a call for help, a faint that is near, or nothing, and whether it is in doubt.
`unwell` hears the lesser words. Pure; rapidfuzz measures how far a word is from one that is known.

One step a module: `folding` (text into words), `lexicon` and `splitting` (which known words a word
may be, however it is spelt), `patterns` (phrases and where they stand), `doubting` (denied, past,
asked about …), `listening` (all of it). What is listened for is data: `english` and `spanish`, one
module a language; a new language is one more module in `languages`.
"""

from bot.distress.heard import Doubt, Grade, Heard, Kind
from bot.distress.listening import hear, hear_all, unwell

__all__ = ["Doubt", "Grade", "Heard", "Kind", "hear", "hear_all", "unwell"]
