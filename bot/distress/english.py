"""What puts a call for help in doubt in English, and what only looks like one.

What is listened for stands in `english_emergencies`, `english_cries` and `english_faintness`.
Picked by hand (design choice).
"""

from types import MappingProxyType
from typing import Final

from bot.distress import everyday
from bot.distress.english_cries import CRIES
from bot.distress.english_emergencies import EMERGENCIES
from bot.distress.english_faintness import FAINTNESS
from bot.distress.english_groups import GROUPS
from bot.distress.heard import Kind
from bot.distress.language import Language, words

_UNCLEAR: Final = MappingProxyType({
    Kind.FAINTED: """
        lying|laying on|onto <floor>
        didnt|havent|never|hasnt faint|feint|pass|collapse
        if|when|whenever|case i|im|people|someone|we faint|feint|collapse|pass|black
        used faint|collapse|pass|black|fainting|passing
        """,
    Kind.CHEST_PAIN: """
        <chest> ~ weird|funny|strange|odd|fluttering|off|wrong
        chest|breastbone
        """,
    Kind.SEIZURE: """
        wont|cant stop shaking|jerking|twitching|trembling
        shaking|shakes|trembling all over
        """,
    Kind.VISION: """
        everything|all ~ blurry|blurred
        """,
    Kind.FALLEN: """
        i went down
        """,
    Kind.SELF_HARM: """
        dont|not want be here|around
        thinking|think|going|want|gonna|about end|ending it
        took|taken|swallowed|taking|take ~ all ~ pills|tablets|medicine|medication|meds
        <cant> go on
        going|gonna|want|wanna|about|will jump
        want|wanna it end|over|stop
        dont|not|never want|wanna|wish wake
        feel|feeling like ending
        """,
    Kind.BLEEDING: """
        bleeding|bleedin
        """,
    Kind.HEART_ATTACK: """
        no pulse
        think its|is <heart>
        something|wrong ~ <heart>
        """,
    Kind.PLEA: """
        emojialarm
        in danger|trouble
        urgent
        hurry
        not make it
        please|pls|plz come
        """,
    Kind.FAINTING: """
        bit|little|slightly|mildly|somewhat|abit|lil|tad faint|feint|fainty
        faint|faintness 8|9|10
        faint|feint
        about go
        afraid|scared|worried|fear|anxious faint|fall|falling|collapse
        swaying
        feel|feels|feeling like im|i|ill going|go|gone
        <almost> dropped
        going|gonna|gunna pass
        """,
    Kind.CANNOT_STAND: """
        legs|knees ~ wobbly
        im|very|so wobbly|unsteady
        """,
    Kind.VERY_DIZZY: """
        emojidizzy
        """,
})  # fmt: skip

_WHOLE: Final = MappingProxyType({
    Kind.FALLEN: """
        fell
        fallen
        """,
    Kind.FAINTING: """
        faint
        fainty
        falling
        fading
        im|am|i going|gone
        """,
    Kind.COLD_SWEAT: """
        pale
        """,
})  # fmt: skip

_HARMLESS: Final = """
    fell|fall|falling|falls|fallen asleep|behind|short|sleep
    fell|fall|falling|fallen ~ love
    blood pressure|sugar|pressures|test|tests|work|thinner|thinners|glucose|oxygen|sugars
    pressure|bp|pulse|cuff|phone|monitor|reading|battery|rate|systolic|diastolic|numbers|clip
      |sats fell|fallen|falling|fall|dropped|collapsed|drop|going|went
    <stroke> luck|volume|genius
    strokes|stroking|stroke dog|cat|hair
    breast|swimming stroke
    help me ~ with|understand|book|find|choose|set|change|move|read|fill|decide|plan|enter|use
      |cancel|to
    need|want|please|some|get|any help ~ with|understanding|booking|reading|setting|changing|using
    please help ~ booking|book|cuff|settings|reminders
    how can|do|does|could|will you|this|it help
    does|will|did|could|can it|this|that help
    faint|feint|faintness 0|1|2|3|4|5|6|7
    went down stairs|downstairs
    call|ring|phone ~ doctor|clinic ~ tomorrow|later|today|monday
    results|file|report ~ hospital|doctor
    emergency|emergencies contact|number|numbers|contacts|plan|exit|button|card|phone|kit|details
    ambulance driver|station|service|job
    blackout|black curtains|blinds|curtain
    black out curtains|blinds
    passed|past|handed out leaflets|flyers
    passed test|exam
    starting|start|about|want|going|ready|think|will|ill start|begin|stand|lie|sit|measure|take
    dead battery|batteries
    battery|batteries|phone|monitor|cuff|machine|app|clip ~ dead|dying|died|die|collapsed
    phone|battery|monitor going die
    faint line|mark|display|sound|lines|beep|noise|smell
    hard stand still
    <cant> stand|standing still
    cant see why|how|what|where|problem|point|difference|anything wrong
    cuff|strap|stocking|stockings|socks|compression ~ tight|sore|tightness|pressure
    not stroke
    feet|foot|back|legs|shoes|knees|heels|stocking|stockings ~ killing
    dying|dyin for ~ coffee|tea|drink|water|food|snack|cigarette|smoke|nap|sleep|loo|toilet|break
      |shower|biscuit|lunch|breakfast|dinner|pee|wee
    dying|dyin know|pee|sit|sleep|drink|eat
    <chest> band|strap|infection|cold|monitor|clear|fine|ok|okay|normal|good|well
    fell out ~ with
    end|over|done|finished|start|begin soon
    be|right back
    went down get|grab|fetch
    cuff|phone|monitor|pen|clip ~ <floor>
    dropped ~ cuff|phone|monitor|pen|clip
    drop|drops|dropped line|message
    """

_HAZY: Final = """
    cant|cannot|couldnt|hardly|barely see ~ display|screen|button|buttons|numbers|number|reading
      |readings|results|option|picture|message|messages|photo|link|menu|chart|file|clock
    <cant> stand ~ it|this|that|waiting|wait|noise|heat|him|her|them|people|needles|thought|smell
    screen|display|phone ~ black|dark|blank
    cuff ~ arm|hand
    arm|hand ~ cuff
    <cant> breathe|breath ~ nose
    its|outside getting dark
    """

_UNWELL: Final = """
    not|isnt|arent|dont|aint|never ok|okay|good|well|right|alright|fine|great|feel
    not|isnt|dont all right
    feel|feeling|feels|felt bad|awful|terrible|sick|ill|horrible|weird|rough|dreadful|rubbish
      |crap|shit|poorly|worse|strange|funny|off|wrong|unwell|lousy|odd|crappy|shitty|nauseous
    unwell|poorly
    getting|much worse
    something wrong|not
    somethings wrong|off
    """

_PASTS: Final = """
    last year|month|week|night|summer|winter|spring|autumn|time|weekend|monday|tuesday|wednesday
      |thursday|friday|saturday|sunday|christmas|test
    yesterday
    years|year|months|month|weeks|week|days|day|decades ago
    ago
    when was|were
    as child|kid|teenager|teen|baby|boy|girl
    used to
    the past
    history of
    previously|formerly|once|historically
    other day|week|night
    in 2000|2001|2002|2003|2004|2005|2006|2007|2008|2009|2010|2011|2012|2013|2014|2015|2016|2017
      |2018|2019|2020|2021|2022|2023|2024|2025|2026|1990|1995|1998|1999|january|february|march
      |april|may|june|july|august|september|october|november|december
    back in
    before
    ever
    """

ENGLISH: Final = Language(
    groups=GROUPS,
    phrases=MappingProxyType({**EMERGENCIES, **CRIES, **FAINTNESS}),
    unclear=_UNCLEAR,
    whole=_WHOLE,
    leaving=frozenset({
        "im going", "i am going", "im going now", "i am going now", "ok im going", "okay im going",
        "im going bye", "bye im going",
    }),
    harmless=_HARMLESS,
    hazy=_HAZY,
    unwell=_UNWELL,
    twins=MappingProxyType[tuple[str, ...], str]({
        ("can", "not"): "cannot", ("could", "not"): "couldnt", ("not", "able"): "unable",
        ("do", "not"): "dont", ("did", "not"): "didnt", ("does", "not"): "doesnt",
        ("is", "not"): "isnt", ("will", "not"): "wont", ("have", "not"): "havent",
        ("was", "not"): "wasnt", ("would", "not"): "wouldnt", ("has", "not"): "hasnt",
        ("dont", "think", "i", "can"): "cannot", ("dont", "feel", "like", "i", "can"): "cannot",
        ("dont", "think", "can"): "cannot", ("cant", "not"): "cannot",
        ("no", "longer", "able"): "unable", ("can", "no", "longer"): "cannot",
        ("no", "can"): "cannot", ("can", "barely"): "barely", ("can", "hardly"): "hardly",
        ("all", "at", "once"): "suddenly", ("at", "once"): "immediately",
        ("breast", "bone"): "breastbone", ("everythings",): "everything",
    }),
    sounds=(
        ("ei", "ai"), ("ea", "e"), ("ee", "i"), ("ph", "f"), ("ck", "k"), ("ie", "i"),
        ("oa", "o"), ("zz", "z"), ("ss", "s"), ("ll", "l"), ("tt", "t"), ("th", "t"),
    ),
    small=words("""
        a actually again all almost also am an and any anymore are as at bad basically be been
        being bloody both by can completely currently damn do does down even feel feeling feels
        felt for from fucking get gets getting go god goes going gone got had has have having he
        her here hers his i ill im in into is it its ive just keep keeps kind like literally me
        more much my now of oh omg on out over please pls properly quite real really seems severe
        she so some sort start started starting still suddenly that the their there they thing
        think this to today too totally up very was well went were with you your
        """),
    bridges=words("""
        have had having has any a an the my is been feel feeling felt feels going to gonna i im am
        get got getting really actually was were be being about even ever like think of experience
        experiencing experienced know show showing signs sign symptom symptoms do did it this that
        or nor and currently now yet at all happen happens happened so me in with just some start
        starting suddenly ive completely fully in case possible will would might could noticed
        notice suffered suffering suffer from almost nearly said say mean saying accidentally
        chance risk because caused cause causes for give gives giving trigger provoke bring
        everything
        """),
    negations=words("""
        not no dont didnt havent hasnt doesnt isnt wasnt never without wont arent aint nor neither
        none denies deny wouldnt werent nope hadnt nothing
        """),
    interjections=frozenset({"no", "nope"}),
    lists=frozenset({"or", "nor", "and"}),
    subjects=words("i im ive my it its he she we theyre hes shes help please pls everything"),
    ends=words("no none nope never nah negative absent 0 zero false not"),
    pasts=_PASTS,
    presents=words("""
        now again just still today currently tonight another right continuing ongoing minutes
        minute mins min seconds secs hour hours moment moments help immediately keeps keep
        """),
    ages=frozenset({"since", "from", "for", "than", "unlike", "worse"}),
    habits=words("""
        sometimes usually often normally occasionally frequently always rarely typically generally
        """),
    others=words("""
        mother mum mom mam mummy mommy father dad daddy husband wife friend sister brother son
        daughter grandma grandmother grandad grandfather granny nan aunt uncle cousin neighbour
        neighbor colleague boss partner boyfriend girlfriend mate niece nephew parents family
        mothers mums moms fathers dads friends sisters brothers grandmothers uncles aunts roommate
        teacher flatmate coworker relative
        """),
    kin=words("""
        husband wife son daughter partner boyfriend girlfriend
        """),
    others_before=words("my our his her a the their your an"),
    others_now=words("""
        is has just now help please hes shes isnt wont cant hasnt ambulance theyre 911 999 112 im
        """),
    firsts=words("i im ive me my ill id myself"),
    conditions=words("""
        afraid anxious avoid case chance example fear fearing if imagine nervous prevent
        preventing risk scared sign signs suppose supposing symptoms unless when whenever whether
        worried
        """),
    questions=frozenset({
        ("am", "i"), ("will", "i"), ("could", "i"), ("can", "i"), ("should", "i"), ("do", "i"),
        ("is", "it"), ("is", "this"), ("is", "that"), ("does", "this"), ("does", "it"),
        ("can", "it"), ("can", "this"), ("can", "that"), ("could", "it"), ("could", "this"),
        ("was", "it"), ("was", "that"), ("was", "this"), ("have", "i"), ("did", "i"),
        ("might", "i"), ("would", "i"), ("may", "i"), ("shall", "i"), ("will", "it"),
        ("will", "this"), ("would", "this"), ("was", "i"), ("what", "if"), ("could", "that"),
        ("are", "these"), ("what", "is"), ("what", "are"), ("whats", "a"), ("how", "about"),
        ("what", "about"), ("you", "help"),
        ("do", "people"), ("do", "patients"), ("do", "many"), ("do", "some"),
        ("does", "everyone"), ("do", "others"), ("does", "anyone"),
    }),
    openers=words("""
        what how does do is are can could will would should did was whats which who has have
        """),
    pleas_asked=frozenset({"you", "someone", "somebody", "anyone", "anybody", "u", "please"}),
    ordinary=everyday.ENGLISH,
)  # fmt: skip
