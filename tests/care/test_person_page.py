"""A person's page: what was sent, and no more; and all that can be done for them from there."""

from dataclasses import replace

from bot.care.roles import Role
from bot.engine.effects import Form, Hand, HandSeries, Param, Say
from bot.protocol.released import latest
from bot.reports.presenting import present
from tests.care.clinic import Clinic
from tests.companions.people import Person


def page(marta: Person, person: Person) -> list[str]:
    """Return the paragraphs of a person's page."""
    marta.new()
    marta.types(f"person {person.conversation.id}")
    return marta.new()


def values(marta: Person, key: str) -> list[Param]:
    """Return the values of a paragraph of the newest message."""
    said = [e for e in marta.got if isinstance(e, Say)][-1]
    return [v for p in said.parts if p.key == key for v in p.params.values()]


def test_two_tests_that_were_sent_stand_side_by_side(clinic: Clinic) -> None:
    """Their numbers as they were measured: 120/76 70 lying, 98/62 120 the last standing."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes").taps("good").taps("none")
    clinic.waits(24 * 60)
    clinic.repeats(ada, "110/70 101").taps("yes").taps("symptomatic")
    keys = page(marta, ada)
    assert keys[:6] == [
        "care.person", "care.person.test", "care.person.test", "care.person.lying",
        "care.person.rate-change", "care.person.pressure-change",
    ]  # fmt: skip
    assert values(marta, "care.person.lying") == ["120/76 70 | 120/76 70"]
    assert values(marta, "care.person.rate-change") == ["+20 | +31"]
    assert values(marta, "care.person.pressure-change") == ["−22 | −10"]
    assert clinic.did()[-1] == "saw-person"
    marta.taps("series")
    (pages,) = [e for e in marta.got if isinstance(e, HandSeries)]
    assert [record.number for record in pages.records] == [1, 2]
    assert present(pages, "en").attachment is not None


def test_of_a_test_that_was_not_sent_nothing_is_shown(clinic: Clinic) -> None:
    """It is named as not sent: no number, no quality, no medicine and no file of it."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    assert page(marta, ada) == ["care.person", "care.person.unsent"]
    clinic.taps_unseen(marta, f"team:who:{ada.conversation.id}:files")
    assert marta.new() == ["care.person.nothing-sent"]
    assert not any(isinstance(e, Hand) for e in marta.got)


def test_files_of_the_latest_test_come_as_from_the_inbox(clinic: Clinic) -> None:
    """Summary, chart, page and table; and the look is in the log."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes")
    page(marta, ada)
    marta.taps("files")
    handed = [e.form for e in marta.got if isinstance(e, Hand)]
    assert handed == [Form.SUMMARY, Form.CHART, Form.PDF, Form.CSV]
    assert clinic.did()[-1] == "opened-result"


def test_three_tests_on_such_days_show_where_they_go(clinic: Clinic) -> None:
    """With three tests of one kind of day the page says which way the changes go, or none."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("always").taps("good").taps("none")
    for _ in range(2):
        clinic.waits(24 * 60)
        clinic.repeats(ada, "98/62 90").taps("good")
    keys = page(marta, ada)
    assert [k for k in keys if k.startswith("care.trend")] == [
        "care.trend.heart-rate.none-clear", "care.trend.systolic.none-clear",
    ]  # fmt: skip


def test_the_protocol_that_is_set_holds_from_the_next_test(clinic: Clinic) -> None:
    """A test under way stays as it began; the one after follows what was set, and replays."""
    marta = clinic.member("Marta", Role.CLINICIAN)
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    page(marta, ada)
    marta.taps("test").taps("six-readings")
    assert ada.new()[-1:] == ["team.protocol"]
    ada.types("start").taps("now").types("yes").taps("done").taps("go")
    under_way = ada.conversation.stage
    assert under_way.record.protocol == latest("six-readings")  # type: ignore[union-attr]
    marta.taps("test").taps("four-readings")
    assert marta.new()[-1:] == ["care.busy"]
    assert ada.conversation.stage == under_way


def test_a_medicine_plan_is_the_clinics_and_never_says_to_stop(clinic: Clinic) -> None:
    """It is said at once with the warning, and on the day before a test in place of the other."""
    marta = clinic.member("Marta", Role.CLINICIAN)
    ada = clinic.patient("ada")
    plans = {"late": {"en": "After the test.", "es": "Después de la prueba."}}
    clinic.asks(replace(clinic.context, medicine_plans=plans))
    clinic.waits(2 * 60)
    page(marta, ada)
    ada.new()
    marta.taps("plan").taps("0")
    assert ada.new()[:2] == ["team.plan", "team.plan.care"]
    ada.types("thursday 9:00").taps("yes")
    clinic.waits(2 * 24 * 60)
    assert "medicines.plan" in ada.new()


def test_a_message_of_the_clinics_comes_in_the_persons_language(clinic: Clinic) -> None:
    """The member reads it in their own; own words go only where the clinic allows them."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada", language="es").taps("no").taps("good").taps("none")
    words = {"en": "Please call us.", "es": "Llámenos, por favor."}
    clinic.rules = replace(clinic.rules, templates=(("call-us", words),), free_text=False)
    page(marta, ada)
    marta.taps("write")
    assert values(marta, "care.listed") == ["call-us", "Please call us."]
    marta.taps("0")
    (said,) = [p for e in ada.got if isinstance(e, Say) for p in e.parts if p.key == "team.words"]
    assert said.params == {"words": "Llámenos, por favor."}
    clinic.taps_unseen(marta, f"team:who:{ada.conversation.id}:write:words")
    assert marta.new()[-1:] == ["care.write.not-allowed"]


def test_own_words_are_asked_for_and_sent_once(clinic: Clinic) -> None:
    """The next words go to the person, unless the member cancels; those after are words again."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    page(marta, ada)
    marta.taps("write").taps("words").types("cancel").types("Never sent")
    assert "team.words" not in ada.read()
    marta.taps("words").types("Drink as usual").types("More")
    assert ada.read().count("team.words") == 1
    assert marta.new()[-2:] == ["care.write.sent", "care.not-understood"]


def test_a_repeat_is_asked_for_after_a_first_test(clinic: Clinic) -> None:
    """Before one there is nothing to repeat."""
    marta, bea = clinic.member("Marta"), clinic.patient("bea")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    for person in (ada, bea):
        clinic.taps_unseen(marta, f"team:who:{person.conversation.id}:repeat")
    assert marta.new() == ["care.repeat.asked", "care.repeat.none"]
    assert ada.new()[-1:] == ["team.repeat"]


def test_closing_ends_watch_and_reminders_and_booking_anew_opens_again(clinic: Clinic) -> None:
    """A kind word, the booking out of the calendar, then silence until the person comes back."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("daily").types("9:00", "6")
    ada.types("book", "thursday 9:00").taps("yes")
    ada.new()
    page(marta, ada)
    marta.taps("done").taps("yes")
    assert ada.new() == ["team.done"]
    assert (ada.profile.watch, ada.profile.done_at) == (None, clinic.now)
    clinic.waits(7 * 24 * 60)
    assert ada.new() == []
    ada.types("book", "friday 9:00").taps("yes")
    assert ada.profile.done_at is None


def test_what_waits_comes_before_closing(clinic: Clinic) -> None:
    """Nobody is closed whose result is still in the inbox."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("yes")
    page(marta, ada)
    clinic.taps_unseen(marta, f"team:who:{ada.conversation.id}:done:yes")
    assert marta.new() == ["care.close.waiting"]
    assert ada.profile.done_at is None


def test_a_reference_of_nobody_tells_nothing(clinic: Clinic) -> None:
    """Neither a stranger's chat, nor a member's, nor made-up words lead to a page."""
    marta = clinic.member("Marta")
    stranger = clinic.person("stranger").opens()
    for who in (stranger.conversation.id, marta.conversation.id, "HS-99"):
        marta.types(f"person {who}")
    assert marta.new() == ["care.no-such-person"] * 3


def test_what_the_team_did_is_listed_with_when(clinic: Clinic) -> None:
    """The page tells the last things that were said to the person, by whom."""
    marta = clinic.member("Marta")
    ada = clinic.measured("ada").taps("no").taps("good").taps("none")
    clinic.taps_unseen(marta, f"team:who:{ada.conversation.id}:nudge:second")
    clinic.taps_unseen(marta, f"team:who:{ada.conversation.id}:repeat")
    assert page(marta, ada)[-3:] == ["care.person.said", *["care.person.said.line"] * 2]
