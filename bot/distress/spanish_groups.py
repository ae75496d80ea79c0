"""Words that stand for one another in the phrases of Spanish, of Spain and of the Americas.

How people spell and say them is a design choice.
"""

from types import MappingProxyType
from typing import Final

GROUPS: Final = MappingProxyType({
    "cant": """nopuedo nopuede nopodia nologro noconsigo apenas nopuedes incapaz nopude
        nopuedio nopodemos cuesta nosoy nopudo
        """,
    "breathe": "respirar respiro respira respirando respiracion respirara",
    "chest": "pecho torax toracico toracica pechos esternon pexo peco",
    "pain": """dolor duele dolores doliendo duelen dolio dolia oprime opresion molesta
        aprieta presion apretado apretando pesadez pesa arde ardor quema punzada
        punzadas pinchazo pinchazos puntada puntadas molestia oprimido aplasta
        aplastado apreton doler dolorido revienta explota quemazon peso aprietan
        oprimiendo tirantez estruja estrujando punza punzando clava clavo clavan
        cuchillo cuchillada nudo elefante comprime hunde apachurra apachurran aplastan
        aplastando hinca hincon hincada quemando ardiendo partiendo parte oprimen
        oprimida apretada pesado estalla estallar explotar reventar pisan pisaran
        pisando pisara piedra ladrillo yunque losa
        """,
    "stand": "pie parado parada levantar levantarme pararme sostener sostenerme mantenerme parar",
    "lead": """voy boy boi va vas vamos punto apunto casi creo siento vaya poco puedo podria
        cerca temo parece voi vo mero merito andan anda ando
        """,
    "faint": """desmayar desmayarme desmayo desmayarse desvanecer desvanecerme desvanezco
        desplomar desplomarme desplomo desmaya desmallar desmallarme desmayandome
        colapsar soponcio desmallo privar privarme
        """,
    "very": """muy super tan demasiado mucho mucha bastante re bien sumamente extremadamente
        terriblemente horriblemente totalmente completamente tremendo tremenda
        terrible harto muchisimo muchisima fuertemente recontra mui
        """,
    "dizzy": """mareado mareada mareo mareos vertigo mareadisimo mareadisima mareando
        mareandome atontado atontada mareadito mareados mareao
        """,
    "stroke": "ictus acv embolia derrame apoplejia",
    "limb": "brazo mano lado cara pierna mitad cuerpo brazos boca mejilla dedos cachete",
    "dead": """dormido dormida adormecido adormecida entumecido entumecida paralizado
        paralizada debil insensible adormecida hormigueo muerto muerta caido caida
        adormecimiento""",
    "floor": "suelo piso tierra",
    "blood": "sangre",
    "call": "llama llame llamen llamad llamar llamo llamando marca marque marcar",
    "black": "negro negra oscuro oscura gris",
    "head": "cabeza cara frente craneo nuca",
    "turn": """patatus soponcio yuyu yuyo yeyo jamacuco telele parraque supiritaco vahido
        vahidos vaguido sincope desmayo desvanecimiento palida chucu patatun ataquito
        """,
    "face": "cara boca ojo rostro labio parpado cachete mejilla comisura cachetes ojos labios",
    "twist": """cae cayo caido caida torcio tuerce torcida torcido torciendo chueco chueca
        chuequeo enchueco desvia desvio desviada paralizo paraliza paralizada durmio
        duerme dormida adormece adormecio adormecida entumio entumecio entume ladeo
        ladeada cuelga colgando
        """,
})  # fmt: skip
