"""Opens the papers for a browser in a headless one, as a phone would: from a file, 360 px wide.

For each: nothing wider than the window, also with every drawing at full size, no accessibility fault by the open axe rules. The
file says how many fields it has, and must have them; a paper set for the field has some. What is typed into them is there after
the page is loaded again, and can be copied out and filled in again; a page without fields has no memory. Seeded faults are shown
to be caught first.
"""

import pathlib
import re
import shutil
import sys
import tempfile

from axe_selenium_python import Axe
from selenium import webdriver
from selenium.webdriver.chrome.service import Service

WIDTH = 360


def browser():
    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium")
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars"):
        options.add_argument(argument)
    metrics = {"width": WIDTH, "height": 780, "pixelRatio": 2.0}
    options.add_experimental_option("mobileEmulation", {"deviceMetrics": metrics})
    driver = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))
    # The rules look at every element of a long page.
    driver.set_script_timeout(300)
    driver.command_executor.client_config.timeout = 300
    return driver


WIDE = "return document.documentElement.scrollWidth"
FULL = """
document.querySelectorAll("input.full").forEach(box => { box.checked = arguments[0]; });
return document.documentElement.scrollWidth;
"""


def faults(driver, path, rules=None):
    """What is wrong with a page as it opens, by the open axe rules of these names or by all."""
    driver.get(path.resolve().as_uri())
    found = []
    wide = driver.execute_script(WIDE)
    if wide > WIDTH:
        found.append(f"{wide} px wide in a window of {WIDTH} px")
    full = driver.execute_script(FULL, True)
    if full > WIDTH:
        found.append(f"{full} px wide in a window of {WIDTH} px, with drawings at full size")
    driver.execute_script(FULL, False)
    small = driver.execute_script(
        "return Array.from(document.querySelectorAll('input[type=checkbox]'))"
        ".filter(it => it.offsetParent && it.getBoundingClientRect().width < 20).length"
    )
    if small:
        found.append(f"{small} boxes narrower than 20 px")
    axe = Axe(driver)
    axe.inject()
    for fault in axe.run(options={"runOnly": {"type": "rule", "values": rules}} if rules else None)["violations"]:
        found.append(f"{fault['id']}: {fault['help']} ({len(fault['nodes'])} places, {fault['nodes'][0]['html'][:120]})")
    found.extend(entry["message"] for entry in driver.get_log("browser") if entry["level"] == "SEVERE")
    return found


FILL = """
const box = document.querySelector("[data-f][type=checkbox]:not(:checked)");
const line = document.querySelector("[data-f][type=text]");
box.click();
line.value = arguments[0];
line.dispatchEvent(new Event("input", { bubbles: true }));
return [box.dataset.f, line.dataset.f];
"""
READ = """
const field = name => document.querySelector("[data-f='" + name + "']");
return [field(arguments[0]).checked, field(arguments[1]).value, document.getElementById("copied").value];
"""
BACK = """
document.getElementById("back").value = arguments[0];
document.getElementById("fill").click();
"""


COUNT = """
return [document.documentElement.dataset.fields, document.querySelectorAll("[data-f]").length,
        document.body.classList.contains("field"), document.getElementById("kept") !== null];
"""


def fields(driver):
    """How many fields the open page has, and what is wrong with that."""
    said, count, for_the_field, memory = driver.execute_script(COUNT)
    found = []
    if said != str(count):
        found.append(f"says that it has {said} fields and has {count}")
    if for_the_field and not count:
        found.append("is set for the field and has nothing to fill in")
    if memory != (count > 0):
        found.append(f"{count} fields and {'a' if memory else 'no'} memory")
    return count, found


def keeps(driver):
    """What is wrong with the page's memory."""
    found = []
    typed = '4 1/2 in = "so" [x] & <b>'
    names = driver.execute_script(FILL, typed)
    driver.refresh()
    checked, value, copied = driver.execute_script(READ, *names)
    if (checked, value) != (True, typed):
        found.append(f"after loading again: {checked}, {value!r}")
    for name in names:
        if f"[{name}]" not in copied:
            found.append(f"{name} is not in the text to copy:\n{copied}")
    driver.execute_script("localStorage.clear()")
    driver.refresh()
    if driver.execute_script(READ, *names)[:2] != [False, ""]:
        found.append("a page without a memory is not empty")
    driver.execute_script(BACK, copied)
    if driver.execute_script(READ, *names)[:2] != [True, typed]:
        found.append(f"filled in from its own text: {driver.execute_script(READ, *names)[:2]}")
    driver.execute_script("localStorage.clear()")
    return found


def main(paths):
    if not paths:
        raise SystemExit("no papers for a browser")
    driver = browser()
    try:
        with tempfile.TemporaryDirectory() as folder:
            seeded = pathlib.Path(folder) / "seeded.html"
            texts = (path.read_text(encoding="utf-8") for path in paths)
            text = next((text for text in texts if "data-f=" in text), None)
            if text is None:
                raise SystemExit("no paper has a field")
            seeded.write_text(re.sub(r'(<input type="text" data-f="[^"]*") aria-label=', r"\1 data-label=", text, count=1))
            if not any("label" in fault for fault in faults(driver, seeded, ["label"])):
                raise SystemExit("a seeded fault was not caught")
            seeded.write_text(text.replace(" data-f=", " data-lost="))
            driver.get(seeded.resolve().as_uri())
            if not fields(driver)[1]:
                raise SystemExit("fields that are lost were not missed")
        bad = 0
        for path in paths:
            found = faults(driver, path)
            count, lacking = fields(driver)
            found += lacking + (keeps(driver) if count else [])
            bad += len(found)
            print(f"{path}: {count} fields: " + ("; ".join(found) if found else "passes"))
    finally:
        driver.quit()
    raise SystemExit(1 if bad else 0)


main([pathlib.Path(argument) for argument in sys.argv[1:]])
