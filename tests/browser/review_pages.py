#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""review_pages.py DEMO HOSTILE LARGE SHEETS OTHER SMALL: opens review pages, and the sheets of a folder, in a real browser, in one
session, and does with them what a person would. Prints what is not as it should be; status 0 where nothing is. AXE names the accessibility checker's
axe.min.js; without it that check is left out, and said so."""
import os
import re
import subprocess
import sys
import tempfile
import time

from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select

from books import LONG, MARKUP, QUOTES, RIGHT_TO_LEFT
from browser import Browser

failures = []
checks = 0

SHOWN = """return [...document.querySelectorAll('table.samples > tbody')].filter(body => !body.hidden)
           .map(body => [...body.rows[0].cells].map(cell => cell.textContent))"""
# What reaches beyond the right edge, things for screen readers aside.
BEYOND = """return [...document.querySelectorAll('body *')].filter(element => {
              const box = element.getBoundingClientRect();
              return box.width > 1 && box.height > 1 && box.right > innerWidth + 1 && !element.closest('svg');
            }).slice(0, 5).map(element => element.tagName + '.' + element.className)"""
DOUBLES = """const seen = new Set(), twice = [];
             for (const element of document.querySelectorAll('[id]')) {
               if (seen.has(element.id)) twice.push(element.id);
               seen.add(element.id);
             }
             return twice"""


def expect(what, actual, expected=True):
    global checks
    checks += 1
    if actual != expected:
        failures.append(what)
        print(f"FAILED: {what}\n  expected: {str(expected)[:300]}\n  was:      {str(actual)[:300]}")


def shown_when(browser, is_so):
    """The lines shown, as soon as they are as expected; after a while as they are."""
    for _ in range(100):
        lines = browser.script(SHOWN)
        if is_so(lines):
            break
        time.sleep(0.1)
    return lines


def keeps_to_itself(browser, name):
    expect(f"{name}: the console is silent", browser.complaints(), [])
    asked = browser.requests()
    expect(f"{name}: asks for nothing but itself", [url for url in asked if not url.startswith("file:")], [])
    expect(f"{name}: asks for one file", len(asked), 1)
    expect(f"{name}: no id stands twice", browser.script(DOUBLES), [])


def has_no_sideways_scroll(browser, name):
    width = browser.script("return [document.documentElement.scrollWidth, innerWidth]")
    expect(f"{name}: no sideways scroll ({width})", width[0] <= width[1])
    expect(f"{name}: nothing reaches beyond the edge", browser.script(BEYOND), [])


def filter_and_open(browser):
    driver = browser.driver
    Select(driver.find_element(By.ID, "filter-verdict")).select_by_value("void")
    shown = shown_when(browser, lambda lines: all(line[1] == "void" for line in lines))
    expect("filter: some samples are void", len(shown) > 1)
    expect("filter: only void samples are shown", {line[1] for line in shown}, {"void"})
    Select(driver.find_element(By.ID, "filter-batch")).select_by_value("TF46B")
    names = [line[0] for line in shown_when(browser, lambda lines: len(lines) == 2)]
    expect("filter: void samples of one batch", names, ["TF46B-1", "TF46B-6"])
    driver.find_element(By.ID, "filter-text").send_keys("PUMP-07")
    expect("filter: and of one pump", [line[0] for line in shown_when(browser, lambda lines: len(lines) == 1)], ["TF46B-1"])
    expect("filter: it says how many", driver.find_element(By.ID, "filter-count").text,
           "1 from these days shown, 0 earlier.")

    summary = driver.find_element(By.CSS_SELECTOR, "tbody:not([hidden]) details.working > summary")
    working = driver.find_element(By.CSS_SELECTOR, "tbody:not([hidden]) details.working > pre")
    expect("working: folded up at first", working.is_displayed(), False)
    summary.click()
    expect("working: opens", working.is_displayed())
    expect("working: is that of the sample", working.text.startswith("Sample TF46B-1: void"))
    expect("working: has the drift's figures", "(1.85925 - 2.00065) / 2.00065 = -7.068 %" in working.text)
    summary.send_keys(Keys.ENTER)
    expect("working: closes by the keyboard", working.is_displayed(), False)
    driver.find_element(By.XPATH, "//button[text()='Show all']").click()
    expect("filter: all again", len(shown_when(browser, lambda lines: len(lines) > 100)) > 100)


def sort(browser):
    heading = browser.driver.find_element(By.XPATH, "(//table[contains(@class, 'samples')])[1]//button[text()='Drift %']")

    def drifts():
        words = browser.script("return [...document.querySelector('table.samples').tBodies]"
                               ".map(body => body.rows[0].cells[8].textContent)")
        figures = [float(word) for word in words if word]
        expect("sort: what is missing comes last", words[:len(figures)].count(""), 0)
        return figures

    heading.click()
    expect("sort: from small to large", drifts(), sorted(drifts()))
    expect("sort: the heading says so", heading.find_element(By.XPATH, "..").get_attribute("aria-sort"), "ascending")
    heading.click()
    expect("sort: from large to small", drifts(), sorted(drifts(), reverse=True))


def printed(browser, name, most_pages, said=("What needs action", "Signature")):
    for paper, size in (("A4", (8.27, 11.69)), ("Letter", (8.5, 11))):
        with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
            file.write(browser.pdf(size))
            file.flush()
            text = subprocess.run(["pdftotext", "-layout", file.name, "-"], check=True, capture_output=True).stdout.decode()
            info = subprocess.run(["pdfinfo", file.name], check=True, capture_output=True).stdout.decode()
            places = subprocess.run(["pdftotext", "-bbox-layout", file.name, "-"], check=True, capture_output=True).stdout.decode()
        pages = int(info.split("Pages:")[1].split()[0])
        expect(f"{name} on {paper}: {pages} pages, at most {most_pages}", pages <= most_pages)
        for words in (*said, "does not replace the sampling method", "of " + str(pages)):
            expect(f"{name} on {paper}: says '{words}'", words in text)
        expect(f"{name} on {paper}: leaves out the filter", "Show all" in text, False)
        are_filled(browser, f"{name} on {paper}", places)


def are_filled(browser, name, places):
    """No sheet but the last ends in its upper half, and none with a heading. Of a sheet's lines the last is its number."""
    headings = set(browser.script("return [...document.querySelectorAll('h2, h3, h4, details[open] > summary')]"
                                  ".map(heading => heading.innerText.replace(/\\s+/g, ' ').trim())"))
    for number, page in enumerate(places.split("<page ")[1:-1], 1):
        height = float(re.search(r'height="([\d.]+)"', page).group(1))
        lines = []
        for line in re.findall(r"<line (.*?)</line>", page, re.S):
            words = " ".join(re.findall(r"<word [^>]*>(.*?)</word>", line))
            lines.append((float(re.search(r'yMax="([\d.]+)"', line).group(1)), words))
        below, last = sorted(lines)[-2]
        expect(f"{name}: sheet {number} is filled to {below / height:.2f}", below / height > 0.5)
        expect(f"{name}: sheet {number} does not end with the heading '{last}'", last.lstrip("▸▾▶▼ ") in headings, False)


def is_accessible(browser, name):
    checker = os.environ.get("AXE", "")
    if not os.path.exists(checker):
        print(f"skipped: {name}: no accessibility checker (AXE names no axe.min.js; see docs/review.md)")
        return
    with open(checker, encoding="utf-8") as file:
        browser.script(file.read())
    found = browser.driver.execute_async_script(
        "const done = arguments[arguments.length - 1];"
        "axe.run(document, {resultTypes: ['violations']}).then(result => done(result.violations.map("
        "v => v.impact + ' ' + v.id + ' ' + v.nodes.slice(0, 3).map(n => n.target.join(' ')).join('; '))))")
    expect(f"{name}: nothing for axe-core to find", found, [])


def demo(browser, page):
    browser.show(page)
    keeps_to_itself(browser, "demo")
    expect("demo: the title", browser.driver.title, "Review of Tamber Fold mine and Sorrel tunnel, autumn 2026 (invented), 2026-11-16")
    has_no_sideways_scroll(browser, "demo at 1280 px")
    filter_and_open(browser)
    sort(browser)
    browser.show(page)  # what was opened would be printed, too
    printed(browser, "demo", 5)
    for dark in (False, True):
        browser.show(page, dark=dark)
        is_accessible(browser, "demo, dark" if dark else "demo, light")
        browser.show(page, width=380, height=800, dark=dark)
        has_no_sideways_scroll(browser, "demo at 380 px")
        browser.script("for (const fold of document.querySelectorAll('details')) fold.open = true")
        has_no_sideways_scroll(browser, "demo at 380 px, all open")
        is_accessible(browser, "demo, dark, 380 px, all open" if dark else "demo, light, 380 px, all open")
        expect("demo: the console has stayed silent", browser.complaints(), [])


def sheets(browser, folder):
    """Custody, the client's page and look-back: a batch of 14 on one sheet with its signatures, whatever the paper."""
    for name, most_pages, said in (("custody", 1, ("Hand-overs of batch TF46B", "C-4610")), ("fourteen", 1, ("Hand-overs of batch FOURTEEN",)),
                                   ("forty", 2, ("Hand-overs of batch FORTY",)),
                                   ("letter", 1, ("Of each of them", "Signature")), ("lookback", 4, ("The verdict changes",))):
        page = os.path.join(folder, name + ".html")
        browser.show(page)
        keeps_to_itself(browser, name)
        printed(browser, name, most_pages, said)
        for dark in (False, True):
            for width in (1280, 900, 380):
                browser.show(page, width=width, dark=dark)
                has_no_sideways_scroll(browser, f"{name} at {width} px")
                is_accessible(browser, f"{name}, {'dark' if dark else 'light'}, {width} px")


def hostile(browser, page):
    browser.show(page)
    keeps_to_itself(browser, "hostile")
    expect("hostile: no script of the book has run", browser.driver.title.startswith("Review of Quarry <script>"))
    expect("hostile: nothing of the book became an element",
           browser.script("return document.querySelectorAll('script').length"), 1)
    text = browser.script("return document.body.textContent")
    for words in (MARKUP, QUOTES, RIGHT_TO_LEFT, LONG, "evil[U+202E]txt.exe"):
        expect(f"hostile: '{words[:40]}' is there as text", words in text)
    for width in (1280, 380):
        browser.show(page, width=width)
        browser.script("for (const fold of document.querySelectorAll('details')) fold.open = true")
        has_no_sideways_scroll(browser, f"hostile at {width} px")
        is_accessible(browser, f"hostile at {width} px")
    expect("hostile: the console has stayed silent", browser.complaints(), [])


def large(browser, page):
    size = os.path.getsize(page) / 1e6
    expect(f"large: {size:.1f} MB, at most 8", size <= 8)
    browser.show(page)
    keeps_to_itself(browser, "large")
    expect("large: all samples have a line", len(browser.script(SHOWN)), 2000)
    expect("large: filtered in less than a second", browser.script(
        "const begin = performance.now(), text = document.getElementById('filter-text');"
        "text.value = 'P-07'; text.dispatchEvent(new Event('input')); document.body.offsetHeight;"
        "return performance.now() - begin") < 1000)
    browser.show(page, width=380)
    has_no_sideways_scroll(browser, "large at 380 px")
    Select(browser.driver.find_element(By.ID, "filter-verdict")).select_by_value("void")
    shown_when(browser, lambda lines: all(line[1] == "void" for line in lines))
    expect("large at 380 px: what is filtered away is not to be seen", browser.script(
        "return [...document.querySelectorAll('table.samples > tbody')].filter(body => body.offsetHeight > 0)"
        ".every(body => body.rows[0].cells[1].textContent === 'void')"))


def smaller(browser, name, page, most_pages):
    """Another book: printed, and on a telephone."""
    browser.show(page)
    keeps_to_itself(browser, name)
    has_no_sideways_scroll(browser, f"{name} at 1280 px")
    printed(browser, name, most_pages)
    browser.show(page, width=380, height=800)
    browser.script("for (const fold of document.querySelectorAll('details')) fold.open = true")
    has_no_sideways_scroll(browser, f"{name} at 380 px, all open")
    is_accessible(browser, f"{name} at 380 px, all open")


def main():
    with tempfile.TemporaryDirectory() as profile:
        browser = Browser(profile)
        try:
            demo(browser, sys.argv[1])
            hostile(browser, sys.argv[2])
            large(browser, sys.argv[3])
            sheets(browser, sys.argv[4])
            smaller(browser, "other", sys.argv[5], 5)
            smaller(browser, "small", sys.argv[6], 4)
        finally:
            browser.quit()
    print(f"{checks} checks, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
