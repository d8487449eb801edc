"""A headless Chromium, by its own driver. Nothing is fetched: the browser is offline."""

import base64
import contextlib
import json
import os
import queue
import shutil
import subprocess
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

MEASURE = (Path(__file__).parent / "measure.js").read_text(encoding="utf-8")
PAPER = {"A4": (210 / 25.4, 297 / 25.4), "Letter": (8.5, 11.0)}  # inches


def _tool(variable, *names):
    found = os.environ.get(variable) or next(filter(None, map(shutil.which, names)), None)
    if not found:
        raise SystemExit(f"browser.sh: none of {', '.join(names)} is here; {variable} may name it")
    return found


def pages_of(pdf):
    """How many pages a PDF has, by poppler."""
    told = subprocess.run(["pdfinfo", "-"], input=pdf, capture_output=True, check=True).stdout
    return int(next(line.split()[1] for line in told.splitlines() if line.startswith(b"Pages:")))


class Window:
    def __init__(self):
        options = Options()
        options.binary_location = _tool("CHROMIUM", "chromium", "chromium-browser", "google-chrome")
        arguments = ["--headless=new", "--disable-gpu", "--disable-dev-shm-usage",
                     "--hide-scrollbars", "--force-color-profile=srgb",
                     "--font-render-hinting=none", "--disable-background-networking"]
        if os.geteuid() == 0:
            arguments.append("--no-sandbox")
        for each in arguments:
            options.add_argument(each)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        options.set_capability("unhandledPromptBehavior", "ignore")
        self._driver = webdriver.Chrome(service=Service(_tool("CHROMEDRIVER", "chromedriver")),
                                        options=options)
        self._driver.set_page_load_timeout(20)
        self.command("Network.enable")
        self.command("Network.emulateNetworkConditions", offline=True, latency=0,
                     downloadThroughput=-1, uploadThroughput=-1)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._driver.quit()

    def command(self, name, **parameters):
        return self._driver.execute_cdp_cmd(name, parameters)

    def size(self, width, height, scale=1):
        self.command("Emulation.setDeviceMetricsOverride", width=width, height=height,
                     deviceScaleFactor=scale, mobile=False)

    def scheme(self, name):
        """`light` or `dark`."""
        self.command("Emulation.setEmulatedMedia",
                     features=[{"name": "prefers-color-scheme", "value": name}])

    def scripts(self, wanted):
        self.command("Emulation.setScriptExecutionDisabled", value=not wanted)

    def open(self, url):
        """What the console said, which dialogs came and what was asked for while it opened."""
        self._driver.get_log("browser")
        self._driver.get_log("performance")
        self._driver.get(url)

    def evaluate(self, script):
        found = self.command("Runtime.evaluate", expression=script, returnByValue=True)
        if "exceptionDetails" in found:
            raise RuntimeError(found["exceptionDetails"])
        return found["result"].get("value")

    def measure(self):
        return self.evaluate(MEASURE)

    def console(self):
        return [f"{each['level']}: {each['message']}" for each in self._driver.get_log("browser")]

    def events(self):
        """Of the browser since the last time, as (name, parameters)."""
        for each in self._driver.get_log("performance"):
            message = json.loads(each["message"])["message"]
            yield message["method"], message.get("params", {})

    def pdf(self, paper):
        width, height = PAPER[paper]
        told = self.command("Page.printToPDF", paperWidth=width, paperHeight=height,
                            printBackground=True, preferCSSPageSize=False)
        return base64.b64decode(told["data"])

    def picture(self, whole=True):
        """PNG of the page as it is shown; the whole of it, or what the window holds."""
        told = self.command("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        return base64.b64decode(told["data"])


class Windows:
    """A window a core."""

    def __init__(self):
        self._count = max(1, min(os.cpu_count() or 1, 4))
        self._free = queue.SimpleQueue()
        self._stack = contextlib.ExitStack()

    def __enter__(self):
        for _ in range(self._count):
            self._free.put(self._stack.enter_context(Window()))
        return self

    def __exit__(self, *_):
        self._stack.close()

    def each(self, work, jobs):
        """`work(window, job)` of all jobs, in their order."""
        def one(job):
            window = self._free.get()
            try:
                return work(window, job)
            finally:
                self._free.put(window)

        with ThreadPoolExecutor(self._count) as pool:
            return list(pool.map(one, jobs))
