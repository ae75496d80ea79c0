"""A test keeps the settings it began with, whatever the clinic changes meanwhile."""

from bot.engine.context import Context, StopLines
from bot.engine.effects import Say
from bot.engine.state import Finished, Resting
from bot.testing.playbook import Playbook

STRICT = Context(stop_lines=StopLines(standing_systolic_below=130), emergency_number="112")


def test_a_running_test_keeps_its_stop_lines() -> None:
    """A line made stricter while somebody stands does not end their test; it holds for the next."""
    book = Playbook(Context()).stands()
    book.context = STRICT
    book.waits(minutes=5).types("118/76 80")
    assert isinstance(book.conversation.stage, Resting)
    book.waits(minutes=5).types("118/76 80")
    assert book.conversation.pinned is None
    book.types("start").taps("go")
    assert book.conversation.pinned == STRICT.pinned


def test_the_settings_last_until_the_person_is_looked_after() -> None:
    """After a stop the number to call is the one the test began with, until recovery is over."""
    book = Playbook(Context(emergency_number="999")).stands()
    book.context = STRICT
    book.types("i think i am going to faint")
    assert isinstance(book.conversation.stage, Finished)
    assert book.conversation.pinned == Context(emergency_number="999").pinned
    numbers = {
        part.params["number"]
        for said in book.heard
        if isinstance(said, Say)
        for part in said.parts
        if part.key == "emergency.number"
    }
    assert numbers == {"999"}
