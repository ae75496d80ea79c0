"""How far long work is, for whoever looks at the terminal."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def progress(what: str, total: int | None = None) -> Iterator[Callable[[int], None]]:
    """Show a bar on standard error, if somebody can see it; else nothing.

    Args:
        what: The work, as one word.
        total: How many steps it has; `None` where nobody knows.

    Yields:
        What is told how many steps more are done.
    """
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    console = Console(stderr=True)
    seen = console.is_terminal
    with Progress(*columns, console=console, transient=True, disable=not seen) as shown:
        task = shown.add_task(what, total=total)
        yield lambda more: shown.advance(task, more)
