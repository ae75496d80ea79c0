"""The words of a message that say nothing of a reading."""

from collections.abc import Iterable

from bot.readings.pieces import Piece
from bot.readings.tokens import Token


def unused(
    text: str, tokens: tuple[Token, ...], soft: frozenset[int], pieces: Iterable[Piece]
) -> str:
    """Return the words that were not used, as typed, without what says nothing at their ends.

    Args:
        text: The message.
        tokens: Its tokens.
        soft: Those that say nothing by themselves.
        pieces: What was used of it.
    """
    used = {index for piece in pieces for index in range(piece.first, piece.last + 1)}
    kept: list[str] = []
    run: list[int] = []
    for index in range(len(tokens) + 1):
        if index < len(tokens) and index not in used:
            run.append(index)
            continue
        hard = [position for position in run if position not in soft]
        if hard:
            kept.append(text[tokens[hard[0]].start : tokens[hard[-1]].end])
        run = []
    return " ".join(kept)
