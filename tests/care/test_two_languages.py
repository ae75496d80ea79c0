"""A person who reads Spanish, and a team that reads English and Spanish: each their own."""

from datetime import timedelta

from bot.engine.effects import Form, Hand
from bot.reports import summarise
from bot.reports.presenting import present
from bot.runtime.ports import Bubble, Parcel, Sent
from bot.texts import render
from tests.care.clinic import Clinic
from tests.companions.people import Person
from tests.exporting.looking import texts

_LEASE = timedelta(minutes=1)


def delivered(clinic: Clinic) -> dict[str, list[Parcel]]:
    """Deliver what waits as the courier does, with each chat's language; returns it by address."""
    found: dict[str, list[Parcel]] = {}
    while (parcel := clinic.store.claim_parcel(clinic.now, _LEASE)) is not None:
        clinic.store.settle(parcel, Sent(str(parcel.id)), clinic.now)
        found.setdefault(parcel.address, []).append(parcel)
        clinic.people[parcel.address].got.append(parcel.effect)
    return found


def said(got: dict[str, list[Parcel]], person: Person) -> str:
    """Return all words that reached somebody, results left out."""
    return "\n".join(
        present(parcel.effect, parcel.locale).text
        for parcel in got.get(person.address, [])
        if not isinstance(parcel.effect, Hand)
    )


def paper(got: dict[str, list[Parcel]], person: Person, form: Form) -> Bubble:
    """Return a result that reached somebody, in a form."""
    (found,) = (
        parcel
        for parcel in got[person.address]
        if isinstance(parcel.effect, Hand) and parcel.effect.form is form
    )
    return present(found.effect, found.locale)


def test_each_reads_their_own_language_from_the_result_to_what_follows(clinic: Clinic) -> None:
    """Item, summary and files for the team in the member's language, all else in the person's."""
    marta = clinic.member("Marta")
    luis = clinic.member("Luis", language="es")
    ada = clinic.measured("ada", "98 62 pulso 90", language="es", reference="HS-0042")
    clinic.hold()
    ada.taps("yes")
    got = delivered(clinic)
    assert "HS-0042, test 1: soon – pressure fell on standing" in said(got, marta)
    assert "HS-0042, prueba 1: pronto" in said(got, luis)
    assert "Ya lo envié" in said(got, ada)

    marta.types("open 1")
    luis.types("abrir 1")
    got = delivered(clinic)
    record = clinic.store.results(ada.conversation.id)[0]
    for member, language in ((marta, "en"), (luis, "es")):
        assert paper(got, member, Form.SUMMARY).text == summarise(record, language)
        page = paper(got, member, Form.PDF).attachment
        assert page is not None
        words = "".join(texts(page.content))
        assert [render("files.page.symptoms", {}, code) in words for code in ("en", "es")] == [
            language == "en",
            language == "es",
        ]

    marta.types("take 1", "close 1")
    delivered(clinic)
    marta.taps("call")
    got = delivered(clinic)
    assert "Su equipo médico" in said(got, ada)
    assert "We call them" in said(got, marta)
