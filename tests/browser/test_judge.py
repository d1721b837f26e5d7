"""A picture that will be evidence, judged on the phone: drawn stampings, sharp and spoilt in known
ways, and how often the advice is right."""

import base64
import io
from collections.abc import Iterator

import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFilter, ImageFont
from playwright.sync_api import Page

pytestmark = pytest.mark.browser

SEEDS = range(20)
SIZE = (640, 420)
BLURRED_PX = 4.0
FACE = "SourceCodePro-Medium.otf"


def stamped(seed: int, height: int = 120, level: float = 1.0) -> Image.Image:
    """Six characters struck into grained sheet, their height in pixels, lit at this level."""
    rng = np.random.default_rng(seed)
    grain = rng.normal(0, 9, SIZE[::-1]) + np.linspace(-18, 18, SIZE[0])
    sheet = Image.fromarray(np.clip(132 + grain, 0, 255).astype(np.uint8), "L")
    draw, face = ImageDraw.Draw(sheet), ImageFont.truetype(str(fonts() / FACE), height)
    for at, sign in enumerate(rng.choice(list("0123456789"), 6)):
        place = (30 + at * height * 0.75, 210 - height / 2 + rng.normal(0, 2))
        draw.text((place[0] + 2, place[1] + 2), sign, fill=205, font=face)
        draw.text(place, sign, fill=int(rng.normal(52, 8)), font=face)
    return sheet.filter(ImageFilter.GaussianBlur(0.6)).point(lambda each: each * level)


def fonts():
    """Where the faces lie that the documents are set in."""
    from importlib.resources import files

    return files("witnessmark") / "report" / "press" / "fonts"


def blurred(seed: int) -> Image.Image:
    return stamped(seed).filter(ImageFilter.GaussianBlur(BLURRED_PX))


def glaring(seed: int) -> Image.Image:
    """A lamp mirrored in the sheet, over part of the number."""
    sheet = stamped(seed)
    draw = ImageDraw.Draw(sheet)
    draw.ellipse((150 + seed * 5, 130, 380 + seed * 5, 290), fill=255)
    return sheet.filter(ImageFilter.GaussianBlur(1))


KINDS = {
    "sharp": (stamped, None),
    "blurred": (blurred, "Not sharp"),
    "glare": (glaring, "Glare"),
    "dark": (lambda seed: stamped(seed, level=0.3), "Dark"),
    "small": (lambda seed: stamped(seed, height=26), "Small"),
}


@pytest.fixture(scope="module")
def judge(workshop, browser) -> Iterator[Page]:
    """A page with the judge at hand, in its worker and without it."""
    page = browser.new_page()
    page.goto(workshop("/sign-in"))
    page.evaluate(
        """async () => {
        const { judged } = await import("/static/phone/judge.js");
        const { advised, measured } = await import("/static/phone/judging.js");
        globalThis.told = async (coded, region) => {
          const bytes = Uint8Array.from(atob(coded), (each) => each.charCodeAt(0));
          const image = await createImageBitmap(new Blob([bytes]));
          const { width, height } = image;
          const paint = new OffscreenCanvas(width, height).getContext("2d");
          paint.drawImage(image, 0, 0);
          const picture = { width, height, rgba: paint.getImageData(0, 0, width, height).data };
          const behind = await judged(picture, region);
          return { behind, here: advised(measured(picture, region)) };
        };
        }"""
    )
    yield page
    page.close()


def told(judge: Page, picture: Image.Image, height: int) -> dict:
    """What is said of a picture whose number was drawn round."""
    stream = io.BytesIO()
    picture.save(stream, "PNG")
    region = {"left": 20, "top": 210 - height // 2, "width": 600, "height": height}
    coded = base64.b64encode(stream.getvalue()).decode()
    return judge.evaluate("([coded, region]) => told(coded, region)", [coded, region])


@pytest.mark.parametrize("kind", KINDS)
def test_the_advice_is_right_nineteen_times_in_twenty(judge, kind):
    """Of twenty drawn pictures of each kind at most one gets another advice than it needs."""
    draw, wanted = KINDS[kind]
    found = [told(judge, draw(seed), 34 if kind == "small" else 150) for seed in SEEDS]
    said = [{each["what"] for each in one["here"]["told"]} for one in found]
    assert [one["behind"] == one["here"] for one in found] == [True] * len(found)
    right = [not each if wanted is None else wanted in each for each in said]
    assert sum(right) >= len(SEEDS) - 1
