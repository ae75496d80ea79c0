"""Symptoms, told at any time; they keep their time and the phase they came in."""

from dataclasses import replace
from datetime import timedelta

from bot.engine.asides import ConfirmingReading, NamingSymptom, RatingSymptom
from bot.engine.buttons import part
from bot.engine.dialogues.closing import put_down
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.stopping import line_with_symptoms, near_faint, on_the_clock
from bot.engine.effects import Part, Term
from bot.engine.hearing import SymptomHeard
from bot.engine.state import Booked, Finished, Idle, Resting
from bot.engine.turn import Turn
from bot.protocol.definition import Position
from bot.protocol.record import Symptom, SymptomReport
from bot.readings import echo

STRONG = 7
"""From this strength on, a standing person is reminded how to stop (design choice)."""

NOTED_FOR = timedelta(minutes=30)
"""So long after a test symptoms still go into its result (design choice)."""


def ask_which(turn: Turn) -> None:
    """Ask which symptom, if there is a test to note it in. Numbers in doubt are let go of."""
    if not _may_note(turn):
        return
    match turn.aside:
        case ConfirmingReading(target=None, draft=draft) if turn.running is not None:
            turn.put(NamingSymptom(doubted=draft))
            orient(turn, part("doubt.dropped", numbers=echo(draft.values)))
        case _:
            turn.put(NamingSymptom())
            orient(turn)


def _may_note(turn: Turn) -> bool:
    """Whether a test runs or has only just ended; if not, say when symptoms are noted."""
    record = turn.record
    if record is not None and (record.ended_at is None or turn.at - record.ended_at <= NOTED_FOR):
        return True
    enrolled = turn.conversation.profile.enrolled
    orient(turn, part("symptoms.later" if enrolled else "symptom.no-test"))
    return False


def tell(turn: Turn, heard: tuple[SymptomHeard, ...], words: str | None) -> None:
    """Note symptoms and answer; ask for the strength of the last one if it was not said."""
    if not _may_note(turn):
        return
    noted = note(turn, heard, words)
    if heard[-1].strength is None:
        noted = noted[:-1]
    if turn.running is not None and any(s.symptom is Symptom.FAINT for s in heard):
        near_faint(turn)
        return
    if line_with_symptoms(turn):
        return
    if heard[-1].strength is None:
        turn.put(RatingSymptom(index=len(turn.held_record.symptoms) - 1))
        orient(turn, *noted)
    else:
        turn.drop()
        answer(turn, noted)


def note(turn: Turn, heard: tuple[SymptomHeard, ...], words: str | None) -> tuple[Part, ...]:
    """Put symptoms into the record; return the words that say so for those with a strength."""
    record = turn.held_record
    clock = on_the_clock(turn)
    reports = tuple(
        SymptomReport(
            symptom=symptom.symptom,
            words=words,
            strength=symptom.strength,
            told_at=turn.at,
            position=clock.phase.position if clock else None,
            offset=turn.at - clock.phase_started_at if clock else None,
        )
        for symptom in heard
    )
    put_down(turn, replace(record, symptoms=(*record.symptoms, *reports)))
    return tuple(part_ for symptom in heard for part_ in _noted(turn, symptom))


def take_strength(turn: Turn, aside: RatingSymptom, strength: int) -> None:
    """Keep how strong the symptom is."""
    record = turn.held_record
    report = replace(record.symptoms[aside.index], strength=strength)
    rated = (*record.symptoms[: aside.index], report, *record.symptoms[aside.index + 1 :])
    put_down(turn, replace(record, symptoms=rated))
    turn.drop()
    answer(turn, _noted(turn, SymptomHeard(symptom=report.symptom, strength=strength)))


def answer(turn: Turn, parts: tuple[Part, ...]) -> None:
    """Say that something was noted, and put the open question again if there is one."""
    if turn.aside is None and isinstance(turn.stage, Idle | Booked | Finished | Resting):
        turn.say(*parts)
    else:
        orient(turn, *parts)


def _noted(turn: Turn, heard: SymptomHeard) -> tuple[Part, ...]:
    name, strength = Term(f"symptom.{heard.symptom}"), heard.strength
    if strength is None:
        return (part("symptom.noted-plain", symptom=name),)
    said = part("symptom.noted", symptom=name, strength=strength)
    standing = turn.running is not None and turn.running.phase.position is Position.STANDING
    return (said, part("symptom.strong")) if standing and strength >= STRONG else (said,)
