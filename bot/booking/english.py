"""English words for days and times: names and abbreviations of CLDR, and other usual ones."""

from typing import Final

from bot.booking.words import Language, Role, Stretch, listed

_UNITS: Final = listed("zero one two three four five six seven eight nine")
_TEENS: Final = listed(
    "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
)
_TENS: Final = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50}
_ORDINALS: Final = listed(
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth "
    "fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth"
)
_WEEKDAYS: Final = listed("monday tuesday wednesday thursday friday saturday sunday")
_MONTHS: Final = listed(
    "january february march april may june july august september october november december"
)

_NUMBERS: Final = {word: number for number, word in enumerate([*_UNITS, *_TEENS])} | _TENS
_ORDINAL: Final = {word: number for number, word in enumerate(_ORDINALS, start=1)}

ENGLISH: Final = Language(
    numbers=_NUMBERS
    | {
        f"{tens} {word}": value + unit
        for tens, value in _TENS.items()
        for unit, word in enumerate(_UNITS)
        if unit
    },
    ordinals=_ORDINAL
    | {f"twenty {word}": 20 + _ORDINAL[word] for word in _ORDINALS[:9]}
    | {"thirtieth": 30, "thirty first": 31},
    weekdays={word: number for number, word in enumerate(_WEEKDAYS)}
    | {
        "mon": 0,
        "tue": 1,
        "tues": 1,
        "wed": 2,
        "weds": 2,
        "wensday": 2,
        "thu": 3,
        "thur": 3,
        "thurs": 3,
    }
    | {"fri": 4, "sat": 5, "sun": 6},
    months={word: number for number, word in enumerate(_MONTHS, start=1)}
    | {word[:3]: number for number, word in enumerate(_MONTHS, start=1)}
    | {"sept": 9},
    ahead={
        "today": 0,
        "tomorrow": 1,
        "tommorow": 1,
        "tmrw": 1,
        "tmr": 1,
        "day after tomorrow": 2,
        "yesterday": -1,
        "day before yesterday": -2,
    },
    stretches={
        "morning": Stretch.MORNING,
        "in the morning": Stretch.MORNING,
        "in the am": Stretch.MORNING,
        "afternoon": Stretch.AFTERNOON,
        "in the afternoon": Stretch.AFTERNOON,
        "evening": Stretch.EVENING,
        "in the evening": Stretch.EVENING,
        "night": Stretch.NIGHT,
        "at night": Stretch.NIGHT,
        "noon": Stretch.MIDDAY,
        "midday": Stretch.MIDDAY,
        "mid day": Stretch.MIDDAY,
        "midnight": Stretch.MIDNIGHT,
        "am": Stretch.AM,
        "pm": Stretch.PM,
    },
    todays={
        "tonight": Stretch.NIGHT,
        "this morning": Stretch.MORNING,
        "this afternoon": Stretch.AFTERNOON,
        "this evening": Stretch.EVENING,
    },
    weeks={"this week": 0, "next week": 1},
    units={
        "minute": 1,
        "minutes": 1,
        "min": 1,
        "mins": 1,
        "hour": 60,
        "hours": 60,
        "hr": 60,
        "hrs": 60,
        "h": 60,
        "day": 1440,
        "days": 1440,
        "week": 10080,
        "weeks": 10080,
        "week's": 10080,
        "fortnight": 20160,
    },
    lengths={"half an hour": 30, "half hour": 30},
    plain={
        Role.NEXT: frozenset({"next"}),
        Role.THIS: frozenset({"this", "coming", "this coming"}),
        Role.AT: frozenset(
            {"at", "@", "for", "at around", "at about", "it to", "move to", "change to"}
        ),
        Role.ON: frozenset({"on"}),
        Role.THE: frozenset({"the"}),
        Role.OF: frozenset({"of"}),
        Role.A: frozenset({"a", "an"}),
        Role.AND: frozenset({"and"}),
        Role.OR: frozenset({"or"}),
        Role.IN: frozenset({"in"}),
        Role.FROM_NOW: frozenset({"from now", "from today"}),
        Role.PAST: frozenset({"past", "after"}),
        Role.TO: frozenset({"to", "till", "til"}),
        Role.TOWARDS: frozenset({"to"}),
        Role.HALF: frozenset({"half"}),
        Role.QUARTER: frozenset({"quarter"}),
        Role.OH: frozenset({"oh"}),
        Role.HOUR_MARK: frozenset({"o'clock", "oclock", "o clock", "h", "hr", "hrs"}),
        Role.OF_HOURS: frozenset({"am", "pm", "in the am", "at night"})
        | {"in the morning", "in the afternoon", "in the evening"},
        Role.NOON: frozenset({"noon", "midday", "mid day"}),
        Role.MIDNIGHT: frozenset({"midnight"}),
    },
    soft=frozenset(
        listed(
            """
            about again around available be best better bit book booking can change could do
            does easier exactly fine free go good great hello here hey hi i i'd i'll i'm ideally
            instead is ish it it'll it's just kindly let's lets like love make maybe me move
            my nice now ok okay perhaps phone plan please possible possibly prefer preferably
            prompt reschedule say says sharp should so sounds suit suits sure thank thanks that
            that's then think time try want we well will with work works would yeah yep yes you
            """
        )
    )
    | {
        "i am",
        "if possible",
        "if you can",
        "if i can",
        "if that works",
        "if it works",
        "if that's ok",
        "want to",
        "like to",
        "love to",
        "prefer to",
        "to do",
        "to book",
        "to go",
        "the test",
        "my test",
        "a test",
        "test",
        "for me",
        "thank you",
        "how about",
        "what about",
        "good morning",
        "good afternoon",
        "good evening",
        "is good",
        "right now",
        "the clock",
        "my clock",
        "my phone",
        "see you",
    },
    others=frozenset({f"{word}s" for word in _WEEKDAYS})
    | {"mornings", "afternoons", "evenings", "nights", "at once", "match"},
)
