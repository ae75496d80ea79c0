"""Logs: what happened, by ids and names of types. Never words, readings, chat ids or tokens."""

import logging
import sys

import structlog

_LOUD = ("httpx", "httpcore", "telegram", "apscheduler", "alembic", "sqlalchemy", "asyncio")


def configure_logs(*, quiet: bool = False) -> None:
    """Write our own logs as JSON lines to standard error, and silence those of libraries.

    The HTTP library would write the bot's token with every address, at INFO.
    """
    for name in _LOUD:
        # Above the highest: one of them writes what people said, at CRITICAL.
        logging.getLogger(name).setLevel(logging.CRITICAL + 1)
    level = logging.CRITICAL if quiet else logging.INFO
    structlog.configure(
        processors=[
            structlog.contextvars.merge_contextvars,
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            _error_name_only,
            structlog.processors.JSONRenderer(sort_keys=True),
        ],
        wrapper_class=structlog.make_filtering_bound_logger(level),
        logger_factory=structlog.PrintLoggerFactory(sys.stderr),
        cache_logger_on_first_use=False,
    )


def _error_name_only(
    _logger: object, _name: str, fields: structlog.typing.EventDict
) -> structlog.typing.EventDict:
    """Keep the type of an exception and where it was raised, but not its words."""
    if fields.pop("exc_info", None):
        error = sys.exc_info()[1]
        fields["error"] = type(error).__name__
        traceback = error.__traceback__ if error else None
        while traceback is not None and traceback.tb_next is not None:
            traceback = traceback.tb_next
        if traceback is not None:
            code = traceback.tb_frame.f_code
            fields["raised_in"] = f"{code.co_qualname}:{traceback.tb_lineno}"
    return fields
