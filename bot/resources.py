"""Where the files are that ship beside the code: catalogues and demo scripts.

In a checkout they stand at the top level; in an installed wheel, under `bot/_shipped`.
"""

from pathlib import Path
from typing import Final

_PACKAGE: Final = Path(__file__).parent


def shipped(name: str) -> Path:
    """Return the folder of that name (`locales` or `demo_scripts`).

    Raises:
        FileNotFoundError: The installation is incomplete.
    """
    for root in (_PACKAGE / "_shipped", _PACKAGE.parent):
        if (root / name).is_dir():
            return root / name
    raise FileNotFoundError(f"Wallside is installed without its folder {name!r}; install it again.")
