"""The words that the engine listens for, in every shipped language at once.

All languages are heard whatever the chosen one, so that a call for help is never missed. Phrases
stand as `hearing.normalised` leaves them: lower case, no accents, no apostrophes.
"""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from bot.protocol.record import StopReason, Symptom


class Word(StrEnum):
    """Something a whole message can mean."""

    STOP = "stop"
    WHERE = "where"
    HELP = "help"
    LANGUAGE = "language"
    ENGLISH = "english"
    SPANISH = "spanish"
    SYMPTOM = "symptom"
    FIX = "fix"
    RESULTS = "results"
    FILES = "files"
    MORE = "more"
    TREND = "trend"
    START = "start"
    READY = "ready"
    SUPINE = "supine"
    SEATED = "seated"
    STANDING = "standing"
    FINE = "fine"
    YES = "yes"
    NO = "no"
    MOVE = "move"
    CANCEL = "cancel"
    ZONE = "zone"
    PAUSE = "pause"
    RESUME = "resume"
    BAD_DAY = "bad-day"
    GOOD_DAY = "good-day"
    MY_DATA = "my-data"
    DELETE = "delete"
    BOOK = "book"
    COMPANION = "companion"
    COMPANIONS = "companions"
    LEAVE = "leave"
    BETTER = "better"
    SAME = "same"
    WORSE = "worse"
    PAPER = "paper"
    WAIT = "wait"


STOP_PHRASES: Final = (
    "cant go on", "cannot go on", "cant continue", "need to lie down", "have to lie down",
    "need to sit", "have to sit", "let me lie down", "had to lie down", "had to sit",
    "want out", "me tuve que sentar", "me tuve que acostar", "want to lie down",
    "cant do this",
    "no puedo seguir", "no puedo continuar", "necesito acostarme", "necesito sentarme",
    "tengo que acostarme", "tengo que sentarme", "tuve que sentarme", "tuve que acostarme",
    "i give up", "i quit", "cant do it", "cannot do it", "thats enough", "that is enough",
    "going to vomit", "going to throw up", "i threw up", "im throwing up", "going to be sick",
    "no aguanto mas", "ya no puedo", "ya no mas", "voy a vomitar", "vomite", "estoy vomitando",
)  # fmt: skip
"""Words that mean stop, found anywhere in a message."""

LEAVING: Final = frozenset({
    "im going", "i am going", "im going now", "i am going now", "im leaving", "i am leaving",
    "im leaving now", "i have to go", "i have to go now", "ive got to go", "i got to go",
    "gotta go", "i gotta go", "i must go", "i need to go", "im off", "ok im going",
    "okay im going", "im going bye", "bye im going", "bye", "goodbye", "bye bye",
    "me voy", "ya me voy", "me voy ya", "me voy ahora", "yo me voy", "bueno me voy",
    "vale me voy", "me voy adios", "adios me voy", "tengo que irme", "me tengo que ir",
    "debo irme", "me debo ir", "adios", "chao", "hasta luego",
})  # fmt: skip
"""Whole messages of somebody who goes: while a test is under way it is asked whether to stop."""

DOWN: Final = (
    "sat down", "ive sat", "i have sat", "sitting down", "i lay down", "laid down", "lying down",
    "on the sofa now", "on the bed now",
    "me sente", "me he sentado", "me tumbe", "me he tumbado", "me acoste", "me he acostado",
)  # fmt: skip
"""Words of somebody who stands no longer, found anywhere in a message."""

NOT_STOP: Final = frozenset({
    "step", "steps", "shop", "stopped", "stops", "shot", "slop", "stoop", "atop", "bast", "pasta",
    "hasta", "pararse", "hablar", "pasar", "tomar", "bajar", "sacar", "pagar", "pares", "parir",
})  # fmt: skip
"""Words within a letter of one that means stop, which mean something else."""

STOP_NEGATIONS: Final = frozenset({"dont", "not", "never", "wont", "without", "nunca", "sin"})
"""Words right before `stop` that deny it. `no` is not among them: "no, stop!"."""

REASONS: Final[Mapping[StopReason, tuple[str, ...]]] = MappingProxyType({
    StopReason.FELT_FAINT: ("felt faint", "faint", "casi me desmayo", "desmay"),
    StopReason.PAIN: ("pain", "hurts", "dolor", "me duele"),
    StopReason.EQUIPMENT: (
        "trouble with the cuff", "cuff", "battery", "monitor", "problema con el tensiometro",
        "tensiometro", "pila", "bateria",
    ),
    StopReason.UNWELL: ("felt unwell", "felt ill", "me senti mal"),
})  # fmt: skip
"""Words of a reason to stop, found anywhere in the answer."""

WHOLE: Final[Mapping[Word, tuple[str, ...]]] = MappingProxyType({
    Word.STOP: (
        "stop", "stop now", "stop it", "stop this", "please stop", "stop please", "i want to stop",
        "i need to stop", "i have to stop", "stop the test", "stop test", "quit", "abort", "halt",
        "enough", "end", "i sat", "no aguanto", "termina", "end the test", "end test",
        "cancel test", "no more",
        "para", "parar", "pare", "para ya", "para por favor", "basta ya", "alto", "basta",
        "detener", "detente", "deten",
        "detenga", "detengase", "si detener", "detener la prueba", "quiero detener la prueba",
        "quiero detener",
        "quiero parar", "necesito parar", "parar la prueba", "terminar", "no puedo mas",
    ),
    Word.WHERE: (
        "where", "where am i", "where are we", "status", "time", "how long", "how much longer",
        "time left", "what now", "donde", "donde estoy", "cuanto falta", "cuanto queda",
        "cuanto tiempo falta", "tiempo",
        "y ahora que", "say that again", "say it again", "repeat that", "what do i do",
        "what do i do now", "what should i do", "que hago", "que hago ahora", "que tengo que hacer",
        "repita eso", "digalo otra vez",
    ),
    Word.HELP: ("help", "info", "ayuda"),
    Word.LANGUAGE: ("language", "change language", "english espanol", "idioma", "cambiar idioma",
                    "lengua"),
    Word.ENGLISH: ("english", "in english", "ingles", "en ingles"),
    Word.SPANISH: ("espanol", "en espanol", "spanish", "in spanish", "castellano"),
    Word.SYMPTOM: ("symptom", "symptoms", "sintoma", "sintomas"),
    Word.FIX: (
        "fix", "fix it", "correct", "correction", "wrong", "that was wrong", "mistake", "typo",
        "corregir", "corrige", "error", "me equivoque", "esta mal", "fix these numbers",
        "corregir estos numeros",
    ),
    Word.RESULTS: ("results", "result", "my results", "show my results", "resultados",
        "resultado", "mis resultados", "ver mis resultados"),
    Word.FILES: (
        "files", "my files", "all files", "the files", "files for my care team", "fhir",
        "archivos", "mis archivos", "los archivos", "ficheros", "mis ficheros",
    ),
    Word.MORE: (
        "more", "details", "more details", "show more", "tell me more",
        "mas", "detalles", "mas detalles", "ver mas", "mostrar mas",
    ),
    Word.TREND: (
        "trend", "trends", "over time", "all tests over time", "tests over time",
        "tendencia", "tendencias", "evolucion", "con el tiempo", "pruebas en el tiempo",
    ),
    Word.START: (
        "start", "begin", "start test", "start the test", "new test", "test", "again", "repeat",
        "start a test", "empezar", "comenzar", "empezar una prueba", "iniciar",
        "nueva prueba", "prueba", "repetir", "otra vez",
    ),
    Word.READY: (
        "ready", "im ready", "i am ready", "done", "go", "lets go", "now",
        "listo", "lista", "todo listo", "estoy listo", "estoy lista", "ya",
        "ya estoy", "hecho", "vamos",
    ),
    Word.SUPINE: (
        "lying", "lying down", "lying down now", "im lying down", "i am lying down",
        "laying down", "im laying down",
        "down", "flat", "in bed", "acostado", "acostada", "estoy acostado", "estoy acostada",
        "tumbado", "tumbada", "estoy tumbado", "estoy tumbada",
        "me acoste", "ya me acoste", "estoy en la cama",
    ),
    Word.SEATED: (
        "sitting", "seated", "im sitting", "i am sitting", "sitting up", "im sitting up",
        "sentado", "sentada", "estoy sentado", "estoy sentada",
        "me sente", "ya me sente", "estoy en la silla",
    ),
    Word.STANDING: (
        "standing", "im standing", "i am standing", "standing up", "im standing up", "up", "im up",
        "de pie", "estoy de pie", "parado", "parada", "estoy parado", "estoy parada",
        "me puse de pie", "ya me puse de pie", "ya estoy de pie",
    ),
    Word.FINE: (
        "fine", "im fine", "i am fine", "im ok", "im okay", "im all right", "im alright",
        "all right", "alright", "good", "im good", "bien", "estoy bien", "todo bien",
        "me siento bien", "i am all right",
    ),
    Word.YES: (
        "yes", "y", "yep", "yeah", "ok", "okay", "right", "si", "s", "vale", "claro", "correcto",
    ),
    Word.NO: (
        "no", "n", "nope", "nah", "no go on", "no seguir", "seguir", "leave it", "dejarlo asi",
    ),
    Word.MOVE: (
        "move", "move it", "move the test", "another time", "otro momento", "mover",
        "cambiar la hora",
    ),
    Word.CANCEL: ("cancel", "cancel it", "cancel booking", "cancelar", "cancelarla",
                  "anular"),
    Word.ZONE: ("time zone", "timezone", "change time zone", "zona horaria",
                "cambiar zona horaria"),
    Word.PAUSE: ("pause", "pause reminders", "pausa", "pausar", "pausar avisos"),
    Word.RESUME: ("resume", "resume reminders", "reanudar", "reanudar avisos"),
    Word.BAD_DAY: ("bad day", "a bad day", "its a bad day", "bad today", "mal dia", "un mal dia",
                   "dia malo", "hoy es un mal dia"),
    Word.GOOD_DAY: ("good day", "a good day", "its a good day", "buen dia", "un buen dia",
                    "hoy es un buen dia"),
    Word.MY_DATA: ("my data", "my copy", "data", "mis datos"),
    Word.DELETE: ("delete", "delete everything", "delete my data", "forget me", "borrar",
                  "borrar todo", "eliminar todo"),
    Word.BETTER: (
        "better", "im better", "i am better", "feel better", "i feel better", "feeling better",
        "much better", "a bit better", "a little better", "better now",
        "mejor", "estoy mejor", "me siento mejor", "mucho mejor", "un poco mejor", "ya mejor",
    ),
    Word.SAME: (
        "same", "the same", "still the same", "no better", "not better", "not much better",
        "no change", "igual", "sigo igual", "no estoy mejor", "sin cambios",
    ),
    Word.WORSE: (
        "worse", "im worse", "i am worse", "feel worse", "i feel worse", "feeling worse",
        "i feel worse again", "a bit worse", "a little worse", "much worse",
        "peor", "estoy peor", "me siento peor", "un poco peor", "mucho peor",
    ),
    Word.COMPANION: (
        "companion", "my companion", "add a companion", "add companion", "acompanante",
        "mi acompanante", "agregar acompanante", "anadir acompanante",
    ),
    Word.COMPANIONS: (
        "companions", "my companions", "acompanantes", "mis acompanantes", "ver acompanantes",
    ),
    Word.LEAVE: ("leave", "salir"),
    Word.PAPER: (
        "paper", "on paper", "from paper", "paper test", "test on paper", "i did it on paper",
        "i did the test on paper", "did it on paper", "i have it on paper", "type in from paper",
        "papel", "en papel", "de papel", "prueba en papel", "la prueba en papel",
        "lo hice en papel", "la hice en papel", "hice la prueba en papel", "la tengo en papel",
    ),
    Word.WAIT: (
        "wait", "please wait", "wait please", "wait a moment", "wait a minute", "wait a second",
        "wait a sec", "hold on", "hang on", "one moment", "one minute", "one second", "one sec",
        "just a moment", "just a minute", "just a second", "just a sec", "a moment", "a minute",
        "give me a moment", "give me a minute", "give me a second", "i need a moment",
        "i need a minute", "i need more time", "more time", "not yet", "im not ready", "not ready",
        "espera", "espere", "espere por favor", "un momento", "un minuto", "un segundo",
        "espere un momento", "espere un minuto", "espera un momento", "espera un minuto",
        "deme un momento", "deme un minuto", "dame un momento", "dame un minuto",
        "necesito un momento", "necesito un minuto", "necesito mas tiempo", "mas tiempo",
        "todavia no", "aun no", "no estoy listo", "no estoy lista", "ya voy",
    ),
    Word.BOOK: ("book", "book a test", "book test", "plan", "reservar", "reservar una prueba",
                "programar"),
})  # fmt: skip
"""What a whole message means; a phrase stands under one word only."""

BARE_YES: Final = frozenset({"yes", "y", "yep", "yeah", "si", "s"})
"""A yes that says nothing of being well, as "ok" and "right" do."""

NEGATIONS: Final = frozenset(
    {"dont", "not", "no", "never", "didnt", "havent", "without", "nunca", "sin"}
)
"""Words that deny what comes soon after them."""

SYMPTOMS: Final[Mapping[Symptom, tuple[str, ...]]] = MappingProxyType({
    Symptom.DIZZY: (
        "dizzy", "dizziness", "light headed", "lightheaded", "lightheadedness", "giddy", "woozy",
        "mareo", "mareos", "mareado", "mareada", "aturdido", "aturdida",
    ),
    Symptom.FAINT: ("faint", "faintness", "desmayo", "desvanecimiento"),
    Symptom.NAUSEA: ("nausea", "nauseous", "sick", "queasy", "nauseas", "ganas de vomitar"),
    Symptom.PALPITATIONS: (
        "palpitations", "palpitation", "heart pounding", "heart racing", "pounding heart",
        "racing heart", "palpitaciones", "corazon acelerado", "taquicardia",
    ),
    Symptom.HEADACHE: ("headache", "head hurts", "head ache", "dolor de cabeza", "cefalea"),
    Symptom.BRAIN_FOG: (
        "brain fog", "foggy", "fog", "confused", "niebla mental", "confuso", "confusa",
    ),
    Symptom.SHAKY: ("shaky", "shaking", "trembling", "tremor", "temblor", "temblores", "temblando"),
    Symptom.WEAK: ("weak", "weakness", "debil", "debilidad", "flojo", "floja"),
    Symptom.SHORT_OF_BREATH: (
        "short of breath", "breathless", "out of breath", "shortness of breath",
        "falta de aire", "sin aliento",
    ),
    Symptom.BLURRED_VISION: (
        "blurred vision", "blurry vision", "blurry", "blurred sight", "vision borrosa",
        "vista borrosa", "borroso",
    ),
    Symptom.SWEATING: ("sweating", "sweaty", "hot", "sudor", "sudando", "sudoracion", "calor"),
    Symptom.TIRED: (
        "tired", "fatigue", "fatigued", "exhausted", "cansado", "cansada", "cansancio", "fatiga",
        "agotado", "agotada",
    ),
})  # fmt: skip
"""Words for symptoms, found anywhere in a message."""
