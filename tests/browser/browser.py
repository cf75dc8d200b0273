# SPDX-License-Identifier: MIT
"""A headless Chromium for tests: what it was asked to show, what it complained of, what it asked the network for."""
import base64
import json
import os
import time

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

FLAGS = ["--headless", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync", "--hide-scrollbars"]


class Browser:
    def __init__(self, profile):
        options = webdriver.ChromeOptions()
        options.binary_location = "/usr/bin/chromium"
        for flag in FLAGS + ["--user-data-dir=" + profile]:
            options.add_argument(flag)
        if os.geteuid() == 0:
            options.add_argument("--no-sandbox")
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        self.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        self.driver.set_script_timeout(600)  # seconds; a busy machine is slow

    def show(self, path, width=1280, height=900, dark=False):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
            "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600})
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {
            "features": [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]})
        self.driver.get("about:blank")
        self.complaints()
        self.requests()
        self.driver.get("file://" + os.path.abspath(path))
        time.sleep(0.2)

    def script(self, text, *arguments):
        return self.driver.execute_script(text, *arguments)

    def complaints(self):
        """What the console has said since it was last asked."""
        return [entry["message"] for entry in self.driver.get_log("browser")]

    def requests(self):
        """The addresses asked for since the last time, but for what is inside the page itself."""
        found = []
        for entry in self.driver.get_log("performance"):
            message = json.loads(entry["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                found.append(message["params"]["request"]["url"])
        return [url for url in found if not url.startswith(("data:", "about:", "chrome:"))]

    def picture(self, path, whole=False):
        options = {"captureBeyondViewport": whole}
        if whole:
            size = self.driver.execute_cdp_cmd("Page.getLayoutMetrics", {})["cssContentSize"]
            options["clip"] = {"x": 0, "y": 0, "width": size["width"], "height": size["height"], "scale": 1}
        data = self.driver.execute_cdp_cmd("Page.captureScreenshot", options)["data"]
        with open(path, "wb") as file:
            file.write(base64.b64decode(data))

    def pdf(self, paper=(8.27, 11.69)):
        return base64.b64decode(self.driver.execute_cdp_cmd("Page.printToPDF", {
            "paperWidth": paper[0], "paperHeight": paper[1], "preferCSSPageSize": False})["data"])

    def quit(self):
        self.driver.quit()
