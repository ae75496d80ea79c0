"""A group's chat: references, priorities and reasons; everything else opens in private."""

from datetime import UTC, datetime
from itertools import count

from telegram import Update

from bot.channels.telegram.inbound import inbound_from
from bot.channels.telegram.outbound import _keyboard
from bot.engine.effects import Say
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.runtime.clock import StandingClock
from bot.runtime.ports import Bubble, Inbound
from tests.care.clinic import Clinic
from tests.companions.people import Person

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


ARRIVALS = count()


def says(clinic: Clinic, room: Person, event: Event) -> None:
    """Let something come from a group."""
    key = f"group{next(ARRIVALS)}"
    clinic.conductor.handle(Inbound(key=key, address=room.address, event=event, group=True))
    clinic.deliver()


def room_of(clinic: Clinic) -> Person:
    """Return a group that has joined by a team code."""
    room = clinic.person("room")
    says(clinic, room, Opened(at=clinic.now, code=clinic.code(label="Room")))
    room.new()
    return room


def test_a_room_hears_who_how_urgent_and_why_and_no_more(clinic: Clinic) -> None:
    """Its one button opens the item in a member's own chat; there it shows the result."""
    marta, room = clinic.member("Marta"), room_of(clinic)
    clinic.measured("ada").taps("yes")
    (said,) = [e for e in room.got[-1:] if isinstance(e, Say)]
    assert [p.key for p in said.parts] == ["care.result-sent", "care.item", "care.free"]
    (button,) = [choice for row in said.choices for choice in row]
    assert button.token == "item-1"
    marta.opens(button.token)
    assert any(type(e).__name__ == "Hand" for e in marta.got)
    assert not any(type(e).__name__ == "Hand" for e in room.got)


def test_words_in_a_group_that_are_no_command_say_nothing(clinic: Clinic) -> None:
    """A group is not talked into; only what it asks for is answered."""
    room = room_of(clinic)
    says(clinic, room, WordsGiven(at=clinic.now, text="weather", source="1"))
    assert room.new() == []
    says(clinic, room, WordsGiven(at=clinic.now, text="inbox", source="2"))
    assert room.new() == ["care.inbox.empty"]


def test_of_any_other_group_nothing_is_kept(clinic: Clinic) -> None:
    """A group that has not joined is not answered, and not even its address is put down."""
    other = clinic.person("other")
    for event in (
        Opened(at=clinic.now),
        Opened(at=clinic.now, code=f"team-{'A' * 32}"),
        WordsGiven(at=clinic.now, text="120/80 70", source="1"),
        ChoiceTapped(at=clinic.now, token="team:open:1"),
    ):
        says(clinic, other, event)
    assert other.got == []
    assert not other.kept


def update(text: str, kind: str = "supergroup") -> Update:
    """Return what the messenger sends for words in a chat of some kind."""
    body = {
        "update_id": 7,
        "message": {
            "message_id": 9,
            "date": int(datetime.now(UTC).timestamp()),
            "chat": {"id": -1007, "type": kind, "title": "Nurses"},
            "from": {"id": 5, "is_bot": False, "first_name": "M", "language_code": "es"},
            "text": text,
        },
    }
    made = Update.de_json(body, None)
    assert made is not None
    return made


def test_from_a_group_only_commands_come_in() -> None:
    """What people say to each other in a group goes no further than the channel."""
    clock = StandingClock(NOON)
    for words in ("hello all", "120/80 70", "chest pain", "@harbour_street_bot inbox"):
        assert inbound_from(update(words), clock) is None, words
    asked = inbound_from(update("/inbox@harbour_street_bot"), clock)
    assert asked is not None
    assert asked.group
    assert asked.event == WordsGiven(at=NOON, text="inbox", source="9")
    joined = inbound_from(update("/start@harbour_street_bot team-x", "group"), clock)
    assert joined is not None
    assert joined.event == Opened(at=NOON, code="team-x")
    assert inbound_from(update("/inbox", "channel"), clock) is None


def test_a_button_with_an_address_opens_it() -> None:
    """The messenger is told to open the link, not to send a token back."""
    link = "https://t.me/harbour_street_bot?start=item-1"
    keyboard = _keyboard(Bubble(text="x", rows=((("Open", link), ("Take", "team:take:1")),)))
    assert keyboard is not None
    ((opens, takes),) = keyboard.inline_keyboard
    assert (opens.url, opens.callback_data) == (link, None)
    assert (takes.url, takes.callback_data) == (None, "team:take:1")
