"""The words that may have to help someone. Every one is short, and says what to do first.

Sources: Rowe 2017 (Front Pediatr 5:121) and public first-aid pages for lying down and calling
help; the American Heart Association's public page for very high pressure.
"""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message

MESSAGES: Final[Mapping[str, Message]] = {
    "stop.now": N_(
        "Stop. Lie down now and raise your legs. The test has ended and your numbers are kept. "
        "If you fainted, or have chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "faint.now": N_(
        "Lie down now and raise your legs. Call out to someone near you. The test has ended and "
        "your numbers are kept.\n"
        "If you faint, or get chest pain or trouble breathing, call your local emergency number.\n"
        "Stay down until you feel well. Please do not repeat the test today."
    ),
    "faint.lie-down": N_(
        "Lie down now and raise your legs. Call out to someone near you. "
        "If you faint, or get chest pain or trouble breathing, call your local emergency number."
    ),
    "emergency.now": N_(
        "This may be an emergency. Call your local emergency number now, or ask someone near you "
        "to call. I cannot call for you.\n"
        "Lie down, unlock the door if you can, and tell someone."
    ),
    "emergency.number": N_("Emergency number: {number}"),
    "emergency.test-over": N_("The test is over."),
    "interrupted": N_(
        "Are you all right? Too much time has passed since your last step, so this test no longer "
        "counts and has ended. What you measured before is kept.\n"
        "Sit or lie down and rest. If you fainted, or have chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "unsafe.low": N_(
        "{pressures} is low for standing. Lie down now and raise your legs. The test has ended "
        "and your numbers are kept.\n"
        "If you faint, or get chest pain or trouble breathing, call your local emergency number. "
        "Tell your care team about this reading today."
    ),
    "unsafe.fall": N_(
        "{pressures} is a large drop, and you do not feel well. Lie down now and raise your legs. "
        "The test has ended and your numbers are kept.\n"
        "If you faint, or get chest pain or trouble breathing, call your local emergency number. "
        "Tell your care team about this reading today."
    ),
    "unsafe.slowing": N_(
        "{pressures}, heart rate {heart_rate}: your blood pressure and your heart rate have both "
        "dropped. Lie down now and raise your legs. The test has ended and your numbers are "
        "kept.\n"
        "If you faint, or get chest pain or trouble breathing, call your local emergency number. "
        "Tell your care team about this reading today."
    ),
    "unsafe.standing-fast": N_(
        "A heart rate of {heart_rate} is very fast. Lie down now and raise your legs. The test has "
        "ended and your numbers are kept.\n"
        "If you faint, or get chest pain or trouble breathing, call your local emergency number. "
        "Tell your care team about this reading today."
    ),
    "unsafe.racing": N_(
        "A heart rate of {heart_rate} is fast, and you do not feel well. Lie down now and raise "
        "your legs. The test has ended and your numbers are kept.\n"
        "If you faint, or get chest pain or trouble breathing, call your local emergency number. "
        "Tell your care team about this reading today."
    ),
    "unsafe.supine-low": N_(
        "{pressures} is low. Stay lying down; please do not stand up for the test. It has ended "
        "and your numbers are kept.\n"
        "Call your care team today. If you faint, or get chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "unsafe.seated-low": N_(
        "{pressures} is low for sitting. Lie down now; please do not stand up for the test. It has "
        "ended and your numbers are kept.\n"
        "Call your care team today. If you faint, or get chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "unsafe.corrected": N_(
        "With {pressures} before standing you should not go on. Lie down now and raise your legs. "
        "The test has ended and your numbers are kept.\n"
        "Call your care team today. If you faint, or get chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "unsafe.supine-slow": N_(
        "A heart rate of {heart_rate} is slow. Stay lying down; please do not stand up for the "
        "test. It has ended and your numbers are kept.\n"
        "Call your care team today. If you faint, or get chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "unsafe.supine-fast": N_(
        "A heart rate of {heart_rate} is fast for lying down. Stay lying down; please do not stand "
        "up for the test. It has ended and your numbers are kept.\n"
        "Call your care team today. If you faint, or get chest pain or trouble breathing, "
        "call your local emergency number."
    ),
    "unsafe.high": N_(
        "{pressures} is very high. Sit or lie down and rest. The test has ended and your numbers "
        "are kept. I will ask you to measure again in a minute.\n"
        "If you have chest pain, trouble breathing, back pain, numbness, weakness, a change in "
        "your sight or trouble speaking, call your local emergency number now."
    ),
    "doubt.unwell": N_("If you feel dizzy, faint or weak, lie down now and tap Stop."),
    "help.sure.emergency": N_(
        "I want to be sure that I understand you. Do you need help now? "
        "If I hear nothing in a minute, I take it as yes."
    ),
    "help.sure.near-faint": N_(
        "I want to be sure that I understand you. Do you feel faint now? "
        "If I hear nothing in a minute, I take it as yes."
    ),
    "help.not-meant": N_("Good. Tell me at once if that changes."),
    "check.standing": N_(
        "Still all right, standing there? Tap the button so that I know. "
        "If you feel faint, lie down at once and tap Stop."
    ),
    "check.again": N_("Please tap the button, or type ok. Are you still all right?"),
    "check.good": N_("Good. Keep still and lean on the wall. {left} to your next reading."),
    "recovery.how": N_("How are you now, lying down?"),
    "recovery.better": N_(
        "Good. Stay down a few more minutes, then sit up slowly before you stand. "
        "Rest and drink something, unless your care team told you to limit fluids. "
        "Please do not repeat the test today, and tell your care team that it was stopped."
    ),
    "recovery.same": N_(
        "Stay lying down with your legs raised. I will ask again. "
        "If you get worse, call your local emergency number."
    ),
    "recovery.same.last": N_(
        "Stay lying down, and have someone stay with you. Call your care team now. "
        "If you cannot reach them, or you get worse, call your local emergency number. "
        "Please do not repeat the test today."
    ),
    "recovery.worse": N_(
        "Call your local emergency number now, or ask someone near you to call. "
        "I cannot call for you.\n"
        "Stay lying down, unlock the door if you can do so safely, and tell someone."
    ),
    "recovery.silent": N_(
        "I have not heard from you since you lay down.\n"
        "If you are reading this for someone who does not answer: see to them now, and call the "
        "local emergency number if they do not wake or breathe normally."
    ),
    "recovery.measure": N_(
        "Still resting? Measure again now, then type the numbers, like this: {example}"
    ),
    "recovery.second": N_(
        "I take {numbers} as your second measurement. The earlier reading stays as it was; "
        "type fix to change it."
    ),
    "recovery.called-off": N_(
        "Thank you for putting that right. You need not measure again for it. The test has ended; "
        "please rest a while. Tell your care team if you do not feel well."
    ),
    "recovery.unclear": N_("I need the top and the bottom number, like this: {example}"),
    "recovery.not-measured": N_(
        "I have no second measurement. Please rest, measure once more, and tell your care team "
        "today about the very high number.\n"
        "If you have chest pain, trouble breathing, back pain, numbness, weakness, a change in "
        "your sight or trouble speaking, call your local emergency number now."
    ),
    "recovery.signs": N_(
        "{numbers} is still very high. Do you have any of these: chest pain, trouble breathing, "
        "back pain, numbness, weakness, a change in your sight, trouble speaking?"
    ),
    "recovery.care-team": N_(
        "Then contact your care team today, and rest until you have spoken to them. "
        "If any of those signs begins, call your local emergency number at once. "
        "Please do not repeat the test today."
    ),
    "recovery.lower": N_(
        "{numbers} is lower than before. Rest, and tell your care team today about the very high "
        "number. Please do not repeat the test today."
    ),
    "silence.check": N_("Are you all right? I have not heard from you for a while."),
    "silence.check.standing": N_(
        "Are you all right? If you feel faint, lie down now and raise your legs. "
        "Tap a button so that I know."
    ),
    "silence.closed": N_(
        "I have not heard from you, so I have ended the test. What you measured is kept.\n"
        "If you feel faint, lie down and raise your legs. If you fainted, or have chest pain or "
        "trouble breathing, call your local emergency number.\n"
        "If you are reading this for someone who does not answer: see to them now, and call the "
        "local emergency number if they do not wake or breathe normally."
    ),
}
