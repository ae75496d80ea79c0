"""What a companion types while the test of somebody they stand by for is under way."""

from bot.engine.asides import Asking
from bot.engine.buttons import part
from bot.engine.concern import Concern, concern_of
from bot.engine.dialogues.accompanying import FREE, keep_person, person_of, remembered
from bot.engine.dialogues.questionnaire import picked
from bot.engine.effects import Urgency
from bot.engine.hearing import word
from bot.engine.letters import Outcome, Relay
from bot.engine.linked import WordsBeside, WordsTaken
from bot.engine.profile import Accompanied, Share
from bot.engine.turn import Turn
from bot.engine.vocabulary import Word


def pass_on(turn: Turn, event: WordsBeside) -> bool:
    """Pass words on to the test they are about. Returns False if they are about their own chat."""
    people = [p for p in turn.conversation.profile.accompanies if p.id in event.under_way]
    if not people:
        return False
    match concern_of(event.text):
        case Concern.GRAVE:
            for person in people:
                _relay(turn, person, event)
            turn.say(part("beside.passed-on"), urgency=Urgency.SAFETY)
        case Concern.COURSE if _is_own(turn, event.text):
            return False
        case Concern.COURSE if len(people) > 1:
            turn.say(part("beside.which"))
        case Concern.COURSE if people[0].share is Share.ALL:
            _relay(turn, people[0], event)
        case Concern.COURSE:
            turn.say(part("beside.not-agreed"))
        case Concern.OWN:
            return False
    return True


def _relay(turn: Turn, person: Accompanied, event: WordsBeside) -> None:
    turn.send(Relay(to=person.id, text=event.text, source=event.source, edited=event.edited))


def _is_own(turn: Turn, text: str) -> bool:
    """Whether something of their own is being asked that the words may answer."""
    if not isinstance(turn.stage, FREE):
        return True
    match turn.aside:
        case None:
            return False
        case Asking(question=question) if picked(question, text) is not None:
            return True
        case _:
            return word(text) in (Word.YES, Word.NO)


def taken(turn: Turn, event: WordsTaken) -> None:
    """Say what became of words that were passed on."""
    person = person_of(turn, event.of)
    if person is None:
        return
    alarmed_now = person.alarmed_at == turn.at
    match event.outcome:
        case Outcome.ENDED if alarmed_now:
            return  # the alarm says so
        case Outcome.KEPT | Outcome.PART | Outcome.DOUBTED if event.numbers is not None:
            if person.share is not Share.ALL:
                return
            number = turn.say(part(f"beside.{event.outcome}", numbers=event.numbers))
        case _:
            number = turn.say(part(f"beside.{event.outcome}"))
    keep_person(turn, remembered(person, number))
