"""What holds for every message and every phrase, whatever it is."""

import sys
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.distress import Doubt, Grade, Heard, Kind, hear, hear_all, unwell
from bot.distress.heard import GRADES
from tests.distress.corpus import examples, files
from tests.distress.slips import NAMES, phrases, share_heard

SURE = [
    (example.message, example.grade)
    for path in files()
    for example in examples(path)
    if path.stem.startswith("tuned") and example.grade is not None and example.certain
]
WORDED = [
    (message, grade) for message, grade in SURE if len(message) > 5 and message.isascii()
    and message.replace(" ", "").replace("'", "").isalpha()
]  # fmt: skip
HARMLESS_BEFORE = ["ok so", "hi", "well", "sorry", "hola", "bueno", "118/76 72", "listen,"]
HARMLESS_AFTER = ["i think", "in the kitchen", "thanks", "gracias", "y estoy en casa", ", 118/76"]
AT_MOST_STEPS = 40 * 4096


@given(st.text(max_size=4200))
def test_no_text_is_too_odd(text: str) -> None:
    """Nothing that can be typed raises, and what is heard stands in the message."""
    for heard in hear_all(text):
        assert heard.words in text
        assert heard.grade is GRADES[heard.kind]
    assert hear(text) == next(iter(hear_all(text)), None)
    unwell(text)


@settings(max_examples=300)
@given(
    st.sampled_from(SURE), st.sampled_from(HARMLESS_BEFORE), st.sampled_from(HARMLESS_AFTER)
)  # fmt: skip
def test_ordinary_words_around_never_silence(
    call: tuple[str, Grade], before: str, after: str
) -> None:
    """A call is heard among ordinary words, and not as anything less.

    A bare number or a bare cry is a call only by itself.
    """
    message, grade = call
    kinds = {heard.kind for heard in hear_all(message)}
    if kinds == {Kind.PLEA} and not any(ch.isalpha() for ch in message.replace("help", "")):
        return
    heard = hear(f"{before} {message} {after}")
    if heard is None and hear(message) is not None and is_cry(message):
        return
    assert heard is not None
    assert grade is Grade.NEAR_FAINT or heard.grade is Grade.EMERGENCY


def is_cry(message: str) -> bool:
    """Whether the message is nothing but cries of help, which need no other words."""
    plain = unicodedata.normalize("NFKD", message.casefold())
    letters = "".join(ch for ch in plain if ch.isalpha())
    return set(letters) <= set("help") or set(letters) <= set("ayud")


@settings(max_examples=300)
@given(st.sampled_from(WORDED), st.data())
def test_dress_never_silences(call: tuple[str, Grade], data: st.DataObject) -> None:
    """Capitals, accents, drawn-out letters and invisible characters take nothing away."""
    message, grade = call
    letters = [index for index, ch in enumerate(message) if ch.isalpha()]
    at = data.draw(st.sampled_from(letters))
    accent = data.draw(st.sampled_from(["\u0301", "\u0308", "\u0303"]))
    hidden = data.draw(st.sampled_from(["\u200b", "\u200d", "\u2060", "\ufeff", "\u00ad"]))
    for dressed in (
        message.upper(),
        message.title(),
        unicodedata.normalize("NFC", message[: at + 1] + accent + message[at + 1 :]),
        message[: at + 1] + hidden + message[at + 1 :],
        message[:at] + message[at] * data.draw(st.integers(4, 9)) + message[at + 1 :],
    ):
        heard = hear(dressed)
        assert heard is not None, dressed
        assert grade is Grade.NEAR_FAINT or heard.grade is Grade.EMERGENCY, dressed


@settings(max_examples=200)
@given(st.sampled_from(WORDED))
def test_full_width_letters_are_letters(call: tuple[str, Grade]) -> None:
    """Letters of another width are heard as the same."""
    wide = "".join(chr(ord(ch) + 0xFEE0) if ch.isalpha() else ch for ch in call[0])
    assert hear(wide) is not None


@pytest.mark.parametrize("language", NAMES)
@pytest.mark.parametrize(("several", "share"), [(False, 0.99), (True, 0.99)])
def test_one_slip_is_still_heard(language: str, several: bool, share: float) -> None:
    """Of the phrases with one slip in a word of five letters or more, 99 % or more are heard.

    The rest have become other words by the slip.
    """
    heard, tried = share_heard(phrases(language), several=several)
    assert heard / tried >= share


@pytest.mark.parametrize(
    "text",
    [
        "chest pain " * 400, "no chest pain " * 300, "icantbreathe" * 342, "x" * 4096, "a " * 2048,
        "1 " * 2048, "\N{DIZZY FACE}" * 4096, "é" * 4096, "?! " * 1365, "i fell " * 585,
        "going to " * 455, "last year i fainted " * 204, "qwrtpsd " * 512,
    ],
)  # fmt: skip
def test_longest_message_takes_a_bounded_number_of_steps(text: str) -> None:
    """The longest message there is takes a bounded number of calls, whatever it holds.

    How long they take is for the benchmark to say.
    """
    steps = 0

    def count(frame: object, event: str, argument: object) -> None:
        nonlocal steps
        steps += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(count)
    try:
        hear(text)
    finally:
        sys.setprofile(before)
    assert steps <= AT_MOST_STEPS


def test_call_at_the_end_of_the_longest_message_is_heard() -> None:
    """A call is heard wherever it stands among 4096 characters."""
    message = ("the cuff is on and I am lying down now, " * 110)[:4080] + " chest pain"
    assert hear(message) == Heard(
        grade=Grade.EMERGENCY, kind=Kind.CHEST_PAIN, doubt=None, words="chest pain"
    )


@pytest.mark.parametrize(
    ("message", "kind", "doubt"),
    [
        ("no chest pain", Kind.CHEST_PAIN, Doubt.DENIED),
        ("no, chest pain!", Kind.CHEST_PAIN, None),
        ("I fainted last year", Kind.FAINTED, Doubt.PAST),
        ("my mother had a stroke", Kind.STROKE, Doubt.ABOUT_OTHER),
        ("what if I faint?", Kind.FAINTED, Doubt.SUPPOSED),
        ("am I going to faint?", Kind.FAINTING, Doubt.QUESTION),
        ("I sometimes get chest pain", Kind.CHEST_PAIN, Doubt.HABIT),
        ("112", Kind.PLEA, Doubt.NUMBER),
        ("faint 9", Kind.FAINTING, Doubt.UNCLEAR),
        ("can't breathe", Kind.BREATH, None),
        ("not able to stand", Kind.CANNOT_STAND, None),
        ("I did not faint but I have chest pain", Kind.CHEST_PAIN, None),
        ("sin dolor de pecho", Kind.CHEST_PAIN, Doubt.DENIED),
        ("me desmayé el año pasado", Kind.FAINTED, Doubt.PAST),
        ("very dizzy, no chest pain", Kind.VERY_DIZZY, None),
    ],
)
def test_doubt_is_named(message: str, kind: Kind, doubt: Doubt | None) -> None:
    """What is in doubt says why, and what is certain comes before it."""
    heard = hear(message)
    assert heard is not None
    assert (heard.kind, heard.doubt) == (kind, doubt)


def test_every_kind_is_told() -> None:
    """What is behind the first call is there as well, each kind once."""
    heard = hear_all("very dizzy, no chest pain")
    assert [(h.kind, h.doubt) for h in heard] == [
        (Kind.VERY_DIZZY, None),
        (Kind.CHEST_PAIN, Doubt.DENIED),
    ]


@pytest.mark.parametrize(
    "message",
    ["not ok", "I feel bad", "I don't feel well", "no estoy bien", "me siento mal", "muy mal",
     "I feel awfull", "not feeling well", "me encuentro fatal"],
)  # fmt: skip
def test_unwell_is_heard(message: str) -> None:
    """Words that a person is not all right are heard though they are no call for help."""
    assert unwell(message)


@pytest.mark.parametrize("message", ["ok", "I feel fine", "estoy bien", "120/80 72", "good day"])
def test_well_is_not_unwell(message: str) -> None:
    """Ordinary words are not taken for feeling unwell."""
    assert not unwell(message)
