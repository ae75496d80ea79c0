"""What tells of a faint that is near in English.

Signs as in Rowe 2017, Front Pediatr 5:121. How people spell and say them is a design choice.
"""

from types import MappingProxyType
from typing import Final

from bot.distress.heard import Kind

FAINTNESS: Final = MappingProxyType({
    Kind.FAINTING: """
        <lead> <faint>
        <almost> fainted|feinted|collapsed
        <almost> passed|blacked|past out
        <lead> pass|black|blacking|passing|knock out
        <lead> keel|topple over
        <lead> go|going|drop|crumple|flop down|out|under
        <lead> drop|keel|syncope|black
        <lead> lose|losing consciousness|conscious
        <almost> lost consciousness|conscious
        passing|pass|past|pas|blacking|black out
        feel|feeling|feels|felt|feelin|become|becoming faint|fainty|fainting|faintish|feint
          |collapsing|collapse
        fainting|feinting|faintin
        collapsing|colapsing
        i|im|am|very|so|really|getting|gone|become|extremely|be|keep|all faint|feint|fainty
        i collapse
        before i|im|ill faint|fall|collapse|pass|drop|feint
        <almost> out
        greying|graying|whiting|browning out
        <cant> keep eyes
        presyncope|presyncopal
        im|am|keep|feel|feeling fading|slipping fast|away|out
        im|am fading
        im|am going down|under|out
        losing|lost ~ balance
        almost|nearly|about lost it|consciousness
        <lead> swoon|conk|konk|flake|blackout|keel|zonk
        fading fast|out|away|quick|quickly
        <almost> went|gone|goin|going there|down|over|out|under|off
        <almost> keeled|swooned|conked|blacked|flaked
        took|taking|having|had|have|takes|taken weak|funny|bad|queer turn|turns|spell
        took|taking|having turn
        weak turn
        come|came|coming|took|taken|gone|turned over|all faint|feint|fainty|queer
        didnt|not|havent|hasnt|never faint|fainted|feint|pass|passed|collapse|collapsed
          ~ <almost> did|have
        <lead> fall|falling|fell out
        feel|feeling|feels like passing|blacking|collapsing|fainting|keeling|dropping
        drifting|slipping off|away|out
        <lead> pass|black oot|owt
        head ~ swimming ~ going|faint|fall
        fading|slipping|drifting under
        """,
    Kind.VISION: """
        vision|sight|eyes|eyesight|everything|room|world|view|screen|visions|its|it|evrything
          ~ <black>
          |blacking|fading|faded|dim|dimming|white|whiting|tunnel|tunneling|tunnelling|narrowing
          |disappearing|darkening|blackening|closing
        vision|sight|eyesight|visions|eyes going|goes|gone|went|spotty|tunneling|leaving|lost
          |failing
        going|gone|goes|went|turning|turned|turns|getting|see|seeing|seein|saw|seen <black>
          |stars|spots|white|blank|double
        tunnel vision|sight
        black|dark|white spots|dots|stars|patches
        cant|cannot|couldnt|carnt|unable|barely|hardly see
        lost|losing|loosing|lose|loss vision|sight|eyesight
        blind|blinded
        grey|gray|dark|black|spotty|fading|narrow vision|sight
        hearing|sounds|sound|everything ~ muffled|distant|far
        blacking
        light|lights ~ going|dimming|fading|leaving|dim|disappearing
        see|seeing|seein|saw dots|flashes|sparkles|floaters|tunnel|shadows|sparks|blackness
          |darkness
        spots|dots|stars|flashes|sparkles|blackness|darkness ~ eyes|vision|sight
        hearing|ears ~ going|gone|muffled|fading|distant|whooshing|roaring|blocked
        blurring ~ dark|black|going|gone|fading
        vision|sight|eyes|eyesight ~ leaving|going|gone|went|lost|failing
        tunel|tunnell vision
        darkness closing|coming
        <cant> see|open ~ eyes
        black|dark|grey ~ edges|corners
        blackness|darkness|black ~ closing|creeping
        things|thing ~ <black>|fading
        see|seeing|saw ~ stars|spots|dots
        """,
    Kind.COLD_SWEAT: """
        cold|icy sweat|sweats|sweating|sweaty|sweet|swet
        sweating|sweaty|sweat cold|buckets|pouring|clammy
        clammy
        breaking|broke|broken|drenched|soaked|pouring ~ sweat
        gone|went|going|turned|turning|im|am|face pale|grey|gray
        blood draining|drained
        pale|white as sheet|ghost
        come|came|broke|break|breaking|broken|coming|out out cold sweat|sweats|sweaty
        pale ~ sweaty|sweating|clammy|cold|sweat
        sweaty|sweating|clammy|cold ~ pale|grey|gray
        dripping|bathed|covered|swimming|lashing ~ sweat|sweating
        """,
    Kind.CANNOT_STAND: """
        <cant> ~ <stand>
        <cant> stay|keep|hold up|upright|standing|myself
        not|hard|trouble|difficult|difficulty|impossible <stand>|upright
        legs|leg|knees|knee ~ giving|gave|give|buckling|buckled|buckle|jelly|collapsing|rubber
          |wont|failing|jello|folding|gone|going
        <cant> feel|balance legs|balance
        <cant> stay|keep|be|stand ~ feet
        weak knees
        hard|struggling|tough|difficult|trouble|impossible|harder stay|staying|keep
          |keeping upright|standing|up
        legs|knees|leg|knee ~ cant|cannot|barely|hardly|struggling|dont|not hold|support|carry
          |holding|supporting
        <cant> ~ balance
        legs|knees ~ give|going|noodles|spaghetti|mush|melting|collapse
        need ~ lie|sit now|immediately|badly ~ <faint>
        legs|knees ~ about|going|gonna ~ go|give|buckle|fold
        """,
    Kind.FALLING: """
        <lead> fall|fell|topple|tip|fallen|falling|fal
        im|am|keep|start|starting|feel|feels|feeling falling|toppling|fallin
        <almost> fell|fallen over|down|off|backwards
        falling over|down|backwards|forward|forwards
        gonna drop|keel
        <fixing> end|hit|meet|kiss ~ <floor>|deck
        <almost> toppled|tipped|tumbled
        tipping|keeling|toppling over
        <fixing> be ~ <floor>
        """,
    Kind.VERY_DIZZY: """
        <very> <dizzy>
        <very> light headed
        <dizzy> badly|bad|hell|af|extremely|really|very|so|lot|terribly
        light headed badly|bad|hell|af|extremely
        everything|room|head|world|walls|floor|house|evrything ~ spinning|spins|spin|moving
          |swirling
        badly|severe|severely|bad|terrible|intense|extreme|terribly|horrible|awful <dizzy>
        rooms|heads|everythings|worlds|house|ceiling|bed ~ spinning|spin|moving|swaying
        spinning bad|badly|fast|terribly|crazy
        <dizzy> severe|severely|terrible|horrible|intense|unbearable|awful|strong|horrendous
        dizzyness
        head ~ swimming|swirling
        <dizzy> ~ falling|collapse|collapsing|fainting
        """,
})  # fmt: skip
