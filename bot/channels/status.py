"""Says over HTTP whether the program is well (`/health`) and its figures (`/metrics`)."""

from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager

from aiohttp import web

from bot.errors import SettingsError
from bot.runtime.metrics import CONTENT_TYPE


@asynccontextmanager
async def status_at(
    host: str,
    port: int,
    *,
    unwell: Callable[[], Awaitable[list[str]]],
    figures: Callable[[], Awaitable[bytes]],
    role: Callable[[], str] = lambda: "leader",
) -> AsyncIterator[int]:
    """Answer at an address while the program runs; yields the port.

    Args:
        host: Where to listen. It is meant for the inside: no secret is asked for.
        port: Where to listen; 0 for any that is free.
        unwell: Returns what is wrong, nothing when all is well.
        figures: Returns the figures as text.
        role: Returns what this process is among those that share a database.

    Raises:
        SettingsError: The address is taken.
    """

    async def health(request: web.Request) -> web.Response:
        del request
        wrong = await unwell()
        said = {"status": "unwell" if wrong else "well", "role": role(), "wrong": wrong}
        return web.json_response(said, status=503 if wrong else 200)

    async def metrics(request: web.Request) -> web.Response:
        del request
        return web.Response(body=await figures(), headers={"Content-Type": CONTENT_TYPE})

    app = web.Application()
    app.router.add_get("/health", health)
    app.router.add_get("/metrics", metrics)
    runner = web.AppRunner(app, access_log=None, handle_signals=False)
    await runner.setup()
    try:
        try:
            await web.TCPSite(runner, host, port).start()
        except OSError as error:
            raise SettingsError(
                f"Cannot listen at {host}:{port}: {error.strerror}. "
                "Set WALLSIDE_STATUS_LISTEN to an address that is free."
            ) from None
        yield runner.addresses[0][1]
    finally:
        await runner.cleanup()
