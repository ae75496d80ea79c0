"""The clinic's own words on medicines before a test: for everybody, or a person's own plan."""

from bot.engine.buttons import part
from bot.engine.context import Context, written
from bot.engine.effects import Part
from bot.engine.profile import Profile


def plan_for(context: Context, profile: Profile, locale: str) -> str | None:
    """Return the plan that holds for a person; `None` if the clinic has written none.

    One that the care team chose and that is no longer in the clinic's file gives way to the one for
    everybody.
    """
    plans = context.medicine_plans or {}
    own = None if profile.plan is None else written(plans.get(profile.plan), locale)
    return own or written(context.medicine_plan, locale)


def words_for(context: Context, profile: Profile, locale: str) -> Part:
    """Return what is said of medicines before a test. Never to stop one."""
    plan = plan_for(context, profile, locale)
    return part("medicines.plan", plan=plan) if plan else part("medicines.as-prescribed")
