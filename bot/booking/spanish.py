"""Spanish words for days and times: names and abbreviations of CLDR, and other usual ones."""

from typing import Final

from bot.booking.words import Language, Role, Stretch, listed

_NUMBERS: Final = listed(
    "cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince "
    "dieciseis diecisiete dieciocho diecinueve veinte veintiuno veintidos veintitres veinticuatro "
    "veinticinco veintiseis veintisiete veintiocho veintinueve treinta"
)
_TENS: Final = {"treinta": 30, "cuarenta": 40, "cincuenta": 50}
_WEEKDAYS: Final = listed("lunes martes miercoles jueves viernes sabado domingo")
_MONTHS: Final = listed(
    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"
)
_PARTS: Final = {
    "manana": Stretch.MORNING,
    "madrugada": Stretch.SMALL_HOURS,
    "tarde": Stretch.AFTERNOON,
    "noche": Stretch.NIGHT,
}

SPANISH: Final = Language(
    numbers={word: number for number, word in enumerate(_NUMBERS)}
    | _TENS
    | {"una": 1, "veintiuna": 21, "veintiun": 21}
    | {
        f"{tens} y {word}": value + unit
        for tens, value in _TENS.items()
        for unit, word in enumerate(_NUMBERS[:10])
        if unit
    },
    ordinals={"primero": 1, "primer": 1},
    weekdays={word: number for number, word in enumerate(_WEEKDAYS)}
    | {"lun": 0, "mar": 1, "mart": 1, "mie": 2, "mier": 2, "jue": 3, "juev": 3}
    | {"vie": 4, "vier": 4, "sab": 5, "dom": 6},
    months={word: number for number, word in enumerate(_MONTHS, start=1)}
    | {word[:3]: number for number, word in enumerate(_MONTHS, start=1)}
    | {"sept": 9, "setiembre": 9},
    ahead={
        "hoy": 0,
        "manana": 1,
        "pasado manana": 2,
        "de manana": 1,
        "ayer": -1,
        "anteayer": -2,
        "antes de ayer": -2,
    },
    stretches={
        f"{lead} {part}": stretch
        for lead in ("por la", "en la", "de la", "a la", "la")
        for part, stretch in _PARTS.items()
    }
    | {
        "noche": Stretch.NIGHT,
        "tarde": Stretch.AFTERNOON,
        "de manana": Stretch.MORNING,
        "de tarde": Stretch.AFTERNOON,
        "de noche": Stretch.NIGHT,
        "de madrugada": Stretch.SMALL_HOURS,
        "del mediodia": Stretch.MIDDAY,
        "del medio dia": Stretch.MIDDAY,
        "de mediodia": Stretch.MIDDAY,
        "mediodia": Stretch.MIDDAY,
        "medio dia": Stretch.MIDDAY,
        "medianoche": Stretch.MIDNIGHT,
        "media noche": Stretch.MIDNIGHT,
        "de la medianoche": Stretch.MIDNIGHT,
    },
    todays={
        "esta manana": Stretch.MORNING,
        "esta tarde": Stretch.AFTERNOON,
        "esta noche": Stretch.NIGHT,
    },
    weeks={
        "esta semana": 0,
        "proxima semana": 1,
        "semana proxima": 1,
        "semana que viene": 1,
        "semana siguiente": 1,
        "semana que entra": 1,
    },
    units={
        "minuto": 1,
        "minutos": 1,
        "hora": 60,
        "horas": 60,
        "hs": 60,
        "semana": 10080,
        "semanas": 10080,
    },
    lengths={"media hora": 30},
    plain={
        Role.COUNTED_DAYS: frozenset({"dia", "dias"}),
        Role.NEXT: frozenset({"proximo", "proxima", "prox", "que viene", "que entra", "siguiente"}),
        Role.THIS: frozenset({"este", "este proximo"}),
        Role.AT: frozenset({"a las", "a la", "las", "la", "sobre las", "sobre la", "tipo"})
        | {"a eso de las", "a eso de la", "hacia las", "hacia la", "como a las", "como a la"}
        | {"para las", "para la", "de las", "de la"},
        Role.THE: frozenset({"el"}),
        Role.EL: frozenset({"el"}),
        Role.OF: frozenset({"de", "del"}),
        Role.A: frozenset({"un", "a"}),
        Role.AND: frozenset({"y", "para", "al"}),
        Role.DAY_WORD: frozenset({"dia"}),
        Role.OR: frozenset({"o", "u"}),
        Role.IN: frozenset({"en", "dentro de"}),
        Role.FROM_NOW: frozenset({"a partir de hoy", "desde hoy"}),
        Role.TO_THE: frozenset({"para las", "para la"}),
        Role.PLUS: frozenset({"y", "con"}),
        Role.MINUS: frozenset({"menos"}),
        Role.THIRTY: frozenset({"media"}),
        Role.QUARTER: frozenset({"cuarto"}),
        Role.HOUR_MARK: frozenset({"horas", "hs"}),
        Role.OF_HOURS: frozenset({f"de la {part}" for part in _PARTS} | {"del mediodia"}),
        Role.NOON: frozenset({"mediodia", "medio dia", "al mediodia", "a mediodia"}),
        Role.MIDNIGHT: frozenset({"medianoche", "media noche", "a medianoche"}),
    },
    soft=frozenset(
        listed(
            """
            aca agendar agendarlo ahora anota apuntame aqui bien bueno cambia cambialo cambiar
            cambiarla cita claro creo dale disponible encantaria entonces es estaria estoy
            exactamente genial gracias gusta gustaria hacemos hacer hacerla hacerlo hare haremos
            haria hola libre lo marca me mejor mismo mover mueve nos pasarla perfecto
            podemos podria podriamos poner ponme preferiria prefiero prueba puede puedes puedo
            pues quedamos quiero quisiera quiza quizas reserva reservar reservarlo sea ser seria
            si son tengo test va vale vendria voy
            """
        )
    )
    | {
        "por favor",
        "en punto",
        "que sea",
        "que tal",
        "tal vez",
        "a lo mejor",
        "la prueba",
        "el test",
        "mi prueba",
        "una cita",
        "la cita",
        "buenos dias",
        "buenas tardes",
        "buenas noches",
        "muchas gracias",
        "me viene bien",
        "me va bien",
        "para mi",
        "a mi",
        "ahora mismo",
        "el reloj",
        "mi reloj",
        "de acuerdo",
    },
    others=frozenset({"mananas", "tardes", "noches", "sabados", "domingos", "manzana", "nuevo"}),
)
