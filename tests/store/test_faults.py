"""The fault matrix in small: a few of each fault, and that what looks for losses sees them.

The whole is `python -m tests.faults`.
"""

import shutil
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import Connection, delete, update

from bot.store.statements import CONVERSATION, EVENT, OUTBOX
from tests.faults.disks import no_room_in_the_file, trouble
from tests.faults.journal import Journal, Seen, seen_in
from tests.faults.judge import Quiet, judge, quiet_run
from tests.faults.kills import kill
from tests.faults.load import Load
from tests.faults.people import START, Arrival, arrivals
from tests.faults.places import POSTGRES, SQLITE, opened
from tests.faults.power import lose_power
from tests.faults.wal import commits_in, tear

SEED = 20260302

Done = tuple[Path, dict[str, tuple[Arrival, ...]], Quiet, Seen]


@pytest.mark.parametrize("kind", [SQLITE, POSTGRES])
def test_sigkill_under_load_loses_nothing(kind: str, request: pytest.FixtureRequest) -> None:
    """Killed at random points, no message, reading, timer or order is lost, on either store."""
    server = request.getfixturevalue("server") if kind == POSTGRES else None
    assert kill(kind, server, 3, SEED, people=1, longest=0.15).clean


def test_copy_of_the_files_at_any_instant_holds_what_was_acknowledged() -> None:
    """Power lost while people are at it, the last commit torn: all that was told is there."""
    found, _ = lose_power(3, SEED, people=1)
    assert found.clean


def test_full_disk_loses_nothing() -> None:
    """What fails for want of room is not half done, and is done once there is room again."""
    found, times = trouble(SQLITE, None, no_room_in_the_file, 2, SEED, people=1)
    assert times == 2
    assert found.clean


# -- what looks for losses sees them


@pytest.fixture(scope="module")
def played(tmp_path_factory: pytest.TempPathFactory) -> Done:
    """Return a folder with a store in which a test went well, and what the outside world saw.

    Beside it, as `torn`, is a copy of its files from when the store was still open.
    """
    folder = tmp_path_factory.mktemp("faults")
    plan = arrivals(1, SEED)
    quiet = quiet_run(plan)
    with closing(opened(folder / "whole")) as store, Journal(folder / "journal") as journal:
        Load(store=store, plan=plan, journal=journal).run(Seen())
        assert judge(store, plan, quiet, seen_in(folder / "journal")).clean
        for ending in ("", "-wal"):
            shutil.copyfile(folder / f"whole{ending}", folder / f"torn{ending}")
    return folder, plan, quiet, seen_in(folder / "journal")


def lose_event(db: Connection) -> None:
    """Lose what somebody wrote last."""
    db.execute(delete(EVENT).where(EVENT.c.position > 5))


def shift_timer(db: Connection) -> None:
    """Let a timer stand where nobody has set one."""
    db.execute(update(CONVERSATION).values(wake_at=START))


def lose_message(db: Connection) -> None:
    """Lose what somebody should get."""
    db.execute(delete(OUTBOX).where(OUTBOX.c.number == 3))


def keep_message(db: Connection) -> None:
    """Never send what somebody should get."""
    db.execute(update(OUTBOX).where(OUTBOX.c.number == 3).values(fate="waiting"))


@pytest.mark.parametrize("plant", [lose_event, shift_timer, lose_message, keep_message])
def test_planted_loss_is_seen(
    played: Done, tmp_path: Path, plant: Callable[[Connection], None]
) -> None:
    """An event or a message that is gone, or a timer that is not the state's, counts as lost."""
    folder, plan, quiet, seen = played
    shutil.copyfile(folder / "whole", tmp_path / "copy")
    with closing(opened(tmp_path / "copy")) as store:
        with store.engine.begin() as connection:
            plant(connection)
        assert judge(store, plan, quiet, seen).lost > 0


def test_planted_doubles_and_disorder_are_seen(played: Done, tmp_path: Path) -> None:
    """A message again that was put down as sent counts as doubled; unknown ones are told apart."""
    folder, plan, quiet, _ = played
    lines = ("# a 1 2", "> settle a 1", "< settle a 1", "# a 1 2", "# a 2 2", "# a 2 2", "# a 1 2")
    (tmp_path / "journal").write_text("\n".join(lines) + "\n# a 9")
    with closing(opened(folder / "whole")) as store:
        found = judge(store, plan, quiet, seen_in(tmp_path / "journal"))
    assert (found.doubled, found.disordered, found.unsure) == (2, 1, 1)


def test_torn_commit_that_was_told_is_seen(played: Done) -> None:
    """Where the log is torn before its end, what was told after that is counted as lost."""
    folder, plan, quiet, seen = played
    commits = commits_in(folder / "torn-wal")
    assert len(commits) > 40
    begins, ends = commits[20]
    tear(folder / "torn-wal", begins, ends, 10, bytes(ends - begins - 10))
    with closing(opened(folder / "torn")) as torn:
        assert judge(torn, plan, quiet, seen).lost > 0
