"""The wire itself: four ways to pass parameters, and what the platform refuses."""

import json
from typing import Any

import aiohttp
import pytest

from tests.telegram_api import BotApiServer, Person
from tests.telegram_api.content import MAX_PHOTO_BYTES, measure_photo
from tests.telegram_api.wire import ApiError, Json

_BUTTON = {"text": "Yes", "callback_data": "s1:yes"}


async def ask(
    http: aiohttp.ClientSession, server: BotApiServer, method: str, **params: Any
) -> tuple[int, str]:
    """Return status and description of a call with JSON parameters; `ok` if it went well."""
    async with http.post(f"{server.base_url}{server.token}/{method}", json=params) as response:
        body: Json = await response.json()
        assert body["ok"] is (response.status == 200)
        assert body["ok"] or body["error_code"] == response.status
        return response.status, body.get("description", "ok")


@pytest.mark.parametrize("way", ["query", "form", "multipart", "json"])
async def test_parameters_may_come_in_four_ways(
    server: BotApiServer, robin: Person, http: aiohttp.ClientSession, way: str
) -> None:
    """Query string, form, multipart and JSON say the same."""
    url = f"{server.base_url}{server.token}/sendmessage"
    markup = {"inline_keyboard": [[_BUTTON]]}
    params = {
        "chat_id": str(robin.chat_id),
        "text": "Grüße",
        "protect_content": "true",
        "reply_markup": json.dumps(markup),
    }
    match way:
        case "query":
            request = http.get(url, params=params)
        case "form":
            request = http.post(url, data=params)
        case "multipart":
            writer = aiohttp.MultipartWriter("form-data")
            for name, value in params.items():
                writer.append(value).set_content_disposition("form-data", name=name)
            request = http.post(url, data=writer)
        case _:
            typed = {"chat_id": robin.chat_id, "protect_content": True, "reply_markup": markup}
            request = http.post(url, json=params | typed)
    async with request as response:
        assert response.status == 200
    assert robin.last.text == "Grüße"
    assert robin.last.labels == ("Yes",)
    assert robin.last.protected
    call = server.calls[-1]
    assert call.method == "sendMessage"
    assert call.params["reply_markup"] == markup
    assert call.at == pytest.approx(server.account.clock(), abs=5)


@pytest.mark.parametrize(
    ("params", "description"),
    [
        ({}, "Bad Request: message text is empty"),
        ({"text": " \n "}, "Bad Request: text must be non-empty"),
        ({"text": "x" * 4096}, "ok"),
        ({"text": "x" * 4097}, "Bad Request: message is too long"),
        ({"text": "é" * 4096}, "ok"),
        ({"text": "Hi", "chat_id": ""}, "Bad Request: chat_id is empty"),
        ({"text": "Hi", "chat_id": 4711}, "Bad Request: chat not found"),
        ({"text": "Hi", "chat_id": "@robin"}, "Bad Request: chat not found"),
        ({"text": "Hi", "reply_parameters": {"message_id": 1}},
         "Bad Request: message to be replied not found"),
        ({"text": "Hi", "reply_parameters": {"message_id": 1, "allow_sending_without_reply": True}},
         "ok"),
    ],
)  # fmt: skip
async def test_texts_are_checked_like_the_platforms(
    server: BotApiServer,
    robin: Person,
    http: aiohttp.ClientSession,
    params: Json,
    description: str,
) -> None:
    """Length in characters, chats that exist, replies to what is there."""
    answer = await ask(http, server, "sendMessage", **({"chat_id": robin.chat_id} | params))
    assert answer == (200 if description == "ok" else 400, description)


_BUTTON_PREFIX = "can't parse inline keyboard button: "
_KEYBOARDS: list[tuple[Any, str]] = [
    ([[{**_BUTTON, "callback_data": "é" * 32}]], "ok"),
    ([[{**_BUTTON, "callback_data": "é" * 32 + "x"}]], "BUTTON_DATA_INVALID"),
    ([[{"text": "Site", "url": "https://example.org"}]], "ok"),
    (
        [[{"text": "Yes"}]],
        f"{_BUTTON_PREFIX}Text buttons are unallowed in the inline keyboard",
    ),
    (
        [[{"callback_data": "x"}]],
        f'{_BUTTON_PREFIX}Field "text" must be a non-empty String',
    ),
    ([["Yes"]], f"{_BUTTON_PREFIX}InlineKeyboardButton must be an Object"),
    (
        [_BUTTON],
        'field "inline_keyboard" of the InlineKeyboardMarkup must be an Array of Arrays',
    ),
    ([[_BUTTON] * 101], "reply markup is too long"),
]


@pytest.mark.parametrize(
    ("markup", "description"),
    [
        *(({"inline_keyboard": rows}, description) for rows, description in _KEYBOARDS),
        ("[1]", "object expected as reply markup"),
        ("{", "can't parse reply keyboard markup JSON object"),
    ],
)
async def test_keyboards_are_checked_like_the_platforms(
    server: BotApiServer,
    robin: Person,
    http: aiohttp.ClientSession,
    markup: Any,
    description: str,
) -> None:
    """Callback data is counted in bytes, and the structure has to be right."""
    params = {"chat_id": robin.chat_id, "text": "Ready?", "reply_markup": markup}
    answer = await ask(http, server, "sendMessage", **params)
    ok = description == "ok"
    assert answer == ((200, "ok") if ok else (400, f"Bad Request: {description}"))


async def test_edits_are_checked_like_the_platforms(
    server: BotApiServer, robin: Person, http: aiohttp.ClientSession
) -> None:
    """An edit has to change something in a message of the bot that is there."""
    markup = {"inline_keyboard": [[_BUTTON]]}
    chat = {"chat_id": robin.chat_id}
    await ask(http, server, "sendMessage", **chat, text="Ready?", reply_markup=markup)
    it = {**chat, "message_id": robin.last.message_id}

    async def edit(**params: Any) -> str:
        return (await ask(http, server, "editMessageText", **(it | params)))[1]

    unmodified = "Bad Request: message is not modified: specified new message content and reply"
    assert (await edit(text="Ready? ", reply_markup=markup)).startswith(unmodified)
    assert await edit(text="x" * 4097) == "Bad Request: MESSAGE_TOO_LONG"
    assert await edit(text="Hi", message_id=1) == "Bad Request: message to edit not found"
    own = robin.chat[0].message_id
    assert await edit(text="Hi", message_id=own) == "Bad Request: message can't be edited"
    assert await edit(text="Ready?") == "ok"
    status = await ask(http, server, "editMessageReplyMarkup", **it)
    assert status[1].startswith(unmodified)
    robin.deletes(it["message_id"])
    assert await edit(text="Hi") == "Bad Request: message to edit not found"
    gone = await ask(http, server, "deleteMessage", **it)
    assert gone == (400, "Bad Request: message to delete not found")


async def upload(
    http: aiohttp.ClientSession, server: BotApiServer, name: str, content: bytes, **params: str
) -> str:
    """Return what becomes of a photo or document uploaded under that name."""
    form = aiohttp.FormData({"chat_id": str(server.person().chat_id)} | params)
    form.add_field(name, content, filename="a.bin")
    url = f"{server.base_url}{server.token}/send{name.title()}"
    async with http.post(url, data=form) as response:
        body: Json = await response.json()
        return str(body.get("description", "ok"))


async def test_files_are_checked_like_the_platforms(
    server: BotApiServer, robin: Person, http: aiohttp.ClientSession
) -> None:
    """Captions have a limit, photos have to be pictures, and something has to be there."""
    assert await upload(http, server, "document", b"x", caption="y" * 1024) == "ok"
    long = await upload(http, server, "document", b"x", caption="y" * 1025)
    assert long == "Bad Request: message caption is too long"
    empty = await upload(http, server, "document", b"")
    assert empty == "Bad Request: file must be non-empty"
    text = await upload(http, server, "photo", b"no picture")
    assert text == "Bad Request: IMAGE_PROCESS_FAILED"
    with pytest.raises(ApiError, match="is too big for a photo"):
        measure_photo(bytes(MAX_PHOTO_BYTES + 1))
    chat = {"chat_id": robin.chat_id}
    none = await ask(http, server, "sendDocument", **chat)
    assert none == (400, "Bad Request: there is no document in the request")
    unknown = await ask(http, server, "sendPhoto", **chat, photo="AgACAgQ")
    assert unknown == (400, "Bad Request: wrong file identifier/HTTP URL specified")
    assert await ask(http, server, "getFile", file_id="x") == (400, "Bad Request: invalid file_id")


async def test_nobody_can_be_written_to_before_they_write(
    server: BotApiServer, http: aiohttp.ClientSession
) -> None:
    """A person the bot has not heard from is no chat yet; their first message opens it."""
    kim = server.person(5002, "Kim")
    params = {"chat_id": kim.chat_id, "text": "Hi"}
    assert await ask(http, server, "sendMessage", **params) == (400, "Bad Request: chat not found")
    kim.writes("/start")
    assert await ask(http, server, "sendMessage", **params) == (200, "ok")


async def test_markup_languages_are_refused_out_loud(
    server: BotApiServer, robin: Person, http: aiohttp.ClientSession
) -> None:
    """What this server does not do is 501, so that it cannot pass for the platform's answer."""
    params = {"chat_id": robin.chat_id, "text": "<b>Hi</b>", "parse_mode": "HTML"}
    status, _ = await ask(http, server, "sendMessage", **params)
    assert status == 501


@pytest.mark.parametrize(
    ("commands", "description"),
    [
        ([{"command": "stop", "description": "Stop"}], "ok"),
        ([{"command": "Stop", "description": "Stop"}], "Bad Request: BOT_COMMAND_INVALID"),
        ([{"command": "stop", "description": "x" * 257}],
         "Bad Request: BOT_COMMAND_DESCRIPTION_INVALID"),
        ([{"command": "stop", "description": "Stop"}] * 101, "Bad Request: BOT_COMMANDS_TOO_MUCH"),
        ({"command": "stop"}, "Bad Request: expected an Array of BotCommand"),
    ],
)  # fmt: skip
async def test_command_menus_are_checked(
    server: BotApiServer, http: aiohttp.ClientSession, commands: Any, description: str
) -> None:
    """Names, descriptions and number of the commands have limits."""
    answer = await ask(http, server, "setMyCommands", commands=commands)
    assert answer == (200 if description == "ok" else 400, description)


async def test_wrong_tokens_and_methods_are_turned_away(
    server: BotApiServer, http: aiohttp.ClientSession
) -> None:
    """A wrong token is 401, an unknown method 404, in the platform's error format."""
    assert await ask(http, server, "sendDance") == (404, "Not Found: method not found")
    for path in ("/bot1:wrong/getMe", "/file/bot1:wrong/documents/file_1.csv"):
        async with http.get(server.url + path) as response:
            assert response.status == 401
            unauthorised = {"ok": False, "error_code": 401, "description": "Unauthorized"}
            assert await response.json() == unauthorised
    async with http.get(f"{server.base_file_url}{server.token}/documents/none.csv") as response:
        assert response.status == 404


async def test_a_tap_too_old_cannot_be_answered(
    server: BotApiServer, robin: Person, http: aiohttp.ClientSession
) -> None:
    """Taps can be made to expire."""
    markup = {"inline_keyboard": [[_BUTTON]]}
    params = {"chat_id": robin.chat_id, "text": "Ready?", "reply_markup": markup}
    await ask(http, server, "sendMessage", **params)
    query_id = robin.taps("Yes")
    server.expire_callback_queries()
    status, description = await ask(http, server, "answerCallbackQuery", callback_query_id=query_id)
    assert status == 400
    assert "query is too old and response timeout expired" in description
    assert robin.toasts == ()


async def test_a_tap_finds_the_latest_button_and_says_so_if_there_is_none(
    server: BotApiServer, robin: Person, http: aiohttp.ClientSession
) -> None:
    """Label or data will do; a missing button fails with what the chat holds."""
    for step in ("s1", "s2"):
        button = {"text": "Yes", "callback_data": f"{step}:yes"}
        params = {"chat_id": robin.chat_id, "text": step}
        markup = {"inline_keyboard": [[button]]}
        await ask(http, server, "sendMessage", **params, reply_markup=markup)
    server.account.updates.clear()
    robin.taps("Yes")
    robin.taps("s1:yes")
    taken = server.account.updates.take(0, 100)
    assert [update.payload["data"] for update in taken] == ["s2:yes", "s1:yes"]
    with pytest.raises(AssertionError, match=r"no button 'No'\n(?s:.*)buttons: Yes"):
        robin.taps("No")


async def test_people_cannot_do_the_impossible(server: BotApiServer, robin: Person) -> None:
    """Blocking twice, writing while blocking, an empty text: a fault of the test, and told so."""
    robin.blocks()
    with pytest.raises(AssertionError, match="has blocked the bot"):
        robin.writes("Hello")
    with pytest.raises(AssertionError, match="nothing to block"):
        robin.blocks()
    robin.unblocks()
    with pytest.raises(AssertionError, match="empty text"):
        robin.writes(" ")
    with pytest.raises(AssertionError, match="said nothing to Robin"):
        _ = robin.last
    assert server.person(robin.chat_id).chat == robin.chat
