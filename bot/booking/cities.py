"""Large cities that have no time zone named after them, and the zone whose clock they go by."""

from typing import Final

CITIES: Final = """
Africa/Cairo: alexandria egypt, giza
Africa/Casablanca: fez, marrakech, marrakesh, rabat, tanger, tangier
Africa/Johannesburg: cape town, ciudad del cabo, durban, pretoria
Africa/Lagos: abuja, ibadan, kano
Africa/Nairobi: mombasa
America/Argentina/Buenos_Aires: caba, la plata, mar del plata
America/Argentina/Cordoba: cordoba argentina, rosario argentina
America/Asuncion: ciudad del este
America/Bogota: barranquilla, bucaramanga, cali, cartagena de indias, cucuta, medellin
America/Caracas: barquisimeto, maracaibo, valencia venezuela
America/Chicago: austin, dallas, fort worth, houston, kansas city, memphis, milwaukee,
        minneapolis, nashville, new orleans, nueva orleans, oklahoma city, saint louis, san
        antonio, st louis
America/Costa_Rica: san jose costa rica
America/Denver: albuquerque, colorado springs, el paso, salt lake city
America/Detroit: ann arbor
America/Edmonton: calgary
America/Guatemala: ciudad de guatemala, guatemala city, quetzaltenango
America/Guayaquil: cuenca ecuador, quito
America/Havana: santiago de cuba
America/La_Paz: cochabamba, el alto, santa cruz de la sierra, sucre
America/Lima: arequipa, chiclayo, cusco, cuzco, piura, trujillo peru
America/Los_Angeles: fresno, la, las vegas, long beach, oakland, sacramento, san diego, san
        francisco, san jose california, seattle
America/Mexico_City: acapulco, aguascalientes, cdmx, ciudad de mexico, guadalajara, leon mexico,
        mexico city, mexico df, morelia, oaxaca, puebla, queretaro, san luis potosi, toluca,
        veracruz
America/Monterrey: saltillo
America/Montevideo: punta del este
America/New_York: atlanta, baltimore, boston, brooklyn, buffalo, charlotte, cleveland,
        filadelfia, jacksonville, miami, nyc, orlando, philadelphia, pittsburgh, raleigh, tampa,
        washington, washington dc
America/Panama: ciudad de panama, panama city panama
America/Phoenix: mesa arizona, tucson
America/Puerto_Rico: ponce, san juan puerto rico
America/Santiago: concepcion chile, santiago de chile, valparaiso, vina del mar
America/Santo_Domingo: santiago de los caballeros
America/Sao_Paulo: belo horizonte, brasilia, curitiba, porto alegre, rio, rio de janeiro
America/Tegucigalpa: san pedro sula
America/Toronto: mississauga, montreal, ottawa, quebec, quebec city
America/Vancouver: surrey
Asia/Dubai: abu dabi, abu dhabi
Asia/Ho_Chi_Minh: hanoi, saigon
Asia/Jakarta: bandung, surabaya
Asia/Jerusalem: haifa, tel aviv
Asia/Karachi: islamabad, lahore, rawalpindi
Asia/Kolkata: ahmedabad, bangalore, bengaluru, calcuta, chennai, delhi, hyderabad india, mumbai,
        new delhi, nueva delhi, pune
Asia/Riyadh: jeddah, la meca, mecca, medina
Asia/Seoul: busan, incheon
Asia/Shanghai: beijing, chengdu, guangzhou, pekin, shenzhen, tianjin, wuhan
Asia/Tokyo: kioto, kyoto, nagoya, osaka, sapporo, yokohama
Atlantic/Canary: canarias, canary islands, gran canaria, islas canarias, las palmas, santa cruz
        de tenerife, tenerife
Australia/Sydney: canberra
Europe/Amsterdam: la haya, rotterdam, the hague, utrecht
Europe/Athens: salonica, thessaloniki
Europe/Berlin: cologne, colonia alemania, dresden, dusseldorf, frankfurt, hamburg, hamburgo,
        koln, leipzig, munchen, munich, stuttgart
Europe/Brussels: amberes, antwerp, gante, ghent
Europe/Dublin: cork, galway, limerick
Europe/Istanbul: ankara, izmir
Europe/Lisbon: braga, coimbra, oporto, porto
Europe/London: belfast, birmingham, bristol, cardiff, edimburgo, edinburgh, glasgow, leeds,
        liverpool, manchester, newcastle upon tyne, nottingham, sheffield
Europe/Madrid: a coruna, alicante, barcelona, bilbao, cordoba espana, cordoba spain, gijon,
        granada, la coruna, malaga, murcia, palma, palma de mallorca, pamplona, san sebastian,
        santander, santiago de compostela, sevilla, seville, valencia, valladolid, vigo,
        zaragoza
Europe/Moscow: saint petersburg, san petersburgo, st petersburg
Europe/Paris: bordeaux, burdeos, estrasburgo, lille, lyon, marseille, marsella, nantes, nice,
        niza, strasbourg, toulouse
Europe/Rome: bologna, bolonia, florence, florencia, genoa, genova, milan, naples, napoles,
        palermo, turin, venecia, venice
Europe/Stockholm: gotemburgo, gothenburg, malmo
Europe/Vienna: graz, salzburg, salzburgo
Europe/Warsaw: cracovia, cracow, gdansk, krakow, wroclaw
Europe/Zurich: basel, basilea, bern, berna, geneva, ginebra
Pacific/Auckland: christchurch, wellington
Pacific/Honolulu: hawai, hawaii
"""
"""Common knowledge, no source. A name that two large cities share stands with its country."""
