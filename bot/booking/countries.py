"""Countries that go by one clock."""

from typing import Final

COUNTRIES: Final = """
Africa/Accra: ghana
Africa/Addis_Ababa: ethiopia, etiopia
Africa/Algiers: algeria, argelia
Africa/Asmara: eritrea
Africa/Bamako: mali
Africa/Bangui: central african republic, republica centroafricana
Africa/Banjul: gambia
Africa/Bissau: guinea bisau, guinea bissau
Africa/Blantyre: malaui, malawi
Africa/Brazzaville: congo brazzaville
Africa/Bujumbura: burundi
Africa/Cairo: egipto, egypt
Africa/Casablanca: marruecos, morocco
Africa/Conakry: guinea
Africa/Dakar: senegal
Africa/Dar_es_Salaam: tanzania
Africa/Djibouti: yibuti
Africa/Douala: cameroon, camerun
Africa/El_Aaiun: sahara occidental, western sahara
Africa/Freetown: sierra leona, sierra leone
Africa/Gaborone: botsuana, botswana
Africa/Harare: zimbabue, zimbabwe
Africa/Johannesburg: south africa, sudafrica
Africa/Juba: south sudan, sudan del sur
Africa/Kampala: uganda
Africa/Khartoum: sudan
Africa/Kigali: ruanda, rwanda
Africa/Lagos: nigeria
Africa/Libreville: gabon
Africa/Lome: togo
Africa/Luanda: angola
Africa/Lusaka: zambia
Africa/Malabo: equatorial guinea, guinea ecuatorial
Africa/Maputo: mozambique
Africa/Maseru: lesotho, lesoto
Africa/Mbabane: esuatini, eswatini
Africa/Mogadishu: somalia
Africa/Monrovia: liberia
Africa/Nairobi: kenia, kenya
Africa/Ndjamena: chad
Africa/Niamey: niger
Africa/Nouakchott: mauritania
Africa/Ouagadougou: burkina faso
Africa/Porto-Novo: benin
Africa/Sao_Tome: santo tome y principe, sao tome & principe
Africa/Tripoli: libia, libya
Africa/Tunis: tunez, tunisia
Africa/Windhoek: namibia
America/Anguilla: anguila
America/Antigua: antigua & barbuda, antigua y barbuda
America/Argentina/Buenos_Aires: argentina
America/Asuncion: paraguay
America/Belize: belice
America/Bogota: colombia
America/Caracas: venezuela
America/Cayenne: french guiana, guayana francesa
America/Cayman: cayman islands, islas caiman
America/Curacao: curazao
America/Grand_Turk: islas turcas y caicos, turks & caicos islands
America/Guadeloupe: guadalupe
America/Guayaquil: ecuador
America/Havana: cuba
America/Kralendijk: caribbean netherlands, caribe neerlandes
America/La_Paz: bolivia
America/Lima: peru
America/Lower_Princes: sint maarten
America/Managua: nicaragua
America/Marigot: san martin, st martin
America/Martinique: martinica
America/Miquelon: san pedro y miquelon, st pierre & miquelon
America/Montevideo: uruguay
America/Nassau: bahamas
America/Paramaribo: surinam, suriname
America/Port-au-Prince: haiti
America/Port_of_Spain: trinidad & tobago, trinidad y tobago
America/Santiago: chile
America/Santo_Domingo: dominican republic, republica dominicana
America/St_Barthelemy: san bartolome
America/St_Kitts: san cristobal y nieves, st kitts & nevis
America/St_Lucia: santa lucia
America/St_Thomas: islas virgenes de ee uu, u s virgin islands
America/St_Vincent: san vicente y las granadinas, st vincent & grenadines
America/Tegucigalpa: honduras
America/Tortola: british virgin islands, islas virgenes britanicas
Arctic/Longyearbyen: svalbard & jan mayen, svalbard y jan mayen
Asia/Aden: yemen
Asia/Amman: jordan, jordania
Asia/Ashgabat: turkmenistan
Asia/Baghdad: irak, iraq
Asia/Bahrain: barein
Asia/Baku: azerbaijan, azerbaiyan
Asia/Bangkok: tailandia, thailand
Asia/Beirut: lebanon, libano
Asia/Bishkek: kirguistan, kyrgyzstan
Asia/Colombo: sri lanka
Asia/Damascus: siria, syria
Asia/Dhaka: banglades, bangladesh
Asia/Dili: timor leste
Asia/Dubai: emirates, emiratos arabes unidos, united arab emirates
Asia/Dushanbe: tajikistan, tayikistan
Asia/Gaza: palestinian territories, territorios palestinos
Asia/Ho_Chi_Minh: vietnam
Asia/Hong_Kong: hong kong sar china, rae de hong kong (china)
Asia/Jerusalem: israel
Asia/Kabul: afganistan, afghanistan
Asia/Karachi: pakistan
Asia/Kathmandu: nepal
Asia/Kolkata: india
Asia/Kuala_Lumpur: malasia, malaysia
Asia/Macau: macao sar china, rae de macao (china)
Asia/Manila: filipinas, philippines
Asia/Muscat: oman
Asia/Nicosia: chipre, cyprus
Asia/Phnom_Penh: cambodia, camboya
Asia/Pyongyang: corea del norte, north korea
Asia/Qatar: catar
Asia/Riyadh: arabia saudi, arabia saudita, saudi arabia
Asia/Seoul: corea, corea del sur, korea, south korea
Asia/Shanghai: china
Asia/Singapore: singapur
Asia/Taipei: taiwan
Asia/Tashkent: uzbekistan
Asia/Tehran: iran
Asia/Thimphu: bhutan, butan
Asia/Tokyo: japan, japon
Asia/Vientiane: laos
Asia/Yangon: myanmar (birmania), myanmar (burma)
Asia/Yerevan: armenia
Atlantic/Bermuda: bermudas
Atlantic/Cape_Verde: cabo verde
Atlantic/Faroe: faroe islands, islas feroe
Atlantic/Reykjavik: iceland, islandia
Atlantic/South_Georgia: islas georgia del sur y sandwich del sur, south georgia & south sandwich
        islands
Atlantic/St_Helena: santa elena
Atlantic/Stanley: falkland islands, islas malvinas
Europe/Amsterdam: holanda, holland, netherlands, paises bajos
Europe/Athens: grecia, greece
Europe/Belgrade: serbia
Europe/Berlin: alemania, germany
Europe/Bratislava: eslovaquia, slovakia
Europe/Brussels: belgica, belgium
Europe/Bucharest: romania, rumania
Europe/Budapest: hungary, hungria
Europe/Chisinau: moldavia, moldova
Europe/Copenhagen: denmark, dinamarca
Europe/Dublin: ireland, irlanda
Europe/Guernsey: guernesey, guernsey
Europe/Helsinki: finland, finlandia
Europe/Isle_of_Man: isla de man
Europe/Istanbul: turkey, turkiye, turquia
Europe/Jersey: jersey
Europe/Kyiv: ucrania, ukraine
Europe/Lisbon: portugal
Europe/Ljubljana: eslovenia, slovenia
Europe/London: england, escocia, gales, gran bretana, great britain, inglaterra, reino unido,
        scotland, uk, united kingdom, wales
Europe/Luxembourg: luxemburgo
Europe/Madrid: espana, spain
Europe/Mariehamn: aland islands, islas aland
Europe/Minsk: belarus, bielorrusia
Europe/Oslo: noruega, norway
Europe/Paris: france, francia
Europe/Podgorica: montenegro
Europe/Prague: chequia, czech republic, czechia, republica checa
Europe/Riga: latvia, letonia
Europe/Rome: italia, italy
Europe/Sarajevo: bosnia & herzegovina, bosnia y herzegovina
Europe/Skopje: macedonia del norte, north macedonia
Europe/Sofia: bulgaria
Europe/Stockholm: suecia, sweden
Europe/Tallinn: estonia
Europe/Tirane: albania
Europe/Vaduz: liechtenstein
Europe/Vatican: ciudad del vaticano, vatican city
Europe/Vienna: austria
Europe/Vilnius: lithuania, lituania
Europe/Warsaw: poland, polonia
Europe/Zagreb: croacia, croatia
Europe/Zurich: suiza, switzerland
Indian/Antananarivo: madagascar
Indian/Chagos: british indian ocean territory, territorio britanico del oceano indico
Indian/Christmas: christmas island, isla de navidad
Indian/Cocos: cocos (keeling) islands, islas cocos
Indian/Comoro: comoras, comoros
Indian/Kerguelen: french southern territories, territorios australes franceses
Indian/Mahe: seychelles
Indian/Maldives: maldivas
Indian/Mauritius: mauricio
Pacific/Apia: samoa
Pacific/Auckland: new zealand, nueva zelanda
Pacific/Efate: vanuatu
Pacific/Fakaofo: tokelau
Pacific/Fiji: fiyi
Pacific/Funafuti: tuvalu
Pacific/Guadalcanal: islas salomon, solomon islands
Pacific/Norfolk: isla norfolk, norfolk island
Pacific/Noumea: new caledonia, nueva caledonia
Pacific/Pago_Pago: american samoa, samoa americana
Pacific/Palau: palaos
Pacific/Pitcairn: islas pitcairn, pitcairn islands
Pacific/Rarotonga: cook islands, islas cook
Pacific/Saipan: islas marianas del norte, northern mariana islands
Pacific/Tongatapu: tonga
Pacific/Wallis: wallis & futuna, wallis y futuna
"""
"""The time-zone database's table of countries (zone.tab, found) and CLDR's names for them; of a few
countries the clock that nearly all go by. Georgia is a state as well, and left out."""
