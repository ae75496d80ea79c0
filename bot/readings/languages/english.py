"""English: the words around numbers, and the number words."""

from typing import Final

from bot.readings.language import Join, Language, Numerals, Role, words

_KIN: Final = ", ".join(
    f"{person} {verb}"
    for person in (
        *("daughter", "son", "mum", "mom", "mother", "dad", "father", "wife", "husband"),
        *("sister", "brother", "partner", "grandson", "granddaughter", "friend"),
    )
    for verb in ("is", "turns", "turned", "is turning")
)

_THEIRS: Final = ", ".join(
    f"{person} {verb}"
    for person in (
        *("husband", "wife", "partner", "mother", "mum", "mom", "father", "dad", "he", "she"),
        *("son", "daughter", "sister", "brother", "friend", "neighbour", "neighbor"),
    )
    for verb in ("just had", "just got", "just has", "is at", "was at")
)

ENGLISH: Final = Language(
    phrases={
        Role.SYSTOLIC: """systolic, systolic pressure, systolic blood pressure, systolic bp, sys,
            syst, sbp, systolc, sistolic, systollic, top number, upper number,
            top one, upper one, top one's,
            the big number, the big one, top figure, first number, top line, first line""",
        Role.DIASTOLIC: """diastolic, diastolic pressure, diastolic blood pressure, diastolic bp,
            dia, diast, dbp, diastolc, dyastolic, diastollic, one under it,
            lower number, lower one, the small number, the small one, second number""",
        Role.FOOT: """bottom number, bottom one, bottom one's, bottom figure, bottom line,
            last line, third line""",
        Role.MIDDLE: """in the middle, middle, the middle, middle number, middle one,
            middle figure, middle line, underneath, second line, below that, beneath""",
        Role.HEART_RATE: """hr, h/r, heart rate, heartrate, heart beat, heartbeat, heart,
            cardiac rate, pulse, pulse rate, pulserate, pul, puls, pls, pr, beats, pulse reading,
            heart beats, hb, hart rate, heart rat, hard rate, heart says, plse, pusle, pluse,
            ticker, rate, heart one, pulse one, pulse number, heart number,
            prbpm, pr bpm, hr bpm, pulse bpm, pul/min, pulse/min""",
        Role.TOP: "top, at the top, on top, on the top, at top",
        Role.BOTTOM: "bottom, at the bottom, on the bottom, at bottom",
        Role.UPPER: "upper, high, s",
        Role.LOWER: "lower, low, d",
        Role.HEARD: "polls, poles, pulls, pools, pulp, pols, plus, pause, paws, pulses",
        Role.PRESSURE: """bp, b/p, nibp, blood pressure, bloodpressure, pressure, pressures,
            blood pressures, blod pressure, blood presure, presure, blood preasure""",
        Role.SATURATION: """spo2, sp02, spo, sao2, o2, o2 sat, sat, sats, saturation, oxygen, ox,
            oxygen saturation, oxygen level, sato2, sat o2, sat 02, pulse ox,
            pulse oximeter, oximeter""",
        Role.OTHER: """temp, temperature, weight, glucose, sugar, blood sugar, bg, rr, resp,
            resp rate, respiratory rate, respiration rate, respirations, breathing rate,
            breathing, map, mean, mean pressure, mean bp, mean arterial pressure, pulse pressure,
            pp, hrv, heart rate variability, perfusion, perfusion index, pi, height, arm size,
            max heart rate, max hr, target heart rate, target hr, bmi, rate it, rate my, rate this,
            i'd rate, would rate""",
        Role.AHEAD: """err, er, error, code, error code, page, room, step, level, aged, age, day,
            phone, tel, telephone, fax, chapter, floor, bus, channel, volume, flat, apartment, apt,
            house, door, gate, seat, platform, postcode, zip, zip code, lot, suite, line""",
        Role.BEATS: """bpm, beats per minute, beats a minute, beats per min, beats/min,
            beats/minute, per minute, per min, a minute, /min, /minute, x min, b/min, min-1""",
        Role.PERCENT: "percent, per cent",
        Role.AMOUNT: """degrees, degree, celsius, fahrenheit, c, f, kg, kgs, lb, lbs, pounds,
            stone, mg, mcg, ug, gr, grams, ml, cl, oz, mmol, mmol/l, mg/dl, mgdl, cm, km, kpa,
            cmhg, ft, feet, steps, times, reps, points, mph, ms, days, week, weeks, month, months,
            year, years, yr, yrs, yo, volts, volt, watts, watt, amps, hz, kcal, calories, stairs,
            people, miles, dollars, euros, tablets, tablet, pills, pill, percentile""",
        Role.HIGHEST: "max",
        Role.LOWEST: "min",
        Role.TIME: """mins, minute, minutes, sec, secs, seconds, hrs, hour, hours""",
        Role.HALF_DAY: "am, pm, a. m, p. m, o'clock, oclock",
        Role.COUNTER: "reading, readings, number, numbers, test, try, attempt, result, results",
        Role.POINTER: "is, was, are, were, of, at, reads, read, says, shows, showing, equals",
        Role.FILLER: """love, dear, pet, darling, sweetheart, hen, mate, doc, doctor, nurse, sir,
            madam, cheers, this time, next to, beside, kind regards, regards, heart level,
            heart height, level with my heart, as usual, as always, like always, an, the, it, its,
            it's, i, my, me, mine, our, her, his, this, that, these, there, here, here's, heres,
            now, just, so, for, in, be, been, got, get, have, has, had, value, values, said,
            shown, measured, measure, measuring, measurement, cuff, monitor, machine, screen,
            display, today, ok, okay, yes, yep, hi, hello, hey, thanks, thank you, please, new,
            current, currently, um, uh, erm, hmm, mm, well, with, by, to, comes, came, on,
            good morning, good afternoon, good evening, done, finally""",
        Role.SELF: "i'm, im, i am",
        Role.DIVIDER: "and, also, then",
        Role.HEDGE: """about, around, approximately, approx, roughly, almost, nearly, maybe,
            perhaps, probably, not, isn't, isnt, wasn't, wasnt, don't, dont, never, over, above,
            below, under, than, between, maximum, minimum, average, avg""",
        Role.NOT_NOW: f"""yesterday, usually, normally, typically, usual, earlier, previously,
            last time, last night, last week, last month, last year, the other day, goal, target,
            my normal, normal is, need to reach, want to reach, trying to reach, aiming for,
            aim for, doctor wants, nurse wants, old one, old reading, if my, doctor said, would be,
            normal bp, normal blood pressure, on other days, baseline, should be, supposed,
            what if, always had, always has, used to, sister had, sister got, brother had,
            brother got, mother had, mother got, father had, father got, mom had, mom got,
            mum had, mum got, dad had, dad got, husband had, husband got, wife had, wife got,
            son had, son got, daughter had, daughter got,
            {_THEIRS}""",
        Role.THEIRS: """sister's, brother's, mother's, father's, mom's, mum's, dad's,
            husband's, wife's, son's, daughter's, partner's, friend's, neighbour's, neighbor's,
            sister has, brother has, mother has, father has, mom has,
            mum has, dad has, husband has, wife has, son has, daughter has""",
        Role.KIN: _KIN,
        Role.PLAIN: """low blood pressure, high blood pressure, low bp, high bp, low pressure,
            high pressure, low pulse, high pulse, low heart rate, high heart rate, chest pressure,
            head pressure, ear pressure, neck pressure, sinus pressure, heart pain, heart attack,
            heart racing, heart is racing, heart pounding, heart is pounding, heart's pounding,
            heart thumping, heart is thumping, heart fluttering, heart is fluttering,
            heart beating fast, heart is beating fast, heart hammering, heart flutters,
            heart palpitations, heart skipping, heart jumping, pulse pounding, pulse racing,
            pulse is racing""",
        Role.CORRECTION: """no, nope, sorry, wait, no wait, no sorry, oops, i meant, i mean,
            meant, correction, should read, make that, fix, actually, typo, mistake, wrong,
            that was wrong, not that, scratch that, rather, hang on, no hang on, hold on,
            no hold on""",
        Role.AGAIN: """again, took it again, take it again, did it again, measured again,
            measured it again, retook it, retook, redid it, redid, second go, one more time,
            second time, once more, remeasured, re-measured, re-took it, retake, repeat,
            repeated""",
        Role.SAME: """same, the same, same as before, same as last time, same again, same numbers,
            same reading, same as the last, same as the last one, no change, unchanged, ditto,
            same as earlier, same as above""",
    },
    joins={
        Join.PAIR: "over, on, by, slash, stroke",
        Join.DASH: "dash",
        Join.RANGE: "to, or, point, dot, of",
    },
    strangers={
        "street after": """road, rd, street, st, avenue, ave, lane, drive, close, crescent, terrace,
            boulevard, blvd""",
        "lives at": """live at, lives at, live at number, lives at number, live in number,
            lives in number, lived at, living at""",
        "phone": """phone, phone is, phone number is, number is, mobile, mobile is, cell, cell is,
            tel, telephone, call me on, call me at, call, ring, text, reach me on,
            reach me at""",
        "age of": _KIN,
    },
    contrasts=words("but however though yet"),
    misspelt=words("pulse heartbeat heartrate systolic diastolic pressure pressures bloodpressure"),
    unlike=words("purse pulsed mention pension pressured"),
    doubts=words(
        """or either unsure sure think guess dunno maybe perhaps probably possibly should
        wrong mistake typo meant before ago last previous prior wasn't wasnt isn't isnt"""
    ),
    apart=words(
        """after since until till from per with without dose tablet tablets pill pills medicine
        medication meds aspirin aged age years old room number no not under below above over than
        about around almost nearly temp weight least most like some"""
    ),
    seconds=words("s sec secs second seconds"),
    within=words("in for per"),
    own=words("my mine me i i'm i've"),
    typed=words("put typed wrote entered sent said"),
    negations=words(
        """no not didn't didnt doesn't doesnt don't dont can't cant cannot couldn't couldnt isn't
        isnt wasn't wasnt won't wont wouldn't hasn't hasnt without never unable"""
    ),
    seen=words(
        """shown show shows showing appear appears appeared there visible see read readable come
        came up display displayed register registered registering given give get got reading
        yet time screen know sure work working detected find found make out again"""
    ),
    gone=words(
        """missing blank cut off unreadable illegible absent hidden smudged invisible
        covered faded obscured none na nil"""
    ),
    instead="not, and not, but not, rather than, instead of",
    numerals=Numerals(
        code="en",
        units=words("one two three four five six seven eight nine won"),
        teens=words(
            """ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen
            fourten fiveteen"""
        ),
        tens=words(
            """twenty thirty forty fifty sixty seventy eighty ninety
            fourty fivety ninty eigthy seventie"""
        ),
        hundreds=words("hundred"),
        zeros=words("oh o zero owe"),
        leads=words("one two won"),
        ands=words("and"),
        articles=words("a"),
        spelled={
            "won": "one",
            "fourty": "forty",
            "fivety": "fifty",
            "ninty": "ninety",
            "eigthy": "eighty",
            "seventie": "seventy",
            "fourten": "fourteen",
            "fiveteen": "fifteen",
        },
        sounds={
            "to": "two",
            "too": "two",
            "tu": "two",
            "for": "four",
            "fore": "four",
            "ate": "eight",
            "tree": "three",
            "free": "three",
            "sex": "six",
            "sicks": "six",
            "nein": "nine",
        },
        heard=words("to too for free"),
        parted={
            "ate tea": "eighty",
            "eight tea": "eighty",
            "ate tee": "eighty",
            "eight tee": "eighty",
            "seven tea": "seventy",
            "seven tee": "seventy",
            "six tea": "sixty",
            "six tee": "sixty",
            "sicks tea": "sixty",
            "nine tea": "ninety",
            "nine tee": "ninety",
        },
        glue=("",),
        hours=(("at",), ("since",), ("until",), ("till",), ("from",)),
    ),
)
