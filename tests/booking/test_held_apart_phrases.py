"""Phrases held apart: written after the vocabulary and the rules were settled, and not tuned on.

They mean what stands beside them on Wednesday 4 March 2026 at 10:15; "?" is what nobody could
know, or what is no day or time at all. A phrase may be asked about, but never taken for
something else. If one ever is, the rule at fault is mended, not the phrase, and new ones are
written: these would not be held apart any more.
"""

import pytest

from bot.booking.phrases import read_when
from tests.booking.saying import WEDNESDAY, asks, rows, say

ENGLISH = """
Friday morning, half nine                            6 Mar 09:30
let's do Thursday at 8:15 am                         5 Mar 08:15
I could manage Sunday around 10                      8 Mar 10:00
Mon 9th March 9.45                                   9 Mar 09:45
this Friday at quarter past eight in the morning     6 Mar 08:15
10am Tues                                            10 Mar 10:00
Tuesday week                                         ?
the morning after tomorrow                           ?
in five days, 9 am                                   9 Mar 09:00
fortnight today                                      18 Mar
7pm tonight                                          4 Mar 19:00
friday the 13th                                      13 Mar
12/03                                                ?
15/03 08:00                                          15 Mar 08:00
tomorrow, eleven thirty                              5 Mar 11:30
noonish on monday                                    9 Mar 12:00
Sunday 8                                             ?
how does 9:20 on Saturday sound                      7 Mar 09:20
at 8 the day after tomorrow                          6 Mar 08:00
next Thursday 10:30                                  ?
weekend                                              ?
as soon as possible                                  ?
ten past nine tomorrow morning                       5 Mar 09:10
Satrday 09:00                                        7 Mar 09:00
Wed 11 March at 9                                    11 Mar 09:00
6th                                                  6 Mar
march 6 8am                                          6 Mar 08:00
9:00 AM - 03/15/2026                                 15 Mar 09:00
2026-3-9 at 9                                        9 Mar 09:00
in ten days at noon                                  14 Mar 12:00
Sunday at 9 not Saturday                             ?
between 9 and 10 on Friday                           ?
not before Monday                                    ?
same time tomorrow                                   ?
Friday 25th                                          ?
tomorrow at five to nine                             5 Mar 08:55
6 march 1430                                         6 Mar 14:30
in 48 hours                                          6 Mar 10:15
two weeks from today at 9                            18 Mar 09:00
early Friday                                         ?
Thursday 12 at 8:30                                  12 Mar 08:30
10 to 11 on Saturday                                 ?
Sun 15                                               15 Mar
the 10th or the 11th                                 ?
Saturday 11                                          7 Mar 11:00
Monday - 9:15                                        9 Mar 09:15
quarter to eight on the 7th                          7 Mar 07:45
9 - 11 March                                         ?
1 o'clock Friday                                     ?
Friday 13:15                                         6 Mar 13:15
last Monday of March                                 ?
every other day                                      ?
tomorrow at six thirty in the evening                5 Mar 18:30
"""

SPANISH = """
quedamos el viernes a las nueve                      6 Mar 09:00
el lunes 9 a las 8:45                                9 Mar 08:45
pasado mañana por la tarde, a las cinco              6 Mar 17:00
viernes trece a las diez                             13 Mar 10:00
mañana a las ocho y cuarto de la mañana              5 Mar 08:15
a las 7 de la tarde de hoy                           4 Mar 19:00
el domingo sobre las 10                              8 Mar 10:00
dentro de 5 días a las 9                             9 Mar 09:00
de hoy en ocho                                       ?
el 15 de marzo, domingo, a las 9:00                  15 Mar 09:00
15/03/2026 a las 8                                   15 Mar 08:00
3/4                                                  ?
el fin de semana                                     ?
cuando puedas                                        ?
a primera hora del viernes                           ?
el jueves al mediodía                                5 Mar 12:00
entre las 9 y las 10 del sábado                      ?
el lunes no, el martes a las 9                       ?
vier 6 mar 9.30                                      6 Mar 09:30
el viernes a la misma hora                           ?
12 de abril a las once menos diez                    12 Apr 10:50
hoy a las 9 de la noche                              4 Mar 21:00
sabado 7 de marzo 9am                                7 Mar 09:00
el próximo viernes a las 9                           ?
en dos horas                                         4 Mar 12:15
el martes 10, 9 y media                              10 Mar 09:30
mier 11 a las 8 y media                              11 Mar 08:30
el veintiuno de marzo a las once                     21 Mar 11:00
mañana 8:30 hrs                                      5 Mar 08:30
las diez y media del domingo                         8 Mar 10:30
por la mañana el jueves 12                           12 Mar morning
a las 10, el sábado 14                               14 Mar 10:00
juebes a las 9                                       5 Mar 09:00
mejor mañana que el viernes                          ?
desde las 9 mañana                                   ?
el 31 de abril                                       ?
sábado a las diez en la mañana                       7 Mar 10:00
este domingo 8 de marzo a las nueve y veinte         8 Mar 09:20
en un par de días                                    ?
nueve de la mañana del lunes                         9 Mar 09:00
domingo 15 a las 8                                   15 Mar 08:00
lunes 20                                             ?
el 7 u 8 de marzo                                    ?
9, 10 u 11 mañana                                    ?
el primer lunes                                      ?
el sábado de 9 a 11                                  ?
el once a las once                                   11 Mar 11:00
el viernes - 8:45                                    6 Mar 08:45
8 y media de la tarde del jueves                     5 Mar 20:30
el jueves 5 o el viernes 6                           ?
a las doce y media del lunes                         9 Mar 12:30
cada lunes a las 9                                   ?
a mediados de marzo                                  ?
el martes a las 13                                   10 Mar 13:00
"""


@pytest.mark.parametrize(("phrase", "meaning"), rows(ENGLISH) + rows(SPANISH))
def test_no_phrase_is_taken_for_something_else(phrase: str, meaning: str) -> None:
    """Each phrase comes to what it means, or is asked about."""
    outcome = read_when(phrase, WEDNESDAY)
    assert asks(outcome) or say(outcome) == meaning
