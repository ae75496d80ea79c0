"""The trial reading: it proves that the cuff works, and that their way of typing is understood.

It is no part of a test, but the lines that stop one hold for it as well: very high numbers are
answered first, and prove nothing until they are lower.
"""

from dataclasses import replace
from enum import StrEnum

from bot.engine.asides import Draft
from bot.engine.buttons import part
from bot.engine.context import StopLines
from bot.engine.dialogues.enrolment import go_on
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import NO, YES
from bot.engine.drafts import grown
from bot.engine.effects import Urgency
from bot.engine.state import Enrolling
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.record import Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Problem, Several, Understood, Unreadable


class Caution(StrEnum):
    """What a reading at rest calls for care about."""

    HIGH = "high"
    LOW = "low"
    SLOW = "slow"
    FAST = "fast"


def caution(values: Values, lines: StopLines) -> Caution | None:
    """Return the line that numbers at rest cross, the gravest first; `None` for none.

    Args:
        values: The numbers; some may be missing.
        lines: The clinic's; those for lying down hold here, too.
    """
    systolic, diastolic, rate = values.systolic, values.diastolic, values.heart_rate
    if (systolic is not None and systolic >= lines.systolic_from) or (
        diastolic is not None and diastolic >= lines.diastolic_from
    ):
        return Caution.HIGH
    if systolic is not None and systolic < lines.supine_systolic_below:
        return Caution.LOW
    if rate is not None and rate < lines.supine_rate_below:
        return Caution.SLOW
    if rate is not None and rate >= lines.supine_rate_from:
        return Caution.FAST
    return None


def take_words(turn: Turn, stage: Enrolling, text: str, source: str, heard: Word | None) -> bool:
    """Take what was typed as the trial reading. Returns False if it holds no numbers."""
    if stage.doubted and heard in (Word.YES, Word.NO):
        return take_choice(turn, stage, YES if heard is Word.YES else NO)
    known = Values() if stage.doubted else stage.draft.values
    outcome = read(text, known)
    match outcome:
        case Understood() | Doubtful() if _is_high(turn, outcome.values):
            _answer_high(turn, stage)
        case Understood():
            draft = Draft() if stage.doubted else stage.draft
            draft = grown(draft, outcome.values, text, source, turn.at)
            if draft.values.complete:
                accept(turn, draft)
            else:
                turn.stay(replace(stage, draft=draft, doubted=False))
                orient(turn)
        case Doubtful(suggested=None):
            draft = grown(Draft(), outcome.values, text, source, turn.at)
            turn.stay(replace(stage, draft=draft, doubted=outcome.values.complete))
            orient(turn)
        case Doubtful():
            turn.stay(replace(stage, draft=Draft(), doubted=False))
            orient(turn, part("trial.odd", numbers=echo(outcome.values)))
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Several(readings=readings) if any(_is_high(turn, values) for values in readings):
            _answer_high(turn, stage)
        case Several() | Unreadable():
            turn.stay(replace(stage, draft=Draft(), doubted=False))
            orient(turn, part("trial.unclear"))
    return True


def accept(turn: Turn, draft: Draft) -> None:
    """The reading is whole, and right however odd it looks: go on, with a word of care if due."""
    turn.know(tried=True)
    values = draft.values
    found = caution(values, turn.context.stop_lines)
    care = () if found is None else (part(f"trial.{found}", numbers=echo(values)),)
    turn.say(part("trial.good", numbers=echo(values)), *care)
    go_on(turn)


def take_choice(turn: Turn, stage: Enrolling, choice: str) -> bool:
    """Take the answer to whether odd numbers are right. False if that was not asked."""
    if not stage.doubted:
        return False
    if choice == YES:
        accept(turn, stage.draft)
    else:
        turn.stay(replace(stage, draft=Draft(), doubted=False))
        orient(turn)
    return True


def _is_high(turn: Turn, values: Values) -> bool:
    return caution(values, turn.context.stop_lines) is Caution.HIGH


def _answer_high(turn: Turn, stage: Enrolling) -> None:
    """Say what to do about very high numbers; the trial is still to be done."""
    turn.stay(replace(stage, draft=Draft(), doubted=False))
    orient(turn, part("trial.high"), urgency=Urgency.SAFETY)
