"""A companion's words in the person's own test: heard as the person's would be.

Words that cannot wait come first, whoever may type what. That somebody else writes is no sign that
the person is well: it does not end a silence, unless it brings what was waited for.
"""

from dataclasses import replace

from bot import distress
from bot.distress import Grade
from bot.engine import hearing
from bot.engine.asides import Aside, ConfirmingDistress, ConfirmingReading, ConfirmingStop, Draft
from bot.engine.buttons import part
from bot.engine.concern import Concern, concern_of, grade_beside
from bot.engine.dialogues import readings, recovering, silence, stopping
from bot.engine.dialogues.listening import words_edited, words_given
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.readings import Typed
from bot.engine.effects import Urgency
from bot.engine.letters import Outcome, Report
from bot.engine.linked import WordsRelayed
from bot.engine.post import tested
from bot.engine.profile import Companion, Share
from bot.engine.recovery import LyingDown, Recovery
from bot.engine.state import AwaitingReading, Stage
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.record import Reading
from bot.readings import echo


def take(turn: Turn, event: WordsRelayed) -> None:
    """Take the words of a companion, and tell them what became of these."""
    companions = turn.conversation.profile.companions
    companion = next((c for c in companions if c.id == event.by), None)
    if companion is None:
        return
    typed = Typed(event.text, f"{event.by}:{event.source}")
    concern = concern_of(event.text)
    if not tested(turn.conversation):
        turn.send(Report(to=companion.id, outcome=Outcome.ENDED))
    elif concern is Concern.GRAVE:
        before = _as_it_stands(turn)
        _take_grave(turn, companion, typed, edited=event.edited)
        outcome = _outcome(before, turn) or Outcome.NOTED
        turn.send(Report(to=companion.id, outcome=outcome))
    elif companion.share is Share.ALL and concern is Concern.COURSE:
        _take_course(turn, companion, typed, edited=event.edited)


def _as_it_stands(turn: Turn) -> Turn:
    return Turn(turn.context, turn.conversation, turn.at)


def _take_grave(turn: Turn, companion: Companion, typed: Typed, *, edited: bool) -> None:
    """End the test, or ask whether it should be, as if the person had said it of themselves."""
    turn.say(part("relay.grave"), urgency=Urgency.SAFETY)
    grade = grade_beside(typed.text)
    may_type = companion.share is Share.ALL and not edited
    if grade is not None and may_type:
        readings.keep_aside(turn, typed)
    match grade:
        case Grade.EMERGENCY:
            stopping.emergency(turn, typed.text)
        case Grade.NEAR_FAINT:
            stopping.near_faint(turn, typed.text)
        case None if isinstance(turn.conversation.recovery, LyingDown):
            recovering.tap(turn, recovering.WORSE)
        case None if turn.running is None:
            pass
        case None if _is_own_call(typed.text):
            hear = words_given if may_type else words_edited
            hear(turn, typed)
        case None:
            turn.put(ConfirmingStop(asked_at=turn.at))
            orient(turn)


def _is_own_call(text: str) -> bool:
    """Whether the words would be heard from the person's own mouth."""
    heard = hearing.stop(text) or hearing.perhaps_stop(text) or distress.unwell(text)
    return heard or bool(distress.hear_all(text))


def _take_course(turn: Turn, companion: Companion, typed: Typed, *, edited: bool) -> None:
    """Take numbers, a symptom or a position; what cannot be taken does not trouble the person."""
    before, tried = _as_it_stands(turn), _as_it_stands(turn)
    hear = words_edited if edited else words_given
    outcome = None
    if hearing.word(typed.text) not in (Word.YES, Word.NO) or isinstance(
        turn.aside, ConfirmingReading
    ):
        hear(tried, typed)
        outcome = _outcome(before, tried)
    if outcome is None:
        turn.send(Report(to=companion.id, outcome=Outcome.UNCLEAR))
        return
    turn.say(part("relay.typed", words=typed.text))
    hear(turn, typed)
    silence.hear(turn)
    turn.send(Report(to=companion.id, outcome=outcome, numbers=_numbers(turn, outcome)))


def _outcome(before: Turn, after: Turn) -> Outcome | None:
    """Return what words came to; `None` when they changed nothing that counts."""
    if before.running is not None and after.running is None:
        return Outcome.ENDED
    if after.conversation.asides > before.conversation.asides:
        match after.aside:
            case ConfirmingStop() | ConfirmingDistress():
                return Outcome.ASKED
            case ConfirmingReading():
                return Outcome.DOUBTED
            case _:
                pass
    if _readings(after) != _readings(before):
        return Outcome.KEPT
    match after.stage:
        case AwaitingReading(draft=draft) if _draft(before) != draft and not draft.values.empty:
            return Outcome.PART
        case _:
            changed = _course(before) != _course(after)
            return Outcome.NOTED if changed else None


def _readings(turn: Turn) -> tuple[Reading, ...]:
    return () if turn.record is None else turn.record.readings


def _draft(turn: Turn) -> Draft:
    return turn.stage.draft if isinstance(turn.stage, AwaitingReading) else Draft()


def _course(turn: Turn) -> tuple[Stage, Aside | None, Recovery | None]:
    """Return where the test is, without what only notes that words were not understood."""
    stage = turn.stage
    bare = replace(stage, unread=()) if isinstance(stage, AwaitingReading) else stage
    return bare, turn.aside, turn.conversation.recovery


def _numbers(turn: Turn, outcome: Outcome) -> str | None:
    match outcome, turn.aside:
        case Outcome.DOUBTED, ConfirmingReading(draft=draft):
            return echo(draft.values)
        case Outcome.PART, _:
            return echo(_draft(turn).values)
        case Outcome.KEPT, _:
            return echo(_readings(turn)[-1].values)
        case _:
            return None
