"""Phrases in Spanish, with what they mean on Wednesday 4 March 2026 at 10:15."""

import pytest

from bot.booking.phrases import read_when
from tests.booking.saying import WEDNESDAY, rows, say

TABLE = """
hoy a las 11                              4 Mar 11:00
mañana                                    5 Mar
Mañana 9                                  5 Mar 09:00
manana a las 9                            5 Mar 09:00
mañana a las 9 de la mañana               5 Mar 09:00
mañana por la mañana                      5 Mar morning
mañana por la mañana a las 9              5 Mar 09:00
mañana en la tarde                        5 Mar afternoon
mañana por la tarde a las 4               5 Mar 16:00
mañana a las 4                            ?which-half = 5 Mar 04:00 | 5 Mar 16:00
mañana a las 4 p. m.                      5 Mar 16:00
mañana a las 8 de la noche                5 Mar 20:00
mañana al mediodía                        5 Mar 12:00
pasado mañana                             6 Mar
pasado mañana a las 10 y cuarto           6 Mar 10:15
por la mañana                             morning
esta tarde a las 5                        4 Mar 17:00
esta noche a las 9                        4 Mar 21:00
el sábado a las 9 y media                 7 Mar 09:30
sabado 8:30                               7 Mar 08:30
sáb 8.30                                  7 Mar 08:30
el sábado a las 8h30                      7 Mar 08:30
sábado a las nueve                        7 Mar 09:00
sábado a las nueve y media de la mañana   7 Mar 09:30
sábado, 9 menos cuarto                    7 Mar 08:45
el sábado a las diez menos veinte         7 Mar 09:40
el sábado a las nueve y diez              7 Mar 09:10
el sábado a las nueve y treinta y cinco   7 Mar 09:35
el sábado a las 9 con 20                  7 Mar 09:20
el sábado a las nueve treinta             7 Mar 09:30
el sábado un cuarto para las diez         7 Mar 09:45
el sábado diez para las nueve             7 Mar 08:50
el sábado a las 9 en punto                7 Mar 09:00
el sábado a las 9 hs                      7 Mar 09:00
el sábado a las 14 horas                  7 Mar 14:00
el sábado a la una de la tarde            7 Mar 13:00
el sábado a la 1 del mediodía             7 Mar 13:00
el sábado a las 12                        7 Mar 12:00
el sábado a las 12 de la mañana           ?which-half = 7 Mar 00:00 | 7 Mar 12:00
el sábado a las 12 de la noche            ?which-day = 7 Mar 00:00 | 8 Mar 00:00
el sábado a medianoche                    ?which-day = 7 Mar 00:00 | 8 Mar 00:00
el sábado a las 6 de la madrugada         7 Mar 06:00
el sábado en la mañana                    7 Mar morning
la mañana del sábado                      7 Mar morning
sábado noche                              7 Mar night
el sábado de mañana                       7 Mar morning
a las 9 de mañana                         ?which-meaning = 5 Mar 09:00 | 09:00
sábado 7                                  ?which-meaning = 7 Mar 07:00 | 7 Mar
el sábado 14 a las 9                      14 Mar 09:00
el sábado 13                              ?mismatch = 7 Mar | 13 Mar
el sábado 14                              14 Mar
el sábado 13 h                            7 Mar 13:00
jueves 19                                 19 Mar
el nueve                                  9 Mar
13 - 15 de marzo                          ?too-many
13, 15 de marzo                           ?too-many
13 y 15 de marzo                          ?which-day
savado a las 9                            7 Mar 09:00
miercoles                                 ?which-day = 4 Mar | 11 Mar
el jueves                                 5 Mar
el próximo sábado                         ?which-day = 7 Mar | 14 Mar
el sábado que viene a las 9               ?which-day = 7 Mar 09:00 | 14 Mar 09:00
este sábado a las 10                      7 Mar 10:00
el próximo lunes                          9 Mar
el sábado de la semana que viene          14 Mar
la próxima semana                         ?which-day
el lunes de la próxima semana a las 9     9 Mar 09:00
en 3 días                                 7 Mar
en tres días a las 8                      7 Mar 08:00
dentro de una semana                      11 Mar
dentro de dos semanas a las 9             18 Mar 09:00
en 8 días                                 ?which-day = 11 Mar | 12 Mar
en quince días                            ?which-day = 18 Mar | 19 Mar
en una hora                               4 Mar 11:15
en media hora                             4 Mar 10:45
el 9 a las 9                              9 Mar 09:00
el día 9 a las 9                          9 Mar 09:00
el 4                                      ?which-day = 4 Mar | 4 Apr
el 7 de marzo                             7 Mar
el 7 de marzo a las 8:30                  7 Mar 08:30
7 de marzo de 2026, 8:30                  7 Mar 08:30
el siete de marzo a las nueve             7 Mar 09:00
1º de abril                               1 Apr
primero de abril a las 10                 1 Apr 10:00
el treinta y uno de marzo                 31 Mar
sábado, 7 de marzo de 2026, 8:30          7 Mar 08:30
sábado 8 de marzo                         ?mismatch = 7 Mar | 8 Mar
7 mar                                     ?which-meaning = 7 Mar | 10 Mar 07:00
mar 7                                     ?which-meaning = 7 Mar | 10 Mar 07:00
mar 9:00                                  10 Mar 09:00
7 mar 2026                                7 Mar
sáb 7 mar, 9:00                           7 Mar 09:00
el 7/3                                    ?which-day = 7 Mar | 3 Jul
el sábado 7/3 a las 9                     7 Mar 09:00
el 13-3 a las 9                           13 Mar 09:00
9                                         09:00
a las 9                                   09:00
las 3                                     ?which-half = 03:00 | 15:00
9 o 10                                    ?too-many
9 y 10                                    ?too-many
sábado o domingo                          ?too-many
de lunes a viernes                        ?unknown-word (a)
de 9 a 10                                 ?unknown-word (de)
el 7 o el 8 de marzo                      ?too-many
el sábado no                              ?unknown-word (no)
el sábado pasado                          ?unknown-word (pasado)
hace dos días                             ?unknown-word (hace)
antes de las 9                            ?unknown-word (antes)
mañana a partir de las 9                  ?unknown-word (partir)
más tarde                                 ?unknown-word (más)
mañana temprano                           ?unknown-word (temprano)
un sábado                                 ?unknown-word (un)
menos el sábado                           ?unknown-word (menos)
pasarla a mañana a las 9                  5 Mar 09:00
cambiarla al viernes a las 9              6 Mar 09:00
los sábados a las 9                       ?unknown-word (los)
30 de febrero                             ?impossible
32 de marzo                               ?impossible
mañana a las 25                           ?impossible
mañana a las 15:00 de la mañana           ?mismatch
ayer                                      3 Mar
me gustaría el sábado a las 9, por favor  7 Mar 09:00
¿puede ser el sábado a eso de las 9?      7 Mar 09:00
hola                                      ?nothing
buenas tardes                             ?nothing
"""


@pytest.mark.parametrize(("phrase", "meaning"), rows(TABLE))
def test_phrase_comes_to_its_meaning(phrase: str, meaning: str) -> None:
    """Each phrase is understood as it is meant, or asked about with what it may mean."""
    assert say(read_when(phrase, WEDNESDAY)) == meaning


def test_table_is_long_enough() -> None:
    """There are at least sixty phrases."""
    assert len({phrase for phrase, _ in rows(TABLE)}) >= 60
