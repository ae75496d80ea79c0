"""What the operator does about invitations: one, many, who waits, another link, none."""

import csv
import io
import os
import zipfile
from collections.abc import Callable, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Final

from segno import DataOverflowError

from bot.bootstrap import clock_in, context_from, rules_from, store_for
from bot.care import inviting
from bot.care.invitation import Invitation, InvitationWanted, Standing, Unwanted, unwanted
from bot.care.invite_rows import Table, read_rows
from bot.care.references import fault_of, same
from bot.care.step import OPERATOR, Audit, Did, Sheet
from bot.engine.effects import Day, HandHandout, Param
from bot.errors import SettingsError
from bot.reports.invitation import paper, picture
from bot.reports.sheet import inert
from bot.reports.typesetting import TooLongError
from bot.runtime.conductor import new_code
from bot.runtime.inviting import Inviting
from bot.settings import Settings
from bot.texts import render

LIST: Final = "invitations.csv"
"""The table in a file of many invitations."""

_COLUMNS: Final = (
    *("reference", "language", "protocol", "code", "link", "good_until", "message"),
    *("picture", "handout"),
)

Progress = Callable[[int], None]
"""Told how many more are done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """An invitation and what opens it."""

    invitation: Invitation
    link: str
    handout: HandHandout


class Invitations:
    """The invitations of one clinic, for its operator."""

    def __init__(self, settings: Settings) -> None:
        """Take the settings.

        Raises:
            SettingsError: A setting cannot be used.
        """
        self._settings = settings
        self._context = context_from(settings)()
        self._rules = rules_from(settings)()
        self._inviting = Inviting(lambda: self._rules, new_code)

    def invite(self, wanted: InvitationWanted, handout: Path | None = None) -> Made:
        """Put down an invitation, and write its handout if a file for it is named.

        Raises:
            SettingsError: What is wanted cannot be, or the handout cannot be written.
            DatabaseError: The reference was invited before.
        """
        if wanted.reference is not None and fault_of(wanted.reference) is not None:
            raise SettingsError(
                "A reference is never a name, an address, a number to call or a day of birth. Use "
                "letters, digits, - and _, with a digit among them and no more than four letters "
                "in a row, like HS-0042."
            )
        lacks = unwanted(wanted, self._rules)
        if Unwanted.NOTE in lacks:
            raise SettingsError("The note is too long. Say it in fewer words.")
        if lacks:
            offers = {
                Unwanted.PROTOCOL: self._rules.protocols,
                Unwanted.LANGUAGE: self._rules.languages,
            }
            said = (
                f"The clinic does not offer this {what}. Use {' or '.join(offers[what])}."
                for what in lacks
            )
            raise SettingsError(" ".join(said))
        at = self._now()
        with closing(store_for(self._settings)) as store:
            with store.unit() as unit:
                taken = unit.care.invitations()
            before = None if wanted.reference is None else same(wanted.reference, taken)
            if before is not None:
                raise SettingsError(
                    f"{before.reference} was invited before. For another link: "
                    f"wallside invite resend {before.reference}"
                )
            made = self._made(self._inviting.drawn((wanted,), taken, at=at)[0])
            if handout is not None:
                _write(handout, _typeset(made.handout))
            with store.unit() as unit:
                unit.care.hold()
                self._inviting.put_down(unit, (made.invitation,), at)
        return made

    def read(self, content: bytes) -> Table:
        """Return what a table asks for, or what is wrong with it."""
        with closing(store_for(self._settings)) as store, store.unit() as unit:
            return read_rows(content, self._rules, unit.care.invitations())

    def invite_all(
        self,
        wanted: Sequence[InvitationWanted],
        out: Path,
        *,
        handouts: bool = True,
        progress: Progress = lambda _: None,
    ) -> tuple[Made, ...]:
        """Put down many invitations and write a file with all of them; or do nothing at all.

        The file is ready before anything is put down, and gets its name only afterwards.

        Args:
            wanted: What `read` has returned.
            out: A zip file, or a CSV file for the table alone. Only its owner can read it.
            handouts: Whether the zip file holds the handouts as well; they take a while.
            progress: Told how far it is.

        Raises:
            SettingsError: The file is there already, or cannot be written.
            DatabaseError: A reference was invited meanwhile.
        """
        if out.exists():
            raise SettingsError(f"There is a file {out} already; name another with --out.")
        at = self._now()
        beside = out.with_name(out.name + ".part")
        with closing(store_for(self._settings)) as store:
            with store.unit() as unit:
                taken = unit.care.invitations()
            made = tuple(self._made(i) for i in self._inviting.drawn(wanted, taken, at=at))
            try:
                only_mine = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
                with os.fdopen(only_mine, "wb") as file:
                    alone = out.suffix.lower() == ".csv"
                    file.write(
                        _table(made) if alone else _packed(made, at, progress, handouts=handouts)
                    )
                with store.unit() as unit:
                    unit.care.hold()
                    self._inviting.put_down(unit, (m.invitation for m in made), at)
                beside.rename(out)
            except OSError as error:
                raise SettingsError(
                    f"{out} cannot be written: {error.strerror}. Name another with --out."
                ) from error
            finally:
                with suppress(OSError):
                    beside.unlink(missing_ok=True)
        return made

    def every(self) -> tuple[tuple[Invitation, Standing, int], ...]:
        """Return all invitations with where each stands, and how many days ago it was made."""
        at = self._now()
        with closing(store_for(self._settings)) as store, store.unit() as unit:
            found = unit.care.invitations()
            unit.care.note((Audit(who=OPERATOR, did=Did.SAW_INVITATIONS),), at)
        return tuple((i, i.standing(at), inviting.days_ago(i, self._rules, at)) for i in found)

    def send_again(self, reference: str, handout: Path | None = None) -> Made | None:
        """Give an invitation another code; `None` if there is none of that reference.

        Raises:
            SettingsError: It was opened, or the handout cannot be written.
        """
        at = self._now()
        with closing(store_for(self._settings)) as store, store.unit() as unit:
            unit.care.hold()
            found = self._unopened(same(reference, unit.care.invitations()), at)
            if found is None:
                return None
            made = self._made(self._inviting.send_again(unit, found, at))
            if handout is not None:
                _write(handout, _typeset(made.handout))
            return made

    def revoke(self, reference: str) -> Invitation | None:
        """Let an invitation open nothing any more; `None` if there is none of that reference.

        Raises:
            SettingsError: It was opened.
        """
        at = self._now()
        with closing(store_for(self._settings)) as store, store.unit() as unit:
            unit.care.hold()
            found = self._unopened(same(reference, unit.care.invitations()), at)
            if found is None or found.revoked_at is not None:
                return found
            revoked = replace(found, revoked_at=at)
            unit.care.save_invitation(revoked)
            detail = revoked.reference
            line = Audit(who=OPERATOR, did=Did.REVOKED_INVITATION, detail=detail)
            unit.care.note((line,), at)
            return revoked

    def _unopened(self, found: Invitation | None, at: datetime) -> Invitation | None:
        if found is not None and found.standing(at) is Standing.OPENED:
            raise SettingsError(
                f"The invitation of {found.reference} was opened: the person is in the chat. "
                "Nothing is changed."
            )
        return found

    def _made(self, invitation: Invitation) -> Made:
        link = f"https://t.me/{self._bot_name()}?start={invitation.code}"
        given = inviting.handed(
            invitation, OPERATOR, link, rules=self._rules, context=self._context
        )
        handout = next(
            s.effect for s in given if isinstance(s, Sheet) and isinstance(s.effect, HandHandout)
        )
        return Made(invitation=invitation, link=link, handout=handout)

    def _bot_name(self) -> str:
        if not self._settings.bot_name:
            raise SettingsError(
                "Set WALLSIDE_BOT_NAME to the bot's name on Telegram, without the @."
            )
        return self._settings.bot_name

    def _now(self) -> datetime:
        return clock_in(self._settings.folder, self._settings.speed).now()


def _typeset(handout: HandHandout) -> bytes:
    try:
        return paper(handout).content
    except (TooLongError, DataOverflowError):
        raise SettingsError(
            "The handout is too long for two pages. Make the clinic's contact or its medicine plan "
            "shorter."
        ) from None


def _write(path: Path, content: bytes) -> None:
    try:
        path.write_bytes(content)
    except OSError as error:
        raise SettingsError(f"{path} cannot be written: {error.strerror}.") from error


def _packed(made: Sequence[Made], at: datetime, progress: Progress, *, handouts: bool) -> bytes:
    """Return a zip file: the table, a folder of pictures, and one of handouts."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:

        def put(name: str, content: bytes) -> None:
            entry = zipfile.ZipInfo(name, at.timetuple()[:6])
            entry.external_attr = 0o600 << 16
            packed.writestr(entry, content, zipfile.ZIP_DEFLATED)

        put(LIST, _table(made, pictures=True, handouts=handouts))
        for one in made:
            reference = one.invitation.reference
            put(f"pictures/{reference}.png", picture(reference, one.link).content)
            if handouts:
                put(f"handouts/{reference}.pdf", _typeset(one.handout))
            progress(1)
    return out.getvalue()


def _message(made: Made) -> str:
    """Return the words to pass on, in the language of the person invited, on one line."""
    params: dict[str, Param] = {"link": made.link, "day": Day(made.handout.good_until)}
    words = render("invitation.to-open", params, made.handout.language)
    return " ".join(words.split())


def _table(made: Sequence[Made], *, pictures: bool = False, handouts: bool = False) -> bytes:
    """Return the table as spreadsheets like it; no cell of it is run as a formula."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(_COLUMNS)
    for one in made:
        invitation = one.invitation
        cells = (
            invitation.reference,
            invitation.language,
            invitation.protocol,
            invitation.code,
            one.link,
            one.handout.good_until.isoformat(),
            _message(one),
            f"pictures/{invitation.reference}.png" if pictures else None,
            f"handouts/{invitation.reference}.pdf" if handouts else None,
        )
        writer.writerow([inert(cell) for cell in cells])
    return out.getvalue().encode("utf-8-sig")
