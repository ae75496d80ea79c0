"""Spanish: the words around numbers, and the number words."""

from typing import Final

from bot.readings.language import Join, Language, Numerals, Role, words

_PERSONS: Final = (
    *("madre", "padre", "hermana", "hermano", "marido", "mujer", "mamá", "papá"),
    *("esposa", "esposo", "hija", "hijo"),
)
_HAVE: Final = ", ".join(f"mi {person} tiene" for person in _PERSONS)
_HAD: Final = ", ".join(
    f"mi {person} {verb}" for person in _PERSONS for verb in ("tuvo", "tenía", "siempre tiene")
)

SPANISH: Final = Language(
    phrases={
        Role.SYSTOLIC: """sistólica, sistólico, presión sistólica, tensión sistólica, sis, sist,
            pas, máxima, presión máxima, tensión máxima, número de arriba, el de arriba,
            la de arriba, de arriba, número alto, número superior, primer número, número grande,
            el grande""",
        Role.DIASTOLIC: """diastólica, diastólico, presión diastólica, tensión diastólica, pad,
            mínima, presión mínima, tensión mínima, número bajo, número inferior,
            segundo número, número pequeño, número chico, el pequeño, el chico""",
        Role.FOOT: """número de abajo, el de abajo, la de abajo, de abajo, última línea,
            tercera línea""",
        Role.MIDDLE: """en el medio, en medio, el medio, medio, el de en medio, el del medio,
            la del medio, la de en medio, del medio, debajo, segunda línea, en el centro,
            el del centro""",
        Role.HEART_RATE: """fc, f/c, frecuencia, frecuencia cardíaca, frecuencia del corazón,
            ritmo, ritmo cardíaco, pulso, pulsos, pulsación, pulsaciones, latido, latidos,
            corazón, pulsasiones, pulzo, pulzaciones, pulsso, frec, frec card, corazoncito""",
        Role.TOP: "la alta, arriba, la primera línea, primera línea",
        Role.BOTTOM: "la baja, abajo, abajo del todo, debajo de todo",
        Role.UPPER: "alta, alto, superior",
        Role.LOWER: "baja, bajo, inferior",
        Role.HEARD: "puso, impulso, bolso, pulsa",
        Role.PRESSURE: """precion, prescion, tencion, pa, p/a, ta, t/a, presión,
            presión arterial, presión sanguínea, tensión,
            tensión arterial, presiones""",
        Role.SATURATION: """saturación, saturación de oxígeno, saturo, oxígeno, oxímetro,
            pulsioxímetro""",
        Role.OTHER: """temperatura, tam, fiebre, peso, glucosa, glucemia, azúcar, fr,
            frecuencia respiratoria, respiraciones, pam, media, presión media,
            presión arterial media, tensión media, presión de pulso, presión diferencial,
            estatura, talla, variabilidad, frecuencia máxima, frecuencia cardíaca máxima,
            pulso máximo""",
        Role.AHEAD: """edad, código, código de error, habitación, nivel, página, teléfono, móvil,
            tlf, piso, canal, volumen, paso, puerta, portal, asiento, andén, código postal""",
        Role.BEATS: """lpm, ppm, latidos por minuto, latidos por min, latidos/min, latidos/minuto,
            pulsaciones por minuto, pulsaciones/min, por minuto, por min, /minuto, x minuto,
            al minuto, pulsaciones al minuto, latidos al minuto""",
        Role.PERCENT: "por ciento",
        Role.AMOUNT: """grados, grado, kilos, kilo, libras, gramos, metros, pasos, veces, días,
            semana, semanas, mes, meses, año, años, voltios, vatios, calorías, escalones, personas,
            pastillas, pastilla, millas""",
        Role.TIME: "minuto, minutos, seg, segs, segundos, hora, horas",
        Role.HALF_DAY: "de la mañana, de la tarde, de la noche",
        Role.COUNTER: """lectura, lecturas, número, números, resultado, resultados, prueba, toma,
            intento""",
        Role.POINTER: """es, era, fue, está, estaba, de, en, son, eran, marca, marcó, dice, a, pone,
            ponía, indica, muestra""",
        Role.FILLER: """besos, un beso, saludos, un saludo, un abrazo, cariño, doctora, señor,
            señora, esta vez, al lado de, al lado del, junto a, junto al, señorita, hijo, hija,
            mijo, mija, mi niña, altura del corazón, nivel del corazón, como siempre,
            como de costumbre, el, la, los, las, un, una, mi, mis, tengo, tiene, tenía, sale,
            salió, salen, salieron, dio, da, con, del, al, que, lo, se, su, ahora, hoy, aquí,
            medida, medición, valor, valores, ya, pues, bueno, hola, gracias, por favor, sí, vale,
            buenas, buenos días, buen día, buenas tardes, buenas noches, tensiómetro, aparato,
            pantalla, este, ese, esa, esto, eso, mide, eh, mmm, bien, ha, he, sido, por, tomé,
            listo, lista""",
        Role.DIVIDER: "y, e, más, también",
        Role.HEDGE: """casi, aproximadamente, aprox, alrededor, cerca, unos, unas, quizás, quizá,
            tal vez, probablemente, nunca, sobre, entre, desde, menos, hasta, mayor, menor,
            más de, máximo, mínimo, promedio, no es, no era, no fue, arriba de, por arriba de,
            encima de, por encima de, debajo de, por debajo de, abajo de, como unos""",
        Role.NOT_NOW: f"""ayer, anoche, anteayer, normalmente, generalmente, habitualmente, suelo,
            suele, la última vez, la semana pasada, el mes pasado, antes, la de antes,
            llegar a, el médico dijo, médico quiere, médica quiere, doctor quiere,
            doctora quiere, normal sería,
            objetivo, meta, debería, qué pasa si, y si mi, siempre tuvo, siempre tuve,
            solía, {_HAD}""",
        Role.THEIRS: f"""{_HAVE}, de mi madre, de mi padre, de mi marido, de mi mujer,
            de mi hermana, de mi hermano, de mi hijo, de mi hija, de mi esposo,
            de mi esposa, de mi mamá, de mi papá""",
        Role.PLAIN: """presión alta, presión baja, tensión alta, tensión baja, pulso alto,
            pulso bajo, muy alta, muy baja, presión en el pecho, está alta, está baja,
            corazón acelerado,
            corazón desbocado, corazón me late, corazón me va, corazón a mil, pulso acelerado,
            pulso el botón""",
        Role.CORRECTION: """perdón, perdona, perdone, digo, mejor dicho, quise decir,
            quería decir, corrección, corrijo, me equivoqué, me he equivocado, me confundí,
            no perdón, no digo, disculpa, disculpe, espera, no espera, espere,
            no espere, quise poner, quería poner""",
        Role.AGAIN: """otra vez, de nuevo, nuevamente, la tomé otra vez, me la tomé otra vez,
            la repetí, repetí, repito, segunda vez, lo he repetido, la he repetido,
            la medí otra vez, me la volví a tomar, la volví a tomar, volví a medir""",
        Role.SAME: """igual, igual que antes, lo mismo, lo mismo que antes, los mismos,
            los mismos números, igual que la anterior, lo mismo de antes, sin cambios, la misma,
            las mismas, idem, igual que la última vez""",
    },
    joins={
        Join.PAIR: "sobre, con, por, entre, barra, partido",
        Join.DASH: "guion, raya",
        Join.RANGE: "o, u, a, hasta, punto, coma, de",
    },
    strangers={
        "day": "el, dia",
        "street before": "calle, avenida, avda, plaza, paseo, carretera, camino, c/",
        "lives at": """vivo en el, vive en el, vivo en el numero,
            vive en el numero""",
        "phone": """telefono, telefono es, telefono es el, movil, movil es, movil es el, tlf,
            llamame al, llamame a, llamadme al, numero es el""",
        "age of": ", ".join(
            f"{person} tiene"
            for person in (
                *("hija", "hijo", "madre", "padre", "mama", "papa", "mujer", "marido"),
                *("hermana", "hermano", "esposa", "esposo", "nieta", "nieto"),
            )
        ),
    },
    contrasts=words("pero aunque sino"),
    misspelt=words(
        """pulso pulsaciones pulsacion latidos sistolica sistolico diastolica diastolico maxima
        minima presion tension frecuencia"""
    ),
    unlike=words("puse puso pulsos prision pension maximo minimo impulso bolso"),
    doubts=words(
        """o u cual cuales creo quizas quiza supongo dudo duda dudas seguro segura equivoque
        equivocado equivocada equivoco anterior pasada previa hace antes deberia"""
    ),
    apart=words(
        """tras despues desde hasta por sin dosis pastilla pastillas medicina medicamento aspirina
        edad anos habitacion numero no menos mas sobre casi unos unas peso temperatura
        como"""
    ),
    seconds=words("s seg segs segundo segundos"),
    within=words("en por durante cada"),
    own=words("mi mia mio yo me tengo"),
    typed=words("puse escribi teclee anote apunte mande"),
    negations=words("no sin ni nunca tampoco"),
    seen=words(
        """sale salen salio salieron ve ven veo vio marca marco aparece aparecen aparecio lee leen
        muestra mostro da dio pone puso puedo leer ver distingo distingue bien nada tampoco
        pantalla sabe se alcance alcanzo alcanza"""
    ),
    gone=words(
        """falta faltan falto ilegible cortado cortada cortaron corto blanco borroso borrosa
        tapado tapada tapo"""
    ),
    instead="y no, pero no, en vez de, en lugar de, que no",
    numerals=Numerals(
        code="es",
        units=words("uno dos tres cuatro cinco seis siete ocho nueve sinco sei nuebe"),
        teens=words(
            """once doce trece catorce quince dieciseis diecisiete dieciocho diecinueve
            veintiuno veintidos veintitres veinticuatro veinticinco veintiseis veintisiete
            veintiocho veintinueve"""
        ),
        tens=words(
            """veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa
            sincuenta sesentas nobenta"""
        ),
        decas=words("diez"),
        hundreds=words("ciento doscientos siento"),
        alone=words("cien"),
        zeros=words("cero"),
        leads=words("uno dos"),
        ands=words("y i"),
        spelled={
            "siento": "ciento",
            "sinco": "cinco",
            "sei": "seis",
            "nuebe": "nueve",
            "sincuenta": "cincuenta",
            "sesentas": "sesenta",
            "nobenta": "noventa",
            "dieciseis": "dieciséis",
            "veintidos": "veintidós",
            "veintitres": "veintitrés",
            "veintiseis": "veintiséis",
        },
        beside=words("siento"),
        sounds={"tos": "dos", "sais": "seis", "ceis": "seis"},
        glue=("y", "i", "ai", "ay"),
        hours=(("las",), ("la",)),
    ),
)
