"""All that a sheet must be. `faults_of` names what it is not, in groups."""

from figures import wrong_figures
from markup import markup_faults, script_faults, size_faults, way_out_faults
from window import pages_of

PHONES = (360, 320)
GROUPS = ("markup", "scripts", "ways out", "size", "console", "requests", "sideways", "paper",
          "letters", "broken words", "contrast", "without scripts", "figures")

_STANDING = {"markup": markup_faults, "scripts": script_faults, "ways out": way_out_faults,
             "size": size_faults}


def _told(window, url):
    """What the console said, and what was asked for beside the file itself, in two lists."""
    asked, dialogs = [], []
    for name, more in window.events():
        if name == "Network.requestWillBeSent" and more["request"]["url"] != url:
            asked.append(more["request"]["url"][:120])
        if name == "Page.javascriptDialogOpening":
            dialogs.append(f"a dialog: {more.get('message', '')[:60]}")
    return window.console() + dialogs, asked


def _at_phones(window):
    """Groups and faults of the page at its least widths."""
    for width in PHONES:
        window.size(width, 740)
        seen = window.measure()
        if seen["width"] != width:
            yield "sideways", f"{seen['width']} px wide where the window is {width}"
        if seen["scrolls"] > 0:
            names = "; ".join(seen["wide"][-3:])
            yield "sideways", f"{seen['scrolls']} px too wide at {width} px: {names}"
        for group, key in (("letters", "letters"), ("broken words", "broken")):
            if key == "broken" and width < PHONES[0]:
                continue  # the least phone only has to be read without scrolling sideways
            yield from ((group, f"at {width} px: {each}") for each in seen[key])


def _in_the_dark(window):
    window.scheme("dark")
    dark = window.measure()
    window.scheme("light")
    if not dark["dark"]:
        yield "contrast", "the browser did not go dark"
    yield from (("contrast", f"dark: {each}") for each in dark["faint"])


def _paper(window):
    for paper in ("A4", "Letter"):
        pages = pages_of(window.pdf(paper))
        if pages != 1:
            yield "paper", f"{pages} pages of {paper}"


def _without_scripts(window, url, words):
    window.scripts(False)
    window.open(url)
    if window.evaluate("document.body.innerText") != words:
        yield "without scripts", "the words are others where scripts are off"
    window.scripts(True)


def _as_opened(window, sheet, seen):
    console, asked = _told(window, sheet.url)
    yield from (("console", each) for each in console)
    yield from (("requests", each) for each in asked)
    if seen["texts"] == 0:
        yield "markup", "nothing is shown"
    yield from (("letters", f"at 1280 px: {each}") for each in seen["letters"])
    yield from (("contrast", f"light: {each}") for each in seen["faint"])
    yield from (("figures", each) for each in wrong_figures(seen["figures"], sheet.json))


def _in_window(window, sheet, groups):
    """Groups and faults of one sheet as the browser shows it."""
    window.size(1280, 900)
    window.open(sheet.url)
    seen = window.measure()
    yield from _as_opened(window, sheet, seen)
    if "paper" in groups:
        yield from _paper(window)
    if "contrast" in groups:
        yield from _in_the_dark(window)
    if "without scripts" in groups:
        yield from _without_scripts(window, sheet.url, seen["words"])
    if {"sideways", "letters", "broken words"} & set(groups):
        yield from _at_phones(window)


def faults_of(window, sheet, groups=GROUPS):
    """Each fault as (group, what was found); `groups` are those that are looked for."""
    for group, check in _STANDING.items():
        if group in groups:
            yield from ((group, each) for each in check(sheet.html))
    if not set(groups) <= set(_STANDING):
        yield from _in_window(window, sheet, groups)
