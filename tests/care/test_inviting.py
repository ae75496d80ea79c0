"""Inviting from the team's chat: made, opened, sent again, revoked, and never a name kept."""

from dataclasses import replace
from datetime import timedelta

import pytest

from bot.care.commands import typed
from bot.care.invitation import Invitation, InvitationWanted, Standing
from bot.care.invite_words import Invite, RevokeInvitation, SeeInvitations, SendAgain
from bot.care.step import Did
from bot.engine.context import Context
from bot.engine.effects import HandHandout, HandInvitation
from bot.engine.events import Event, Opened, WordsGiven
from bot.reports.presenting import present
from bot.runtime.ports import Inbound
from tests.care.clinic import Clinic
from tests.companions.people import Person

MONTH = timedelta(days=30)


def only(clinic: Clinic) -> Invitation:
    """Return the one invitation that there is."""
    (invitation,) = clinic.invitations()
    return invitation


def picture(member: Person) -> HandInvitation:
    """Return the newest picture of an invitation that somebody got."""
    return [e for e in member.got if isinstance(e, HandInvitation)][-1]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("invite", InvitationWanted()),
        ("Invite HS-1", InvitationWanted(reference="HS-1")),
        ("/invite HS-1 in Spanish", InvitationWanted(reference="HS-1", language="es")),
        (
            "invite spanish, six readings, HS-1 Note: walks, slowly",
            InvitationWanted(
                reference="HS-1", language="es", protocol="six-readings", note="walks, slowly"
            ),
        ),
        (
            "invitar HS-1 en inglés con cuatro lecturas nota usa bastón",
            InvitationWanted(
                reference="HS-1", language="en", protocol="four-readings", note="usa bastón"
            ),
        ),
        ("invite HS-1\nuses a stick", InvitationWanted(reference="HS-1", note="uses a stick")),
    ],
)
def test_an_invitation_is_typed_in_either_language(text: str, wanted: InvitationWanted) -> None:
    """Reference, language, protocol and note are understood in any order, the note last."""
    assert typed(text) == Invite(wanted)


def test_what_else_is_typed_of_invitations_is_heard() -> None:
    """The list, another link and taking one back each have words in both languages."""
    assert [typed(t) for t in ("Invitations", "invitaciones")] == [SeeInvitations()] * 2
    assert [typed(t) for t in ("resend HS-1", "reenviar HS-1")] == [SendAgain("HS-1")] * 2
    assert [typed(t) for t in ("revoke HS-1", "anular HS-1")] == [RevokeInvitation("HS-1")] * 2


def test_one_message_makes_an_invitation_that_opens_the_chat_in_its_language(
    clinic: Clinic,
) -> None:
    """The team gets code, picture and paper; the person's chat begins as the invitation says."""
    marta = clinic.member("Marta")
    marta.types("invite HS-1 spanish six note: uses a stick")
    assert marta.new() == [
        "care.invited",
        "care.invited.language",
        "care.invitation.note",
        "care.invited.code",
        "care.invited.pass-on",
    ]
    made = only(clinic)
    assert (made.note, made.made_by) == ("uses a stick", clinic.number_of("Marta"))
    assert made.expires_at == clinic.now + MONTH
    handout = next(e for e in marta.got if isinstance(e, HandHandout))
    assert (handout.language, handout.protocol.id) == ("es", "six-readings")
    ada = clinic.person("ada", "en").opens(picture(marta).code)
    assert ada.conversation.locale == "es"
    assert (ada.profile.reference, ada.profile.protocol) == ("HS-1", handout.protocol)
    opened = only(clinic)
    assert (opened.opened_at, opened.opened_by) == (clinic.now, ada.conversation.id)
    ada.types("english").opens(made.code)
    assert ada.conversation.locale == "en"  # what they chose themselves stays


def test_a_language_no_longer_on_offer_is_not_spoken(clinic: Clinic) -> None:
    """What the clinic offers when the link is opened counts before what the link names."""
    marta = clinic.member("Marta").types("invite HS-1 spanish")
    clinic.asks(replace(clinic.context, languages=("en",)))
    ada = clinic.person("ada", "en").opens(picture(marta).code)
    assert (ada.conversation.locale, ada.profile.reference) == ("en", "HS-1")


def test_picture_and_paper_are_what_they_say(clinic: Clinic) -> None:
    """The picture is a PNG with words in the person's language; the paper is a PDF."""
    marta = clinic.member("Marta")
    marta.types("invite HS-1 spanish")
    shown = present(picture(marta), "en")
    assert picture(marta).code in shown.text
    assert shown.text.startswith("Su clínica")
    assert shown.attachment is not None
    assert shown.attachment.content.startswith(b"\x89PNG")
    paper = next(e for e in marta.got if isinstance(e, HandHandout))
    whole = present(paper, "en")
    assert whole.attachment is not None
    assert whole.attachment.content.startswith(b"%PDF")
    wordy = present(replace(paper, contact="call us " * 2000), "en")
    assert wordy.attachment is None
    assert "too long" in wordy.text


def test_a_note_stays_with_the_team(clinic: Clinic) -> None:
    """No paper, picture or line of the log has the note, and no group sees it."""
    marta = clinic.member("Marta")
    marta.types("invite HS-1 note: linnet")
    papers = [e for e in marta.got if isinstance(e, HandInvitation | HandHandout)]
    assert "linnet" not in str(papers)
    assert "linnet" not in str(clinic.log())


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("invite Ada Quinn", "care.reference.name"),
        ("invite ada@example.org", "care.reference.email"),
        ("invite 1970-05-01", "care.reference.birthday"),
        ("invite HS-1 spanihs", "care.invite.unread"),
        ("invite HS-1 note: " + "x" * 201, "care.invite.note"),
        ("invite HS-1 six", "care.invite.protocol"),
        ("invite HS-1 spanish", "care.invite.language"),
    ],
)
def test_what_cannot_be_is_refused_kindly_and_not_kept(clinic: Clinic, text: str, key: str) -> None:
    """Names, and what the clinic does not offer, make no invitation and leave no trace."""
    clinic.rules = replace(clinic.rules, protocols=("four-readings",), languages=("en",))
    marta = clinic.member("Marta")
    before = clinic.log()
    marta.types(text)
    assert marta.new()[0] == key
    assert (clinic.invitations(), clinic.log()) == ((), before)


def test_a_reference_is_invited_once_however_it_is_written(clinic: Clinic) -> None:
    """HS-1 and hs-1 are one person; two made by chance are two."""
    marta = clinic.member("Marta").types("invite HS-1", "invite hs-1")
    assert marta.new()[-2:] == ["care.invite.invited", "care.invitation.today"]
    marta.types("invite", "invite")
    references = [i.reference for i in clinic.invitations()]
    assert len(set(references)) == 3


def test_another_link_ends_the_old_one(clinic: Clinic) -> None:
    """After a resend only the new code opens, for the clinic's time counted anew."""
    marta = clinic.member("Marta").types("invite HS-1")
    old = picture(marta).code
    clinic.now += timedelta(days=20)
    marta.taps("HS-1")  # the newest button with it
    assert only(clinic).standing(clinic.now) is Standing.REVOKED
    marta.types("resend HS-1")
    again = only(clinic)
    assert again.expires_at == clinic.now + MONTH
    assert "care.invited.again" in marta.new()
    eve = clinic.person("eve").opens(old)
    assert eve.new()[0] == "invitation.unknown"
    ada = clinic.person("ada").opens(again.code)
    assert ada.profile.reference == "HS-1"


def test_who_has_not_opened_theirs_is_listed_oldest_first(clinic: Clinic) -> None:
    """Waiting and run out ones stand there with their notes; opened and revoked ones do not."""
    clinic.rules = replace(clinic.rules, invitation_lasts=timedelta(days=2))
    marta = clinic.member("Marta").types("invite HS-1 note: first")
    clinic.now += timedelta(days=3)
    marta.types("invite HS-2", "invite HS-3", "invite HS-4", "revoke HS-4")
    clinic.person("ada").opens(next(i.code for i in clinic.invitations() if i.reference == "HS-3"))
    marta.new()
    marta.types("invitations")
    assert marta.new() == [
        "care.invitations",
        "care.invitation.ran-out",
        "care.invitation.note",
        "care.invitation.today",
    ]
    clinic.now += timedelta(days=1)
    marta.types("invitations")
    assert marta.new()[-1] == "care.invitation.since"


def test_an_opened_invitation_is_neither_sent_again_nor_revoked(clinic: Clinic) -> None:
    """Whoever is in the chat stays there, and their link stays their way back."""
    marta = clinic.member("Marta").types("invite HS-1")
    before = only(clinic)
    ada = clinic.person("ada").opens(before.code)
    marta.new()
    for text in ("resend HS-1", "revoke HS-1"):
        marta.types(text)
        assert marta.new() == ["care.invitation.opened", "care.invite.in-use"]
    assert only(clinic).code == before.code
    clinic.now += 2 * MONTH
    ada.opens(before.code)
    assert "invitation.unknown" not in ada.read()


def test_a_stranger_learns_nothing_from_any_code(clinic: Clinic) -> None:
    """Wrong, used, run out and revoked codes are answered with the same words, byte for byte."""
    marta = clinic.member("Marta")
    marta.types("invite HS-1", "invite HS-2", "invite HS-3", "revoke HS-2")
    codes = {i.reference: i.code for i in clinic.invitations()}
    clinic.person("ada").opens(codes["HS-3"])
    clinic.now += 2 * MONTH
    answers = []
    for name, code in enumerate(("no-such-invitation-at-all", *codes.values())):
        stranger = clinic.person(f"stranger{name}").opens(code)
        answers.append([present(e, "en").text for e in stranger.got])
    assert len(answers) == 4
    assert all(answer == answers[0] for answer in answers)
    assert "do not know" in answers[0][0]


def test_many_wrong_codes_shut_the_door_to_good_ones(clinic: Clinic) -> None:
    """A chat that has tried too many codes gets no answer about a good one either."""
    marta = clinic.member("Marta").types("invite HS-1")
    eve = clinic.person("eve")
    for number in range(clinic.rules.wrong_codes):
        eve.opens(f"no-such-invitation-{number}")
    eve.opens(picture(marta).code)
    assert eve.profile.reference is None
    assert Did.WRONG_CODES in clinic.did()
    clinic.now += clinic.rules.wrong_codes_within + timedelta(seconds=1)
    assert eve.opens(picture(marta).code).profile.reference == "HS-1"


def test_one_chat_opens_one_invitation(clinic: Clinic) -> None:
    """Two people on one phone are not mixed: the second link stays good, for another chat."""
    marta = clinic.member("Marta").types("invite HS-1", "invite HS-2")
    first, second = (i.code for i in clinic.invitations())
    ada = clinic.person("ada").opens(first)
    ada.new()
    ada.opens(second)
    assert ada.profile.reference == "HS-1"
    assert ada.new()[0] == "invitation.unknown"
    assert clinic.person("bea").opens(second).profile.reference == "HS-2"
    marta.new()
    marta.opens(second)  # a member's chat is the team's, whatever link is opened in it
    assert marta.new()[0].startswith("care.inbox")


def test_nobody_invites_in_a_group(clinic: Clinic) -> None:
    """In a room the command is refused, and the refusal is in the log."""
    room = clinic.person("room")
    joins = Opened(at=clinic.now, code=clinic.code(label="Room"))
    asks = WordsGiven(at=clinic.now, text="invite HS-1", source="1")
    events: tuple[Event, ...] = (joins, asks)
    for number, event in enumerate(events):
        clinic.conductor.handle(
            Inbound(key=f"room{number}", address=room.address, event=event, group=True)
        )
    clinic.deliver()
    assert room.new()[-1] == "care.not-in-room"
    assert (clinic.invitations(), clinic.did()[-1]) == ((), "refused")


def test_what_is_done_about_invitations_is_in_the_log(clinic: Clinic) -> None:
    """Inviting, looking, another link and revoking each leave one line with the reference."""
    marta = clinic.member("Marta")
    marta.types("invite HS-1", "invitations", "resend HS-1", "revoke HS-1", "revoke HS-1")
    lines = [(a.did.value, a.who, a.detail) for a in clinic.log()[-4:]]
    me = clinic.number_of("Marta")
    assert lines == [
        ("invited", me, "HS-1"),
        ("saw-invitations", me, None),
        ("sent-invitation-again", me, "HS-1"),
        ("revoked-invitation", me, "HS-1"),
    ]


def test_the_handout_says_what_the_clinic_has_set(clinic: Clinic) -> None:
    """Contact, number and plan for medicines come from the clinic, in the person's language."""
    context = Context(
        opening=clinic.context.opening,
        team=True,
        contact={"en": "call", "es": "llame"},
        emergency_number="555",
        medicine_plan={"es": "el plan"},
    )
    clinic.asks(context)
    marta = clinic.member("Marta").types("invite HS-1 spanish")
    (paper,) = (e for e in marta.got if isinstance(e, HandHandout))
    said = (paper.contact, paper.emergency_number, paper.medicine_plan, paper.lines)
    assert said == ("llame", "555", "el plan", context.stop_lines)
