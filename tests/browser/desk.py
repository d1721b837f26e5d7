"""What hands do at the pages of a case, by the pages' own controls, until the page says so."""

import re

from playwright.sync_api import Locator, Page, expect


def saved(page: Page) -> None:
    """Wait until the page says that all is saved."""
    expect(page.locator("#saved")).to_have_attribute("data-state", "saved", timeout=60_000)


def step(page: Page, name: str) -> None:
    """To a page of the case, by the line of its way."""
    way = page.get_by_role("navigation", name="The way of this case")
    way.get_by_role("link", name=re.compile(f"^{name}")).click()
    expect(way.locator("[aria-current]")).to_contain_text(name)


def open_folded(within: Locator) -> None:
    """Open what is folded away around or inside of it."""
    for each in within.locator("details:not([open]) > summary").all():
        if each.is_visible():
            each.click()


def reading_form(page: Page, mark: str) -> Locator:
    """The form in which the signed-in person reads this mark."""
    form = page.locator(f'form.reading-form[data-of="{mark}"]').first
    if not form.is_visible():
        page.locator("details", has=form).last.locator("> summary").click()
    return form


def read(page: Page, mark: str, text: str, legibility: str = "clear") -> None:
    """Type a reading: into the windows of a plate as they lie on the metal, else in one go; then
    say how well it can be read."""
    form = reading_form(page, mark)
    windows = form.locator('[name^="window-"]')
    if windows.count():
        for at, part in enumerate(text.split("|")):
            form.locator(f'[name="window-{at}"]').fill(part.strip())
    else:
        form.locator('[name="text"]').fill(text)
    if set(text) - set("_~? "):
        choose(form, "legibility", legibility)
    saved(page)


def choose(form: Locator, name: str, value: str) -> None:
    """Choose an answer by its label, where it is not chosen."""
    answer = f'[name="{name}"][value="{value}"]'
    if not form.locator(answer).is_checked():
        form.locator(f"label:has({answer})").click()
