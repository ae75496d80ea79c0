"""A person's page: where they stand, what they have sent, what was said to them, what is open."""

from collections.abc import Iterator
from typing import Final
from zoneinfo import ZoneInfo

from bot.care.board import Standing, stand
from bot.care.member import Member
from bot.care.overview import NUDGES, length
from bot.care.reaching import SAID as SAID_TO_THEM
from bot.care.reaching import line_of, lost_lines
from bot.care.roles import Action
from bot.care.sayings import button, headline, opening, when
from bot.care.sent import sent_tests
from bot.care.step import Audit, CareStep, Did, Facts, Message, Paper, Papers, Rows
from bot.engine.buttons import part
from bot.engine.effects import Choice, Day, Form, Moment, Part, Term
from bot.findings import find
from bot.findings.quality import quality
from bot.findings.trend import FEWEST, Direction, trend
from bot.protocol.record import Measure, TestRecord

SIDE_BY_SIDE: Final = 2
SAID: Final = 5
"""How many of the last things that were said to a person the page lists (design choice)."""


def see_person(member: Member, facts: Facts) -> CareStep:
    """Show a person's page; every look is in the log."""
    standing = stand(facts.people[0])
    shown = shared(facts)
    parts = (
        *_place(standing, facts),
        *_tests(standing, shown, facts),
        *_trend(shown),
        *_medicines(shown),
        *_said(facts),
        *_open(standing),
    )
    message = Message(to=member.number, parts=parts, rows=_rows(member, standing, facts))
    audit = Audit(who=member.number, did=Did.SAW_PERSON, person=standing.facts.id)
    return CareStep(messages=(message,), audits=(audit,))


def see_files(member: Member, facts: Facts) -> CareStep:
    """Send the files of the latest test that the person has sent, with whose they are."""
    person, sent = facts.people[0], shared(facts)
    if not sent:
        nothing = Message(to=member.number, parts=(part("care.person.nothing-sent"),))
        return CareStep(messages=(nothing,))
    latest = sent[-1]
    item = next((i for i in reversed(person.items) if i.test == latest.number), None)
    files = part("care.person.files", reference=person.reference, test=latest.number)
    head = Message(to=member.number, parts=(files, part("care.papers")))
    papers = tuple(
        Paper(
            to=member.number,
            form=form,
            record=latest,
            item=item.number if item else 0,
            reference=person.reference,
            at=facts.at,
        )
        for form in (Form.SUMMARY, Form.CHART, Form.PDF, Form.CSV)
    )
    audit = Audit(
        who=member.number,
        did=Did.OPENED_RESULT,
        person=person.id,
        item=None if item is None else item.number,
        detail=str(latest.number),
    )
    return CareStep(messages=(head, *papers), audits=(audit,))


def see_series(member: Member, facts: Facts) -> CareStep:
    """Send the last two tests side by side, and from three on all of them over time.

    What they say speaks to the person, so it is said first whose they are, and that.
    """
    person, sent = facts.people[0], shared(facts)
    if len(sent) < SIDE_BY_SIDE:
        few = Message(to=member.number, parts=(part("care.person.one-sent"),))
        return CareStep(messages=(few,))
    newest = next((i.number for i in reversed(person.items) if i.shared), 0)
    made = [(Form.PDF, sent[-SIDE_BY_SIDE:])]
    if len(sent) >= FEWEST:
        made.append((Form.CHART, sent))
    papers = tuple(
        Papers(
            to=member.number,
            form=form,
            records=records,
            reference=person.reference,
            at=facts.at,
            item=newest,
        )
        for form, records in made
    )
    series = part("care.person.series", reference=person.reference, count=len(sent))
    head = Message(to=member.number, parts=(series, part("care.papers")))
    numbers = ",".join(str(record.number) for record in sent)
    audit = Audit(who=member.number, did=Did.OPENED_RESULT, person=person.id, detail=numbers)
    return CareStep(messages=(head, *papers), audits=(audit,))


def shared(facts: Facts) -> tuple[TestRecord, ...]:
    """Return the tests that the person has sent, oldest first: of no other is a number shown."""
    sent = () if facts.person is None else sent_tests(facts.person)
    found = [record for record in facts.records if record.number in sent]
    return tuple(sorted(found, key=lambda record: (record.began_at, record.number)))


def _place(standing: Standing, facts: Facts) -> Iterator[Part]:
    person = standing.facts
    yield part(
        "care.person",
        reference=person.reference,
        place=Term(f"care.place.{standing.place}"),
        length=length(facts.at - standing.since),
    )
    if person.consented_at is None:
        yield part("care.person.unopened")
    if person.blocked_at is not None:
        yield part("care.person.blocked", **when(person.blocked_at, facts))
    if person.held:
        yield part("care.person.held")
    if person.paused:
        yield part("care.person.paused")
    if person.booking is not None:
        yield part("care.person.booked", moment=Moment(person.booking.at, facts.rules.zone))


def _tests(standing: Standing, sent: tuple[TestRecord, ...], facts: Facts) -> Iterator[Part]:
    """Yield the numbers of the last two tests that were sent, side by side; others by name."""
    numbers = {record.number for record in sent}
    for test in standing.facts.measured:
        if test.number not in numbers:
            yield part("care.person.unsent", test=test.number)
    pair = sent[-SIDE_BY_SIDE:]
    for record in pair:
        there = record.began_at.astimezone(ZoneInfo(facts.rules.zone))
        day = Term(f"care.day.{record.day}" if record.day else "care.day.untold")
        grade = Term(f"care.grade.{quality(record, find(record)).grade}")
        yield part(
            "care.person.test", test=record.number, day=Day(there.date()), kind=day, grade=grade
        )
    if not pair:
        return
    columns = [_numbers(record) for record in pair]
    for row in columns[0]:
        yield part(f"care.person.{row}", values=" | ".join(column[row] for column in columns))


def _numbers(record: TestRecord) -> dict[str, str]:
    """Return the numbers of a test that are laid side by side, each as it is written."""
    found = find(record)
    lying = None if found.baseline is None else found.baseline.values
    rates = [c.heart_rate for c in found.changes if c.heart_rate is not None]
    falls = [c.systolic for c in found.changes if c.systolic is not None]
    return {
        "lying": "–"
        if lying is None
        else f"{_or_dash(lying.systolic)}/{_or_dash(lying.diastolic)} {_or_dash(lying.heart_rate)}",
        "rate-change": _signed(max(rates)) if rates else "–",
        "pressure-change": _signed(min(falls)) if falls else "–",
    }


def _signed(number: int) -> str:
    return f"{number:+d}".replace("-", "−")


def _or_dash(number: int | None) -> str:
    return "–" if number is None else str(number)


def _trend(sent: tuple[TestRecord, ...]) -> Iterator[Part]:
    """Yield which way the changes go, with three tests or more on one kind of day."""
    if len(sent) < FEWEST:
        return
    for course in trend(sent).courses:
        told = course.direction not in (Direction.TOO_FEW, Direction.NOT_ALIKE)
        if told and course.measure is not Measure.DIASTOLIC:
            yield part(
                f"care.trend.{course.measure.value.replace('_', '-')}.{course.direction}",
                count=len(course.tests),
                kind=Term(f"care.day.{course.day}"),
            )


def _medicines(sent: tuple[TestRecord, ...]) -> Iterator[Part]:
    if not sent or sent[-1].circumstances is None:
        return
    medicines = sent[-1].circumstances.medicines
    if not medicines:
        yield part("care.person.no-medicines")
    for medicine in medicines or ():
        yield part("care.person.medicine", medicine=Term(f"files.medicine.{medicine}"))


def _said(facts: Facts) -> Iterator[Part]:
    """Yield what the team has said to the person, and when; what did not arrive is marked."""
    said = [(at, audit) for at, audit in facts.done if audit.did in SAID_TO_THEM and audit.who >= 0]
    lost = lost_lines(facts.done)
    if said:
        yield part("care.person.said")
    for at, audit in said[-SAID:]:
        label = facts.label(audit.who) if audit.who else "–"
        what = Term(f"care.said.{SAID_TO_THEM[audit.did]}")
        key = "care.person.said.lost" if line_of(audit, at) in lost else "care.person.said.line"
        yield part(key, member=label, what=what, **when(at, facts))


def _open(standing: Standing) -> Iterator[Part]:
    for item in standing.facts.open_items:
        yield headline(item)


def _rows(member: Member, standing: Standing, facts: Facts) -> Rows:
    """Return what the member can do with the person, as far as their role and the file allow."""
    person = standing.facts
    if person.id is None or person.consented_at is None:
        return ()
    who = person.id
    first: list[Choice] = [opening(item, member, "label.care.item") for item in person.open_items]
    nudge = NUDGES.get(standing.place)
    rules, context = facts.rules, facts.context
    plans = {} if context is None else context.medicine_plans or {}
    reached = person.blocked_at is None
    can = (
        (bool(shared(facts)), Action.SEE_PERSON, "files"),
        (len(shared(facts)) >= SIDE_BY_SIDE, Action.SEE_PERSON, "series"),
        (
            reached and nudge is not None and not person.paused,
            Action.NUDGE_PERSON,
            f"nudge:{nudge}",
        ),
        (person.held, Action.CLEAR_PERSON, "clear"),
        (reached and bool(person.measured), Action.ASK_REPEAT, "repeat"),
        (reached and (bool(rules.templates) or rules.free_text), Action.WRITE_TO_PERSON, "write"),
        (True, Action.SET_PROTOCOL, "test"),
        (bool(plans), Action.SET_PLAN, "plan"),
        (person.done_at is None, Action.CLOSE_PERSON, "done"),
    )
    choices = first + [
        button(f"button.care.who.{verb.partition(':')[0]}", "who", who, *verb.split(":"))
        for offered, action, verb in can
        if offered and member.may(action)
    ]
    return tuple(tuple(choices[i : i + 2]) for i in range(0, len(choices), 2))
