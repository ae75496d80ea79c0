"""What a person agreed to, once or once for all; how they withdraw it; a text that has changed."""

from dataclasses import replace

from bot.care.items import Closing
from bot.engine.effects import Hand
from bot.engine.profile import Profile
from tests.care.clinic import Clinic


def test_standing_consent_sends_without_asking_and_can_be_stopped(clinic: Clinic) -> None:
    """Always send holds until it is withdrawn; after that each result is asked about again."""
    clinic.member("Marta")
    ada = clinic.measured("ada").taps("always")
    assert [i.test for i in clinic.inbox()] == [1]
    assert ada.profile.sends_since == clinic.now
    ada.types("sharing")
    assert "sharing.always" in ada.new()
    ada.taps("stop")
    assert ada.profile.sends_since is None
    ada.types("sharing")
    assert "sharing.each" in ada.new()


def test_a_stop_is_sent_under_standing_consent_without_a_word_on_top(clinic: Clinic) -> None:
    """After words of an emergency only these stand on the screen; the result goes all the same."""
    clinic.member("Marta")
    ada = clinic.standing("ada", sends_since=clinic.now).types("chest pain")
    assert [i.shared for i in clinic.inbox()] == [True]
    assert not any(key.startswith("send.") for key in ada.read())


def test_what_is_taken_back_can_no_longer_be_opened(clinic: Clinic) -> None:
    """The item leaves the inbox, files that wait are dropped, the result stays shut."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    ada = clinic.measured("ada").taps("yes")
    marta.types("take 1")
    luis.got.clear()
    clinic.hold()
    luis.types("open 1")
    ada.types("sharing")
    ada.types("sharing")
    clinic.taps_unseen(ada, "sharing:back")
    clinic.release()
    assert clinic.inbox() == ()
    assert clinic.item().closing is Closing.TAKEN_BACK
    assert not any(isinstance(e, Hand) for e in luis.got)
    assert marta.got[-1].parts[-1].key == "care.taken-back"  # type: ignore[union-attr]
    luis.got.clear()
    luis.types("open 1", "take 1", "inbox")
    assert not any(isinstance(e, Hand) for e in luis.got)
    assert "care.inbox.empty" in luis.read()
    assert clinic.did().count("result-taken-back") == 1


def test_taking_back_a_result_takes_back_no_alarm(clinic: Clinic) -> None:
    """An alarm that still waits to be sent is sent, though its result can no longer be opened."""
    marta = clinic.member("Marta")
    clinic.hold()
    ada = clinic.standing("ada", sends_since=clinic.now).types("stop")
    clinic.taps_unseen(ada, "sharing:back")
    clinic.release()
    assert "care.alarm.all" in marta.read()
    assert [(i.is_open, i.shared) for i in clinic.inbox()] == [(True, False)]
    marta.types("open 1")
    assert not any(isinstance(e, Hand) for e in marta.got)


def test_deleting_everything_empties_the_inbox(clinic: Clinic) -> None:
    """Nothing of a person who was forgotten waits for the team, and no file of it goes out."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes")
    person = ada.conversation.id
    ada.types("delete everything").taps("yes")
    assert clinic.inbox() == ()
    marta.types("open 1", "inbox")
    assert marta.read()[-2:] == ["care.no-such-item", "care.inbox.empty"]
    with clinic.store.unit() as unit:
        assert unit.care.items_of(person) == ()
        kept = unit.load_by_id(person)
    assert kept is not None
    assert kept.conversation.profile == Profile()
    assert "person-forgotten" in clinic.did()


def test_a_consent_text_that_has_changed_asks_again(clinic: Clinic) -> None:
    """Before the next test everyone agrees anew, and who declines raises no alarm by it."""
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none")
    clinic.asks(replace(clinic.context, consent_version=2))
    ada.new()
    ada.types("start")
    assert ada.new() == ["consent.changed", "question.consent.team"]
    ada.taps("yes")
    assert ada.profile.consent_version == 2


def test_who_agreed_before_there_was_a_team_is_asked_again(clinic: Clinic) -> None:
    """A team that is new is a changed text: nothing goes to it before a yes."""
    marta = clinic.member("Marta")
    ada = clinic.patient("ada", team_since=None)
    ada.types("cancel")
    ada.types("send my results")
    assert marta.new() == []
    ada.types("start")
    assert ada.new()[-1] == "question.consent.team"
    ada.taps("yes")
    assert ada.profile.team_since == clinic.now


def test_the_copy_of_my_data_says_what_was_sent(clinic: Clinic) -> None:
    """What is shared with the team, and since when, stands in the person's own copy."""
    from bot.engine.effects import HandCopy
    from bot.reports.presenting import present
    from bot.store.reading import kept_of

    ada = clinic.measured("ada").taps("always")
    person = ada.conversation.id
    with clinic.store.engine.begin() as connection:
        kept = kept_of(connection, person)
    bubble = present(HandCopy(number=1), "en", kept)
    assert bubble.attachment is not None
    text = bubble.attachment.content.decode()
    assert '"sends_since"' in text
    assert '"team_since"' in text
