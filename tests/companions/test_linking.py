"""Becoming a companion: by a link that works once, and only with a yes from both."""

import pytest

from bot.engine.context import Opening
from bot.engine.dialogues.companions import LIMIT
from bot.engine.effects import OfferLink
from bot.engine.post import LINK_LASTS
from bot.engine.profile import Share
from bot.engine.state import Booked
from bot.runtime.conductor import new_code
from bot.store.sql import SqlStore
from tests.companions.people import Person, Town, lies, link
from tests.store.looking import dump

ENROLS = ("yes", "34", "Madrid", "none", "none", "wrist", "watch", "124/76 72")


def offered(person: Person, share: str = "alarms") -> str:
    """Return a link that a person was given for somebody else."""
    return person.types("companion").taps(share).link


@pytest.mark.parametrize("share", list(Share))
def test_both_are_told_once_both_have_agreed(town: Town, share: Share) -> None:
    """The person says what may be told, the other agrees, and each reads what holds now."""
    ana, bea = town.person("ana"), town.person("bea")
    code = offered(ana, share.value)
    assert ana.new() == ["question.share", f"link.offered.{share}"]
    bea.opens(code)
    assert (bea.new(), ana.new()) == ([f"question.accompany.{share}"], [])
    assert [*ana.profile.companions] == []
    bea.types("yes")
    assert bea.new() == [f"accompany.joined.{share}"]
    assert ana.new() == [f"companion.joined.{share}"]
    assert [(c.id, c.share) for c in ana.profile.companions] == [(bea.conversation.id, share)]
    assert [(p.id, p.share) for p in bea.profile.accompanies] == [(ana.conversation.id, share)]


def test_spanish_words_do_the_same(town: Town) -> None:
    """The Spanish word offers a link, and the link is agreed to in Spanish."""
    ana, bea = town.person("ana", "es"), town.person("bea", "es")
    ana.types("acompañante", "solo si algo va mal")
    bea.types(ana.link).types("sí")
    assert bea.profile.accompanies[0].share is Share.ALARMS


def test_not_now_gives_no_link(town: Town) -> None:
    """Who would rather not is given nothing to pass on."""
    ana = town.person("ana")
    ana.types("companion", "not now")
    assert ana.new() == ["question.share", "left"]
    assert not any(isinstance(effect, OfferLink) for effect in ana.got)


def test_end_of_enrolment_offers_it(store: SqlStore) -> None:
    """The last message of the questions has the button; the questions go on behind the link."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    ana.taps("companion").taps("alarms")
    assert ana.read()[-2:] == ["link.offered.alarms", "plan.day"]
    ana.types("tomorrow 9", "yes")
    assert isinstance(ana.conversation.stage, Booked)
    bea.opens(ana.link).taps("yes")
    assert len(ana.profile.companions) == 1


def test_consent_comes_before_a_companion(store: SqlStore) -> None:
    """Nobody is linked to a person who has agreed to nothing yet."""
    ana = Town(store, Opening.FULL).person("ana")
    ana.types("companion")
    assert ana.new() == ["opening.hello", "question.step", "question.consent"]


def test_no_test_is_interrupted_by_it(town: Town) -> None:
    """While a test runs no link is offered."""
    ana = town.person("ana")
    lies(ana)
    ana.new()
    ana.types("companion")
    assert ana.new()[0] == "after-the-test"


def test_code_is_good_once(town: Town) -> None:
    """A third person, and the companion again, read only that it cannot be used."""
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    code = offered(ana)
    bea.opens(code).taps("yes")
    for person in (eva, bea):
        person.new()
        person.opens(code)
        assert person.new() == ["link.unknown"]
    assert len(ana.profile.companions) == 1


def test_code_that_is_open_elsewhere_is_not_given_away(town: Town) -> None:
    """Whoever opened it first has it to themselves, and may open it again."""
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    code = offered(ana)
    bea.opens(code)
    assert eva.opens(code).new() == ["link.unknown"]
    assert bea.opens(code).new()[-1] == "question.accompany.alarms"


def test_code_runs_out(town: Town) -> None:
    """After its time it can neither be opened nor agreed to."""
    ana, bea, eva = town.person("ana"), town.person("bea"), town.person("eva")
    first, second = offered(ana), offered(ana)
    bea.opens(first)
    town.now += LINK_LASTS
    eva.opens(second)
    assert eva.new() == ["question.accompany.alarms"]
    town.waits(1)
    bea.new()
    assert bea.types("yes").new() == ["link.unknown"]
    assert town.person("ida").opens(offered(ana)[:-1] + "9").new() == ["link.unknown"]
    assert eva.types("yes").new() == ["link.unknown"]
    assert ana.profile.companions == ()


def test_unknown_and_own_codes_get_the_same_answer(town: Town) -> None:
    """What is said of a bad link tells nothing of why it is bad."""
    ana = town.person("ana")
    code = offered(ana)
    ana.new()
    own = ana.opens(code).new()
    unknown = town.person("eva").opens(f"with-{'x' * 24}").new()
    assert (own, unknown) == (["link.unknown"], ["link.unknown"])
    assert town.person("ida").types(f"with-{'x' * 24}").new() == ["link.unknown"]


def test_code_can_be_typed_in_a_sentence(town: Town) -> None:
    """Somebody types, or pastes, what they were sent."""
    ana, bea = town.person("ana"), town.person("bea")
    bea.types(f"she sent me https://t.me/wallside?start={offered(ana)} ok?").taps("yes")
    assert len(ana.profile.companions) == 1


def test_codes_cannot_be_guessed() -> None:
    """A code has the 192 bits of 24 random bytes, in characters that a deep link allows."""
    codes = {new_code() for _ in range(100)}
    assert len(codes) == 100
    assert {len(code) for code in codes} == {32}
    assert all(c.isascii() and (c.isalnum() or c in "-_") for code in codes for c in code)


def test_five_at_most(town: Town) -> None:
    """A sixth is not offered, and a link that was offered before links nobody more."""
    ana = town.person("ana")
    spare = offered(ana)
    for number in range(LIMIT):
        link(ana, town.person(f"friend{number}"), "alarms")
    ana.types("companion")
    assert ana.new() == ["companion.full"]
    late = town.person("late").opens(spare)
    late.new()
    late.types("yes")
    assert late.new() == ["link.unknown"]
    assert len(ana.profile.companions) == LIMIT
    assert not late.kept


def test_linking_again_changes_what_is_told(town: Town) -> None:
    """The same two linked anew are linked once, by what was agreed last."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "alarms")
    link(ana, bea, "all")
    assert [c.share for c in ana.profile.companions] == [Share.ALL]
    assert [(p.share, p.number) for p in bea.profile.accompanies] == [(Share.ALL, 1)]


# -- before the yes


def test_nothing_is_kept_of_them_before_they_agree(store: SqlStore) -> None:
    """Until the yes no event of theirs is in the log; what they typed is in no table."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    bea.opens(offered(ana)).types("a yellow canary sings")
    assert "canary" not in dump(store)
    assert bea.events() == []
    bea.types("yes")
    assert bea.events() == []
    assert bea.types("a yellow canary sings").events() == ["WordsGiven"]


def test_no_leaves_no_row_of_them_and_the_link_is_good_again(store: SqlStore) -> None:
    """Who declines is forgotten, and may think again while the link lasts."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    code = offered(ana)
    bea.opens(code)
    name = bea.conversation.id
    bea.types("no")
    assert bea.new()[-1] == "accompany.declined"
    assert not bea.kept
    assert name not in dump(store)
    assert ana.profile.companions == ()
    town.person("eva").opens(code).taps("yes")
    assert len(ana.profile.companions) == 1


def test_language_can_be_chosen_before_they_agree(town: Town) -> None:
    """The question about the language goes first, and then theirs is put again."""
    ana, bea = town.person("ana"), town.person("bea")
    bea.opens(offered(ana)).taps("language").taps("es")
    assert bea.read()[-1] == "question.accompany.alarms"
    bea.types("sí")
    assert bea.conversation.locale == "es"
    assert len(bea.profile.accompanies) == 1


@pytest.mark.parametrize(
    "words", ["what is this?", "ok tell me more", "124/76 72", "ready", "9:00"]
)
def test_other_words_put_the_question_again(store: SqlStore, words: str) -> None:
    """Nobody who came as a companion is led into a test of their own."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    bea.opens(offered(ana)).types(words)
    assert bea.read()[-1] == "question.accompany.alarms"


def test_call_for_help_is_answered_before_they_agree(town: Town) -> None:
    """Words of an emergency mean the same to everybody."""
    ana, bea = town.person("ana"), town.person("bea")
    bea.opens(offered(ana)).types("she fainted")
    assert "emergency.now" in bea.new()


def test_coming_back_puts_the_question_again(town: Town) -> None:
    """Who opens the chat anew without having answered is asked, or told whom they stand by for."""
    ana, bea = town.person("ana"), town.person("bea")
    bea.opens(offered(ana)).types("language", "español").opens()
    assert bea.read()[-1] == "question.accompany.alarms"
    bea.types("sí").opens()
    assert bea.read()[-1] == "where.companion"


# -- both roles


def test_companion_can_be_a_patient_too(store: SqlStore) -> None:
    """Both roles are kept: they enrol, book, and stand by all the same."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    link(ana, bea, "all")
    bea.types("start", *ENROLS, "tomorrow 9", "yes")
    assert isinstance(bea.conversation.stage, Booked)
    assert len(bea.profile.accompanies) == 1


def test_refused_consent_leaves_them_a_companion(store: SqlStore) -> None:
    """Who does not want a test of their own still stands by."""
    town = Town(store, Opening.FULL)
    ana, bea = town.person("ana"), town.person("bea")
    ana.opens().types(*ENROLS)
    link(ana, bea, "alarms")
    bea.types("start", "no")
    assert bea.new()[-1] == "consent.refused.companion"
    assert len(bea.profile.accompanies) == 1


def test_link_opened_in_a_test_waits_for_its_end(town: Town) -> None:
    """Whoever does a test of their own is asked after it."""
    ana, bea = town.person("ana"), town.person("bea")
    code = offered(ana)
    lies(bea)
    bea.new()
    bea.opens(code)
    assert bea.new()[0] == "accompany.later"
    bea.taps("stop").taps("other")
    assert bea.read()[-1] == "question.accompany.alarms"
    bea.types("yes")
    assert len(ana.profile.companions) == 1


def test_two_can_stand_by_for_each_other(town: Town) -> None:
    """Each is the other's companion; ending one link leaves the other."""
    ana, bea = town.person("ana"), town.person("bea")
    link(ana, bea, "all")
    link(bea, ana, "alarms")
    ana.types("companions").taps("unlink")
    assert (len(ana.profile.companions), len(ana.profile.accompanies)) == (0, 1)
    assert (len(bea.profile.companions), len(bea.profile.accompanies)) == (1, 0)
