"""What a choice can be called when it is typed, in every shipped language at once.

The keys are those of the labels in the catalogue; `done` is none of them, or no more. The phrases
stand as `hearing.normalised` leaves them. Every label can be typed as it reads.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

OPTIONS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType({
    "done": (
        "none", "none of these", "nothing", "done", "thats all", "that is all", "ninguno",
        "ninguna", "nada", "ninguna de estas", "ninguno de estos", "eso es todo",
    ),
    "hazard.fainted-standing": (
        "fainted before", "i faint", "desmayos", "fainted while standing",
        "desmayos al estar de pie",
    ),
    "hazard.pregnant": ("pregnant", "embarazada", "i am pregnant", "embarazo"),
    "hazard.heart-attack-or-stroke": (
        "had a heart attack", "had a stroke", "tuve un infarto", "recent heart attack stroke",
        "infarto o ictus acv reciente",
    ),
    "hazard.heart-disease": (
        "heart disease", "heart condition", "enfermedad del corazon", "serious heart disease",
        "enfermedad del corazon grave",
    ),
    "hazard.cannot-stand": (
        "cannot stand 10 minutes", "no aguanto 10 minutos", "i cannot stand 10 minutes",
        "no aguanto 10 minutos de pie",
    ),
    "hazard.ill": (
        "fever", "ill", "fiebre", "enfermo", "enferma", "fever or ill right now",
        "fiebre o enfermedad ahora",
    ),
    "hazard.under-18-alone": (
        "under 18", "menor de 18", "under 18 with no adult here", "menor de 18 sin adulto aqui",
    ),
    "hazard.pressure": (
        "very high pressure", "very low pressure", "presion muy alta", "presion muy baja",
        "very high or low pressure", "presion muy alta o muy baja",
    ),
    "medicine.beta-blocker": (
        "beta blocker", "beta blockers", "propranolol", "metoprolol", "bisoprolol", "atenolol",
        "betabloqueante", "betabloqueantes",
    ),
    "medicine.heart-slowing": (
        "ivabradine", "verapamil", "diltiazem", "clonidine", "pyridostigmine", "ivabradina",
        "verapamilo", "clonidina", "piridostigmina", "ivabradine diltiazem",
        "ivabradina diltiazem",
    ),
    "medicine.stimulant": (
        "stimulant", "methylphenidate", "amphetamine", "estimulante", "metilfenidato",
    ),
    "medicine.noradrenaline": (
        "snri", "venlafaxine", "duloxetine", "atomoxetine", "amitriptyline", "venlafaxina",
        "duloxetina", "atomoxetina", "amitriptilina", "venlafaxine duloxetine",
        "venlafaxina duloxetina",
    ),
    "medicine.diuretic": (
        "diuretic", "water tablet", "water tablets", "furosemide", "diuretico", "furosemida",
        "diuretico para orinar",
    ),
    "medicine.pressure-lowering": (
        "blood pressure tablet", "blood pressure tablets", "ramipril", "amlodipine", "nitrate",
        "levodopa", "enalapril", "losartan", "amlodipino", "nitrato", "para bajar la presion",
    ),
    "medicine.pressure-raising": (
        "midodrine", "fludrocortisone", "droxidopa", "midodrina", "fludrocortisona",
        "midodrine fludrocortisone", "midodrina fludrocortisona",
    ),
    "cuff.upper-arm": ("upper arm", "arm", "brazo"),
    "cuff.wrist": ("wrist", "muneca"),
    "rate-source.cuff": (
        "cuff", "the cuff", "same cuff", "tensiometro", "el tensiometro", "on the cuff",
    ),
    "rate-source.oximeter": (
        "oximeter", "finger clip", "oximetro", "pulsioximetro", "finger clip oximeter",
        "pinza de dedo oximetro",
    ),
    "rate-source.watch": ("watch", "smart watch", "reloj"),
    "rate-source.fingers": (
        "fingers", "by hand", "counting", "dedos", "a mano", "i count it", "lo cuento a mano",
    ),
    "same-kit.same": (
        "yes", "same", "the same", "si", "igual", "el mismo", "yes the same", "si lo mismo",
    ),
    "same-kit.changed": (
        "no", "changed", "different", "cambio", "otro", "distinto", "no that has changed",
        "no eso cambio",
    ),
    "last-dose.within-4-hours": (
        "today", "this morning", "hoy", "esta manana", "less than 4 hours ago",
        "hace menos de 4 horas",
    ),
    "last-dose.within-24-hours": (
        "yesterday", "ayer", "12 to 24 hours ago", "hace de 12 a 24 horas",
    ),
    "departure.extra-fluids": (
        "extra water", "water", "agua", "drank extra water", "bebi mas agua",
    ),
    "departure.extra-salt": ("extra salt", "salt", "sal", "took extra salt", "tome mas sal"),
    "departure.caffeine": (
        "caffeine", "coffee", "tea", "cafeina", "cafe", "te", "mate", "caffeine in the last 3 h",
        "cafeina en las ultimas 3 h",
    ),
    "departure.nicotine": (
        "nicotine", "cigarette", "smoked", "nicotina", "cigarrillo", "fume",
        "nicotine in the last 3 h", "nicotina en las ultimas 3 h",
    ),
    "departure.heavy-meal": (
        "heavy meal", "big meal", "comida pesada", "big meal just now", "comida pesada hace poco",
    ),
    "departure.garments": (
        "compression", "stockings", "compresion", "medias", "compression stockings",
        "medias de compresion",
    ),
    "departure.poor-sleep": ("slept badly", "bad sleep", "dormi mal"),
    "departure.illness": (
        "fever", "ill", "fiebre", "enfermo", "enferma", "fever or ill", "fiebre o enfermedad",
    ),
    "ill-today.move": ("move", "another day", "otro dia", "cambiar", "move it", "otro momento"),
    "ill-today.go-on": ("go on", "continue", "seguir", "do it anyway", "hacerla de todos modos"),
    "booked.start": ("start now", "empezar ahora"),
    "booked.later": (
        "15 min later", "15 minutes later", "later", "in 15 minutes", "in 15 min",
        "15 min despues", "15 min mas tarde", "15 minutos mas tarde", "mas tarde", "en 15 minutos",
        "en 15 min",
    ),
    "booked.move": ("move it", "cambiarla", "moverla"),
    "booked.cancel": ("cancel it", "cancelarla", "anularla"),
    "place.now": (
        "now", "new", "the new one", "from now", "ahora", "nueva", "de ahora", "la de ahora",
    ),
    "place.earlier": (
        "earlier", "the earlier one", "correction", "the correction", "anterior", "antes",
        "correccion", "la correccion",
    ),
    "day-kind.good": ("good", "good day", "a good day", "bueno", "buen dia", "un buen dia"),
    "day-kind.symptomatic": (
        "bad", "bad day", "a bad day", "symptomatic", "malo", "mal dia", "un mal dia",
    ),
    "day-kind.unsure": ("not sure", "in between", "no se", "regular"),
    "watch.daily": (
        "daily", "every day", "cada dia", "diario", "ask me once a day", "pregunteme cada dia",
    ),
    "watch.word": ("i will tell you", "when i say", "yo aviso"),
    "watch.none": ("no", "none", "neither", "ninguno", "no second test", "sin segunda prueba"),
    "repeat.now": ("now", "ahora"),
    "repeat.in-an-hour": ("in an hour", "en una hora"),
    "repeat.afternoon": ("afternoon", "this afternoon", "esta tarde", "tarde"),
    "repeat.not-today": ("no", "not today", "hoy no"),
    "consent.yes": ("i agree", "si acepto"),
    "consent.no": ("i do not agree", "no acepto"),
    "last-dose.within-12-hours": ("4 to 12 hours ago", "hace de 4 a 12 horas"),
    "last-dose.longer-ago": ("longer ago", "hace mas tiempo"),
    "watch-hour.8": ("8 00",),
    "watch-hour.10": ("10 00",),
    "watch-hour.12": ("12 00",),
    "watch-hour.18": ("18 00",),
    "watch-hour.20": ("20 00",),
    "delete.yes": ("yes delete everything", "si borrar todo"),
    "delete.no": ("keep it", "conservar todo"),
    "button.do-it-now": ("do it now", "hacerla ahora"),
    "button.tapped-wrong": (
        "i tapped the wrong one", "wrong", "toque la que no era", "me equivoque",
    ),
    "button.well-again": ("i am well again", "im well again", "well again", "ya estoy bien"),
    "button.more-places": ("other places", "more", "others", "otros lugares", "mas", "otros"),
    "share.alarms": (
        "only if something goes wrong", "if something goes wrong", "only alarms",
        "solo si algo va mal", "si algo va mal",
    ),
    "share.all": (
        "all and they can type too", "all", "everything", "todo y puede escribir", "todo",
    ),
    "share.no": ("not now", "no", "ahora no"),
    "paper.missed": (
        "not taken", "missed", "skip", "skipped", "not measured", "did not measure",
        "didnt measure", "i did not measure", "i missed it", "none", "nothing", "empty",
        "no la tome", "no lo tome", "no medi", "no la medi", "sin medir", "nada", "ninguna",
        "vacio", "no hay",
    ),
    "paper.nothing": ("nothing else", "nada mas"),
    "paper.to-the-end": ("yes to the end", "to the end", "si hasta el final", "hasta el final"),
    "paper.supine": (
        "no i stopped lying down", "lying down", "lying", "no pare en la cama", "en la cama",
    ),
    "paper.seated": (
        "no i stopped sitting", "sitting", "no pare en la silla", "en la silla",
    ),
    "paper.standing": (
        "no i stopped standing", "standing", "no pare de pie", "de pie",
    ),
    "accompany.yes": ("yes i stand by", "si la acompano", "si acompano"),
    "accompany.no": ("no thank you", "no thanks", "no gracias"),
    "send.yes": (
        "yes", "send", "send it", "yes send it", "send this one", "si", "enviar", "si enviarlo",
        "enviar este",
    ),
    "send.always": ("always", "always send", "send always", "siempre", "enviar siempre"),
    "send.no": ("no", "do not send", "dont send", "do not send it", "no enviar", "no enviarlo"),
})  # fmt: skip
