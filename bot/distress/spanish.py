"""What puts a call for help in doubt in Spanish, and what only looks like one.

What is listened for stands in `spanish_emergencies`, `spanish_cries` and `spanish_faintness`.
Picked by hand (design choice).
"""

from types import MappingProxyType
from typing import Final

from bot.distress import everyday
from bot.distress.heard import Kind
from bot.distress.language import Language, words
from bot.distress.spanish_cries import CRIES
from bot.distress.spanish_emergencies import EMERGENCIES
from bot.distress.spanish_faintness import FAINTNESS
from bot.distress.spanish_groups import GROUPS

_UNCLEAR: Final = MappingProxyType({
    Kind.FAINTED: """
        acostado|acostada|tumbado|tumbada ~ suelo|piso
        si|cuando me|se desmayo|desmaye|desmayara|desvanezco|desplomo
        """,
    Kind.BLEEDING: """
        sangrando|sangrado|sangro
        """,
    Kind.CHEST_PAIN: """
        <chest> ~ raro|rara|extrano|extrana
        pecho|torax
        """,
    Kind.VISION: """
        veo|todo ~ borroso|borrosa
        no|nada|<cant> ~ veo|ver ~ nada|ningun|ninguna ~ negro|oscuro|puntos|estrellas
          |lucecitas|raro
        """,
    Kind.CANNOT_STAND: """
        tambaleo|tambaleando|tambaleandome
        """,
    Kind.PLEA: """
        urgente
        """,
    Kind.HEART_ATTACK: """
        sin|no pulso
        no tengo pulso
        es corazon
        """,
    Kind.SELF_HARM: """
        tome|tomado|trague|tragado ~ todas ~ pastillas
        no quiero estar aqui
        me corto
        me voy tirar|colgar|lanzar|aventar|matando
        """,
    Kind.FAINTING: """
        desmayo|desmayos|desvanecimiento
        miedo|temor|temo|asusta|preocupa desmayar|desmayarme|desmayarse|caer|caerme|desmayo
        """,
})  # fmt: skip

_WHOLE: Final = MappingProxyType({
    Kind.FAINTING: """
        desmayo
        desvanecimiento
        me voy
        """,
    Kind.COLD_SWEAT: """
        palido
        palida
        """,
})  # fmt: skip

_HARMLESS: Final = """
    caigo|caer|caido|cayendo|caerme|cai|caia ~ sueno|risa|bien|mal|cansancio|cansado|cansada|gordo
    muero|muriendo|morir|morirme|mori ~ hambre|sueno|risa|ganas|sed|calor|frio|aburrimiento
      |verguenza|amor|curiosidad|cansancio
    se me cayo|caido
    cayo|caido ~ tensiometro|manguito|movil|telefono|celular|aparato|internet|senal|aplicacion
      |pila|cable|conexion|presion|tension|pulso|app|red|wifi
    presion|tension|pulso|bateria ~ cae|cayo|caido|bajo
    presion arterial|sistolica|diastolica|alta|baja|sanguinea
    tomar|toma|mido|medir|tomo|tome|medi|tomado presion|tension
    numero|numeros|contacto|contactos|plan|telefono|boton emergencia|emergencias
    ayudame|ayudeme|ayudarme|ayudas ~ con|reservar|entender|cambiar|elegir|programar|mover|leer
      |poner|configurar|cancelar|usar|medir
    necesito|quiero|pido|favor|porfavor ayuda ~ con|reservar|entender|cambiar|programar|mover
      |leer|poner
      |usar|medir
    en que|como puedes|puede ayudarme|ayudar
    dolor|duele brazo manguito
    desmayo|desvanecimiento 0|1|2|3|4|5|6|7
    falta de aire 0|1|2|3|4|5|6|7|8|9|10
    paro cardiaco no
    para|paro|parar|pare ~ prueba
    presion ~ alta|baja|pecho|normal ~ normal
    sangre ~ analisis|prueba|azucar
    analisis|presion|prueba|azucar|tension sangre
    creo|siento que puedo|voy mejor
    sacar sangre
    llamare ~ medico|doctor|doctora
    aplicacion|app|boton|bot|movil|telefono|pantalla|tensiometro|aparato ~ no responde|reacciona
    derrame liquido
    <chest> bien|normal|tranquilo|perfecto
    banda|correa|cinta ~ <chest>
    medias|faja aprieta|aprietan
    """

_HAZY: Final = """
    no veo|puedo|ve ~ pantalla|boton|botones|numeros|numero|lectura|lecturas|resultados|mensaje
      |mensajes|foto|enlace|menu|grafico|opcion|archivo
    <cant> ver ~ pantalla|boton|botones|numeros|numero|lectura|lecturas|resultados|mensaje
      |mensajes|foto|enlace|menu|grafico|opcion|archivo
    pantalla|movil ~ negro|negra|oscura|gris
    negro|negra ~ pantalla|movil
    manguito ~ brazo|mano
    brazo|mano ~ manguito
    respirar ~ nariz
    soy ayudarme|ayuda
    """

_UNWELL: Final = """
    no estoy|encuentro|siento|ando|me bien|nada|buena
    no bien
    siento|encuentro|estoy|sintiendo|senti|poniendo|pongo|puse|ando|puesto mal|fatal|malo|mala
      |horrible|terrible|raro|rara|peor|enfermo|enferma|pesimo|pachucho|descompuesto
      |descompuesta
    muy mal|malo|mala
    algo va|anda|esta|pasa mal
    indispuesto|indispuesta|descompuesto|descompuesta
    """

_PASTS: Final = """
    ano|mes|semana|verano|invierno|otono|lunes|martes|miercoles|jueves|viernes|sabado|domingo
      |noche|vez|primavera pasado|pasada|anterior
    ayer|anoche|anteayer|antier|antes|antiguamente
    hace ~ anos|ano|meses|mes|semanas|semana|dias|dia|tiempo|mucho
    anos|meses|semanas|dias atras
    cuando era|tenia|estaba
    de nino|nina|pequeno|pequena|joven|chico|chica|adolescente|crio
    en 2000|2001|2002|2003|2004|2005|2006|2007|2008|2009|2010|2011|2012|2013|2014|2015|2016|2017
      |2018|2019|2020|2021|2022|2023|2024|2025|2026|1990|1995|1998|1999|enero|febrero|marzo
      |abril|mayo|junio|julio|agosto|septiembre|octubre|noviembre|diciembre
    una|alguna vez
    el pasado
    antecedentes|antecedente|historial|historia de
    otra|ultima vez|dia
    otro dia
    laotravez
    solia
    """

SPANISH: Final = Language(
    groups=GROUPS,
    phrases=MappingProxyType({**EMERGENCIES, **CRIES, **FAINTNESS}),
    unclear=_UNCLEAR,
    whole=_WHOLE,
    leaving=frozenset({
        "me voy", "ya me voy", "me voy ya", "me voy ahora", "yo me voy", "bueno me voy",
        "vale me voy", "me voy adios", "adios me voy",
    }),
    harmless=_HARMLESS,
    hazy=_HAZY,
    unwell=_UNWELL,
    twins=MappingProxyType[tuple[str, ...], str]({
        ("por", "favor"): "porfavor", ("mevoy",): "voy", ("meboy",): "voy", ("mevoi",): "voy",
        ("no", "pudo"): "nopudo", ("n", "puedo"): "nopuedo", ("no", "alcanzo"): "nopuedo",
        ("no", "resisto"): "nopuedo", ("no", "doy"): "nopuedo",
        ("no", "estoy", "pudiendo"): "nopuedo",
        ("la", "otra", "vez"): "laotravez",
        ("no", "puedo"): "nopuedo", ("no", "puede"): "nopuede", ("no", "podia"): "nopodia",
        ("no", "logro"): "nologro", ("no", "consigo"): "noconsigo", ("no", "pude"): "nopude",
        ("no", "me", "puedo"): "nopuedo",
        ("no", "soy", "capaz"): "incapaz", ("no", "soi", "capaz"): "incapaz",
        ("no", "ya", "puedo"): "nopuedo", ("no", "creo", "que", "pueda"): "nopuedo",
        ("no", "lo", "puedo"): "nopuedo", ("de", "repente"): "repente", ("a", "veces"): "aveces",
        ("otra", "vez"): "otravez", ("de", "nuevo"): "otravez", ("por", "que"): "porque",
    }),
    sounds=(
        ("ll", "y"), ("rr", "r"), ("qu", "k"), ("ce", "se"), ("ci", "si"), ("ch", "#"), ("h", ""),
        ("c", "k"), ("z", "s"), ("v", "b"), ("ge", "je"), ("gi", "ji"), ("x", "s"), ("mb", "nb"),
        ("w", "u"),
    ),
    small=words("""
        a ahora al algo aqui ay bastante bien casi con creo da dado dando de del demasiado desde
        dio dios e el en era es esa ese eso esta estan esto estoy favor fue fuerte ha hay he la
        las le lo los mas me mi mis mucha muchisimo mucho muy ni nos otravez para parece por porfa
        pal porfavor que realmente repente se senti sentir siente siento sigo sigue son su super tan
        te tener tengo tiene toda todo tu un una unas unos va voy y ya yo
        """),
    bridges=words("""
        tengo tenido tener tuve he ha haber hay me siento sentido senti sentir ningun ninguna nada
        de el la los las un una mi mis en al a que se le estoy voy va vaya vayas a punto creo por
        ni o u algun alguna este sea sido sufrir sufrido sufri llegue llego da dar dio diera
        podria puede puedo pueda llegara llegar signos signo sintomas sintoma senales seria haya
        hubo pasa si ahora aun todavia mas tampoco es esto eso tan solo realmente casi empiezo
        empieza estar estaba causa causar provocar riesgo acabo
        """),
    negations=words("no sin nunca jamas tampoco niego niega ningun ninguna ni nada"),
    interjections=frozenset(),
    lists=frozenset({"o", "u", "ni", "y", "e"}),
    subjects=words("yo ayuda ayudame socorro"),
    ends=words("no ninguno ninguna nunca jamas negativo 0 cero tampoco"),
    pasts=_PASTS,
    presents=words("""
        ahora otravez todavia aun hoy sigo sigue acabo acaba acaban minutos minuto segundos
        segundo hora horas momento rato ya ahorita ayuda
        """),
    ages=frozenset({"desde", "que", "peor"}),
    habits=words("""
        aveces siempre normalmente suele generalmente frecuentemente habitualmente ocasionalmente
        raramente
        """),
    others=words("""
        madre mama padre papa marido mujer esposa esposo amigo amiga hermana hermano hijo hija
        abuela abuelo tia tio prima primo vecina vecino companero companera jefe pareja novio
        novia sobrino sobrina padres familia suegra suegro nieto nieta familiar cunado cunada
        """),
    kin=words("marido mujer esposa esposo hijo hija pareja novio novia"),
    others_before=words("mi mis su sus un una el la tu nuestra nuestro"),
    others_now=words("""
        porfavor
        esta ha acaba ahora ayuda favor ambulancia no ya ayudame socorro 112 911
        """),
    firsts=words("yo me mi estoy tengo conmigo siento"),
    conditions=words("""
        asusta caso ejemplo evitar imagina miedo posibilidad preocupa prevenir probabilidad riesgo
        senales si signos sintomas supongamos temor
        """),
    questions=frozenset({
        ("y", "si"), ("que", "pasa"), ("puede", "dar"),
        ("puede", "ayudarme"), ("puedes", "ayudarme"), ("podria", "ayudarme"),
        ("podrias", "ayudarme"), ("puede", "causar"),
        ("puede", "provocar"), ("podria", "provocar"), ("podria", "dar"),
        ("podria", "causar"), ("es", "normal"), ("puedo", "tener"),
    }),
    openers=words("""
        que como cuando cual cuales puede puedo es hay debo deberia podria sera cuanto cuantos
        """),
    pleas_asked=frozenset({"alguien", "puedes", "podrias", "pueden"}),
    ordinary=everyday.SPANISH,
)  # fmt: skip
