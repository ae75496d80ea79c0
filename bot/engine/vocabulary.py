"""The words that the engine listens for, in every shipped language at once.

All languages are heard whatever the chosen one, so that a call for help is never missed. Phrases
stand as `hearing.normalised` leaves them: lower case, no accents, no apostrophes.
"""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from bot.protocol.record import Symptom


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
    START = "start"
    READY = "ready"
    SUPINE = "supine"
    SEATED = "seated"
    STANDING = "standing"
    FINE = "fine"
    YES = "yes"
    NO = "no"


EMERGENCY: Final = (
    # English
    "fainted", "passed out", "blacked out", "collapsed", "unconscious",
    "chest pain", "pain in my chest", "pain in the chest", "chest hurts", "chest is hurting",
    "cant breathe", "cannot breathe", "can not breathe", "cant breath", "trouble breathing",
    "hard to breathe", "struggling to breathe", "cant get my breath", "heart attack",
    "stroke", "seizure", "face is drooping", "cant speak", "cant move my arm",
    "ambulance", "call 911", "call 999", "call 112",
    "want to die", "kill myself", "suicide", "end my life",
    # Spanish
    "me desmaye", "desmayado", "desmayada", "se desmayo", "perdi el conocimiento", "inconsciente",
    "dolor de pecho", "dolor en el pecho", "dolor en mi pecho", "me duele el pecho",
    "no puedo respirar", "me falta el aire", "me cuesta respirar", "me ahogo", "infarto",
    "ictus", "derrame cerebral", "convulsion", "no puedo hablar", "no puedo mover el brazo",
    "ambulancia", "quiero morir", "quiero morirme", "matarme", "suicid",
)  # fmt: skip
"""Words of an emergency, found anywhere in a message (families from clinical first-aid pages:
common practice, no single source)."""

NEAR_FAINT: Final = (
    # English
    "going to faint", "gonna faint", "about to faint", "might faint", "will faint", "feel faint",
    "feeling faint", "going to pass out", "gonna pass out", "about to pass out", "might pass out",
    "passing out", "blacking out", "going to black out", "vision is going", "vision going",
    "sight is going", "going black", "going dark", "tunnel vision", "cold sweat",
    "cant stand", "cannot stand", "can not stand", "legs are giving way", "going to collapse",
    "going to fall",
    # Spanish
    "voy a desmayar", "me desmayo", "punto de desmayar", "desmayandome",
    "se me nubla", "se me va la vista",
    "veo negro", "veo todo negro", "todo negro", "sudor frio", "no puedo estar de pie",
    "no aguanto de pie", "no me tengo en pie", "me voy a caer", "me caigo",
)  # fmt: skip
"""Words of a faint that is near (Rowe 2017, Front Pediatr 5:121, and public first-aid pages)."""

WHOLE: Final[Mapping[Word, tuple[str, ...]]] = MappingProxyType({
    Word.STOP: (
        "stop", "stop now", "stop it", "stop this", "please stop", "stop please", "i want to stop",
        "i need to stop", "i have to stop", "stop the test", "stop test", "quit", "abort", "halt",
        "enough", "end the test", "end test", "cancel", "cancel test", "no more",
        "para", "parar", "pare", "para ya", "alto", "basta", "detener", "detente", "deten", "detenga",
        "detengase", "si detener", "detener la prueba", "quiero detener la prueba",
        "quiero detener",
        "quiero parar", "necesito parar", "parar la prueba", "terminar", "cancelar", "no puedo mas",
    ),
    Word.WHERE: (
        "where", "where am i", "where are we", "status", "time", "how long", "how much longer",
        "time left", "what now", "donde", "donde estoy", "cuanto falta", "cuanto queda",
        "cuanto tiempo falta", "tiempo",
        "y ahora que",
    ),
    Word.HELP: ("help", "help me", "info", "ayuda", "ayudame"),
    Word.LANGUAGE: ("language", "change language", "idioma", "cambiar idioma", "lengua"),
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
    Word.START: (
        "start", "begin", "start test", "start the test", "new test", "test", "again", "repeat",
        "start a test", "empezar", "comenzar", "empezar una prueba", "iniciar", "nueva prueba", "prueba", "repetir", "otra vez",
    ),
    Word.READY: (
        "ready", "im ready", "i am ready", "done", "go", "lets go", "now",
        "listo", "lista", "todo listo", "estoy listo", "estoy lista", "ya", "ya estoy", "hecho", "vamos",
    ),
    Word.SUPINE: (
        "lying", "lying down", "im lying down", "i am lying down", "laying down", "im laying down",
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
})  # fmt: skip
"""What a whole message means; a phrase stands under one word only."""

NEGATIONS: Final = frozenset(
    {"dont", "not", "no", "never", "cant", "wont", "without", "nunca", "sin"}
)
"""Words before which `stop` does not mean stop at once."""

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
