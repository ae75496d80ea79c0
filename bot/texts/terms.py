"""Names: buttons, symptoms, positions, short lengths of time."""

from collections.abc import Mapping
from typing import Final

from bot.texts.message import N_, Message, fixed

MESSAGES: Final[Mapping[str, Message]] = {
    # lengths of time
    "term.seconds": N_("{seconds} s"),
    "term.minutes": N_("{minutes} min"),
    "term.minutes-seconds": N_("{minutes} min {seconds} s"),
    # symptoms, as names in a list
    "symptom.dizzy": N_("Dizzy"),
    "symptom.faint": N_("About to faint"),
    "symptom.nausea": N_("Feeling sick"),
    "symptom.palpitations": N_("Heart pounding"),
    "symptom.headache": N_("Headache"),
    "symptom.brain-fog": N_("Brain fog"),
    "symptom.shaky": N_("Shaky"),
    "symptom.weak": N_("Weak"),
    "symptom.short-of-breath": N_("Short of breath"),
    "symptom.blurred-vision": N_("Blurred sight"),
    "symptom.sweating": N_("Sweating"),
    "symptom.tired": N_("Tired"),
    "symptom.other": N_("Something else"),
    # buttons
    "button.stop": N_("Stop"),
    "button.symptom": N_("Symptom"),
    "button.where": N_("Where am I?"),
    "button.language": fixed("English / Español"),
    "button.results": N_("Show my results"),
    "button.more": N_("More"),
    "button.new-test": N_("Start a test"),
    "button.ready": N_("I am ready"),
    "button.there.supine": N_("I am lying down"),
    "button.there.seated": N_("I am sitting"),
    "button.there.standing": N_("I am standing"),
    "button.fix": N_("Fix these numbers"),
    "button.fine": N_("I am all right"),
    "button.unwell": N_("I am not all right"),
    "button.use": N_("Let this one count"),
    "button.place-now": N_("From now"),
    "button.place-earlier": N_("The correction"),
    "button.help-yes": N_("Yes, now"),
    "button.help-no": N_("No, I am all right"),
    "button.recovery.better": N_("Better"),
    "button.recovery.same": N_("The same"),
    "button.recovery.worse": N_("Worse"),
    "button.yes": N_("Yes"),
    "button.no": N_("No"),
    "button.leave": N_("Leave it"),
    "button.stop-yes": N_("Yes, stop"),
    "button.stop-no": N_("No, go on"),
    # age bands
    "age.under-12": N_("Under 12"),
    "age.12-to-19": N_("12 to 19"),
    "age.20-and-over": N_("20 or over"),
    # reasons to stop
    "reason.felt-faint": N_("Felt faint"),
    "reason.unwell": N_("Felt unwell"),
    "reason.pain": N_("Pain"),
    "reason.equipment": N_("Trouble with the cuff"),
    "reason.other": N_("Another reason"),
    # commands, as the messenger lists them
    "command.start": N_("Start a test"),
    "command.stop": N_("Stop the test now"),
    "command.where": N_("Where am I, and how long to go?"),
    "command.symptom": N_("Note a symptom"),
    "command.fix": N_("Correct the last numbers"),
    "command.results": N_("Show my results"),
    "command.language": N_("Change the language"),
    "command.companion": N_("Link someone who is told"),
    "command.help": N_("How this works"),
    # languages in their own words, and numbers: never translated
    "language.en": fixed("English"),
    "language.es": fixed("Español"),
    **{f"strength.{n}": fixed(str(n)) for n in range(11)},
}
