"""The clinic's settings: one TOML file, read, checked, and read again when it changes."""

from bot.clinic.file import ClinicFile, read_clinic
from bot.clinic.form import Clinic

__all__ = ["Clinic", "ClinicFile", "read_clinic"]
