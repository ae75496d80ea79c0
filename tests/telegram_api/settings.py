"""The methods that set up a bot: its command menus, its self-descriptions, its webhook."""

import re
from collections.abc import Callable
from typing import Any, TypeAlias

from tests.telegram_api.account import Account, Webhook
from tests.telegram_api.wire import ApiError, Arguments, Json, bad_request

Method: TypeAlias = Callable[[Account, Arguments], Any]


def set_my_commands(account: Account, arguments: Arguments) -> bool:
    """Set the command menu of a scope and a language."""
    commands = arguments.structure("commands", "commands")
    if not isinstance(commands, list):
        raise bad_request("expected an Array of BotCommand")
    if len(commands) > 100:
        raise bad_request("BOT_COMMANDS_TOO_MUCH")
    for command in commands:
        if not isinstance(command, dict):
            raise bad_request("can't parse BotCommand: expected an Object")
        if not re.fullmatch(r"[a-z0-9_]{1,32}", str(command.get("command", ""))):
            raise bad_request("BOT_COMMAND_INVALID")
        if not 1 <= len(str(command.get("description", ""))) <= 256:
            raise bad_request("BOT_COMMAND_DESCRIPTION_INVALID")
    account.commands[_menu(arguments)] = commands
    return True


def get_my_commands(account: Account, arguments: Arguments) -> list[Json]:
    """Return the command menu of exactly that scope and language."""
    return account.commands.get(_menu(arguments), [])


def delete_my_commands(account: Account, arguments: Arguments) -> bool:
    """Remove the command menu of a scope and a language."""
    account.commands.pop(_menu(arguments), None)
    return True


def _menu(arguments: Arguments) -> tuple[str, str]:
    scope = arguments.structure("scope", "BotCommandScope") or {"type": "default"}
    if not isinstance(scope, dict) or "type" not in scope:
        raise bad_request("can't parse BotCommandScope: Can't find field \"type\"")
    where = f"{scope['type']}:{scope.get('chat_id', '')}".removesuffix(":")
    return where, _language(arguments)


def _language(arguments: Arguments) -> str:
    code = arguments.text("language_code")
    if code and not re.fullmatch(r"[a-z]{2}", code):
        raise bad_request("invalid language code specified")
    return code


def profile_setter(field: str, longest: int) -> Method:
    """Return the method that sets one of the bot's self-descriptions, by language."""

    def set_field(account: Account, arguments: Arguments) -> bool:
        if len(arguments.text(field)) > longest:
            raise bad_request(f"{field.replace('_', ' ')} is too long")
        account.profile[field, _language(arguments)] = arguments.text(field)
        return True

    return set_field


def profile_getter(field: str) -> Method:
    """Return the method that gives one of the bot's self-descriptions, by language."""

    def get_field(account: Account, arguments: Arguments) -> Json:
        fallback = account.profile.get((field, ""), "")
        return {field: account.profile.get((field, _language(arguments)), fallback)}

    return get_field


def set_webhook(account: Account, arguments: Arguments) -> bool:
    """Have updates posted to an address; without one, stop that."""
    url = arguments.text("url")
    if not url:
        return delete_webhook(account, arguments)
    if not re.match(r"https?://[^/]", url):
        raise bad_request("invalid webhook URL specified")
    secret = arguments.text("secret_token")
    if len(secret) > 256:
        raise bad_request("secret token is too long")
    if not re.fullmatch(r"[A-Za-z0-9_-]*", secret):
        raise bad_request("secret token contains unallowed characters")
    if arguments.flag("drop_pending_updates"):
        account.updates.clear()
    account.updates.select(arguments.structure("allowed_updates", "allowed updates"))
    most = arguments.integer("max_connections", 40, 1, 100)
    hook = account.webhook
    if hook is None or (hook.url, hook.secret, hook.max_connections) != (url, secret, most):
        account.poll.begin(ApiError(409, "Conflict: terminated by setWebhook request"))
        account.webhook = Webhook(url=url, secret=secret, max_connections=most)
    return True


def delete_webhook(account: Account, arguments: Arguments) -> bool:
    """Stop posting updates, so that they can be fetched."""
    if arguments.flag("drop_pending_updates"):
        account.updates.clear()
    account.webhook = None
    return True


def get_webhook_info(account: Account, _arguments: Arguments) -> Json:
    """Return where updates are posted to, and the last failure."""
    hook = account.webhook
    info: Json = {
        "url": hook.url if hook else "",
        "has_custom_certificate": False,
        "pending_update_count": len(account.updates),
    }
    if hook is not None:
        info["max_connections"] = hook.max_connections
        if hook.last_error is not None:
            info["last_error_date"], info["last_error_message"] = hook.last_error
    if account.updates.chosen:
        info["allowed_updates"] = sorted(account.updates.kinds)
    return info
