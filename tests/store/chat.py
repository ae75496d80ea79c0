"""One person's chat with the conductor, on whichever store."""

from datetime import UTC, datetime, timedelta
from typing import Final

from bot.engine.context import Context, Opening
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.runtime.conductor import Conductor
from bot.runtime.ports import Inbound, Sent, Store
from bot.texts import language_for

NOW: Final = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
ENROLS: Final = ("yes", "34", "Madrid", "none", "none", "wrist", "watch", "124/76 72")
"""What somebody types from consent to choosing a day."""


class Chat:
    """One person's chat with the conductor.

    Attributes:
        now: What time it is; set it to let time pass.
    """

    def __init__(self, store: Store, chat_id: int = 777123456, **more: object) -> None:
        self._store = store
        self.context = Context(opening=Opening.FULL, **more)  # type: ignore[arg-type]
        prefix = "conversation" if chat_id == 777123456 else f"chat{chat_id}-"
        names = iter(f"{prefix}{n}" for n in range(9))
        self.conductor = Conductor(
            store, self.context, new_id=lambda: next(names), language_for=language_for
        )
        self.now = NOW
        self._address = f"telegram:{chat_id}"
        self._count = 0

    def does(self, event: Event) -> str:
        """Let something happen and send what follows; returns whose it is."""
        self._count += 1
        key = f"{self._address}:{self._count}"
        step = self.conductor.handle(Inbound(key=key, address=self._address, event=event))
        while (parcel := self._store.claim_parcel(self.now, timedelta(minutes=1))) is not None:
            self._store.settle(parcel, Sent("r"), self.now)
        return step.conversation_id

    def opens(self, code: str | None = None) -> str:
        """Open the chat, perhaps with a code."""
        return self.does(Opened(at=self.now, code=code))

    def types(self, *texts: str) -> str:
        """Type some messages."""
        name = ""
        for number, words in enumerate(texts):
            name = self.does(WordsGiven(at=self.now, text=words, source=str(number)))
        return name

    def deletes_everything(self) -> str:
        """Ask for everything to be deleted, and say yes."""
        name = self.types("delete everything")
        with self._store.unit() as unit:
            stored = unit.load_by_id(name)
        assert stored is not None
        serial = stored.conversation.asides
        return self.does(ChoiceTapped(at=self.now, token=f"a{serial}.ask:yes"))
