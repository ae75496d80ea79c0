"""Random walks through the machine."""

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.engine.context import Context, Opening
from bot.engine.deadlines import next_deadline
from bot.engine.dialogues import recovering
from bot.engine.effects import Choice, Hand, Outgoing, Revise, Say
from bot.engine.events import (
    ChoiceTapped,
    DeadlineReached,
    DeliveryFailed,
    Failure,
    Opened,
    Thing,
    ThingSent,
    WordsEdited,
)
from bot.engine.questions import asked_by_aside, asked_by_stage
from bot.engine.replay import replay
from bot.engine.state import AwaitingPosition, AwaitingReading, Finished, Idle, Resting
from bot.protocol.released import RELEASED
from bot.store.codec import (
    decode_conversation,
    decode_event,
    decode_outgoing,
    encode_conversation,
    encode_event,
    encode_outgoing,
)
from bot.testing.playbook import Playbook
from bot.texts import LANGUAGES, render

TEXTS = st.one_of(
    st.sampled_from([
        "124/76 72", "124/76", "72", "hr 80", "76/124 72", "300/20 900", "120/80 80", "84/60 99",
        "190/110 80", "ready", "lying down", "sitting", "standing", "yes", "no", "ok", "fine",
        "stop", "stpo", "i want to stop it all now", "where", "help", "language", "english",
        "español", "symptom", "dizzy", "dizzy 6", "6", "feel faint", "chest pain", "fix",
        "results", "start", "43", "Madrid", "10:00", "none", "book", "tomorrow 9", "bad day",
        "cancel", "move", "pause", "resume", "time zone", "my data", "delete everything",
        "paper", "yesterday 9:00",
        "wrist", "", " ", "🤒", "tired 3 and dizzy 4", "124/76 72 dizzy",
    ]),
    st.text(max_size=40),
)  # fmt: skip

ACTS = st.one_of(
    st.tuples(st.just("types"), TEXTS),
    st.tuples(st.just("edits"), TEXTS),
    st.tuples(st.just("taps"), st.integers(0, 12)),
    st.tuples(st.just("taps old"), st.integers(0, 60)),
    st.tuples(st.just("waits"), st.integers(1, 400)),
    st.tuples(st.just("deadline"), st.just(0)),
    st.tuples(st.just("early"), st.just(0)),
    st.tuples(st.just("opens"), st.just(0)),
    st.tuples(st.just("sends"), st.sampled_from(list(Thing))),
    st.tuples(st.just("fails"), st.sampled_from(list(Failure))),
)


def buttons(effect: Outgoing) -> list[Choice]:
    """Return the buttons of a message."""
    if not isinstance(effect, Say | Revise | Hand):
        return []
    return [choice for row in effect.choices for choice in row]


def step(book: Playbook, act: tuple[str, object]) -> None:
    """Do one act of a walk."""
    match act:
        case ("types", str(text)):
            book.types(text)
        case ("edits", str(text)):
            book.happens(WordsEdited(at=book.now, text=text, source="1"))
        case ("taps", int(index)):
            shown = [c for e in book.heard[-1:] for c in buttons(e)]
            if shown:
                token = shown[index % len(shown)].token
                book.happens(ChoiceTapped(at=book.now, token=token))
        case ("taps old", int(index)):
            shown = [c for e in book.heard for c in buttons(e)]
            if shown:
                token = shown[index % len(shown)].token
                book.happens(ChoiceTapped(at=book.now, token=token))
        case ("waits", int(seconds)):
            book.waits(seconds=seconds)
        case ("deadline", _):
            due = next_deadline(book.context, book.conversation)
            if due is not None:
                book.now = max(due, book.now)
                book.happens(DeadlineReached(at=book.now))
        case ("early", _):
            book.happens(DeadlineReached(at=book.now))
        case ("opens", _):
            book.happens(Opened(at=book.now))
        case ("sends", Thing() as thing):
            book.happens(ThingSent(at=book.now, thing=thing))
        case ("fails", Failure() as failure):
            book.happens(DeliveryFailed(at=book.now, number=1, failure=failure))
        case _:
            raise AssertionError(act)


WALKS = st.lists(ACTS, max_size=40)
PROTOCOLS = st.sampled_from(list(RELEASED))
CONTEXTS = st.one_of(
    st.builds(Context, protocol=PROTOCOLS),
    st.builds(Context, protocol=PROTOCOLS, opening=st.just(Opening.FULL)),
)


@settings(max_examples=300, deadline=None)
@given(walk=WALKS, context=CONTEXTS, enrolled=st.booleans())
def test_walk_keeps_its_promises(
    walk: list[tuple[str, object]], context: Context, enrolled: bool
) -> None:
    """On any walk numbers count up and a running test can be stopped.

    All of it can be said in every language and stored, and the event log replayed gives the same
    state.
    """
    book = Playbook(context)
    if context.opening is Opening.FULL and enrolled:
        book.enrols()
    for act in walk:
        step(book, act)
        running = isinstance(book.conversation.stage, AwaitingPosition | Resting | AwaitingReading)
        for effect in book.effects:
            if isinstance(effect, Say) and running and act[0] != "waits":
                assert "stop" in {c.token for row in effect.choices for c in row}
    numbers = [effect.number for effect in book.heard]
    assert numbers == list(range(1, len(numbers) + 1))
    for effect in book.heard:
        assert decode_outgoing(encode_outgoing(effect)) == effect
        if isinstance(effect, Say | Revise):
            for locale in LANGUAGES:
                assert all(render(p.key, p.params, locale) for p in effect.parts)
        for choice in buttons(effect):
            assert len(choice.token.encode()) <= 64
            assert render(choice.label, choice.params, "en")
    stored = [decode_event(encode_event(event)) for event in book.events]
    assert replay(book.context, book.beginning, stored) == book.conversation
    assert decode_conversation(encode_conversation(book.conversation)) == book.conversation


@settings(max_examples=200, deadline=None)
@given(walk=WALKS, protocol=PROTOCOLS)
def test_never_stuck(walk: list[tuple[str, object]], protocol: object) -> None:
    """Wherever a walk ends, silence alone brings a test to its end, and then all is quiet."""
    book = Playbook(Context(protocol=protocol))  # type: ignore[arg-type]
    for act in walk:
        step(book, act)
    started = isinstance(book.conversation.stage, AwaitingPosition | Resting | AwaitingReading)
    book.waits(minutes=90)
    if started:
        assert isinstance(book.conversation.stage, Finished)
    assert next_deadline(book.context, book.conversation) is None
    assert book.waits(minutes=6000).effects == ()


@settings(max_examples=200, deadline=None)
@given(walk=WALKS)
def test_never_two_open_questions(walk: list[tuple[str, object]]) -> None:
    """The answers of the last message belong to one question that is open, or to none.

    How somebody is who lies down is asked beside the others, in messages of its own.
    """
    book = Playbook()
    for act in walk:
        step(book, act)
        questions = {
            asked_by_aside(book.conversation),
            asked_by_stage(book.conversation),
            recovering.asked(book.conversation),
        }
        said = [e for e in book.effects if isinstance(e, Say)]
        if said and act[0] != "waits":
            tokens = {c.token for row in said[-1].choices for c in row}
            asked = {t.rpartition(":")[0] for t in tokens if ":" in t} - {"fix", "use"}
            assert len(asked) <= 1
            assert asked <= questions


@settings(max_examples=100, deadline=None)
@given(walk=WALKS)
def test_a_fresh_start_is_always_near(walk: list[tuple[str, object]]) -> None:
    """From anywhere, stopping and starting leads into a new test within a few taps."""
    book = Playbook()
    for act in walk:
        step(book, act)
    book.types("stop").types("start")
    if isinstance(book.conversation.stage, Idle):
        book.opens()
    for choice in ("20-and-over", "go"):
        if not isinstance(book.conversation.stage, AwaitingPosition):
            book.types({"20-and-over": "43", "go": "ready"}[choice])
    assert isinstance(book.conversation.stage, AwaitingPosition)


def test_seconds_between_events_do_not_matter_to_replay() -> None:
    """Two walks with the same events at other times keep their own offsets."""
    slow, fast = Playbook().lies_down(), Playbook().lies_down()
    slow.waits(minutes=5, seconds=30).types("120/76 70")
    fast.waits(minutes=5).types("120/76 70")
    offsets = [getattr(b.conversation.stage, "record").readings[0].offset for b in (slow, fast)]  # noqa: B009
    assert offsets[0] - offsets[1] == timedelta(seconds=30)
