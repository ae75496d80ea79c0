"""From the first hello to a person who can book: consent, zone, who should ask first, kit, a trial.

Nothing but the chat's own address is kept before consent.
"""

from dataclasses import replace

from bot.booking.outcome import Unclear
from bot.booking.phrases import read_times
from bot.booking.zones import offsets, valid_zone
from bot.engine.context import Opening
from bot.engine.dialogues import auditing, planning
from bot.engine.dialogues.offers import MORE, places
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import YES
from bot.engine.drafts import grown
from bot.engine.effects import Place, Urgency
from bot.engine.state import (
    Asking,
    AwaitingAgeBand,
    AwaitingReady,
    ChoosingPlace,
    Draft,
    Enrolling,
    Held,
    Idle,
    Question,
)
from bot.engine.turn import Turn, part
from bot.protocol.circumstances import Cuff, Hazard, Medicine, RateSource
from bot.protocol.record import AgeBand
from bot.readings import echo, read
from bot.readings.outcome import Doubtful, Problem, Understood, Unreadable


def begin(turn: Turn) -> None:
    """Start towards a test: ask what is not known yet, then book, or begin at once."""
    if turn.context.opening is Opening.SHORT:
        _begin_short(turn)
        return
    following = next_question(turn)
    if following is None:
        planning.begin(turn)
        return
    profile = turn.conversation.profile
    if turn.context.invited_only and profile.reference is None:
        turn.say(part("invitation.needed"))
        return
    turn.move(Enrolling(question=following))
    first = (part("opening.hello"),) if following is Question.CONSENT else ()
    orient(turn, *first)


def _begin_short(turn: Turn) -> None:
    if turn.conversation.age_band is None:
        turn.move(AwaitingAgeBand())
        orient(turn, part("opening.hello"))
    else:
        turn.move(AwaitingReady())
        orient(turn)


def next_question(turn: Turn) -> Question | None:
    """Return the first question that is not answered yet; `None` when all are."""
    profile = turn.conversation.profile
    agreed = profile.consented_at is not None
    open_questions = (
        (Question.CONSENT, not agreed or profile.consent_version < turn.context.consent_version),
        (Question.AGE, turn.conversation.age_band is None),
        (Question.LOCAL_TIME, profile.zone is None),
        (Question.HAZARDS, profile.hazards is None),
        (Question.MEDICINES, profile.medicines is None),
        (Question.CUFF, profile.cuff is None),
        (Question.RATE_SOURCE, profile.rate_source is None),
        (Question.TRIAL, not profile.tried),
    )
    return next((question for question, is_open in open_questions if is_open), None)


def may_book(turn: Turn) -> bool:
    """Whether nothing is left to ask before a test can be booked."""
    full = turn.context.opening is Opening.FULL
    return full and next_question(turn) is None and turn.conversation.profile.suitable


def go_on(turn: Turn) -> None:
    """Ask the next question, or go on to booking when there is none."""
    profile = turn.conversation.profile
    if profile.hazards is not None and not profile.suitable:
        turn.move(Held())
        orient(turn)
        return
    following = next_question(turn)
    if following is None:
        planning.begin(turn, part("enrolled"))
        return
    turn.move(Enrolling(question=following))
    orient(turn)


def take_choice(turn: Turn, stage: Enrolling, choice: str) -> bool:
    """Take a choice of a question that is picked from. Returns False if it is none of its."""
    match stage.question:
        case Question.CONSENT:
            _take_consent(turn, agreed=choice == YES)
        case Question.AGE:
            turn.know_age(AgeBand(choice))
            go_on(turn)
        case Question.CUFF:
            turn.know(cuff=Cuff(choice))
            go_on(turn)
        case Question.RATE_SOURCE:
            turn.know(rate_source=RateSource(choice))
            go_on(turn)
        case _:
            return False
    return True


def take_ticks(turn: Turn, stage: Enrolling, ticked: tuple[str, ...]) -> bool:
    """Take all that was ticked. Returns False if the question is not one to tick."""
    match stage.question:
        case Question.HAZARDS:
            turn.know(hazards=tuple(Hazard(t) for t in ticked))
            go_on(turn)
        case Question.MEDICINES:
            medicines = tuple(Medicine(t) for t in ticked)
            turn.know(medicines=medicines)
            _say_medicines(turn, medicines)
            go_on(turn)
        case _:
            return False
    return True


def _take_consent(turn: Turn, *, agreed: bool) -> None:
    renewed = turn.conversation.profile.consented_at is not None
    if agreed:
        turn.know(consented_at=turn.at, consent_version=turn.context.consent_version)
        if turn.conversation.resumes is None:
            go_on(turn)
        else:
            turn.move(turn.take_resume())
            auditing.begin(turn)
    elif renewed:
        turn.go_back()
        turn.put(Asking(question=Question.DELETE))
        orient(turn, part("consent.not-renewed"))
    else:
        turn.move(Idle())
        turn.say(part("consent.refused"))
        turn.forget()


def _say_medicines(turn: Turn, medicines: tuple[Medicine, ...]) -> None:
    """Say what holds for medicines. Never to stop one: abrupt stopping can be dangerous."""
    if not medicines:
        return
    plan = turn.context.medicine_plan
    parts = [part("medicines.plan", plan=plan) if plan else part("medicines.as-prescribed")]
    if Medicine.BETA_BLOCKER in medicines:
        parts.append(part("medicines.beta-blocker"))
    turn.say(*parts)


# -- the zone, from the time on the person's clock


def take_local_time(turn: Turn, text: str) -> bool:
    """Take the time on the person's clock, or a place. Returns False if it is neither."""
    zone = valid_zone(text)
    if zone is not None:
        take_zone(turn, zone)
        return True
    said = read_times(text)
    if isinstance(said, Unclear):
        return False
    found = tuple(dict.fromkeys(o for shown in said for o in offsets(shown, turn.at)))
    if not found:
        orient(turn, part("zone.no-such-time"))
        return True
    turn.move(ChoosingPlace(offsets=found))
    orient(turn)
    return True


def take_place(turn: Turn, stage: ChoosingPlace, choice: str) -> bool:
    """Take a place that was tapped, or show more of them."""
    if choice == MORE:
        following = replace(stage, page=stage.page + 1)
        turn.move(following if places(turn, following) else replace(stage, page=0))
        orient(turn)
        return True
    shown = places(turn, stage)
    if not (choice.isascii() and choice.isdigit() and int(choice[:3]) < len(shown)):
        return False
    take_zone(turn, shown[int(choice)])
    return True


def take_zone(turn: Turn, zone: str) -> None:
    """Keep the zone, say what it makes the time, and go on; a booking moves with the clock."""
    turn.know(zone=zone)
    turn.say(part("zone.kept", place=Place(zone)))
    if turn.conversation.resumes is not None:
        planning.travel(turn, zone)
    else:
        go_on(turn)


def ask_zone(turn: Turn) -> None:
    """Ask for the zone anew; what is under way goes on after it."""
    match turn.stage:
        case Enrolling() | ChoosingPlace() if turn.conversation.resumes is None:
            turn.know(zone=None)
        case Enrolling() | ChoosingPlace():
            pass
        case _:
            turn.set_resume()
    turn.move(Enrolling(question=Question.LOCAL_TIME))
    orient(turn)


# -- the trial reading


def take_trial(turn: Turn, stage: Enrolling, text: str, source: str) -> bool:
    """Take a trial reading: it proves that the cuff works and their way of typing is understood."""
    outcome = read(text, stage.draft.values)
    match outcome:
        case Understood():
            draft = grown(stage.draft, outcome.values, text, source, turn.at)
            if not draft.values.complete:
                turn.stay(replace(stage, draft=draft))
                orient(turn)
                return True
            turn.know(tried=True)
            turn.say(part("trial.good", numbers=echo(draft.values)))
            go_on(turn)
        case Doubtful():
            turn.stay(replace(stage, draft=Draft()))
            orient(turn, part("trial.doubt", numbers=echo(outcome.values)))
        case Unreadable(problem=Problem.NO_NUMBERS):
            return False
        case Unreadable():
            turn.stay(replace(stage, draft=Draft()))
            orient(turn, part("trial.unclear"))
    return True


def ask_hazards_again(turn: Turn) -> None:
    """Ask the checklist once more: the person says that a tap was wrong."""
    turn.know(hazards=None)
    go_on(turn)


def clear(turn: Turn, by: str) -> None:
    """The care team has cleared this person for a test at home; it needs something to clear."""
    if not turn.conversation.profile.hazards:
        return
    turn.know(cleared_by=by, cleared_at=turn.at)
    if turn.running is not None:
        return  # whoever stands in a test is not spoken to about another one
    turn.say(part("cleared"), urgency=Urgency.REMINDER)
    if isinstance(turn.stage, Held):
        go_on(turn)
