"""Words that stand for one another in the phrases of English.

How people spell and say them is a design choice.
"""

from types import MappingProxyType
from typing import Final

GROUPS: Final = MappingProxyType({
    "cant": """cant cannot couldnt carnt kant cnt canot unable hardly barely struggling
        struggle scarcely cany canr cantt
        """,
    "breathe": "breathe breath breathing breaths inhale breth breeth breate",
    "chest": "chest chess chests cheast breastbone sternum",
    "pain": """pain pains painful hurt hurts hurting ache aches aching tight tightness
        tightening pressure squeezing squeezed squeeze crushing crushed crush heavy
        heaviness burning burns stabbing sharp sore discomfort stinging cramp cramping
        elephant gripping killing constricted constricting agony bursting exploding
        weight excruciating vice vise squashed squashing fire knife tite tigth band
        clamp clamped stab stabbed punching punched crampy knot pulling grip soreness
        pane burn squeezes spasm spasms
        """,
    "stand": "stand standing upright vertical",
    "lead": """going gonna goin gunna gna about abt abouta aboutta ready likely might may
        will ill could almost nearly near starting start close verge think thought
        wanna want must bout guna fixing fixin finna bouta gona gon
        """,
    "faint": "faint feint fainting collapse collapsing faintin feinting swoon swooning blackout",
    "almost": "almost nearly near about close virtually nealy",
    "heart": "heart hart haert",
    "very": """very so really extremely super awfully terribly incredibly unbelievably
        severely badly horribly insanely fucking bloody damn hella real crazy
        completely totally too seriously ridiculously absolutely majorly hugely dead
        proper pure fierce wicked mad massively mega ultra mighty desperate
        desperately horrendously dreadfully
        """,
    "dizzy": "dizzy dizziness lightheaded giddy woozy vertigo dizy dizzier spinny",
    "stroke": "stroke strokes stroak",
    "limb": "arm hand side face half leg body cheek arms foot elbow fingers",
    "dead": "numb weak paralysed paralyzed limp floppy useless numbness weakness lifeless",
    "floor": "floor ground tiles carpet lino pavement rug concrete tarmac",
    "blood": "blood blod",
    "call": "call ring dial phone calling get send need fetch want",
    "black": "black dark grey gray blank",
    "head": "head skull face forehead",
    "face": "face mouth smile eye eyelid cheek lip lips facial",
    "droop": """drooping droopy drooped droops droop dropped dropping crooked lopsided numb
        twisted sagging sagged uneven slipping slumped paralysed paralyzed wonky
        squint fallen falling frozen dead limp hanging
        """,
    "fixing": """going gonna about gunna abt bout bouta might nearly almost will finna fixing
        fixin goin
        """,
})  # fmt: skip
