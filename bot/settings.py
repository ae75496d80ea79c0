"""What whoever runs Wallside can set, from the environment; every name starts with WALLSIDE_."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final, Literal

from dotenv import dotenv_values
from pydantic import Field, SecretStr, ValidationError, field_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

from bot.errors import SettingsError

_PREFIX: Final = "WALLSIDE_"

_PLACE: Final = r"^[A-Za-z0-9.:\[\]-]+:[0-9]{1,5}$"
"""A host and a port."""


def place(written: str) -> tuple[str, int]:
    """Return the host and the port of an address to listen at."""
    host, _, port = written.rpartition(":")
    return host.strip("[]"), int(port)


def _home() -> Path:
    return Path.home() / ".wallside"


class Settings(BaseSettings):
    """The settings.

    Attributes:
        folder: Where the database and the results are kept.
        clinic: The clinic's file; without it, `clinic.toml` in the folder. What is set in the
            environment as well counts before the file.
        database: The address of a PostgreSQL database; empty for SQLite in the folder.
        keys: The keys that the database is sealed with, newest first, separated by commas; empty
            for a key file.
        key_file: Where the key file is; `wallside.keys` in the folder if it is not set.
        retention_days: How long a person is kept who is no longer heard of, and how long a test
            and what was typed are kept of anybody, in days; else as the clinic's file says.
        token: The Telegram bot's token.
        bot_api: The base address of the Bot API, to run against a local server; empty for the
            messenger's own.
        webhook: The public https address at which Telegram posts to us; empty to fetch instead.
        webhook_secret: What Telegram has to show there; needed with a webhook.
        webhook_listen: Where to listen for it: host and port.
        tls_certificate: A certificate of our own, in PEM form; without it a proxy has to do TLS.
        tls_key: Its key.
        status_listen: Where /health and /metrics are answered, for the inside; empty for nowhere.
        protocol: Which protocol new tests use.
        opening: How much is asked before a first test: `full`, or `short` for trying out.
        invited_only: Whether a person needs an invitation to begin.
        bot_name: The bot's name on Telegram; invitation links need it. An @ before it is dropped.
        medicine_plan: The clinic's own words on medicines before a test, if it has written any.
        contact: How to reach the care team, in the clinic's words: on the handout, and where
            people are sent there.
        emergency_number: The emergency number where the clinic's patients live, said with every
            word of safety; without it Wallside speaks of the local emergency number.
        consent_version: Raise it when the consent text changes; everyone is asked again.
        team: Whether there is a care team; results can then be sent to it, and it hears alarms.
            Else as the clinic's file says.
        clinic_zone: The clinic's time zone; times are said to the team in it. Else as the clinic's
            file says.
        speed: How fast the clock runs; anything but 1 is for trying out only.
        bots: A folder with a file of settings for each bot, to serve several; see `load_bots`.
    """

    model_config = SettingsConfigDict(env_prefix="WALLSIDE_", extra="ignore")

    folder: Path = Field(default_factory=_home)
    clinic: Path | None = None
    database: SecretStr = SecretStr("")
    keys: SecretStr = SecretStr("")
    key_file: Path | None = None
    retention_days: int | None = Field(default=None, ge=1, le=36_500)
    token: SecretStr = SecretStr("")
    bot_api: str = ""
    webhook: str = Field(default="", pattern=r"^$|^https://")
    webhook_secret: SecretStr = SecretStr("")
    webhook_listen: str = Field(default="127.0.0.1:8443", pattern=_PLACE)
    tls_certificate: Path | None = None
    tls_key: Path | None = None
    status_listen: str = Field(default="", pattern=rf"^$|{_PLACE}")
    protocol: str = "four-readings"
    opening: Literal["full", "short"] = "full"
    invited_only: bool = False
    bot_name: str = ""
    medicine_plan: str = ""
    contact: str = ""
    emergency_number: str = Field(default="", pattern=r"^$|^\+?[0-9][0-9 /-]{0,21}[0-9]$")
    consent_version: int = Field(default=1, ge=1)
    team: bool = False
    clinic_zone: str = "UTC"
    speed: float = Field(default=1.0, gt=0, le=1000)
    bots: Path | None = None

    @field_validator("bot_name")
    @classmethod
    def _bare(cls, name: str) -> str:
        return name.strip().removeprefix("@")


def load_settings(**given: str) -> Settings:
    """Return the settings as they stand in the environment.

    Args:
        given: What counts before it, by the names of the fields.

    Raises:
        SettingsError: A setting cannot be used; the message names it.
    """
    try:
        return _READ(**given)
    except ValidationError as error:
        names = [str(fault["loc"][0]) for fault in error.errors()]
        faults = " ".join(f"{_PREFIX}{name.upper()} has to be {_MEANT[name]}." for name in names)
        raise SettingsError(f"A setting cannot be used. {faults}") from None


_MEANT: Final[Mapping[str, str]] = {
    "retention_days": "a whole number of days, from 1 to 36500",
    "webhook": "an address that begins with https://",
    "webhook_listen": "a host and a port, like 127.0.0.1:8443",
    "status_listen": "a host and a port, like 127.0.0.1:9464",
    "opening": "full or short",
    "invited_only": "true or false",
    "emergency_number": "digits, with spaces, - or / between them and perhaps a + before",
    "consent_version": "a whole number from 1 on",
    "team": "true or false",
    "speed": "a number above 0, and at most 1000",
}
"""What to write, for each setting in which not everything can be written."""

_READ: Final[Callable[..., Settings]] = Settings
"""What is given is text, as in the environment; it is validated there."""

_OWN: Final = ("token", "folder")
"""What each bot has to have for itself."""


def load_bots(folder: Path) -> dict[str, Settings]:
    """Return the settings of several bots, by the names of their files.

    Each file `NAME.env` holds lines like `WALLSIDE_TOKEN=…`, which count before the environment.
    No two bots may share a token, a data folder, a database or an address to listen at.

    Raises:
        SettingsError: There is no file, or one cannot be used; the message names it.
    """
    files = sorted(folder.glob("*.env"))
    if not files:
        raise SettingsError(f"WALLSIDE_BOTS is {folder}, and no file NAME.env is there.")
    bots = {file.stem: _bot_in(file) for file in files}
    for which, of in _APART.items():
        seen: dict[object, str] = {}
        for name, bot in bots.items():
            if (value := of(bot)) and (other := seen.setdefault(value, name)) != name:
                raise SettingsError(f"{other}.env and {name}.env have the same {_PREFIX}{which}.")
    return bots


_APART: Final[Mapping[str, Callable[[Settings], object]]] = {
    "TOKEN": lambda bot: bot.token.get_secret_value(),
    "FOLDER": lambda bot: bot.folder.resolve(),
    "DATABASE": lambda bot: bot.database.get_secret_value(),
    "STATUS_LISTEN": lambda bot: bot.status_listen,
    "WEBHOOK_LISTEN": lambda bot: bot.webhook_listen if bot.webhook else "",
}


def _bot_in(file: Path) -> Settings:
    try:
        lines = dotenv_values(file, interpolate=False).items()
    except (OSError, UnicodeDecodeError) as error:
        raise SettingsError(f"{file} cannot be read: {type(error).__name__}.") from None
    given = {name.removeprefix(_PREFIX).lower(): value or "" for name, value in lines}
    if missing := [name for name in _OWN if not given.get(name)]:
        raise SettingsError(f"{file} lacks {_PREFIX}{missing[0].upper()}.")
    try:
        return load_settings(**given)
    except SettingsError as error:
        raise SettingsError(f"{file}: {error}") from None
