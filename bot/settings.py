"""What whoever runs Wallside can set, from the environment; every name starts with WALLSIDE_."""

from pathlib import Path

from pydantic import Field, SecretStr
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
        speed: How fast the clock runs; anything but 1 is for trying out only.
    """

    model_config = SettingsConfigDict(env_prefix="WALLSIDE_", extra="ignore")

    folder: Path = Field(default_factory=_home)
    token: SecretStr = SecretStr("")
    bot_api: str = ""
    protocol: str = "four-readings"
    speed: float = Field(default=1.0, gt=0, le=1000)


def load_settings() -> Settings:
    """Return the settings as they stand in the environment.

    Raises:
        SettingsError: A setting cannot be used; the message names it.
    """
    try:
        return Settings()
    except ValueError as error:
        raise SettingsError(f"A WALLSIDE_ setting cannot be used: {error}") from None
