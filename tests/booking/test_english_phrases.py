"""Phrases in English, with what they mean on Wednesday 4 March 2026 at 10:15."""

import pytest

from bot.booking.phrases import read_when
from tests.booking.saying import WEDNESDAY, rows, say

TABLE = """
today at 11                               4 Mar 11:00
tomorrow                                  5 Mar
Tomorrow 9                                5 Mar 09:00
tomorrow at 9                             5 Mar 09:00
tomorrow at 9am                           5 Mar 09:00
tomorrow at 9 a.m.                        5 Mar 09:00
9 tomorrow                                5 Mar 09:00
tmrw 9:30                                 5 Mar 09:30
tommorow at 8                             5 Mar 08:00
tomorow morning                           5 Mar morning
tomorrow morning at 9                     5 Mar 09:00
tomorrow evening at 8                     5 Mar 20:00
tomorrow afternoon                        5 Mar afternoon
tomorrow at noon                          5 Mar 12:00
tomorrow 12                               5 Mar 12:00
tomorrow at 4                             ?which-half = 5 Mar 04:00 | 5 Mar 16:00
tomorrow at 6                             ?which-half = 5 Mar 06:00 | 5 Mar 18:00
tomorrow at 6:59                          ?which-half = 5 Mar 06:59 | 5 Mar 18:59
tomorrow at 7                             5 Mar 07:00
tomorrow at 11:45                         5 Mar 11:45
tomorrow at 12:15                         5 Mar 12:15
tomorrow at 1                             ?which-half = 5 Mar 01:00 | 5 Mar 13:00
tomorrow at 0:30                          5 Mar 00:30
tomorrow at 4pm                           5 Mar 16:00
tomorrow 4 in the afternoon               5 Mar 16:00
day after tomorrow                        6 Mar
the day after tomorrow at 10              6 Mar 10:00
tonight at 8                              4 Mar 20:00
this afternoon at 3                       4 Mar 15:00
today at 8                                ?which-half = 4 Mar 08:00 | 4 Mar 20:00
Saturday 8:30                             7 Mar 08:30
saturday 8.30                             7 Mar 08:30
Sat 0830                                  7 Mar 08:30
sat 8h30                                  7 Mar 08:30
sat. 8:30 AM                              7 Mar 08:30
Saturday 8 30                             7 Mar 08:30
on Saturday, half past 8                  7 Mar 08:30
Saturday at half past eight               7 Mar 08:30
Saturday quarter to ten                   7 Mar 09:45
Saturday a quarter past nine              7 Mar 09:15
Saturday at ten to nine                   7 Mar 08:50
Saturday at ten minutes past ten          7 Mar 10:10
Saturday nine thirty                      7 Mar 09:30
Saturday at nine oh five                  7 Mar 09:05
Saturday at ten twenty-five               7 Mar 10:25
Saturday half nine                        ?which-meaning = 7 Mar 08:30 | 7 Mar 09:30
satuday 9am                               7 Mar 09:00
thrusday 9:00                             5 Mar 09:00
tursday at 9                              ?unknown-word (tursday)
Saturday at 9 o'clock                     7 Mar 09:00
Saturday 0900 hours                       7 Mar 09:00
Saturday at 14:00                         7 Mar 14:00
Saturday 2pm                              7 Mar 14:00
Saturday 12:30                            7 Mar 12:30
Saturday 12 noon                          7 Mar 12:00
Saturday at midnight                      ?which-day = 7 Mar 00:00 | 8 Mar 00:00
Saturday morning                          7 Mar morning
Saturday                                  7 Mar
Wednesday                                 ?which-day = 4 Mar | 11 Mar
today, Wednesday                          4 Mar
next Saturday                             ?which-day = 7 Mar | 14 Mar
this Saturday                             7 Mar
this coming Saturday at 10                7 Mar 10:00
next Monday                               9 Mar
Saturday next week                        14 Mar
Sunday of next week                       ?which-day = 8 Mar | 15 Mar
next week                                 ?which-day
Saturday 7                                ?which-meaning = 7 Mar 07:00 | 7 Mar
Saturday 9                                7 Mar 09:00
Saturday the 14th                         14 Mar
Saturday the 14th at 9                    14 Mar 09:00
Saturday the 13th                         ?mismatch = 7 Mar | 13 Mar
in 3 days at 8                            7 Mar 08:00
in three days                             7 Mar
in a week                                 11 Mar
in two weeks at 9:15                      18 Mar 09:15
a week from today                         11 Mar
3 days from now at 9                      7 Mar 09:00
in an hour                                4 Mar 11:15
in half an hour                           4 Mar 10:45
in 90 minutes                             4 Mar 11:45
the 9th at 9                              9 Mar 09:00
the 4th                                   ?which-day = 4 Mar | 4 Apr
the 2nd                                   2 Apr
7 March                                   7 Mar
7th of March at 8.30                      7 Mar 08:30
March 7                                   7 Mar
Mar 7th, 9am                              ?which-day = 7 Mar 09:00 | 7 Apr 09:00
march twenty first at ten                 21 Mar 10:00
Saturday, March 7, 2026 at 8:30 AM        7 Mar 08:30
Saturday 8 March                          ?mismatch = 7 Mar | 8 Mar
1 March                                   1 Mar
2 January                                 2 Jan 2027
5 January                                 5 Jan
20 December                               20 Dec
7 March 2027                              7 Mar 2027
7 March 2030                              ?which-meaning = 7 Mar 20:30 | 7 Mar 2030
2026-03-07 08:30                          7 Mar 08:30
7/3                                       ?which-day = 7 Mar | 3 Jul
7/3 at 9                                  ?which-day = 7 Mar 09:00 | 3 Jul 09:00
Saturday 7/3                              7 Mar
13/3                                      13 Mar
3/13 9:00                                 13 Mar 09:00
5/5                                       5 May
7/3/2026                                  ?which-day = 7 Mar | 3 Jul
7/3/19                                    ?which-day
9                                         09:00
9:30                                      09:30
3                                         ?which-half = 03:00 | 15:00
noon                                      12:00
12 in the morning                         ?which-half = 00:00 | 12:00
9 or 10                                   ?too-many
9 to 10                                   ?too-many
Saturday or Sunday                        ?too-many
Saturday and Sunday                       ?too-many
8-10 tomorrow                             ?too-many
ten to eleven                             ?too-many
tomorrow at ten to eleven                 5 Mar 10:50
not Saturday                              ?unknown-word (not)
before 9 tomorrow                         ?unknown-word (before)
tomorrow after 9                          ?unknown-word (after)
any time Saturday                         ?unknown-word (any)
every Saturday at 9                       ?unknown-word (every)
Saturday at once                          ?unknown-word (at once)
the second Saturday                       ?unknown-word (the)
a Saturday                                ?unknown-word (a)
till Saturday                             ?unknown-word (till)
the 7th, Saturday                         7 Mar
move it to Friday at 9                    6 Mar 09:00
15 to noon tomorrow                       ?unknown-word (to)
this one                                  ?unknown-word (this)
this is the one                           ?unknown-word (this)
Saturday 15                               ?mismatch = 7 Mar | 15 Mar
Saturday 15:00                            7 Mar 15:00
7 - 9 March                               ?too-many
7, 8 March                                ?too-many
7th - 9th March                           ?too-many
Saturday - 9:00                           7 Mar 09:00
March 7 - 9:30                            7 Mar 09:30
7 March - 9:30                            7 Mar 09:30
9:00 - 10:00 Saturday                     ?too-many
9:00 AM - 7 March                         7 Mar 09:00
Saturday 7 - 9:30                         ?too-many
at 9 7 March                              7 Mar 09:00
nine-thirty tomorrow                      5 Mar 09:30
nine-ten tomorrow                         ?too-many
March 9, 9                                9 Mar 09:00
Saturday 14, 14 March                     ?too-many
tomorrow 5                                ?which-half = 5 Mar 05:00 | 5 Mar 17:00
a week on Saturday                        ?unknown-word (a)
30 Feb                                    ?impossible
29 February                               ?impossible
March 32                                  ?impossible
tomorrow 25:00                            ?impossible
tomorrow 9:75                             ?impossible
tomorrow 15:00 in the morning             ?mismatch
yesterday                                 3 Mar
I would like Saturday at 9, please        7 Mar 09:00
can we do Saturday around 9?              7 Mar 09:00
Saturday 9ish                             7 Mar 09:00
hello                                     ?nothing
help                                      ?nothing
what is this                              ?nothing
"""


@pytest.mark.parametrize(("phrase", "meaning"), rows(TABLE))
def test_phrase_comes_to_its_meaning(phrase: str, meaning: str) -> None:
    """Each phrase is understood as it is meant, or asked about with what it may mean."""
    assert say(read_when(phrase, WEDNESDAY)) == meaning


def test_table_is_long_enough() -> None:
    """There are at least sixty phrases."""
    assert len({phrase for phrase, _ in rows(TABLE)}) >= 60
