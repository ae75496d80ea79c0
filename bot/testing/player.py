"""Plays a demo script in virtual time, through the real conductor, store and outbox."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import count
from typing import assert_never
from uuid import NAMESPACE_OID, uuid5

from bot.care.invitation import Invitation
from bot.care.rules import CareRules
from bot.engine.context import Context
from bot.engine.effects import HandInvitation, OfferLink, Revise
from bot.engine.events import (
    ChoiceTapped,
    Cleared,
    Event,
    Opened,
    ThingSent,
    WordsEdited,
    WordsGiven,
)
from bot.errors import ScriptError
from bot.runtime.care_ports import digest_named
from bot.runtime.clock import StandingClock
from bot.runtime.conductor import Conductor, Step
from bot.runtime.ports import Attachment, Bubble, Inbound, Presenter, Sent, Store
from bot.testing.script import (
    WALLSIDE,
    Act,
    Edit,
    IsCleared,
    IsRemoved,
    Line,
    Script,
    Sends,
    Tap,
    Words,
)
from bot.testing.writing import Said, to_companion
from bot.texts import language_for

ADDRESS = "script:person"
COMPANION_ADDRESS = "script:companion"
_CODE = "an-invitation-of-the-clinic"
_LEASE = timedelta(minutes=1)
_RULES = CareRules(
    templates=(
        (
            "call-us",
            {
                "en": "Please call us when you can: 555 0142.",
                "es": "Llámenos cuando pueda, por favor: 555 0142.",
            },
        ),
    )
)
"""What the invented clinic has set for its team."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A message of the played conversation, with its attachment if it has one."""

    said: Said
    attachment: Attachment | None = None


@dataclass(slots=True)
class _Chat:
    """One person's chat as the player has seen it so far."""

    name: str
    address: str
    language: str
    buttons: list[tuple[str, str]] = field(default_factory=list)
    typed: list[tuple[str, str]] = field(default_factory=list)


class Player:
    """Plays one script; nothing of where it is played counts but what is given here."""

    def __init__(
        self,
        script: Script,
        store: Store,
        present: Presenter,
        *,
        emergency_number: str | None = None,
    ) -> None:
        self._script = script
        self._store = store
        self._present = present
        self._clock = StandingClock(script.starts)
        names, codes = count(), count(1)
        self._conductor = Conductor(
            store,
            Context(
                protocol=script.protocol,
                opening=script.opening,
                team=bool(script.team),
                emergency_number=emergency_number,
            ),
            new_id=lambda: self._name(next(names)),
            language_for=language_for,
            new_code=lambda: f"{next(codes):024}",
            rules=lambda: _RULES,
        )
        self._chats = {
            chat.name: chat
            for chat in (
                _Chat(script.person, ADDRESS, script.language),
                *self._companion(script),
                *(_Chat(m.name, f"script:{m.name}", m.language) for m in script.team),
            )
        }
        self._codes = {
            m.name: self._conductor.admit(m.role, m.name, script.starts) for m in script.team
        }
        self._wakes: dict[str, datetime | None] = {}
        self._link: str | None = None
        self._invitation: str | None = None
        self._arrivals = 0
        self.conversation_id = ""
        if script.reference is not None:
            self._invite(script.reference)

    def _name(self, number: int) -> str:
        """Name the person's conversation after the script, and any other one after that."""
        name = self._script.name if number == 0 else f"{self._script.name}/{number}"
        return uuid5(NAMESPACE_OID, name).hex

    def _companion(self, script: Script) -> tuple[_Chat, ...]:
        if script.companion is None:
            return ()
        return (_Chat(script.companion, COMPANION_ADDRESS, script.companion_language),)

    def _invite(self, reference: str) -> None:
        self._store.invite(
            Invitation(
                code=_CODE,
                reference=reference,
                protocol=self._script.protocol.id,
                language=None,
                made_at=self._script.starts,
                expires_at=self._script.starts + timedelta(days=30),
            )
        )

    def play(self) -> Iterator[Shown]:
        """Play to the end and yield every message as it comes."""
        waiting = list(self._script.lines)
        while True:
            line_at = self._script.starts + waiting[0].after if waiting else None
            name, wake_at = self._next_wake(line_at)
            if wake_at is not None and (line_at is None or wake_at <= line_at):
                self._clock.move_to(max(wake_at, self._clock.now()))
                step = self._conductor.wake(name, self._clock.now())
                assert step is not None
            elif line_at is not None:
                self._clock.move_to(line_at)
                line = waiting.pop(0)
                yield Shown(Said(after=line.after, who=line.who, text=line.written))
                step = self._step(line)
                if line.who == self._script.person:
                    self.conversation_id = step.conversation_id
            else:
                return
            self._wakes |= {step.conversation_id: step.wake_at, **dict(step.others)}
            yield from self._deliveries()

    def _next_wake(self, line_at: datetime | None) -> tuple[str, datetime | None]:
        """Return which conversation wants to be woken first, and when.

        The weekly digest never ends, so it comes only while lines are still to come.
        """
        sleeping = [
            (at, name)
            for name, at in self._wakes.items()
            if at is not None
            and (digest_named(name) is None or (line_at is not None and at <= line_at))
        ]
        at, name = min(sleeping, default=(None, ""))
        return name, at

    def _step(self, line: Line) -> Step:
        if isinstance(line.act, IsCleared):
            step = self._conductor.clear(self.conversation_id, line.act.by, self._clock.now())
            assert step is not None
            return step
        if isinstance(line.act, IsRemoved):
            step = self._conductor.remove(self._number_of(line), self._clock.now())
            assert step is not None
            return step
        return self._conductor.handle(self._inbound(line, self._chats[line.who]))

    def _number_of(self, line: Line) -> int:
        with self._store.unit() as unit:
            members = unit.care.members()
        found = next((m.number for m in members if m.label == line.who), None)
        if found is None:
            raise ScriptError(f"{self._script.name}, {line.after}: {line.who} is in no team")
        return found

    def _inbound(self, line: Line, chat: _Chat) -> Inbound:
        self._arrivals += 1
        return Inbound(
            key=f"script:{self._arrivals}",
            address=chat.address,
            event=self._event(line.act, line, chat),
            language=chat.language,
        )

    def _event(self, act: Act, line: Line, chat: _Chat) -> Event:
        at = self._clock.now()
        match act:
            case Words(text) if text == "/start":
                return Opened(at=at, code=self._code(chat))
            case IsCleared(by):
                return Cleared(at=at, by=by)
            case IsRemoved():
                raise ScriptError(f"{self._script.name}: nobody does {line.written!r} themselves")
            case Words(text):
                source = str(self._arrivals)
                chat.typed.append((text, source))
                return WordsGiven(at=at, text=text, source=source)
            case Tap(label):
                return ChoiceTapped(at=at, token=self._found(chat.buttons, label, line))
            case Edit(before, text):
                source = self._found(chat.typed, before, line)
                chat.typed.append((text, source))
                return WordsEdited(at=at, text=text, source=source)
            case Sends(thing):
                return ThingSent(at=at, thing=thing)
            case _:
                assert_never(act)

    def _code(self, chat: _Chat) -> str | None:
        """Return what the link carries by which somebody opens their chat."""
        if chat.name in self._codes:
            return self._codes[chat.name]
        if chat.name == self._script.companion:
            return self._link
        return _CODE if self._script.reference else self._invitation

    def _found(self, pairs: list[tuple[str, str]], wanted: str, line: Line) -> str:
        for name, value in reversed(pairs):
            if name == wanted:
                return value
        raise ScriptError(
            f"{self._script.name}, {line.after}: there is no {wanted!r} for {line.written!r}"
        )

    def _deliveries(self) -> Iterator[Shown]:
        while (parcel := self._store.claim_parcel(self._clock.now(), _LEASE)) is not None:
            bubble = self._present(parcel.effect, parcel.locale, parcel.kept)
            changed = isinstance(parcel.effect, Revise)
            self._store.settle(parcel, Sent(str(parcel.id)), self._clock.now())
            if isinstance(parcel.effect, OfferLink):
                self._link = parcel.effect.link
            if isinstance(parcel.effect, HandInvitation):
                self._invitation = parcel.effect.code
            chat = next(c for c in self._chats.values() if c.address == parcel.address)
            chat.buttons += [button for row in reversed(bubble.rows) for button in reversed(row)]
            said = self._wallside_said(chat, bubble, changed=changed)
            yield Shown(said, bubble.attachment)

    def _wallside_said(self, chat: _Chat, bubble: Bubble, *, changed: bool) -> Said:
        to_person = chat.name == self._script.person
        return Said(
            after=self._clock.now() - self._script.starts,
            who=WALLSIDE if to_person else to_companion(chat.name),
            text=bubble.text,
            labels=tuple(label for row in bubble.rows for label, _ in row),
            file=bubble.attachment.name if bubble.attachment else None,
            changed=changed,
        )
