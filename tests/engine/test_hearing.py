"""What words mean, apart from readings."""

from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.distress import Grade, hear
from bot.engine import hearing
from bot.engine.vocabulary import SYMPTOMS, WHOLE, Word
from bot.protocol.record import AgeBand, Symptom

EMERGENCY: Final = (
    # English
    "fainted", "passed out", "blacked out", "collapsed", "unconscious",
    "chest pain", "pain in my chest", "pain in the chest", "chest hurts", "chest is hurting",
    "cant breathe", "cannot breathe", "can not breathe", "cant breath", "trouble breathing",
    "hard to breathe", "struggling to breathe", "cant get my breath", "heart attack",
    "stroke", "seizure", "face is drooping", "cant speak", "cant move my arm",
    "ambulance", "call 112",
    "chest tightness", "chest is tight", "tight chest", "tightness in my chest",
    "chest is heavy", "no breath", "i fell", "fell down", "have fallen", "need help",
    "im on the floor",
    "i am on the floor",
    "911", "999", "emergency", "sos", "help me",
    "want to die", "kill myself", "suicide", "end my life",
    # Spanish
    "me desmaye", "desmayado", "desmayada", "se desmayo", "perdi el conocimiento", "inconsciente",
    "dolor de pecho", "dolor en el pecho", "dolor en mi pecho", "me duele el pecho",
    "no puedo respirar", "me falta el aire", "me cuesta respirar", "me ahogo", "infarto",
    "ictus", "derrame cerebral", "convulsion", "no puedo hablar", "no puedo mover el brazo",
    "me duele mucho el pecho", "me aprieta el pecho", "opresion en el pecho", "no respiro",
    "me cai", "me he caido", "estoy en el suelo", "emergencia", "socorro", "auxilio", "ayudame",
    "ayudeme",
    "ambulancia", "quiero morir", "quiero morirme", "matarme", "suicid",
)  # fmt: skip
"""Words of an emergency (families from clinical first-aid pages: common practice, no source)."""

NEAR_FAINT: Final = (
    # English
    "fainting", "feel like fainting", "collapsing", "went black", "goes black",
    "cant see", "cannot see", "about to black out", "black spots",
    "going to faint", "gonna faint", "about to faint", "might faint", "will faint", "feel faint",
    "feeling faint", "feel like i might faint",
    "going to pass out", "gonna pass out", "about to pass out", "might pass out",
    "passing out", "blacking out", "going to black out", "vision is going", "vision going",
    "sight is going", "going black", "going dark", "tunnel vision", "cold sweat",
    "cant stand", "cannot stand", "can not stand", "legs are giving way", "going to collapse",
    "going to fall",
    # Spanish
    "me estoy desmayando", "me siento desmayar", "no veo",
    "voy a desmayar", "me desmayo", "punto de desmayar", "desmayandome",
    "se me nubla", "se me va la vista",
    "veo negro", "veo todo negro", "todo negro", "sudor frio", "no puedo estar de pie",
    "no aguanto de pie", "no me tengo en pie", "me voy a caer", "me caigo",
)  # fmt: skip
"""Words of a faint that is near (Rowe 2017, Front Pediatr 5:121, and public first-aid pages)."""


@pytest.mark.parametrize(
    ("text", "band"),
    [
        ("11", AgeBand.UNDER_12),
        ("under 12", AgeBand.UNDER_12),
        ("menos de 12", AgeBand.UNDER_12),
        ("12", AgeBand.FROM_12_TO_19),
        ("19", AgeBand.FROM_12_TO_19),
        ("12 to 19", AgeBand.FROM_12_TO_19),
        ("12-19", AgeBand.FROM_12_TO_19),
        ("20", AgeBand.FROM_20),
        ("I'm 43 years old", AgeBand.FROM_20),
        ("Tengo 43 años", AgeBand.FROM_20),
        ("20 o más", AgeBand.FROM_20),
        ("over 20", AgeBand.FROM_20),
        ("４３", AgeBand.FROM_20),
        ("under 20", None),
        ("0", None),
        ("130", None),
        ("1983", None),
        ("11 or 12", None),
        ("dizzy 4", None),
        ("120/80 70", None),
        ("forty", None),
        ("", None),
    ],
)
def test_age_is_heard_only_where_it_is_meant(text: str, band: AgeBand | None) -> None:
    """An age or its bounds give the band; anything doubtful gives none."""
    assert hearing.age_band(text) is band


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("dizzy 6", [(Symptom.DIZZY, 6)]),
        ("Dizzy, 6/10", [(Symptom.DIZZY, 6)]),
        ("6 dizzy", [(Symptom.DIZZY, 6)]),
        ("mareada", [(Symptom.DIZZY, None)]),
        ("light-headed 3 and headache 10", [(Symptom.DIZZY, 3), (Symptom.HEADACHE, 10)]),
        ("dizzy 11", [(Symptom.DIZZY, None)]),
        ("visión borrosa 4 de 10", [(Symptom.BLURRED_VISION, 4)]),
        ("124/76 72 dizzy 5", [(Symptom.DIZZY, 5)]),
        ("tomatoes 4", []),
    ],
)
def test_symptoms_are_heard_with_their_strength(
    text: str, heard: list[tuple[Symptom, int | None]]
) -> None:
    """A strength from 0 to 10 belongs to the symptom it stands by."""
    assert [(s.symptom, s.strength) for s in hearing.symptoms(text)] == heard


@pytest.mark.parametrize(
    ("text", "strength"),
    [("6", 6), ("6/10", 6), ("10", 10), ("0", 0), ("6 out of 10", 6), ("11", None), ("six", None)],
)
def test_strength_is_a_number_from_0_to_10(text: str, strength: int | None) -> None:
    """A bare strength is understood in the usual forms."""
    assert hearing.strength(text) == strength


def test_vocabulary_stands_as_it_is_heard() -> None:
    """Every phrase is written the way a message is normalised, and means one thing only."""
    phrases = [p for ps in WHOLE.values() for p in ps]
    for phrase in phrases:
        assert hearing.normalised(phrase) == phrase
    assert len(set(phrases)) == len(phrases)
    symptoms = [p for ps in SYMPTOMS.values() for p in ps]
    assert len(set(symptoms)) == len(symptoms)
    assert all(hearing.word(p) is word for word, ps in WHOLE.items() for p in ps)


@pytest.mark.parametrize("phrase", EMERGENCY)
def test_emergency_is_heard_inside_longer_text(phrase: str) -> None:
    """An emergency phrase is found in capitals, among other words and signs."""
    heard = hear(f"Help!! i think {phrase.upper()}, please")
    assert heard is not None
    assert heard.grade is Grade.EMERGENCY


@pytest.mark.parametrize("phrase", NEAR_FAINT)
def test_near_faint_is_heard_inside_longer_text(phrase: str) -> None:
    """So is a faint that is near."""
    assert hear(f"oh.. i think {phrase.upper()} now") is not None


@pytest.mark.parametrize(
    "text",
    ["I am fine", "dizzy 4", "124/76 72", "where am I", "the strokes of the clock"[:0], "ok"],
)
def test_everyday_words_are_no_emergency(text: str) -> None:
    """Ordinary messages raise no alarm."""
    assert hear(text) is None


@given(st.text(max_size=300))
def test_no_text_is_too_odd(text: str) -> None:
    """Nothing that can be typed raises."""
    hearing.word(text)
    hearing.perhaps_stop(text)
    hearing.symptoms(text)
    hearing.strength(text)
    hearing.age_band(text)


@pytest.mark.parametrize("text", ["Stop", " STOP. ", "¡Para!", "/stop", "stop stop stop"])
def test_stop_is_stop_in_any_dress(text: str) -> None:
    """Signs, capitals and a leading slash do not hide the word."""
    assert hearing.word(text) is Word.STOP
