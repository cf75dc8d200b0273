# SPDX-License-Identifier: MIT
"""form_pages.py PROGRAM SCRATCH: types a batch into its form, 380 px wide and with touch, and screens what comes of it."""
import csv
import os
import pathlib
import shutil
import subprocess
import sys
import time

from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

from browser import Browser

PROGRAM, SCRATCH = sys.argv[1], pathlib.Path(sys.argv[2])
DAY = "2026-11-30"
failures = 0


def expect(is_so, words):
    global failures
    if not is_so:
        failures += 1
        print("FAILED:", words)


def run(*words, status=(0,)):
    done = subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, check=False)
    expect(done.returncode in status, f"{words} ended with {done.returncode}: {done.stderr}")
    return done.stdout


HOSTILE = "<img src=x onerror=alert(1)>"
# name, pump, calibrator, pre, post, warm-up, stop, fault
RECORDS = [
    ("TF48A-1", "PUMP-01", "ROT-1", ["1.86", "1.85", "1.86"], ["1.84", "1.85", "1.84"], "20", "14:30", False),
    ("TF48A-2", "PUMP-02", "VOL-1", ["2.003", "2.001", "1.999"], ["1.801", "1.803", "1.799"], "20", "14:31", False),
    ("TF48A-3", "PUMP-03", "VOL-1", ["2.213", "2.215", "2.211"], ["2.201", "2.203", "2.205"], "20", "14:32", False),
    ("TF48A-4", "PUMP-04", "MASS-1", ["1.602", "1.604", "1.603"], ["1.600", "1.601", "1.599"], "5", "14:33", False),
    ("TF48A-5", "PUMP-05", "BUB-1", ["2.004", "2.002", "2.005"], ["2.000", "1.998", "2.001"], "20", "14:34", True),
    (HOSTILE, "PUMP-06", "VOL-1", ["2.001", "2.003", "2.002"], ["1.999", "1.998", "1.997"], "20", "09:00", False),
]
BETWEEN, BETWEEN_READ = 2, ["2.207", "2.205"]  # the record that was read in between, too
SAMPLER, METHOD, ANALYSIS = "respirable-parallel-impactor", "site method 7", "respirable dust and quartz"


ASKS_FOR_MORE = """
[[rule]]
id = "vacuum"
of = "sample"
measure = "vacuum"
more_than = "17 inHg"
otherwise = "qualify"
absent = "skip"
reason = "An orifice that is not choked lets another flow through."
source = "made up for this test"
standing = "house"
[[rule.example]]
given = { vacuum = "17.1 inHg" }
gives = "valid"
[[rule.example]]
given = { vacuum = "17 inHg" }
gives = "qualified"

[[rule]]
id = "leak"
of = "sample"
measure = "leak"
less_than = "80 mL/min"
otherwise = "qualify"
absent = "skip"
reason = "What leaks in was never on the filter."
source = "made up for this test"
standing = "house"
[[rule.example]]
given = { leak = "79 mL/min" }
gives = "valid"
[[rule.example]]
given = { leak = "80 mL/min" }
gives = "qualified"

[[rule]]
id = "interruptions"
of = "sample"
measure = "interruptions"
at_most = 10
otherwise = "qualify"
absent = "skip"
reason = "Each of them hides something."
source = "made up for this test"
standing = "house"
[[rule.example]]
given = { interruptions = 10 }
gives = "valid"
[[rule.example]]
given = { interruptions = 11 }
gives = "qualified"
"""


def book(name):
    folder = SCRATCH / name
    shutil.copytree("docs/demo", folder)
    with open(folder / "plan.csv", "w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["sample", "batch", "kind", "pump", "sampler", "method", "analysis", "medium", "day", "calibrator"])
        for sample, pump, calibrator, *_ in RECORDS:
            rows.writerow([sample, "TF48A", "", pump, SAMPLER, METHOD, ANALYSIS, "", DAY, calibrator])
        rows.writerow(["TF48A-B1", "TF48A", "blank", "", SAMPLER, METHOD, ANALYSIS, "C-9", DAY, ""])
    with open(folder / "house.toml", "a", encoding="utf-8") as file:
        file.write(ASKS_FOR_MORE)
    return folder


def by_hand(folder):
    """The same records, as one would write them into the book."""
    with open(folder / "samples" / "hand.csv", "w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["sample", "batch", "kind", "pump", "sampler", "method", "analysis", "started", "stopped", "paused [min]",
                       "warm-up [min]", "vacuum [kPa]", "leak [L/min]", "interruptions", "temperature [°C]", "pressure [kPa]", "fault"])
        for sample, pump, _, _, _, warm_up, stop, fault in RECORDS:
            rows.writerow([sample, "TF48A", "sample", pump, SAMPLER, METHOD, ANALYSIS, f"{DAY}T06:30", f"{DAY}T{stop}", "10",
                           warm_up, "60.5", "0.05", "2", "12", "84.6", "yes" if fault else "no"])
        rows.writerow(["TF48A-B1", "TF48A", "blank", "", SAMPLER, METHOD, ANALYSIS, f"{DAY}T06:15", f"{DAY}T14:40"] + 8 * [""])
    with open(folder / "readings" / "hand.csv", "w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["taken", "stage", "sample", "calibrator", "reading [L/min]", "temperature [°C]", "pressure [kPa]",
                       "humidity [%]", "replicate"])
        for sample, _, calibrator, pre, post, _, stop, _ in RECORDS:
            for stage, at, figures in (("pre", "06:00", pre), ("post", after(stop), post)):
                for number, figure in enumerate(figures, 1):
                    rows.writerow([f"{DAY}T{at}", stage, sample, calibrator, figure, "15", "84.5",
                                   "40" if calibrator == "BUB-1" else "", number])
            if sample == RECORDS[BETWEEN][0]:
                for number, figure in enumerate(BETWEEN_READ, 1):
                    rows.writerow([f"{DAY}T10:00", "field", sample, calibrator, figure, "15", "84.5", "", number])


def after(stop):
    return f"{int(stop[:2]):02}:{int(stop[3:]) + 20:02}"


class Form:
    """A form on a telephone."""

    def __init__(self, page, profile, downloads):
        self.browser = Browser(str(profile))
        self.driver = self.browser.driver
        self.driver.execute_cdp_cmd("Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": str(downloads)})
        self.driver.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": True, "maxTouchPoints": 5})
        self.browser.show(str(page), width=380, height=780)

    def tap(self, element):
        """With a finger: a touch in the middle of the element."""
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", element)
        time.sleep(0.02)
        box = self.driver.execute_script("const b = arguments[0].getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height / 2]", element)
        at = [{"x": box[0], "y": box[1]}]
        self.driver.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": at})
        self.driver.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    def sample(self, number):
        part = self.driver.find_elements(By.CSS_SELECTOR, "details.sample")[number]
        if part.get_attribute("open") is None:
            self.tap(part.find_element(By.TAG_NAME, "summary"))
            time.sleep(0.1)
        expect(part.get_attribute("open") is not None, f"sample {number} did not open by a touch")
        return part

    def field(self, part, label):
        labels = [each for each in part.find_elements(By.TAG_NAME, "label") if each.text == label]
        return self.driver.find_element(By.ID, labels[0].get_attribute("for"))

    def reach(self, element, label):
        """Taps a field until the page has made a click of the touch and given it the focus."""
        self.driver.execute_script(
            "const field = arguments[0]; delete field.dataset.tapped;"
            "field.addEventListener('click', () => { field.dataset.tapped = 'yes'; }, {once: true})", element)
        self.tap(element)
        for _ in range(200):
            if self.driver.execute_script(
                    "return document.activeElement === arguments[0] && arguments[0].dataset.tapped === 'yes'", element):
                return
            time.sleep(0.05)
        expect(False, f"a touch does not reach {label}")

    def type(self, part, label, text):
        element = self.field(part, label)
        if element.get_attribute("type") == "datetime-local" or element.tag_name == "select":
            self.driver.execute_script(
                "arguments[0].value = arguments[1]; arguments[0].dispatchEvent(new Event('change', {bubbles: true}))", element, text)
            return
        self.reach(element, label)
        self.driver.switch_to.active_element.send_keys(text)
        self.driver.switch_to.active_element.send_keys(Keys.TAB)
        now = self.driver.execute_script("return arguments[0].value", element)
        expect(now == text, f"{label} holds '{now}' after '{text}' was typed")

    def told(self, part):
        return " ".join(each.text for each in part.find_elements(By.CSS_SELECTOR, ".told") if each.text)

    def fill_set(self, part, calibrator, at, figures):
        self.type(part, "calibrator", calibrator)
        self.type(part, "date and time", f"{DAY}T{at}")
        self.type(part, "temperature, °C", "15")
        self.type(part, "pressure, kPa", "84.5")
        if calibrator == "BUB-1":
            self.type(part, "humidity, %, for a bubble meter", "40")
        for number, figure in enumerate(figures, 1):
            self.type(part, f"reading {number}, L/min", figure)

    def fill_before(self, number):
        sample, _, calibrator, pre, _, warm_up, _, _ = RECORDS[number]
        part = self.sample(number)
        self.type(part, "warm-up, min", warm_up)
        self.fill_set(part.find_elements(By.CSS_SELECTOR, "fieldset")[0], calibrator, "06:00", pre)
        return part

    def fill_after(self, number):
        sample, _, calibrator, _, post, _, stop, fault = RECORDS[number]
        part = self.sample(number)
        sampling, last = part.find_elements(By.CSS_SELECTOR, "fieldset")[1:3]
        self.type(sampling, "start", f"{DAY}T06:30")
        self.type(sampling, "stop", f"{DAY}T{stop}")
        self.type(sampling, "paused, min", "10")
        self.type(sampling, "vacuum behind the sampler, kPa; 1 inHg is 3.386 kPa", "60.5")
        self.type(sampling, "leak found by the test, L/min; 80 mL/min is 0.08 L/min", "0.05")
        self.type(sampling, "interruptions: how often it stopped and went on", "2")
        self.type(sampling, "temperature, °C", "12")
        self.type(sampling, "pressure, kPa", "84.6")
        if fault:
            self.tap(self.field(sampling, "the pump had stopped, an inlet was not free, or another fault"))
        self.fill_set(last, calibrator, after(stop), post)

    def press(self, part, words):
        self.tap([each for each in part.find_elements(By.TAG_NAME, "button") if each.text == words][0])
        time.sleep(0.2)

    def state(self, part):
        return part.find_element(By.CSS_SELECTOR, ".state").text

    def retype(self, part, label, text):
        """Types over what a field holds."""
        self.driver.execute_script("arguments[0].value = ''", self.field(part, label))
        self.type(part, label, text)

    def kept(self):
        return self.driver.find_element(By.ID, "kept").text

    def close(self):
        expect(self.browser.complaints() == [], "the console complains")
        asked = [url for url in self.browser.requests() if not url.startswith(("file:", "blob:"))]
        expect(asked == [], f"the form asked for {asked}")
        self.driver.quit()


def slips(form):
    """What can't be is told at its field, and the sample is not finished; all of it is mended again."""
    part = form.sample(0)
    first = part.find_elements(By.CSS_SELECTOR, "fieldset")[0]
    for place, label, slip, told, lacks, sound in (
            (first, "temperature, °C", "1o", "This is not a figure.", "a figure for temperature before", "15"),
            (first, "pressure, kPa", "850", "This can't be: the book takes 10 to 200.", "a figure for pressure before", "84.5"),
            (part, "warm-up, min", "2o", "This is not a figure.", "a figure for warm-up", "20")):
        form.retype(place, label, slip)
        expect(told in form.told(part) and lacks in form.state(part), f"{slip} as {label}: {form.told(part)}; {form.state(part)}")
        form.retype(place, label, sound)
    last = part.find_elements(By.CSS_SELECTOR, "fieldset")[2]
    form.type(last, "date and time", f"{DAY}T05:00")
    expect("This is before the stop: look at both, and at the dates." in form.told(last), form.told(last))
    expect("a time of the readings after that is after sampling" in form.state(part), form.state(part))
    form.type(last, "date and time", "2027-11-30T14:50")
    expect("This is long after the stop: look at both dates." in form.told(last), form.told(last))
    expect(form.state(part).strip() == "finished", form.state(part))
    form.type(last, "date and time", f"{DAY}T{after('14:30')}")
    expect(form.told(part) == "" and form.state(part).strip() == "finished", f"mended: {form.told(part)}; {form.state(part)}")
    # A set has room for one more.
    boxes = len(first.find_elements(By.CSS_SELECTOR, ".reading"))
    form.press(first, "one more reading")
    expect(len(first.find_elements(By.CSS_SELECTOR, ".reading")) == boxes + 1, "no box more")


def doubled_hour(form, blank):
    """The clock was put back in the night to 2026-11-01: which of the two hours is asked for."""
    form.type(blank, "opened at", "2026-11-01T01:30")
    expect("which of the two hours the opening was" in form.state(blank), form.state(blank))
    which = "the clock showed this hour twice: before it was put back, or after"
    choice = form.field(blank, which)
    expect(choice.is_displayed() and [each.text for each in choice.find_elements(By.TAG_NAME, "option")] == ["–", "before, -06:00", "after, -07:00"],
           choice.text)
    form.type(blank, which, "-07:00")
    form.type(blank, "closed at", "2026-11-01T02:10")
    expect(form.state(blank).strip() == "finished", form.state(blank))
    form.press(form.driver.find_element(By.ID, "end"), "show them as text")
    rows = form.driver.find_element(By.TAG_NAME, "textarea").get_attribute("value")
    expect("2026-11-01T01:30-07:00,2026-11-01T02:10," in rows, rows)
    form.type(blank, "opened at", f"{DAY}T06:15")
    form.type(blank, "closed at", f"{DAY}T14:40")
    expect(not form.field(blank, which).is_displayed() if [1 for each in blank.find_elements(By.TAG_NAME, "label") if each.text == which] else True,
           "the hour is asked for still")


def wait_for(file):
    for _ in range(200):
        if file and all(pathlib.Path(one).exists() for one in file):
            return
        time.sleep(0.05)
    expect(False, f"{file} was not saved")


def main():
    typed, hand = book("typed"), book("hand")
    by_hand(hand)
    page = SCRATCH / "form.html"
    run("form", typed, "--batch", "TF48A", "--as-of", DAY, "--temperature", "15 °C", "--pressure", "84.5 kPa", "--humidity", "40 %",
        "--out", page)
    text = page.read_text("utf-8")
    expect("<img src=x" not in text, "a hostile name is markup")
    expect("connect-src" in text or "default-src 'none'" in text or "default-src &#39;none&#39;" in text, "no content policy")
    downloads = SCRATCH / "saved"
    downloads.mkdir()

    form = Form(page, SCRATCH / "profile", downloads)
    width = form.browser.script("return document.documentElement.scrollWidth")
    expect(width <= 380, f"the form is {width} px wide")
    expect(form.browser.script("return document.images.length") == 0, "a hostile name became a picture")
    part = form.fill_before(0)
    expect("Should show 1.85, from 1.76 to 1.94 at 15 °C, 84.5 kPa" in part.text, "what ROT-1 should show: " + part.text[:900])
    expect(form.told(part.find_elements(By.CSS_SELECTOR, "fieldset")[0]) == "", "a sound reading is told as amiss")
    form.browser.picture(str(SCRATCH / "form.png"))
    part = form.fill_before(2)
    told = form.told(part.find_elements(By.CSS_SELECTOR, "fieldset")[0])
    expect("This is above 2.103" in told or "This is above" in told, "a reading beyond the band: " + told)
    expect("within 5 % of the nominal flow, else qualified (common-practice/set-flow)" in told, "what it would do: " + told)
    part = form.fill_before(3)
    expect("A rule asks for 15 min." in part.text, "a short warm-up is not told")
    # A slip that is amended: the first stays, struck out.
    part = form.sample(0)
    first = part.find_elements(By.CSS_SELECTOR, "fieldset")[0]
    reading = first.find_elements(By.CSS_SELECTOR, ".reading")[3]
    form.type(first, "reading 4, L/min", "8.51")
    form.tap(reading.find_element(By.CSS_SELECTOR, "button.amend"))
    time.sleep(0.1)
    why, who = reading.find_elements(By.CSS_SELECTOR, ".why input")
    why.send_keys("digits exchanged")
    who.send_keys("JK")
    form.tap(reading.find_element(By.CSS_SELECTOR, ".why button"))
    time.sleep(0.1)
    expect("8.51" in reading.text and "by JK: digits exchanged" in reading.text, "the first reading is not kept: " + reading.text)
    # What is no figure yet is kept, too, and told.
    form.type(first, "reading 4, L/min", "2.0x")
    expect(form.kept().startswith("Kept in this browser"), form.kept())
    form.close()

    form = Form(page, SCRATCH / "profile", downloads)
    expect(form.kept() == "Taken up where it was left.", form.kept())
    part = form.sample(0)
    first = part.find_elements(By.CSS_SELECTOR, "fieldset")[0]
    draft = form.field(first, "reading 4, L/min")
    expect(draft.get_attribute("value") == "2.0x" and form.told(first) == "This is not a figure.", "the draft is gone: " + form.told(first))
    state = part.find_element(By.CSS_SELECTOR, ".state").text
    expect("a reading before that is no figure yet" in state, "a draft is not told: " + state)
    form.reach(draft, "reading 4")
    draft.clear()
    draft.send_keys(Keys.TAB)
    expect(form.told(first) == "", "an empty field is told as amiss: " + form.told(first))
    for number in (1, 4, 5):
        form.fill_before(number)
    for number in range(6):
        form.fill_after(number)
    slips(form)
    part = form.sample(BETWEEN)
    form.press(part, "a check in between")
    between = [each for each in part.find_elements(By.CSS_SELECTOR, "fieldset") if "In between, check 1" in each.text][0]
    form.fill_set(between, RECORDS[BETWEEN][2], "10:00", BETWEEN_READ)
    blank = form.sample(6)
    form.tap(form.field(blank, "it was handled as a blank"))
    time.sleep(0.1)
    doubled_hour(form, blank)
    states = [each.text for each in form.driver.find_elements(By.CSS_SELECTOR, ".state")]
    expect(states == 7 * [" finished"] or [s.strip() for s in states] == 7 * ["finished"], f"states {states}")
    form.browser.picture(str(SCRATCH / "form-end.png"), whole=False)
    for words in ("save samples", "save readings"):
        button = [each for each in form.driver.find_elements(By.TAG_NAME, "button") if each.text == words][0]
        form.tap(button)
        time.sleep(0.3)
    name = form.driver.find_element(By.ID, "form-name").text.replace("/", "-")
    files = [downloads / f"{name}-samples.csv", downloads / f"{name}-readings.csv"]
    wait_for(files)
    # Nobody but whoever saved them knows whether the files are there.
    expect(form.kept().startswith("See that both files have been saved."), form.kept())
    expect(form.browser.script("return window.localStorage.length") == 1, "it was forgotten before anybody said so")
    form.press(form.driver.find_element(By.ID, "end"), "yes, forget what is kept here")
    expect(form.kept() == "Saved. Nothing is kept in this browser any more.", form.kept())
    expect(form.browser.script("return window.localStorage.length") == 0, "something is kept still")
    form.close()

    said = run("receive", typed, *files, "--by", "instrument keeper", "--as-of", DAY)
    expect("7 rows of samples in samples/received-" in said, said)
    expect("39 rows of readings in readings/received-" in said, said)
    of_typed = run("screen", typed, "--batch", "TF48A", "--as-of", DAY, "--format", "csv", status=(0, 1))
    of_hand = run("screen", hand, "--batch", "TF48A", "--as-of", DAY, "--format", "csv", status=(0, 1))
    expect(of_typed == of_hand, f"typed and by hand differ:\n{of_typed}\n{of_hand}")
    verdicts = {row["sample"]: row["verdict"] for row in csv.DictReader(of_typed.splitlines())}
    expect(len(set(verdicts.values())) >= 3, f"all verdicts are alike: {verdicts}")
    # The same form a second time.
    again = subprocess.run([PROGRAM, "receive", typed, *files, "--by", "me", "--as-of", DAY], capture_output=True, text=True, check=False)
    expect(again.returncode == 0 and "was received before" in again.stderr and again.stdout.endswith("nothing was written\n"), again.stderr + again.stdout)
    if os.environ.get("DRIFTWARDEN_KEEP_PICTURES"):
        for picture in ("form.png", "form-end.png"):
            shutil.copy(SCRATCH / picture, os.environ["DRIFTWARDEN_KEEP_PICTURES"])
    if failures == 0:
        print("the batch that was typed is the one that was written")
    return 1 if failures else 0


sys.exit(main())
