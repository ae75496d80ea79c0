"""Names of time zones: the better-known ones first, old ones, and names that two places share."""

from collections.abc import Mapping
from typing import Final

# By how many people live there, roughly; common knowledge, no source.
WELL_KNOWN: Final[tuple[str, ...]] = tuple(
    """
    Asia/Kolkata Asia/Shanghai Asia/Jakarta Asia/Karachi Africa/Lagos America/New_York
    America/Sao_Paulo Asia/Dhaka Europe/Moscow America/Mexico_City Asia/Tokyo Asia/Manila
    Africa/Cairo Africa/Addis_Ababa Africa/Kinshasa Asia/Ho_Chi_Minh America/Chicago Asia/Tehran
    Europe/Istanbul Europe/Berlin Asia/Bangkok Europe/London Africa/Dar_es_Salaam Europe/Paris
    Africa/Johannesburg Europe/Rome Asia/Yangon Africa/Nairobi America/Los_Angeles America/Bogota
    Asia/Seoul Africa/Kampala Africa/Khartoum Europe/Madrid America/Argentina/Buenos_Aires
    Africa/Algiers Asia/Baghdad Asia/Kabul Europe/Warsaw Africa/Casablanca Asia/Riyadh
    Asia/Tashkent America/Lima Africa/Luanda Asia/Kuala_Lumpur Europe/Kyiv Africa/Accra
    America/Caracas Asia/Kathmandu Africa/Abidjan Asia/Taipei Asia/Colombo America/Santiago
    America/Denver America/Guatemala Europe/Bucharest Europe/Amsterdam America/Toronto
    America/Guayaquil Africa/Dakar America/Santo_Domingo America/La_Paz America/Havana
    Europe/Brussels Europe/Stockholm Europe/Prague Europe/Athens Europe/Lisbon Africa/Tunis
    Asia/Dubai Europe/Budapest Europe/Vienna Europe/Zurich Asia/Jerusalem Asia/Hong_Kong
    Asia/Singapore Australia/Sydney Australia/Melbourne America/Tegucigalpa America/Phoenix
    Europe/Copenhagen Europe/Helsinki Europe/Oslo Europe/Dublin Pacific/Auckland
    America/El_Salvador America/Managua America/Costa_Rica America/Asuncion America/Vancouver
    America/Puerto_Rico America/Montevideo America/Panama America/Monterrey America/Tijuana
    America/Edmonton America/Fortaleza America/Recife America/Bahia America/Manaus
    Australia/Brisbane Australia/Perth Australia/Adelaide Asia/Yekaterinburg Asia/Novosibirsk
    Asia/Almaty Asia/Baku Asia/Tbilisi Asia/Yerevan Asia/Omsk Asia/Vladivostok Asia/Makassar
    Asia/Ulaanbaatar Pacific/Port_Moresby America/Port-au-Prince America/Jamaica
    Atlantic/Canary America/Halifax America/Winnipeg America/Regina America/Hermosillo
    America/Ciudad_Juarez America/Cancun America/Anchorage Pacific/Honolulu Atlantic/Reykjavik
    America/St_Johns Atlantic/Azores Atlantic/Cape_Verde America/Nuuk America/Noronha
    Pacific/Tahiti Pacific/Fiji Pacific/Guam Pacific/Noumea Australia/Darwin Australia/Hobart
    Pacific/Apia Pacific/Tongatapu Pacific/Pago_Pago
    """.split()  # noqa: SIM905 - a list of a hundred strings is harder to read and to order
)

# The names that the time-zone database keeps for older programs, and those in use today.
OLD_NAMES: Final[Mapping[str, str]] = {
    "Africa/Asmera": "Africa/Asmara",
    "Africa/Timbuktu": "Africa/Bamako",
    "America/Argentina/ComodRivadavia": "America/Argentina/Catamarca",
    "America/Atka": "America/Adak",
    "America/Buenos_Aires": "America/Argentina/Buenos_Aires",
    "America/Catamarca": "America/Argentina/Catamarca",
    "America/Coral_Harbour": "America/Atikokan",
    "America/Cordoba": "America/Argentina/Cordoba",
    "America/Ensenada": "America/Tijuana",
    "America/Fort_Wayne": "America/Indiana/Indianapolis",
    "America/Godthab": "America/Nuuk",
    "America/Indianapolis": "America/Indiana/Indianapolis",
    "America/Jujuy": "America/Argentina/Jujuy",
    "America/Knox_IN": "America/Indiana/Knox",
    "America/Louisville": "America/Kentucky/Louisville",
    "America/Mendoza": "America/Argentina/Mendoza",
    "America/Montreal": "America/Toronto",
    "America/Nipigon": "America/Toronto",
    "America/Pangnirtung": "America/Iqaluit",
    "America/Porto_Acre": "America/Rio_Branco",
    "America/Rainy_River": "America/Winnipeg",
    "America/Rosario": "America/Argentina/Cordoba",
    "America/Santa_Isabel": "America/Tijuana",
    "America/Shiprock": "America/Denver",
    "America/Thunder_Bay": "America/Toronto",
    "America/Virgin": "America/St_Thomas",
    "America/Yellowknife": "America/Edmonton",
    "Antarctica/South_Pole": "Antarctica/McMurdo",
    "Asia/Ashkhabad": "Asia/Ashgabat",
    "Asia/Calcutta": "Asia/Kolkata",
    "Asia/Choibalsan": "Asia/Ulaanbaatar",
    "Asia/Chongqing": "Asia/Shanghai",
    "Asia/Chungking": "Asia/Shanghai",
    "Asia/Dacca": "Asia/Dhaka",
    "Asia/Harbin": "Asia/Shanghai",
    "Asia/Istanbul": "Europe/Istanbul",
    "Asia/Kashgar": "Asia/Urumqi",
    "Asia/Katmandu": "Asia/Kathmandu",
    "Asia/Macao": "Asia/Macau",
    "Asia/Rangoon": "Asia/Yangon",
    "Asia/Saigon": "Asia/Ho_Chi_Minh",
    "Asia/Tel_Aviv": "Asia/Jerusalem",
    "Asia/Thimbu": "Asia/Thimphu",
    "Asia/Ujung_Pandang": "Asia/Makassar",
    "Asia/Ulan_Bator": "Asia/Ulaanbaatar",
    "Atlantic/Faeroe": "Atlantic/Faroe",
    "Atlantic/Jan_Mayen": "Arctic/Longyearbyen",
    "Australia/ACT": "Australia/Sydney",
    "Australia/Canberra": "Australia/Sydney",
    "Australia/Currie": "Australia/Hobart",
    "Australia/LHI": "Australia/Lord_Howe",
    "Australia/NSW": "Australia/Sydney",
    "Australia/North": "Australia/Darwin",
    "Australia/Queensland": "Australia/Brisbane",
    "Australia/South": "Australia/Adelaide",
    "Australia/Tasmania": "Australia/Hobart",
    "Australia/Victoria": "Australia/Melbourne",
    "Australia/West": "Australia/Perth",
    "Australia/Yancowinna": "Australia/Broken_Hill",
    "Brazil/Acre": "America/Rio_Branco",
    "Brazil/DeNoronha": "America/Noronha",
    "Brazil/East": "America/Sao_Paulo",
    "Brazil/West": "America/Manaus",
    "Canada/Atlantic": "America/Halifax",
    "Canada/Central": "America/Winnipeg",
    "Canada/Eastern": "America/Toronto",
    "Canada/Mountain": "America/Edmonton",
    "Canada/Newfoundland": "America/St_Johns",
    "Canada/Pacific": "America/Vancouver",
    "Canada/Saskatchewan": "America/Regina",
    "Canada/Yukon": "America/Whitehorse",
    "Chile/Continental": "America/Santiago",
    "Chile/EasterIsland": "Pacific/Easter",
    "Europe/Belfast": "Europe/London",
    "Europe/Kiev": "Europe/Kyiv",
    "Europe/Nicosia": "Asia/Nicosia",
    "Europe/Tiraspol": "Europe/Chisinau",
    "Europe/Uzhgorod": "Europe/Kyiv",
    "Europe/Zaporozhye": "Europe/Kyiv",
    "Mexico/BajaNorte": "America/Tijuana",
    "Mexico/BajaSur": "America/Mazatlan",
    "Mexico/General": "America/Mexico_City",
    "Pacific/Enderbury": "Pacific/Kanton",
    "Pacific/Johnston": "Pacific/Honolulu",
    "Pacific/Ponape": "Pacific/Pohnpei",
    "Pacific/Samoa": "Pacific/Pago_Pago",
    "Pacific/Truk": "Pacific/Chuuk",
    "Pacific/Yap": "Pacific/Chuuk",
    "US/Alaska": "America/Anchorage",
    "US/Aleutian": "America/Adak",
    "US/Arizona": "America/Phoenix",
    "US/Central": "America/Chicago",
    "US/East-Indiana": "America/Indiana/Indianapolis",
    "US/Eastern": "America/New_York",
    "US/Hawaii": "Pacific/Honolulu",
    "US/Indiana-Starke": "America/Indiana/Knox",
    "US/Michigan": "America/Detroit",
    "US/Mountain": "America/Denver",
    "US/Pacific": "America/Los_Angeles",
    "US/Samoa": "Pacific/Pago_Pago",
}

# Cities of the database that have a well-known namesake elsewhere, or are no city: not enough to
# tell a zone by. Common knowledge, no source.
SHARED: Final[frozenset[str]] = frozenset(
    {
        "act",
        "acre",
        "alaska",
        "aleutian",
        "atlantic",
        "center",
        "central",
        "cordoba",
        "east",
        "eastern",
        "general",
        "guernsey",
        "jersey",
        "la rioja",
        "lhi",
        "merida",
        "mountain",
        "north",
        "pacific",
        "palmer",
        "rosario",
        "samoa",
        "san juan",
        "san luis",
        "santiago",
        "south",
        "st johns",
        "troll",
        "victoria",
        "virgin",
        "west",
    }
)

# Countries with more than one clock, and where their zones stand. Common knowledge, no source.
MANY_CLOCKS: Final[Mapping[str, tuple[str, ...]]] = {
    "usa": ("America/", "Pacific/"),
    "us": ("America/", "Pacific/"),
    "united states": ("America/", "Pacific/"),
    "estados unidos": ("America/", "Pacific/"),
    "eeuu": ("America/", "Pacific/"),
    "ee uu": ("America/", "Pacific/"),
    "canada": ("America/",),
    "mexico": ("America/",),
    "brazil": ("America/",),
    "brasil": ("America/",),
    "australia": ("Australia/",),
    "russia": ("Europe/", "Asia/"),
    "rusia": ("Europe/", "Asia/"),
    "indonesia": ("Asia/",),
}
