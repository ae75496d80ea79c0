"""Figures of a running program, for Prometheus. Counts and times only: nothing of any person."""

import time
from collections.abc import Mapping
from datetime import timedelta
from typing import Final

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, generate_latest
from prometheus_client.exposition import CONTENT_TYPE_LATEST

from bot.engine.effects import Urgency
from bot.runtime.ports import Delivery

CONTENT_TYPE: Final = CONTENT_TYPE_LATEST
"""Prometheus' text format."""

_SECONDS: Final = (0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 30.0, 60.0)


class Metrics:
    """Counts what happens. Each program has one."""

    def __init__(self) -> None:
        self._registry = CollectorRegistry()
        self._arrivals = Counter(
            "wallside_arrivals", "Arrivals taken, by kind", ["kind"], registry=self._registry
        )
        self._lateness = Histogram(
            "wallside_prompt_lateness_seconds",
            "From when a conversation was due to its step being durable",
            buckets=_SECONDS,
            registry=self._registry,
        )
        self._deliveries = Counter(
            "wallside_deliveries",
            "Tries to send, by urgency and what became of them",
            ["urgency", "outcome"],
            registry=self._registry,
        )
        self._sending = Histogram(
            "wallside_sending_seconds",
            "How long one try to send takes",
            ["urgency"],
            buckets=_SECONDS,
            registry=self._registry,
        )
        self._given_up = Counter(
            "wallside_given_up", "Messages given up", ["urgency"], registry=self._registry
        )
        self._waiting = Gauge(
            "wallside_outbox_waiting", "Messages that wait", ["urgency"], registry=self._registry
        )

        self._leads = Gauge(
            "wallside_leading", "Whether this process sends and keeps time", registry=self._registry
        )
        self._store_answers = Gauge(
            "wallside_store_answers", "Whether the store answers", registry=self._registry
        )
        self._conflicts = Counter(
            "wallside_conflicts",
            "Units of work that others were in the way of",
            registry=self._registry,
        )
        self._left_out = Counter(
            "wallside_edits_left_out",
            "Edits that only show how far a clock has run, not sent for want of allowance",
            registry=self._registry,
        )
        self._turned_away = Counter(
            "wallside_turned_away", "Arrivals too many of one chat", registry=self._registry
        )

    def led(self, *, leads: bool) -> None:
        """This process leads, or no longer does."""
        self._leads.set(leads)

    def conflicted(self) -> None:
        """Others were in the way of a unit of work."""
        self._conflicts.inc()

    def left_out(self) -> None:
        """An edit that is only nice to see was not sent."""
        self._left_out.inc()

    def turned_away(self) -> None:
        """An arrival was not taken, since too many came from its chat."""
        self._turned_away.inc()

    def arrived(self, kind: str) -> None:
        """An arrival was taken."""
        self._arrivals.labels(kind).inc()

    def woken(self, late: timedelta) -> None:
        """A conversation that was due has been gone on with."""
        self._lateness.observe(max(late.total_seconds(), 0.0))

    def tried(self, urgency: Urgency, delivery: Delivery, took: timedelta) -> None:
        """A message was tried."""
        self._deliveries.labels(_name(urgency), type(delivery).__name__.lower()).inc()
        self._sending.labels(_name(urgency)).observe(took.total_seconds())

    def gave_up(self, urgency: Urgency) -> None:
        """A message was given up."""
        self._given_up.labels(_name(urgency)).inc()

    def text(self, waiting: Mapping[Urgency, int] | None) -> bytes:
        """Return all figures in Prometheus' text format.

        Args:
            waiting: How many messages wait, by urgency; `None` when the store does not say.
        """
        self._store_answers.set(waiting is not None)
        for urgency in Urgency:
            if waiting is not None:
                self._waiting.labels(_name(urgency)).set(waiting.get(urgency, 0))
        return generate_latest(self._registry)


class Pulse:
    """Knows whether something has happened lately."""

    def __init__(self, within: timedelta = timedelta(seconds=90)) -> None:
        self._within = within.total_seconds()
        self._last = time.monotonic()

    def beat(self) -> None:
        """It has happened."""
        self._last = time.monotonic()

    def lately(self) -> bool:
        """Return whether it has happened within the time that was given, or the start was."""
        return time.monotonic() - self._last < self._within


def _name(urgency: Urgency) -> str:
    return urgency.name.lower()
