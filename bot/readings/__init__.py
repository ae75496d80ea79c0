"""Words into numbers: what a typed message says about pressure and heart rate.

The seam is `bot.readings.read(text, known)`; see `outcome` for what it returns.
Pure: no clock, no state, never raises on any text.

One step a module: `tokens` (text into words, numbers, marks), `labels` (the vocabulary) and
`elements` (tokens with their roles), `shapes` and `dissection` (numbers as they hang together, as
`pieces`), `context` (the words around them), `binding` (which label names which number), `grammar`
(the reading they make, as `drafts`), `plausibility` (is it one), `reading` (the way to take a
message that stands out, or a question), `saying` (numbers back into words).
"""

from bot.readings.reading import read
from bot.readings.saying import echo, example

__all__ = ["echo", "example", "read"]
