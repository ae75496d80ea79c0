"""What means the same at every stage: where, help, language, symptom, fix, results, start."""

from bot.engine.dialogues import closing, corrections, opening, orientation, stopping, symptoms
from bot.engine.state import AwaitingReady, AwaitingStopReason, ChoosingLanguage, Finished, Idle
from bot.engine.turn import Turn, part
from bot.engine.vocabulary import Word


def hear(turn: Turn, heard: Word) -> bool:
    """Answer a word that means the same at every stage."""
    match heard:
        case Word.WHERE:
            orientation.orient(turn)
        case Word.HELP:
            key = "help" if turn.running is None else "help.running"
            orientation.orient(turn, part(key))
        case Word.LANGUAGE:
            turn.put(ChoosingLanguage())
            orientation.orient(turn)
        case Word.ENGLISH:
            speak(turn, "en")
        case Word.SPANISH:
            speak(turn, "es")
        case Word.SYMPTOM:
            symptoms.ask_which(turn)
        case Word.FIX:
            corrections.ask_fix(turn)
        case Word.RESULTS:
            show_results(turn)
        case Word.START if not isinstance(turn.stage, AwaitingReady):
            start(turn)
        case _:
            return False
    return True


def tap(turn: Turn, question: str, choice: str) -> bool:
    """Answer a button that means the same at any time."""
    if question == "fix":
        if not (choice.isascii() and choice.isdigit()):
            return False
        corrections.ask_fix(turn, int(choice[:4]))
        return True
    match choice:
        case "stop":
            stopping.stop(turn)
        case "symptom":
            symptoms.ask_which(turn)
        case "where":
            orientation.orient(turn)
        case "results":
            show_results(turn)
        case "start":
            start(turn)
        case _:
            return False
    return True


def start(turn: Turn) -> None:
    """Go towards a new test, unless one is under way."""
    match turn.stage:
        case Idle() | Finished():
            opening.begin(turn)
        case AwaitingStopReason() as stage:
            closing.finish(turn, stage.record)
            opening.begin(turn)
        case _:
            orientation.orient(turn, part("start.already"))


def show_results(turn: Turn) -> None:
    """Send the latest results again, if there are any."""
    match turn.stage:
        case Finished() as stage:
            closing.hand_over(turn, stage.record)
        case AwaitingStopReason() as stage:
            stopping.take_reason(turn, stage, None)
        case _:
            orientation.orient(turn, part("results.not-yet"))


def speak(turn: Turn, locale: str) -> None:
    """Go on in another language."""
    turn.speak(locale)
    if isinstance(turn.aside, ChoosingLanguage):
        turn.put(None)
    orientation.orient(turn, part("language.set"))


def leave(turn: Turn) -> None:
    """Drop the question put in between, and go back to what was open."""
    turn.put(None)
    symptoms.answer(turn, (part("left"),))


def stop_meant(turn: Turn, *, meant: bool) -> None:
    """Take the answer to whether stop was meant."""
    turn.put(None)
    if meant:
        stopping.stop(turn)
    else:
        symptoms.answer(turn, (part("stop.not-meant"),))
