"""The words around numbers, one table a language. All languages are read at all times.

A phrase is written as it may be typed; case, accents and spacing do not matter.
"""

from collections.abc import Iterator, Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from bot.readings.tokens import Token, scan


class Role(StrEnum):
    """What a word or mark does for the numbers beside it."""

    SYSTOLIC = "systolic"
    DIASTOLIC = "diastolic"
    HEART_RATE = "heart-rate"
    PRESSURE = "pressure"  # names both pressures
    OTHER = "other"  # names a number that is no part of a reading
    SATURATION = "saturation"  # likewise; names a share in percent
    BEATS = "beats"  # unit of a heart rate
    MERCURY = "mercury"  # unit of a pressure
    AMOUNT = "amount"  # unit of a number that is no part of a reading
    PERCENT = "percent"  # likewise
    TIME = "time"  # unit of a time, likewise
    HALF_DAY = "half-day"  # unit of a clock time, if the number can be an hour
    COUNTER = "counter"  # "reading 2"
    SIGN = "sign"  # makes the number after it a change, a limit or a count
    POINTER = "pointer"  # a label before it names what comes after it
    FILLER = "filler"  # says nothing
    DIVIDER = "divider"  # as filler; what it parts belongs less together
    HEDGE = "hedge"  # the number after it is not, or not exactly, a reading
    NOT_NOW = "not-now"  # the numbers of the message may be of another time
    PLAIN = "plain"  # a complaint that holds a word of ours


class Join(StrEnum):
    """How two numbers hang together."""

    PAIR = "pair"  # one pressure over the other
    WIDE = "wide"  # a pair's stroke with spaces around: that, or parts of a list
    LINK = "link"  # parts of one reading
    DASH = "dash"  # a link with spaces around: parts of a list, or a range
    DOT = "dot"  # a link, or a decimal point
    COMMA = "comma"  # parts of a list, or a decimal comma
    COLON = "colon"  # a link, or a clock time
    RANGE = "range"  # from one to the other, or one of the two


ENGLISH: Final[Mapping[Role, str]] = {
    Role.SYSTOLIC: """systolic, systolic pressure, systolic blood pressure, systolic bp, sys, syst,
        sbp, top number, upper number""",
    Role.DIASTOLIC: """diastolic, diastolic pressure, diastolic blood pressure, diastolic bp, dia,
        diast, dbp, bottom number, lower number""",
    Role.HEART_RATE: """hr, h/r, heart rate, heartrate, heart beat, heartbeat, heart, cardiac rate,
        pulse, pulse rate, pulserate, pul, puls, pls, pr, beats""",
    Role.PRESSURE: """bp, b/p, nibp, blood pressure, bloodpressure, pressure, pressures,
        blood pressures""",
    Role.SATURATION: """spo2, sp02, spo, sao2, o2, o2 sat, sat, sats, saturation, oxygen, ox,
        oxygen saturation, oxygen level, pulse ox, pulse oximeter, oximeter""",
    Role.OTHER: """temp, temperature, weight, glucose, sugar, blood sugar, bg, rr, resp, resp rate,
        respiratory rate, respiration rate, respirations, breathing rate, breathing, map, mean,
        mean pressure, mean bp, mean arterial pressure, pulse pressure, pp, hrv,
        heart rate variability, perfusion, perfusion index, pi, age, height, day, arm size,
        max heart rate, max hr, target heart rate, target hr""",
    Role.BEATS: """bpm, beats per minute, beats a minute, beats per min, beats/min,
        beats/minute, per minute, per min, a minute, /min, /minute, x min, b/min""",
    Role.PERCENT: "percent, per cent",
    Role.AMOUNT: """degrees, degree, celsius, fahrenheit, kg, kgs, lb, lbs, pounds, stone, mg, mcg,
        ug, gr, grams, ml, cl, oz, mmol, mmol/l, mg/dl, mgdl, cm, km, kpa, cmhg, ft, feet, steps,
        times, reps, points, mph, ms, days, week, weeks, month, months, year, years, yr, yrs, yo""",
    Role.TIME: """min, mins, minute, minutes, sec, secs, seconds, hrs, hour, hours""",
    Role.HALF_DAY: "am, pm, a. m, p. m, o'clock, oclock",
    Role.COUNTER: "reading, readings, number, numbers, test, try, attempt, result, results",
    Role.POINTER: "is, was, are, were, of, at, reads, read, says, shows, showing, equals",
    Role.FILLER: """an, the, it, its, it's, i, i'm, im, my, me, mine, our, her, his, this, that,
        these, there, here, here's, heres, now, just, so, then, for, in, be, been, got, get, have,
        has, had, value, values, said, shown, measured, measure, measuring, measurement, cuff,
        monitor, machine, screen, display, today, ok, okay, yes, yep, hi, hello, hey, thanks,
        thank you, please, new, current, currently, with, by, to, comes, came, on, good morning,
        good afternoon, good evening, done, finally""",
    Role.DIVIDER: "and, plus, also",
    Role.HEDGE: """about, around, approximately, approx, roughly, almost, nearly, maybe, perhaps,
        probably, not, isn't, isnt, wasn't, wasnt, don't, dont, never, over, above, below, under,
        than, between, max, maximum, minimum, average, avg""",
    Role.NOT_NOW: """yesterday, usually, normally, typically, usual, earlier, previously,
        last time, last night, last week, last month, last year, the other day, goal, target,
        baseline, should be, supposed""",
    Role.PLAIN: """chest pressure, head pressure, ear pressure, neck pressure, sinus pressure,
        heart pain, heart attack, heart racing""",
}

SPANISH: Final[Mapping[Role, str]] = {
    Role.SYSTOLIC: """sistólica, sistólico, presión sistólica, tensión sistólica, sis, sist, pas,
        máxima, presión máxima, tensión máxima""",
    Role.DIASTOLIC: """diastólica, diastólico, presión diastólica, tensión diastólica, pad, mínima,
        presión mínima, tensión mínima""",
    Role.HEART_RATE: """fc, f/c, frecuencia, frecuencia cardíaca, frecuencia del corazón, ritmo,
        ritmo cardíaco, pulso, pulsos, pulsación, pulsaciones, latido,
        latidos, corazón""",
    Role.PRESSURE: """pa, p/a, ta, t/a, presión, presión arterial, presión sanguínea, tensión,
        tensión arterial, presiones""",
    Role.SATURATION: """saturación, saturación de oxígeno, saturo, oxígeno, oxímetro,
        pulsioxímetro""",
    Role.OTHER: """temperatura, fiebre, peso, glucosa, glucemia, azúcar, fr,
        frecuencia respiratoria, respiraciones, pam, media, presión media, presión arterial media,
        tensión media, presión de pulso, presión diferencial, edad, estatura, talla, variabilidad,
        frecuencia máxima, frecuencia cardíaca máxima, pulso máximo""",
    Role.BEATS: """lpm, ppm, latidos por minuto, latidos por min, latidos/min,
        latidos/minuto, pulsaciones por minuto, pulsaciones/min, por minuto, por min, /minuto,
        x minuto, al minuto, pulsaciones al minuto, latidos al minuto""",
    Role.PERCENT: "por ciento",
    Role.AMOUNT: """grados, grado, kilos, kilo, libras, gramos, metros, pasos, veces, días, semana,
        semanas, mes, meses, año, años""",
    Role.TIME: "minuto, minutos, seg, segs, segundos, hora, horas",
    Role.HALF_DAY: "de la mañana, de la tarde, de la noche",
    Role.COUNTER: """lectura, lecturas, número, números, resultado, resultados, prueba, toma,
        intento""",
    Role.POINTER: "es, era, fue, está, estaba, de, en, son, eran, marca, marcó, dice, a",
    Role.FILLER: """el, la, los, las, un, una, mi, mis, tengo, tiene, tenía, sale, salió, salen,
        salieron, dio, da, con, del, al, que, lo, se, su, ahora, hoy, aquí, medida, medición,
        valor, valores, ya, pues, bueno, hola, gracias, por favor, sí, vale, buenas, buenos días,
        buen día, buenas tardes, buenas noches, tensiómetro, aparato, pantalla, este, ese, esa,
        esto, eso, mide, ha, he, sido, por, listo, lista""",
    Role.DIVIDER: "y, e, más, también",
    Role.HEDGE: """casi, aproximadamente, aprox, alrededor, cerca, unos, unas, quizás, quizá,
        tal vez, probablemente, nunca, sobre, entre, desde, menos, hasta, mayor, menor, más de,
        máximo, mínimo, promedio, no es, no era, no fue""",
    Role.NOT_NOW: """ayer, anoche, anteayer, normalmente, generalmente, habitualmente, suelo,
        suele, la última vez, la semana pasada, el mes pasado, antes, objetivo, meta, debería""",
}

ANY: Final[Mapping[Role, str]] = {
    Role.HEART_RATE: "p",
    Role.MERCURY: "mmhg, mm hg, mm[hg], mm.hg, mm/hg, torr",
    Role.PERCENT: "%",
    Role.AMOUNT: "°, °c, °f, oc",
}

MARKS: Final[Mapping[str, Role]] = {
    **dict.fromkeys(":=", Role.POINTER),
    **dict.fromkeys(",;|&-@", Role.DIVIDER),
    **dict.fromkeys("+#<>~≈±≤≥$€£↑↓⬆⬇▲▼Δδ∆", Role.SIGN),
}

LANGUAGES: Final = (ENGLISH, SPANISH, ANY)

JOINS: Final[Mapping[str, Join]] = MappingProxyType(
    {
        **dict.fromkeys("/÷×", Join.PAIR),
        **dict.fromkeys(("x", "over", "on", "by", "sobre", "con", "por", "entre"), Join.PAIR),
        **dict.fromkeys("-·_", Join.LINK),
        ".": Join.DOT,
        ",": Join.COMMA,
        ":": Join.COLON,
        **dict.fromkeys(("to", "or", "o", "u", "a", "hasta", "~", "→", "⇒", "➡"), Join.RANGE),
    }
)
"""What joins two numbers when it stands between them and nothing else does."""


def role_at(tokens: tuple[Token, ...], position: int) -> tuple[Role, int] | None:
    """Return the role of the longest known phrase that begins here and how many tokens it has."""
    for keys, role in _PHRASES.get(tokens[position].key, ()):
        found = tokens[position : position + len(keys)]
        if tuple(token.key for token in found) == keys:
            return role, len(keys)
    return None


def phrases() -> Iterator[tuple[tuple[str, ...], Role]]:
    """Yield every phrase of every language as the keys of its tokens, with its role."""
    for language in LANGUAGES:
        for role, listed in language.items():
            for phrase in " ".join(listed.split()).split(", "):
                yield tuple(token.key for token in scan(phrase)), role
    for mark, role in MARKS.items():
        yield (mark,), role


def _by_first_key() -> Mapping[str, tuple[tuple[tuple[str, ...], Role], ...]]:
    grouped: dict[str, list[tuple[tuple[str, ...], Role]]] = {}
    for keys, role in phrases():
        grouped.setdefault(keys[0], []).append((keys, role))
    return MappingProxyType(
        {
            first: tuple(sorted(found, key=lambda entry: -len(entry[0])))
            for first, found in grouped.items()
        }
    )


_PHRASES: Final = _by_first_key()
