"""Who may do what: one table, which the documents print and a test walks."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import Final


class Role(StrEnum):
    """What somebody is to the clinic."""

    STRANGER = "stranger"
    PATIENT = "patient"
    COMPANION = "companion"
    COORDINATOR = "coordinator"
    CLINICIAN = "clinician"
    OPERATOR = "operator"  # whoever runs the program, at its command line


class Action(StrEnum):
    """Something that somebody does."""

    # a person's own
    SEE_OWN_RESULTS = "see-own-results"
    SEND_RESULT = "send-result"
    SET_SHARING = "set-sharing"
    HEAR_ALARMS_OF_LINKED = "hear-alarms-of-linked"
    # the team's
    HEAR_TEAM_ALARMS = "hear-team-alarms"
    SEE_INBOX = "see-inbox"
    OPEN_RESULT = "open-result"
    TAKE_ITEM = "take-item"
    LET_GO_ITEM = "let-go-item"
    HAND_OVER_ITEM = "hand-over-item"
    CLOSE_ITEM = "close-item"
    SET_DUTY = "set-duty"
    SEE_TEAM = "see-team"
    LEAVE_TEAM = "leave-team"
    CLEAR_PERSON = "clear-person"
    ADD_MEMBER = "add-member"
    REMOVE_MEMBER = "remove-member"
    READ_AUDIT = "read-audit"
    # inviting
    INVITE = "invite"
    SEE_INVITATIONS = "see-invitations"
    REVOKE_INVITATION = "revoke-invitation"
    # people, and what is sent to them
    SEE_BOARD = "see-board"
    SET_DIGEST = "set-digest"
    SEE_PERSON = "see-person"
    NUDGE_PERSON = "nudge-person"
    WRITE_TO_PERSON = "write-to-person"
    ASK_REPEAT = "ask-repeat"
    CLOSE_PERSON = "close-person"
    SET_PROTOCOL = "set-protocol"
    SET_PLAN = "set-plan"
    EXPORT = "export"


TEAM: Final = frozenset({Role.COORDINATOR, Role.CLINICIAN})
"""The roles that are had by joining with a code."""

_OWN: Final = frozenset({Action.SEE_OWN_RESULTS, Action.SEND_RESULT, Action.SET_SHARING})
_COORDINATOR: Final = frozenset({
    Action.HEAR_TEAM_ALARMS, Action.SEE_INBOX, Action.OPEN_RESULT, Action.TAKE_ITEM,
    Action.LET_GO_ITEM, Action.HAND_OVER_ITEM, Action.CLOSE_ITEM, Action.SET_DUTY,
    Action.SEE_TEAM, Action.LEAVE_TEAM,
    Action.SEE_BOARD, Action.SET_DIGEST, Action.SEE_PERSON, Action.NUDGE_PERSON,
    Action.WRITE_TO_PERSON, Action.ASK_REPEAT, Action.CLOSE_PERSON,
    Action.EXPORT,
})  # fmt: skip
_INVITES: Final = frozenset({Action.INVITE, Action.SEE_INVITATIONS, Action.REVOKE_INVITATION})
_SETS_TESTS: Final = frozenset({Action.SET_PROTOCOL, Action.SET_PLAN})
_RUNS_THE_TEAM: Final = frozenset({Action.CLEAR_PERSON, Action.ADD_MEMBER, Action.REMOVE_MEMBER})

MAY: Final[Mapping[Role, frozenset[Action]]] = MappingProxyType({
    Role.STRANGER: frozenset(),
    Role.PATIENT: _OWN,
    Role.COMPANION: frozenset({Action.HEAR_ALARMS_OF_LINKED}),
    Role.COORDINATOR: _COORDINATOR | _INVITES,
    Role.CLINICIAN: _COORDINATOR | _INVITES | _SETS_TESTS | _RUNS_THE_TEAM,
    Role.OPERATOR: _RUNS_THE_TEAM
    | _INVITES
    | {Action.SEE_TEAM, Action.READ_AUDIT, Action.EXPORT, Action.SEE_BOARD},
})  # fmt: skip
"""What each role may do; a design choice for each clinic to sign off.

To clear somebody for a test, and to set its protocol or a medicine plan, are clinical decisions;
who is in the team decides who sees results. All these are a clinician's; clearing and the team are
the operator's as well. A coordinator may export a person: they can
open each result as it is, and the file for the record is their work. Many people at once are the
operator's, who opens no result but hands over files, each time with lines in the log.
"""

ROOM: Final = frozenset({Action.HEAR_TEAM_ALARMS, Action.SEE_INBOX, Action.SEE_BOARD})
"""What is done in a group's chat, whoever types: references, priorities and reasons, no more."""


def may(role: Role, action: Action) -> bool:
    """Whether somebody of that role may do it."""
    return action in MAY[role]
