"""What an arrival means, with what only the store knows: codes, and tests of others."""

from bot.engine.dialogues.linking import code_in
from bot.engine.events import Event, Invited, Opened, WordsEdited, WordsGiven
from bot.engine.linked import LinkOpened, WordsBeside
from bot.engine.post import tested
from bot.engine.state import Conversation
from bot.engine.team import CODE
from bot.protocol.released import latest
from bot.runtime.admission import team_code_in
from bot.runtime.ports import Inbound, Stored, UnitOfWork


def understood(unit: UnitOfWork, inbound: Inbound, stored: Stored) -> Event:
    """Return what an arrival means, with what only the store knows: codes, others' tests."""
    event = inbound.event
    if team_code_in(event) is not None:
        # No good here. The code itself goes into no log.
        return Opened(at=event.at, code=CODE)
    match event:
        case Opened(at=at, code=str(said)) | WordsGiven(at=at, text=said) if code := code_in(said):
            link = unit.open_link(code, at, stored.conversation.id)
            if link is None:
                return event
            return LinkOpened(at=at, of=link.of, share=link.share, offered_at=link.made_at)
        case WordsGiven() | WordsEdited() if others := _beside(unit, stored):
            return WordsBeside(
                at=event.at,
                text=event.text,
                source=event.source,
                under_way=others,
                edited=isinstance(event, WordsEdited),
            )
        case _:
            return _invited(unit, inbound, stored.conversation)


def _beside(unit: UnitOfWork, stored: Stored) -> tuple[str, ...]:
    """Return whose tests are under way that somebody stands by for, who does none now."""
    if tested(stored.conversation):
        return ()
    people = [p.id for p in stored.conversation.profile.accompanies]
    loaded = [unit.load_by_id(person) for person in people]
    return tuple(o.conversation.id for o in loaded if o and tested(o.conversation))


def _invited(unit: UnitOfWork, inbound: Inbound, before: Conversation) -> Event:
    """Turn an invitation's code, carried by a link or typed, into what it means."""
    match inbound.event:
        case Opened(at=at, code=str(code)):
            pass
        case WordsGiven(at=at, text=text) if before.profile.reference is None:
            code = text.strip()
        case event:
            return event
    invitation = unit.invitation(code, at, inbound.address)
    if invitation is None:
        return inbound.event
    protocol = latest(invitation.protocol) if invitation.protocol else None
    return Invited(at=at, reference=invitation.reference, protocol=protocol)
