"""How updates reach the bot: fetched by long polling, or posted to its webhook."""

import asyncio
from typing import Final

from aiohttp import ClientError, ClientSession, ClientTimeout

from tests.telegram_api.account import Account, Webhook
from tests.telegram_api.updates import Update
from tests.telegram_api.wire import ApiError, Arguments, Json

_MAX_WAIT_S: Final = 50
_HOOKED: Final = (
    "Conflict: can't use getUpdates method while webhook is active; "
    "use deleteWebhook to delete the webhook first"
)
_OUTPOLLED: Final = (
    "Conflict: terminated by other getUpdates request; "
    "make sure that only one bot instance is running"
)


async def get_updates(account: Account, arguments: Arguments) -> list[Json]:
    """Return the updates from an offset on; wait for one if there is none.

    Raises:
        ApiError: A webhook is set, or another call began to wait.
    """
    limit = arguments.integer("limit", 100, 1, 100)
    timeout = arguments.integer("timeout", 0, 0, _MAX_WAIT_S)
    with account.changes.made():
        if account.webhook is not None:
            raise ApiError(409, _HOOKED)
        account.updates.select(arguments.structure("allowed_updates", "allowed updates"))
        offset = account.updates.resolve(arguments.integer("offset", 0, -(2**31), 2**31 - 1))
        found = account.updates.take(offset, limit)
        if not found and timeout:
            turn = account.poll.begin(ApiError(409, _OUTPOLLED))
        else:
            return [update.body for update in found]

    def look() -> list[Update]:
        if account.poll.turn != turn and account.poll.ended_by is not None:
            raise account.poll.ended_by
        return account.updates.take(offset, limit)

    return [update.body for update in await account.changes.until(look, timeout)]


class WebhookPoster:
    """Posts updates to the webhook: in order within a chat, chats side by side.

    A failed post is repeated at once, then after `retry_delay` seconds, then twice that, and so
    on (the platform's own first pause is 2 s). It never gives up, while the platform does after a
    day. What the bot puts into its response is not read; the platform would run it as a call.
    """

    def __init__(self, account: Account, retry_delay: float) -> None:
        self._account = account
        self._retry_delay = retry_delay
        self._busy: set[int] = set()

    async def run(self) -> None:
        """Post whatever there is to post, until cancelled."""
        timeout = ClientTimeout(total=60)
        async with ClientSession(timeout=timeout) as session, asyncio.TaskGroup() as group:
            while True:
                found = await self._account.changes.until(self._next, None)
                if found is not None:
                    group.create_task(self._deliver(session, *found))

    def _next(self) -> tuple[Webhook, Update] | None:
        hook = self._account.webhook
        if hook is None or len(self._busy) >= hook.max_connections:
            return None
        update = self._account.updates.next_outside(self._busy)
        if update is None:
            return None
        self._busy.add(update.chat_id)
        return hook, update

    async def _deliver(self, session: ClientSession, hook: Webhook, update: Update) -> None:
        pause = 0.0
        while self._account.webhook is hook:
            error = await _post(session, hook, update)
            with self._account.changes.made():
                if error is None:
                    self._account.updates.forget(update)
                    break
                hook.last_error = (int(self._account.clock()), error)
            await asyncio.sleep(pause)
            pause = pause * 2 or self._retry_delay
        with self._account.changes.made():
            self._busy.discard(update.chat_id)


async def _post(session: ClientSession, hook: Webhook, update: Update) -> str | None:
    headers = {"X-Telegram-Bot-Api-Secret-Token": hook.secret} if hook.secret else {}
    try:
        async with session.post(hook.url, json=update.body, headers=headers) as response:
            await response.read()
            if 200 <= response.status < 300:
                return None
            return f"Wrong response from the webhook: {response.status} {response.reason}"
    except (ClientError, TimeoutError) as error:
        return f"{type(error).__name__}: {error}"
