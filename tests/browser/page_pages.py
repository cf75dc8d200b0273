#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""page_pages.py PROGRAM PAGE FOLDER: chooses books in the page, judges, filters, explains, saves, decides and verifies there, and
holds what comes of it against the program. Prints what is not as it should be; status 0 where nothing is. AXE names the
accessibility checker's axe.min.js; without it that check is left out, and said so."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import time

from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select

from books import MARKUP
from browser import Browser

PROGRAM, PAGE, SCRATCH = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
AS_OF = "2026-11-16"
failures = []

BEYOND = """return [...document.querySelectorAll('body *')].filter(element => {
              const box = element.getBoundingClientRect();
              return box.width > 1 && box.height > 1 && box.right > innerWidth + 1 && !element.closest('table');
            }).slice(0, 5).map(element => element.tagName + '#' + element.id)"""


def expect(what, actual, expected=True):
    if actual != expected:
        failures.append(what)
        print(f"FAILED: {what}\n  expected: {str(expected)[:300]}\n  was:      {str(actual)[:300]}")


def natively(*words, of=("stdout", "stderr")):
    done = subprocess.run([PROGRAM, *map(str, words)], check=False, capture_output=True, text=True, env={"PATH": os.environ["PATH"], "TZ": "UTC"})
    return "".join(getattr(done, stream) for stream in of)


def without_drawings(html):
    return re.sub(r"<svg.*?</svg>", "<svg></svg>", html or "", flags=re.S)


def waited(browser, is_so, seconds=120):
    """What the page says of its state, as soon as that is as expected; after a while as it is."""
    end = time.time() + seconds
    while True:
        said = browser.script("return document.getElementById('state').textContent")
        if is_so(said) or time.time() > end:
            return said
        time.sleep(0.05)


def by_id(browser, name):
    return browser.driver.find_element(By.ID, name)


def choose(browser, files, into="folder"):
    browser.script(f"document.getElementById('as-of').value = '{AS_OF}'")
    by_id(browser, into).send_keys(str(files))
    return waited(browser, lambda said: "judged in" in said or "could not" in said or "package" in said.lower() and "…" not in said or "no book" in said)


def rows(browser):
    return browser.script("return [...document.querySelectorAll('#samples tbody.record')].map("
                          "body => [...body.rows[0].cells].map(cell => cell.textContent))")


def rows_when(browser, is_so):
    for _ in range(100):
        if is_so(rows(browser)):
            break
        time.sleep(0.05)
    return rows(browser)


def keeps_to_itself(browser, name):
    expect(f"{name}: the console is silent", browser.complaints(), [])
    asked = browser.requests()
    expect(f"{name}: asks for nothing but the file and its blobs", [url for url in asked if not url.startswith(("file:", "blob:"))], [])
    expect(f"{name}: asks for one file", len([url for url in asked if url.startswith("file:")]), 1)


def is_accessible(browser, name):
    checker = os.environ.get("AXE", "")
    if not os.path.exists(checker):
        print(f"skipped: {name}: no accessibility checker (AXE names no axe.min.js; see docs/review.md)")
        return
    with open(checker, encoding="utf-8") as file:
        browser.script(file.read())
    found = browser.driver.execute_async_script(
        "const done = arguments[arguments.length - 1];"
        "axe.run(document, {resultTypes: ['violations'], iframes: false}).then(result => done(result.violations.map("
        "v => v.impact + ' ' + v.id + ' ' + v.nodes.slice(0, 3).map(n => n.target.join(' ')).join('; '))))")
    expect(f"{name}: nothing for axe-core to find", found, [])


def has_no_sideways_scroll(browser, name):
    width = browser.script("return [document.documentElement.scrollWidth, innerWidth]")
    expect(f"{name}: no sideways scroll ({width})", width[0] <= width[1])
    expect(f"{name}: nothing reaches beyond the edge", browser.script(BEYOND), [])


def begin(browser, **look):
    browser.show(PAGE, **look)
    expect("the program starts", waited(browser, lambda said: said != "Starting…"), "Ready.")


def saved(browser, name):
    """The bytes behind the link that saves a file."""
    return browser.driver.execute_async_script(
        "const done = arguments[arguments.length - 1];"
        "const link = [...document.querySelectorAll('a[download]')].find(link => link.textContent === 'Save ' + arguments[0]);"
        "if (!link) done(null); else { const frame = document.createElement('a');"
        "const wanted = window.savedBlobs.get(link.href); wanted.text().then(done); }", name)


# What a browser would ask the person for is told to the page by this: blobs are kept by their addresses.
KEEP_BLOBS = """window.savedBlobs = new Map();
const made = URL.createObjectURL;
URL.createObjectURL = blob => { const url = made.call(URL, blob); window.savedBlobs.set(url, blob); return url; };"""


def judge_filter_explain(browser):
    begin(browser)
    browser.script(KEEP_BLOBS)
    expect("demo: judged", choose(browser, pathlib.Path("docs/demo").resolve()).split(" judged")[0], "194 samples and blanks")
    for _ in range(100):  # comes after the verdicts
        if by_id(browser, "check-lead").text == "The book can be read.":
            break
        time.sleep(0.05)
    expect("demo: the check says what the program says",
           browser.script("return document.getElementById('check-said').textContent"), natively("check", "docs/demo"))
    expect("demo: first rows of all", by_id(browser, "count").text, "Rows 1 to 50 of 194")
    by_id(browser, "after").click()
    expect("demo: further rows", rows_when(browser, lambda them: them[0][0] != "TF39A-1") != [] and by_id(browser, "count").text,
           "Rows 51 to 100 of 194")
    Select(by_id(browser, "verdict")).select_by_visible_text("void")
    expect("demo: only void ones", {row[1] for row in rows_when(browser, lambda them: all(row[1] == "void" for row in them))}, {"void"})
    Select(by_id(browser, "batch")).select_by_visible_text("TF46B")
    expect("demo: void ones of a batch", [row[0] for row in rows_when(browser, lambda them: len(them) == 2)], ["TF46B-1", "TF46B-6"])
    by_id(browser, "text").send_keys("PUMP-07")
    expect("demo: and of a pump", [row[0] for row in rows_when(browser, lambda them: len(them) == 1)], ["TF46B-1"])
    browser.driver.find_element(By.CSS_SELECTOR, "#samples .open").send_keys(Keys.ENTER)
    waited(browser, lambda said: "below its row" in said)
    working = browser.script("return document.querySelector('.working pre').textContent")
    expect("demo: the working is the program's", working, natively("explain", "docs/demo", "TF46B-1", "--as-of", AS_OF))


def make_pages(browser):
    for what, about, name, words in (("review", "", "review.html", ["review", "docs/demo"]),
                                     ("letter", "TF46B", "letter-TF46B.html", ["letter", "docs/demo", "--batch", "TF46B"]),
                                     ("lookback", "ROT-2", "lookback-ROT-2.html", ["lookback", "docs/demo", "ROT-2"]),
                                     ("custody", "TF46B", "custody-TF46B.html", ["custody", "docs/demo", "--batch", "TF46B"]),
                                     ("verdicts", "", "verdicts.csv", ["screen", "docs/demo"])):
        Select(by_id(browser, "what")).select_by_value(what)
        browser.script("document.getElementById('about').value = arguments[0]", about)
        browser.driver.find_element(By.CSS_SELECTOR, "#make button").click()
        expect(f"{name} is made", waited(browser, lambda said, name=name: said == name + " is made." or "could not" in said), name + " is made.")
        natively(*words, "--as-of", AS_OF, "--out", SCRATCH / name)
        ours, theirs = saved(browser, name), (SCRATCH / name).read_text("utf-8")
        if what == "review" and shutil.which("gnuplot"):
            expect("the review has charts", ours.count("<svg role=") == theirs.count("<svg role=") > 10)
            ours, theirs = without_drawings(ours), without_drawings(theirs)
        if what != "review" or shutil.which("gnuplot"):
            expect(f"{name} is the program's", ours == theirs)
    Select(by_id(browser, "what")).select_by_value("review")
    browser.driver.find_element(By.CSS_SELECTOR, "#make button").click()
    waited(browser, lambda said: said == "review.html is made.")
    time.sleep(0.5)
    browser.driver.switch_to.frame(browser.driver.find_element(By.TAG_NAME, "iframe"))
    expect("the review's own filter works inside", browser.script("return document.getElementById('filter-verdict') !== null"))
    browser.driver.switch_to.default_content()


def draw(browser):
    make_one(browser, "charts", "PUMP-07", "charts are made.")
    expect("charts: each is drawn", [size > 100 for size in browser.script("return [...document.querySelectorAll('#made img')].map(image => image.naturalWidth)")],
           [True, True, True])
    make_one(browser, "charts", "no such pump", "It could not be made: see what is said there.")
    expect("charts: of an instrument that there is not, why", "no such pump" in by_id(browser, "made").text)


def make_one(browser, what, about, end):
    Select(by_id(browser, "what")).select_by_value(what)
    browser.script("document.getElementById('about').value = arguments[0]", about)
    browser.driver.find_element(By.CSS_SELECTOR, "#make button").click()
    expect(f"{what} of {about}", waited(browser, lambda said: said == end or "could not" in said), end)


# What a person would type, at once: [which box, label, value]. Boxes are: the sample, before, sampling, after.
TYPE = """const part = document.querySelectorAll('details.sample')[0];
const boxes = [part, ...part.querySelectorAll('fieldset')];
for (const [box, label, value] of arguments[0]) {
  const found = [...boxes[box].querySelectorAll('label')].find(each => each.textContent === label);
  const input = document.getElementById(found.htmlFor);
  input.value = value;
  for (const kind of ['input', 'change']) input.dispatchEvent(new Event(kind, {bubbles: true}));
}"""
READ = [["calibrator", "VOL-1"], ["temperature, °C", "15"], ["pressure, kPa", "84.5"]]
BEFORE = [[1, *each] for each in READ] + [[1, "date and time", "2026-11-16T06:00"]] + [
    [1, f"reading {number}, L/min", text] for number, text in enumerate(["2.003", "2.001", "1.999"], 1)]
SAMPLED = [[0, "warm-up, min", "20"], [2, "start", "2026-11-16T06:30"], [2, "stop", "2026-11-16T14:31"]]
AFTER = [[3, *each] for each in READ] + [[3, "date and time", "2026-11-16T14:50"]] + [
    [3, f"reading {number}, L/min", text] for number, text in enumerate(["1.801", "1.803", "1.799"], 1)]


def judged_form(browser, is_so):
    for _ in range(200):
        text = browser.script("return document.getElementById('judged-form').textContent")
        if is_so(text):
            break
        time.sleep(0.05)
    return text


def type_a_form(browser):
    """The form of a planned batch within the page: a sample is judged as it is finished, and then taken in."""
    begin(browser, width=1100)
    browser.script(KEEP_BLOBS)
    choose(browser, pathlib.Path("docs/demo").resolve())
    make_one(browser, "form", "TF47A", "form-TF47A.html is made.")
    frame = browser.driver.find_element(By.CSS_SELECTOR, "#made iframe")

    def type_in(rows):
        browser.driver.switch_to.frame(frame)
        browser.script(TYPE, rows)
        browser.driver.switch_to.default_content()

    type_in(BEFORE + SAMPLED)
    time.sleep(1)
    expect("form: an unfinished sample is not judged", "As soon as" in judged_form(browser, lambda text: True))
    type_in(AFTER)
    trial = judged_form(browser, lambda text: "TF47A-1" in text)
    expect("form: a finished one is", "TF47A-1 void" in trial and "not in the book yet" in trial)
    if "DRIFTWARDEN_KEEP_PICTURES" in os.environ:
        browser.script("document.getElementById('judged-form').scrollIntoView({block: 'start'}); scrollBy(0, -520)")
        browser.picture(os.path.join(os.environ["DRIFTWARDEN_KEEP_PICTURES"], "page-form.png"))
    is_accessible(browser, "with a form")
    rows = SCRATCH / "rows.csv"
    rows.write_text("sample,batch,kind,pump,sampler,nominal [L/min],started,stopped\nTF47A-9,TF47A,sample,PUMP-99,,2,,\n", "utf-8")
    by_id(browser, "receive-files").send_keys(str(rows))
    for _ in range(200):
        if by_id(browser, "tried").text != "":
            break
        time.sleep(0.05)
    expect("rows in a file that can't be taken in are told when they are chosen", "can't take these rows" in by_id(browser, "tried").text
           and "PUMP-99" in by_id(browser, "tried").text)
    expect("form: nothing is in the book yet", by_id(browser, "count").text, "Rows 1 to 50 of 194")
    by_id(browser, "form-by").send_keys("instrument keeper")
    browser.driver.find_element(By.CSS_SELECTOR, "#take button").click()
    expect("form: taken in", waited(browser, lambda said: "195 samples" in said).split(" judged")[0], "195 samples and blanks")
    folder = SCRATCH / "typed"
    shutil.copytree("docs/demo", folder)
    for name in browser.script("return [...document.querySelectorAll('#written a')].map(link => link.textContent.slice('Save '.length))"):
        (folder / name).write_text(saved(browser, name), "utf-8")
    table = natively("screen", folder, "--sample", "TF47A-1", "--as-of", AS_OF, of=["stdout"])
    expect("form: what was shown is what the program says of the book with the rows", "TF47A-1" in table and table in trial)


def decide(browser):
    for name, text in (("decide-samples", "TF46B-6"), ("decide-rule", "common-practice/fault"), ("decide-by", "site hygienist"),
                       ("decide-reason", "Its <b>time</b> is known.")):
        by_id(browser, name).send_keys(text)
    Select(by_id(browser, "decide-ruling")).select_by_value("overrule")
    browser.driver.find_element(By.CSS_SELECTOR, "#decide button").click()
    waited(browser, lambda said: "judged in" in said)
    rows_when(browser, lambda them: them != [])
    text = saved(browser, "decisions.csv")
    before = pathlib.Path("docs/demo/decisions.csv").read_text("utf-8")
    expect("decided: a row more, and no other changed", (text or "").startswith(before) and text.count("\n") == before.count("\n") + 1)
    folder = SCRATCH / "decided"
    shutil.copytree("docs/demo", folder)
    (folder / "decisions.csv").write_text(text or "", "utf-8")
    expect("decided: the program reads it", "TF46B-6" in natively("screen", folder, "--sample", "TF46B-6", "--format", "csv")
           and ": error:" not in natively("check", folder))


def verify(browser):
    bag = SCRATCH / "bag"
    natively("evidence", "docs/demo", "--batch", "TF46B", "--as-of", AS_OF, "--out", bag)
    begin(browser)
    expect("a package of the program holds", choose(browser, bag), "The package holds.")
    with open(next(bag.glob("data/**/decisions.csv")), "a", encoding="utf-8") as file:
        file.write(" ")
    begin(browser)
    expect("an altered one does not", choose(browser, bag), "The package does not hold, or not in all.")


def zipped(browser):
    shutil.make_archive(str(SCRATCH / "demo"), "zip", "docs", "demo")
    begin(browser)
    expect("a zip file is a book, too", choose(browser, SCRATCH / "demo.zip", "files").split(" judged")[0], "194 samples and blanks")
    begin(browser)
    expect("what is no book is told", "there is no book.toml" in choose(browser, pathlib.Path("docs/CHANGELOG.md").resolve(), "files"))


def hostile(browser):
    folder = SCRATCH / "hostile"
    folder.mkdir()
    subprocess.run([sys.executable, "tests/browser/books.py", "hostile", folder], check=True)
    begin(browser, width=380)
    expect("hostile: judged", choose(browser, folder).split(" judged")[0], "5 samples and blanks")
    for button in range(5):
        browser.script("document.querySelectorAll('#samples .open')[arguments[0]].click()", button)
        waited(browser, lambda said: "below its row" in said)
    for what in ("review", "letter"):
        Select(by_id(browser, "what")).select_by_value(what)
        browser.script("document.getElementById('about').value = document.querySelector('#names option').value")
        browser.driver.find_element(By.CSS_SELECTOR, "#make button").click()
        waited(browser, lambda said: "is made" in said or "could not" in said)
        time.sleep(0.3)
        browser.driver.switch_to.frame(browser.driver.find_element(By.TAG_NAME, "iframe"))
        expect(f"hostile: no script of the book's in the {what}", browser.script("return document.title") != "taken")
        browser.driver.switch_to.default_content()
    expect("hostile: no script of the book's has run", browser.driver.title, "driftwarden")
    expect("hostile: its markup is text", MARKUP in browser.script("return document.getElementById('samples').textContent"))
    expect("hostile: nothing of it is markup", browser.script("return document.querySelectorAll('main script, main b').length"), 0)
    has_no_sideways_scroll(browser, "hostile at 380 px")
    keeps_to_itself(browser, "hostile")


def looks(browser):
    for width, dark in ((1280, False), (1280, True), (380, False)):
        begin(browser, width=width, dark=dark)
        choose(browser, pathlib.Path("docs/demo").resolve())
        rows_when(browser, lambda them: them != [])
        name = f"at {width} px, {'dark' if dark else 'light'}"
        has_no_sideways_scroll(browser, name)
        is_accessible(browser, name)


def keep_picture(browser):
    """For the manual, where DRIFTWARDEN_KEEP_PICTURES names a folder."""
    begin(browser, width=1100, height=1300)
    choose(browser, pathlib.Path("docs/demo").resolve())
    rows_when(browser, lambda them: them != [])
    Select(by_id(browser, "batch")).select_by_visible_text("TF46B")
    rows_when(browser, lambda them: len(them) == 8)
    browser.driver.find_element(By.CSS_SELECTOR, "#samples .open").click()
    waited(browser, lambda said: "below its row" in said)
    browser.script("document.getElementById('verdicts').scrollIntoView()")
    browser.picture(os.path.join(os.environ["DRIFTWARDEN_KEEP_PICTURES"], "page.png"))


os.environ["TZ"] = "UTC"
browser = Browser(str(SCRATCH / "profile"))
try:
    judge_filter_explain(browser)
    make_pages(browser)
    draw(browser)
    decide(browser)
    keeps_to_itself(browser, "demo")
    type_a_form(browser)
    keeps_to_itself(browser, "form")
    verify(browser)
    zipped(browser)
    hostile(browser)
    looks(browser)
    if "DRIFTWARDEN_KEEP_PICTURES" in os.environ:
        keep_picture(browser)
finally:
    browser.quit()
print("the page: all as expected" if not failures else f"the page: {len(failures)} not as expected")
sys.exit(len(failures) > 0)
