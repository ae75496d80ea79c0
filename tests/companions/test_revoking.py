"""Ending it: by either side, at any time, and with nothing left that reaches anybody."""

from datetime import timedelta

import pytest
from sqlalchemy import text

from bot.engine.context import Context, Opening
from bot.engine.events import ChoiceTapped, WordsGiven
from bot.engine.replay import replay
from bot.reports.copy import copy_of
from bot.runtime.ports import Inbound
from bot.store.reading import kept_of
from bot.store.sql import SqlStore
from tests.companions.people import Person, Town, lies, link, stands
from tests.companions.test_linking import ENROLS
from tests.store.looking import dump


def test_list_has_a_button_for_each(town: Town) -> None:
    """Number, day and what they hear are said; the button removes just that one."""
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    link(ana, bea, "alarms")
    link(ana, eva, "all")
    ana.types("companions")
    assert ana.new() == ["companion.list"]
    ana.taps(bea.conversation.id)
    assert [c.id for c in ana.profile.companions] == [eva.conversation.id]
    assert (ana.new(), eva.new()) == (["companion.removed"], [])
    assert bea.new() == ["accompany.ended"]


def test_nothing_reaches_whoever_was_removed(town: Town) -> None:
    """After it is ended the test goes as it goes, and they hear of none of it."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    ana.types("companions").taps("unlink")
    bea.new()
    stands(town, ana)
    town.waits(30)
    assert bea.new() == []


def test_alarm_that_still_waits_is_taken_back(town: Town) -> None:
    """What was to be told before the end, and has not left, does not leave after it.

    What is told of somebody else leaves all the same.
    """
    ana, ida, bea = town.person("ana"), town.person("ida"), town.person("bea")
    for person in (ana, ida):
        link(person, bea, "alarms")
        lies(person)
    bea.new()
    for person in (ana, ida):
        words = WordsGiven(at=town.now, text="i have chest pain", source="99")
        town.conductor.handle(Inbound(key=person.address, address=person.address, event=words))
    gone = ChoiceTapped(at=town.now, token=f"leave:{ana.conversation.id}")
    town.conductor.handle(Inbound(key="gone", address=bea.address, event=gone))
    town.deliver()
    assert bea.new() == [
        "notice.about",
        "notice.emergency",
        "notice.been.supine",
        "accompany.left",
    ]


@pytest.mark.parametrize("word", ["leave", "salir", "Leave!"])
def test_companion_can_leave(town: Town, word: str) -> None:
    """One word ends it; the person is told, and nothing is kept of the companion."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    name = bea.conversation.id
    bea.types(word)
    assert (bea.new(), ana.new()) == (["accompany.left"], ["companion.left"])
    assert ana.profile.companions == ()
    assert not bea.kept
    assert ana.conversation.id != name


def test_companion_can_leave_in_the_middle_of_a_test(town: Town) -> None:
    """The person is told at once, since nobody stands by from now on."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    lies(ana)
    ana.new()
    bea.types("leave")
    assert ana.new() == ["companion.left"]


def test_companion_of_several_chooses_whom_to_leave(town: Town) -> None:
    """With more than one person the word lists them, and a button ends one."""
    ana, ida, bea = town.person("ana"), town.person("ida"), town.person("bea")
    link(ana, bea, "alarms")
    link(ida, bea, "alarms")
    bea.types("leave")
    assert bea.new() == ["accompany.list"]
    bea.taps(ana.conversation.id)
    assert (ana.profile.companions, len(ida.profile.companions)) == ((), 1)
    assert [p.number for p in bea.profile.accompanies] == [2]


def test_word_to_leave_means_nothing_to_others(town: Town) -> None:
    """Who stands by for nobody is asked nothing and loses nothing by it."""
    ana = town.person("ana")
    lies(ana)
    stage = ana.conversation.stage
    ana.types("leave")
    assert ana.conversation.stage == stage


def test_buttons_of_a_link_that_has_ended_are_stale(town: Town) -> None:
    """Tapped once more they change nothing, and say so."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    lies(ana)
    ana.types("stop", "cuff")
    ana.types("companions").taps("unlink")
    bea.new()
    ana.new()
    ana.taps("unlink")
    assert ana.new()[0] == "stale"
    bea.taps("lost")
    assert ana.new() == []


# -- deletion


@pytest.fixture
def enrolled(store: SqlStore) -> tuple[Town, Person, Person]:
    """Return a town with two people who are linked, as patients meet it."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    link(ana, bea, "all")
    return town, ana, bea


def test_deleting_everything_ends_all_links(enrolled: tuple[Town, Person, Person]) -> None:
    """The companion reads that it has ended; no row of either is left, nor of the link."""
    town, ana, bea = enrolled
    names = (ana.conversation.id, bea.conversation.id)
    ana.types("companion").taps("alarms")
    ana.types("delete everything").taps("yes")
    assert bea.new() == ["accompany.ended"]
    assert ana.new()[-1] == "deleted"
    assert not ana.kept
    assert not bea.kept
    assert [name for name in names if name in dump(town.store)] == []
    with town.store.engine.begin() as connection:
        links = connection.execute(text("SELECT count(*) FROM companion_link")).scalar_one()
    assert links == 0


def test_link_of_somebody_who_deleted_everything_is_no_good(store: SqlStore) -> None:
    """A link that was not used yet goes with the rest, also for whoever has it open."""
    town = Town(store, Opening.FULL)
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    ana.opens().types(*ENROLS)
    first = ana.types("companion").taps("alarms").link
    bea.opens(first)
    ana.types("delete everything").taps("yes")
    assert eva.opens(first).new() == ["link.unknown"]
    bea.new()
    assert bea.types("yes").new() == ["link.unknown"]
    ana.opens()
    assert ana.profile.companions == ()


def test_companion_who_deletes_everything_is_off_the_list(
    enrolled: tuple[Town, Person, Person],
) -> None:
    """The person is told, and no alarm goes to nobody."""
    _, ana, bea = enrolled
    bea.types("delete everything").taps("yes")
    assert ana.new() == ["companion.left"]
    assert ana.profile.companions == ()
    assert not bea.kept


def test_patient_who_was_a_companion_stays_a_patient(
    enrolled: tuple[Town, Person, Person],
) -> None:
    """Ending the link forgets nothing of somebody who has tests of their own."""
    _, ana, bea = enrolled
    bea.types("start", *ENROLS)
    ana.types("companions").taps("unlink")
    assert bea.kept
    assert bea.profile.enrolled
    assert bea.profile.accompanies == ()


def test_copy_of_the_data_tells_of_the_links(enrolled: tuple[Town, Person, Person]) -> None:
    """Both sides' copies name the link, since it is kept of them."""
    town, ana, bea = enrolled
    names = [person.conversation.id for person in (ana, bea)]
    with town.store.engine.begin() as connection:
        copies = [copy_of(kept_of(connection, name)).content.decode() for name in names]
    assert names[1] in copies[0]
    assert names[0] in copies[1]


def test_histories_of_both_replay(enrolled: tuple[Town, Person, Person]) -> None:
    """What happened between two, played again on each side, gives the same states."""
    town, ana, bea = enrolled
    ana.types("ready", "none", "ready", "lying")
    town.now += timedelta(seconds=20)
    bea.types("dizzy 4", "she fainted")
    bea.taps("lost")
    for person in (ana, bea):
        history = town.store.history(person.conversation.id)
        context = Context(opening=Opening.FULL)
        assert replay(context, history.beginning, history.events) == person.conversation
