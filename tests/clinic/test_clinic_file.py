"""The clinic's file: read, refused with line and remedy, and read again when it changes."""

import os
import tomllib
from dataclasses import replace
from datetime import time, timedelta
from pathlib import Path

import pytest
from pydantic import BaseModel

from bot.bootstrap import context_from, rules_from
from bot.care.rules import CareRules, Hours
from bot.clinic import Clinic, ClinicFile, read_clinic
from bot.clinic.file import example
from bot.clinic.form import Duty
from bot.clinic.places import line_of
from bot.clinic.weakening import weakened
from bot.engine.context import Context, StopLines
from bot.errors import SettingsError
from bot.settings import Settings


def written(folder: Path, text: str) -> Path:
    """Write a file and return it."""
    path = folder / "clinic.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_without_a_file_all_is_as_it_ships(tmp_path: Path) -> None:
    """No file, and an empty one, mean what the program does by itself."""
    assert read_clinic(tmp_path / "clinic.toml") == Clinic()
    assert read_clinic(written(tmp_path, "")).context() == replace(
        Context(), opening=Clinic().context().opening
    )


def test_what_is_written_reaches_the_team(tmp_path: Path) -> None:
    """Zone, patience, free text and the plan of duty are what the team's side is told."""
    text = """
        [team]
        on = true
        zone = "Europe/Madrid"
        acknowledge_within = "3 min"
        free_text = true
        [[team.duty]]
        who = ["Marta"]
        days = ["mon", "sun"]
        from = 22:00:00
        until = 06:00:00
        [[team.duty]]
        who = ["Luis", "Nora"]
    """
    clinic = read_clinic(written(tmp_path, text))
    assert clinic.context().team
    assert clinic.rules() == CareRules(
        zone="Europe/Madrid",
        answer_within=timedelta(minutes=3),
        free_text=True,
        duty=(
            Hours(who=("Marta",), days=frozenset({0, 6}), starts=time(22), ends=time(6)),
            Hours(who=("Luis", "Nora")),
        ),
    )


def test_the_environment_counts_before_the_team_of_the_file(tmp_path: Path) -> None:
    """A team and its zone can be set in either; a change of the file holds at the next event."""
    path = written(tmp_path, '[team]\non = true\nzone = "Europe/Madrid"')
    file = Settings(folder=tmp_path)
    assert context_from(file)().team
    assert rules_from(file)().zone == "Europe/Madrid"
    said = Settings(folder=tmp_path, team=False, clinic_zone="Europe/Dublin")
    assert not context_from(said)().team
    rules = rules_from(said)
    path.write_text("[team]\nfree_text = true", encoding="utf-8")
    assert rules() == CareRules(zone="Europe/Dublin", free_text=True)


def test_the_example_sets_every_field(tmp_path: Path) -> None:
    """The example is valid, names every field there is, and gives each stop line as it ships."""
    clinic = read_clinic(written(tmp_path, example()))
    assert clinic.stop_lines == StopLines()
    sets = tomllib.loads(example())
    for name, field in Clinic.model_fields.items():
        assert _names(field.annotation) <= sets[name].keys(), name
    duty = {field.alias or name for name, field in Duty.model_fields.items()}
    assert duty == sets["team"]["duty"][0].keys()
    assert sets["stop_lines"].keys() == set(StopLines.__dataclass_fields__)


def _names(kind: object) -> set[str]:
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return set(kind.model_fields)
    return set()


def test_what_is_written_reaches_the_engine(tmp_path: Path) -> None:
    """Texts, times, lines and switches of the file are what the engine is told."""
    text = """
        [clinic]
        emergency_number = "112"
        contact = { en = "555 0142" }
        [tests]
        protocols = ["six-readings"]
        invited_only = true
        [consent]
        version = 3
        [reminders]
        soon = "20 min"
        quiet_from = 22:00:00
        [stop_lines]
        standing_systolic_below = 95
        [after_a_stop]
        checks = ["1 min", "4 min"]
    """
    context = read_clinic(written(tmp_path, text)).context()
    assert context.protocol.id == "six-readings"
    assert (context.emergency_number, context.invited_only) == ("112", True)
    assert context.contact == {"en": "555 0142"}
    assert context.consent_version == 3
    assert context.reminders.soon == timedelta(minutes=20)
    assert context.quiet.starts == time(22)
    assert context.stop_lines == StopLines(standing_systolic_below=95)
    assert context.recovery.checks == (timedelta(minutes=1), timedelta(minutes=4))


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ('[clinic]\nemergency_number = "abc"', 2, "write digits"),
        ('[clinic]\nname = "x"\ncontact = { fr = "x" }', 3, "use en or es"),
        ('[tests]\nprotocols = ["nine"]', 2, "four-readings or six-readings"),
        ('\n\n[reminders]\nsoon = "15 mins"', 4, '"15 min"'),
        ("[reminders]\nsoon = 2", 2, "soon"),
        ('[reminders]\nday_before = "1 hour"', 1, "out of order"),
        ("[stop_lines]\nstanding_systolic = 90", 2, "no such setting"),
        ("[stop_lines]\nlarge_fall = 4000", 1, "large_fall is 4000"),
        ("[clinics]", 1, "no such setting"),
        ('[[team.duty]]\nwho = ["A"]\n[[team.duty]]\ndays = ["mon"]', 3, "has to be set"),
        ('[team]\nzone = "Madrid"', 2, "no time zone 'Madrid'"),
        ('[[team.duty]]\nwho = ["A"]\ndays = ["monday"]', 3, "'mon', 'tue'"),
        ('[templates.Call_us]\nen = "x"', 1, "small letters"),
        ('[after_a_stop]\nchecks = ["5 min", "2 min"]', 1, "in order"),
    ],
)
def test_a_fault_is_named_with_its_line_and_remedy(
    tmp_path: Path, text: str, line: int, says: str
) -> None:
    """Whoever wrote the file reads where to look and what to write."""
    with pytest.raises(SettingsError) as refused:
        read_clinic(written(tmp_path, text))
    assert f"clinic.toml, line {line}: " in str(refused.value)
    assert says in str(refused.value)
    assert "validation" not in str(refused.value)


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    """Two slips are two lines of the message, and no TOML at all is said to be none."""
    path = written(tmp_path, '[clinic]\nnam = "x"\n[team]\nfree_text = "perhaps"')
    with pytest.raises(SettingsError) as refused:
        read_clinic(path)
    assert len(str(refused.value).splitlines()) == 2
    with pytest.raises(SettingsError, match="no TOML"):
        read_clinic(written(tmp_path, "a = ["))
    path.write_bytes(b"\xff\xfe")
    with pytest.raises(SettingsError, match="UTF-8"):
        read_clinic(path)


def test_a_setting_inside_a_table_of_tables_is_found() -> None:
    """The line is that of the second table, not of the first of the same name."""
    text = '[[a.b]]\nx = 1\n[[a.b]]\n"x" = 2 # x = 3\n'
    assert line_of(text, ("a", "b", 1, "x")) == 4
    assert line_of(text, ("a", "b", 0, "x")) == 2
    assert line_of(text, ("nothing",)) is None


def test_a_changed_file_counts_from_the_next_look_on(tmp_path: Path) -> None:
    """A change is seen without a restart; one that cannot be used changes nothing."""
    path = written(tmp_path, '[clinic]\nname = "Harbour Street Clinic"')
    file = ClinicFile(path)
    assert file.now().clinic.name == "Harbour Street Clinic"
    _change(path, '[clinic]\nname = "Hill Street Clinic"')
    assert file.now().clinic.name == "Hill Street Clinic"
    _change(path, "[clinic]\nname = 3")
    assert file.now().clinic.name == "Hill Street Clinic"
    path.unlink()
    assert file.now() == Clinic()


def _change(path: Path, text: str) -> None:
    before = path.stat().st_mtime_ns
    path.write_text(text, encoding="utf-8")
    os.utime(path, ns=(before + 1_000_000, before + 1_000_000))


def test_the_environment_counts_before_the_file(tmp_path: Path) -> None:
    """What is set in both places is as the environment says; a named file must be there."""
    written(tmp_path, '[clinic]\nemergency_number = "112"\n[consent]\nversion = 4')
    context = context_from(Settings(folder=tmp_path, emergency_number="999"))()
    assert (context.emergency_number, context.consent_version) == ("999", 4)
    with pytest.raises(SettingsError, match="no such file"):
        context_from(Settings(folder=tmp_path, clinic=tmp_path / "other.toml"))


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("[stop_lines]\nstanding_systolic_below = 80", "standing_systolic_below"),
        ("[stop_lines]\nsystolic_from = 200", "systolic_from"),
        ('[after_a_stop]\nanswer_within = "5 min"', "answer_within"),
        ('[team]\nacknowledge_within = "30 min"', "acknowledge_within"),
        ('[tests]\nopening = "short"', "opening"),
        ("", "emergency_number"),
        (example(), "clinic.name is that of the example"),
    ],
)
def test_what_weakens_safety_is_called_out(tmp_path: Path, text: str, names: str) -> None:
    """A setting that is allowed but less safe than what ships is named."""
    assert any(names in said for said in weakened(read_clinic(written(tmp_path, text))))


def test_a_stricter_line_is_not_called_out(tmp_path: Path) -> None:
    """Stopping earlier than what ships is no weakening."""
    text = (
        '[clinic]\nemergency_number = "112"\n[tests]\ninvited_only = true\n'
        "[stop_lines]\nstanding_systolic_below = 95\nlarge_fall = 25"
    )
    assert list(weakened(read_clinic(written(tmp_path, text)))) == []


def test_how_people_are_invited_reaches_the_team(tmp_path: Path) -> None:
    """How long a link is good, and what an invitation can name, is what the clinic has written."""
    text = """
        [clinic]
        languages = ["es"]
        [tests]
        protocols = ["six-readings"]
        [invitations]
        good_for = "2 weeks"
    """
    rules = read_clinic(written(tmp_path, text)).rules()
    offers = (rules.invitation_lasts, rules.protocols, rules.languages)
    assert offers == (timedelta(weeks=2), ("six-readings",), ("es",))
    with pytest.raises(SettingsError, match=r"line 2: invitations.good_for"):
        read_clinic(written(tmp_path, '[invitations]\ngood_for = "1 hour"'))
