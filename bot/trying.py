"""The test in the terminal: one's own conversation, and the team's beside it."""

import asyncio
from contextlib import closing
from pathlib import Path

from rich.console import Console

from bot.bootstrap import (
    clock_in,
    conductor_for,
    context_from,
    desk_for,
    lead_of,
    rules_from,
    store_for,
)
from bot.care.roles import Role
from bot.channels.terminal.chat import TerminalChannel, converse
from bot.channels.terminal.screen import Screen
from bot.settings import Settings


async def try_out(settings: Settings, results: Path, language: str | None) -> None:
    """Talk in the terminal until the person leaves; with a team, its first code is shown."""
    context, rules = context_from(settings), rules_from(settings)
    store = await asyncio.to_thread(store_for, settings)
    clock = clock_in(settings.folder, settings.speed)
    with closing(store):
        lead = await lead_of(store)
        screen = Screen(Console())
        channel = TerminalChannel(screen, clock, results)
        desk = desk_for(store, channel, clock, context, rules=rules, leadership=lead)
        if context().team:
            admit = conductor_for(store, context, rules=rules).admit
            code = await asyncio.to_thread(admit, Role.CLINICIAN, "Marta", clock.now())
            says = "To be Marta of the care team: type /as Marta, then as her first words"
            screen.note(f"{says} {code}")
        async with desk.at_work():
            await converse(channel, clock, desk.take, language)
