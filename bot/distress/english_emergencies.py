"""What is an emergency in English.

Families as on public first-aid pages (fainting, falls, chest pain, breathlessness, stroke signs by
face, arms and speech, seizure, heavy bleeding: common practice, no single source). How people
spell and say them is a design choice.
"""

from types import MappingProxyType
from typing import Final

from bot.distress.heard import Kind

EMERGENCIES: Final = MappingProxyType({
    Kind.FAINTED: """
        fainted|feinted|fanited
        passed|past|pased|passd out
        blanked|blacked|blackt|blackedout|passedout out
        had|having|have blackout|syncope|syncopal
        knocked|out out|cold|unconscious
        lost|losing|lose|loosing|loss|loose consciousness|conscious|conciousness
        unconscious|unconcious|unresponsive|unconsious
        wont|not|doesnt|isnt|cant wake|waking|responding|respond
        collapsed|collapse|colapsed
        woke|awoke|came|found|find ~ <floor>
        keeled over
        dropped|hit ~ <floor>|deck
        flat face
        im|am|hes|shes|was|is|ended|myself on|onto <floor>
        gone|went unconscious|limp
        im|i|am|hes|shes|is|just|was after fainting|collapsing|passing|blacking|feinting|keeling
        took|taken|takes|taking blackout
        went|gone|dropped|drop|goes down ~ <floor>
        next thing ~ <floor>|deck
        conked|konked|zonked|sparked|flaked|spaced|checked out
        i|she|he|done|just|ive|we|hes|shes fell|fallen out
        was|were|been|went out few|couple|seconds|second|secs|sec|moment|cold
        swooned
        came|coming round|to ~ <floor>
        <cant> wake up|him|her|them
        <cant>|dont remember ~ fell|falling|collapsing|<floor>
        ended|end|finished up ~ <floor>|deck
        passed|blacked|past oot|owt|ot
        came|come|coming to lying|beside|next|under|and
        crumpled|slumped|sank|flopped ~ <floor>|onto
        she|he|shes|hes|wife|husband|mum|mom|dad|son|daughter|and isnt|not|wont|stopped moving|move
        woke|awoke ~ lying|laying
        """,
    Kind.FALLEN: """
        i|ive|she|he|they|just|have|has|had|weve|hes|shes fell|fallen|falled
        fell|fallen|feel down|over|backwards|off|onto|flat|hard|badly|downstairs|stairs|and
        fell on|to|in|against <floor>|head|face|bathroom|stairs|shower|hip|arm|back
        had|took|taken bad|nasty|fall|tumble
        tripped|slipped|fell and
        tripped|slipped over|down
        hit|banged|bumped|smashed|cracked|hurt|injured|knocked|split|bashed <head>
        broke|broken|fractured|snapped arm|leg|hip|wrist|ankle|bone|nose|rib|ribs|collarbone
        <cant> get up|off
        <cant> get ~ <floor>
        having|have|after|takes|taking fall|tumble
        im|hes|shes|am|is|was|just after falling|tripping|slipping
        stuck ~ <floor>
        <cant> get back up
        whacked|smacked|walloped|clocked|clattered|thumped|clonked|knocked|clobbered ~ <head>
        hip|arm|leg|wrist|ankle|nose|rib|ribs|collarbone|knee broken|fractured|snapped|broke
        went|gone|sent flying
        went|gone arse|ass
        fell|fallen against|into|onto|through|under
        i|she|he|we|they went|gone down hard|like|fast|suddenly|heavily|bad
        legs|feet went|gone ~ under
        came|fell off ~ bed|chair|couch|sofa|toilet|ladder|wall|steps|stairs|step
        landed ~ <head>|<floor>|hip|back|arm|wrist
        turn|dizzy|weak|faint|and fell|fallen|collapsed
        took|taken|had dive|spill|header|topple
        """,
    Kind.CHEST_PAIN: """
        <chest> ~ <pain>
        <pain> ~ <chest>
        standing|sitting|kneeling ~ <chest>
        <heart> pain|pains|hurts|hurt|hurting|ache|aches|aching|squeezing|stabbing
        pain|pains|hurts|squeezing|stabbing <heart>
        angina
        left arm pain|hurts|hurting|aching|aches|ache
        pain|pains|ache left arm
        pain|hurts|hurting ~ down|jaw|spreading|radiating|shooting
        jaw pain|hurts|aching|ache
        spreading|radiating|shooting ~ arm|jaw|neck|shoulder
        jaw ~ arm
        arm ~ jaw
        pain|pains|hurts|hurting|ache|aching|aches|sore ~ jaw
        pain|pains|hurts|hurting|ache|aching|stabbing ~ between ~ shoulder|shoulders
        <chest> like elephant|vice|brick|bricks|ton|tonne|concrete
        squeezing|stabbing|crushing|tightness|tight|gripping|pain|pains ~ <heart>
        """,
    Kind.BREATH: """
        <cant> ~ <breathe>
        cant breed|breeze|brief|bread|breech
        not|isnt|stopped|stop|aint|wont|never|arent breathing|breathe|breathin
        trouble|troubles|difficulty|difficulties|difficult|hard|problem|problems|issues|harder
          |fighting|gasping|painful|struggled|tough|impossible|hurts|hurt|labored|laboured
          |struggles <breathe>|air
        <breathe> hard|difficult|difficulty|harder|trouble|tough|bad|labored|laboured|impossible
          |stopped|painful|hurts|problems|badly|stops
        no|without|enough air|breath|oxygen
        <cant>|not|wont|dont get|getting|catch|take|draw|catching|got ~ air|breath|oxygen|breaths
        need|needs|want|give air|oxygen
        <very>|suddenly|severe|bad|getting short|shortness|out|breathless breath
        <very> breathless
        gasping|suffocating|suffocate|suffocated|asphyxiating
        choking|chocking|choked
        lips|fingers|face|turning|going|gone|turned ~ blue|purple
        throat ~ closing|closed|swelling|swollen|shut|tight
        anaphylaxis|anaphylactic|anaphilactic
        allergic reaction
        tongue|lips|face ~ swelling|swollen
        lungs ~ <pain>|closing|work|collapsed
        <breathe> short|shallow
        airway|windpipe blocked|closing
        trouble|difficulty|hard|problems|struggling|struggle|<cant> ~ catch|catching|getting
          |get ~ breath|air
        struggling|fighting|gasping|desperate|battling|panting air|breath|oxygen
        feel|feels|feeling|im|am|like drowning
        asthma attack|bad|flare|flaring|severe|terrible
        attack asthma
        inhaler isnt|not|doesnt|wont work|working|help|helping
        <cant> get air|breath in
        <very>|badly|bad wheezing|wheezy
        <cant> fill ~ lungs
        lungs wont|cant|dont|not|arent fill|filling|work|working
        breathing ~ worse|worsening|rapidly|wrong
        too|very|so breathing fast|rapid
        breathing too|very|really fast
        <cant> get ~ wind
        hyperventilating|asphyxiated|asphyxia|strangled
        breathless ~ sitting|lying|resting|rest|talk|speak|nothing
        """,
    Kind.STROKE: """
        <stroke>
        face|mouth|smile|eye|eyelid|cheek|lip ~ drooping|droopy|drooped|droops|droop|dropped
          |dropping|crooked|lopsided|numb|fallen|falling|twisted|sagging|sagged|uneven|slipping
          |slumped|drop|drops|fell|paralysed|paralyzed|tingling
        droopy|drooping|numb|crooked|lopsided face|mouth|smile|eye
        cant|cannot|couldnt|unable|carnt speak|talk|smile|swallow|speek|tolk|understand
        <cant> ~ feel|move|lift|raise|use ~ <limb>|fingers|legs|foot|mouth|anything
        <cant> move
        <cant> get|find|say|form words|word|sentence
        words|speech wont|dont|not|arent|isnt come|coming|right|clear|normal|working
        words coming|come out|wrong|funny
        words ~ wrong|jumbled|slurred|garbled|mixed
        speech ~ slurred|slurring|funny|gone|weird|slow|jumbled|garbled|wrong
        slurred|slurring|slurry|slur|slured
        lost|losing|lose|loss|loosing|gone speech|voice
        lost|losing|blind ~ one|left|right eye|eyes
        blind one|left|right
        <limb> ~ <dead>|drooping|dead
        <dead> ~ <limb>
        <limb>|fingers|leg|legs wont|not|doesnt|isnt|cant move|work|moving|working|lift|respond
        lost|losing|no|loss feeling|sensation ~ <limb>|leg|legs|hand
        <cant> see ~ left|right|one eye
        tingling|pins ~ side|face
        arm ~ dropping|drops
        sudden|suddenly weakness|numbness|numb
        garbled|slurred speech|words
        one|left|right side ~ <dead>|tingling|drooping
        leg ~ numb|paralysed|paralyzed|dead
        worst|thunderclap headache
        paralysed|paralyzed|paralysis
        <face> ~ <droop>
        <droop> <face>
        left|right|whole|one|half side ~ gone|went|wont|weird|asleep|limp|<dead>|cant
        half face|body ~ gone|wont|numb|dead|weak|dropped|frozen|cant
        <limb>|legs|feet|leg dont|arent|wont|doesnt|isnt|cant|cannot work|working|move|moving
          |respond|lift|grip
        talking|speaking|speech|words|talk|speak ~ funny|gibberish|nonsense|weird|off|slurred
          |strange|garbled|thick|drunk|slurry|jumbled|wrong
        gibberish
        one|left|right eye ~ gone|black|blind|blank|dark|went|blurred
        having|had|have tia
        ministroke
        sudden|suddenly ~ headache|confused|confusion|blind
        <limb> ~ fell|fallen|asleep ~ move|lift|feel|weak
        <cant> ~ read|write|think|find|remember ~ words|name|speak
        face|mouth|lip ~ one side
        <cant> grip|squeeze ~ hand|arm|left|right
        leg|foot|arm|hand dragging|drags
        words|speech ~ muddled|scrambled|mangled
        <cant> string|form|make ~ sentence|words
        <limb> ~ hanging
        <face> ~ slipped|slid|slumping|melting|hanging
        """,
    Kind.SEIZURE: """
        seizure|seizures|seizing|siezure|seisure|seziure|siezures|seizur
        convulsion|convulsions|convulsing|convulsed
        hes|shes fitting
        having|had|have|has fit|fits|seizer|caesar|siezer
        shaking|jerking|twitching uncontrollably|violently|uncontrolably
        uncontrollable|violent shaking|jerking
        epileptic fit|attack
        took|taking|takes|taken fit|fits|seizure
        shaking|jerking|twitching|spasming|thrashing|trembling ~ <cant> stop|control
        <cant> stop|control jerking|twitching|convulsing|spasming|thrashing
        jerking|thrashing|twitching all over
        having|had|have see sure|sure
        foaming ~ mouth
        eyes rolled|rolling|roll back|head|up
        body jerking|thrashing
        convulse|seizured
        shaking|jerking|twitching foaming
        """,
    Kind.HEART_ATTACK: """
        <heart> attack|attach|attacks|attact|attak|atack|attacked
        cardiac arrest|attack
        <heart> ~ stopped|stopping|stop|failing|exploding|explode
        <heart> giving out
        coronary
        <heart> ~ packing|packed|conking|quitting
        """,
    Kind.BLEEDING: """
        bleeding|bleed|blood|bleading|bleedin ~ lot|badly|heavily|everywhere|stop|much|severely
          |profusely|death|head|stopping|uncontrollably|gushing|pouring|heavy|bad|spurting|out
        lots|much|losing|lost|vomiting|vomited|coughing|coughed|throwing|threw|puking|spitting
          |pool|covered|vomit|spit|loads ~ <blood>
        severe|heavy|bad|massive|terrible|serious|uncontrolled bleeding|bleed
        <cant>|wont|doesnt|not stop|stopping bleeding|bleed|blood
        deep cut|wound|gash
        haemorrhage|hemorrhage|haemorrhaging|hemorrhaging|haemorrage|hemorrage
        head|face|wrist|wrists|neck|mouth|stomach|ear|ears|forehead|skull|scalp|throat bleeding
          |bleedin|bleeds|gushing
        bleeding|blood|bleedin from|out ~ head|mouth|ear|ears|eyes|wrist|neck|stomach|face|scalp
        bleeding|bleedin loads|pints|tons|buckets|nonstop|all
        blood all|everywhere|pouring|gushing|spurting|pumping
        lot|lots|loads|pouring|gushing|spurting|tons|pints|pissing <blood>
        gashed|slashed ~ arm|leg|head|hand|foot|wrist
        cut ~ open
        haemorrhaged|hemorrhaged
        """,
})  # fmt: skip
