"""What companions are told: no more than was agreed, in their own words, with what to do."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.engine.context import Context
from bot.engine.deadlines import next_deadline
from bot.engine.effects import OfferLink, Say, Urgency
from bot.engine.events import DeadlineReached, DeliveryFailed, Failure, WordsGiven
from bot.engine.linked import CompanionAnswered, Notified
from bot.engine.machine import advance
from bot.engine.notices import Notice, Tell
from bot.engine.post import is_alarm, posted
from bot.engine.profile import Accompanied, Companion, Profile, Share
from bot.engine.state import Conversation, Finished
from bot.errors import ConflictError
from bot.protocol.definition import Position
from bot.runtime.ports import Inbound
from bot.store.unit import SqlUnit
from bot.texts import LANGUAGES, render
from bot.texts.companions import MESSAGES
from tests.companions.people import START, Town, buttons, lies, link, stands

ALARMS = frozenset({
    "stopped", "felt-faint", "emergency", "unsafe-reading", "silent", "still-silent", "worse",
    "better",
})  # fmt: skip
"""What a companion hears who was to hear only if something goes wrong."""

PERSON = Conversation(
    id="ana",
    locale="en",
    profile=Profile(
        companions=(
            Companion(id="bea", share=Share.ALARMS, since=START),
            Companion(id="eva", share=Share.ALL, since=START),
        )
    ),
)


def accompanying(share: Share, locale: str = "en") -> Conversation:
    """Return the conversation of a companion."""
    person = Accompanied(id="ana", number=1, share=share, since=START)
    return Conversation(id="bea", locale=locale, profile=Profile(accompanies=(person,)))


def told(share: Share, notice: Notice) -> tuple[Say, ...]:
    """Return what a companion is told of a notice that reached them."""
    event = Notified(
        at=START,
        of="ana",
        notice=notice,
        position=Position.STANDING,
        offset=timedelta(minutes=6),
    )
    effects = advance(Context(), accompanying(share), event).effects
    return tuple(effect for effect in effects if isinstance(effect, Say))


# -- who is told what


@pytest.mark.parametrize("notice", list(Notice))
def test_each_is_sent_what_was_agreed(notice: Notice) -> None:
    """Alarms go to all, the course of the test only to whoever was to hear all."""
    sent = [to for to, _ in posted(PERSON, Tell(notice=notice), START)]
    assert sent == (["bea", "eva"] if notice in ALARMS else ["eva"])


@pytest.mark.parametrize("notice", list(Notice))
@pytest.mark.parametrize("share", list(Share))
def test_where_it_arrives_it_is_held_once_more(share: Share, notice: Notice) -> None:
    """A notice that was not agreed to says nothing, even if it were to arrive."""
    said = [part.key for say in told(share, notice) for part in say.parts]
    agreed = share is Share.ALL or notice in ALARMS
    assert (f"notice.{notice}" in said) == agreed
    assert bool(said) == agreed


@pytest.mark.parametrize("notice", list(Notice))
def test_alarms_overtake_everything(notice: Notice) -> None:
    """An alarm is a word of safety; that a test began or ended is not."""
    (say,) = told(Share.ALL, notice)
    assert say.urgency is (Urgency.SAFETY if notice in ALARMS else Urgency.REPLY)


@pytest.mark.parametrize("notice", list(Notice))
def test_alarms_that_need_somebody_can_be_answered(notice: Notice) -> None:
    """Whoever is needed says by a button that they are there, or that they cannot reach them."""
    (say,) = told(Share.ALL, notice)
    wanted = ["with:ana", "lost:ana"] if notice in ALARMS - {"better"} else []
    assert [button.token for button in buttons(say)] == wanted


@pytest.mark.parametrize("locale", LANGUAGES)
def test_alarms_say_what_to_do_and_whom_to_call(locale: str) -> None:
    """Each alarm but the good news begins with what happened or to do, and names the number."""
    number = {"en": "local emergency number", "es": "número de emergencias"}[locale]
    for notice in ALARMS - {"better"}:
        words = render(f"notice.{notice}", {}, locale)
        assert number in words, notice
        assert ("Call" in words) if locale == "en" else ("lame" in words), notice


def test_no_notice_can_hold_a_number_of_a_reading() -> None:
    """The words of notices have no place for one: how long, and of whom, is all they take."""
    taken = {
        name
        for key, message in MESSAGES.items()
        if key.startswith("notice.")
        for name in ("numbers", "pressures", "heart_rate", "words", "gone", "number")
        if f"{{{name}}}" in message.one
    }
    assert taken == {"gone", "number"}


def test_stranger_is_told_nothing() -> None:
    """Who is linked with nobody is told of nobody."""
    event = Notified(at=START, of="ana", notice=Notice.SILENT)
    assert advance(Context(), Conversation(id="eva", locale="en"), event).effects == ()


WALK = st.lists(
    st.sampled_from([
        "120/76 70", "ready", "standing", "dizzy 6", "stop", "chest pain", "feel faint", "84/50 99",
        "start", "43", "better", "worse", "no", "yes", "wait", "wait", "wait long",
    ]),
    max_size=25,
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(walk=WALK, share=st.sampled_from(list(Share)))
def test_a_companion_never_sees_more_than_agreed(walk: list[str], share: Share) -> None:
    """On any walk through tests, with every alarm rung, one who hears only alarms hears only them.

    Nothing told to anybody holds a number that was measured.
    """
    companion = Companion(id="bea", share=share, since=START)
    person = Conversation(id="ana", locale="en", profile=Profile(companions=(companion,)))
    beside, now, heard, notices = accompanying(share), START, list[Say](), list[str]()
    for number, act in enumerate(("43", "ready", "lying", *walk)):
        if act.startswith("wait"):
            due = next_deadline(Context(), person)
            now = max(now, due or now) + timedelta(minutes=5 if act == "wait long" else 0)
            transition = advance(Context(), person, DeadlineReached(at=now))
        else:
            event = WordsGiven(at=now, text=act, source=str(number))
            transition = advance(Context(), person, event)
        person = transition.conversation
        for effect in transition.effects:
            notices += [effect.notice] if isinstance(effect, Tell) else []
            for to, letter in posted(person, effect, now):
                assert to == "bea"
                after = advance(Context(), beside, letter)
                beside = after.conversation
                heard += [e for e in after.effects if isinstance(e, Say)]
    keys = [part.key for say in heard for part in say.parts]
    known = {str(notice) for notice in Notice}
    said = [key.removeprefix("notice.") for key in keys if key.removeprefix("notice.") in known]
    assert said == [n for n in notices if share is Share.ALL or n in ALARMS]
    assert all(key.startswith("notice.") for key in keys)
    assert all(set(part.params) <= {"gone", "number"} for say in heard for part in say.parts)


# -- through the store


def test_silence_standing_calls_the_companion(town: Town) -> None:
    """Whoever stands and does not answer: the companion reads what to do, in their language."""
    ana, bea = town.person("ana"), town.person("bea", "es")
    link(ana, bea, "alarms")
    stands(town, ana)
    assert bea.new() == []
    town.waits(12)
    assert bea.new()[:2] == ["notice.silent", "notice.been.standing"]
    with_number = [e for e in bea.got if isinstance(e, Say)]
    assert all(e.urgency is Urgency.SAFETY for e in with_number[-2:])
    assert bea.conversation.locale == "es"


def test_without_a_companion_nobody_is_told(town: Town) -> None:
    """The same silence with nobody linked ends the same way for the person."""
    ana = town.person("ana")
    stands(town, ana)
    town.waits(12)
    assert "silence.closed" in ana.read()
    assert isinstance(ana.conversation.stage, Finished)


@pytest.mark.parametrize(
    ("words", "notice"),
    [
        ("stop", "stopped"),
        ("i am about to faint", "felt-faint"),
        ("i have chest pain", "emergency"),
        ("84/50 99", "unsafe-reading"),
    ],
)
def test_each_ending_that_is_not_planned_is_told(town: Town, words: str, notice: str) -> None:
    """However a test ends for safety, it reaches the companion in the same moment."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    stands(town, ana)
    ana.types(words)
    assert bea.new()[0] == f"notice.{notice}"


def test_whole_test_is_told_to_whoever_hears_all(town: Town) -> None:
    """Start and end are told to one and not to the other."""
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    link(ana, bea, "alarms")
    link(ana, eva, "all")
    stands(town, ana)
    for _ in range(2):
        town.waits(2.5)
        ana.types("fine")
        town.waits(2.5)
        ana.types("116/78 90")
    assert ana.conversation.profile.tests[-1].ending == "completed"
    assert (bea.new(), eva.new()) == ([], ["notice.started", "notice.completed"])


def test_companion_of_several_reads_of_whom(town: Town) -> None:
    """With more than one person a number says which; nothing else is known of them."""
    ana, ida, bea = town.person("ana"), town.person("ida"), town.person("bea")
    link(ana, bea, "alarms")
    link(ida, bea, "alarms")
    for person, number in ((ida, 2), (ana, 1)):
        lies(person)
        person.types("stop")
        say = next(e for e in reversed(bea.got) if isinstance(e, Say))
        assert (say.parts[0].key, say.parts[0].params) == ("notice.about", {"number": number})


def test_no_name_is_known(town: Town) -> None:
    """A companion's alarm has no words but the catalogue's and how long."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    stands(town, ana)
    ana.types("stop")
    params = [part.params for e in bea.got if isinstance(e, Say) for part in e.parts]
    assert all(set(values) <= {"gone", "number"} for values in params)


# -- answers


def test_answer_goes_back_and_is_kept(town: Town) -> None:
    """Each button tells the person, answers the companion with what to do, and is in the log."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    ana.types("stop")
    ana.new()
    bea.new()
    bea.taps("with")
    assert (bea.new(), ana.new()) == (["answer.with-them"], ["companion.with-you"])
    bea.taps("lost")
    assert (bea.new(), ana.new()) == (["answer.not-reached"], ["companion.not-reached"])
    answers = [
        event.answer
        for event in town.store.history(ana.conversation.id).events
        if isinstance(event, CompanionAnswered)
    ]
    assert answers == ["with-them", "not-reached"]


@pytest.mark.parametrize("locale", LANGUAGES)
def test_not_reached_is_answered_with_the_number_to_call(locale: str) -> None:
    """Who cannot reach them is told first to call, and the local number."""
    words = render("answer.not-reached", {}, locale)
    number = {"en": "the local emergency number", "es": "número de emergencias"}[locale]
    assert number in words.split(".")[0]


def test_button_of_an_old_alarm_alarms_nobody(town: Town) -> None:
    """A day later the buttons are of an earlier step."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    ana.types("stop", "cuff")
    ana.new()
    town.now += timedelta(days=1)
    bea.taps("lost")
    assert bea.new()[-2:] == ["stale", "where.companion"]
    assert ana.new() == []


# -- what does not arrive


def test_blocked_chat_is_told_to_the_person(town: Town) -> None:
    """An alarm that a companion's chat refuses is told: nobody must rely on it."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    ana.new()
    bea.blocked = True
    ana.types("stop")
    assert ana.new() == ["stop.now", "companion.unreached", "stop.reason"]


def test_a_companion_who_blocks_the_bot_in_a_test_is_told_of_at_once(town: Town) -> None:
    """The person need not wait for an alarm that nobody hears."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    ana.new()
    bea.blocks()
    assert ana.new() == ["companion.out-of-reach"]
    bea.blocks()
    assert ana.new() == []
    assert bea.unblocks().conversation.blocked_at is None


def test_refusal_of_anything_else_is_not(town: Town) -> None:
    """That a test began did not arrive: the person is left in peace."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    bea.blocked = True
    lies(ana)
    assert "companion.unreached" not in ana.read()


def test_alarm_that_may_have_arrived_is_not_given_up() -> None:
    """An unknown delivery of an alarm says nothing to the person."""
    beside = accompanying(Share.ALARMS)
    alarmed = advance(Context(), beside, Notified(at=START, of="ana", notice=Notice.SILENT))
    failed = DeliveryFailed(at=START, number=1, failure=Failure.UNKNOWN)
    assert advance(Context(), alarmed.conversation, failed).effects == ()


# -- in one piece


@contextmanager
def failing(monkeypatch: pytest.MonkeyPatch, name: str) -> Iterator[None]:
    """Let the saving of one conversation fail, as if another writer had been faster."""
    save = SqlUnit.save

    def conflict(self: SqlUnit, stored: object, conversation: Conversation, **more: object) -> None:
        if conversation.id == name:
            raise ConflictError(name)
        save(self, stored, conversation, **more)  # type: ignore[arg-type]

    with monkeypatch.context() as patch:
        patch.setattr(SqlUnit, "save", conflict)
        yield


def test_both_conversations_move_or_neither(town: Town, monkeypatch: pytest.MonkeyPatch) -> None:
    """If the companion's side cannot be saved, the person's step has not happened either."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    before = (ana.conversation, bea.conversation)
    event = WordsGiven(at=town.now, text="stop", source="99")
    arrival = Inbound(key="again", address=ana.address, event=event)
    with failing(monkeypatch, bea.conversation.id), pytest.raises(ConflictError):
        town.conductor.handle(arrival)
    assert (ana.conversation, bea.conversation) == before
    town.conductor.handle(arrival)
    town.deliver()
    assert bea.new()[0] == "notice.stopped"


def test_other_side_is_woken_as_well(town: Town) -> None:
    """A step names every conversation that it reached, with its alarm."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    stands(town, ana)
    town.waits(5)
    bea.types("116/78 90")
    assert town.last is not None
    assert dict(town.last.others)[ana.conversation.id] == dict(
        town.store.sleepers(town.now + timedelta(days=1))
    )[ana.conversation.id]  # fmt: skip


def test_link_is_only_said_once_it_has_its_code(town: Town) -> None:
    """What leaves has the code; what the engine gives has none, since it has no chance."""
    ana = town.person("ana")
    ana.types("companion").taps("all")
    (offer,) = [e for e in ana.got if isinstance(e, OfferLink)]
    assert offer.link == f"with-{0:024}"
    assert is_alarm(Notice.SILENT)
