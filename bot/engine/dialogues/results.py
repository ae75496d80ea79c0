"""Earlier results: shown again, listed, and laid side by side."""

from typing import Final

from bot.engine.buttons import Always, Rows, more, part
from bot.engine.dialogues import closing, orientation, stopping
from bot.engine.dialogues.daybook import counterparts
from bot.engine.effects import ClockTime, Day, Form, Param
from bot.engine.state import AwaitingStopReason, Finished
from bot.engine.turn import Turn
from bot.findings.trend import FEWEST

MOST: Final = 12
"""The latest tests that are listed, and shown over time: what a phone's screen can hold."""


def show_results(turn: Turn) -> None:
    """Send the latest result again, or list them when there are several."""
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    match turn.stage:
        case AwaitingStopReason() as stage:
            stopping.take_reason(turn, stage, None)
        case _ if turn.running is None and len(tests) > 1:
            turn.say(part("results.which", count=len(tests)), rows=_results_rows(turn))
        case Finished() as stage:
            closing.hand_over(turn, stage.record)
        case _ if turn.running is None and tests:
            show_test(turn, tests[0].number)
        case _:
            orientation.orient(turn, part("results.not-yet"))


def show_files(turn: Turn) -> None:
    """Send the files for the care team of the latest test, the one for records systems too."""
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    if turn.running is not None or not tests:
        orientation.orient(turn, part("results.not-yet"))
        return
    forms = closing.FOR_THE_CARE_TEAM
    if isinstance(turn.stage, AwaitingStopReason):
        forms = (Form.FHIR,) if turn.stage.record.readings else forms  # the others come anyway
        stopping.take_reason(turn, turn.stage, None)
    for form in forms:
        turn.recall(form, tests[-1].number)


def _results_rows(turn: Turn) -> Rows:
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    rows: list[tuple[Always, ...]] = []
    for test in tests[-MOST:]:
        there = test.began_at.astimezone(turn.zone_info)
        values: dict[str, Param] = {
            "number": test.number,
            "day": Day(there.date()),
            "time": ClockTime(there.time()),
        }
        key = "label.test" if test.day is None else f"label.test.{test.day}"
        rows.append((Always(key, f"result:{test.number}", values),))
    pair = counterparts(turn.conversation.profile)
    compare = "button.compare" if pair is None else "button.compare.days"
    rows.append((Always(compare, "compare"),))
    if len(tests) >= FEWEST:
        rows.append((Always("button.trend", "trend"),))
    return tuple(rows)


def show_named(turn: Turn, number: int, *, sure: bool) -> bool:
    """Show the test with a number that was typed.

    Args:
        turn: The step.
        number: The test's.
        sure: Whether a test was named; else a number that is none's says nothing.
    """
    known = any(t.number == number and t.measured for t in turn.conversation.profile.tests)
    if known or sure:
        show_test(turn, number)
    return known or sure


def show_test(turn: Turn, number: int) -> None:
    """Send the results of one test again."""
    if isinstance(turn.stage, Finished) and turn.stage.record.number == number:
        closing.hand_over(turn, turn.stage.record)
        return
    if not any(t.number == number and t.measured for t in turn.conversation.profile.tests):
        orientation.orient(turn, part("results.not-yet"))
        return
    turn.recall(Form.SUMMARY, number, rows=((more(number),),))
    for form in closing.FILES:
        turn.recall(form, number)


def tell_more(turn: Turn, number: int | None = None) -> None:
    """Send what the summary of one test leaves out; of the latest one if none is named."""
    if isinstance(turn.stage, AwaitingStopReason):
        show_results(turn)  # they come first
        return
    measured = [t.number for t in turn.conversation.profile.tests if t.measured]
    held = turn.stage.record if isinstance(turn.stage, Finished) else None
    if held is not None and held.readings and number in (None, held.number):
        turn.hand(Form.DETAILS, held)
    elif measured and number in (None, *measured):
        turn.recall(Form.DETAILS, measured[-1] if number is None else number)
    else:
        orientation.orient(turn, part("results.not-yet"))


def trace(turn: Turn) -> None:
    """Show how the tests go over time; with fewer than three, show what there is."""
    tests = [t.number for t in turn.conversation.profile.tests if t.measured]
    if isinstance(turn.stage, AwaitingStopReason) or len(tests) < FEWEST:
        show_results(turn)
    else:
        turn.trace(tuple(tests[-MOST:]))


def compare(turn: Turn) -> None:
    """Lay a good and a bad day side by side, or else the last two tests."""
    tests = [t for t in turn.conversation.profile.tests if t.measured]
    pair = counterparts(turn.conversation.profile)
    if pair is not None:
        turn.compare(pair[0].number, pair[1].number)
    elif len(tests) > 1:
        turn.compare(tests[-2].number, tests[-1].number)
    else:
        orientation.orient(turn, part("results.not-yet"))
