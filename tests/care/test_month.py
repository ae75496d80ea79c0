"""Some people and their team over some days, through everything: the board tells what happened."""

from collections import Counter

from bot.care.board import Place, counts
from bot.store.sql import SqlStore
from tests.care.month import Month
from tests.care.recount import blocked, recounted


def test_the_board_of_some_days_is_that_of_the_log(store: SqlStore) -> None:
    """Where everybody stands and since when is what the event log and the audit log alone say.

    So are the counts; `python -m tests.bench.month` does the same with 500 people over a month.
    """
    month = Month(store, people=6, members=2, days=4, seed=5)
    month.run()
    standings = month.standings()
    again = recounted(store, month.context)
    assert again == {one.facts.reference: (one.place.value, one.since) for one in standings}
    here = Counter(place for place, _ in again.values())
    told = counts(standings, month.now)
    assert {place.value: count.here for place, count in told.items() if count.here} == dict(here)
    assert told[Place.FIRST_TEST].reached > 0
    shut = {one.facts.id: one.facts.blocked_at for one in standings if one.facts.blocked_at}
    assert shut
    assert shut == blocked(store)
    assert month.weeks.keys["care.board"] > 0
