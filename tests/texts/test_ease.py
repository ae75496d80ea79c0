"""How easy summaries are to read, and that the measure measures it."""

import re
from collections.abc import Callable, Iterator

import pyphen
import pytest

from bot.findings import find
from bot.reports.summary import summarise
from bot.texts.catalogue import CATALOGUE
from bot.texts.rendering import catalog
from tests.texts import summaries
from tests.texts.ease import (
    Measured,
    english_grade,
    english_syllables,
    read_out,
    sentences_of,
    spanish_ease,
    spanish_syllables,
    words_of,
)

# Parts of words as dictionaries of English and Spanish divide them; from memory, not verified.
ENGLISH = (
    "a-bout af-ter-noon a-gain a-no-ther an-y-one be-ing be-low be-yond blood breathe care "
    "cau-ses chan-ges chest com-pa-nion con-firmed cor-rec-ted count-ed di-ag-no-sis di-a-sto-lic "
    "dif-fer-ent diz-zy drop e-mer-gen-cy faint flu-ids hard-est heart i-de-a i-de-as judged "
    "ly-ing ma-ny mea-sure mea-sured me-di-cine min-utes miss-ing missed months "
    "num-bers on-ly o-ver pa-tterns peo-ple pe-ri-od pres-sure pre-vi-ous pulse read-ings "
    "read-y rose scree-ning se-ri-ous some-thing some-times stand-ing step stopped symp-toms "
    "sys-to-lic ta-ble ta-ken times try-ing u-su-al ver-y voi-ces was weak whole year your-self"
)
SPANISH = (
    "a-cués-te-se a-gua a-ho-ra al-gu-nos au-sen-te ba-ja-da ca-be-za car-dí-a-ca co-ra-zón "
    "cuer-po de-bi-li-dad diag-nós-ti-co e-mer-gen-cias em-pe-zar e-qui-po es-tu-vo gua-pa guí-a "
    "hay jui-cio lec-tu-ra lí-mi-te lle-gue mé-di-co mi-nu-tos muy nú-me-ros o-í-do pe-cho "
    "pre-sión prue-ba pul-so que quie-re rit-mo sa-lud sín-to-mas su-bió tie-ne vol-vió y"
)


@pytest.mark.parametrize(
    ("divided", "count"), [(ENGLISH, english_syllables), (SPANISH, spanish_syllables)]
)
def test_known_words_have_their_syllables(divided: str, count: Callable[[str], int]) -> None:
    """Each word has as many syllables as the parts it is divided into."""
    expected = {word: word.count("-") + 1 for word in divided.split()}
    assert {word: count(word.replace("-", "")) for word in expected} == expected


def shipped_words(language: str) -> Iterator[str]:
    """Yield every word of the catalogue."""
    texts = [text for one in CATALOGUE.values() for text in (one.one, one.many)]
    if language != "en":
        entries = [entry for entry in catalog(language) if entry.id]
        strings = [entry.string for entry in entries]
        texts = [
            text
            for string in strings
            for text in (string if isinstance(string, tuple | list) else [string])
        ]
    for text in texts:
        yield from words_of(re.sub(r"\{\w+\}", "", text or ""))


@pytest.mark.parametrize(
    ("language", "dictionary", "count"),
    [("en", "en_US", english_syllables), ("es", "es", spanish_syllables)],
)
def test_no_word_has_fewer_syllables_than_its_hyphens_part(
    language: str, dictionary: str, count: Callable[[str], int]
) -> None:
    """No text looks easier than it is: a hyphenation library (pyphen) never finds more parts.

    A hyphen stands only between syllables, though not between all.
    """
    library = pyphen.Pyphen(lang=dictionary, left=2, right=3)
    words = {word.lower() for word in shipped_words(language) if len(word) > 3}
    fewer = {word for word in words if count(word) < len(library.positions(word)) + 1}
    assert len(words) > 500
    assert fewer == set()


def test_the_formulas_by_hand() -> None:
    """Two sentences of 3 and 5 words: F is 4; 10 syllables: P is 1.25."""
    found = english_grade("Your heart rate. It went up by twenty-five, 25.")
    assert (found.words, found.sentences, found.syllables) == (8, 2, 10)
    assert found.score == pytest.approx(0.39 * 4 + 11.8 * 1.25 - 15.59)
    spanish = spanish_ease("Su pulso subió.\n¿Se siente bien ahora?")
    assert (spanish.words, spanish.sentences, spanish.syllables) == (7, 2, 12)
    assert spanish.score == pytest.approx(206.84 - 60 * 12 / 7 - 1.02 * 3.5)


def test_sentences_end_where_they_do() -> None:
    """At a mark before a space or the end of a line; not inside a number, and not without words."""
    text = "Test 1: what it shows\n\nIt rose by 30.5 a minute! 72.\nRest."
    assert sentences_of(text) == ["Test 1: what it shows", "It rose by 30.5 a minute!", "Rest."]
    with pytest.raises(ValueError, match="72"):
        english_grade("72.")


def test_plain_words_are_told_from_hard_ones() -> None:
    """A child's sentence is of a low grade and high ease, an official one the other way."""
    assert english_grade("Lie down now. Put your legs up.").score < 2
    assert english_grade("Orthostatic hypotension necessitates immediate evaluation.").score > 20
    assert spanish_ease("Siga en la cama. Ya falta poco.").score > 90
    assert spanish_ease("La determinación ambulatoria requiere documentación.").score < 20


def test_numerals_can_be_read_out() -> None:
    """They become the words of the language (num2words)."""
    assert read_out("up to 42", "en") == "up to forty-two"
    assert read_out("hasta 42", "es") == "hasta cuarenta y dos"


@pytest.mark.parametrize(
    ("language", "measure", "worst"), [("en", english_grade, 6.0), ("es", spanish_ease, 70.0)]
)
def test_summaries_are_easy_to_read(
    language: str, measure: Callable[[str], Measured], worst: float
) -> None:
    """Of a fixed sample each is of grade 6 or below, in Spanish of an ease of 70 or above.

    The whole cohort: `python -m tests.bench.wording`.
    """
    records = [*summaries.of_cohort(15, 20260323), *summaries.of_anything(50, 20260324)]
    scores = [measure(summarise(record, find(record), language)).score for record in records]
    assert len(scores) == 80
    assert [score for score in scores if (score > worst) is (language == "en")] == []
