"""Everyday words that look like one that is listened for, and are taken as they stand.

Commonest words of each language that are within a slip of a word listened for (design choice).
"""

from typing import Final

from bot.distress.language import words

ENGLISH: Final = words("""
    soon
    absolute abundance abundant accident accidental accidents acres acting adds agent ahead
    aired airline airlines airplane airport airports airways alarm alice alike allan
    allegations allen allocated allowed alone already altar amino analysed analyses analysis
    analysts analyzed anger angle anna ants anyones anywhere apparel apparent apparently
    appeared appearing applause apple applicable application applied applies applying
    apprentice approaches approaching arena arise armed armor armour around arrests ashes
    aside attached attract attracted austria auxiliary awake backed background backgrounds
    backing backlash backup backward backyard bacteria bacterial bait baking balanced balls
    banging bank banking banned barking based batch bathing bathrooms battle beach beaches
    bearing beast beating became becomes bedding began begins begun behalf behold bella belly
    bending benefit benefited benefits beth betting beverly bills bind bitches bites bitter
    blacks blame blaming bland blasting blazing bleaching blend blended blending blessing
    bling blink blinked blinking block blocking blond bloom bluetooth blur blurred blurry bold
    borrowing bosses boston bother bothered bottles boulder bound boyd bracing brad brake
    branding brave bravo breach break breasts bred breeding breeds brent brett brewing bright
    bringing broad broker brokers brooke brown brush bucket bumper bunny burn burned burnt
    burton butter cables cairo called calls camera camp camping canada canceled cancellation
    cancer candidate cannon canon canvas care cared cargo cart casey catches catherine causing
    cellular center certain champ chances chang changed changes charge charging charming
    charter chartered chasing chatting cheat cheating check checking cheeks cheer chester
    chick choke chooses choosing chopping chose clapped clapping classed classroom cleaning
    clearing clicking clone closer closes closet clothes coaching coding collage collars
    colleagues college color colorado combustion comeback comedian compassion compulsion
    conceived concentrate concentration concentrations conclusion conclusions confederate
    confessed confined confuse confused confusing confusion congo connects connor conquered
    conscience consecutive consider considerable consideration considerations considered
    considering considers constable constructed consulted consulting contacted contains
    content contents contest contested contests context contract contracted contractor
    contractors contracts contribution contributions controlled controller controls
    conversation conversations conversion conversions convert cooked cooking coping cough
    couldve counting cousins cover cracking crane crash crashed crashing create creating
    creative credits creed creek crops crossing crown crust cruz curry dainty dancer dangers
    darker daughters daunting daylight deadline deaths decade decided decides dedication deed
    deeds define deliberate delicate delight deliver delivered delivering delivers denied
    depth deserve design designs desperate despite dessert detail devil diagnosed diego
    differences different ding dismissed disparate displays diving docking doctors doing donna
    donor door doses doubled doubles dough downtown doyle drawer drawn dreaming drinks drive
    driven drivers drives drowning drunken drying dumped dwelling early ebook echo eden
    education eight either elegant elena elephants employing enable enclosed endorsed enduring
    enters entry essay everybody everyone examples excluding exists expanding exploded explore
    explorer exploring exposing extended extra facebook faced facing fade failed fails
    fairness faking falcon fallon fallout families familys fanning farming farther faster
    fasting feather feathers feature featured feeding feeds fencing fernando fever fight
    figuring filing filled filling fills finding fines finger finnish fired fishing fist
    fitness fitting fixed flame flanking fleeing fleeting flight flint flirting flood floors
    flour flurry flying fond football footsteps forgive forgiven formal forthcoming foundation
    foundations founder fracking franco frank freaking freddie freed freeze fried friendship
    friendships fries frightened frightening fronting fund furry gaining gains gangs gaping
    gardening gary gather gathered gathering genus ghosts girlfriends goodwill goose gordon
    governor governors grabbing grace grade graduating grandpa grandparents grape gravel
    graves greater greed greet grief grinding grounds grove growing grown guitar habit hacker
    hacking haircut hairy halls halo handbook handing handle handled handsome handy hardware
    hardy harper harry hart hatch haunting haven headaches header heading headline headlines
    headphones heal healed hear heard hearing hears hearts heated heath heating height heir
    hello herself hills himself hinting hired hitting holder holding hole honorable hopefully
    horse hose hospitals host hosting housed household households houses however humble
    hunting husbands imagination imagined imaging imbalances impression impulse income
    incoming incredible indication indie informal inherent insanity inside insight instantly
    insured intake intended intent inter interact interest internal interpret invasive iphone
    issue issued itself james jared joint jumped kelly killer killings kills knocking lack
    lacked lacking lads lame landed landing landmark lanes later latest laughing laughter
    leading leads leaking leaning leave leeds legal legally legend legends legit legitimate
    leisure lending letter letting licking lies lifes lifetime lighter lighting lightly
    lightning lights lightweight likes liking limiting lined liner lineup lining links liquid
    lively liverpool lives load loading loans locked locking locks logo looking lords losses
    lover loving lucas lucky lured lurking machines made maiden major making males mammals
    marc marching marco maria mario marker marketing masculine massage match matches matching
    material maybe measured measurements measures media median medicaid medicare medications
    medicines meditation meetings merge messed messing mexico mighty mile mills mindset mines
    minimal minimum minor missed missing mistake mistaken mistakes misunderstanding mocking
    monitors motives mouse mouths moved moves movie nearby necessity neighbors neighbours
    nevertheless newer nice nightfall nineteenth nintendo noble nobody noises noisy nokia
    nonetheless norman northeast northern notable notebook notes nothing notre notwithstanding
    nova nowhere numbered numerous nursing offended offender offer offerings offline offset
    offshore offspring olive omar oneill online onset opposing oppression orbit orlando others
    outcome outcomes outfit outfits outline outlined outright outstanding overcome overcoming
    overdue overhead oversight overuse overview overweight owner pablo packing paint painted
    painting paintings paints paired pairs panel panting paper parade parent parked parole
    particular partners partnership partnerships passes passive passport password pasta paste
    patch patents payday paying peak peek pending pension phil phones piece pill pins pint
    pissed pitching placing plains plane planes playing pleasing pleasure pointing points
    poker policy polite polls polo popping portion portions posed posing positive pots pound
    power praise prank preaching prefers premier premiere present presenting preston
    pretending prevention prevents prime print printing prison prisoner program programme
    programs promo promotion promotional promotions prone props puerto pulls pumped purse
    pursuing pushing putting qatar question questionable queue quicker quitting racking
    radiation raining rains raised raises ramp rams ranged ranger ranging rank ranting rapid
    reached reaches reaching reaction reactions reader reads realised reasonable reasons
    recall recovered reed relating relation relatively relatives relying remainder remark
    remarkable reminded reminder reminds remove removing rendered rendering rent renting
    rescued reserve reserved reserves reservoir resign responded respondents responds response
    responses responsive restored restoring retired returned returning returns reverend
    reversed review revision ridiculous rightly rights ringing ripped rise risky river
    riverside roads rocking rocks root rouge round rover rush rushed rushing sacking sacred
    sadly sailing saint sale salem sales salon salvage sand sandra santa scanning scar scare
    scares scarring scars scattered schooling scored scots scrap screaming screens screenshot
    screenwriter seal searches season seat seating seats secondary secures seeds seek seeking
    seemingly sell selling seminar sending sensation sensible sensitive separation services
    settling setup several severity sewing shady shake shallow shaping share shared sharing
    shark sheep sheer sheets shell shifting shining shipped shipping shirt shocking shook
    shooter shootings shoots shopping shops shore shorter shorts shot shots shoulders shouldnt
    shouldve shout shouting showcase showed showers shutting sierra sigh sights signal signing
    sincere sing singers singing sings sinking sins sites sitting sizing skating skill skilled
    skinny skins skipped slack slapped slaughter slaying sleeping sleeps sleepy sliding slight
    slip slots slower smacking small smells smiled smiles smiling smoking sneak somehow
    someones somerset somewhere sounding sounds sourcing south sparring speaker speaking
    speaks spear speeches speed speeding spell spelling spending spies spinal spine spite
    splitting sport sporting sports spot spotlight spurred stable stack stan stands star stare
    stark starts stations stats staying stays steak stealing steep stepped stepping steps
    sterling sticking stirring stocks stoke strand stranger straw stray streak streaming
    strike strikes striking strings strip stripped stunning sucks sullivan sunny supermarket
    supervision supplying supporting supposed surfing surging suspend suspended sutton swear
    sweater sweep sweeping sweetheart swept swinging switching swords symbolic systemic table
    tables tablet tagged taint takeover takes talkin talking tapping tasty taunting teachers
    teaches teaching tearing telling tended tensions terminal texts thanksgiving thermal
    though thoughts threat three throughout throw tied tightly timeline tipped tire tires
    tissues todays token tomato tommy topped tops touch touching tougher touring towards
    township tracked tracking trap trapped treason treasure treasures treat treating
    tremendous trent tried troop troops troubled trunk trusting tube tumblr tumor tune tuned
    tunes tuning tunnels turks turn turner tweet tying uncovered undercover undergo undergoing
    underground underlying understandable understands understood undertake undertaken
    undertaking underwater unlikely unreasonable unto upcoming upset upside upstairs vanilla
    vanished vegetable vegetables venting verse versus vice viewer violet visa visiting vivid
    voiced voices void volumes wading waist wales walking walks wall walter wandering
    warehouse warming washed watch watches watching waters waving weakened weaker weaknesses
    wearing weigh weighs weights welcoming wells whale whatever wheeler wherein wheres
    wherever while whites whoever whore whose whove wildly willing willis wines winners
    winning wired wireless wisconsin wishes withdraw withdrawal withdrawn wong woods woody
    wore worker workforce workout works workshops worlds worms worries worship wouldve wound
    wright write writing yearly yelling ying yourself youth
    """)

SPANISH: Final = words("""
    sentar sentarme
    abajo abandonada aboga abogada abogado abrazo abrazos abriendo abrigo abuelos abundantes
    acabando acabara acabaron acabas acabe acaso accidentes aceptada aceptado acerca acercarme
    acero acertado acido acordado acordarme acortarme acostarme acostarnos acostarse acusado
    adoptada adoptado afortunadamente agarra agarre agencia agencias agotado agravante
    agregado agresion aguanta aguantar aguante aguda ahorrando ahorrar ahorros aires alcanzado
    alcanzan alcanzar alcanzo alegando alianza alimento allende alza amas ambulante ambulantes
    amigas amigos amistad amistades amlo amores amos ampliacion ampliar analista analistas
    analiza analizado andando andina anotando anterioridad apagar aparatos aparecen aparecer
    aparecia aparecido aparicion apartado aplicaciones apoyando aprecia aprecio aprobado
    aprueba apuesto apuntan apunto arenas argentinos armados armando arrestado arriendo
    arrogante arte articulo articulos asiento asustado ataca atacando atacante ataco ataques
    atenas atender atendiendo atentado atentados auxiliar auxiliares avanzando ayudado
    ayudamos ayudan ayudante ayudara ayudaran ayudaria ayudarla ayudarle ayudarles ayudarlo
    ayudarnos ayudaron ayudarte ayudo azar bacterias bailando bajado banca banco barca
    baterias bello bienestar blancas blancos blindados bodas bordo botin bruselas buen buenas
    bueno buscado buscan buscar buscas busco cabe cabezas cabida cabo cada cadena cagando cago
    caidos caiga calcular caldo calida calidad calido calla callado callarse calle calles
    camas cambia cambian cambiara cambiaron caminando candidato cansados canta cantabria
    cantando cantantes cante cantidades canto canton caos caras caravana carcel cargando
    caridad carne carnet carta casada casado casados casar casilla castilla castillo cataluna
    catastrofe causada causado caza ceder celebra celebran celebrar celula celulares celulas
    centra cera cercano cercanos cerebro cerradas cerrado cerrados cerro cesar chaco checa
    chiapas ciegos cielo cientos cierran cierre cierta cierto cines claro clase coincidencia
    collares colocando colores comando comedia comentado comentan comentando comenzando
    comerciantes comete cometidos cometio comiendo comite comodidad comodo companeras
    companeros compania compara comprension concedido concedio concentra concentrado concesion
    conciente conclusiones condesa conduccion conecta conectada conectado conexiones confesion
    conformidad confusiones conjuncion conocidos conocimientos consciente conscientes
    consecuencia consecutivos conservan considera considerablemente considerados considerando
    considere considero consiga consigna consistia consuelo consulado consumidor contactar
    contado contador contamos contando contare contarle contarme contarte contener contenia
    contenta contento contentos contestar contesto contexto contextos contienen contigo
    contrabando contratar contrato contratos controla controlada controlado controlan
    controles convencion convenciones conviccion convicciones convivencia corazones coro
    correspondiente corriendo cortado cortante cortarle cortaron cortesia costado creando
    creen creencia creencias creyendo cristianos cruzando cualidades cuarta cuartos cuatro
    cubriendo cuenta cuentan cuento cuero cuerpos cuervo cueste cuida cuidando cumple dados
    damas damos darle darme darnos darse darte debajo debia debio decida deciden decidi
    dedicacion dedico dedo dejado dejame delegados della demos deporte depresion
    desafortunadamente desagrado desaparecidos desatado desayunar desayuno descarada descarado
    desea deseable deseados deseamos desee deseos desierto desmadre despertado despertar
    despierto desplazado desplegado despojado destacada destacado destacando destacar
    destinada detallado detalle determinados determinar determino devuelve diciendo dieta
    diferente dificiles diplomado disparar dispararle dispararon dispuesta dispuesto diversos
    dobles doctorado doctores dolar dolares doloroso dorada dorado doscientos dosis duelo
    duena dueno duermo echado economicamente edad editar ejemplos elegi elegidos elevar ella
    ello embajada emergen emergente emergentes empezado empleada empleado encantado encender
    encontraba encontraban encontrado encontrados encontramos encontrando encontrar encontrara
    encontraran encontraras encontrarse encontro encuentra encuentran encuentras encuentre
    encuentren encuentres encuentros encuesta ende enfermedad enfermedades enfermos enfrente
    enhorabuena enojo enormes ensenado ente entenderlo entendi entendia entendido entendio
    entera enterado entere entero entidad entiende entienden entiendes entiendo entrado entran
    entrar entras entre entregado entrevista entrevistas entro enviada envian episodio
    episodios escalada escapo escasa escaso esconde escondido escudo esfuerzos esmalte espada
    espaldas esperando esperar espiral esposas esquema estados estallar estallo estandar
    estandares estando estara estare estaria estas estrella estreno estupendo estuve eterno
    evita evitarlo examen exista existe existen existente existiendo existiera exito experto
    explicacion explicar explorar expresion extender externo externos extrema extremo
    fabricante fabricantes facilitar factura falda falla fallado fallar fallas falle fallo
    fallos falsa falsos faltan faltar faltas falten falto familiares familias fase finde flor
    formados formales formando fractura frentes fresco fuente fuentes fuera fueras fundo gafas
    gallardo gana ganan ganar garantia generando gorda grabado grabando gravedad grises
    guitarra gustaba haberme habia habiendo habilidad habitaciones habitantes hablado hablan
    hablarle hablaron hablas hable habra hacen hacerla hacerlas hacerle hacerlo hacerlos
    hacernos hacerse hacerte haces halla hallado hallan hallar hara haria hasta hazlo hecho
    hechos heridos hermanas hermandad hermanos hermosos hernan hernandez himno hinchas hombre
    honesta horribles hospitales hueco huele huella huerta huesos huevo ignorando ignorantes
    imaginado imaginar imaginas imaginate imagino impone imponer imposibilidad imposible
    imposibles impresion impresionante impuesto impulso impuso incidente increible ines
    infanta infectada infectado informada informado informando inmenso inspiracion intendente
    intensa intenta intente intentos intercambiar interes interna internas interno internos
    invento inversores izquierda izquierdas jodiendo jugar junto juntos labores lados lata
    leerlo legalidad legislador leia lena lenguas levanta levantado levantan levante levanto
    leyendo linea lineal lineas liquidos lista llamada llamado llamados llaman llamarlo
    llamaron llamarse llamas llano llave llegado llegan llegando llegas llenan llenar llenas
    llenos lleva llevan llevando llevara llevarla llevarlo llevaron llevarse llevarte llevas
    llevo llorando logra logrando logre logros luce luciendo lugar madera madres maldad
    malestar maltrato mancha mandan mandando mande mando manejando manta mantener mantenerse
    mantenga mantengan mantenia mantenido marcada marcado marcan marcando marcas marcha
    marchar marchas marcos marea mares mariano marino marques marquez marta mascara mascaras
    matando mataron matarte matas mateo materia maternidad mediacion mediados mediano
    medianoche medica medicamento medicas medicina medicinas medicion medicos medidas medio
    medios meditacion mejora mejorando mejores memoria menor merienda mero metiendo metio
    midiendo miedos miento mintiendo mirada mirando mision mojado molesta molestar molesto
    montado montanas mora mostrando mostro motivo motores moverse moviles movilidad muchisimas
    mudarme mudo muere muertas muertes muertos mueven mujeres mundos munecas muneco muro nacer
    natal necesidad necesitaba necesitan necesitar necesitas necesite necesites negar nego
    negras negros neta neto niegan nietos nieve ninas ninez ninos noreste norma normalidad
    normas noroeste norte notablemente notables noto novias novios nueva nula nulo numerosos
    observar obsesion obtener obteniendo obtienen occidente odia olor opone oportuno opuesto
    orillas orto oscuras oscuridad oscuros pacheco paga pagado pagando pagar pago pague pais
    palabra palestinos palito paliza papeles paradas parados paraiso paraisos paralela
    paralelo paran parana pardo parecia parecido parecidos pareciera parecio paredes parejas
    paren pares parodia parque parra particulas partiendo parto pasando pasaporte pasar
    pascual pase pasen paseo pases pasillo pastel pasto patada patadas patatas pedi pedia
    pedido pedir pedo pelotudos penal penales penas pendiente peores perderse perdidas
    perdidos pero personalidad personalidades pesadilla pesado pesados pidiendo piedad pierda
    pierdas pierde pilas pinto pista plana planeando plano plena pleno poblado podemos poder
    podian podias podra podras podre podrian policial policias ponce pondria ponen ponerle
    ponerlo ponernos ponerse ponerte pones ponga pongamos ponia ponte portada posada posesion
    posibilidades positivas prado prefiere prefieren prefieres preocupada preocupado
    preocupados preocupan preocupes preservar presiones prestado presume preventiva primas
    primordial primos prisa prision probabilidades probando problema programa programado
    programas pronunciado pronuncio protestantes pruebas pudiendo pudo puedas puerta pues
    puesta puestos pulgadas pulido punado puno punta puntas puramente puto putos queda quedar
    quedara quedaran quedaria quedarme quedaron quedarse quedarte queden quedes queja quemar
    queridos queriendo queso quiera quiere quisieran quisieron quita quitan quitarle quitaron
    ramas ramos rapida rapidos raros rastro ratas razas reaccion reaccionar reacciones
    realidad realidades realizando reciente recomendable recomendado recomendar reconocimiento
    redaccion redes refiere refiero refuerzo regencia relaciona relativa relativas relativo
    relativos remate renunciar reparacion reparar represion reserva reservado reservas
    resolver respecto respetar respeto responda responder respondido respondiendo respondio
    respondo retirada retirado retirar retomar revista revuelta ribera riego riendo riesgos
    rios robando rodilla rogando rompe rompiendo rostros saben sabio saca sacan sacarle
    sacarlo sacaron sacas sagrada sagrado sagrados salame salgado salida salido saliendo
    saliente salta salvaje sandro sanidad santidad saturado sedes sello senala senalando
    senalo senda seno senor sensaciones sentado sentidos separada separado separados separar
    sepas serios serrano setenta severa siendo sigas siglos siguiendo sincera sinceridad
    sincero sintio sirviendo sistemas situados solamente sonando sonidos sonriendo sonrisas
    soporta soporte soria sospechoso sospechosos sostenido sostiene suave subiendo subsidio
    subsidios suceden sucediendo sucedio sueco sueldo suelen suelos suelto suena suene suenos
    suerte sufre sufriendo sufrio sujeta sumando sumar superacion supone suponer supongo
    supresion supuesto surgiendo suspender sustento tabla tamales tantas tanto tarta techo
    telefonia telefonos temer temores tenga tengan teniente tensiones tentacion tercio termina
    terminada terminado terminan terminara terminaron terminas termine terminen terminos
    terribles tesis tierras tinta tirando tocado tocar todos tomada tomados toman tomando
    tomara tomaron tomarse tomas tomate tonta trabaja trabajado trabajando trabaje trabajos
    traia trama trata tratado tratan tratando tratar trazado tribuna tunez turno turnos
    uniendo urgentes usarla usarlo usaron usarse valen valentia valida valido valla valor vano
    vasos veamos vecinas vecinos vemos vendido vendidos vendiendo vendo veracruz verdad
    verdadera verdaderamente verdaderas verdades verde vere verga verla verlas verle verlo
    verlos verme vernos verso versos verte viento vigencia vimos viniendo violenta violentas
    violento violentos visibilidad visiones visita visitando visitantes vistas viste visto
    vivi vivia vivienda viviendas vivio volando volumen volviendo votando vuelo vuelta vuelva
    vuelvas vuelven vuelves vuelvo whatsapp
    """)
