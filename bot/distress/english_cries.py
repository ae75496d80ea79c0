"""Cries for help, and words of one who wants to die, in English.

Families as on public first-aid pages (common practice, no single source). How people spell and say
them is a design choice.
"""

from types import MappingProxyType
from typing import Final

from bot.distress.heard import Kind

CRIES: Final = MappingProxyType({
    Kind.SELF_HARM: """
        want|wanna|wish|rather|ready|hope die|dead|dye
        want|wanna be|was|were|am dead
        kill|killing|killed|killin myself|meself
        kill me
        kill my self
        end|ending|take|taking my|own life
        end|ending it all|everything
        want|wanna it all end|over|stop
        suicide|suicidal|suicid
        harm|hurt|cut|cutting|hang|shoot|harming|hurting|hanging|drown|stab my|myself|self
        self harm|harming|harmed
        better off dead|without|gone
        dont|not|no want|wanna|wish|reason|point ~ live|living|alive|exist
        no|dont reason|point|see ~ live|living|alive|life
        cant live|keep|go ~ living|anymore|life
        tired|sick|done living|life
        overdose|overdosed|overdosing
        took|taken|swallowed|taking|take ~ many|whole|bottle ~ pills|tablets|bottle|medicine
          |medication
        took|taken|swallowed|drank|drunk ~ poison|bleach
        poisoned
        wish|wished wasnt|werent|never|not|didnt ~ here|born|alive|around|exist|existed|wake
        nothing|nobody live|living
        better off ~ dead|without|gone
        <cant> go on anymore|like|living|longer
        took|taken|swallowed|taking|had ~ whole|entire ~ packet|pack|strip|box|lot|bottle|packets
        unalive|unaliving
        kms
        slit|slash|slitting|slashing ~ wrist|wrists|throat
        top myself
        never wake up|again
        took|taken|swallowed|taking|had ~ much ~ medication|medicine|meds|insulin
          |tablets|paracetamol|pills
        """,
    Kind.PLEA: """
        help|hlp|halp|heip|hep|hellp me
        need|needs|needing|send|god|gods|omg|someone|somebody|anyone|anybody|urgent|get|want
          |fetch help|hlp|halp
        call|ring|phone|dial help|someone|somebody|doctor|police|family|wife|husband|mum|mom|son
          |daughter
        please|plz|pls|plse help|hlp|halp
        help|hlp|halp please|plz|pls|now|asap|quick|quickly|urgent|urgently|im|fast
        need|needs|get|send|want|call doctor|paramedic|paramedics|medic|hospital|medical
        take|taking|go|going|get hospital|er
        <call> ~ ambulance|ambulances|paramedic|paramedics
        ambulance|ambulence|ambulace|ambulances|paramedic|paramedics|ambulanse|ambylance
        emergency|emergancy|emergence|emergencies
        sos|mayday|soss
        nine one|nine one|nine
        triple nine|zero|nines
        one one two
        dying|dyin
        going|gonna|about|might|will|gunna|think die|dye
        dont want|wanna die
        save me
        rescue
        life death
        call|get|fetch|need someone|somebody|wife|husband|mum|mom|neighbour|neighbor
        come quick|quickly|fast
        go|going|get|take|taking|need casualty
        emergency department|room|services
        go|going|get|take|taking|need ane
        triple 0|000|9|999
        dont|not let ~ die
        someone|somebody|anyone come|here
        please|pls|plz come quick|now|here|fast|quickly|help|round|over
        please|pls|plz hurry
        hurry please|pls|plz|help|up
        send|fetch|want someone|somebody|anyone
        ambo|ambos
        """,
})  # fmt: skip
