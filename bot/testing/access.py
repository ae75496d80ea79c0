"""Who may do what, as a table: DEVELOPERS.md prints it, and a test holds the page to it."""

from bot.care.roles import MAY, ROOM, Action, Role


def markdown() -> str:
    """Return the access table as Markdown: a row an action, a column a role.

    A dot is a yes. The last column says what is done in a group's chat, whoever types there.
    """
    roles = tuple(Role)
    lines = [
        f"| action | {' | '.join(roles)} | in a group |",
        f"|---|{'---|' * (len(roles) + 1)}",
    ]
    for action in Action:
        cells = ["•" if action in MAY[role] else " " for role in roles]
        room = "•" if action in ROOM else " "
        lines.append(f"| {action} | {' | '.join(cells)} | {room} |")
    return "\n".join(lines)
