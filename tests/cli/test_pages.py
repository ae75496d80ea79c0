"""README.md and DEVELOPERS.md say what is there."""

import re
from typing import Final

import typer.main

from bot.cli import app
from bot.settings import Settings
from tests.cli.running import ROOT

README: Final = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS: Final = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def _section(title: str) -> str:
    return DEVELOPERS.split(f"\n## {title}\n")[1].split("\n## ")[0]


def test_table_of_settings_has_every_setting_and_no_other() -> None:
    """What can be set in the environment stands in the table, by the names that are read."""
    rows = re.findall(r"(?m)^\| (`WALLSIDE_[^|]*) \|", _section("Settings of the machine"))
    named = sorted(re.findall(r"`(WALLSIDE_[A-Z_]+)`", " ".join(rows)))
    assert named == sorted(f"WALLSIDE_{field.upper()}" for field in Settings.model_fields)


def test_map_has_every_package_and_module_of_the_top() -> None:
    """Whoever looks for something finds its place on the map."""
    found = {
        f"{path.name}/" if path.is_dir() else path.name
        for path in (ROOT / "bot").iterdir()
        if not path.name.startswith("_")
    }
    drawn = set(re.findall(r"[a-z_]+(?:/|\.py)", _section("The map").split("```")[1]))
    assert sorted(found - drawn) == []


def test_links_between_sections_lead_somewhere() -> None:
    """Each link to a section of the developers' page has its heading."""
    headings = re.findall(r"(?m)^## (.+)$", DEVELOPERS)
    anchors = {re.sub(r"[^a-z0-9 -]", "", title.lower()).replace(" ", "-") for title in headings}
    links = re.findall(r"\((?:DEVELOPERS\.md)?#([^)]+)\)", DEVELOPERS + README)
    assert [link for link in links if link not in anchors] == []
    assert len(links) > len(headings)


def test_commands_in_the_readme_are_there() -> None:
    """Each `wallside …` that the page tells people to type is a command."""
    known = set(typer.main.get_group(app).commands)
    typed = re.findall(
        r"(?:^|[`/ ])wallside ([a-z-]+)", README.split("## Try it yourself")[1], re.MULTILINE
    )
    assert sorted(word for word in set(typed) if word not in known) == []
    assert len(set(typed)) > 8
