"""What an arrival means, with what only the store knows: codes, and tests of others."""

from typing import Final

from bot.engine.dialogues.linking import code_in
from bot.engine.events import Event, Invited, Opened, WordsEdited, WordsGiven
from bot.engine.linked import LinkOpened, WordsBeside
from bot.engine.post import tested
from bot.engine.state import Conversation
from bot.engine.team import CODE
from bot.protocol.released import latest
from bot.runtime.admission import Admission, team_code_in
from bot.runtime.ports import Inbound, Stored, UnitOfWork

_SHORTEST_CODE: Final = 20
"""So many characters without a space are a code that somebody tries, and not words."""


def understood(unit: UnitOfWork, inbound: Inbound, stored: Stored, admission: Admission) -> Event:
    """Return what an arrival means, with what only the store knows: codes, others' tests.

    Of a chat that tried too many wrong codes none is looked at for a while.
    """
    event = inbound.event
    if team_code_in(event) is not None:
        # No good here. The code itself goes into no log.
        return Opened(at=event.at, code=CODE)
    match event:
        case Opened(at=at, code=str(said)) | WordsGiven(at=at, text=said) if code := code_in(said):
            shut = admission.is_shut(unit, inbound.address, at)
            link = None if shut else unit.open_link(code, at, stored.conversation.id)
            if link is not None:
                return LinkOpened(at=at, of=link.of, share=link.share, offered_at=link.made_at)
            admission.note_wrong(unit, inbound.address, at)
            return event
        case WordsGiven() | WordsEdited() if others := _beside(unit, stored):
            return WordsBeside(
                at=event.at,
                text=event.text,
                source=event.source,
                under_way=others,
                edited=isinstance(event, WordsEdited),
            )
        case _:
            return _invited(unit, inbound, stored.conversation, admission)


def _beside(unit: UnitOfWork, stored: Stored) -> tuple[str, ...]:
    """Return whose tests are under way that somebody stands by for, who does none now."""
    if tested(stored.conversation):
        return ()
    people = [p.id for p in stored.conversation.profile.accompanies]
    loaded = [unit.load_by_id(person) for person in people]
    return tuple(o.conversation.id for o in loaded if o and tested(o.conversation))


def _invited(
    unit: UnitOfWork, inbound: Inbound, before: Conversation, admission: Admission
) -> Event:
    """Turn an invitation's code, carried by a link or typed, into what it means."""
    match inbound.event:
        case Opened(at=at, code=str(code)):
            pass
        case WordsGiven(at=at, text=text) if before.profile.reference is None:
            code = text.strip()
            if not _is_one_word(code):
                return inbound.event  # no code: neither a link nor a command could carry it
        case event:
            return event
    shut = admission.is_shut(unit, inbound.address, at)
    invitation = None if shut else unit.invitation(code, at, inbound.address)
    if invitation is None:
        if isinstance(inbound.event, Opened) or _looks_like_code(code):
            admission.note_wrong(unit, inbound.address, at)
        return inbound.event
    protocol = latest(invitation.protocol) if invitation.protocol else None
    return Invited(
        at=at,
        reference=invitation.reference,
        protocol=protocol,
        language=invitation.language,
    )


def _looks_like_code(text: str) -> bool:
    return len(text) >= _SHORTEST_CODE and _is_one_word(text)


def _is_one_word(text: str) -> bool:
    return text.split(maxsplit=1) == [text]
