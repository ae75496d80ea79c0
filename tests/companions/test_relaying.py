"""A companion's words about a test under way: numbers by agreement, calls for help always."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.engine.concern import Concern, concern_of
from bot.engine.context import Opening
from bot.engine.effects import Say
from bot.engine.state import AwaitingReading, AwaitingStopReason, Finished, Resting
from bot.protocol.record import Ending, Values
from bot.store.sql import SqlStore
from tests.companions.people import Person, Town, lies, link, stands
from tests.companions.test_linking import ENROLS
from tests.shelf import Shelf


@pytest.fixture
def ana(town: Town) -> Person:
    """Return somebody who does a test."""
    return town.person("ana")


@pytest.fixture
def bea(town: Town) -> Person:
    """Return somebody who stands by."""
    return town.person("bea")


def asked(town: Town, ana: Person, bea: Person, share: str = "all") -> None:
    """Link two people and lead one to the first reading that is asked for."""
    link(ana, bea, share)
    lies(ana)
    town.waits(5)
    assert isinstance(ana.conversation.stage, AwaitingReading)
    ana.new()
    bea.new()


# -- what belongs where


@pytest.mark.parametrize(
    ("text", "concern"),
    [
        ("she fainted", Concern.GRAVE),
        ("se desmayó", Concern.GRAVE),
        ("he is not responding", Concern.GRAVE),
        ("stop", Concern.GRAVE),
        ("stpo", Concern.GRAVE),
        ("911", Concern.GRAVE),
        ("she does not feel well", Concern.GRAVE),
        ("mi hermana se siente mal", Concern.GRAVE),
        ("worse", Concern.GRAVE),
        ("she has chest pain 120/80 70", Concern.GRAVE),
        ("124/76 72", Concern.COURSE),
        ("124", Concern.COURSE),
        ("dizzy", Concern.COURSE),
        ("standing", Concern.COURSE),
        ("yes", Concern.COURSE),
        ("fine", Concern.OWN),
        ("better", Concern.OWN),
        ("language", Concern.OWN),
        ("companions", Concern.OWN),
        ("leave", Concern.OWN),
        ("delete everything", Concern.OWN),
        ("how is it going over there", Concern.OWN),
    ],
)
def test_words_are_sorted(text: str, concern: Concern) -> None:
    """Calls for help, the course of the test, and all else are told apart."""
    assert concern_of(text) is concern


# -- readings


def test_reading_is_kept_as_if_the_person_had_typed_it(
    town: Town, ana: Person, bea: Person
) -> None:
    """Its words are kept, its message is named as the companion's, and both are told."""
    asked(town, ana, bea)
    bea.types("124/76 72")
    record = getattr(ana.conversation.stage, "record")  # noqa: B009
    (reading,) = record.readings
    assert reading.values == Values(systolic=124, diastolic=76, heart_rate=72)
    assert reading.words == ("124/76 72",)
    assert reading.sources == (f"{bea.conversation.id}:1",)
    assert ana.new() == ["relay.typed", "reading.kept", "go.seated"]
    assert bea.new() == ["beside.kept"]
    assert _numbers(bea) == "124/76 72"


def _numbers(person: Person) -> object:
    says = [e for e in person.got if isinstance(e, Say)]
    return says[-1].parts[-1].params.get("numbers")


def test_reading_comes_in_parts_from_both(town: Town, ana: Person, bea: Person) -> None:
    """One types the pressures and the other the heart rate: it is one reading."""
    asked(town, ana, bea)
    bea.types("124/76")
    assert bea.new() == ["beside.part"]
    ana.types("72")
    assert ana.new()[-2:] == ["reading.kept", "go.seated"]


def test_doubt_can_be_settled_by_either(town: Town, ana: Person, bea: Person) -> None:
    """Odd numbers are asked about; the companion who typed them may say yes."""
    asked(town, ana, bea)
    bea.types("124/76 76")
    assert bea.new() == ["beside.doubted"]
    assert ana.new()[-1].startswith("doubt.")
    bea.types("yes")
    assert bea.new() == ["beside.kept"]


def test_yes_means_nothing_without_a_doubt(town: Town, ana: Person, bea: Person) -> None:
    """A companion cannot say for the person that all is well, or that help is not needed."""
    asked(town, ana, bea)
    bea.types("yes")
    assert (bea.new(), ana.new()) == (["beside.unclear"], [])


def test_what_is_not_understood_does_not_trouble_the_person(
    town: Town, ana: Person, bea: Person
) -> None:
    """Numbers that cannot be a reading are told to whoever typed them, and to nobody else."""
    asked(town, ana, bea)
    bea.types("900/20 1200")
    assert (bea.new(), ana.new()) == (["beside.unclear"], [])


def test_edited_reading_is_corrected(town: Town, ana: Person, bea: Person) -> None:
    """A companion changes the message that held the numbers: the reading is changed."""
    asked(town, ana, bea)
    bea.types("142/76 72").edits("124/76 72")
    record = getattr(ana.conversation.stage, "record")  # noqa: B009
    assert record.readings[0].values.systolic == 124
    assert "fix.done" in ana.read()


def test_messages_of_two_chats_are_not_mixed_up(town: Town, ana: Person, bea: Person) -> None:
    """Both chats count their messages; an edit in one never changes what came from the other."""
    asked(town, ana, bea)
    ana.types("120/70 70")
    same = ana.conversation.stage
    bea.types("hello")
    for _ in range(6):
        bea.edits("140/90 99")
    assert getattr(ana.conversation.stage, "record") == getattr(same, "record")  # noqa: B009


def test_position_and_symptom_count(town: Town, ana: Person, bea: Person) -> None:
    """A companion beside the bed says that they lie, and what they feel."""
    link(ana, bea, "all")
    ana.opens().types("43", "ready")
    bea.new()
    bea.types("lying")
    assert isinstance(ana.conversation.stage, Resting)
    bea.types("dizzy 4")
    assert bea.new() == ["beside.noted", "beside.noted"]
    symptoms = getattr(ana.conversation.stage, "record").symptoms  # noqa: B009
    assert [(s.symptom, s.strength) for s in symptoms] == [("dizzy", 4)]


def test_unsafe_reading_of_a_companion_ends_the_test(town: Town, ana: Person, bea: Person) -> None:
    """It is held against the stop lines like any other."""
    asked(town, ana, bea)
    bea.types("210/125 90")
    assert ana.profile.tests[-1].ending is Ending.UNSAFE_READING
    assert bea.new() == ["notice.unsafe-reading", "notice.been.supine"]


def test_numbers_are_refused_where_only_alarms_were_agreed(
    town: Town, ana: Person, bea: Person
) -> None:
    """The refusal is kind, tells nothing of the test, and leaves it as it was."""
    asked(town, ana, bea, "alarms")
    before = ana.conversation
    bea.types("124/76 72", "dizzy 4", "standing")
    assert bea.new() == ["beside.not-agreed"] * 3
    assert (ana.new(), ana.conversation) == ([], before)


def test_numbers_of_one_of_two_are_not_guessed(town: Town, ana: Person, bea: Person) -> None:
    """With two tests under way nobody's numbers are taken, and a call for help ends both."""
    ida = town.person("ida")
    link(ida, bea, "all")
    lies(ida)
    asked(town, ana, bea)
    bea.types("124/76 72")
    assert bea.new() == ["beside.which"]
    bea.types("she fainted")
    endings = [person.profile.tests[-1].ending for person in (ana, ida)]
    assert endings == [Ending.EMERGENCY, Ending.EMERGENCY]


# -- silence


@pytest.mark.parametrize("words", ["hello?", "is she ok", "fine", "900", "yes", "ready"])
def test_words_from_afar_do_not_end_a_silence(
    town: Town, ana: Person, bea: Person, words: str
) -> None:
    """Somebody else writing is no sign that the person is well: the ladder goes on."""
    link(ana, bea, "all")
    stands(town, ana)
    for _ in range(12):
        town.waits(1)
        bea.types(words)
    assert ana.profile.tests[-1].ending is Ending.SILENT
    assert "notice.silent" in bea.read()


def test_reading_ends_a_silence(town: Town, ana: Person, bea: Person) -> None:
    """Numbers that were waited for can only come from beside the person."""
    asked(town, ana, bea)
    town.waits(1.5)
    bea.types("124/76 72")
    assert ana.new()[-1] == "go.seated"


# -- calls for help


@pytest.mark.parametrize("share", ["alarms", "all"])
@pytest.mark.parametrize(
    ("words", "ending"),
    [
        ("she fainted", Ending.EMERGENCY),
        ("se desmayó", Ending.EMERGENCY),
        ("he does not wake up", Ending.EMERGENCY),
        ("my sister fainted", Ending.EMERGENCY),
        ("she is about to faint", Ending.STOPPED),
        ("stop", Ending.STOPPED),
    ],
)
def test_call_for_help_ends_the_test(
    town: Town, *, ana: Person, bea: Person, share: str, words: str, ending: Ending
) -> None:
    """Whatever was agreed, words that cannot wait are passed on and heard as the person's own."""
    asked(town, ana, bea, share)
    bea.types(words)
    assert ana.profile.tests[-1].ending is ending
    assert ana.new()[0] == "relay.grave"
    said = bea.new()
    assert said[0] == "beside.passed-on"
    assert said[1].startswith("notice.")


@pytest.mark.parametrize("share", ["alarms", "all"])
@pytest.mark.parametrize("words", ["i think we should stop her now", "she looks bad", "worse"])
def test_doubtful_call_is_asked_about_and_no_answer_is_yes(
    town: Town, ana: Person, bea: Person, share: str, words: str
) -> None:
    """Words that may mean stop are put to the person; silence ends the test."""
    asked(town, ana, bea, share)
    bea.types(words)
    assert bea.new() == ["beside.passed-on", "beside.asked"]
    assert ana.new()[-1] == "stop.sure"
    town.waits(1)
    assert isinstance(ana.conversation.stage, AwaitingStopReason)


def test_numbers_in_a_call_for_help_are_kept_only_by_agreement(
    town: Town, ana: Person, bea: Person
) -> None:
    """Whoever may not type readings does not do so by calling for help."""
    eva = town.person("eva")
    link(ana, eva, "alarms")
    asked(town, ana, bea)
    eva.types("she fainted, 84/50 99")
    assert ana.store_readings() == 0


def test_worse_is_passed_on_while_somebody_is_looked_after(
    town: Town, ana: Person, bea: Person
) -> None:
    """After a test that was stopped, a companion says that it gets worse."""
    link(ana, bea, "alarms")
    stands(town, ana)
    ana.types("i feel faint")
    town.waits(2)
    bea.new()
    bea.types("worse")
    assert "notice.worse" in bea.new()


def test_nothing_is_passed_on_when_no_test_runs(town: Town, ana: Person, bea: Person) -> None:
    """Words then stay in the companion's own chat, a call for help included."""
    link(ana, bea, "all")
    before = ana.conversation
    bea.types("124/76 72", "she fainted")
    assert bea.new() == ["not-understood", "where.companion", "emergency.now"]
    assert (ana.new(), ana.conversation) == ([], before)


def test_test_that_has_just_ended_takes_no_numbers(town: Town, ana: Person, bea: Person) -> None:
    """A reading that comes after the end changes no result."""
    asked(town, ana, bea)
    ana.types("stop", "cuff")
    record = ana.conversation.stage
    assert isinstance(record, Finished)
    bea.types("124/76 72")
    assert ana.conversation.stage == record


# -- the companion's own chat


def test_own_words_stay_their_own(town: Town, ana: Person, bea: Person) -> None:
    """Language, help and the list of companions are answered where they are typed."""
    asked(town, ana, bea)
    bea.types("where", "español", "companions")
    assert bea.new() == ["where.companion", "language.set", "where.companion", "accompany.list"]
    assert ana.new() == []


def test_own_question_comes_first(store: SqlStore) -> None:
    """Numbers that answer a question of their own are theirs."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    link(ana, bea, "all")
    bea.types("start", "yes")
    ana.types("ready", "none", "ready", "lying")
    bea.types("34")
    assert bea.conversation.age_band is not None
    bea.types("she fainted")
    assert "beside.passed-on" in bea.read()


def test_own_test_comes_first(town: Town, ana: Person, bea: Person) -> None:
    """Whoever does a test of their own speaks of themselves."""
    asked(town, ana, bea)
    bea.types("start", "43", "ready", "lying", "i fainted")
    assert bea.profile.tests[-1].ending is Ending.EMERGENCY
    assert isinstance(ana.conversation.stage, AwaitingReading)


ACTS = st.lists(
    st.tuples(
        st.sampled_from(["ana", "bea"]),
        st.sampled_from([
            "124/76 72", "76/124 72", "124", "lying", "ready", "dizzy 6", "yes", "no", "start",
            "43", "she fainted 88/50 99", "stop", "worse", "hello", "companions", "wait", "fine",
        ]),
    ),
    max_size=14,
)  # fmt: skip


@settings(max_examples=15, deadline=None)
@given(acts=ACTS)
def test_numbers_never_reach_one_who_hears_only_alarms(
    shelf: Shelf, acts: list[tuple[str, str]]
) -> None:
    """Whatever either of them types and however long they wait, no reading is shown or taken."""
    store = shelf.fresh()
    town = Town(store)
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    for who, text in acts:
        if text == "wait":
            town.waits(3)
        elif who == "ana" or text not in ("start", "43"):  # she has no test of her own
            (ana if who == "ana" else bea).types(text)
    params = {
        name for e in bea.got if isinstance(e, Say) for part in e.parts for name in part.params
    }
    kept = store.results(ana.conversation.id)
    store.close()
    assert params <= {"gone", "number", "count"}
    assert not any(
        ":" in source for r in kept for reading in r.readings for source in reading.sources
    )
