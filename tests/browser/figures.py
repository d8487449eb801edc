"""Figures on a picture beside the JSON of the same command line.

A text of a picture that carries `data-json` shows the value that this pointer (RFC 6901) finds.
"""

import math
import re

KILOGRAM_OF_POUND = 0.45359237
NEWTON_OF_POUND = 4.4482216152605
PASCAL_OF_PSI = 6894.757293168

# One of the unit, in what the JSON counts in. Bare numbers (notches, counts, points) count as they
# are; a value whose name ends on `_g` counts in g.
UNITS = {
    "": 1.0, "notches": 1.0, "notch": 1.0, "points": 1.0, "laps": 1.0, "lap": 1.0, "runs": 1.0,
    "m": 1.0, "mm": 1e-3, "cm": 1e-2, "in": 0.0254, "ft": 0.3048,
    "kg": 1.0, "lb": KILOGRAM_OF_POUND,
    "N": 1.0, "kN": 1e3, "lbf": NEWTON_OF_POUND,
    "deg": math.pi / 180.0, "°": math.pi / 180.0, "%": 1e-2,
    "Pa": 1.0, "kPa": 1e3, "bar": 1e5, "psi": PASCAL_OF_PSI,
    "s": 1.0, "min": 1.0, "h": 1.0, "g": 1.0,
}

_NUMBER = re.compile(r"([+\-\u2212]?)(?:(\d+) (\d+)/(\d+)|(\d+)/(\d+)|(\d+(?:\.(\d*))?))\s*(.*)",
                     re.S)


class NoSuchValue(Exception):
    """A pointer that finds nothing."""


def at_pointer(document, pointer):
    """RFC 6901. Throws NoSuchValue."""
    if pointer and not pointer.startswith("/"):
        raise NoSuchValue(f"`{pointer}` is no pointer")
    here = document
    for part in pointer.split("/")[1:]:
        key = part.replace("~1", "/").replace("~0", "~")
        if isinstance(here, dict) and key in here:
            here = here[key]
        elif isinstance(here, list) and re.fullmatch(r"0|[1-9]\d*", key) and int(key) < len(here):
            here = here[int(key)]
        else:
            raise NoSuchValue(f"`{pointer}` finds nothing at `{key}`")
    return here


def number_of(text):
    """Value, half of its last place and unit of "1360 mm", "53 1/2 in" or "+0.3"; or None."""
    found = _NUMBER.fullmatch(text.strip())
    if not found:
        return None
    sign, whole, over, under, top, bottom, plain, places, unit = found.groups()
    if plain is not None:
        value, half = float(plain), 0.5 * 10.0 ** -len(places or "")
    elif whole is not None:
        value, half = int(whole) + int(over) / int(under), 1e-4
    else:
        value, half = int(top) / int(bottom), 1e-4
    return (-value if sign in ("-", "\u2212") else value), half, unit.strip()


def difference(text, value):
    """What is wrong with a text that should show `value`; empty where it does."""
    if isinstance(value, str):
        return "" if text.strip() == value else f"`{text}` where the JSON has `{value}`"
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return f"`{text}` points at {type(value).__name__}, which is no figure"
    read = number_of(text)
    if read is None:
        return f"`{text}` is no number with a unit"
    shown, half, unit = read
    if unit not in UNITS:
        return f"`{text}` is in an unknown unit"
    should = value / UNITS[unit]
    if abs(shown - should) > half * (1.0 + 1e-6) + 1e-9 * abs(should):
        return f"`{text}` where the JSON has {should:.6g} {unit}".rstrip()
    return ""


def wrong_figures(figures, document):
    """`figures`: pairs of text and pointer, as they stand on the sheet."""
    for text, pointer in figures:
        try:
            found = difference(text, at_pointer(document, pointer))
        except NoSuchValue as error:
            found = str(error)
        if found:
            yield f"{pointer}: {found}"
