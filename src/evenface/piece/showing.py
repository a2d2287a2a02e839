"""Values as they are shown in a complaint."""


def shown(given: object) -> str:
    """A value as written in a complaint, never longer than a line."""
    if given is None:
        return "nothing"
    if isinstance(given, int) and not isinstance(given, bool) and abs(given) > 10**15:
        return "a number of far too many digits"
    try:
        text = repr(given)
    except ValueError:  # a list that holds a number of too many digits
        text = "numbers of far too many digits"
    return text if len(text) <= 60 else text[:57] + "..."
