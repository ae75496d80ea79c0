"""What messages come to, one line each."""

import pytest

from bot.protocol.record import Measure, Values
from bot.readings import read
from bot.readings.outcome import Doubt, Doubtful, Outcome, Problem, Several, Understood, Unreadable

NONE = Values()
BP = Values(systolic=124, diastolic=76)
HR = Values(heart_rate=72)
SYS = Values(systolic=124)
SYS_HR = Values(systolic=124, heart_rate=72)
FULL = Values(systolic=124, diastolic=76, heart_rate=72)

S, D, H = Measure.SYSTOLIC, Measure.DIASTOLIC, Measure.HEART_RATE


def ok(
    values: Values, rest: str = "", *, correction: bool = False, again: bool = False
) -> Understood:
    """Return numbers read without doubt."""
    return Understood(values=values, rest=rest, correction=correction, again=again)


def both(*readings: Values, rest: str = "") -> Several:
    """Return two readings in one message."""
    return Several(readings=readings, rest=rest)


def odd(values: Values, doubt: Doubt, suggested: Values | None = None) -> Doubtful:
    """Return numbers to be asked about."""
    return Doubtful(values=values, doubt=doubt, suggested=suggested)


def which(number: int | None = None, understood: Values = NONE) -> Unreadable:
    """Return the question which number was meant."""
    return Unreadable(problem=Problem.WHICH_NUMBER, number=number, understood=understood)


def many(understood: Values = NONE) -> Unreadable:
    """Return the outcome of too many numbers."""
    return Unreadable(problem=Problem.TOO_MANY, understood=understood)


def impossible(number: int, measure: Measure | None, understood: Values = NONE) -> Unreadable:
    """Return the outcome of a number that cannot be."""
    return Unreadable(
        problem=Problem.IMPOSSIBLE, number=number, measure=measure, understood=understood
    )


def v(systolic: int | None, diastolic: int | None, heart_rate: int | None) -> Values:
    """Return values in the order of a display."""
    return Values(systolic=systolic, diastolic=diastolic, heart_rate=heart_rate)


NOTHING = Unreadable(problem=Problem.NO_NUMBERS)

WHOLE_READINGS = (
    "124/76 72",
    "124/76, 72",
    "124/76,72",
    "124/76; 72",
    "124/76\n72",
    "124\n76\n72",
    "124/76 - 72",
    "124/76 @ 72",
    "124/76 + 72",
    "124/76+72",
    "124/76 (72)",
    "124/76(72)",
    "(124/76) 72",
    '"124/76 72"',
    "124/76 72.",
    "124/76 72!",
    "124 over 76 pulse 72",
    "124 OVER 76 PULSE 72",
    "124 sobre 76 pulso 72",
    "124 con 76 y 72 de pulso",
    "124x76 72",
    "124×76 72",
    "124÷76 72",
    "124 76 72",
    "124, 76, 72",
    "124,76,72",
    "124-76-72",
    "124 - 76 - 72",
    "124–76 72",
    "124—76—72",
    "124−76 72",
    "124/76/72",
    "124 / 76 / 72",
    "124 / 76 72",
    "124 /76 72",
    "124\\76 72",
    "124\\76\\72",
    "124|76|72",
    "124 | 76 | 72",
    "124·76·72",
    "124:76 72",
    "124;76;72",
    "124⁄76 72",
    "124∕76 72",
    "124／76／72",
    "124.76 p72",
    "124.76.72",
    "72 124/76",
    "72, 124/76",
    "72 and 124/76",
    "72 / 124/76",
    "BP: 124/76 HR: 72",
    "bp 124/76, pulse 72",
    "bp=124/76 hr=72",
    "bp124/76hr72",
    "hr72bp124/76",
    "BP 124-76, HR-72",
    "b.p. 124/76 h.r. 72",
    "B/P 124/76 p 72",
    "124/76 P:72",
    "ta 124/76 fc 72",
    "P.A. 124/76 F.C. 72",
    "T/A 124/76, F/C 72",
    "sys 124 dia 76 pul 72",
    "SYS124 DIA76 PUL72",
    "sys. 124 dia. 76 pul. 72",
    "124 sys 76 dia 72 pulse",
    "124sys76dia72pul",
    "124 sys 76 dia 72",
    "SYS: 124\nDIA: 76\nPUL: 72",
    "SYS mmHg 124\nDIA mmHg 76\nPUL /min 72",
    "SYS/DIA 124/76 PUL 72",
    "sys dia pul\n124 76 72",
    "bp hr: 124/76 72",
    "pulse and bp: 72 and 124/76",
    "pulse 72 bp 124/76",
    "pulse was 72 and bp 124/76",
    "pulse 72 124 76",
    "72 pulse 124 76",
    "124 76 pulse 72",
    "124 76 72 bpm",
    "bp 124 76 hr 72",
    "bp 124 76 72",
    "124/76mmHg 72/min",
    "124/76 mm Hg, 72 b.p.m.",
    "124 mmHg / 76 mmHg, 72 bpm",
    "124 mmHg 76 mmHg 72 bpm",
    "124mmhg/76mmhg 72 x min",
    "124/76 72 beats/min",
    "Blood pressure 124 over 76 and heart rate 72 beats per minute",
    "My BP is 124/76 and my pulse is 72bpm",
    "ok, it's 124/76 and 72 now",
    "la presión es 124/76 y el pulso 72",
    "presión arterial 124/76, frecuencia cardíaca 72 lpm",
    "Presion Arterial 124/76 Frecuencia Cardiaca 72 ppm",
    "mi presión es de 124/76 y mis pulsaciones son 72",
    "tengo 124 sobre 76 con pulso de 72",
    "me salió 124/76 y 72 de pulso",
    "me da 124/76 con 72 latidos por minuto",
    "124 por 76, 72 por minuto",
    "sistólica 124 diastólica 76 pulsaciones 72",
    "máxima 124 mínima 76 latidos 72",
    "buenos días, 124/76 72",
    "１２４／７６　７２",
    "١٢٤/٧٦ ٧٢",
    "١٢٤٫٧٦ p٧٢",
    "१२४/७६ ७२",
    "𝟏𝟐𝟒/𝟕𝟔 𝟕𝟐",
    "1️⃣2️⃣4️⃣/7️⃣6️⃣ 7️⃣2️⃣",
    "124/76 ❤️ 72",
    "🩺124/76💓72",
    "ＢＰ １２４/７６ ＨＲ ７２",
    "0124/076 072",
)

TABLE: tuple[tuple[str, Values, Outcome], ...] = (
    # one part at a time
    ("hr 72", NONE, ok(HR)),
    ("pulse 72", NONE, ok(HR)),
    ("72 bpm", NONE, ok(HR)),
    ("72/min", NONE, ok(HR)),
    ("72 lpm", NONE, ok(HR)),
    ("latidos 72", NONE, ok(HR)),
    ("frecuencia 72", NONE, ok(HR)),
    ("hr 72 pulse 72", NONE, ok(HR)),
    ("pulse\n72", NONE, ok(HR)),
    ("bp 124/76", NONE, ok(BP)),
    ("pa 124/76", NONE, ok(BP)),
    ("124/76", NONE, ok(BP)),
    ("124/76 👍", NONE, ok(BP)),
    ("124 76", NONE, ok(BP)),
    ("SYS124 DIA76", NONE, ok(BP)),
    ("systolic 124", NONE, ok(SYS)),
    ("diastólica 76", NONE, ok(v(None, 76, None))),
    ("diasto\u0301lica 76", NONE, ok(v(None, 76, None))),
    ("sys 124 pulse 72", NONE, ok(SYS_HR)),
    # bare numbers fill what is missing, if that is one thing
    ("72", BP, ok(HR)),
    ("it's 72", BP, ok(HR)),
    ("=72", BP, ok(HR)),
    ("124 76", HR, ok(BP)),
    ("124/76", HR, ok(BP)),
    ("76", SYS_HR, ok(v(None, 76, None))),
    ("72", NONE, which(72)),
    ("72", SYS, which(72)),
    ("72", FULL, which(72)),
    ("76 72", SYS, which()),
    ("124 76", BP, which()),
    ("124", HR, which(124)),
    # a whole new reading replaces
    ("130/80 75", FULL, ok(v(130, 80, 75))),
    ("130 80 75", FULL, ok(v(130, 80, 75))),
    ("130/80 75", BP, ok(v(130, 80, 75))),
    ("hr 75", FULL, ok(v(None, None, 75))),
    # other words
    ("124/76 72 dizzy 6", NONE, ok(FULL, "dizzy 6")),
    ("dizzy 6 124/76 72", NONE, ok(FULL, "dizzy 6")),
    ("dizzy,6,124/76,72", NONE, ok(FULL, "dizzy,6")),
    ("124/76 72 dizzy 6/10", NONE, ok(FULL, "dizzy 6/10")),
    ("mareada 7 124/76 72", NONE, ok(FULL, "mareada 7")),
    ("nausea 3, dizzy 6, 124/76, 72", NONE, ok(FULL, "nausea 3, dizzy 6")),
    ("124/76. Pulse 72. Dizzy 5.", NONE, ok(FULL, "Dizzy 5")),
    ("feeling dizzy 124/76 72", NONE, ok(FULL, "feeling dizzy")),
    ("dizzy 124 76 72", NONE, ok(FULL, "dizzy")),
    ("124/76 72 and my head is spinning", NONE, ok(FULL, "head is spinning")),
    ("124/76 72 no dizziness", NONE, ok(FULL, "no dizziness")),
    ("124/76 72 not dizzy", NONE, ok(FULL, "not dizzy")),
    ("standing 5 min 124/76 72", NONE, ok(FULL, "standing 5 min")),
    ("72, dizzy 6", BP, ok(HR, "dizzy 6")),
    ("my heart is racing, pulse 130", NONE, ok(v(None, None, 130), "heart is racing")),
    ("124/76 chest pressure 7 72", NONE, which(72, BP)),
    ("fix 130/80 72", NONE, ok(v(130, 80, 72), "fix", correction=True)),
    ("no, 124/76 72", NONE, ok(FULL, "no", correction=True)),
    ("124/76 7Z", NONE, ok(BP, "7Z")),
    ("dizzy 6", NONE, NOTHING),
    ("dizzy 6", BP, NOTHING),
    ("8 out of 10", BP, NOTHING),
    ("dizzy 72", BP, which(72)),
    ("72 dizzy", BP, which(72)),
    ("30 squats", BP, which(30)),
    ("30 squats 124/76", NONE, which(30)),
    ("2 coffees 124/76 72", NONE, ok(FULL, "2 coffees")),
    # numbers of other things
    ("spo2 97", BP, NOTHING),
    ("SpO₂ 97", BP, NOTHING),
    ("sat 97", BP, NOTHING),
    ("97%", BP, NOTHING),
    ("36.8 °C", BP, NOTHING),
    ("temp 37", BP, NOTHING),
    ("10:05", BP, NOTHING),
    ("10.30 am", BP, NOTHING),
    ("9 pm", BP, NOTHING),
    ("5 min", BP, NOTHING),
    ("5'", BP, NOTHING),
    ("30 minutes", BP, NOTHING),
    ("12/08/2024", BP, NOTHING),
    ("2024-08-12", BP, NOTHING),
    ("pulse pressure 48", BP, NOTHING),
    ("max heart rate 150", BP, NOTHING),
    ("map 92", BP, NOTHING),
    ("weight 72 kg", BP, NOTHING),
    ("65 years old", BP, NOTHING),
    ("covid 19", BP, NOTHING),
    ("call 5551234", BP, NOTHING),
    ("#2 124/76 72", NONE, ok(FULL, "#2")),
    ("reading 2: 124/76 72", NONE, ok(FULL, "reading 2")),
    ("10:05 124/76 72", NONE, ok(FULL, "10:05")),
    ("124/76 72 at 8am", NONE, ok(FULL, "8am")),
    ("12/08/2024 124/76 72", NONE, ok(FULL, "12/08/2024")),
    ("124/76 72 spo2 97%", NONE, ok(FULL, "spo2 97%")),
    ("124/76 72 97% spo2", NONE, ok(FULL, "97% spo2")),
    ("124/76 72, spo2 97", NONE, ok(FULL, "spo2 97")),
    ("124/76 72 spo2: 97", NONE, ok(FULL, "spo2: 97")),
    ("124/76 pulse 72 spo2 97", NONE, ok(FULL, "spo2 97")),
    ("97 spo2 72 hr", NONE, ok(HR, "97 spo2")),
    ("hr 72 97 spo2", NONE, ok(HR, "97 spo2")),
    ("hr/spo2 72/97", NONE, ok(HR, "spo2")),
    ("124/76 110 spo2 97", NONE, ok(v(124, 76, 110), "spo2 97")),
    ("124/76 72 spo2 97", NONE, ok(FULL, "spo2 97")),
    ("124/76 88 spo2 97", NONE, which(understood=BP)),
    ("124/76 72 spo2 97 pr 72", NONE, ok(FULL, "spo2 97")),
    ("124/76 72 spo2 97 pr 74 pi 5.2", NONE, many(v(124, 76, 74))),
    ("temp 36,8 hr 72", NONE, ok(HR, "temp 36,8")),
    ("took losartan 100/25, bp 124/76 hr 72", NONE, ok(FULL, "took losartan 100/25")),
    ("took losartan 100/25", NONE, which()),
    ("losartan 50/12.5", NONE, which()),
    # which number?
    ("97 72", NONE, which()),
    ("95 60", NONE, which()),
    ("95 60", HR, ok(v(95, 60, None))),
    ("76 124", NONE, which()),
    ("72 124 76", NONE, which()),
    ("130 105 60", NONE, which()),
    ("150 / 90/60", NONE, which(understood=v(90, 60, None))),
    ("124 pulse 72", NONE, which()),
    ("bp 124", NONE, which(124)),
    ("bp 124 hr 72", NONE, which(124, HR)),
    ("pulse 124/76", NONE, which()),
    ("pulse and bp 150/90 60", NONE, which()),
    ("pulse 70-75", NONE, which()),
    ("sys 120-124 dia 76", NONE, which(understood=v(None, 76, None))),
    ("hr 72->102", NONE, which()),
    ("hr 70 to 75", NONE, which()),
    ("pulse about 72", NONE, which(72)),
    ("pulse over 120", NONE, which(120)),
    ("hr +30", NONE, which()),
    ("hr ↑30", NONE, which()),
    ("~72", BP, which()),
    ("155% 55", BP, which()),
    ("124/76 30 stairs", NONE, ok(BP, "30 stairs")),
    ("sys 124 / dia 76 / 72 bpm", NONE, ok(FULL)),
    ("hr 72.5", NONE, which()),
    ("124.5/76", NONE, which()),
    ("72½", BP, which()),
    ("hr ②", NONE, which()),
    ("hr 72\u0336", NONE, which()),
    ("1٢4/76 72", NONE, which()),
    ("l24/76 72", NONE, which()),
    ("12O/8o 7O", NONE, ok(Values(systolic=120, diastolic=80, heart_rate=70))),
    ("1o8 sobre 7o pulso 8o", NONE, ok(Values(systolic=108, diastolic=70, heart_rate=80))),
    ("1OO/60 80", NONE, ok(Values(systolic=100, diastolic=60, heart_rate=80))),
    ("mi 2o intento 124/76 72", NONE, ok(FULL, "2o")),
    ("124/7b 72", NONE, which()),
    ("124/76 O72", NONE, which()),
    ("bp not 124/76", NONE, which()),
    ("not 124/76, it's 134/76", NONE, which()),
    ("yesterday it was 124/76 72", NONE, which()),
    ("my usual bp is 120/80", NONE, which()),
    ("ayer 124/76 72", NONE, which()),
    ("124/76 (92)", NONE, which(92, BP)),
    ("72 mmHg", BP, which(72)),
    ("sys 124 76 72", NONE, which(understood=SYS)),
    # too many
    ("124/76 72 80", NONE, many(BP)),
    ("124 76 72 80", NONE, many()),
    ("130/80\n120/70", NONE, both(v(130, 80, None), v(120, 70, None))),
    ("124/76 72 again 126/78 74", NONE, both(FULL, v(126, 78, 74), rest="again")),
    ("hr 72 hr 75", NONE, many()),
    ("hr 72, pulse 75, bp 124/76", NONE, many()),
    ("12 4/76 72", NONE, many()),
    ("124/7 6 72", NONE, many()),
    ("124/76 no wait 126/76", NONE, ok(v(126, 76, None), "no wait")),
    ("124/76 72, no, 128", NONE, ok(v(128, 76, 72))),
    # impossible
    ("12476", NONE, impossible(12476, None)),
    ("1247672", NONE, impossible(1247672, None)),
    ("12476 72", NONE, impossible(12476, None)),
    ("12476", BP, impossible(12476, None)),
    ("300", NONE, impossible(300, None)),
    ("hr 300 bp 124/76", NONE, impossible(300, H, BP)),
    ("724", BP, impossible(724, H)),
    ("7", BP, impossible(7, H)),
    ("12/8", NONE, odd(v(12, 8, None), Doubt.TENS, v(120, 80, None))),
    ("tensión 12/8", NONE, odd(v(12, 8, None), Doubt.TENS, v(120, 80, None))),
    ("12/7 72", NONE, odd(v(12, 7, 72), Doubt.TENS, v(120, 70, 72))),
    ("124/6 72", NONE, impossible(6, D, SYS_HR)),
    ("24/76 72", NONE, impossible(24, S, v(None, 76, 72))),
    ("49/30", NONE, impossible(49, S, v(None, 30, None))),
    ("50/30", NONE, ok(v(50, 30, None))),
    ("260/160", NONE, ok(v(260, 160, None))),
    ("261/161", NONE, impossible(261, S)),
    ("dia 24", NONE, impossible(24, D)),
    ("dia 25", NONE, ok(v(None, 25, None))),
    ("dia 161", NONE, impossible(161, D)),
    ("hr 24", NONE, impossible(24, H)),
    ("hr 25", NONE, ok(v(None, None, 25))),
    ("hr 240", NONE, ok(v(None, None, 240))),
    ("hr 241", NONE, impossible(241, H)),
    # doubtful
    ("76/124 72", NONE, odd(v(76, 124, 72), Doubt.SWAPPED, FULL)),
    ("76 124", HR, odd(v(76, 124, None), Doubt.SWAPPED, BP)),
    ("bp 76/124", NONE, odd(v(76, 124, None), Doubt.SWAPPED, BP)),
    ("124/124 72", NONE, odd(v(124, 124, 72), Doubt.SWAPPED)),
    ("70/75 72", NONE, odd(v(70, 75, 72), Doubt.SWAPPED)),
    ("dia 130", SYS_HR, odd(v(None, 130, None), Doubt.SWAPPED)),
    ("sys 76", Values(diastolic=124), odd(v(76, None, None), Doubt.SWAPPED, BP)),
    ("114/100 70", NONE, odd(v(114, 100, 70), Doubt.PULSE_PRESSURE)),
    ("115/100 70", NONE, ok(v(115, 100, 70))),
    ("160/60 70", NONE, ok(v(160, 60, 70))),
    ("161/60 70", NONE, odd(v(161, 60, 70), Doubt.PULSE_PRESSURE)),
    ("124/76 124", NONE, odd(v(124, 76, 124), Doubt.SAME_NUMBER)),
    ("124/76 76", NONE, odd(v(124, 76, 76), Doubt.SAME_NUMBER)),
    ("76", BP, odd(v(None, None, 76), Doubt.SAME_NUMBER)),
    ("124/72", HR, odd(v(124, 72, None), Doubt.SAME_NUMBER)),
    # doubts that a yes has settled are not raised again
    ("hr 72", Values(systolic=114, diastolic=100), ok(HR)),
    ("hr 72", Values(systolic=76, diastolic=124), ok(HR)),
    # nothing at all
    ("", NONE, NOTHING),
    ("   \n", NONE, NOTHING),
    ("hello", NONE, NOTHING),
    ("pulse", NONE, NOTHING),
    ("👍", NONE, NOTHING),
    ("stop", BP, NOTHING),
    ("/stop", BP, NOTHING),
    ("chest pressure 7", BP, NOTHING),
)


@pytest.mark.parametrize("text", WHOLE_READINGS)
@pytest.mark.parametrize("known", [NONE, BP, HR, FULL], ids=["none", "bp", "hr", "full"])
def test_every_usual_form_of_a_whole_reading_is_read(text: str, known: Values) -> None:
    """A whole reading in any usual form gives all its numbers, whatever was known before."""
    assert read(text, known) == ok(FULL)


@pytest.mark.parametrize(("text", "known", "expected"), TABLE)
def test_a_message_comes_to_its_outcome(text: str, known: Values, expected: Outcome) -> None:
    """Each line of the table comes to the outcome beside it."""
    assert read(text, known) == expected


def test_nothing_known_is_the_default() -> None:
    """Without a second argument a message is read as the first of its reading."""
    assert read("124 76") == read("124 76", NONE)
    assert read("72") == which(72)
