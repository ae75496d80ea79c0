"""What whoever runs Wallside can set, from the environment; every name starts with WALLSIDE_."""

from pathlib import Path
from typing import Final, Literal

from pydantic import Field, SecretStr, ValidationError, field_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

from bot.errors import SettingsError

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

    @field_validator("bot_name")
    @classmethod
    def _bare(cls, name: str) -> str:
        return name.strip().removeprefix("@")


def load_settings() -> Settings:
    """Return the settings as they stand in the environment.

    Raises:
        SettingsError: A setting cannot be used; the message names it.
    """
    try:
        return Settings()
    except ValidationError as error:
        faults = "; ".join(
            f"WALLSIDE_{str(fault['loc'][0]).upper()}: {fault['msg']}" for fault in error.errors()
        )
        raise SettingsError(f"A setting cannot be used. {faults}") from None
