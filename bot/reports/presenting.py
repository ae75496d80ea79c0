"""From what the engine wants said to the message as a person sees it, words and files alike."""

from collections.abc import Sequence
from typing import assert_never

from bot.engine.effects import (
    Choice,
    Compare,
    Day,
    Form,
    Hand,
    HandBoard,
    HandCalendar,
    HandCopy,
    HandHandout,
    HandInvitation,
    HandSeries,
    OfferLink,
    Outgoing,
    Param,
    Part,
    Recall,
    Revise,
    Say,
    Trace,
)
from bot.protocol.record import TestRecord
from bot.reports import (
    File,
    Imprint,
    comparison_file,
    detail,
    known_as,
    make,
    summarise,
    trend_file,
)
from bot.reports.board import board_file
from bot.reports.comparison import compare
from bot.reports.copy import copy_of
from bot.reports.invitation import paper, picture
from bot.reports.trend import tell_trend
from bot.reports.typesetting import TooLongError
from bot.runtime.ports import Attachment, Bubble, Kept
from bot.texts import render


def present(effect: Outgoing, locale: str, kept: Kept | None = None) -> Bubble:
    """Return the message in a language. Slow for files; call it off the event loop.

    Args:
        effect: What to say.
        locale: The language.
        kept: What is kept of the person, for an effect that speaks of it.

    Raises:
        KeyError: The effect speaks of a test that is not kept.
    """
    match effect:
        case Say() | Revise():
            return Bubble(text=_text(effect.parts, locale), rows=_rows(effect.choices, locale))
        case Hand():
            imprint = Imprint(reference=effect.reference, generated=effect.at)
            return _result(effect, effect.record, imprint, locale)
        case Recall():
            return _result(effect, _record(kept, effect.test), _imprint(effect, kept), locale)
        case Compare():
            first, second = _record(kept, effect.first), _record(kept, effect.second)
            if effect.form is Form.SUMMARY:
                return Bubble(text=compare(first, second, locale))
            pages = comparison_file(first, second, _imprint(effect, kept), locale)
            return _file(pages, "comparison", locale)
        case Trace():
            records = [_record(kept, number) for number in effect.tests]
            file = trend_file(effect.form, records, _imprint(effect, kept), locale)
            if effect.form is Form.CHART:
                return _attached(file, tell_trend(records, locale))
            return _file(file, "trend", locale)
        case HandSeries(records=records):
            imprint = Imprint(reference=effect.reference, generated=effect.at)
            return _series(effect.form, records, imprint, locale)
        case HandCalendar(booking=booking, cancelled=cancelled, owner=owner):
            from bot.reports.calendar import calendar_file  # noqa: PLC0415 - its library is slow

            file = calendar_file(booking, locale, cancelled=cancelled, owner=owner)
            return _file(file, "calendar.cancelled" if cancelled else "calendar", locale)
        case OfferLink(link=link):
            return Bubble(text=_link(link, locale))
        case HandCopy():
            if kept is None:
                raise KeyError("nothing is kept")
            return _file(copy_of(kept), "copy", locale)
        case HandInvitation():
            return _invitation(effect)
        case HandHandout():
            return _handout(effect, locale)
        case HandBoard():
            return _file(board_file(effect, locale), "board", locale)
        case _:
            assert_never(effect)


def _series(form: Form, records: Sequence[TestRecord], imprint: Imprint, locale: str) -> Bubble:
    """Return two tests side by side, or three and more over time."""
    if form is Form.CHART:
        return _attached(trend_file(form, records, imprint, locale), tell_trend(records, locale))
    if len(records) == 2:
        return _file(comparison_file(records[0], records[1], imprint, locale), "comparison", locale)
    return _file(trend_file(form, records, imprint, locale), "trend", locale)


def _link(link: str | None, locale: str) -> str:
    """Return the message that a person can pass on as it stands."""
    if link is None:
        raise KeyError("the link has no code")
    key = "link.to-open" if link.startswith("https://") else "link.to-type"
    return render(key, {"link": link}, locale)


def _invitation(effect: HandInvitation) -> Bubble:
    """Return the picture with words in the language of the person invited, to be passed on."""
    key = "invitation.to-open" if effect.link else "invitation.to-type"
    params: dict[str, Param] = {
        "link": effect.link,
        "code": effect.code,
        "day": Day(effect.good_until),
    }
    file = picture(effect.reference, effect.link or effect.code)
    return _attached(file, render(key, params, effect.language))


def _handout(effect: HandHandout, locale: str) -> Bubble:
    named = {"reference": effect.reference}
    try:
        file = paper(effect)
    except TooLongError:
        return Bubble(text=render("care.handout.too-long", named, locale))
    return _attached(file, render("caption.handout", named, locale))


def _imprint(effect: Recall | Compare | Trace, kept: Kept | None) -> Imprint:
    """Return what the person is known as, and when the file was asked for."""
    reference = "" if kept is None else known_as(kept.conversation)
    return Imprint(reference=reference, generated=effect.at)


def _result(effect: Hand | Recall, record: TestRecord, imprint: Imprint, locale: str) -> Bubble:
    rows = _rows(effect.choices, locale)
    match effect.form:
        case Form.SUMMARY:
            return Bubble(text=summarise(record, locale), rows=rows)
        case Form.DETAILS:
            return Bubble(text=detail(record, locale), rows=rows)
        case _:
            return _file(make(effect.form, record, locale, imprint), str(effect.form), locale)


def _file(file: File, caption: str, locale: str) -> Bubble:
    return _attached(file, render(f"caption.{caption}", {}, locale))


def _attached(file: File, words: str) -> Bubble:
    return Bubble(
        text=words,
        attachment=Attachment(name=file.name, media_type=file.media_type, content=file.content),
    )


def _record(kept: Kept | None, number: int) -> TestRecord:
    for record in kept.results if kept else ():
        if record.number == number:
            return record
    raise KeyError(number)


def _text(parts: tuple[Part, ...], locale: str) -> str:
    return "\n".join(render(part.key, part.params, locale) for part in parts)


def _rows(
    choices: tuple[tuple[Choice, ...], ...], locale: str
) -> tuple[tuple[tuple[str, str], ...], ...]:
    return tuple(tuple((_label(choice, locale), choice.token) for choice in row) for row in choices)


def _label(choice: Choice, locale: str) -> str:
    label = render(choice.label, choice.params, locale)
    return f"✓ {label}" if choice.ticked else label
