"""What holds for phrases of any kind."""

import unicodedata
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from babel.dates import format_date, format_datetime, format_time, get_day_names, get_month_names
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.booking.english import ENGLISH
from bot.booking.phrases import Reason, Unclear, When, read_time, read_times, read_when
from bot.booking.spanish import SPANISH
from tests.booking import test_english_phrases, test_spanish_phrases
from tests.booking.saying import WEDNESDAY, rows

LOCALES = ["en", "en_GB", "es", "es_MX", "es_US"]
PHRASES = [p for p, _ in rows(test_english_phrases.TABLE + test_spanish_phrases.TABLE)]
YEAR_END = datetime(2026, 12, 10, 21, 40, tzinfo=ZoneInfo("America/Mexico_City"))
TIMES = [time(7), time(8, 30), time(9, 5), time(10), time(11, 45), time(12), time(14), time(16, 30)]

WORDS = st.sampled_from(
    sorted(
        {
            word
            for language in (ENGLISH, SPANISH)
            for words in (
                language.numbers,
                language.ordinals,
                language.weekdays,
                language.months,
                language.ahead,
                language.stretches,
                language.todays,
                language.weeks,
                language.units,
                language.lengths,
                language.others,
                *language.plain.values(),
            )
            for word in words
        }
        | {"9", "09", "930", "0830", "2026", "31", "7/3", "8-10", "8:30", "9.15", "1/2/2026", "7th"}
        | {",", ".", "-", "½", "xyzzy", "2026-03-07", "24", "0", "a.m.", "99999999999999999999"}
    )
)


# -- names, against an independent source


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("width", ["wide", "abbreviated"])
@pytest.mark.parametrize("context", ["format", "stand-alone"])
def test_every_day_name_is_known(language: str, width: str, context: str) -> None:
    """The day names of CLDR, whole and abbreviated, are understood."""
    names = get_day_names(width, context=context, locale=language)  # type: ignore[arg-type]
    for weekday, name in names.items():
        for written in (name, f"{name}.", name.upper()):
            outcome = read_when(f"{written} 18:30", YEAR_END + timedelta(days=weekday))
            days = [outcome] if isinstance(outcome, When) else outcome.options
            assert {x.day.weekday() for x in days if x.day} == {weekday}, written


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("width", ["wide", "abbreviated"])
@pytest.mark.parametrize("context", ["format", "stand-alone"])
def test_every_month_name_is_known(language: str, width: str, context: str) -> None:
    """The month names of CLDR, whole and abbreviated, are understood."""
    names = get_month_names(width, context=context, locale=language)  # type: ignore[arg-type]
    for month, name in names.items():
        for written in (name, f"{name}.", name.upper()):
            outcome = read_when(f"7 {written} 2027 18:30", YEAR_END)
            assert outcome == When(day=date(2027, month, 7), time=time(18, 30)), written


def _spellings(day: date, clock: time, locale: str) -> list[str]:
    at = datetime.combine(day, clock, tzinfo=UTC)
    shown = format_time(at, "short", locale=locale, tzinfo=UTC)
    dates = [format_date(day, width, locale=locale) for width in ("full", "long")]
    de = "'de'" if locale.startswith("es") else ""
    dates += [
        format_date(day, pattern, locale=locale)
        for pattern in (
            f"EEEE d {de} MMMM",
            f"d {de} MMMM",
            "EEE d MMM",
            "EEE, MMM d",
            "yyyy-MM-dd",
        )
    ]
    return [f"{written}, {shown}" for written in dates] + [
        f"{shown} {dates[0]}",
        format_datetime(at, "EEEE d MMMM HH:mm", locale=locale, tzinfo=UTC),
    ]


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("now", [WEDNESDAY, YEAR_END], ids=["spring", "turn-of-year"])
def test_rendered_dates_come_back(locale: str, now: datetime) -> None:
    """A day and time of the next sixty days, as CLDR writes them, is read as just that."""
    for ahead in range(1, 61):
        day = now.date() + timedelta(days=ahead)
        for spelling in _spellings(day, TIMES[ahead % len(TIMES)], locale):
            outcome = read_when(spelling, now)
            meant = When(day=day, time=TIMES[ahead % len(TIMES)])
            asked = isinstance(outcome, Unclear) and meant in outcome.options
            # Only "mar", which is March and Tuesday in one, has to be asked about.
            assert outcome == meant or (asked and " mar" in spelling), spelling


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("width", ["short", "medium"])
def test_short_dates_come_back_or_are_asked_about(locale: str, width: str) -> None:
    """A date in digits is read right, or asked about with the right one among the options."""
    for ahead in range(61):
        day = YEAR_END.date() + timedelta(days=ahead)
        outcome = read_when(format_date(day, width, locale=locale), YEAR_END)
        options = [outcome] if isinstance(outcome, When) else list(outcome.options)
        assert When(day=day) in options
        if width == "short" and day.day > 12:
            assert options == [When(day=day)]


# -- any text


@settings(deadline=None)
@given(st.text(max_size=60))
def test_any_text_comes_to_something(text: str) -> None:
    """No text at all is an error, and none takes more than its reading."""
    assert isinstance(read_when(text, WEDNESDAY), When | Unclear)
    assert isinstance(read_time(text), time | Unclear)


@settings(deadline=None)
@given(st.lists(WORDS, max_size=40).map(" ".join))
def test_any_words_come_to_something(text: str) -> None:
    """No jumble of known words is an error; what is understood says something."""
    outcome = read_when(text, WEDNESDAY)
    if isinstance(outcome, When):
        assert outcome != When()
        assert outcome.time is None or outcome.part is None
    else:
        assert len(set(outcome.options)) == len(outcome.options)
        assert outcome.reason is Reason.MISMATCH or len(outcome.options) != 1
    said = read_times(text)
    assert isinstance(read_time(text), time) == (
        isinstance(said, tuple)
        and (len(said) == 1 or len({(t.hour % 12, t.minute) for t in said}) == 1)
    )


@settings(deadline=None)
@given(st.lists(WORDS, min_size=1, max_size=6), st.integers(0, 6))
def test_unknown_word_leaves_a_phrase_unread(words: list[str], place: int) -> None:
    """With a word that is not known anywhere in it, no phrase is taken."""
    text = " ".join([*words[:place], "xyzzy", *words[place:]])
    assert isinstance(read_when(text, WEDNESDAY), Unclear)


@pytest.mark.parametrize("joint", [" or ", " o "])
@settings(deadline=None)
@given(st.sampled_from(PHRASES), st.sampled_from(PHRASES))
def test_alternatives_are_never_taken(joint: str, first: str, second: str) -> None:
    """Two phrases with "or" between them are asked about."""
    assert isinstance(read_when(first + joint + second, WEDNESDAY), Unclear)


@pytest.mark.parametrize("phrase", PHRASES)
def test_writing_does_not_matter(phrase: str) -> None:
    """Capitals, missing accents, wide spaces, and courtesy change nothing."""
    plain = unicodedata.normalize("NFKD", phrase)
    bare = "".join(c for c in plain if unicodedata.category(c) != "Mn")
    meant = read_when(phrase, WEDNESDAY)
    for written in (
        phrase.upper(),
        bare,
        plain,
        phrase.replace(" ", "\u00a0"),
        f"  {phrase} \n",
        f"{phrase}, please!",
        f"hola, {phrase} por favor 🙏",
    ):
        read = read_when(written, WEDNESDAY)
        if isinstance(read, Unclear) and isinstance(meant, Unclear):
            assert (read.reason, read.options) == (meant.reason, meant.options)
        else:
            assert read == meant


# -- what is said back


@settings(deadline=None)
@given(
    st.integers(0, 60),
    st.times().map(lambda t: t.replace(second=0, microsecond=0)),
    st.datetimes(datetime(2024, 1, 1), datetime(2037, 1, 1)),  # noqa: DTZ001 - on a clock
    st.sampled_from(LOCALES),
)
def test_echo_is_read_as_itself(ahead: int, clock: time, now: datetime, locale: str) -> None:
    """Weekday, date and time as they are said back are read as the same day and time."""
    here = now.replace(tzinfo=ZoneInfo("Europe/Madrid"))
    day = here.date() + timedelta(days=ahead)
    half = f"{clock:%I:%M} {'am' if clock.hour < 12 else 'pm'}"
    for shown in (half, half.lstrip("0")):
        echo = f"{format_date(day, 'full', locale=locale)}, {shown}"
        assert read_when(echo, here) == When(day=day, time=clock)


def test_now_needs_a_zone() -> None:
    """Without the person's zone there is no today, so the call is refused."""
    with pytest.raises(ValueError, match="zone"):
        read_when("tomorrow", datetime(2026, 3, 4))  # noqa: DTZ001 - that is the point


def test_later_today_counts_real_hours() -> None:
    """In three hours is three hours by the world's time, also when the clocks change."""
    before = datetime(2026, 3, 29, 0, 30, tzinfo=ZoneInfo("Europe/Madrid"))
    assert read_when("in 3 hours", before) == When(day=date(2026, 3, 29), time=time(4, 30))


@pytest.mark.parametrize(
    ("text", "times"),
    [
        ("9:40", ["09:40", "21:40"]),
        ("09:40", ["09:40", "21:40"]),
        ("12:10", ["00:10", "12:10"]),
        ("12", ["00:00", "12:00"]),
        ("21.40", ["21:40"]),
        ("0:10", ["00:10"]),
        ("00:10", ["00:10"]),
        ("2140", ["21:40"]),
        ("940", ["09:40", "21:40"]),
        ("9:40 pm", ["21:40"]),
        ("9:40 PM.", ["21:40"]),
        ("9.40pm", ["21:40"]),
        ("12:10 am", ["00:10"]),
        ("it's 9:40 pm here", ["21:40"]),
        ("It is twenty to ten in the evening", ["21:40"]),
        ("quarter to ten", ["09:45", "21:45"]),
        ("quarter to ten at night", ["21:45"]),
        ("half nine", ["08:30", "09:30", "20:30", "21:30"]),
        ("noon", ["12:00"]),
        ("midnight", ["00:00"]),
        ("las 9 y media de la noche", ["21:30"]),
        ("son las nueve y cuarenta", ["09:40", "21:40"]),
        ("las 10 menos veinte de la noche", ["21:40"]),
        ("aquí son las 4 de la tarde", ["16:00"]),
        ("la una y diez", ["01:10", "13:10"]),
        ("16h40", ["16:40"]),
        ("mediodía", ["12:00"]),
    ],
)
def test_time_on_a_clock(text: str, times: list[str]) -> None:
    """What a person's clock shows is read, with both halves of the day where both fit."""
    read = read_times(text)
    assert isinstance(read, tuple)
    assert [f"{one:%H:%M}" for one in read] == times


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", Reason.NOTHING),
        ("I don't know", Reason.NOTHING),
        ("24:10", Reason.IMPOSSIBLE),
        ("9:75", Reason.IMPOSSIBLE),
        ("9 or 10", Reason.TOO_MANY),
        ("9:40 10:40", Reason.TOO_MANY),
        ("not 9:40", Reason.UNKNOWN_WORD),
        ("15:00 am", Reason.MISMATCH),
        ("Saturday", Reason.NOTHING),
        ("in 2 hours", Reason.NOTHING),
        ("9 " * 200, Reason.TOO_MANY),
    ],
)
def test_no_time_on_a_clock(text: str, reason: Reason) -> None:
    """What is no clock time is asked about, with the reason."""
    read = read_time(text)
    assert isinstance(read, Unclear)
    assert read.reason is reason


def test_bare_hour_of_a_clock_comes_as_written() -> None:
    """Where both halves fit, the plain answer is the time as it stands on a clock."""
    assert read_time("9:40") == time(9, 40)
    assert read_time("12:10") == time(12, 10)
    assert read_time("21:40") == time(21, 40)
