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
    "unsafe.high": N_(
        "{pressures} is very high. Sit or lie down and rest; the test has ended and your numbers "
        "are kept. Measure again after a few minutes. If it is still this high, contact your "
        "care team today.\n"
        "If you have chest pain, trouble breathing, back pain, numbness, weakness, a change in "
        "your sight or trouble speaking, call your local emergency number now."
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
