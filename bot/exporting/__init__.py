"""What people have sent to the team, in one file to take away: table, pages, documents.

What may go out is decided by `bot.care.sent`, and looked at once more right before the file gets
its name. The same facts, settings and key give the same bytes. For research everything is made
from records that name nobody, not cut out of files that do.
"""

from bot.exporting.choosing import Chosen, Sent, Wanted, gather
from bot.exporting.disguise import Disguise
from bot.exporting.making import FORMS, Plan, entries, steps
from bot.exporting.packing import Packed, pack
from bot.exporting.releasing import release

__all__ = [
    "FORMS",
    "Chosen",
    "Disguise",
    "Packed",
    "Plan",
    "Sent",
    "Wanted",
    "entries",
    "gather",
    "pack",
    "release",
    "steps",
]
