"""What a language brings: its phrases, and the words that put them in doubt.

A phrase is a line of slots with spaces between them (a line that begins with `|` or `~` goes on);
`a|b` is either word, `<name>` any of a group. Between two slots up to three small words may stand,
and with `~` up to six words of which three may be other than small. Words stand folded: lower case,
no accents, no apostrophes. Every word may come misspelt.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from bot.distress.heard import Kind


def words(listed: str) -> frozenset[str]:
    """Return the words of a list with spaces between them."""
    return frozenset(listed.split())


@dataclass(frozen=True, slots=True, kw_only=True)
class Language:
    """The words of one language.

    Attributes:
        groups: Words that stand for one another in a phrase, by name.
        phrases: What is listened for, one phrase a line.
        unclear: The same, where the words may mean something harmless as well.
        whole: Phrases that count only as a whole message, as `unclear` ones.
        leaving: Whole messages by which somebody only goes; they are no call.
        harmless: Phrases that take their words away from any other.
        hazy: Phrases that put in doubt any other that shares a word with them.
        unwell: Phrases that say a person is not all right.
        twins: Two words or more that are one.
        sounds: Spellings that sound alike, applied in order.
        small: Words that may stand between the slots of a phrase.
        bridges: Words that carry a denial or a condition on to a phrase.
        negations: Words that deny.
        interjections: Negations that deny nothing before one of `subjects`.
        lists: Words that carry a denial on to the next thing denied.
        subjects: Words that begin a new statement.
        ends: What denies a phrase when it is the last word after it.
        pasts: Phrases of a past time.
        presents: Words of the present, which outweigh a past time.
        ages: Words before a past time that make it last until now.
        habits: Words of what happens often.
        others: Other people.
        kin: Those among them who are likely to be the one that the writer is with.
        others_before: What must stand before one of `others`.
        others_now: Words that say that the other one needs help now.
        firsts: Words of the writer.
        conditions: Words before what is only supposed.
        questions: Word pairs that ask.
        openers: Words that open a question.
        pleas_asked: Words after an opener that make the question a plea.
        ordinary: Everyday words that look like one listened for, and are not.
    """

    groups: Mapping[str, str]
    phrases: Mapping[Kind, str]
    unclear: Mapping[Kind, str]
    whole: Mapping[Kind, str]
    leaving: frozenset[str]
    harmless: str
    hazy: str
    unwell: str
    twins: Mapping[tuple[str, ...], str]
    sounds: tuple[tuple[str, str], ...]
    small: frozenset[str]
    bridges: frozenset[str]
    negations: frozenset[str]
    interjections: frozenset[str]
    lists: frozenset[str]
    subjects: frozenset[str]
    ends: frozenset[str]
    pasts: str
    presents: frozenset[str]
    ages: frozenset[str]
    habits: frozenset[str]
    others: frozenset[str]
    kin: frozenset[str]
    others_before: frozenset[str]
    others_now: frozenset[str]
    firsts: frozenset[str]
    conditions: frozenset[str]
    questions: frozenset[tuple[str, str]]
    openers: frozenset[str]
    pleas_asked: frozenset[str]
    ordinary: frozenset[str]
