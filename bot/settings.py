"""What whoever runs Wallside can set, from the environment; every name starts with WALLSIDE_."""

from pathlib import Path
from typing import Literal

from pydantic import Field, SecretStr, ValidationError
from pydantic_settings import BaseSettings, SettingsConfigDict

from bot.errors import SettingsError


def _home() -> Path:
    return Path.home() / ".wallside"


class Settings(BaseSettings):
    """The settings.

    Attributes:
        folder: Where the database and the results are kept.
        token: The Telegram bot's token.
        bot_api: The base address of the Bot API, to run against a local server; empty for the
            messenger's own.
        protocol: Which protocol new tests use.
        opening: How much is asked before a first test: `full`, or `short` for trying out.
        invited_only: Whether a person needs an invitation to begin.
        bot_name: The bot's name on Telegram, without the @; invitation links need it.
        medicine_plan: The clinic's own words on medicines before a test, if it has written any.
        emergency_number: The emergency number where the clinic's patients live, said with every
            word of safety; without it Wallside speaks of the local emergency number.
        consent_version: Raise it when the consent text changes; everyone is asked again.
        team: Whether there is a care team; results can then be sent to it, and it hears alarms.
        clinic_zone: The clinic's time zone; times are said to the team in it.
        speed: How fast the clock runs; anything but 1 is for trying out only.
    """

    model_config = SettingsConfigDict(env_prefix="WALLSIDE_", extra="ignore")

    folder: Path = Field(default_factory=_home)
    token: SecretStr = SecretStr("")
    bot_api: str = ""
    protocol: str = "four-readings"
    opening: Literal["full", "short"] = "full"
    invited_only: bool = False
    bot_name: str = ""
    medicine_plan: str = ""
    emergency_number: str = Field(default="", pattern=r"^$|^\+?[0-9][0-9 /-]{0,21}[0-9]$")
    consent_version: int = Field(default=1, ge=1)
    team: bool = False
    clinic_zone: str = "UTC"
    speed: float = Field(default=1.0, gt=0, le=1000)


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
