"""Messages with the slips of typing, and the numbers that stand in each."""

import random
from collections.abc import Iterator
from dataclasses import dataclass

from num2words import num2words  # type: ignore[import-untyped]

from bot.protocol.record import Measure, Values

S, D, H = Measure.SYSTOLIC, Measure.DIASTOLIC, Measure.HEART_RATE

FORMS = (
    *("{s}/{d} {h}", "{s}/{d}, {h}", "{s}/{d}\n{h}", "{s} {d} {h}", "{s}-{d}-{h}", "{s}/{d}/{h}"),
    *("bp {s}/{d} hr {h}", "BP: {s}/{d} HR: {h}", "{s} over {d} pulse {h}", "{s}/{d} p{h}"),
    *("sys {s} dia {d} pul {h}", "SYS {s}\nDIA {d}\nPUL {h}", "{s} sys {d} dia {h} bpm"),
    *("pulse {h} bp {s}/{d}", "{h} bpm, {s}/{d} mmHg", "top {s} bottom {d} pulse {h}"),
    *("ta {s}/{d} fc {h}", "{s} sobre {d} pulso {h}", "{s} con {d} y {h} de pulso"),
    *("máxima {s} mínima {d} pulso {h}", "la alta {s} la baja {d}", "presión {s}/{d}, pulso {h}"),
    *("{s}/{d}", "{s} over {d}", "pulse {h}", "{h} lpm", "{s} {d}", "hr {h}", "{h}"),
    *("my pulse is {h} and my bp is {s}/{d}", "{s}/{d} {h} spo2 97", "spo2 97 pr {h}"),
    *("sys {s} dia {d} pul {h} spo2 98 pr {h}", "{s}/{d} {h} dizzy 6", "mareo 7 {s}/{d} {h}"),
)
AROUND = (
    *("spo2 97", "97%", "5 min", "10:05", "a las 10:05", "10 am", "12/08/2024", "dizzy 6"),
    *("nausea 3/10", "mareo 7", "feeling 40", "dolor 60", "36.8", "36,8 grados", "temp 37"),
    *("weight 72 kg", "110 mg/dl", "rr 16", "map 92", "room 212", "losartan 100/25", "50 mg"),
    *("I am 65 years old", "67 años", "2 coffees", "30 squats", "reading 2:", "#3", "standing"),
    *("de pie", "left arm", "no pain", "ok", "hola", "E2", "err 3", "is that ok?", "sorry"),
    *("again", "otra vez", "no", "perdón", "phone 5551234", "+30", "about", "unos", "same"),
    *("twenty", "por ciento", "i'm 44", "thanks", "gracias", "my mum is here", "brazo izquierdo"),
)
EMOJI = ("👍", "❤️", "😵‍💫", "🙏🏽", "💓", "✅", "1️⃣", "°")
SEPARATORS = ".,;:-/ _|"


@dataclass(frozen=True, slots=True, kw_only=True)
class Noisy:
    """A message with slips in it.

    Attributes:
        text: What was sent.
        typed: For each number that stands in it, what a careful person reads.
    """

    text: str
    typed: dict[Measure, int]

    def wrong(self, values: Values) -> bool:
        """Return whether a number was taken that is not the one that was typed for it."""
        taken = ((S, values.systolic), (D, values.diastolic), (H, values.heart_rate))
        return any(
            number is not None and number != self.typed.get(measure) for measure, number in taken
        )


Part = tuple[Measure | None, str]
"""Some text, and the number it is, if it is one."""


def messages(count: int, seed: int) -> Iterator[Noisy]:
    """Yield messages, the same for the same seed."""
    chance = random.Random(seed)
    for _ in range(count):
        systolic = chance.randint(85, 200)
        diastolic = systolic - chance.randint(20, 70)
        rate = chance.randint(40, 180)
        yield _message({S: systolic, D: diastolic, H: rate}, chance)


def _message(numbers: dict[Measure, int], chance: random.Random) -> Noisy:
    words = chance.choice(("", "", "", "en", "es"))
    parts: list[Part] = []
    rest = chance.choice(FORMS)
    for name, measure in (("{s}", S), ("{d}", D), ("{h}", H)):
        rest = rest.replace(name, f"\0{measure}\0")
    for piece in rest.split("\0"):
        if piece in {S, D, H}:
            measure = Measure(piece)
            digits = str(numbers[measure])
            # A round hundred in words would run into the number after it for anyone.
            spoken = words and numbers[measure] % 100 and chance.random() < 0.7
            parts.append((measure, num2words(int(digits), lang=words) if spoken else digits))
        elif piece:
            parts.append((None, piece))
    typed = {measure: numbers[measure] for measure, _ in parts if measure is not None}
    for _ in range(chance.choice((0, 1, 1, 1, 2))):
        chance.choice((_doubled, _lost, _run_together, _other_mark, _emoji, _spaced, _around))(
            parts, typed, chance
        )
    return Noisy(text="".join(text for _, text in parts), typed=typed)


def _digits(parts: list[Part]) -> list[int]:
    return [
        place
        for place, (measure, text) in enumerate(parts)
        if measure is not None and text.isdecimal() and len(text) in {2, 3}
    ]


def _doubled(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Type a digit twice; what stands there then is what was typed."""
    for place in chance.sample(_digits(parts), k=min(1, len(_digits(parts)))):
        measure, text = parts[place]
        at = chance.randrange(len(text))
        _retype(parts, typed, place, text[:at] + text[at] + text[at:], measure)


def _lost(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Leave a digit out."""
    for place in chance.sample(_digits(parts), k=min(1, len(_digits(parts)))):
        measure, text = parts[place]
        at = chance.randrange(len(text))
        _retype(parts, typed, place, text[:at] + text[at + 1 :], measure)


def _retype(
    parts: list[Part],
    typed: dict[Measure, int],
    place: int,
    text: str,
    measure: Measure | None,
) -> None:
    parts[place] = (measure, text)
    if measure is not None:
        typed[measure] = int(text)


def _run_together(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Leave a space out."""
    places = [i for i, (measure, text) in enumerate(parts) if measure is None and " " in text]
    if not places:
        return
    place = chance.choice(places)
    text = parts[place][1]
    at = chance.choice([i for i, character in enumerate(text) if character == " "])
    parts[place] = (None, text[:at] + text[at + 1 :])


def _other_mark(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Type another mark between two numbers."""
    places = [
        i
        for i, (measure, text) in enumerate(parts)
        if measure is None and 0 < i < len(parts) - 1 and len(text) == 1
    ]
    if places:
        parts[chance.choice(places)] = (None, chance.choice(SEPARATORS))


def _emoji(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Touch an emoji somewhere between the parts."""
    parts.insert(chance.randint(0, len(parts)), (None, chance.choice(EMOJI[:-2])))


def _spaced(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Type a space within a number."""
    for place in chance.sample(_digits(parts), k=min(1, len(_digits(parts)))):
        measure, text = parts[place]
        at = chance.randrange(1, len(text))
        parts[place] = (measure, f"{text[:at]} {text[at:]}")


def _around(parts: list[Part], typed: dict[Measure, int], chance: random.Random) -> None:
    """Say something else before or after."""
    words, between = chance.choice(AROUND), chance.choice((" ", ", ", "\n", ". "))
    if chance.random() < 0.5:
        parts.insert(0, (None, words + between))
    else:
        parts.append((None, between + words))
