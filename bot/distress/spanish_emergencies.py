"""What is an emergency in Spanish, of Spain and of the Americas.

Families as on public first-aid pages (fainting, falls, chest pain, breathlessness, stroke signs by
face, arms and speech, seizure, heavy bleeding: common practice, no single source). How people
spell and say them is a design choice.
"""

from types import MappingProxyType
from typing import Final

from bot.distress.heard import Kind

EMERGENCIES: Final = MappingProxyType({
    Kind.FAINTED: """
        desmaye|desmalle
        me|nos desvaneci|desplome
        acabo|acaba desmayar|desmayarme|desmayarse|desvanecer|desvanecerme|desplomar|desplomarme
        se desmayo|desvanecio|desplomo
        desmayado|desmayada|desmallado|desvanecido|desvanecida|desplomado|desplomada
        perdi|pierdo|perdio|perder|perdido|perdiendo|perdida ~ conocimiento|conciencia
          |consciencia|sentido
        inconsciente|inconciente|inconscientes
        no responde|reacciona|despierta
        desperte|aparecio|amaneci|desperto|encontraron|encontre ~ <floor>|bano
        sufri|tuve|dio|tengo|teniendo sincope|desmayo|desvanecimiento|soponcio|patatus
        estoy|esta|tirado|tirada|tendido|tendida en <floor>
        tirado|tirada|tendido|tendida ~ <floor>
        quede|quedo|quedado inconsciente
        colapse|colapso
        dio|dado|daba|dieron patatus|soponcio|yuyu|yuyo|yeyo|jamacuco|telele|parraque|supiritaco
        no supe mi|nada|mas
        quede|quedo|quedado privado|privada|tieso|tiesa|sitio
        me|se prive|privo
        desperte|desperto|apareci|quede|quedo tirado|tirada|tendido|tendida
        acabe|termine|quede|apareci|termino|quedo en <floor>
        me fui mundo
        caigo|cai redondo|redonda|desmayado|desmayada|inconsciente
        m desmaye|desmalle
        """,
    Kind.FALLEN: """
        me cai|caido|kai
        acabo|acaba caer|caerme|caerse
        he|ha caido
        me he|acabo caido|caer
        se cayo|caido
        caido|cai ~ <floor>|escalera|escaleras|bano
        sufri|tuve|acabo caida|caer
        me tropece|resbale
        golpee|golpe|golpeado|golpeo|pegue|di|abri|rompi ~ <head>
        rompi|roto|rompio|fracture|fracturado|quebre brazo|pierna|cadera|tobillo|muneca|hueso
          |mano|costilla
        <cant> levantar|levantarme|levantarse
        me fui|fue <floor>|boca|bruces|espaldas|atras
        me vine|vino abajo
        me di contra|porrazo|golpazo|madrazo|costalazo|trancazo|guamazo|suelazo|golpe|hostia
          |leche|ostia|pina|golpazo
        me saque mugre|chucha|cresta|madre
        me azote|aporree|estrelle|descalabre|desnuque|desbarranque|accidente
        parti|partio|revente|descalabre|descalabro ~ <head>
        <cant> parar|pararme|levantar|levantarme|mover|moverme ~ <floor>|solo|sola
        quebro|quebre|rompio|fracturo|rompi|zafo|disloco ~ pierna|brazo|cadera|muneca|tobillo
          |hueso|pie|mano|clavicula
        cai|caido|cayo ~ ducha|bano|cama|silla|escalera|calle|cocina|gradas
        me fui|di|cai|pegue contra
        me fui cabeza|cara|hocico|trompa|narices
        parti ~ brazo|pierna|cadera|muneca|mano|hueso
        hice ~ brecha|herida|chichon
        rode ~ escaleras|escalera
        m cai|caigi
        me caigi
        """,
    Kind.CHEST_PAIN: """
        <chest> ~ <pain>
        <pain> ~ <chest>
        duele|dolor|punzada|punzadas|pinchazo|aprieta|puntada|oprime|presion corazon
        corazon duele
        angina
        dolor|duele brazo izquierdo
        brazo izquierdo duele|dolor
        dolor|duele ~ mandibula|espalda ~ brazo|baja|irradia
        duele|dolor mandibula
        dolor|duele ~ va|baja|sube|pasa|corre|irradia|extiende|llega|corriendo|bajando ~ brazo
          |mandibula|cuello|espalda|hombro|quijada
        dolor|duele|ardor ~ mandibula|quijada
        mandibula|quijada ~ brazo
        brazo ~ mandibula|quijada
        corazon ~ duele|aprieta|oprime|punza|punzadas
        punza|estruja|aprieta|oprime|clava corazon
        boca estomago ~ brazo|pecho
        siento|tengo|una|mucha|fuerte opresion
        """,
    Kind.BREATH: """
        <cant> ~ <breathe>
        no respiro|respira|respirar
        no esta|estoy respirando|respira
        <cant> ~ aire|aliento|oxigeno
        pecho ~ cerrado|cierra|cerrando|cerro
        cierra|cerrando|cerro pecho
        no puedo|puede|logro|consigo|podia ~ respirar|respiro
        dificultad|dificultades|trabajo|dificil|problemas|cuesta <breathe>
        costando|cuestan|duele|esfuerzo <breathe>
        <breathe> dificultad|cuesta|mal|dificil|dificilmente|costando
        me|le|te falta aire|oxigeno|respiracion|aliento
        falta el|mucho|poco aire|oxigeno
        faltando|faltandome|faltaba aire|oxigeno
        <very> falta aire
        mucha|tanta|muchisima falta aire
        quedo|quedando|quede|quedandome|estoy sin aire|aliento|respiracion|respirar
        no tengo|entra|llega|hay|alcanza|pasa|agarro ~ aire|oxigeno
        necesito aire|oxigeno
        ahogo|ahogando|ahogandome|ahoga|asfixia|asfixio|asfixiando|asfixiandome|axfixio|ahogado
          |ahogada|ahogandose|sofoco|sofocando
        atragante|atragantado|atragantando|atragantandome|atraganto|atragantada
        labios|dedos|poniendo ~ morados|azules|azul|morado|morada
        cierra|cerrando|cerro|hincha|hinchando ~ garganta
        garganta ~ cierra|cerrando|hincha|hinchada|cerrada
        anafilaxia|anafilactico|anafilactica
        me hace falta aire|oxigeno
        falta aire ~ fuerte|mucho|mucha|muchisima|horrible|terrible|tremenda
        no jalo|cojo|pillo|tomo|inhalo|meto|recibo|junto|consigo|puedo ~ aire|oxigeno
        <cant> jalar|coger|agarrar|tomar|meter|inhalar|pillar ~ aire|oxigeno
        me va|acaba|corta|escapa|fue|cortando|acabando|yendo|termina|agota|corto|acabo aire
          |respiracion|aliento|oxigeno
        agitada|agitado ~ aire|respirar|respiro
        <very>|estoy|quede|y sin aire|aliento|oxigeno
        pongo|ponen|poniendo|puse|pusieron|estoy morado|morada|azul|azules|morados
        dificultad|insuficiencia|paro respiratoria|respiratorio
        ataque|crisis ~ asma|asmatico|asmatica
        respiro|respirando ~ mal|apenas|cortado|dificultad|poco
        tapa|tapo|cierra|corta respiracion
        m ahogo|asfixio
        no da|dan aire|oxigeno
        faltando|falta respiracion|aliento
        """,
    Kind.STROKE: """
        <stroke>
        derrame|infarto|accidente cerebral|cerebrovascular
        cae|torcio|torcida|caida|tuerce|torcido|tuerce|cayo|desvia|desvio ~ cara|boca|ojo|rostro
          |labio
        cara|boca|ojo|labio|rostro|sonrisa ~ caida|caido|torcida|torcido|torciendo|tuerce|torcio
          |chueca|chueco|desviada|cae|adormecida|dormida|paralizada|cayo|ladeada
        <cant> ~ hablar|tragar|sonreir|articular|pronunciar
        <cant> ~ mover|sentir|levantar|alzar ~ <limb>|piernas|dedos|pie
        <cant> moverme|mover
        no puedo hablar|moverme|mover
        no siento|muevo ~ <limb>|piernas|dedos|pierna
        lengua ~ traba|trabada|trabando|dormida|enreda|pesada
        traba|trabando|enreda|arrastro|arrastra|arrastrando lengua|palabras
        no salen palabras
        habla|hablo|hablando ~ raro|rara|trabada|arrastrada|enredado|trabado|arrastrando
          |enredada|pastosa
        va|fue|yendo cara
        no sale|salen voz|habla
        no coordino|articulo
        <limb> no responde|mueve
        hormigueo ~ lado|mitad|cara
        palabras no salen|vienen
        palabras ~ salen|enredan|traban ~ mal|raras|bien
        <limb> ~ <dead>
        <dead> ~ <limb>
        durmio|duerme|durmiendo|paralizo|paraliza|adormece|adormecio ~ <limb>
        <limb> ~ durmio|duerme|durmiendo|paralizo|adormece
        debilidad ~ lado|brazo|mitad|cara|pierna
        sin fuerza|fuerzas ~ brazo|lado|mano
        peor dolor ~ cabeza
        paralizado|paralizada|paralisis
        perdi|pierdo|perdido ~ habla|voz
        no veo ~ ojo
        perdi|pierdo|perdido vista|vision ~ ojo
        <twist> ~ <face>
        <face> ~ <twist>
        se me cae|cayo|caido|torcio|tuerce|durmio|duerme|paralizo ~ <face>
        va|fue|yendo ~ boca|cara|ojo ~ lado|costado
        boca|cara|labio lado|costado
        boca|cara ~ va|fue|yendo ~ lado|costado
        cae|cayo|desploma brazo
        no|sin|perdi|perdiendo|pierdo|fue|falta|poca ~ fuerza|fuerzas ~ brazo|mano|lado|pierna
          |mitad
        debil ~ lado|brazo|mano|mitad
        entumio|entume|entumecio|entumece|adormecio|adormece|acalambro ~ <limb>
        arrastro|arrastrando ~ letras|palabras|lengua
        balbuceo|balbuceando|balbucea
        no sale|salen ~ decir|hablar|palabra|palabras|voz
        no me sale hablar|palabra
        fue|va|perdi|apago|nublo|apaga ~ vista|vision ~ ojo
        <cant> ~ sonreir|escribir|articular|modular
        aire torcio|torcida
        <limb> no obedece|obedecen
        hablo|hablando ~ mal|borracho|borracha
        cae ~ baba
        caen|cae cosas ~ mano|manos
        algo ~ cerebro
        <limb>|<face> no siento
        salen palabras ~ mal|raras|cambiadas|enredadas
        """,
    Kind.SEIZURE: """
        convulsion|convulsiones|convulsionando|convulsiono|convulsionado|convulcion|convulciones
          |combulsion
        ataque ~ epileptico|epilepsia
        crisis epileptica|convulsiva
        tiemblo|temblando|sacudiendo|sacude ~ controlar|control|parar
        espasmos ~ parar|control|<cant>|controlar
        tiemblo|tiembla|temblando|sacudiendo|sacude|espasmos|sacudidas ~ sin|no|<cant> control
          |controlar|parar|paro
        no paro|para|dejo|deja temblar|sacudir|sacudirme|convulsionar|sacudirse
        espuma ~ boca
        ojos ~ blanco|vueltos
        """,
    Kind.HEART_ATTACK: """
        infarto|infartando|infartado|infarta|infartada|infartandome
        ataque ~ corazon|cardiaco
        paro|arresto cardiaco|cardiorrespiratorio|corazon
        corazon ~ parando|para|paro|detiene|explotar|explota|detuvo
        se me para|paro|detiene|detuvo|parando|deteniendo|salta corazon
        va|esta parar|detener|explotar|parando|parandose|fallando corazon
        falla|fallando|fallo corazon
        """,
    Kind.BLEEDING: """
        sangro|sangra|sangrando|sangrado|sangre|sangrar ~ mucho|mucha|bastante|para|parar
          |cantidad|abundante|montones|grave|cabeza|todas|chorros|fuerte|detiene|cesa
        mucha|tanta|perdiendo|perdido|vomito|vomitando|vomite|escupo|escupiendo|tosiendo|pierdo
          |charco|echando|lleno|llena <blood>
        hemorragia|hemorragias|emorragia|desangro|desangrando|desangrandome
        no para|deja sangrar|sangre
        no detiene|para|corta|cierra|deja|paro ~ sangre|sangrado|sangrar|herida|hemorragia
        <cant> parar|detener|cortar|controlar ~ sangre|sangrado|hemorragia
        sangra|sangro|sangrando|sangre|sangrado ~ frente|cabeza|boca|oido|oidos|cara|munecas
          |cuello
        sangre|sangrando ~ todos|todas|lados|partes
        tosi|tose|escupi|escupo|vomite|vomito|toso ~ <blood>
        corte ~ no para|deja|cierra
        herida ~ profunda|abierta|fea|grande
        sale|saliendo|brota|chorrea|sales ~ sangre
        bote|botando|boto|escupiendo <blood>
        sangro|sangrando|sangra ~ monton|caleta|harto|kilo|demasiado
        """,
})  # fmt: skip
