"""What a person has sent to the team, and all of it at once into a member's chat."""

from typing import Final

from bot.care.member import Member
from bot.care.step import Audit, CareStep, Did, Facts, Message, Paper
from bot.engine.buttons import part
from bot.engine.effects import Form
from bot.engine.state import Conversation

MOST: Final = 5
"""How many tests, the newest, one word in the chat sends the files of (design choice: more than
that is for `wallside export`, in one file)."""

FORMS: Final = (Form.PDF, Form.CSV, Form.FHIR)
"""What a clinic's own records can take."""


def sent_tests(person: Conversation) -> tuple[int, ...]:
    """Return the numbers of the tests that the team may have, the oldest first.

    The one rule for everything that goes out in many: the person has agreed to the team, has sent
    the test, by a word for it or by a standing one, and has not taken it back.
    """
    if person.profile.team_since is None:
        return ()
    return tuple(note.number for note in person.profile.tests if note.shared)


def export(member: Member, facts: Facts) -> CareStep:
    """Send the files of all that a person has sent; whoever has sent nothing is nobody here."""
    if facts.person is None or not facts.records:
        nothing = Message(to=member.number, parts=(part("care.export.nothing"),))
        return CareStep(messages=(nothing,))
    person, newest = facts.person, facts.records[-MOST:]
    reference = person.profile.reference or person.id[:8]
    parts = [part("care.export", reference=reference, count=len(newest))]
    if len(facts.records) > MOST:
        parts.append(part("care.export.more", count=len(facts.records) - MOST))
    items = {item.test: item.number for item in facts.items if item.shared}
    papers = tuple(
        Paper(
            to=member.number,
            form=form,
            record=record,
            item=items.get(record.number),
            reference=person.profile.reference or person.id,
            at=facts.at,
        )
        for record in newest
        for form in FORMS
    )
    audit = Audit(
        who=member.number,
        did=Did.EXPORTED,
        person=person.id,
        detail=" ".join(str(record.number) for record in newest),
    )
    head = Message(to=member.number, parts=tuple(parts))
    return CareStep(messages=(head, *papers), audits=(audit,))
