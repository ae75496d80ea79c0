"""Sealed conversations and items, opened once for as long as they are as they were."""

from sqlalchemy import Connection

from bot.care.board import PersonFacts, facts_of
from bot.care.items import Item
from bot.engine.state import Conversation
from bot.store.codec import decode_conversation, decode_item
from bot.store.prepared import Row
from bot.store.vault import vault_of


def sealed_conversation(connection: Connection, conversation: Conversation, text: str) -> str:
    """Return a conversation sealed, for a column that is written as it is given.

    Args:
        connection: The unit's.
        conversation: It.
        text: What the codec makes of it.
    """
    vault = vault_of(connection.dialect)
    sealed = vault.seal(text)
    vault.conversations.put(sealed, conversation)
    return sealed


def opened_conversation(connection: Connection, sealed: str) -> Conversation:
    """Return the conversation that a sealed text holds.

    Raises:
        DatabaseError: None of the keys opens it.
    """
    vault = vault_of(connection.dialect)
    known: Conversation | None = vault.conversations.get(sealed)
    if known is not None:
        return known
    conversation = decode_conversation(vault.unseal(sealed))
    vault.conversations.put(sealed, conversation)
    return conversation


def opened_facts(connection: Connection, row: Row) -> PersonFacts:
    """Return what the board needs of a conversation by itself.

    Kept apart from the conversations themselves: a board reads everybody's, one after the other,
    which would push out those that are at work.

    Args:
        connection: The unit's.
        row: Its sealed state and when it began.

    Raises:
        DatabaseError: None of the keys opens it.
    """
    vault = vault_of(connection.dialect)
    known: PersonFacts | None = vault.facts.get(row["state"])
    if known is None:
        conversation: Conversation = vault.conversations.get(row["state"]) or decode_conversation(
            vault.unseal(row["state"])
        )
        known = vault.facts.put(row["state"], facts_of(conversation, (), opened_at=row["began_at"]))
    return known


def opened_item(connection: Connection, row: Row) -> Item:
    """Return the item that a row holds with its state sealed.

    Raises:
        DatabaseError: None of the keys opens it.
    """
    vault, beside = vault_of(connection.dialect), (row["number"], row["revision"])
    known: Item | None = vault.items.get(row["state"], *beside)
    if known is not None:
        return known
    item = decode_item(vault.unseal(row["state"]), number=beside[0], revision=beside[1])
    vault.items.put(row["state"], item, *beside)
    return item
