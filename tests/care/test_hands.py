"""One item, several people: taken by one, visible to all, given on, given back, never lost."""

from dataclasses import replace

import pytest

from bot.care.items import Item
from bot.engine.effects import Revise
from bot.errors import ConflictError
from tests.care.clinic import Clinic
from tests.companions.people import Person


def last(person: Person) -> list[str]:
    """Return the keys of the newest message that reached somebody, changed ones included."""
    newest = person.got[-1]
    return [p.key for p in newest.parts]  # type: ignore[union-attr]


def named(person: Person) -> object:
    """Return which member the newest message to somebody names."""
    newest = person.got[-1]
    return next(p.params["member"] for p in newest.parts if "member" in p.params)  # type: ignore[union-attr]


def two(clinic: Clinic) -> tuple[Person, Person]:
    """Return two coordinators with one result to grab."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    clinic.measured("ada").taps("yes")
    return marta, luis


def test_the_second_to_take_an_item_hears_who_has_it(clinic: Clinic) -> None:
    """The first has it; the second sees the first one's name and the time, and changes nothing."""
    marta, luis = two(clinic)
    marta.taps("team:take:1")
    assert (last(luis), named(luis)) == (["care.item", "care.taken"], "Marta")
    assert isinstance(luis.got[-1], Revise)
    luis.types("take 1")
    assert last(luis) == ["care.refused.taken", "care.item", "care.taken"]
    assert named(luis) == "Marta"
    assert clinic.item().taken_by == clinic.number_of("Marta")
    assert clinic.did().count("took-item") == 1


def test_only_whoever_has_an_item_closes_or_gives_it(clinic: Clinic) -> None:
    """Closing, letting go and handing over are refused to everybody else."""
    marta, luis = two(clinic)
    marta.taps("team:take:1")
    for words in ("close 1", "let go 1"):
        luis.types(words)
        assert last(luis)[0] == "care.refused.taken"
    luis.types("hand over 1")
    assert last(luis)[0] == "care.refused.taken"
    assert clinic.item().taken_by == clinic.number_of("Marta")


def test_handing_over_is_seen_by_both(clinic: Clinic) -> None:
    """The one who gets it is told by whom; the one who gave it no longer has it."""
    marta, luis = two(clinic)
    marta.taps("team:take:1").taps("team:give:1").taps(f"team:give:1:{clinic.number_of('Luis')}")
    assert last(luis) == ["care.given-to-you", "care.item", "care.yours"]
    assert (last(marta), named(marta)) == (["care.item", "care.taken"], "Luis")
    luis.taps("team:close:1").taps("team:close:1:nothing")
    assert clinic.inbox() == ()
    assert last(marta) == ["care.item", "care.closed"]


def test_what_is_let_go_can_be_taken_by_another(clinic: Clinic) -> None:
    """An item that was given back is free, which the other one sees."""
    marta, luis = two(clinic)
    marta.taps("team:take:1").taps("team:go:1")
    assert last(luis) == ["care.item", "care.free"]
    luis.taps("team:take:1")
    assert clinic.item().taken_by == clinic.number_of("Luis")


def test_a_closed_item_stays_closed(clinic: Clinic) -> None:
    """Old buttons of a closed item change nothing, and the person is told once."""
    marta, luis = two(clinic)
    ada = clinic.people["test:ada"]
    ada.new()
    marta.taps("team:take:1").taps("team:close:1").taps("team:close:1:call")
    marta.taps("team:close:1:repeat")
    luis.types("take 1")
    assert last(luis)[0] == last(marta)[0] == "care.refused.closed"
    assert ada.new() == ["team.seen", "team.next.call"]


def test_nothing_falls_out_of_the_inbox(clinic: Clinic) -> None:
    """Taking, giving, letting go and a follow-up that was begun leave an item in the inbox."""
    marta, _ = two(clinic)
    for words in ("open 1", "take 1", "close 1", "cancel", "let go 1", "take 1"):
        marta.types(words)
        assert [item.number for item in clinic.inbox()] == [1], words
    marta.taps("team:close:1").taps("other").types("cancel", "hello")
    assert [item.number for item in clinic.inbox()] == [1]


def test_two_who_write_at_once_do_not_both_win(clinic: Clinic) -> None:
    """An item that has changed since it was loaded is not written over."""
    two(clinic)
    item: Item = clinic.item()
    with clinic.store.unit() as unit:
        unit.care.save_item(replace(item, taken_by=1))
    with pytest.raises(ConflictError), clinic.store.unit() as unit:
        unit.care.save_item(replace(item, taken_by=2))
    assert clinic.item().taken_by == 1


def test_a_step_that_fails_leaves_nothing_behind(
    clinic: Clinic, monkeypatch: pytest.MonkeyPatch
) -> None:
    """If the last statement of a step fails, item, messages, log and person are as before."""
    from bot.store.care import SqlCare

    marta, _ = two(clinic)
    ada = clinic.people["test:ada"]
    marta.taps("team:take:1").taps("team:close:1")
    before = (clinic.item(), clinic.log(), ada.conversation, marta.conversation)

    def fails(*_: object) -> None:
        raise RuntimeError("the disk is full")

    with monkeypatch.context() as patched:
        patched.setattr(SqlCare, "note", fails)
        with pytest.raises(RuntimeError, match="the disk is full"):
            marta.taps("team:close:1:call")
    assert (clinic.item(), clinic.log(), ada.conversation, marta.conversation) == before
    assert clinic.store.next_parcel_at() is None
    marta.taps("team:close:1:call")
    assert clinic.inbox() == ()
