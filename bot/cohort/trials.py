"""People of the cohort through the whole chain, in blocks that each have a chance of their own."""

from collections.abc import Sequence
from random import Random
from typing import Final

from bot.cohort.courses import Body
from bot.cohort.devices import draw_kit
from bot.cohort.people import draw_day, draw_person
from bot.cohort.preparation import prepare
from bot.cohort.taking import Taken, Test, take
from bot.cohort.tallies import (
    Against,
    Early,
    Forecast,
    Lasting,
    Seen,
    Subject,
    Tally,
    Verdict,
    what_is_said,
)
from bot.cohort.truth import (
    EARLY,
    Stood,
    Truth,
    fell,
    lines_reached,
    reached,
    rose_once,
    rose_twice,
    usual,
)
from bot.findings import Findings, Line, State, find
from bot.findings.certainty import Certainties, Certainty, certainty
from bot.findings.chances import Rule
from bot.findings.quality import Grade, quality
from bot.protocol.definition import Position, ProtocolRef
from bot.protocol.record import Reading, TestRecord
from bot.protocol.released import FOUR_READINGS, SIX_READINGS
from bot.reports.summary import summarise

BLOCK: Final = 50
"""People in a block. Fixed: it decides who is drawn from which chance."""

SUMMARISED: Final = 5
"""One test in so many is put into words."""

RETAKEN: Final = 2
"""One person in so many takes the test again on another day."""

_LANGUAGES: Final = ("en", "es")
_GONE_BY: Final = 5.0


def run_block(seed: int, block: int, people: int, protocols: Sequence[ProtocolRef]) -> Tally:
    """Return the tally of one block of people, each of whom takes a test by every protocol.

    Args:
        seed: Of the whole cohort.
        block: Which block, from 0.
        people: How many of the block, from its first.
        protocols: What each takes, all on one day.
    """
    chance = Random(f"{seed}/{block}")  # noqa: S311 - a simulation, and it has to come again
    tally = Tally()
    for place in range(people):
        _one(block * BLOCK + place, protocols, chance, tally)
    return tally


def _one(number: int, protocols: Sequence[ProtocolRef], chance: Random, tally: Tally) -> None:
    person = draw_person(chance)
    preparation, kit = prepare(chance), draw_kit(chance)
    day = draw_day(person, preparation, chance)
    own = usual(person.usual, person.age_band)
    found: dict[ProtocolRef, Findings] = {}
    for turn, protocol in enumerate(protocols):
        test = Test(person=person, day=day, kit=kit, preparation=preparation, protocol=protocol)
        taken = take(test, chance)
        findings = found[protocol] = find(taken.record)
        graded = quality(taken.record, findings).grade
        tally.tests[protocol.id, graded] += 1
        tally.heard.update(taken.heard)
        if taken.record.ending is not None:
            tally.endings[protocol.id, person.pattern, taken.record.ending] += 1
        _count(taken, findings, graded, own, tally)
        for subject in Subject:
            said = what_is_said(subject, findings)
            tally.seen[Seen(protocol.id, person.pattern, subject, said)] += 1
        sure = certainty(taken.record, findings)
        if taken.truth is not None:
            _foretell(sure, taken.truth, tally, hanging=preparation.hanging_arm)
        index = number * len(protocols) + turn
        if index % SUMMARISED == 0:
            language = _LANGUAGES[index // SUMMARISED % len(_LANGUAGES)]
            tally.summarised(language, summarise(taken.record, findings, language))
        if number % RETAKEN == 0:
            again = Test(
                person=person,
                day=draw_day(person, preparation, chance),
                kit=kit,
                preparation=preparation,
                protocol=protocol,
            )
            _another_day(sure, take(again, chance).record, tally)
    _early(found, own, tally)


def _count(taken: Taken, findings: Findings, graded: Grade, own: Truth, tally: Tally) -> None:
    truths = {Against.PERSON: own}
    if taken.truth is not None:
        truths[Against.READINGS] = taken.truth
    for against, truth in truths.items():
        lines = lines_reached(truth)
        for subject in Subject:
            if subject is Subject.ANY_FALL:
                true = bool(lines & {Line.CLASSICAL_FALL, Line.LATER_FALL})
            else:
                true = Line(subject) in lines
            said = what_is_said(subject, findings)
            protocol = taken.record.protocol.id
            tally.verdicts[Verdict(protocol, graded, subject, against, true, said)] += 1


def _foretell(sure: Certainties, truth: Truth, tally: Tally, *, hanging: bool) -> None:
    forecast = Forecast.TRUE_CHANGE_ARM_HANGING if hanging else Forecast.TRUE_CHANGE
    for one in sure.lines:
        true = _came_true(one, truth)
        tally.foretell(forecast, one.line, one.probability, true=true)
        tally.bands[one.line, one.band, true] += 1


def _another_day(sure: Certainties, record: TestRecord, tally: Tally) -> None:
    shown = _as_shown(record)
    if shown is None:
        return
    for one in sure.lines:
        expected = one.another_day.probability
        if expected is not None:
            true = _came_true(one, shown)
            tally.foretell(Forecast.ANOTHER_DAY, one.line, expected, true=true)


def _came_true(one: Certainty, truth: Truth) -> bool:
    """Return whether what a probability is of was there; a rise counts whatever the pressures."""
    if one.line is not Line.HEART_RATE_RISE:
        return reached(one.line, truth)
    return rose_twice(truth) if one.rule is Rule.TWO_CHANGES else rose_once(truth)


def _as_shown(record: TestRecord) -> Truth | None:
    """Return the numbers of a record as though they were true; `None` where the start lacks one."""
    supine = record.reading_for("supine-5")
    if supine is None or not supine.values.complete:
        return None
    return Truth(
        age_band=record.age_band,
        lying=_body(supine),
        seated=None,
        standing=tuple(
            Stood(
                minute=reading.offset.total_seconds() // 60,
                body=_body(reading),
                rate_read=reading.values.heart_rate is not None,
                pressures_read=reading.values.systolic is not None,
            )
            for reading in record.readings
            if reading.position is Position.STANDING
        ),
    )


def _body(reading: Reading) -> Body:
    values = reading.values
    return Body(
        float(values.heart_rate or 0), float(values.systolic or 0), float(values.diastolic or 0)
    )


def _early(found: dict[ProtocolRef, Findings], own: Truth, tally: Tally) -> None:
    """Count what both protocols make of an early fall that is the person's own."""
    if not {FOUR_READINGS.ref, SIX_READINGS.ref} <= found.keys():
        return
    if not fell(own, lambda minute: minute <= EARLY):
        return
    stays = fell(own, lambda minute: minute >= _GONE_BY)
    tally.early[
        Early(
            Lasting.STAYING if stays else Lasting.PASSING,
            _fall_found(found[FOUR_READINGS.ref]),
            _fall_found(found[SIX_READINGS.ref]),
        )
    ] += 1


def _fall_found(findings: Findings) -> Line | None:
    for line in (Line.CLASSICAL_FALL, Line.LATER_FALL):
        if findings.on(line).state is State.MET:
            return line
    return None
