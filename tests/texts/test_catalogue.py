"""The catalogue in every shipped language: whole, true to the English, fit to show, and plain."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from string import Formatter
from typing import Final
from xml.etree import ElementTree as ET

import pypdfium2
import pytest
from babel.messages.catalog import Catalog
from babel.messages.catalog import Message as Entry
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po

from bot.booking.outcome import When
from bot.booking.past import read_past
from bot.booking.phrases import read_time, read_when
from bot.engine.asides import Question
from bot.engine.dialogues.paper_questions import named
from bot.engine.dialogues.questionnaire import SHAPES, Tick, Typed, picked, ticks
from bot.engine.effects import Form, Moment, Param, Place, Term
from bot.engine.hearing import age_band, symptoms, word
from bot.engine.paper import CopyingPaper, PaperQuestion
from bot.engine.profile import Share
from bot.engine.vocabulary import Word
from bot.findings import Line, State, find
from bot.protocol.record import AgeBand, TestRecord
from bot.reports import detail, make, summarise
from bot.reports.canvas import Box
from bot.reports.chart import WIDTH, draw
from bot.reports.glyphs import face
from bot.resources import shipped
from bot.testing.playbook import Playbook
from bot.texts import (
    LANGUAGES,
    between,
    between_files,
    booking,
    care,
    companions,
    details,
    dialogue,
    handout,
    inviting,
    paper,
    render,
    results,
    safety,
    series,
    sharing,
    terms,
)
from bot.texts.catalogue import CATALOGUE
from bot.texts.rendering import DOMAIN
from tests.reports.examples import EXAMPLES
from tests.reports.test_chart import text_boxes
from tests.reports.test_summary import grade

TRANSLATED: Final = LANGUAGES[1:]
ROOT: Final = Path(__file__).parents[2]
LONGEST_LABEL: Final = 28
LONGEST_CAPTION: Final = 1024
LONGEST_MESSAGE: Final = 4096
"""Characters; the last two are the messenger's limits, the first is what a phone shows."""

MARK: Final = "drafted by software; to be reviewed by a clinician"
"""Stands in the head of a catalogue that no clinician has read."""

CHOICES: Final[Mapping[Question, Mapping[str, str]]] = {
    question: {choice: f"{shape.labels}.{choice}" for choice in shape.choices}
    for question, shape in SHAPES.items()
    if not isinstance(shape, Typed)
}
"""The key of the label of each choice, by question."""

ON_PAPER: Final = ("missed", "nothing", "to-the-end", "supine", "seated", "standing")
"""The buttons while a test from paper is typed in."""

LABELS: Final = tuple(
    dict.fromkeys(
        (
            *(
                key
                for key in (
                    *terms.MESSAGES,
                    *between.MESSAGES,
                    *booking.MESSAGES,
                    *companions.MESSAGES,
                    *sharing.MESSAGES,
                    *care.MESSAGES,
                )
                if key.startswith(
                    ("button.", "symptom.", "age.", "reason.", "strength.", "language.")
                )
            ),
            *(key for choices in CHOICES.values() for key in choices.values()),
            *(f"paper.{choice}" for choice in ON_PAPER),
        )
    )
)
FOR_PATIENTS: Final = (
    *dialogue.MESSAGES,
    *safety.MESSAGES,
    *results.MESSAGES,
    *between.MESSAGES,
    *booking.MESSAGES,
    *companions.MESSAGES,
    *sharing.MESSAGES,
    *handout.MESSAGES,
    *(key for key in inviting.MESSAGES if key.startswith("invitation.")),
    *(key for key in paper.MESSAGES if not key.startswith("files.")),
    *details.MESSAGES,
    *(key for key in (*between_files.MESSAGES, *series.MESSAGES) if not key.startswith("files.")),
)

VALUES: Final[Mapping[str, Param]] = {
    **dict.fromkeys(("gone", "left", "length"), timedelta(minutes=2, seconds=30)),
    **dict.fromkeys(("numbers", "suggested", "example"), "124/76 72"),
    **dict.fromkeys(("change", "highest", "limit", "lowest", "lying", "number", "value"), "30"),
    **dict.fromkeys(("first", "second"), "+30"),
    **dict.fromkeys(("adult", "age", "diastolic", "heart_rate", "rise", "systolic"), "120"),
    **dict.fromkeys(("line", "minutes", "seconds", "step", "steps", "strength", "young"), 3),
    **dict.fromkeys(("ratio", "revision", "share", "software", "version"), "0.5"),
    **dict.fromkeys(("before", "size"), "118/74, 68"),
    **dict.fromkeys(("day", "end", "start"), "Mar 2, 2026"),
    **dict.fromkeys(("reason", "symptom"), Term("symptom.faint")),
    **dict.fromkeys(("position", "when"), Term("files.position.standing")),
    **dict.fromkeys(("lines", "list", "reasons", "state", "words"), "a, b and c"),
    **dict.fromkeys(("item", "test"), 3),
    **dict.fromkeys(("label", "member"), "Marta"),
    **dict.fromkeys(("here", "reached", "invited", "agreed", "sent"), 3),
    **dict.fromkeys(("kind", "grade", "medicine", "what"), Term("care.day.good")),
    **dict.fromkeys(("values", "name", "references"), "HS-0042"),
    **dict.fromkeys(("people", "tests"), 12),
    "cause": Term("care.cause.unsafe-reading"),
    "code": "K7Q2M",
    "duty": Term("care.off-duty"),
    "follow_up": Term("care.follow-up.other"),
    "link": "https://t.me/wallside?start=with-K7Q2M",
    "local": "9:00",
    "moment": Moment(datetime(2026, 3, 9, 8, tzinfo=UTC), "Europe/Madrid"),
    "place": Place("Europe/Madrid"),
    "plan": "take them as usual",
    **dict.fromkeys(("name", "band", "grade", "cause", "causes", "where", "answer"), "a, b"),
    **dict.fromkeys(("low", "high", "margin", "mean", "sd", "centile", "rate", "both"), "12"),
    **dict.fromkeys(("clear", "not_there", "five", "two", "morning", "afternoon"), "27"),
    **dict.fromkeys(("sensitivity", "specificity", "people", "probability"), "87"),
    "reference": "HS-0042",
    "text": "they are kept for ten years",
    "contact": "555 0142, weekdays 9 to 4",
    "pressures": "118/74",
    "priority": Term("care.priority.alarm"),
    "role": Term("care.role.coordinator"),
    "protocol": "four-readings",
    "source": "Freeman 2011",
    "time": timedelta(minutes=5),
    "language": Term("language.es"),
    "note": "uses a stick",
    "word": "spanihs",
}
"""Something for each placeholder but the count."""

languages = pytest.mark.parametrize("locale", LANGUAGES)
translated = pytest.mark.parametrize("locale", TRANSLATED)
examples = pytest.mark.parametrize("record", EXAMPLES.values(), ids=EXAMPLES)


def source_of(locale: str) -> Path:
    """Return the file of a language."""
    return shipped("locales") / locale / "LC_MESSAGES" / f"{DOMAIN}.po"


def fresh(locale: str) -> Catalog:
    """Return a catalogue of its own, which may be spoilt."""
    with source_of(locale).open("rb") as source:
        return read_po(source, locale=locale, domain=DOMAIN)


def both(text: str | list[str] | tuple[str, ...]) -> tuple[str, ...]:
    """Return singular and plural, or the one form."""
    return (text,) if isinstance(text, str) else tuple(text)


def placeholders(text: str) -> list[str]:
    """Return the names of the placeholders, sorted; a brace that fits nowhere is a name too."""
    try:
        return sorted(name for _, name, _, _ in Formatter().parse(text) if name is not None)
    except ValueError as error:
        return [str(error)]


def undrawable(text: str) -> set[str]:
    """Return the characters that the shipped font lacks; the end of a line needs none."""
    return {c for c in text if c != "\n" and ord(c) not in face().advances}


def faults(known: Catalog) -> list[str]:
    """Return all that is wrong with a catalogue, each with the English it is about."""
    wanted = {
        (m.one,) if m.many is None else (m.one, m.many) for m in CATALOGUE.values() if m.translated
    }
    entries = {both(entry.id): entry for entry in known if entry.id}
    found = [f"missing: {ids[0]}" for ids in wanted - entries.keys()]
    found += [f"needless: {ids[0]}" for ids in entries.keys() - wanted]
    found += [f"obsolete: {both(ids)[0]}" for ids in known.obsolete]
    for ids in wanted & entries.keys():
        found += [f"{fault}: {ids[0]}" for fault in _faults_of(entries[ids], known.num_plurals)]
    for entry, errors in known.check():
        found += [f"{error}: {entry.id}" for error in errors]
    return found


def _faults_of(entry: Entry, plurals: int) -> Iterator[str]:
    ids, forms = both(entry.id), both(entry.string or "")
    if entry.fuzzy:
        yield "fuzzy"
    if len(forms) != (1 if len(ids) == 1 else plurals):
        yield "plural forms"
    for form in forms:
        if not form.strip():
            yield "untranslated"
        elif placeholders(form) != placeholders(ids[0]):
            yield "placeholders"
        elif form.count("\n") != ids[0].count("\n"):
            yield "lines"
        if undrawable(form):
            yield "no glyph"


def rendered(key: str, locale: str) -> list[str]:
    """Return a message with values in it, in the singular and the plural if it has both."""
    message = CATALOGUE[key]
    values = {n: VALUES[n] for n in placeholders(message.one) if n != "count"}
    if message.many is None:
        return [render(key, values, locale)]
    return [render(key, {**values, "count": count}, locale) for count in (1, 12)]


def syllables(spanish: str) -> int:
    """Return how many syllables a Spanish word has.

    A run of vowels has one for each strong vowel in it (a, e, o, or any with an accent), and
    one if it has none. A final y is a vowel.
    """
    runs = re.findall(r"[aeiouáéíóúü]+", re.sub(r"y$", "i", spanish.lower()))
    return max(1, sum(max(1, len(re.findall(r"[aeoáéíóú]", run))) for run in runs))


def reading_ease(spanish: str) -> float:
    """Return the reading ease by Fernández Huerta: 206.84 - 60 P - 1.02 F; higher is easier.

    P is syllables a word and F words a sentence (Fernández Huerta 1959, the formula as it is
    commonly corrected: from memory, not verified). Numerals are left out.
    """
    sentences = [part for part in re.split(r"[.!?]+(?=\s|$)|\n", spanish) if re.search(r"\w", part)]
    words = re.findall(r"[^\W\d_]+", spanish)
    per_word = sum(map(syllables, words)) / len(words)
    return 206.84 - 60 * per_word - 1.02 * len(words) / len(sentences)


# -- whole and true


def test_template_is_what_the_texts_hold() -> None:
    """The template has exactly the sentences that extraction finds in the texts."""
    extracted = extract_from_dir(
        ROOT / "bot" / "texts",
        method_map=[("**.py", "python")],
        keywords={"N_": None, "NP_": (1, 2)},
    )
    found = {both(ids) for _, _, ids, _, _ in extracted}
    with (shipped("locales") / f"{DOMAIN}.pot").open("rb") as source:
        template = {both(entry.id) for entry in read_po(source) if entry.id}
    assert found == template


@translated
def test_catalogue_has_no_fault(locale: str) -> None:
    """Every message is there in every form, with the English placeholders, lines and glyphs."""
    assert faults(fresh(locale)) == []


@translated
def test_a_catalogue_that_no_clinician_read_says_so(locale: str) -> None:
    """The head of a drafted catalogue says so, in a comment and in a header line."""
    head, header = source_of(locale).read_text(encoding="utf-8").split("\n\n", 1)[0].split("msgid")
    assert "reviewed by a clinician" in " ".join(head.replace("#", "").split())
    assert f'"X-Review: {MARK}' in header


def _change(entry: Entry, change: Callable[[str], str]) -> None:
    """Change the words of a message without a plural."""
    assert isinstance(entry.string, str)
    entry.string = change(entry.string)


def _lose_placeholder(entry: Entry) -> None:
    _change(entry, lambda text: text.replace("{left}", ""))


def _rename_placeholder(entry: Entry) -> None:
    _change(entry, lambda text: text.replace("{left}", "{queda}"))


def _break_brace(entry: Entry) -> None:
    _change(entry, lambda text: text.replace("{left}", "{left"))


def _empty(entry: Entry) -> None:
    _change(entry, lambda _: "")


def _break_line(entry: Entry) -> None:
    _change(entry, lambda text: f"{text}\n")


def _use_an_arrow(entry: Entry) -> None:
    _change(entry, lambda text: f"{text} →")


def _make_fuzzy(entry: Entry) -> None:
    entry.flags.add("fuzzy")


@pytest.mark.parametrize(
    ("spoil", "fault"),
    [
        (_lose_placeholder, "placeholders"),
        (_rename_placeholder, "placeholders"),
        (_break_brace, "placeholders"),
        (_empty, "untranslated"),
        (_make_fuzzy, "fuzzy"),
        (_break_line, "lines"),
        (_use_an_arrow, "no glyph"),
    ],
)
@translated
def test_a_spoilt_message_is_found(locale: str, spoil: Callable[[Entry], None], fault: str) -> None:
    """A fault planted in a copy of the catalogue is found, and nothing else is."""
    english = CATALOGUE["where.seated"].one
    spoilt = fresh(locale)
    entry = spoilt.get(english)
    assert entry is not None
    spoil(entry)
    assert faults(spoilt) == [f"{fault}: {english}"]


@translated
def test_a_spoilt_plural_is_found(locale: str) -> None:
    """A placeholder missing from the plural alone is found, and so is a missing plural."""
    english = CATALOGUE["results.which"].one
    spoilt = fresh(locale)
    entry = spoilt.get(english)
    assert entry is not None
    one, many = both(entry.string or "")
    entry.string = (one, many.replace("{count}", ""))
    assert faults(spoilt) == [f"placeholders: {english}"]
    entry.string = (one,)
    assert f"plural forms: {english}" in faults(spoilt)


@translated
def test_missing_needless_and_obsolete_messages_are_found(locale: str) -> None:
    """A message left out, one too many, and one put away are each found."""
    spoilt = fresh(locale)
    spoilt.delete("Which language?")
    spoilt.add("Boo", "Bu")
    spoilt.obsolete["Hoo"] = Entry("Hoo", "Ju")
    assert sorted(faults(spoilt)) == ["missing: Which language?", "needless: Boo", "obsolete: Hoo"]


@translated
def test_what_stays_english_is_a_name_or_a_number(locale: str) -> None:
    """A translation like the English is a citation, numbers with units, or the word No."""
    same = {both(e.id)[0] for e in fresh(locale) if e.id and both(e.id) == both(e.string or "")}
    citation = re.compile(r"[A-Z][\w&/ -]+ \d{4}(; [A-Z][\w&/ -]+ \d{4})*")
    units = re.compile(r"\W*((s|min|mmHg|UTC|10)\W*)*")
    bare = {text: re.sub(r"\{\w+\}", "", text) for text in same}
    left = [t for t, b in bare.items() if not citation.fullmatch(t) and not units.fullmatch(b)]
    assert left == ["No"]


# -- fit to show


@languages
def test_every_key_renders(locale: str) -> None:
    """Each message takes its values: no brace is left, every value is in it, none is too long."""
    for key in CATALOGUE:
        for text in rendered(key, locale):
            assert text.strip(), key
            assert not re.search(r"[{}]", text), key
            assert len(text) <= (
                LONGEST_CAPTION if key.startswith("caption.") else LONGEST_MESSAGE
            ), key


@languages
def test_the_font_can_draw_every_message(locale: str) -> None:
    """No message holds a character that the shipped font lacks."""
    lacking = {key: undrawable("".join(rendered(key, locale))) for key in CATALOGUE}
    assert {key: characters for key, characters in lacking.items() if characters} == {}


@languages
def test_labels_fit_a_button(locale: str) -> None:
    """Labels are short enough for a button on a narrow phone, and differ from one another."""
    labels = {key: render(key, {}, locale) for key in LABELS}
    assert {k: text for k, text in labels.items() if len(text) > LONGEST_LABEL} == {}
    for family in {key.split(".")[0] for key in LABELS}:
        group = [text for key, text in labels.items() if key.split(".")[0] == family]
        assert len(group) == len(set(group)), family


@languages
@examples
def test_summary_fits_a_message(record: TestRecord, locale: str) -> None:
    """The summary of any example is one message, with no gap in it, and says its cautions."""
    text = summarise(record, locale)
    assert len(text) <= LONGEST_MESSAGE
    assert "{" not in text
    for key in ("results.screening", "results.next", "results.medicine"):
        assert render(key, {}, locale) in text
    high = find(record).on(Line.VERY_HIGH_PRESSURE).state is State.MET
    danger = "results.danger.very-high" if high else "results.danger"
    assert render(danger, {}, locale) in text


@languages
@examples
def test_details_fit_a_message(record: TestRecord, locale: str) -> None:
    """What the summary leaves out is one message for any example, with no gap in it."""
    text = detail(record, locale)
    assert len(text) <= LONGEST_MESSAGE
    assert "{" not in text
    for key in ("results.screening", "results.medicine"):
        assert render(key, {}, locale) in text


@translated
@examples
def test_words_on_the_chart_keep_clear(record: TestRecord, locale: str) -> None:
    """In every language the words of the chart stay on the page and none covers another."""
    drawing = ET.fromstring(draw(record, find(record), locale))
    boxes = text_boxes(drawing)
    page = Box(left=0, top=0, right=WIDTH, bottom=float(drawing.attrib["height"]))
    assert [words for words, box in boxes if not box.within(page)] == []
    met = [(a, b) for i, (a, one) in enumerate(boxes) for b, two in boxes[:i] if one.meets(two)]
    assert met == []


@translated
@examples
def test_words_on_the_page_keep_clear(record: TestRecord, locale: str) -> None:
    """In every language the PDF is one page within its margins; no letter covers another."""
    document = pypdfium2.PdfDocument(make(Form.PDF, record, locale).content)
    assert len(document) == 1
    width, _ = document[0].get_size()
    text = document[0].get_textpage()
    letters = sorted(
        (*text.get_charbox(number), number)
        for number in range(text.count_chars())
        if text.get_text_range(number, 1).strip()
    )
    document.close()
    assert letters[0][0] >= 30
    assert max(right for _, _, right, _, _ in letters) <= width - 30
    for index, (_, bottom, right, top, number) in enumerate(letters):
        for left, low, _, high, other in letters[index + 1 :]:
            if left >= right - 0.8:
                break
            ligature = abs(number - other) == 1
            assert ligature or min(top, high) - max(bottom, low) <= 0.8


# -- heard


@languages
def test_words_to_type_are_heard(locale: str) -> None:
    """The words that help and opening tell people to type are among those listened for."""
    for key in ("help", "help.full", "help.running"):
        text = render(key, {}, locale)
        listed = re.findall(r": ([\w ]+(?:, [\w ]+)+)\.", text)
        explained = re.findall(r"[:;] (\w+)(?=[,.])", text)
        words = {*explained, *(named for names in listed for named in names.split(", "))}
        assert {named: word(named) for named in words if word(named) is None} == {}
        assert Word.STOP in {word(named) for named in words}
    for text in rendered("opening.ready", locale):
        (typed,) = re.findall(r"(?:type|escriba) (\w+)\.", text)
        assert word(typed) is Word.STOP


TOLD_TO_TYPE: Final[Mapping[str, Mapping[str, Mapping[str, Word]]]] = {
    "question.consent": {
        "en": {"my data": Word.MY_DATA, "delete everything": Word.DELETE},
        "es": {"mis datos": Word.MY_DATA, "borrar todo": Word.DELETE},
    },
    "zone.kept": {"en": {"time zone": Word.ZONE}, "es": {"zona horaria": Word.ZONE}},
    "paused": {"en": {"resume": Word.RESUME}, "es": {"reanudar": Word.RESUME}},
    "question.watch": {"en": {"bad day": Word.BAD_DAY}, "es": {"mal día": Word.BAD_DAY}},
    "watch.by-word.symptomatic": {
        "en": {"bad day": Word.BAD_DAY},
        "es": {"mal día": Word.BAD_DAY},
    },
    "watch.by-word.good": {"en": {"good day": Word.GOOD_DAY}, "es": {"buen día": Word.GOOD_DAY}},
    "watch.over": {"en": {"start": Word.START}, "es": {"empezar": Word.START}},
    "plan.day": {"en": {"cancel": Word.CANCEL}, "es": {"cancelar": Word.CANCEL}},
    "repeat.left": {"en": {"book": Word.BOOK}, "es": {"reservar": Word.BOOK}},
    "put-aside.planning": {"en": {"book": Word.BOOK}, "es": {"reservar": Word.BOOK}},
    "put-aside.preparing": {"en": {"start": Word.START}, "es": {"empezar": Word.START}},
    "put-aside.question": {"en": {"time zone": Word.ZONE}, "es": {"zona horaria": Word.ZONE}},
    "handout.after.link": {"en": {"paper": Word.PAPER}, "es": {"papel": Word.PAPER}},
    "paper.when": {"en": {"cancel": Word.CANCEL}, "es": {"cancelar": Word.CANCEL}},
    "paper.reading.hint": {"en": {"fix": Word.FIX}, "es": {"corregir": Word.FIX}},
    "paper.left": {"en": {"paper": Word.PAPER}, "es": {"papel": Word.PAPER}},
    "put-aside.paper": {"en": {"paper": Word.PAPER}, "es": {"papel": Word.PAPER}},
    "symptoms.later": {"en": {"bad day": Word.BAD_DAY}, "es": {"mal día": Word.BAD_DAY}},
    "where.idle": {"en": {"help": Word.HELP}, "es": {"ayuda": Word.HELP}},
    **{
        key: {"en": {"companions": Word.COMPANIONS}, "es": {"acompañantes": Word.COMPANIONS}}
        for key in ("question.share", "companion.joined.alarms", "companion.joined.all")
    },
    "companion.full": {
        "en": {"companion": Word.COMPANION},
        "es": {"acompañante": Word.COMPANION},
    },
    **{
        f"{key}.{share}": {"en": {"leave": Word.LEAVE}, "es": {"salir": Word.LEAVE}}
        for key in ("question.accompany", "accompany.joined")
        for share in Share
    },
}
"""The words that sentences between tests tell people to type, and what they do."""


@languages
def test_words_to_type_between_tests_are_heard(locale: str) -> None:
    """What a sentence between tests tells people to type stands in it as the engine hears it."""
    for key, told in TOLD_TO_TYPE.items():
        (text,) = rendered(key, locale)
        for words, meant in told[locale].items():
            assert re.search(rf"(?i)(?:type|escriba|escribir) .*\b{words}\b", text), key
            assert word(words) is meant


EXAMPLE: Final = re.compile(r": ([^:]*\d{1,2}:\d\d(?: am)?)\.?")
"""What stands after a colon and ends in a time of day."""


@languages
def test_examples_of_days_and_times_are_read(locale: str) -> None:
    """A day and time given as an example of what to type is one that is read without doubt."""
    now = datetime(2026, 3, 2, 9, tzinfo=UTC)
    for key in ("plan.day", "when.unknown-word", "when.which-meaning"):
        (example,) = EXAMPLE.findall(rendered(key, locale)[0])
        assert read_when(example, now) == When(day=date(2026, 3, 7), time=time(8, 30), part=None)
    (example,) = EXAMPLE.findall(rendered("when.which-half", locale)[0])
    assert read_when(example, now) == When(day=None, time=time(8, 30), part=None)
    (example,) = EXAMPLE.findall(rendered("paper.when", locale)[0])
    assert read_past(example, now) == When(day=date(2026, 3, 1), time=time(9, 30), part=None)
    (example,) = EXAMPLE.findall(rendered("question.local-time", locale)[0])
    assert read_time(example) == time(9, 40)


@languages
def test_answers_about_a_paper_can_be_typed_as_their_buttons_read(locale: str) -> None:
    """Typing what a button says is what that button does, and the example of a symptom is one."""
    copying = Playbook().copies().conversation.stage
    assert isinstance(copying, CopyingPaper)
    asked = {
        PaperQuestion.READING: ("missed",),
        PaperQuestion.SYMPTOMS: ("nothing",),
        PaperQuestion.ENDED: ("to-the-end", "supine", "seated", "standing"),
    }
    for question, choices in asked.items():
        record = replace(copying.record, readings=())
        stage = replace(copying, record=record, question=question)
        for choice in choices:
            assert named(stage, render(f"paper.{choice}", {}, locale)) == choice
    for key in ("paper.reading.hint", "paper.symptoms"):
        example = re.findall(r": ([\w ]+ \d)", rendered(key, locale)[0])[-1]
        assert [told.strength for told in symptoms(example)] in ([3], [4])


@languages
def test_labels_are_heard_when_typed(locale: str) -> None:
    """Typing what the most needed buttons say does what they do."""
    heard = {
        "button.stop": Word.STOP,
        "button.where": Word.WHERE,
        "button.symptom": Word.SYMPTOM,
        "button.yes": Word.YES,
        "button.no": Word.NO,
        "button.stop-no": Word.NO,
        "button.leave": Word.NO,
        "button.fine": Word.FINE,
        "button.fix": Word.FIX,
        "button.results": Word.RESULTS,
        "button.new-test": Word.START,
        "button.ready": Word.READY,
        "button.stop-yes": Word.STOP,
        "button.there.supine": Word.SUPINE,
        "button.there.seated": Word.SEATED,
        "button.there.standing": Word.STANDING,
        "button.book": Word.BOOK,
        "button.cancel": Word.CANCEL,
        "button.companion": Word.COMPANION,
    }
    assert {key: word(render(key, {}, locale)) for key in heard} == heard
    assert [age_band(render(f"age.{band}", {}, locale)) for band in AgeBand] == list(AgeBand)


# -- plain


@pytest.mark.parametrize(
    ("spanish", "count"),
    [("pie", 1), ("muy", 1), ("que", 1), ("aún", 2), ("oír", 2), ("guío", 2), ("presión", 2),
     ("ahora", 3), ("número", 3), ("quiere", 2), ("cardíaca", 4), ("acuéstese", 4),
     ("emergencias", 4), ("diagnóstico", 4)],
)  # fmt: skip
def test_syllables_are_counted(spanish: str, count: int) -> None:
    """The measure of the measure: it counts syllables as a person would."""
    assert syllables(spanish) == count


def test_reading_ease_tells_plain_from_hard() -> None:
    """A plain sentence scores high, an official one low."""
    assert reading_ease("Siga en la cama. Ya falta poco.") > 90
    assert reading_ease("La determinación ambulatoria requiere documentación institucional.") < 20


def test_spanish_is_easy_to_read() -> None:
    """What patients read in Spanish is easy: 70 or more by Fernández Huerta, safety words each."""
    texts = {key: rendered(key, "es")[-1] for key in FOR_PATIENTS}
    assert reading_ease("\n".join(texts.values())) >= 70
    hard = {key: reading_ease(texts[key]) for key in safety.MESSAGES}
    assert {key: ease for key, ease in hard.items() if ease < 70} == {}


def test_english_is_easy_to_read() -> None:
    """What patients read in English is of grade 6 or below by Flesch and Kincaid."""
    assert grade("\n\n".join(rendered(key, "en")[-1] for key in FOR_PATIENTS)) <= 6


SAID_FIRST: Final = {
    "stop.now": "Deténgase. Acuéstese ahora mismo",
    "faint.now": "Acuéstese ahora mismo",
    "faint.lie-down": "Acuéstese ahora mismo",
    "emergency.now": "Esto puede ser una emergencia. Llame ahora mismo",
    "unsafe.low": "118/74 es una presión baja para estar de pie. Acuéstese ahora mismo",
    "unsafe.high": "118/74 es una presión muy alta. Siéntese o acuéstese",
}


def test_spanish_safety_words_say_first_what_to_do() -> None:
    """What to do comes first, and the call for help is to the local number, never to a numeral."""
    texts = {key: rendered(key, "es")[0] for key in safety.MESSAGES}
    for key, first in SAID_FIRST.items():
        assert texts[key].startswith(first)
        assert "al número de emergencias de su zona" in texts[key]
        assert not re.search(r"\b(911|112|999|061)\b", texts[key])


def test_spanish_is_formal_and_never_stops_a_medicine() -> None:
    """People are addressed as usted; a medicine is spoken of only as not to be stopped."""
    text = " ".join(form for key in CATALOGUE for form in rendered(key, "es")).lower()
    familiar = ("tú", "tu", "tus", "ti", "contigo", "acuéstate", "siéntate", "escribe", "toca el")
    assert [w for w in familiar if re.search(rf"\b{w}\b", text)] == []
    assert sorted(re.findall(r"(\w+) deje (?:de|ni|un)\b", text)) == ["no", "nunca"]
    assert re.findall(r"deje de tomar|suspenda|interrumpa", text) == []


@pytest.mark.parametrize("locale", LANGUAGES)
@pytest.mark.parametrize("question", [q for q, s in SHAPES.items() if not isinstance(s, Typed)])
def test_every_answer_can_be_typed_as_its_button_reads(question: Question, locale: str) -> None:
    """Typing what a button says picks or ticks just that answer."""
    shape = SHAPES[question]
    assert not isinstance(shape, Typed)
    for choice in shape.choices:
        label = render(f"{shape.labels}.{choice}", {}, locale)
        if isinstance(shape, Tick):
            assert ticks(question, label) == (choice,)
        elif question is not Question.AGE:
            assert picked(question, label) == choice
