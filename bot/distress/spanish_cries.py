"""Cries for help, and words of one who wants to die, in Spanish, of Spain and of the Americas.

Families as on public first-aid pages (common practice, no single source). How people spell and say
them is a design choice.
"""

from types import MappingProxyType
from typing import Final

from bot.distress.heard import Kind

CRIES: Final = MappingProxyType({
    Kind.SELF_HARM: """
        quiero|quisiera|prefiero|ganas|deseo|voy|gustaria morir|morirme|muerto|muerta
        quiero|quisiera|ganas|deseo|voy|intento matar|matarme|suicidar|suicidarme
        matarme|suicidarme|suicidio|suicida|suicidar|suicidarse|suisidio|suicidarme|suicido
        quitarme|quitar|acabar|terminar|termino|acabo ~ vida
        acabar|terminar con todo
        no quiero|deseo|ganas|vale|sentido|aguanto ~ vivir|viviendo|vida
        no tengo ~ ganas|motivos|razones vivir
        mejor muerto|muerta
        corte|cortar|cortarme venas
        hacerme|hacer|herirme|cortarme|lastimarme|autolesionarme dano
        cortarme|herirme|lastimarme|autolesionarme|ahorcarme|ahorcar|dispararme|cortandome
          |cortarme
        cansado|cansada|harto|harta vivir|vida
        sobredosis
        tome|tomado|trague|tragado ~ muchas|demasiadas|frasco|veneno|lejia|cloro|bote|blister
        envenenado|envenenada
        ojala ~ muera|muerta|muerto|muriera
        ojala no|nunca despertara|despierte|despertar|despertarme
        quisiera|quiero|prefiero|deberia estar muerto|muerta
        quiero|quisiera|ganas desaparecer
        no quiero seguir|estar|ser ~ vivo|viva|viviendo
        no quiero existir|despertar
        no veo|encuentro|hallo|tiene|le ~ sentido ~ vida|vivir|viviendo|nada
        boy|voi|vo matar|matarme|suicidar|suicidarme
        voy|quiero|boy|pienso|ganas ~ tirar|tirarme|lanzar|lanzarme|aventar|aventarme|arrojarme
          |saltar ~ ventana|balcon|puente|tren|metro|azotea|via|vias|techo
        colgarme|ahorcarme|dispararme
        mejor|mejores sin mi
        no puedo|aguanto|soporto ~ mas ~ vida|vivir|viviendo
        harto|harta|cansada|cansado|aburrida|aburrido ~ vivir|vida
        <cant> mas ~ vida|vivir|viviendo
        quiero ir|irme ~ mundo
        tome|trague|tomado|tragado ~ monton|punado|caja|cajas ~ pastillas|medicamentos|tabletas
        """,
    Kind.PLEA: """
        ayudame|ayudeme|ayudenme|ayudadme|ayudarme|ayudamen|alludame|ayudeme
        necesito|necesita|pido|quiero|urgente|dios|favor|porfavor|alguien|una ayuda|alluda
        ayuda|alluda porfavor
        ayuda|alluda|socorro urgente|ya|rapido|porfavor|porfa|necesito|ahora
        que|alguien|favor|porfavor me ayude|ayuden|ayudes
        que|alguien ayude|ayuden
        necesito|llama|busca|quiero|manden|llamen|envien|llame medico|doctor|doctora|hospital
          |urgencias
        <call> ~ medico|doctor|policia|ambulancia|emergencias|alguien|hospital|urgencias|familia
          |marido|mujer|esposa|esposo|hijo|hija|madre|mama
        llevenme|llevame|llevar|ir ~ hospital|urgencias
        ambulancia|ambulancias|anbulancia|ambulansia|hambulancia
        emergencia|emergencias|emerjencia
        urgencia
        socorro|auxilio|ausilio|auxilio|auxiliame|auxiliame
        nueve once
        nueve uno uno
        uno uno dos
        ciento doce
        cero sesenta uno
        me muero|mori|moria
        estoy|voy|vamos muriendo|morir|muriendome
        muriendo|muriendome
        no quiero morir|morirme
        manden|mande|manda|envien|envie|busca|busquen|traigan|pide|pidan|pidan|traiga ayuda
        vengan|venga|ven|venid rapido|ya|pronto|alguien
        siento|voy morir|morirme
        salvame|salvenme|rescate
        vida muerte
        ocupo|preciso|requiero|precisamos|ocupamos ayuda|alluda|ambulancia|medico|doctor|doctora
          |auxilio
        vengan|venga|ven|venid|vente porfavor|porfa|ayuda|ayudarme
        llamen|llama|llame|llamar|avisen same|samu|bomberos|ambulancia
        medico|doctor|doctora porfavor|porfa|urgente|ya
        aiudame|aiuda|ayudme|ayudnme
        me muero|morire
        avisen|avisa|avise ~ familia|marido|mujer|esposo|esposa|hijo|hija|mama|madre|alguien
          |emergencias
        alguien venga|vengan|viene
        manden|manda|mande|envien|busquen|traigan alguien
        venga|vengan ~ medico|doctor|doctora|enfermera|policia
        """,
})  # fmt: skip
