"""A person and Wallside in one terminal."""

import asyncio
import sys
from collections.abc import AsyncIterator, Awaitable, Callable
from pathlib import Path
from typing import Final
from uuid import uuid4

from prompt_toolkit import PromptSession
from prompt_toolkit.patch_stdout import patch_stdout

from bot.channels.terminal.screen import WALLSIDE, Screen, numbered
from bot.engine.events import ChoiceTapped, Event, Opened, WordsGiven
from bot.runtime.ports import Bubble, Clock, Delivery, Inbound, Sent

ADDRESS: Final = "terminal:here"
LEAVE: Final = "/leave"


class TerminalChannel:
    """Shows messages, and remembers which buttons the last one had."""

    def __init__(self, screen: Screen, clock: Clock, folder: Path) -> None:
        self._screen = screen
        self._clock = clock
        self._folder = folder
        self._tokens: dict[str, str] = {}

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Show a message; a file is saved in the folder."""
        del address  # there is one person at a terminal
        file = None
        if bubble.attachment is not None:
            file = self._folder / bubble.attachment.name
            await asyncio.to_thread(_save, file, bubble.attachment.content)
        self._show(bubble, file=file)
        return Sent(uuid4().hex)

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Show a changed message: a terminal cannot change what stands above."""
        del address
        self._show(bubble, changed=True)
        return Sent(ref)

    def token_for(self, line: str) -> str | None:
        """Return the button that a typed number or label stands for."""
        return self._tokens.get(line.strip().casefold())

    def _show(self, bubble: Bubble, *, file: Path | None = None, changed: bool = False) -> None:
        buttons = [button for row in bubble.rows for button in row]
        labels = [label for label, _ in buttons]
        if buttons or not changed:
            self._tokens = {
                name.casefold(): token
                for (number, label), (_, token) in zip(numbered(labels), buttons, strict=True)
                for name in (number, label)
            }
        self._screen.line(
            at=self._clock.now(),
            who=WALLSIDE,
            text=bubble.text,
            labels=labels,
            file=file,
            changed=changed,
            number_buttons=True,
        )


def _save(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


async def converse(
    channel: TerminalChannel,
    clock: Clock,
    take: Callable[[Inbound], Awaitable[object]],
    language: str | None,
) -> None:
    """Carry what is typed to the desk, until the person leaves."""

    async def arrived(event: Event) -> None:
        key = f"terminal:{uuid4().hex}"
        await take(Inbound(key=key, address=ADDRESS, event=event, language=language))

    await arrived(Opened(at=clock.now()))
    async for line in _lines():
        token = channel.token_for(line)
        if token is not None:
            await arrived(ChoiceTapped(at=clock.now(), token=token))
        elif line.strip():
            await arrived(WordsGiven(at=clock.now(), text=line, source=uuid4().hex))


async def _lines() -> AsyncIterator[str]:
    """Yield the lines that are typed, or piped in, until the end or the word to leave."""
    session: PromptSession[str] | None = PromptSession() if sys.stdin.isatty() else None
    while True:
        line = await _next_line(session)
        if line is None or line.strip() == LEAVE:
            return
        yield line


async def _next_line(session: PromptSession[str] | None) -> str | None:
    if session is None:
        return await asyncio.to_thread(sys.stdin.readline) or None
    try:
        with patch_stdout(raw=True):
            return await session.prompt_async("> ")
    except (EOFError, KeyboardInterrupt):
        return None
