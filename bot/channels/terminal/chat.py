"""A person and Wallside in one terminal; `/as NAME` goes on as somebody else."""

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

CHANNEL: Final = "terminal"
ADDRESS: Final = "terminal:here"
LEAVE: Final = "/leave"
AS: Final = "/as "


class TerminalChannel:
    """Shows messages, and remembers which buttons the last one had."""

    def __init__(self, screen: Screen, clock: Clock, folder: Path) -> None:
        self._screen = screen
        self._clock = clock
        self._folder = folder
        self._tokens: dict[str, dict[str, str]] = {}

    async def send(self, address: str, bubble: Bubble) -> Delivery:
        """Show a message; a file is saved in the folder."""
        file = None
        if bubble.attachment is not None:
            file = self._folder / bubble.attachment.name
            await asyncio.to_thread(_save, file, bubble.attachment.content)
        self._show(address, bubble, file=file)
        return Sent(uuid4().hex)

    async def revise(self, address: str, ref: str, bubble: Bubble) -> Delivery:
        """Show a changed message: a terminal cannot change what stands above."""
        self._show(address, bubble, changed=True)
        return Sent(ref)

    def token_for(self, address: str, line: str) -> str | None:
        """Return the button that a number or label stands for that somebody typed."""
        return self._tokens.get(address, {}).get(line.strip().casefold())

    def _show(
        self, address: str, bubble: Bubble, *, file: Path | None = None, changed: bool = False
    ) -> None:
        buttons = [button for row in bubble.rows for button in row]
        labels = [label for label, _ in buttons]
        if buttons or not changed:
            self._tokens[address] = {
                name.casefold(): token
                for (number, label), (_, token) in zip(numbered(labels), buttons, strict=True)
                for name in (number, label)
            }
        self._screen.line(
            at=self._clock.now(),
            who=WALLSIDE if address == ADDRESS else f"{WALLSIDE}>{_name(address)}",
            text=bubble.text,
            labels=labels,
            file=file,
            changed=changed,
            number_buttons=True,
        )


def _name(address: str) -> str:
    return address.removeprefix(f"{CHANNEL}:")


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
    address = ADDRESS

    async def arrived(event: Event) -> None:
        key = f"{CHANNEL}:{uuid4().hex}"
        await take(Inbound(key=key, address=address, event=event, language=language))

    await arrived(Opened(at=clock.now()))
    async for line in _lines():
        token = channel.token_for(address, line)
        if line.startswith(AS) or line.strip() == AS.strip():
            name = line.removeprefix(AS.strip()).strip()
            address = f"{CHANNEL}:{name}" if name else ADDRESS
        elif token is not None:
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
