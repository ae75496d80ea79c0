"""Words into numbers: what a typed message says about pressure and heart rate.

The seam is `bot.readings.read(text, known)`; see `outcome` for what it returns.
Pure: no clock, no state, never raises on any text.

One step a module: `tokens` (text into words, numbers, marks), `strangers` (telephones, addresses
and ages taken out), `spelling` (slips in labels put right; `slips`: what one slip is), `hearing`
(dictation put right), `numerals` (number words into numbers),
`labels` (the vocabulary, whose words stand in `languages`, one module each) and `elements` (tokens
with their roles; `absence`: numbers said to be missing), `shapes` and `dissection` (numbers as
they hang together, as `pieces`), `context` (the words around them), `binding` (which label names
which number), `grammar` (the reading they make, as `drafts`), `plausibility` (is it one), `taking`
(the way to take a message that stands out, or a question; `idioms` and `orphans` keep it from what
is no reading or belongs to another label). `evidence` looks a second time: it reads what is plain
by the labels right beside each number (`accounts`, `claims`) whatever words are around, and asks
where a number is left that nothing accounts for. `reading` puts them together: `plain` (the
commonest forms at a glance), `instead` and `repairs` (corrections, and messages that lean on
earlier numbers), `parting` (messages of two parts). `saying` turns numbers back into words.
"""

from bot.readings.reading import read
from bot.readings.saying import echo, example

__all__ = ["echo", "example", "read"]
