"""The board: where each person stands on the way from invitation to follow-up, and since when.

Worked out from facts that are kept anyway: nothing is counted up, so no count can go wrong. Each
person stands at the last place before the first gap. So the places part all people among them, and
whoever stands somewhere misses just the next one: a person whose first result was followed up and
who has done no second test stands at the first test.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from itertools import pairwise
from typing import Final

from bot.booking.plan import Booking
from bot.care.items import Closing, Item
from bot.engine.dialogues.standing import booking_of
from bot.engine.profile import TestNote
from bot.engine.state import Conversation


class Place(StrEnum):
    """Where somebody stands, in order."""

    INVITED = "invited"
    OPENED = "opened"
    CONSENTED = "consented"
    BOOKED = "booked"
    FIRST_TEST = "first-test"
    SECOND_TEST = "second-test"
    SENT = "sent"
    SEEN = "seen"
    FOLLOWED_UP = "followed-up"
    DONE = "done"  # the team has closed them; nothing is missing any more


MOVING: Final = tuple(place for place in Place if place not in (Place.FOLLOWED_UP, Place.DONE))
"""The places at which something is still to come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonFacts:
    """What is known of one person that says where they stand.

    Attributes:
        reference: What the team calls them.
        id: Their conversation; `None` while they have not opened it.
        invited_at: When they were invited; `None` for whoever came without an invitation.
        opened_at: When their conversation began.
        consented_at: When they agreed.
        booking: The booking that stands.
        tests: Their tests that have ended.
        items: What the team has, or had, in its inbox of them.
        held: Whether the checklist holds them back until the team clears them.
        paused: Whether they want no reminders.
        done_at: When the team closed them.
        blocked_at: Since when nothing reaches them, since they have blocked the bot.
    """

    reference: str
    id: str | None = None
    invited_at: datetime | None = None
    opened_at: datetime | None = None
    consented_at: datetime | None = None
    booking: Booking | None = None
    tests: tuple[TestNote, ...] = ()
    items: tuple[Item, ...] = ()
    held: bool = False
    paused: bool = False
    done_at: datetime | None = None
    blocked_at: datetime | None = None

    @property
    def is_on_board(self) -> bool:
        """Whether they are the clinic's: invited, or agreed; no passer-by and no companion is."""
        return self.invited_at is not None or self.consented_at is not None

    @property
    def measured(self) -> tuple[TestNote, ...]:
        """Their tests with at least one reading, oldest first."""
        return tuple(test for test in self.tests if test.measured)

    @property
    def took_back(self) -> bool:
        """Whether their latest test was with the team, and they have taken it back."""
        latest = self.measured[-1] if self.measured else None
        item = None if latest is None or latest.shared else _item_of(self, latest)
        return item is not None and item.closing is Closing.TAKEN_BACK

    @property
    def open_items(self) -> tuple[Item, ...]:
        """What still waits in the inbox."""
        return tuple(item for item in self.items if item.is_open)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where one person stands.

    Attributes:
        facts: Theirs.
        place: The last place before the first gap.
        since: Since when.
        reached: Every place they have reached, beyond a gap as well.
    """

    facts: PersonFacts
    place: Place
    since: datetime
    reached: frozenset[Place]

    def waits_since(self, at: datetime) -> datetime | None:
        """Return since when the next place is missing; `None` where nothing is to come by now.

        Somebody with a booking waits from its time on.
        """
        if self.place not in MOVING:
            return None
        booking = self.facts.booking
        if booking is not None and self.place in (Place.BOOKED, Place.FIRST_TEST):
            return booking.at if booking.at < at else None
        return self.since

    def waited(self, at: datetime) -> timedelta:
        """Return how long the next place has been missing."""
        since = self.waits_since(at)
        return timedelta() if since is None else at - since


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """One line of the board.

    Attributes:
        here: How many stand there now.
        reached: How many have come so far, those beyond included.
        longest: How long the one has waited who waits longest there; `None` if nobody waits.
    """

    here: int
    reached: int
    longest: timedelta | None


def facts_of(
    conversation: Conversation,
    items: tuple[Item, ...],
    *,
    opened_at: datetime,
    reference: str | None = None,
    invited_at: datetime | None = None,
) -> PersonFacts:
    """Return what the board needs of somebody who has opened their conversation."""
    profile = conversation.profile
    return PersonFacts(
        reference=reference or profile.reference or conversation.id[:8],
        id=conversation.id,
        invited_at=invited_at,
        opened_at=opened_at,
        consented_at=profile.consented_at,
        booking=booking_of(conversation.stage) or booking_of(conversation.resumes),
        tests=profile.tests,
        items=items,
        held=bool(profile.hazards) and not profile.suitable,
        paused=profile.paused,
        done_at=profile.done_at,
        blocked_at=conversation.blocked_at,
    )


def stand(facts: PersonFacts) -> Standing:
    """Return where a person stands."""
    found = dict(_reached(facts))
    reached = frozenset(place for place, at in found.items() if at is not None)
    place = next(iter(found))
    if Place.DONE in reached:
        place = Place.DONE
    else:
        for before, after in pairwise(found):
            place = before
            if found[after] is None:
                break
    since = found[place]
    assert since is not None
    return Standing(facts=facts, place=place, since=since, reached=reached)


def _reached(facts: PersonFacts) -> Iterator[tuple[Place, datetime | None]]:
    """Yield every place with since when it is reached, in order; `None` for a gap."""
    tests = facts.measured
    first = tests[0].began_at if tests else None
    if facts.invited_at is not None:
        yield Place.INVITED, facts.invited_at
    if facts.opened_at is not None or facts.invited_at is not None:
        yield Place.OPENED, facts.opened_at
    yield Place.CONSENTED, facts.consented_at
    yield Place.BOOKED, facts.booking.booked_at if facts.booking is not None else first
    yield Place.FIRST_TEST, first
    yield Place.SECOND_TEST, tests[1].began_at if len(tests) > 1 else None
    latest = tests[-1] if tests and tests[-1].shared else None
    item = None if latest is None else _item_of(facts, latest)
    yield Place.SENT, None if latest is None else item.opened_at if item else latest.began_at
    yield Place.SEEN, None if latest is None else _seen_at(item, latest)
    yield Place.FOLLOWED_UP, None if latest is None else _followed_up_at(item, latest)
    yield Place.DONE, facts.done_at


def _item_of(facts: PersonFacts, test: TestNote) -> Item | None:
    """Return the newest item of a test; `None` once it was closed so long ago that it is gone."""
    return next((item for item in reversed(facts.items) if item.test == test.number), None)


def _seen_at(item: Item | None, test: TestNote) -> datetime | None:
    return test.began_at if item is None else item.taken_at


def _followed_up_at(item: Item | None, test: TestNote) -> datetime | None:
    if item is None:
        return test.began_at
    return item.closed_at if item.closing is Closing.FOLLOWED_UP else None


def out_of_reach(standings: Iterable[Standing]) -> tuple[Standing, ...]:
    """Return who has blocked the bot, as far as something is still to come of them."""
    return tuple(s for s in standings if s.facts.blocked_at is not None and s.place in MOVING)


def counts(standings: Iterable[Standing], at: datetime) -> Mapping[Place, Count]:
    """Return the board: for every place how many are there, have come so far, and wait."""
    everybody = tuple(standings)
    return {place: _count(place, everybody, at) for place in Place}


def _count(place: Place, everybody: tuple[Standing, ...], at: datetime) -> Count:
    here = [s for s in everybody if s.place is place]
    waiting = [s.waited(at) for s in here if s.waits_since(at) is not None]
    return Count(
        here=len(here),
        reached=sum(1 for s in everybody if place in s.reached),
        longest=max(waiting, default=None),
    )


def stuck(standings: Iterable[Standing], place: Place, at: datetime) -> tuple[Standing, ...]:
    """Return who waits at a place, the longest first; paused people last, who asked for rest."""
    here = [s for s in standings if s.place is place and s.waits_since(at) is not None]
    return tuple(sorted(here, key=lambda s: (s.facts.paused, -s.waited(at), s.facts.reference)))
