"""Each reads their own language, and what members type is understood in both."""

import pytest

from bot.care.commands import (
    LANGUAGES,
    AddMember,
    AskItem,
    Close,
    Command,
    GetHelp,
    HandOver,
    Leave,
    LetGo,
    OpenItem,
    Other,
    SeeInbox,
    SeeTeam,
    SetDuty,
    Speak,
    TakeItem,
    opened,
    tapped,
    typed,
)
from bot.care.roles import Role
from bot.reports.presenting import present
from bot.texts import LANGUAGES as SHIPPED
from tests.care.clinic import Clinic


def test_a_spanish_person_and_an_english_team_each_read_their_own(clinic: Clinic) -> None:
    """The item is in English for Marta, what follows in Spanish for the person."""
    marta = clinic.member("Marta")
    ines = clinic.measured("ines", language="es").taps("yes")
    marta.types("take 1").types("close 1").taps("call")
    told = present(marta.got[0], marta.conversation.locale).text
    seen = present(ines.got[-1], ines.conversation.locale).text
    assert marta.conversation.locale == "en"
    assert ines.conversation.locale == "es"
    assert "Welcome, Marta" in told
    assert seen == "Su equipo médico vio su prueba 1.\nLe van a llamar para hablar de ella."


def test_a_member_can_go_on_in_another_language(clinic: Clinic) -> None:
    """By word or by button; it holds for what comes after."""
    luis = clinic.member("Luis", language="es")
    assert luis.conversation.locale == "es"
    luis.types("english")
    assert luis.conversation.locale == "en"
    luis.types("language").taps("es")
    assert luis.conversation.locale == "es"


def test_every_shipped_language_can_be_chosen() -> None:
    """The team's languages are those of the catalogue."""
    assert LANGUAGES == SHIPPED


@pytest.mark.parametrize(
    ("text", "command"),
    [
        ("Inbox", SeeInbox()), ("bandeja", SeeInbox()),
        ("open 3", OpenItem(3)), ("Abrir 3", OpenItem(3)),
        ("take 3", TakeItem(3)), ("tomar 3", TakeItem(3)),
        ("let go 3", LetGo(3)), ("soltar 3", LetGo(3)),
        ("hand over 3", HandOver(3, None)), ("pasar 3", HandOver(3, None)),
        ("close 3", Close(3, None)), ("Cerrar 3.", Close(3, None)),
        ("on duty", SetDuty(True)), ("de guardia", SetDuty(True)),
        ("off duty", SetDuty(False)), ("fuera de guardia", SetDuty(False)),
        ("team", SeeTeam()), ("equipo", SeeTeam()),
        ("help", GetHelp()), ("ayuda", GetHelp()),
        ("leave", Leave(False)), ("salir", Leave(False)),
        ("español", Speak("es")), ("idioma", Speak(None)),
        ("add coordinator Marta", AddMember(Role.COORDINATOR, "Marta")),
        ("agregar coordinadora Marta Ruiz", AddMember(Role.COORDINATOR, "Marta Ruiz")),
        ("add clinician", AddMember(Role.CLINICIAN, None)),
        ("agregar clínica Nora", AddMember(Role.CLINICIAN, "Nora")),
        ("take", AskItem("take")), ("Cerrar", AskItem("close")),
        ("take 3 now please", Other("take 3 now please")),
        ("120/80 70", Other("120/80 70")), ("", Other("")),
    ],
)  # fmt: skip
def test_words_are_commands_in_both_languages(text: str, command: Command) -> None:
    """What the help tells members to type is understood, and nothing is guessed."""
    assert typed(text) == command


@pytest.mark.parametrize(
    "token",
    [
        "", ":", "team", "team:", "team:open", "team:open:x", "team:open:-1",
        "team:open:9999999999",
        "team:close:1:burn", "team:give:1:2:3", "team:speak:xx", "team:leave:no", "fix:1.1",
    ],
)  # fmt: skip
def test_forged_buttons_do_nothing(token: str) -> None:
    """A token that no button of the team's carries is no command."""
    assert tapped(token) == Other("")


def test_a_link_that_carries_no_item_shows_what_waits() -> None:
    """A member who opens the chat anew, by whatever link, sees the inbox."""
    assert opened(None) == opened("nonsense") == opened("item-x") == SeeInbox()
    assert opened("item-7") == OpenItem(7)


def test_what_was_said_by_half_is_asked_for(clinic: Clinic) -> None:
    """A verb alone asks which item, of those with which it can be done; a tap then does it."""
    marta, luis = clinic.member("Marta"), clinic.member("Luis")
    for name in ("ada", "bea"):
        clinic.measured(name).taps("yes")
    luis.types("take 2")
    marta.new()
    marta.types("take")
    assert marta.new() == ["care.which", "care.item"]
    marta.taps("team:take:1")
    assert [item.taken_by for item in (clinic.item(1), clinic.item(2))] == [
        clinic.number_of("Marta"),
        clinic.number_of("Luis"),
    ]
    marta.new()
    marta.types("soltar")
    assert marta.new() == ["care.which", "care.item"]
    marta.taps("team:go:1")
    marta.new()
    marta.types("pasar")
    assert marta.new() == ["care.which.none"]
    marta.types("open")
    assert marta.new() == ["care.which", "care.item", "care.item"]
    marta.types("close").taps("team:close:1").taps("nothing")
    assert [item.number for item in clinic.inbox()] == [2]


def test_a_reference_alone_opens_the_page(clinic: Clinic) -> None:
    """Somebody who types it, with a full stop or in small letters, means the person."""
    marta, ada = clinic.member("Marta"), clinic.patient("ada")
    clinic.knows(ada, "HS-0042")
    marta.new()
    for text in ("hs-0042.", "person HS-0042"):
        marta.types(text)
        assert "care.person" in marta.new()
    assert [d for d in clinic.did() if d == "saw-person"] == ["saw-person", "saw-person"]
    marta.types("hs-0043")
    assert marta.new() == ["care.not-understood"]


def test_a_reference_in_two_words_is_put_together(clinic: Clinic) -> None:
    """The answer says what to type; it does not speak of a name."""
    marta = clinic.member("Marta")
    marta.new()
    marta.types("invite HS 0049")
    assert marta.new() == ["care.reference.one-word"]
    assert clinic.invitations() == ()
