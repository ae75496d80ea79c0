"""The names that languages give to the cities of zones, as they are shown on buttons."""

from typing import Final

SHOWN: Final = """
Africa/Abidjan: abiyan
Africa/Accra: acra
Africa/Addis_Ababa: adis abeba
Africa/Algiers: argel
Africa/Bissau: bisau
Africa/Cairo: el cairo
Africa/Conakry: conakri
Africa/Dar_es_Salaam: dar es salam
Africa/Douala: duala
Africa/Johannesburg: johannesburgo
Africa/Khartoum: jartum
Africa/Mogadishu: mogadiscio
Africa/Ndjamena: yamena
Africa/Nouakchott: nuakchot
Africa/Ouagadougou: uagadugu
Africa/Porto-Novo: portonovo
Africa/Sao_Tome: santo tome
America/Argentina/Buenos_Aires: argentina/buenos aires
America/Argentina/Catamarca: argentina/catamarca
America/Argentina/Cordoba: argentina/cordoba
America/Argentina/Jujuy: argentina/jujuy
America/Argentina/La_Rioja: argentina/la rioja
America/Argentina/Mendoza: argentina/mendoza
America/Argentina/Rio_Gallegos: argentina/rio gallegos
America/Argentina/Salta: argentina/salta
America/Argentina/San_Juan: argentina/san juan
America/Argentina/San_Luis: argentina/san luis
America/Argentina/Tucuman: argentina/tucuman
America/Argentina/Ushuaia: argentina/ushuaia
America/Bahia_Banderas: bahia de banderas
America/Belem: belen
America/Cayenne: cayena
America/Cayman: caiman
America/Grand_Turk: gran turca
America/Havana: la habana
America/Indiana/Indianapolis: indiana/indianapolis
America/Kentucky/Louisville: kentucky/louisville
America/Lower_Princes: lower prince’s quarter
America/Manaus: manaos
America/New_York: nueva york
America/Noronha: fernando de noronha
America/Port-au-Prince: puerto principe
America/Port_of_Spain: puerto espana
America/Scoresbysund: ittoqqortoormiit
America/St_Johns: san juan de terranova, st john’s
America/St_Kitts: san cristobal
America/St_Vincent: san vicente
Antarctica/DumontDUrville: dumont d’urville
Antarctica/Macquarie: macquarie island
Asia/Aqtau: aktau
Asia/Aqtobe: aktobe
Asia/Ashgabat: asjabad
Asia/Baghdad: bagdad
Asia/Damascus: damasco
Asia/Dhaka: daca
Asia/Dushanbe: dusambe
Asia/Jakarta: yakarta
Asia/Jerusalem: jerusalen
Asia/Khandyga: khandiga
Asia/Makassar: makasar
Asia/Muscat: mascate
Asia/Qostanay: kostanai, kostanay
Asia/Qyzylorda: kyzylorda
Asia/Riyadh: riad
Asia/Sakhalin: sajalin
Asia/Samarkand: samarcanda
Asia/Seoul: seul
Asia/Srednekolymsk: srednekolimsk
Asia/Tashkent: taskent
Asia/Tbilisi: tiflis
Asia/Tehran: teheran
Asia/Thimphu: timbu
Asia/Tokyo: tokio
Asia/Vientiane: vientian
Asia/Yekaterinburg: ekaterimburgo
Asia/Yerevan: erevan
Atlantic/Reykjavik: reikiavik
Atlantic/South_Georgia: georgia del sur
Australia/Adelaide: adelaida
Australia/Lord_Howe: lord howe island
Australia/Sydney: sidney
Europe/Astrakhan: astracan
Europe/Athens: atenas
Europe/Belgrade: belgrado
Europe/Brussels: bruselas
Europe/Bucharest: bucarest
Europe/Copenhagen: copenhague
Europe/Istanbul: estambul
Europe/Kaliningrad: kaliningrado
Europe/Lisbon: lisboa
Europe/Ljubljana: liubliana
Europe/London: londres
Europe/Moscow: moscu
Europe/Prague: praga
Europe/Rome: roma
Europe/Skopje: skopie
Europe/Stockholm: estocolmo
Europe/Tallinn: tallin
Europe/Tirane: tirana
Europe/Ulyanovsk: ulianovsk
Europe/Vatican: el vaticano
Europe/Vienna: viena
Europe/Vilnius: vilna
Europe/Volgograd: volgogrado
Europe/Warsaw: varsovia
Indian/Christmas: navidad
Indian/Cocos: cocos islands
Pacific/Easter: easter island, isla de pascua
Pacific/Noumea: numea
Pacific/Wake: wake island
"""
"""CLDR (found), where its name differs from that of the time-zone database."""
