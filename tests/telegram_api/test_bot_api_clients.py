"""Two clients that know nothing of each other agree on what the server says."""

from __future__ import annotations

import io
import json
from typing import TYPE_CHECKING

import pytest
import telegram
from PIL import Image

from tests.telegram_api import BotApiServer, Button, Person
from tests.telegram_api.strict import check_call

if TYPE_CHECKING:
    import aiogram
    from aiogram.types import InlineKeyboardMarkup

KEYBOARD = [[("Yes", "s1:yes"), ("No", "s1:no")], [("Stop", "s1:stop")]]


def grams_keyboard(rows: list[list[tuple[str, str]]]) -> InlineKeyboardMarkup:
    """Return rows of (label, data) as aiogram writes them."""
    from aiogram.types import InlineKeyboardButton, InlineKeyboardMarkup

    buttons = [[InlineKeyboardButton(text=t, callback_data=d) for t, d in row] for row in rows]
    return InlineKeyboardMarkup(inline_keyboard=buttons)


def ptb_keyboard(rows: list[list[tuple[str, str]]]) -> telegram.InlineKeyboardMarkup:
    """Return rows of (label, data) as python-telegram-bot writes them."""
    return telegram.InlineKeyboardMarkup(
        [[telegram.InlineKeyboardButton(t, callback_data=d) for t, d in row] for row in rows]
    )


def picture(width: int = 300, height: int = 200) -> bytes:
    """Return a PNG."""
    out = io.BytesIO()
    Image.new("RGB", (width, height), "white").save(out, "PNG")
    return out.getvalue()


async def test_both_clients_get_to_know_the_bot(
    server: BotApiServer, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """GetMe gives both clients the same typed user, a bot."""
    me = await grams.get_me()
    assert me.is_bot is True
    assert me.id == ptb.bot.id == int(server.token.split(":")[0])
    assert me.username == ptb.bot.username == "harbour_street_bot"


async def test_a_message_reaches_the_person_whichever_client_sends_it(
    robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """Text, keyboard, protection and reply arrive alike from both clients."""
    from aiogram.types import ReplyParameters

    start = robin.chat[0].message_id
    one = await grams.send_message(
        robin.chat_id,
        "Lie down.",
        reply_markup=grams_keyboard(KEYBOARD),
        protect_content=True,
        reply_parameters=ReplyParameters(message_id=start),
    )
    two = await ptb.send_message(
        robin.chat_id,
        "Lie down.",
        reply_markup=ptb_keyboard(KEYBOARD),
        protect_content=True,
        reply_parameters=telegram.ReplyParameters(start),
    )
    first, second = robin.replies
    for seen in (first, second):
        assert seen.text == "Lie down."
        assert seen.buttons[0] == (Button("Yes", "s1:yes"), Button("No", "s1:no"))
        assert seen.labels == ("Yes", "No", "Stop")
        assert seen.protected
        assert seen.reply_to == start
    assert one.message_id == first.message_id < second.message_id == two.message_id
    assert one.from_user is not None
    assert one.from_user.is_bot
    assert two.chat.type == one.chat.type == "private"
    assert one.reply_to_message is not None
    assert two.reply_to_message is not None
    assert one.reply_to_message.text == two.reply_to_message.text == "/start"
    assert one.has_protected_content
    assert two.has_protected_content


async def test_an_edit_replaces_text_and_keyboard_and_keeps_the_history(
    robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """The person sees only the latest version; the test sees them all."""
    import aiogram

    sent = await ptb.send_message(robin.chat_id, "Ready?", reply_markup=ptb_keyboard(KEYBOARD))
    edited = await grams.edit_message_text(
        "Resting.", chat_id=robin.chat_id, message_id=sent.message_id
    )
    assert isinstance(edited, aiogram.types.Message)
    assert edited.edit_date is not None
    assert edited.reply_markup is None
    marked = await ptb.edit_message_reply_markup(
        robin.chat_id, sent.message_id, reply_markup=ptb_keyboard([[("Stop", "s2:stop")]])
    )
    assert isinstance(marked, telegram.Message)
    assert robin.last.text == "Resting."
    assert robin.last.labels == ("Stop",)
    assert [version.text for version in robin.last.versions] == ["Ready?", "Resting.", "Resting."]
    assert [len(version.buttons) for version in robin.last.versions] == [2, 0, 1]


async def test_what_a_person_does_is_read_alike_by_both_clients(
    server: BotApiServer, robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """Every kind of update parses in both clients, with the same facts in it."""
    import aiogram

    await ptb.send_message(robin.chat_id, "Ready?", reply_markup=ptb_keyboard(KEYBOARD))
    number = robin.writes("118/76")
    robin.edits(number, "128/76")
    robin.taps("Yes")
    robin.sends_photo(caption="my cuff")
    robin.sends_voice()
    robin.sends_sticker()
    robin.sends_location()
    robin.sends_document("diary.txt", b"slept badly")
    robin.forges_tap("s9:yes")
    robin.blocks()
    robin.unblocks()
    ours = await ptb.get_updates(timeout=0)
    theirs = await grams.get_updates(timeout=0)
    assert [update.update_id for update in ours] == [update.update_id for update in theirs]
    text, edit, tap, photo, voice, sticker, place, document, forged, out, back = theirs
    assert text.message is not None
    assert text.message.text == "118/76"
    assert text.message.from_user is not None
    assert text.message.from_user.language_code == "en"
    assert edit.edited_message is not None
    assert (edit.edited_message.message_id, edit.edited_message.text) == (number, "128/76")
    assert tap.callback_query is not None
    assert tap.callback_query.data == "s1:yes"
    assert isinstance(tap.callback_query.message, aiogram.types.Message)
    assert tap.callback_query.message.text == "Ready?"
    assert photo.message is not None
    assert photo.message.caption == "my cuff"
    assert photo.message.photo is not None
    assert [size.width for size in photo.message.photo] == [90, 640]
    assert len({size.file_id for size in photo.message.photo}) == 2
    assert voice.message is not None
    assert voice.message.voice is not None
    assert sticker.message is not None
    assert sticker.message.sticker is not None
    assert place.message is not None
    assert place.message.location is not None
    assert document.message is not None
    assert document.message.document is not None
    assert document.message.document.file_name == "diary.txt"
    assert forged.callback_query is not None
    assert isinstance(forged.callback_query.message, aiogram.types.InaccessibleMessage)
    assert out.my_chat_member is not None
    assert out.my_chat_member.new_chat_member.status == "kicked"
    assert back.my_chat_member is not None
    assert back.my_chat_member.new_chat_member.status == "member"
    kinds = ["message", "edited_message", "callback_query", *["message"] * 5, "callback_query"]
    for update, kind in zip(ours, [*kinds, "my_chat_member", "my_chat_member"], strict=True):
        assert getattr(update, kind) is not None
    fetched = check_call(server.calls_of("getUpdates")[-1])
    assert isinstance(fetched, aiogram.methods.GetUpdates)


async def test_a_command_carries_its_entity(robin: Person, ptb: telegram.Bot) -> None:
    """A bot command is marked where it stands, counted in UTF-16 code units."""
    robin.writes("\N{FACE WITH THERMOMETER} /stop now, not /here/home")
    (update,) = await ptb.get_updates(timeout=0)
    assert update.message is not None
    (entity,) = update.message.entities
    assert (entity.type, entity.offset, entity.length) == ("bot_command", 3, 5)
    assert update.message.parse_entity(entity) == "/stop"


async def test_a_tap_is_answered_once(robin: Person, grams: aiogram.Bot, ptb: telegram.Bot) -> None:
    """The first answer is shown to the person; the second is refused as too old."""
    await ptb.send_message(robin.chat_id, "Ready?", reply_markup=ptb_keyboard(KEYBOARD))
    query_id = robin.taps("No")
    assert await grams.answer_callback_query(query_id, text="Noted", show_alert=True)
    (toast,) = robin.toasts
    assert (toast.query_id, toast.text, toast.alert) == (query_id, "Noted", True)
    with pytest.raises(telegram.error.BadRequest, match="Query is too old"):
        await ptb.answer_callback_query(query_id)


async def test_documents_and_photos_make_the_round_trip(
    robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """What either client uploads, the test can read and the other client download."""
    from aiogram.types import BufferedInputFile

    table = b"time,systolic\n09:00,118\n"
    mine = await ptb.send_document(robin.chat_id, table, filename="readings.csv", caption="Yours")
    theirs = await grams.send_document(
        robin.chat_id, BufferedInputFile(table, filename="readings.csv"), caption="Yours"
    )
    chart = picture()
    shown = await ptb.send_photo(robin.chat_id, chart)
    again = await grams.send_photo(robin.chat_id, BufferedInputFile(chart, filename="chart.png"))
    for seen in robin.replies[:2]:
        assert seen.document is not None
        assert (seen.document.name, seen.document.content) == ("readings.csv", table)
        assert seen.text == "Yours"
    for seen in robin.replies[2:]:
        assert seen.photo is not None
        assert seen.photo.content == chart
    assert mine.document is not None
    assert theirs.document is not None
    assert mine.document.file_size == theirs.document.file_size == len(table)
    assert [(size.width, size.height) for size in shown.photo] == [(90, 60), (300, 200)]
    assert again.photo is not None
    assert again.photo[-1].file_size == len(chart)
    file = await ptb.get_file(theirs.document.file_id)
    assert bytes(await file.download_as_bytearray()) == table
    downloaded = await grams.download(mine.document.file_id)
    assert downloaded is not None
    assert downloaded.read() == table
    await ptb.send_document(robin.chat_id, mine.document.file_id)
    assert robin.last.document is not None
    assert robin.last.document.content == table


async def test_a_sent_file_of_the_person_can_be_downloaded(
    robin: Person, ptb: telegram.Bot
) -> None:
    """The bot gets the bytes of a photo someone sent."""
    content = picture(120, 90)
    robin.sends_photo(content)
    (update,) = await ptb.get_updates(timeout=0)
    assert update.message is not None
    file = await update.message.photo[-1].get_file()
    assert bytes(await file.download_as_bytearray()) == content


async def test_command_menus_are_kept_by_scope_and_language(
    grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """A menu comes back exactly where it was set, and only there."""
    from aiogram.types import BotCommand, BotCommandScopeAllPrivateChats

    scope = BotCommandScopeAllPrivateChats()
    await grams.set_my_commands([BotCommand(command="stop", description="Parar")], scope, "es")
    await ptb.set_my_commands([("stop", "Stop the test"), ("help", "What I can do")])
    assert [c.description for c in await grams.get_my_commands(scope, "es")] == ["Parar"]
    assert await grams.get_my_commands(scope) == []
    assert [c.command for c in await ptb.get_my_commands()] == ["stop", "help"]
    assert await ptb.delete_my_commands()
    assert await grams.get_my_commands() == []


async def test_self_descriptions_fall_back_to_the_default_language(
    grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """A description in no language in particular serves every language without its own."""
    await ptb.set_my_description("Stands by.")
    await grams.set_my_description("Te acompaña.", "es")
    await ptb.set_my_short_description("A companion.")
    await grams.set_my_name("Wallside")
    assert (await ptb.get_my_description("es")).description == "Te acompaña."
    assert (await grams.get_my_description("fr")).description == "Stands by."
    assert (await grams.get_my_short_description()).short_description == "A companion."
    assert (await ptb.get_my_name()).name == "Wallside"


async def test_deleting_and_acting_show_in_the_chat(
    robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """A deleted message is gone, an action is seen, a caption can change."""
    sent = await ptb.send_message(robin.chat_id, "Wrong chat, sorry.")
    assert await grams.delete_message(robin.chat_id, sent.message_id)
    assert robin.finds("Wrong chat") is None
    assert await ptb.send_chat_action(robin.chat_id, "upload_document")
    assert robin.actions == ("upload_document",)
    filed = await ptb.send_document(robin.chat_id, b"%PDF-", filename="a.pdf", caption="Draft")
    await grams.edit_message_caption(
        chat_id=robin.chat_id, message_id=filed.message_id, caption="Final"
    )
    assert [version.text for version in robin.last.versions] == ["Draft", "Final"]
    assert robin.last.document is not None


async def test_a_forced_reply_is_seen_and_can_be_answered(
    robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """Markup that is no inline keyboard reaches the person, and their reply names the message."""
    from aiogram.types import ForceReply

    asked = await grams.send_message(
        robin.chat_id, "Pulse?", reply_markup=ForceReply(input_field_placeholder="72")
    )
    assert asked.reply_markup is None
    assert robin.last.keyboard == {"force_reply": True, "input_field_placeholder": "72"}
    robin.writes("72", reply_to=asked.message_id)
    (update,) = await ptb.get_updates(timeout=0)
    assert update.message is not None
    assert update.message.reply_to_message is not None
    assert update.message.reply_to_message.message_id == asked.message_id


async def test_recorded_calls_are_calls_of_the_documented_api(
    server: BotApiServer, robin: Person, grams: aiogram.Bot, ptb: telegram.Bot
) -> None:
    """Everything recorded, parameters and results, validates as aiogram's typed methods."""
    import aiogram
    from aiogram.types import BufferedInputFile, InlineKeyboardMarkup

    sent = await ptb.send_message(robin.chat_id, "Ready?", reply_markup=ptb_keyboard(KEYBOARD))
    await grams.edit_message_text("Go.", chat_id=robin.chat_id, message_id=sent.message_id)
    await ptb.send_photo(robin.chat_id, picture(), caption="Chart")
    await grams.send_document(robin.chat_id, BufferedInputFile(b"x", filename="x.csv"))
    await ptb.set_my_commands([("stop", "Stop")], telegram.BotCommandScopeChat(robin.chat_id))
    robin.writes("hello")
    await ptb.get_updates(allowed_updates=["message", "callback_query"], timeout=0)
    await ptb.get_webhook_info()
    typed = {call.method: check_call(call) for call in server.calls}
    assert set(typed) == {
        "getMe",
        "sendMessage",
        "editMessageText",
        "sendPhoto",
        "sendDocument",
        "setMyCommands",
        "getUpdates",
        "getWebhookInfo",
    }
    message = typed["sendMessage"]
    assert isinstance(message, aiogram.methods.SendMessage)
    assert isinstance(message.reply_markup, InlineKeyboardMarkup)
    assert message.reply_markup.inline_keyboard[1][0].callback_data == "s1:stop"


async def test_the_strict_check_finds_what_the_api_does_not_know(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """A parameter that is not documented fails the check, though the platform ignores it."""
    await ptb.send_message(robin.chat_id, "Hi", api_kwargs={"colour": "red"})
    with pytest.raises(AssertionError, match="colour"):
        check_call(server.calls[-1])


async def test_dates_are_whole_seconds_and_flags_are_booleans(
    server: BotApiServer, robin: Person, ptb: telegram.Bot
) -> None:
    """On the wire, dates and ids are integers and `is_bot` a boolean."""
    await ptb.send_message(robin.chat_id, "Hi")
    robin.writes("Hello")
    await ptb.get_updates(timeout=0)
    answers = [call.body for call in server.calls if call.body]
    wire = json.loads(json.dumps(answers))
    sent, (received,) = wire[-2]["result"], wire[-1]["result"]
    for message in (sent, received["message"]):
        assert type(message["date"]) is int
        assert type(message["from"]["is_bot"]) is bool
        assert message["chat"]["type"] == "private"
