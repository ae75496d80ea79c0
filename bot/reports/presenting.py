"""From what the engine wants said to the message as a person sees it, words and files alike."""

from typing import assert_never

from bot.engine.effects import Choice, Form, Hand, Outgoing, Part, Revise, Say
from bot.reports import make, summarise
from bot.runtime.ports import Attachment, Bubble
from bot.texts import render


def present(effect: Outgoing, locale: str) -> Bubble:
    """Return the message in a language. Slow for files; call it off the event loop."""
    match effect:
        case Say() | Revise():
            return Bubble(text=_text(effect.parts, locale), rows=_rows(effect.choices, locale))
        case Hand(form=Form.SUMMARY):
            return Bubble(text=summarise(effect.record, locale), rows=_rows(effect.choices, locale))
        case Hand():
            file = make(effect.form, effect.record, locale)
            return Bubble(
                text=render(f"caption.{effect.form}", {}, locale),
                rows=_rows(effect.choices, locale),
                attachment=Attachment(
                    name=file.name, media_type=file.media_type, content=file.content
                ),
            )
        case _:
            assert_never(effect)


def _text(parts: tuple[Part, ...], locale: str) -> str:
    return "\n".join(render(part.key, part.params, locale) for part in parts)


def _rows(
    choices: tuple[tuple[Choice, ...], ...], locale: str
) -> tuple[tuple[tuple[str, str], ...], ...]:
    return tuple(
        tuple((render(choice.label, {}, locale), choice.token) for choice in row) for row in choices
    )
