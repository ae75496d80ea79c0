"""What tells of a faint that is near in Spanish, of Spain and of the Americas.

Signs as in Rowe 2017, Front Pediatr 5:121. How people spell and say them is a design choice.
"""

from types import MappingProxyType
from typing import Final

from bot.distress.heard import Kind

FAINTNESS: Final = MappingProxyType({
    Kind.FAINTING: """
        <lead> ~ <faint>
        me desmayo|desmallo|desvanezco|desplomo|desmaya
        desmayando|desmayandome|desmallando|desvaneciendo|desvaneciendome|desplomando
          |desplomandome
        siento|sentir desmayar|desfallecer|desvanecer|desmayo|desvanecimiento
        casi|poco me desmaye|desvaneci|desplome|desmallo
        <lead> ~ perder ~ conocimiento|conciencia|consciencia|sentido
        casi|poco pierdo|perdi|perder ~ conocimiento|conciencia|consciencia|sentido
        desfallezco|desfallecer|desfalleciendo
        sensacion|ganas ~ desmayo|desmayarme|desvanecimiento|desmayar
        me va dar algo|patatus|soponcio|yuyu|desmayo
        siento me voy
        estoy por|apunto <faint>|caer|caerme
        va|fue|yendo cabeza|mundo
        estoy yendo
        me apago|apagando
        presincope
        perdiendo|pierdo|perdi ~ equilibrio
        da|dando|dar|entrando|entra|viene|viniendo|dan|pega|agarra|agarrando|agarro|dio <turn>
        va|fue|yendo|van|iba|ido ~ conocimiento|conciencia|sentido|consciencia
        me voy ~ mundo|ir
        me apague|apago|apagando
        me privo|privando|privandome|privare
        voy privar|privarme
        me falta poco desmayar|desmayarme|caer|caerme
        estoy que me desmayo|caigo
        mero|merito me desmayo|caigo|desmaye|cai
        ando|anda|andan desmayando|desmayandome|cayendo
        no desmaye|desmayado ~ casi|poco
        blancazo|vahido|vahidos|vaguido
        falta nada|poco|poquito ~ <faint>|caer|caerme
        nada|poco|punto <faint>
        """,
    Kind.VISION: """
        nubla|nublando|nublado|nublo|nublan|nubladas|apaga|apago|apagando|cierra|cerrando ~ vista
          |vision|ojos|todo
        vista|vision|ojos ~ nubla|nublada|nublando|nublo|nublan|oscurece|oscurecio|va|yendo|fue
          |apaga|negra
        se nubla|nublo
        va|fue|yendo|pierdo|perdiendo|perdi ~ vista|vision
        veo|viendo|ve|pone|poniendo|pongo|puso|vuelve|esta ~ negro|negra|oscuro|oscura|gris
        todo ~ negro|oscuro|gris|blanco|oscurece
        veo|viendo ~ estrellas|estrellitas|luces|puntos|manchas|doble|chispas|lucecitas|puntitos
          |blanco|tunel
        no veo
        <cant> ver
        vision|vista tunel
        sin vista|vision
        oscurece|oscureciendo|oscurecio ~ vista|vision|todo|habitacion
        quedo|quede|quedando|estoy ciego|ciega
        estrellitas
        me va|fue|yendo|van|iba|falta luz|lus|vista|bista|vision|oidos|oido|luces
        me apaga|apagan|apagando|apago|apagaron luz|luces|tele|todo|vista|lus
        quedo|quede|quedando sin vista|ver|vision|luz
        <cant> ~ abrir|mantener ~ ojos
        cierran|cerrando|cierra|van|yendo ojos
        beo|veo|miro ~ negro|negra|oscuro|nada|borroso ~ negro|nada|oscuro
        beo negro|estrellas|estrellitas|puntos|doble
        no beo|miro nada
        no beo
        se oscurece|oscurecio|obscurece|nubla
        obscurece|obscureciendo ~ todo|vista|vision
        todo ~ apaga|apagando|aleja|lejos
        oigo|escucho ~ lejos|lejano|apagado
        me va|yendo|borra|borrando|borro todo|vista|vision
        ojos ~ negros
        veo|viendo ~ chispitas|chiribitas|moscas|mosquitas|destellos
        no distingo
        """,
    Kind.COLD_SWEAT: """
        sudor|sudores|sudando|sudo|sudoracion|suo frio|fria|helado|frios
        frio sudor
        palido|palida|blanco|blanca como pared|papel|muerto|leche
        puse|poniendo|puesto|quede|estoy palido|palida|blanco|blanca
        empapado|empapada sudor
        fria|frio ~ sudorosa|sudoroso|sudada|sudado|pegajosa
        banada|banado|empapado|empapada|chorreando|chorreo ~ sudor|sudando
        sudo|sudando|sudor|transpiro|transpirando ~ mares|chorros|frio|fria|helado|helada|goteando
        transpiracion fria|helada
        amarillo|amarilla|palido|palida ~ sudando|sudor|frio|fria
        palido|palida como
        helada|helado ~ sudando|sudor
        """,
    Kind.CANNOT_STAND: """
        <cant> ~ <stand>
        no puedo|aguanto|aguantare|soporto|puede|tengo|mantengo|sostengo|logro ~ pie|parado
          |parada|pararme|levantarme|parada
        no tengo|mantengo|sostengo|aguanto ~ pie|parado|parada
        no me sostengo|mantengo|aguanto|sostienen
        no sostienen|aguantan|responden|sujetan ~ piernas|rodillas
        piernas|rodillas ~ doblan|fallan|flaquean|ceden|flojas|doblando|fallando|gelatina|van
          |flojean
        piernas|rodillas no sostienen|aguantan|responden|sujetan|dan
        piernas|rodillas ~ trapo|lana|algodon|chicle|gelatina
        aflojan|afloja|aflojaron|aflojando|fallan|flaquean|doblan|ceden|flojean|fallando
          |doblando ~ piernas|rodillas
        no dan|aguantan|responden|sostienen|sujetan|obedecen ~ piernas|rodillas
        me van|fueron|yendo|fallan|ceden|vencen ~ piernas|rodillas
        piernas|rodillas ~ vencen|fueron|yendo|responden|tiemblan|temblando
        no puedo|aguanto|logro|consigo ~ erguido|erguida|equilibrio
        no tengo|mantengo|guardo ~ equilibrio
        """,
    Kind.FALLING: """
        voy|boy|boi|va|punto|creo|siento|casi|poco ~ caer|caerme|caigo|cayendo|cai
        me caigo|caere
        estoy cayendo|cayendome
        voy suelo|piso
        voy ir suelo|piso
        me voy|boy|voi|vo cae|caer|caerme|kaer
        voy|boy <floor>
        me voy boca|bruces|lado|atras|espaldas
        casi|poco|poquito ~ voy <floor>
        estoy|ando que me caigo
        voy dar contra
        """,
    Kind.VERY_DIZZY: """
        <very> <dizzy>
        <dizzy> ~ fuerte|fuertes|mucho|muchisimo|terrible|horrible|intenso|muy|bastante|severo
          |tremendo|fuertisimo
        todo|habitacion|cuarto|cabeza|mundo|casa ~ vueltas|gira|girando|mueve|moviendo
        vueltas todo|cabeza|habitacion|cuarto
        gira|girando|mueve todo|cabeza
        fuerte|fuertes|terrible|intenso|horrible|tremendo <dizzy>
        me mareo mucho|muchisimo
        marearse|marearme mucho|muchisimo|demasiado
        mareadisimo|mareadisima
        me|se|te mareo|marea|maree|mareando|marear|mareaba ~ monton|demasiado|mucho|muchisimo
          |fuerte|horrible|harto|bastante|feo|terrible
        todo|cabeza|cuarto|habitacion|mundo ~ vuelta|vueltas
        vuelta|vueltas ~ todo|cabeza|cuarto|mundo
        mueve|moviendo|hunde ~ <floor>|cuarto|habitacion|mundo
        <dizzy> que <cant>|no|me|caigo
        mareadisimos|mareadicima|mareadicimo
        <dizzy> morir|muerte|matar
        <dizzy> ~ espantoso|espantosa|feo|fea|brutal|bestial|horroroso
        pieza|casa|paredes|suelo|techo ~ vueltas
        <dizzy> barbaro|barbara|bestia|monumental
        """,
})  # fmt: skip
