"""A clinic's virtual weeks: people who come, agree, book, test, pause, block the bot and vanish.

Their team works beside them. Everything goes through the real conductor and a real store; only the
clock is not waited for, and nobody carries messages but this town. Whatever chance decides comes
from one seed.
"""

import heapq
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import count
from random import Random

from sqlalchemy import literal_column, select, update

from bot.care.board import Place, Standing, stand, stuck
from bot.care.invitation import Invitation
from bot.care.overview import NUDGES
from bot.care.roles import Role
from bot.care.rules import CareRules
from bot.engine.context import Context, Opening
from bot.engine.effects import Outgoing, Revise, Say
from bot.engine.events import (
    Blocked,
    ChoiceTapped,
    Event,
    Failure,
    Opened,
    Unblocked,
    WordsGiven,
)
from bot.runtime.conductor import Conductor, Step
from bot.runtime.ports import Inbound
from bot.store.codec import decode_outgoing
from bot.store.sql import SqlStore
from bot.store.statements import CONVERSATION, OUTBOX, SENT, WAITING
from bot.texts import language_for

STARTS = datetime(2026, 3, 2, 0, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
Doing = Iterator[tuple[float, str]]
"""What somebody does: minutes to wait, and then what they type."""

_WAITS = OUTBOX.c.fate == literal_column(f"'{WAITING}'")  # as its index is written
_WAITING = (
    select(CONVERSATION.c.address, OUTBOX.c.conversation_id, OUTBOX.c.effect)
    .select_from(OUTBOX.join(CONVERSATION))
    .where(_WAITS)
    .order_by(OUTBOX.c.id + literal_column("0"))  # the index of those that wait is to find them
)
_SENT = update(OUTBOX).where(_WAITS).values(fate=SENT)


@dataclass(slots=True)
class Somebody:
    """One person, or one of the team, in a chat of their own; `blocked` if it takes no message."""

    address: str
    language: str
    doing: Doing
    answers: Callable[["Somebody", str], Doing | None]
    code: str | None = None
    typed: int = 0
    busy: int = 0
    blocked: bool = False


@dataclass(slots=True)
class Weeks:
    """What a stretch of time came to.

    Attributes:
        events: What people and members did.
        alarms: Alarms that rang.
        messages: Messages that went out.
        refused: Messages that a blocked chat did not take.
        keys: How often each paragraph was said.
    """

    events: int = 0
    alarms: int = 0
    messages: int = 0
    refused: int = 0
    keys: Counter[str] = field(default_factory=Counter)


class Month:
    """The clinic, its people and its team over some days."""

    def __init__(self, store: SqlStore, *, people: int, members: int, days: int, seed: int) -> None:
        self.store = store
        self.context = Context(opening=Opening.FULL, team=True)
        self.rules = CareRules(zone="Europe/Madrid")
        self.now = STARTS
        self.weeks = Weeks()
        self._chance = Random(seed)
        self._tired = Random(seed + 1)
        self._ends = STARTS + timedelta(days=days)
        self._days = days
        names, codes = count(), count()
        self.conductor = Conductor(
            store,
            self.context,
            new_id=lambda: f"c{next(names):05}",
            language_for=language_for,
            new_code=lambda: f"{next(codes):032}",
            rules=lambda: self.rules,
        )
        self._order, self._keys = count(), count()
        self._queue: list[tuple[datetime, int, Somebody | str, str | None, Doing | None]] = []
        self._wakes: dict[str, datetime] = {}
        self._chats: dict[str, Somebody] = {}
        for number in range(members):
            self._joins(number)
        for number in range(people):
            self._comes(number)

    # -- who comes

    def _joins(self, number: int) -> None:
        code = self.conductor.admit(Role.COORDINATOR, f"Member {number}", self.now)
        member = self._chat(f"m:{number}", "en" if number % 2 else "es", self._works(number))
        member.code = code
        self._does(member, STARTS + number * MINUTE)

    def _comes(self, number: int) -> None:
        day = self._chance.uniform(0, self._days * 0.6)
        made = STARTS + timedelta(days=day)
        code = f"invitation-{number:026}"
        self.store.invite(
            Invitation(
                code=code,
                reference=f"HS-{number:04}",
                protocol=None,
                language=None,
                made_at=made,
                expires_at=made + timedelta(days=60),
            )
        )
        person = self._chat(f"p:{number}", self._chance.choice(("en", "es")), self._lives())
        person.code = code
        if self._chance.random() < 0.9:
            self._does(person, made + timedelta(hours=self._chance.uniform(1, 48)))

    def _chat(self, address: str, language: str, doing: Doing) -> Somebody:
        answers = self._replies if address.startswith("p:") else _nothing
        self._chats[address] = Somebody(address, language, doing, answers)
        return self._chats[address]

    # -- what a person does

    def _lives(self) -> Doing:
        """Agree, answer what is asked, and perhaps book."""
        chance = self._chance
        if chance.random() < 0.06:
            return  # opens, and agrees to nothing
        yield 2, "I agree"
        for words in ("34", "Madrid"):
            yield 1, words
        if chance.random() < 0.05:
            return  # leaves in the middle of the questions
        ill = chance.random() < 0.03
        if ill:
            yield 1, "I am pregnant"
        yield 1, "done" if ill else "none"
        if ill:
            return
        for words in ("none", "upper arm", "cuff", "124/76 72"):
            yield 1, words
        if chance.random() < 0.8:
            yield from self._books()
        if chance.random() < 0.05:
            yield 600, "pause"

    def _books(self) -> Doing:
        yield 2, self._chance.choice(("tomorrow 9:00", "in 2 days 9:00", "tomorrow 10:30"))
        yield 1, "yes"

    def _tests(self) -> Doing:
        """Do a test from the audit on, and say what follows of it."""
        chance = self._chance
        yield 1, "none"
        yield 2, "ready"
        lying = chance.randint(60, 80)
        top = chance.randint(110, 130)
        yield 1, "lying"
        yield 5.2, f"{top}/76 {lying}"
        yield 1, "sitting"
        yield 5.2, f"{top - 2}/76 {lying + 3}"
        yield 1, "standing"
        yield 2.1, "ok"
        if chance.random() < 0.05:
            yield 1, "stop"
            yield 1, "faint"
            yield 5, "better"
            return
        risen = lying + chance.choice((8, 14, 22, 33, 38))
        fallen = top - chance.choice((0, 4, 8, 12, 22))
        yield 3.1, f"{fallen}/72 {risen}"
        yield 2, "ok"
        yield 3.1, f"{fallen + 1}/72 {risen + 1}"
        yield 1, chance.choice(("yes, send it", "yes, send it", "always send", "do not send"))
        yield 1, chance.choice(("a good day", "a bad day"))
        if chance.random() < 0.6:
            yield 1, "ask me once a day"
            yield 1, "9:00"
            yield 1, "6"
        else:
            yield 1, "no"

    def _replies(self, person: Somebody, key: str) -> Doing | None:
        """Return what somebody does about a message, if anything."""
        chance = self._chance
        match key:
            case "reminder.soon" if chance.random() < 0.85:
                return self._starts()
            case "question.day-score" if chance.random() < 0.6:
                return self._scores()
            case "team.nudge.book" | "team.nudge.second" | "team.repeat" if chance.random() < 0.6:
                return self._asked_to_book()
            case "team.nudge.send" if chance.random() < 0.5:
                return iter(((20, "send my results"), (1, "yes, send it")))
            case _:
                return None

    def _blocks(self) -> Doing:
        """Have enough of the bot for a while, or for good; half of it we are not told of."""
        tired = self._tired
        yield 3, tired.choice(("blocks", "shuts"))
        if tired.random() < 0.6:
            yield tired.uniform(1, 3) * 24 * 60, tired.choice(("unblocks", "where"))

    def _starts(self) -> Doing:
        yield 15, "start"
        yield 1, "yes"
        yield from self._tests()

    def _asked_to_book(self) -> Doing:
        yield 30, "book"
        yield from self._books()

    def _scores(self) -> Doing:
        score = self._chance.randint(0, 10)
        yield 10, str(score)
        if score >= 6:
            yield 1, "now"
            yield 1, "yes"
            yield from self._tests()

    # -- what the team does

    def _works(self, number: int) -> Doing:
        """Look at the inbox and the board each working day, and work them off in turn."""
        yield 1, "on duty" if number == 0 else "team"
        morning = STARTS + timedelta(hours=8, minutes=7 * number)
        for day in range(self._days):
            begins = morning + timedelta(days=day)
            if begins.weekday() > 4:
                continue
            yield (begins - self.now) / MINUTE, "inbox"
            for words in self._inbox(number, day):
                yield 1, words
            yield 1, "board"
            if day % 3 == number % 3:
                for words in self._reminds(number):
                    yield 1, words

    def _inbox(self, number: int, day: int) -> Iterator[str]:
        del day
        with self.store.unit() as unit:
            items = unit.care.open_items()
        for item in items:
            if item.taken_by is None and item.number % 5 == number % 5:
                yield f"take {item.number}"
                yield f"open {item.number}"
                if self._chance.random() < 0.9:
                    yield f"close {item.number}"
                    what = self._chance.choice(("nothing", "nothing", "repeat", "call"))
                    yield f"tap team:close:{item.number}:{what}"

    def _reminds(self, number: int) -> Iterator[str]:
        everybody = self.standings()
        for place, nudge in NUDGES.items():
            yield f"tap team:stuck:{place}"
            for one in stuck(everybody, place, self.now)[:6]:
                who = one.facts.id
                if self._chance.random() < 0.3:
                    yield f"tap team:who:{who}"
                if place is Place.FIRST_TEST and one.waited(self.now) > timedelta(days=14):
                    yield f"tap team:who:{who}:done:yes"
                else:
                    yield f"tap team:who:{who}:nudge:{nudge}"
        del number

    # -- how it goes

    def standings(self) -> tuple[Standing, ...]:
        """Return where everybody stands."""
        with self.store.unit() as unit:
            return tuple(stand(one) for one in unit.care.people())

    def run(self) -> Weeks:
        """Let the time pass, and return what it came to."""
        while self._queue:
            at, _, who, words, doing = heapq.heappop(self._queue)
            if at > self._ends:
                break
            if isinstance(who, str):
                if self._wakes.get(who) != at:
                    continue  # it was moved
                self.now = max(at, self.now)
                del self._wakes[who]
                self.weeks.alarms += 1
                self._stepped(self.conductor.wake(who, self.now))
                continue
            self.now = max(at, self.now)
            self._acts(who, words)
            if doing is not None:
                self._goes_on(who, doing)
        self.now = self._ends
        return self.weeks

    def _does(self, who: Somebody, at: datetime) -> None:
        heapq.heappush(self._queue, (at, next(self._order), who, None, who.doing))

    def _goes_on(self, who: Somebody, doing: Doing) -> None:
        following = next(doing, None)
        if following is None:
            who.busy -= 1
            return
        minutes, words = following
        at = self.now + max(minutes, 0.1) * MINUTE
        heapq.heappush(self._queue, (at, next(self._order), who, words, doing))

    def _acts(self, who: Somebody, words: str | None) -> None:
        event: Event
        who.blocked = words in ("blocks", "shuts")
        if words == "shuts":
            return
        if words == "blocks":
            event = Blocked(at=self.now)
        elif words == "unblocks":
            event = Unblocked(at=self.now)
        elif words is None:
            who.busy += 1
            event = Opened(at=self.now, code=who.code)
        elif words.startswith("tap "):
            event = ChoiceTapped(at=self.now, token=words.removeprefix("tap "))
        else:
            who.typed += 1
            event = WordsGiven(at=self.now, text=words, source=str(who.typed))
        key = f"k{next(self._keys)}"
        self.weeks.events += 1
        inbound = Inbound(key=key, address=who.address, event=event, language=who.language)
        self._stepped(self.conductor.handle(inbound))

    def _stepped(self, step: Step | None) -> None:
        if step is None:
            return
        for name, at in ((step.conversation_id, step.wake_at), *step.others):
            if at is None:
                self._wakes.pop(name, None)
            elif self._wakes.get(name) != at:
                self._wakes[name] = at
                heapq.heappush(self._queue, (at, next(self._order), name, None, None))
        self._deliver()

    def _deliver(self) -> None:
        with self.store.engine.begin() as connection:
            rows = connection.execute(_WAITING).all()
            if rows:
                connection.execute(_SENT)
        for address, name, text in rows:
            who, effect = self._chats[address], decode_outgoing(text)
            if who.blocked:
                self.weeks.refused += 1
                failed = self.conductor.delivery_failed
                self._stepped(failed(name, effect.number, Failure.BLOCKED, self.now))
            else:
                self._reads(who, effect)

    def _has_enough(self, key: str) -> bool:
        """Whether somebody who was reminded blocks the bot."""
        reminded = key.startswith(("reminder.", "team.nudge.")) or key == "question.day-score"
        return reminded and self._tired.random() < 0.1

    def _reads(self, who: Somebody, effect: Outgoing) -> None:
        self.weeks.messages += 1
        if not isinstance(effect, Say | Revise):
            return
        for part in effect.parts:
            self.weeks.keys[part.key] += 1
            doing = None if who.busy else who.answers(who, part.key)
            if doing is None and not who.busy and self._has_enough(part.key):
                doing = self._blocks()
            if doing is not None:
                who.busy += 1
                self._goes_on(who, doing)


def _nothing(who: Somebody, key: str) -> Doing | None:
    del who, key
    return None
