"""From the first hello to a person who can book: consent, zone, who should ask first, kit, a trial.

Nothing but the chat's own address is kept before consent.
"""

from dataclasses import replace

from bot.booking.outcome import Reason, Unclear
from bot.booking.phrases import read_times
from bot.booking.zones import offsets, place_zone, valid_zone
from bot.engine.asides import Asking, Question
from bot.engine.buttons import COMPANION, part
from bot.engine.context import Opening, written
from bot.engine.dialogues import auditing, planning, standing
from bot.engine.dialogues.medicines import words_for
from bot.engine.dialogues.offers import MORE, places
from bot.engine.dialogues.orientation import orient
from bot.engine.dialogues.questionnaire import YES
from bot.engine.effects import Part, Place
from bot.engine.hearing import normalised, symptoms
from bot.engine.options import OPTIONS
from bot.engine.state import AwaitingAgeBand, AwaitingReady, ChoosingPlace, Enrolling, Held, Idle
from bot.engine.turn import Turn
from bot.protocol.circumstances import Cuff, Hazard, Medicine, RateSource
from bot.protocol.record import AgeBand


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
    orient(turn, *_first_words(turn, following))


def _first_words(turn: Turn, following: Question) -> tuple[Part, ...]:
    if following is not Question.CONSENT:
        return ()
    renewed = turn.conversation.profile.consented_at is not None
    added = written(turn.context.consent_text, turn.conversation.locale)
    words = (part("consent.changed" if renewed else "opening.hello"),)
    return words if added is None else (*words, part("consent.added", text=added))


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
        (Question.CONSENT, not agreed or turn.consent_outdated),
        (Question.AGE, turn.conversation.age_band is None),
        (Question.LOCAL_TIME, profile.zone is None),
        (Question.HAZARDS, profile.hazards is None),
        (Question.MEDICINES, profile.medicines is None),
        (Question.CUFF, profile.cuff is None),
        (Question.RATE_SOURCE, profile.rate_source is None),
        (Question.TRIAL, not profile.tried),
    )
    return next((question for question, is_open in open_questions if is_open), None)


def go_on(turn: Turn) -> None:
    """Ask the next question, or go on to booking when there is none."""
    profile = turn.conversation.profile
    if profile.hazards is not None and not profile.suitable:
        turn.move(Held())
        orient(turn)
        return
    following = next_question(turn)
    if following is None:
        planning.begin(turn, part("enrolled"), more=((COMPANION,),))
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
        team_since = turn.at if turn.context.team else None
        turn.know(
            consented_at=turn.at,
            consent_version=turn.context.consent_version,
            team_since=team_since,
        )
        if turn.conversation.resumes is None and renewed and next_question(turn) is None:
            planning.begin(turn)
        elif turn.conversation.resumes is None:
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
        if turn.conversation.profile.accompanies:
            turn.say(part("consent.refused.companion"))
            return
        turn.say(part("consent.refused"))
        turn.forget()


def _say_medicines(turn: Turn, medicines: tuple[Medicine, ...]) -> None:
    """Say what holds for medicines. Never to stop one: abrupt stopping can be dangerous."""
    if not medicines:
        return
    conversation = turn.conversation
    parts = [words_for(turn.context, conversation.profile, conversation.locale)]
    if Medicine.BETA_BLOCKER in medicines:
        parts.append(part("medicines.beta-blocker"))
    turn.say(*parts)


# -- the zone, from the time on the person's clock


def take_local_time(turn: Turn, text: str) -> bool:
    """Take the time on the person's clock, or a place. Returns False if it is neither."""
    zone = place_zone(text)
    if zone is not None:
        take_zone(turn, zone)
        return True
    said = read_times(text)
    if isinstance(said, Unclear):
        unknown = said.reason in (Reason.NOTHING, Reason.UNKNOWN_WORD) and not symptoms(text)
        if unknown and any(ch.isalpha() for ch in text):
            orient(turn, part("zone.unknown-place"))
            return True
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
    zone = valid_zone(choice)
    if zone != choice:
        return False
    take_zone(turn, zone)
    return True


def take_place_words(turn: Turn, stage: ChoosingPlace, text: str) -> bool:
    """Take a place, or the wish for more of them, as typed. Returns False if it is neither."""
    if normalised(text) in OPTIONS["button.more-places"]:
        return take_place(turn, stage, MORE)
    named = [zone for zone in places(turn, stage) if _city(zone) == normalised(text)]
    if len(named) == 1:
        take_zone(turn, named[0])
        return True
    return take_local_time(turn, text)


def _city(zone: str) -> str:
    """Return what the button of a place says, in English; other names are known by themselves."""
    return normalised(zone.rpartition("/")[2].replace("_", " "))


def take_zone(turn: Turn, zone: str) -> None:
    """Keep the zone, say what it makes the time, and go on; a booking moves with the clock."""
    turn.know(zone=zone)
    turn.say(part("zone.kept", place=Place(zone)))
    if turn.conversation.resumes is not None:
        standing.travel(turn, zone)
    else:
        go_on(turn)


def ask_zone(turn: Turn) -> None:
    """Ask for the zone anew; what is under way goes on after it. Nothing is kept before consent."""
    if turn.conversation.profile.consented_at is None:
        if isinstance(turn.stage, Idle):
            begin(turn)
        else:
            orient(turn)
        return
    match turn.stage:
        case Enrolling() | ChoosingPlace() if turn.conversation.resumes is None:
            turn.know(zone=None)
        case Enrolling() | ChoosingPlace():
            pass
        case _:
            turn.set_resume()
    turn.move(Enrolling(question=Question.LOCAL_TIME))
    orient(turn)


# -- who should ask first


def take_held_words(turn: Turn, text: str) -> bool:
    """Take what the button of somebody who waits says, as typed. Returns False for other words."""
    taken = normalised(text) in (*OPTIONS["button.tapped-wrong"], *OPTIONS["button.well-again"])
    if taken:
        ask_hazards_again(turn)
    return taken


def ask_hazards_again(turn: Turn) -> None:
    """Ask the checklist once more: a tap was wrong, or the person is well again."""
    turn.know(hazards=None)
    go_on(turn)
