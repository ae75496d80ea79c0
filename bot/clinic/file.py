"""Reads the clinic's file, says line and remedy where it cannot be used, and sees it change."""

import threading
import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final

import structlog
from pydantic import ValidationError

from bot.clinic.form import Clinic
from bot.clinic.places import line_of
from bot.clinic.remedies import plainly
from bot.errors import SettingsError

NAME: Final = "clinic.toml"
"""The file's name in the data folder, unless another one is set."""

_log = structlog.get_logger("wallside.clinic")


def example() -> str:
    """Return a file that sets everything there is, each with what it means."""
    return (Path(__file__).parent / "example.toml").read_text(encoding="utf-8")


def read_clinic(path: Path) -> Clinic:
    """Return what a file says; without a file, what is safe where nothing is said.

    Raises:
        SettingsError: It cannot be used; every fault is named with its line and what to write.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return Clinic()
    except (OSError, UnicodeDecodeError) as error:
        raise SettingsError(f"{path} cannot be read: {error}. Save it as text in UTF-8.") from None
    try:
        return Clinic.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        raise SettingsError(f"{path}: this is no TOML: {error}.") from None
    except ValidationError as error:
        raise SettingsError("\n".join(_faults(path, text, error))) from None


def _faults(path: Path, text: str, error: ValidationError) -> list[str]:
    said: dict[str, None] = {}
    for fault in error.errors():
        if fault["type"] == "too_short" and said:
            continue  # what it lacks is what was refused before
        steps = tuple(step for step in fault["loc"] if step != "[key]")
        line = line_of(text, steps)
        where = f"{path.name}, line {line}" if line else path.name
        last = str(steps[-1]) if steps else ""
        remedy = _remedy(last, fault["type"], fault["msg"], fault.get("ctx"))
        said[f"{where}: {'.'.join(map(str, steps))}: {remedy}"] = None
    return list(said)


def _remedy(name: str, kind: str, message: str, limits: Mapping[str, Any] | None) -> str:
    match kind:
        case "extra_forbidden" | "unexpected_keyword_argument":
            return "there is no such setting; look for a slip of typing, or take it out."
        case _:
            return f"{plainly(kind, message, limits, name=name)}."


class ClinicFile:
    """The clinic's settings as they stand now. A changed file counts from the next event on.

    A file that cannot be used any more changes nothing: what held before goes on, and it is logged.
    """

    def __init__(self, path: Path, adjust: Callable[[Clinic], Clinic] = lambda clinic: clinic):
        """Read the file.

        Args:
            path: The file; it need not be there.
            adjust: What is put over it, from elsewhere.

        Raises:
            SettingsError: The file cannot be used.
        """
        self._path = path
        self._adjust = adjust
        self._lock = threading.Lock()
        self._stamp = self._stamped()
        self._clinic = adjust(read_clinic(path))

    def now(self) -> Clinic:
        """Return what holds, looking at the file again if it was changed."""
        with self._lock:
            stamp = self._stamped()
            if stamp != self._stamp:
                self._stamp = stamp
                self._read_again()
            return self._clinic

    def _read_again(self) -> None:
        try:
            self._clinic = self._adjust(read_clinic(self._path))
        except SettingsError as error:
            _log.error("the clinic's file cannot be used; the old settings hold", fault=str(error))
        else:
            _log.info("the clinic's file was read again")

    def _stamped(self) -> tuple[int, int] | None:
        try:
            status = self._path.stat()
        except OSError:
            return None
        return status.st_mtime_ns, status.st_size
