"""The transition table: for every stage, what each kind of event leads to.

It is made by asking the machine itself, so it cannot disagree with it. DEVELOPERS.md prints it.
What it cannot show is which words lead where; the dialogues say that.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType

from bot.distress import Grade
from bot.engine.asides import (
    Asking,
    ChoosingLanguage,
    ConfirmingDistress,
    ConfirmingReading,
    ConfirmingStop,
    Draft,
    FixingReading,
    NamingSymptom,
    PlacingReading,
    Question,
    RatingSymptom,
)
from bot.engine.context import Context, Opening
from bot.engine.deadlines import next_deadline
from bot.engine.dialogues import recovering
from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    Cleared,
    DeadlineReached,
    DeliveryFailed,
    Event,
    Failure,
    Invited,
    Opened,
    Thing,
    ThingSent,
    Unblocked,
    WordsEdited,
    WordsGiven,
)
from bot.engine.letters import AlarmAnswer, Outcome
from bot.engine.linked import (
    CompanionAnswered,
    CompanionDeclined,
    CompanionJoined,
    CompanionLeft,
    CompanionUnreached,
    Joined,
    LinkEnded,
    LinkOpened,
    Notified,
    WordsBeside,
    WordsRelayed,
    WordsTaken,
)
from bot.engine.machine import advance
from bot.engine.notices import Notice
from bot.engine.profile import Share
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.recovery import LyingDown, Remeasuring
from bot.engine.state import Conversation, Enrolling
from bot.engine.team import (
    Nudge,
    Nudged,
    Outlook,
    PersonClosed,
    PlanSet,
    ProtocolSet,
    RepeatAsked,
    ResultSeen,
    TeamWrote,
)
from bot.protocol.record import Values
from bot.protocol.released import DEFAULT
from bot.testing.playbook import START, Playbook


def conversations() -> Mapping[str, Conversation]:
    """Return an example of every stage, every aside, and what is looked after, by name."""
    started = Playbook().stands().types("dizzy 4")
    books = {
        "Idle": Playbook(),
        "AwaitingAgeBand": Playbook().opens(),
        "AwaitingReady": Playbook().opens().taps("20-and-over"),
        "AwaitingPosition": Playbook().opens().taps("20-and-over").taps("go"),
        "Resting": started,
        "AwaitingReading": Playbook().stands().waits(minutes=5),
        "AwaitingStopReason": Playbook().stands().taps("stop"),
        "Finished": Playbook().stands().taps("stop").taps("other"),
    }
    full = Context(opening=Opening.FULL)
    copies = Playbook(full).books().types("paper").types("yesterday 9:00").types("yes").taps("good")
    books |= {
        "Enrolling": Playbook(full).opens(),
        "ChoosingPlace": Playbook(full).opens().taps("yes").taps("20-and-over").types("10:00"),
        "Held": Playbook(full).opens().taps("yes").taps("20-and-over").types("Madrid")
        .taps("pregnant").taps("done"),
        "Planning": Playbook(full).enrols(),
        "Booked": Playbook(full).books(),
        "Auditing": Playbook(full).books().types("start"),
        "DatingPaper": Playbook(full).books().types("paper").types("yesterday 9:00"),
        "CopyingPaper": copies,
        "CopyingPaper, last": Playbook(full).books().copies().types("124/80 99"),
    }  # fmt: skip
    stages = {name: book.conversation for name, book in books.items()}
    draft = Draft(
        values=Values(systolic=124, diastolic=76, heart_rate=72),
        words=("76/124 72",),
        sources=("9",),
        begun_at=START,
    )
    resting, awaiting = stages["Resting"], stages["AwaitingReading"]
    asides = {
        "+ ChoosingLanguage": replace(stages["Idle"], aside=ChoosingLanguage()),
        "+ NamingSymptom": replace(resting, aside=NamingSymptom()),
        "+ RatingSymptom": replace(resting, aside=RatingSymptom(index=0)),
        "+ FixingReading": replace(resting, aside=FixingReading(number=1)),
        "+ ConfirmingReading": replace(awaiting, aside=ConfirmingReading(draft=draft, target=None)),
        "+ Asking": replace(stages["Finished"], aside=Asking(question=Question.DELETE), asides=1),
        "+ PlacingReading": replace(awaiting, aside=PlacingReading(draft=draft, number=1)),
        "+ ConfirmingStop": replace(
            resting, aside=ConfirmingStop(asked_at=START + timedelta(minutes=10))
        ),
        "+ ConfirmingDistress": replace(
            resting,
            aside=ConfirmingDistress(asked_at=START + timedelta(minutes=10), grade=Grade.EMERGENCY),
        ),
    }
    finished = stages["Finished"]
    after = {
        "~ LyingDown": replace(
            finished, recovery=LyingDown(test=1, since=START, checks_put=1, asked_at=START)
        ),
        "~ Remeasuring": replace(finished, recovery=Remeasuring(test=1, since=START)),
    }
    return MappingProxyType({**stages, **asides, **after})


def context_for(conversation: Conversation) -> Context:
    """Return the context that an example lives in: the full opening once they have consented."""
    full = conversation.profile.consented_at is not None
    enrolling = isinstance(conversation.stage, Enrolling)
    return Context(opening=Opening.FULL if full or enrolling else Opening.SHORT)


def events_for(conversation: Conversation) -> Mapping[str, tuple[Event, ...]]:
    """Return examples of every kind of event, by the heading they stand under."""
    at = next_deadline(context_for(conversation), conversation) or START + timedelta(hours=1)
    before = at - timedelta(seconds=1)

    def words(*texts: str) -> tuple[Event, ...]:
        return tuple(WordsGiven(at=before, text=text, source="77") for text in texts)

    def taps(*tokens: str) -> tuple[Event, ...]:
        return tuple(ChoiceTapped(at=before, token=token) for token in tokens)

    answers = tuple(
        f"{question}:{choice}"
        for question in _questions(conversation)
        for choice in (
            "20-and-over",
            "go",
            "there",
            "fine",
            "unwell",
            "yes",
            "no",
            "4",
            "dizzy",
            "other",
            "done",
            "start",
            "later",
            "move",
            "cancel",
            "now",
            "earlier",
            "missed",
            "nothing",
            "better",
            "worse",
            "0",
            "1",
            "2026-03-03",
            "0900",
            "Europe/Madrid",
        )
    )
    return {
        "opened": (Opened(at=before), Opened(at=before, code="nonsense")),
        "invited": (Invited(at=before, reference="HS-1"),),
        "cleared": (Cleared(at=before, by="Dr Lind"),),
        "emergency words": words("chest pain"),
        "near-faint words": words("about to faint"),
        "stop": (*words("stop"), *taps("stop")),
        "answer": taps(*answers),
        "reading": words("120/80 70"),
        "position or ready": words("ready", "standing", "34"),
        "symptom": (*words("dizzy 4", "symptom"), *taps("symptom")),
        "fix": (*words("fix"), *taps("fix:1")),
        "start": (*words("start"), *taps("start")),
        "results, files, more, trend": (
            *words("results", "files", "more", "trend"),
            *taps("results", "more:1", "compare", "trend"),
        ),
        "book, move, cancel": words("book", "move", "cancel"),
        "bad day, good day": words("bad day", "good day"),
        "pause, resume, time zone": words("pause", "resume", "time zone"),
        "my data, delete": words("my data", "delete everything"),
        "companion, companions, leave": (
            *words("companion", "companions", "leave"),
            *taps("companion", "unlink:c9", "leave:c9", "with:c9", "lost:c9", "withdraw:9"),
        ),
        "somebody's link": (LinkOpened(at=before, of="c9", share=Share.ALL),),
        "from those linked": (
            Joined(at=before, of="c9", share=Share.ALL),
            LinkEnded(at=before, of="c9"),
            Notified(at=before, of="c9", notice=Notice.SILENT),
            WordsBeside(at=before, text="120/80 70", source="79", under_way=("c9",)),
            WordsTaken(at=before, of="c9", outcome=Outcome.KEPT, numbers="120/80, 70"),
            CompanionJoined(at=before, id="c9", share=Share.ALARMS),
            CompanionDeclined(at=before, offered_at=before),
            CompanionLeft(at=before, id="c9"),
            WordsRelayed(at=before, text="she fainted", source="80", by="c9"),
            CompanionAnswered(at=before, id="c9", answer=AlarmAnswer.NOT_REACHED),
            CompanionUnreached(at=before, id="c9"),
        ),
        "from the care team": (
            ResultSeen(at=before, test=1, outlook=Outlook.CALL),
            TeamWrote(at=before, words="Please call us."),
            RepeatAsked(at=before),
            Nudged(at=before, nudge=Nudge.BOOK),
            ProtocolSet(at=before, protocol=DEFAULT),
            PlanSet(at=before, plan="usual"),
            PersonClosed(at=before),
        ),
        "where, help, language": words("where", "help", "language", "español"),
        "other words": words("tomatoes", "", "yes", "no"),
        "edit": (
            WordsEdited(at=before, text="122/80 70", source="1"),
            WordsEdited(at=before, text="tomatoes", source="78"),
        ),
        "stale or forged tap": taps("age:9", "", ":", "fix:", "fix:99", "t9.supine:there"),
        "not words": tuple(ThingSent(at=before, thing=thing) for thing in Thing),
        "deadline": (DeadlineReached(at=at),),
        "early deadline": (DeadlineReached(at=START),),
        "delivery failed": tuple(
            DeliveryFailed(at=before, number=1, failure=failure) for failure in Failure
        ),
        "blocked, unblocked": (Blocked(at=before), Unblocked(at=before)),
    }


def _questions(conversation: Conversation) -> tuple[str, ...]:
    asked = (
        asked_by_aside(conversation),
        asked_by_stage(conversation),
        recovering.asked(conversation),
    )
    return tuple(question for question in asked if question is not None)


def name_of(conversation: Conversation) -> str:
    """Return the stage's name, with the aside's if one is open and what is looked after."""
    stage, aside, recovery = conversation.stage, conversation.aside, conversation.recovery
    name = type(stage).__name__
    if aside is not None:
        name += f" + {type(aside).__name__}"
    return name if recovery is None else f"{name} ~ {type(recovery).__name__}"


def outcomes(conversation: Conversation, events: tuple[Event, ...]) -> tuple[str, ...]:
    """Return the names of the stages that some events lead to, each from the same beginning."""
    ends = [
        advance(context_for(conversation), conversation, event).conversation for event in events
    ]
    return tuple(dict.fromkeys(name_of(end) for end in ends))


def markdown() -> str:
    """Return the whole table as Markdown: a row a stage, every kind of event in one of its cells.

    A dot stands for the stage itself, a plus for a question put in between, a tilde for somebody
    who is looked after once a test was stopped.
    """
    lines = ["| stage | leads on | stays |", "|---|---|---|"]
    for name, conversation in conversations().items():
        here, on, stays = name_of(conversation), [], []
        for kind, events in events_for(conversation).items():
            ends = [_told(end, here) for end in outcomes(conversation, events)]
            if ends in ([], ["·"]):
                stays.append(kind)
            else:
                on.append(f"{kind} → {' or '.join(ends)}")
        lines.append(f"| {name} | {'; '.join(on)} | {', '.join(stays)} |")
    return "\n".join(lines)


def _told(end: str, here: str) -> str:
    if end == here:
        return "·"
    return end.removeprefix(here + " ") if end.startswith(here + " ") else end
