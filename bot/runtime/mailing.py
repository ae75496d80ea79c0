"""Messages to members as they get their numbers, each in the conversation of its chat."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Final

from bot.care.items import Item
from bot.care.member import Member
from bot.care.sayings import LINK
from bot.care.step import Message, Paper, Papers, Rows, Sheet, Spoken
from bot.engine.effects import Effect, Hand, HandSeries, Retract, Revise, Say
from bot.engine.events import DeadlineReached
from bot.runtime.ports import Stored, UnitOfWork

_REMEMBERED: Final = 40
"""How many messages with files of an item can be taken back while they wait."""


@dataclass(slots=True)
class _Box:
    """One member's conversation within the step."""

    stored: Stored
    said: int
    locale: str
    effects: list[Effect] = field(default_factory=list)


class Mailing:
    """Collects what is said to members in one step, and puts it down at the end.

    Whoever has been removed before the step gets nothing, whatever it holds.
    """

    def __init__(
        self,
        unit: UnitOfWork,
        members: Iterable[Member],
        link_for: Callable[[str, str], str],
    ) -> None:
        self._unit = unit
        self._members = {member.number: member for member in members}
        self._link_for = link_for
        self._boxes: dict[int, _Box] = {}

    def post(self, message: Message | Paper | Papers | Sheet, items: dict[int, Item]) -> None:
        """Give a message its number, and remember it with the item that it is about."""
        box = self._box(message.to)
        item = None if message.item is None else items.get(message.item)
        if box is None:
            return
        match message:
            case Papers():
                number = self._next(box)
                box.effects.append(
                    HandSeries(
                        number=number,
                        form=message.form,
                        records=message.records,
                        reference=message.reference,
                        at=message.at,
                    )
                )
                _remember(items, item, message.to, number)
            case Paper():
                number = self._next(box)
                box.effects.append(
                    Hand(
                        number=number,
                        form=message.form,
                        record=message.record,
                        reference=message.reference,
                        at=message.at,
                    )
                )
                _remember(items, item, message.to, number)
            case Sheet(effect=effect):
                box.effects.append(replace(effect, number=self._next(box)))
            case Message(changes=True):
                target = None if item is None else item.told_to(message.to)
                if target is not None:
                    rows = self._linked(box, message.rows)
                    number = self._next(box)
                    box.effects.append(
                        Revise(number=number, target=target, parts=message.parts, choices=rows)
                    )
            case Message():
                rows = self._linked(box, message.rows)
                number = self._next(box)
                box.effects.append(
                    Say(
                        number=number,
                        parts=message.parts,
                        choices=rows,
                        urgency=message.urgency,
                    )
                )
                if item is not None:
                    others = tuple(t for t in item.told if t[0] != message.to)
                    items[item.number] = replace(item, told=(*others, (message.to, number)))

    def speak(self, spoken: Spoken) -> None:
        """Let a member's chat go on in another language."""
        box = self._box(spoken.member)
        if box is not None:
            box.locale = spoken.locale

    def take_back(self, item: Item) -> None:
        """Let no file of an item go out that still waits, and no message about it but an alarm."""
        told = item.told if item.alarmed_at is None else ()
        for member, number in (*item.handed, *told):
            box = self._box(member)
            if box is not None:
                box.effects.append(Retract(numbers=(number,)))

    def address(self, member: int) -> str | None:
        """Return where a member's chat is."""
        box = self._box(member)
        return None if box is None else box.stored.address

    def locale(self, member: int) -> str | None:
        """Return the language of a member's chat."""
        box = self._box(member)
        return None if box is None else box.locale

    def put_down(self, at: datetime) -> None:
        """Save every conversation that something was said in.

        Raises:
            ConflictError: Another writer was faster.
        """
        for box in self._boxes.values():
            before = box.stored.conversation
            now = replace(before, said=box.said, locale=box.locale)
            if now != before or box.effects:
                self._unit.save(
                    box.stored,
                    now,
                    event=DeadlineReached(at=at),
                    effects=box.effects,
                    wake_at=None,
                    logged=False,
                )

    def _box(self, number: int) -> _Box | None:
        if number not in self._boxes and number in self._members:
            stored = self._unit.load_by_id(self._members[number].id)
            if stored is not None:
                conversation = stored.conversation
                self._boxes[number] = _Box(
                    stored=stored, said=conversation.said, locale=conversation.locale
                )
        return self._boxes.get(number)

    def _next(self, box: _Box) -> int:
        box.said += 1
        return box.said

    def _linked(self, box: _Box, rows: Rows) -> Rows:
        """Give buttons that open a link the link of the chat's channel."""
        return tuple(
            tuple(
                replace(
                    choice,
                    token=self._link_for(box.stored.address, choice.token.removeprefix(LINK)),
                )
                if choice.token.startswith(LINK)
                else choice
                for choice in row
            )
            for row in rows
        )


def _remember(items: dict[int, Item], item: Item | None, to: int, number: int) -> None:
    """Remember a message with a file of an item, so that it can be taken back while it waits."""
    if item is not None:
        handed = (*item.handed, (to, number))[-_REMEMBERED:]
        items[item.number] = replace(item, handed=handed)
