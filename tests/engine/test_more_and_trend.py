"""More under a summary, and three tests or more over time: by button and by word."""

import pytest

from bot.engine.effects import Form, Hand, Recall, Trace
from bot.engine.events import ChoiceTapped
from bot.testing.playbook import Playbook


def having_done(times: int) -> Playbook:
    """Return somebody who has done some whole tests, one after another."""
    book = Playbook()
    for number in range(times):
        if number:
            book.types("start").taps("go").taps("there").waits(minutes=5).types("120/76 70")
            book.taps("there").waits(minutes=5).types("118/76 74").taps("there")
        else:
            book.stands()
        book.waits(minutes=5).types("116/76 90").waits(minutes=5).types("114/76 96")
    return book


def tokens(book: Playbook) -> list[str]:
    """Return what the buttons of the last step bring back."""
    return [
        choice.token
        for effect in book.effects
        for row in getattr(effect, "choices", ())
        for choice in row
    ]


def test_the_summary_offers_more() -> None:
    """The button for more stands under the summary, and costs no message until it is tapped."""
    book = having_done(1)
    summary = next(e for e in book.effects if isinstance(e, Hand))
    assert summary.form is Form.SUMMARY
    assert [[choice.token for choice in row] for row in summary.choices] == [["more:1"]]
    assert book.taps("more:1").said == ("hand.details",)


@pytest.mark.parametrize("word", ["more", "Details", "más", "detalles"])
def test_more_can_be_typed(word: str) -> None:
    """The label of the button can be typed, in each language."""
    assert having_done(1).types(word).said == ("hand.details",)


def test_more_of_an_earlier_test() -> None:
    """An earlier test is recalled with its own button, and its details with that."""
    book = having_done(2).types("results").taps("result:1")
    recalled = [(e.form, e.test) for e in book.effects if isinstance(e, Recall)]
    assert recalled[0] == (Form.SUMMARY, 1)
    assert "more:1" in tokens(book)
    book.taps("more:1")
    assert [(e.form, e.test) for e in book.effects if isinstance(e, Recall)] == [(Form.DETAILS, 1)]


@pytest.mark.parametrize("token", ["more:7", "more:x", "more:99999999"])
def test_more_of_no_test_is_nothing(token: str) -> None:
    """A number that is no test's brings no file."""
    book = having_done(1)
    book.happens(ChoiceTapped(at=book.now, token=token))
    assert not any(isinstance(e, Hand | Recall) for e in book.effects)


def test_three_tests_are_shown_over_time() -> None:
    """From three tests on the list offers them over time: a picture, then a page."""
    book = having_done(2).types("results")
    assert "trend" not in tokens(book)
    book = having_done(3).types("results")
    assert tokens(book)[-2:] == ["compare", "trend"]
    book.taps("trend")
    traced = [(e.form, e.tests) for e in book.effects if isinstance(e, Trace)]
    assert traced == [(Form.CHART, (1, 2, 3)), (Form.PDF, (1, 2, 3))]
    assert book.types("tendencia").said == ("trace.chart", "trace.pdf")


def test_with_fewer_tests_the_word_shows_what_there_is() -> None:
    """Two tests have no trend: they are listed, to be seen and compared."""
    assert having_done(2).types("trend").said == ("results.which",)


@pytest.mark.parametrize("word", ["more", "trend"])
def test_nothing_is_shown_in_a_test(word: str) -> None:
    """While a test runs, files wait until after it."""
    assert Playbook().stands().types(word).said[0] == "after-the-test"
