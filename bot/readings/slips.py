"""What one slip of a finger makes of a word or a number."""


def slip(old: str, new: str) -> bool:
    """Return whether one slip of a finger makes one text the other.

    That is a character changed, added or left out, or two neighbours that changed places.
    """
    if old == new:
        return False
    if len(old) == len(new):
        wrong = [i for i in range(len(old)) if old[i] != new[i]]
        turned = len(wrong) == 2 and wrong[1] == wrong[0] + 1
        return len(wrong) == 1 or (
            turned and (old[wrong[0]], old[wrong[1]]) == (new[wrong[1]], new[wrong[0]])
        )
    short, long = sorted((old, new), key=len)
    return len(long) == len(short) + 1 and any(
        long[:i] + long[i + 1 :] == short for i in range(len(long))
    )
