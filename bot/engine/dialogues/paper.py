"""A test that was done on paper, typed in afterwards: when, the day, each reading, the end.

Numbers past a stop line stop nothing, since all is past; they are to be told to the care team.
"""

import re
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Final

from bot.booking.outcome import Unclear
from bot.booking.past import read_past
from bot.booking.plan import Booking
from bot.booking.zones import Doubled, Skipped, settle
from bot.engine.asides import Asking, Draft, Question
from bot.engine.buttons import part
from bot.engine.context import Opening
from bot.engine.dialogues import between, enrolment
from bot.engine.dialogues.closing import hand_over
from bot.engine.dialogues.crossing import crossed
from bot.engine.dialogues.offers import now_there
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.paper_questions import (
    MISSED,
    NOTHING,
    care,
    endings,
    named,
    position_named,
)
from bot.engine.dialogues.questionnaire import NO, YES, picked
from bot.engine.dialogues.readings import Typed, ask_doubt, problem
from bot.engine.dialogues.standing import booking_of
from bot.engine.dialogues.stopping import pressures
from bot.engine.drafts import grown
from bot.engine.effects import ClockTime, Day, Part, Term
from bot.engine.hearing import SymptomHeard, symptoms
from bot.engine.paper import (
    CopyingPaper,
    DatingPaper,
    PaperQuestion,
    planned_end,
    planned_phases,
    reading_on_paper,
)
from bot.engine.state import Auditing, AwaitingReady, Booked, Finished, Idle, Planning
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word
from bot.protocol.circumstances import Circumstances, DayKind
from bot.protocol.definition import Position
from bot.protocol.record import Ending, Origin, Symptom, SymptomReport, TestRecord, Values
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Problem, Several, Understood, Unreadable

OLDEST: Final = timedelta(days=366)
"""A test longer ago is not typed in: medicines and kit are those of today (design choice)."""

_DAY_TOKEN: Final = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)


def hear(turn: Turn) -> None:
    """Answer the word for a test on paper."""
    profile = turn.conversation.profile
    ready = turn.context.opening is Opening.SHORT or (profile.enrolled and profile.suitable)
    match turn.stage:
        case _ if turn.running is not None:
            orient(turn, part("after-the-test"))
        case DatingPaper() | CopyingPaper():
            orient(turn)
        case Idle() if not ready:
            enrolment.begin(turn)
        case Idle() | Finished() | Booked() | Planning() | Auditing() | AwaitingReady():
            _begin(turn)
        case _:
            orient(turn, part("paper.later"))


def _begin(turn: Turn) -> None:
    """Ask when it began; what stood before stands again afterwards."""
    match turn.stage:
        case Idle() | Finished() | Booked():
            turn.set_resume()
        case Planning(moving=Booking() as booking, sent=sent, looked_at=looked_at):
            turn.hold(Booked(booking=booking, sent=sent, looked_at=looked_at))
        case _ if turn.conversation.resumes is None:
            turn.hold(Idle())
        case _:
            pass
    turn.move(DatingPaper())
    orient(turn, part("paper.begin"))


# -- when it began


def take_date_choice(turn: Turn, stage: DatingPaper, choice: str) -> bool:
    """Take a day, or the answer to whether day and hour are right."""
    if stage.at is not None and choice == YES:
        _open(turn, stage.at)
        return True
    if stage.at is not None and choice == NO:
        _ask_when(turn)
        return True
    if stage.at is not None or stage.day is not None or not _DAY_TOKEN.fullmatch(choice):
        return False
    try:
        day = date.fromisoformat(choice)
    except ValueError:
        return False
    _take_when(turn, day, stage.clock)
    return True


def take_date_words(turn: Turn, stage: DatingPaper, text: str, heard: Word | None) -> bool:
    """Take a day, an hour, or both, as typed. Returns False when the words say neither."""
    if stage.at is not None and heard in (Word.YES, Word.NO):
        return take_date_choice(turn, stage, YES if heard is Word.YES else NO)
    outcome = read_past(text, now_there(turn))
    if isinstance(outcome, Unclear):
        if outcome.reason == "nothing":
            return False
        days = {option.day for option in outcome.options}
        day = days.pop() if len(days) == 1 else None
        turn.move(DatingPaper(day=day or stage.day))
        orient(turn, part(f"when.{outcome.reason}"))
        return True
    _take_when(turn, outcome.day or stage.day, outcome.time or stage.clock)
    return True


def _take_when(turn: Turn, day: date | None, clock: time | None) -> None:
    """Say day and hour back to be confirmed, ask for what is missing, or say why they will not do.

    An hour that came twice, since the clocks were put back, is taken as the first.
    """
    if day is not None and day > turn.today:
        _ask_when(turn, part("paper.to-come"))
    elif day is not None and turn.today - day > OLDEST:
        _ask_when(turn, part("paper.too-old"))
    elif day is None:
        turn.move(DatingPaper(clock=clock))
        orient(turn, *(() if clock is None else (part("when.which-day"),)))
    elif clock is None:
        turn.move(DatingPaper(day=day))
        orient(turn)
    else:
        settled = settle(datetime.combine(day, clock), turn.zone)
        if isinstance(settled, Skipped):
            _ask_when(turn, part("when.skipped", day=Day(day), time=ClockTime(clock)))
            return
        at = settled.first if isinstance(settled, Doubled) else settled.at
        if at > turn.at:
            _ask_when(turn, part("paper.to-come"))
            return
        turn.move(DatingPaper(day=day, at=at))
        orient(turn)


def _ask_when(turn: Turn, *first: Part) -> None:
    turn.move(DatingPaper())
    orient(turn, *first)


def _open(turn: Turn, at: datetime) -> None:
    """Open the record of a test that began then. It is counted once it is whole."""
    profile = turn.conversation.profile
    circumstances = Circumstances(
        zone=profile.zone,
        cuff=profile.cuff,
        rate_source=profile.rate_source,
        medicines=profile.medicines or (),
    )
    record = TestRecord(
        number=turn.conversation.tests + 1,
        protocol=turn.protocol,
        age_band=turn.conversation.age_band,
        began_at=at,
        circumstances=circumstances if profile.enrolled else None,
        origin=Origin.PAPER,
        typed_in_at=turn.at,
    )
    turn.move(CopyingPaper(record=record))
    orient(turn)


# -- what is on it


def take_choice(turn: Turn, stage: CopyingPaper, choice: str) -> bool:
    """Take a button of the question that is open."""
    match stage.question:
        case PaperQuestion.DAY_KIND if choice in tuple(DayKind):
            record = replace(stage.record, day=DayKind(choice))
            _ask(turn, replace(stage, record=record, question=PaperQuestion.READING))
        case PaperQuestion.READING if stage.doubted and choice == YES:
            _settle(turn, replace(stage, doubted=False))
        case PaperQuestion.READING if stage.doubted and choice == NO:
            _ask(turn, replace(stage, draft=Draft(), doubted=False), part("doubt.denied"))
        case PaperQuestion.READING if choice == MISSED and not stage.doubted:
            _pass_on(turn, stage)
        case PaperQuestion.SYMPTOMS if choice == NOTHING:
            _close(turn, stage)
        case PaperQuestion.ENDED if choice in endings(stage):
            _finish(turn, stage, position_named(choice))
        case _:
            return False
    return True


def take_words(turn: Turn, stage: CopyingPaper, typed: Typed, heard: Word | None) -> bool:
    """Take an answer as it was typed. Returns False when it is none."""
    choice = named(stage, typed.text)
    if stage.doubted and heard in (Word.YES, Word.NO):
        choice = YES if heard is Word.YES else NO
    elif stage.question is PaperQuestion.DAY_KIND:
        choice = picked(Question.DAY_KIND, typed.text)
    elif stage.question is PaperQuestion.SYMPTOMS and heard is Word.NO:
        choice = NOTHING
    elif stage.question is PaperQuestion.ENDED and heard is Word.YES:
        choice = endings(stage)[0]
    if choice is not None:
        return take_choice(turn, stage, choice)
    match stage.question:
        case PaperQuestion.READING:
            return _take_reading(turn, stage, typed) or _take_symptoms(turn, stage, typed)
        case PaperQuestion.SYMPTOMS if heard is None:
            return _take_symptoms(turn, stage, typed, other=True)
        case _:
            return False


def _ask(turn: Turn, stage: CopyingPaper, *first: Part) -> None:
    turn.move(stage)
    orient(turn, *first)


def _take_reading(turn: Turn, stage: CopyingPaper, typed: Typed) -> bool:
    """Take a message as a reading, or a part of one. Returns False when it holds no numbers."""
    draft = Draft() if stage.doubted else stage.draft
    before = stage.record.readings[-1].values if stage.record.readings else None
    outcome = read(typed.text, draft.values, before)

    def with_values(values: Values) -> Draft:
        return grown(draft, values, typed.text, typed.source, turn.at)

    stage = replace(stage, draft=draft, doubted=False)
    match outcome:
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Understood():
            stage, noted = _note(turn, stage, outcome.rest)
            _settle(turn, replace(stage, draft=with_values(outcome.values)), *noted)
        case Doubtful():
            stage, noted = _note(turn, stage, outcome.rest)
            meant = with_values(outcome.suggested or outcome.values)
            turn.move(replace(stage, draft=meant, doubted=True))
            ask_doubt(turn, outcome, draft.values, noted)
        case Several():
            _ask(turn, stage, part(f"problem.{Problem.TOO_MANY}"))
        case Unreadable():
            _ask(turn, stage, problem(outcome))
    return True


def _settle(turn: Turn, stage: CopyingPaper, *noted: Part) -> None:
    """The numbers are right: keep a whole reading and go on, else ask for the rest."""
    if stage.draft.values.complete:
        _pass_on(turn, stage, *noted)
    else:
        _ask(turn, stage, *noted)


def _pass_on(turn: Turn, stage: CopyingPaper, *noted: Part) -> None:
    """Keep what was given of the reading, if anything, and go on to the next question."""
    if not stage.draft.values.empty:
        reading = reading_on_paper(stage)
        record = stage.record.with_reading(reading)
        stage = replace(stage, record=record, draft=Draft())
        said = (_kept(reading.values), *noted, *_care(turn, record, reading.position))
    else:
        said = (part("paper.missed.noted"),)
    last = stage.slot_index + 1 == len(stage.protocol.slots)
    if last:
        _ask(turn, replace(stage, question=PaperQuestion.SYMPTOMS), *said)
    else:
        _ask(turn, replace(stage, slot_index=stage.slot_index + 1), *said)


def _kept(values: Values) -> Part:
    if values.complete and values.heart_rate is not None:
        return part("reading.kept", pressures=pressures(values), heart_rate=values.heart_rate)
    return part("paper.kept-part", numbers=echo(values))


def _care(turn: Turn, record: TestRecord, position: Position) -> tuple[Part, ...]:
    values = record.readings[-1].values
    return care(crossed(record, position, values, turn.context.stop_lines))


def _take_symptoms(turn: Turn, stage: CopyingPaper, typed: Typed, *, other: bool = False) -> bool:
    """Note symptoms that were typed. Returns False when the words name none.

    Args:
        turn: The step.
        stage: The stage.
        typed: The words.
        other: Whether words for no known symptom are one all the same.
    """
    if not symptoms(typed.text) and not (other and any(ch.isalpha() for ch in typed.text)):
        return False
    stage, noted = _note(turn, stage, typed.text)
    _ask(turn, stage, *noted)
    return True


def _note(turn: Turn, stage: CopyingPaper, text: str) -> tuple[CopyingPaper, tuple[Part, ...]]:
    """Return the stage with the symptoms of a message, and the words that say so.

    Those told with a reading belong to it; of the others no time is known. One told again at the
    same place takes the place of the first.
    """
    at_end = stage.question is PaperQuestion.SYMPTOMS
    told = symptoms(text)
    if not told and at_end:
        told = (SymptomHeard(symptom=Symptom.OTHER, strength=None),)
    reading = None if at_end else reading_on_paper(stage)
    reports = tuple(
        SymptomReport(
            symptom=heard.symptom,
            words=text,
            strength=heard.strength,
            told_at=planned_end(stage.record, None) if reading is None else reading.given_at,
            position=None if reading is None else reading.position,
            offset=None if reading is None else reading.offset,
        )
        for heard in told
    )
    new = {(r.symptom, r.position, r.offset) for r in reports if r.symptom is not Symptom.OTHER}
    before = tuple(r for r in stage.record.symptoms if (r.symptom, r.position, r.offset) not in new)
    record = replace(stage.record, symptoms=(*before, *reports))
    return replace(stage, record=record), tuple(_noted(heard) for heard in told)


def _noted(heard: SymptomHeard) -> Part:
    name = Term(f"symptom.{heard.symptom}")
    if heard.strength is None:
        return part("symptom.noted-plain", symptom=name)
    return part("symptom.noted", symptom=name, strength=heard.strength)


def go_back(turn: Turn, stage: CopyingPaper) -> None:
    """Take back the last answer: the parts of this reading, or else the reading before it."""
    if stage.question is PaperQuestion.DAY_KIND:
        _ask_when(turn)
        return
    if not stage.draft.values.empty:
        _ask(turn, replace(stage, draft=Draft(), doubted=False), part("fix.cleared"))
        return
    if stage.question is PaperQuestion.READING and stage.slot_index == 0:
        _ask(turn, replace(stage, question=PaperQuestion.DAY_KIND))
        return
    index = stage.slot_index - (stage.question is PaperQuestion.READING)
    slot = stage.protocol.slots[index]
    there = (stage.protocol.phase_of(slot.id).position, slot.due)
    record = replace(
        stage.record,
        readings=tuple(r for r in stage.record.readings if r.slot != slot.id),
        symptoms=tuple(s for s in stage.record.symptoms if (s.position, s.offset) != there),
    )
    _ask(turn, CopyingPaper(record=record, question=PaperQuestion.READING, slot_index=index))


def take_edit(turn: Turn, stage: CopyingPaper, typed: Typed) -> bool:
    """Let an edited message correct what it gave. Returns False if it gave no number of this test.

    Numbers that came in several messages are asked for again instead.
    """
    mine = next((r for r in stage.record.readings if typed.source in r.sources), None)
    if mine is None and typed.source not in stage.draft.sources:
        return False
    outcome = read(typed.text)
    if mine is None:
        emptied = replace(stage, draft=Draft(), doubted=False)
        if not (len(stage.draft.sources) == 1 and _take_reading(turn, emptied, typed)):
            orient(turn, part("fix.edit-unclear"))
    elif isinstance(outcome, Understood) and outcome.values.complete and len(mine.sources) == 1:
        if outcome.values != mine.values:
            reading = replace(mine, values=outcome.values, words=(typed.text,))
            record = stage.record.with_reading(reading)
            crossing = crossed(record, mine.position, reading.values, turn.context.stop_lines)
            done = part("fix.done", numbers=echo(reading.values))
            _ask(turn, replace(stage, record=record), done, *care(crossing))
    else:
        orient(turn, part("fix.edit-unclear"))
    return True


# -- the end


def _close(turn: Turn, stage: CopyingPaper) -> None:
    """All is asked but how it ended; that is plain if the last reading was taken."""
    record = stage.record
    if not record.readings:
        turn.go_back()
        orient(turn, part("paper.no-numbers"))
    elif record.reading_for(stage.protocol.slots[-1].id) is not None:
        _finish(turn, stage, None)
    else:
        _ask(turn, replace(stage, question=PaperQuestion.ENDED))


def _finish(turn: Turn, stage: CopyingPaper, stopped: Position | None) -> None:
    """Keep the test like any other, and send its results. A booking stands as it stood."""
    positions = [phase.position for phase in stage.protocol.phases]
    reached = len(positions) if stopped is None else positions.index(stopped) + 1
    ended_at = planned_end(stage.record, stopped)
    record = replace(
        stage.record,
        number=turn.count_test(),
        phases=planned_phases(stage.record)[:reached],
        symptoms=tuple(
            told if told.position is not None else replace(told, told_at=ended_at)
            for told in stage.record.symptoms
        ),
        ending=Ending.COMPLETED if stopped is None else Ending.STOPPED,
        ended_at=ended_at,
    )
    before = turn.take_resume()
    if booking_of(before) is None:
        turn.move(Finished(record=record))
    else:
        turn.move(before)
        turn.update(record)
    turn.keep(record)
    between.note_test(turn, record)
    turn.say(part("paper.done"))
    hand_over(turn, record)
    if turn.context.opening is Opening.FULL and stopped is None and record.day is not None:
        asked = Asking(question=Question.DAY_KIND, test=record.number)
        between.take_day(turn, asked, record.day)
