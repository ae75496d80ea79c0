"""What companions were told too often, the person not at all, and links that stayed open."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from bot.engine.linked import Notified
from bot.engine.notices import Notice
from bot.engine.profile import Accompanied, Profile, Share
from bot.testing.playbook import START, Playbook
from tests.companions.people import Person, Town, link, stands
from tests.shelf import Shelf


@pytest.fixture
def town(shelf: Shelf) -> Iterator[Town]:
    """Return a town in which a test begins at once."""
    store = shelf.fresh()
    yield Town(store)
    store.close()


def offered(person: Person, share: str = "alarms") -> str:
    """Return a new link of a person's."""
    return person.types("companion").taps(share).link


def fallen_silent(town: Town, *companions: Person) -> Person:
    """Return somebody whose test was closed since they do not answer, with companions told."""
    ana = town.person("ana")
    ana.opens()
    for companion in companions:
        link(ana, companion, "alarms")
    stands(town, ana)
    town.waits(8)
    for companion in companions:
        assert "notice.silent" in companion.new()
    return ana


def test_companion_who_is_with_them_gets_no_more_alarms_of_silence(town: Town) -> None:
    """After "I am with them" the alarm that nobody answers came again."""
    bea, eva = town.person("bea"), town.person("eva")
    fallen_silent(town, bea, eva)
    bea.taps("with")
    bea.new()
    town.waits(20)
    assert "notice.still-silent" not in bea.new()
    assert "notice.still-silent" in eva.new()


def beside() -> Playbook:
    """Return the chat of somebody who stands by, just after an alarm of silence."""
    book = Playbook()
    person = Accompanied(id="ana", number=1, share=Share.ALARMS, since=START)
    book.conversation = replace(book.conversation, profile=Profile(accompanies=(person,)))
    return hears(book, Notice.SILENT)


def hears(book: Playbook, notice: Notice) -> Playbook:
    """Let them be told of the test of the person they stand by for."""
    return book.happens(Notified(at=book.now, of="ana", notice=notice))


@pytest.mark.parametrize("answers", [("lost:ana",), ("with:ana", "lost:ana"), ()])
def test_companion_who_is_not_with_them_is_told_again(answers: tuple[str, ...]) -> None:
    """Whoever cannot reach them, or has not answered, hears that the silence lasts."""
    book = beside()
    for answer in answers:
        book.taps(answer)
    assert "notice.still-silent" in hears(book, Notice.STILL_SILENT).said


def test_being_with_them_once_says_nothing_of_the_next_test() -> None:
    """In a later test the silence is told from the beginning, and again."""
    book = beside().taps("with:ana").waits(minutes=60)
    hears(book, Notice.SILENT)
    assert "notice.still-silent" in hears(book, Notice.STILL_SILENT).said


def test_worse_is_told_to_whoever_is_with_them() -> None:
    """That they feel worse is news to whoever sits beside them, too."""
    book = beside().taps("with:ana")
    assert "notice.worse" in hears(book, Notice.WORSE).said
    assert hears(book, Notice.STILL_SILENT).said == ()


def test_person_is_told_when_a_companion_declines(town: Town) -> None:
    """Who waited for a yes never heard of the no."""
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens()
    code = offered(ana)
    ana.new()
    bea.opens(code).taps("no")
    assert ana.new() == ["companion.declined"]
    bea.opens(code).taps("no")
    assert ana.new() == []  # once for each link
    town.person("eva").opens(code).taps("yes")
    assert ana.new() == ["companion.joined.alarms"]


def test_open_link_is_listed_and_can_be_withdrawn(town: Town) -> None:
    """A link that had gone to the wrong person was good for a week, whatever one did."""
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens()
    first = offered(ana)
    town.waits(1)
    second = offered(ana, "all")
    ana.new()
    ana.types("companions")
    assert ana.new() == ["companion.offers"]
    ana.taps(f"withdraw:{ana.profile.offers[1].number}")
    assert ana.new() == ["companion.withdrawn"]
    bea.opens(second)
    assert "link.unknown" in bea.new()
    bea.opens(first).taps("yes")
    assert [c.share.value for c in ana.profile.companions] == ["alarms"]
    assert ana.profile.offers == ()


def test_link_withdrawn_while_it_is_open_elsewhere_links_nobody(town: Town) -> None:
    """A yes that comes after the link was taken back comes too late, and a no is not told."""
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    ana.opens()
    bea.opens(offered(ana))
    ana.types("companions").taps("withdraw")
    bea.taps("yes")
    assert "link.unknown" in bea.new()
    town.waits(1)
    eva.opens(offered(ana))
    ana.types("companions").taps("withdraw")
    ana.new()
    eva.taps("no")
    assert ana.new() == []
    assert ana.profile.companions == ()


def test_used_link_is_not_on_the_list(town: Town) -> None:
    """Once somebody is linked by it there is nothing to withdraw; an old button says so."""
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens()
    code = offered(ana)
    ana.types("companions")
    bea.opens(code).taps("yes")
    ana.new()
    ana.taps("withdraw")
    assert ana.new()[0] == "stale"
    ana.types("companions")
    assert ana.new() == ["companion.list"]
    assert len(ana.profile.companions) == 1


def test_link_that_has_run_out_is_not_on_the_list(town: Town) -> None:
    """After a week a link is good no more, and is not shown as if it were."""
    ana = town.person("ana")
    ana.opens()
    offered(ana)
    town.waits(7 * 24 * 60 + 1)
    ana.new()
    ana.types("companions")
    assert ana.new() == ["question.share"]
