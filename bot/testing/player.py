"""Plays a demo script in virtual time, through the real conductor, store and outbox."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import assert_never
from uuid import NAMESPACE_OID, uuid5

from bot.engine.context import Context
from bot.engine.effects import Revise
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
from bot.runtime.clock import StandingClock
from bot.runtime.conductor import Conductor, Step
from bot.runtime.ports import Attachment, Bubble, Inbound, Invitation, Presenter, Sent, Store
from bot.testing.script import WALLSIDE, Act, Edit, IsCleared, Line, Said, Script, Sends, Tap, Words
from bot.texts import language_for

ADDRESS = "script:person"
_CODE = "an-invitation-of-the-clinic"
_LEASE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Shown:
    """A message of the played conversation, with its attachment if it has one."""

    said: Said
    attachment: Attachment | None = None


class Player:
    """Plays one script."""

    def __init__(self, script: Script, store: Store, present: Presenter) -> None:
        self._script = script
        self._store = store
        self._present = present
        self._clock = StandingClock(script.starts)
        self._conductor = Conductor(
            store,
            Context(protocol=script.protocol, opening=script.opening),
            new_id=lambda: uuid5(NAMESPACE_OID, script.name).hex,
            language_for=language_for,
        )
        self._buttons: list[tuple[str, str]] = []
        self._typed: list[tuple[str, str]] = []
        self._arrivals = 0
        self.conversation_id = ""
        if script.reference is not None:
            self._invite(script.reference)

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
        wake_at: datetime | None = None
        waiting = list(self._script.lines)
        while waiting or wake_at is not None:
            line_at = self._script.starts + waiting[0].after if waiting else None
            if wake_at is not None and (line_at is None or wake_at <= line_at):
                self._clock.move_to(max(wake_at, self._clock.now()))
                step = self._conductor.wake(self.conversation_id, self._clock.now())
                assert step is not None
            else:
                assert line_at is not None
                self._clock.move_to(line_at)
                line = waiting.pop(0)
                yield Shown(self._person_said(line))
                step = self._step(line)
                self.conversation_id = step.conversation_id
            wake_at = step.wake_at
            yield from self._deliveries()

    def _person_said(self, line: Line) -> Said:
        return Said(after=line.after, who=self._script.person, text=line.written)

    def _step(self, line: Line) -> Step:
        if isinstance(line.act, IsCleared):
            step = self._conductor.clear(self.conversation_id, line.act.by, self._clock.now())
            assert step is not None
            return step
        return self._conductor.handle(self._inbound(line))

    def _inbound(self, line: Line) -> Inbound:
        self._arrivals += 1
        return Inbound(
            key=f"script:{self._arrivals}",
            address=ADDRESS,
            event=self._event(line.act, line),
            language=self._script.language,
        )

    def _event(self, act: Act, line: Line) -> Event:
        at = self._clock.now()
        match act:
            case Words(text) if text == "/start":
                return Opened(at=at, code=_CODE if self._script.reference else None)
            case IsCleared(by):
                return Cleared(at=at, by=by)
            case Words(text):
                source = str(self._arrivals)
                self._typed.append((text, source))
                return WordsGiven(at=at, text=text, source=source)
            case Tap(label):
                return ChoiceTapped(at=at, token=self._found(self._buttons, label, line))
            case Edit(before, text):
                source = self._found(self._typed, before, line)
                self._typed.append((text, source))
                return WordsEdited(at=at, text=text, source=source)
            case Sends(thing):
                return ThingSent(at=at, thing=thing)
            case _:
                assert_never(act)

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
            self._buttons += [button for row in reversed(bubble.rows) for button in reversed(row)]
            yield Shown(self._wallside_said(bubble, changed=changed), bubble.attachment)

    def _wallside_said(self, bubble: Bubble, *, changed: bool) -> Said:
        return Said(
            after=self._clock.now() - self._script.starts,
            who=WALLSIDE,
            text=bubble.text,
            labels=tuple(label for row in bubble.rows for label, _ in row),
            file=bubble.attachment.name if bubble.attachment else None,
            changed=changed,
        )
