"""Whether a chat takes our messages: a block is known once, until the person does something."""

from dataclasses import replace

import pytest

from bot.engine.context import Context, Opening
from bot.engine.dialogues.reaching import goes_out, heeds
from bot.engine.effects import Keep, Say, Urgency
from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    DeliveryFailed,
    Event,
    Failure,
    Opened,
    Thing,
    ThingSent,
    Unblocked,
    WordsEdited,
    WordsGiven,
)
from bot.engine.linked import WordsBeside
from bot.engine.profile import PassedOn
from bot.engine.state import Conversation
from bot.store.codec import decode_conversation, decode_event, encode_conversation, encode_event
from bot.testing.playbook import START, Playbook

FULL = Context(opening=Opening.FULL)


def failed(failure: Failure, number: int = 1) -> DeliveryFailed:
    """Return a message that was given up."""
    return DeliveryFailed(at=START, number=number, failure=failure)


def enrolled() -> Playbook:
    """Return somebody who has agreed, and is free."""
    return Playbook(FULL).enrols()


@pytest.mark.parametrize(
    ("event", "shut"),
    [
        (failed(Failure.BLOCKED), True),
        (Blocked(at=START), True),
        (failed(Failure.REFUSED), False),
        (failed(Failure.UNKNOWN), False),
        (Unblocked(at=START), False),
    ],
)
def test_only_a_block_puts_a_chat_out_of_reach(event: Event, *, shut: bool) -> None:
    """A message that is malformed or lost says nothing of the chat."""
    book = enrolled().happens(event)
    assert (book.conversation.blocked_at is not None) == shut
    assert book.said == ()


def test_a_block_is_known_once() -> None:
    """Whatever is refused after it changes nothing, and need not be told."""
    book = enrolled().happens(failed(Failure.BLOCKED))
    known = book.conversation
    later = replace(failed(Failure.BLOCKED, 2), at=book.now)
    assert book.happens(later).happens(Blocked(at=book.now)).conversation == known
    assert not heeds(known, 2, Failure.BLOCKED)
    assert heeds(known, 2, Failure.REFUSED)
    said = replace(known.profile, passed_on=(PassedOn(at=START, first=7, last=8),))
    assert [heeds(replace(known, profile=said), n, Failure.BLOCKED) for n in (6, 7, 8, 9)] == [
        False, True, True, False,
    ]  # fmt: skip


@pytest.mark.parametrize(
    "event",
    [
        Opened(at=START),
        WordsGiven(at=START, text="where", source="91"),
        WordsEdited(at=START, text="where", source="91"),
        WordsBeside(at=START, text="where", source="91", under_way=("c9",)),
        ChoiceTapped(at=START, token="nonsense"),
        ThingSent(at=START, thing=Thing.PHOTO),
        Unblocked(at=START),
    ],
)
def test_anything_that_the_person_does_opens_the_chat_again(event: Event) -> None:
    """Every arrival from there, whatever it is."""
    book = enrolled().happens(Blocked(at=START)).happens(event)
    assert book.conversation.blocked_at is None


def test_before_consent_not_even_a_block_is_kept() -> None:
    """Nothing is known of whoever has agreed to nothing."""
    opened = Playbook(FULL).opens()
    before = opened.conversation
    for event in (Blocked(at=START), failed(Failure.BLOCKED)):
        assert opened.happens(event).conversation == before


@pytest.mark.parametrize("urgency", Urgency)
def test_to_a_blocked_chat_go_prompts_answers_and_words_of_safety(urgency: Urgency) -> None:
    """Reminders and files do not; what is no message is followed; an open chat gets all."""
    shut = enrolled().happens(Blocked(at=START)).conversation
    said = Say(number=1, parts=(), urgency=urgency)
    goes = urgency in (Urgency.SAFETY, Urgency.TIMED, Urgency.REPLY)
    assert goes_out(shut, said) == goes
    assert goes_out(replace(shut, blocked_at=None), said)


def test_what_changes_the_store_is_followed_though_the_chat_is_shut() -> None:
    """A test that ends by silence is kept, whoever can be told of it."""
    book = Playbook(FULL, attentive=False).enrols().taps("now").taps("done").taps("go").stands()
    shut = book.happens(Blocked(at=book.now)).waits(minutes=60)
    kept = [effect for effect in shut.effects if isinstance(effect, Keep)]
    assert kept
    assert goes_out(shut.conversation, kept[0])


def test_what_was_stored_before_there_were_blocks_is_read() -> None:
    """Failures of old keep their meaning, and a conversation without the field is within reach.

    The texts are as an earlier version wrote them.
    """
    old = (
        '{"schema":1,"body":{"at":"2026-03-02T09:00:00+00:00","number":3,"failure":"refused",'
        '"is":"DeliveryFailed"}}'
    )
    assert decode_event(old) == failed(Failure.REFUSED, 3)
    row = '{"schema":1,"body":{"id":"c","locale":"en"}}'
    assert decode_conversation(row) == Conversation(id="c", locale="en")
    shut = enrolled().happens(Blocked(at=START)).conversation
    assert decode_conversation(encode_conversation(shut)) == shut
    for event in (Blocked(at=START), Unblocked(at=START), failed(Failure.BLOCKED)):
        assert decode_event(encode_event(event)) == event
