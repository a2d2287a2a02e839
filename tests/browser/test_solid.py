"""A piece in three dimensions, in a real browser: something is drawn, and every control changes what is seen."""

import io
import re
from pathlib import Path

import numpy as np
import pytest
from browser.app import Served, picture, watched
from browser.test_every_page import SIZES, faults_of
from jobs_as_text import BARE_BELOW
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def cupboard(tmp_path_factory):
    app = Served(tmp_path_factory.mktemp("home"))
    app.start(str(EXAMPLES / "wall-cupboard.toml"))
    yield app
    app.kill()


def solid_page(page: Page, app: Served, piece: int = 1) -> None:
    job = re.search(r"/jobs/\d+", app.address)[0]
    page.goto(f"{app.root}{job}/solid/{piece}")
    page.wait_for_selector("#solid-view[data-frames]")


def seen(page: Page) -> np.ndarray:
    """What stands on the canvas, once it has been drawn after the last change."""
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    shot = page.locator("#solid-view").screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB"), dtype=int)[4:-4, 4:-4]


def share_changed(one: np.ndarray, other: np.ndarray) -> float:
    return float((np.abs(one - other).max(axis=2) > 24).mean())


def drawn_share(image: np.ndarray, paper: np.ndarray | None = None) -> float:
    """How much of the canvas is not bare; its colour is that of the first corner unless told."""
    return float((np.abs(image - (image[0, 0] if paper is None else paper)).max(axis=2) > 8).mean())


def test_every_control_changes_what_is_seen(context: BrowserContext, cupboard: Served):
    page, watch = watched(context)
    solid_page(page, cupboard)
    first = seen(page)
    assert 0.2 < drawn_share(first) < 0.8
    assert len(np.unique(first.reshape(-1, 3), axis=0)) > 20
    page.fill("#apart", "100")
    apart = seen(page)
    assert share_changed(first, apart) > 0.1
    picture(page, "solid-apart")
    page.fill("#apart", "0")
    assert share_changed(first, seen(page)) < 0.002
    for axis in "012":
        page.check(f"input[name=axis][value='{axis}']")
        half = seen(page)
        assert share_changed(first, half) > 0.05, axis
        page.fill("#cut", "250")
        assert share_changed(half, seen(page)) > 0.02, axis
        page.fill("#cut", "500")
        picture(page, f"solid-cut-{axis}")
    assert "mm" in page.locator("#cut-told").inner_text()
    page.check("input[name=axis][value='']")
    for view in ("the front", "the right", "above"):
        page.get_by_role("button", name=view, exact=True).click()
        assert share_changed(first, seen(page)) > 0.1, view
    page.get_by_role("button", name="the corner").click()
    assert share_changed(first, seen(page)) < 0.002
    watch.clean()


def test_one_part_alone_comes_apart_into_its_layers(context: BrowserContext, cupboard: Served):
    page, watch = watched(context)
    solid_page(page, cupboard)
    everything = seen(page)
    page.select_option("#only", "1.9")
    alone = seen(page)
    assert share_changed(everything, alone) > 0.1
    page.fill("#apart", "60")
    assert share_changed(alone, seen(page)) > 0.05
    picture(page, "solid-alone")
    page.fill("#apart", "0")
    page.select_option("#only", "")
    page.get_by_role("button", name="the corner").click()
    assert share_changed(everything, seen(page)) < 0.002
    page.goto(f"{page.url}?part=1.9")
    page.wait_for_selector("#solid-view[data-frames]")
    assert share_changed(alone, seen(page)) < 0.02
    watch.clean()


def test_cut_faces_show_the_material_they_run_through(context: BrowserContext, cupboard: Served):
    """From the right, cut in the middle: a closed ring of wood is seen, no empty skin."""
    page, _ = watched(context)
    solid_page(page, cupboard)
    page.get_by_role("button", name="the right").click()
    whole = seen(page)
    page.check("input[name=axis][value='0']")
    cut = seen(page)
    brown = (cut[..., 0] - cut[..., 2] > 30).mean()
    assert brown > 0.01
    assert brown > 3 * (whole[..., 0] - whole[..., 2] > 30).mean()


def test_it_turns_by_keys_and_by_dragging_and_draws_only_when_asked(
    context: BrowserContext, cupboard: Served
):
    page, watch = watched(context)
    solid_page(page, cupboard)
    first = seen(page)
    page.focus("#solid-view")
    for key in ("ArrowLeft", "ArrowUp", "+", "Shift+ArrowRight"):
        before = seen(page)
        page.keyboard.press(key)
        assert share_changed(before, seen(page)) > 0.02, key
    page.keyboard.press("Home")
    assert share_changed(first, seen(page)) < 0.002
    box = page.locator("#solid-view").bounding_box()
    page.mouse.move(box["x"] + 300, box["y"] + 300)
    page.mouse.down()
    page.mouse.move(box["x"] + 400, box["y"] + 330, steps=4)
    page.mouse.up()
    turned = seen(page)
    assert share_changed(first, turned) > 0.02
    page.mouse.wheel(0, -300)
    assert share_changed(turned, seen(page)) > 0.02
    frames = page.get_attribute("#solid-view", "data-frames")
    page.wait_for_timeout(700)
    assert page.get_attribute("#solid-view", "data-frames") == frames
    watch.clean()


def test_two_fingers_come_nearer(browser: Browser, cupboard: Served):
    context = browser.new_context(viewport={"width": 800, "height": 1200}, has_touch=True)
    page, watch = watched(context)
    solid_page(page, cupboard)
    before = seen(page)
    box = page.locator("#solid-view").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    session = context.new_cdp_session(page)
    for kind, off in (("touchStart", 40), ("touchMove", 80), ("touchMove", 120), ("touchEnd", None)):
        points = [] if off is None else [{"x": x - off, "y": y, "id": 1}, {"x": x + off, "y": y, "id": 2}]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    after = seen(page)
    assert drawn_share(after, before[0, 0]) > 1.3 * drawn_share(before)
    context.close()
    watch.clean()


def test_a_panel_without_a_back_is_seen_to_bow(context: BrowserContext, tmp_path: Path):
    file = tmp_path / "bare.toml"
    file.write_text(BARE_BELOW)
    app = Served(tmp_path)
    try:
        app.start(str(file))
        page, watch = watched(context)
        solid_page(page, app)
        page.get_by_role("button", name="the front").click()
        flat = seen(page)
        rises = page.request.get(f"{app.root}/api/v1/jobs/1/pieces/1/bows").json()[0]["along"]
        page.select_option("#month", str(max(range(12), key=lambda n: abs(rises[n]))))
        with page.expect_response("**/bows"):
            page.select_option("#bow", "50")
        page.wait_for_timeout(300)
        most = seen(page)
        assert share_changed(flat, most) > 0.02
        page.select_option("#bow", "10")
        assert 0 < share_changed(flat, seen(page)) <= share_changed(flat, most)
        page.select_option("#bow", "50")
        picture(page, "solid-bow")
        page.select_option("#bow", "0")
        assert share_changed(flat, seen(page)) < 0.002
        watch.clean()
    finally:
        app.kill()


def test_swedish_and_inch(context: BrowserContext, cupboard: Served):
    """170 mm of 340 are 6.69 in, with the comma of the language."""
    context.add_cookies(
        [{"name": "evenface_units", "value": "inch", "url": cupboard.root},
         {"name": "evenface_language", "value": "sv", "url": cupboard.root}]
    )  # fmt: skip
    page, watch = watched(context)
    solid_page(page, cupboard)
    page.check("input[name=axis][value='1']")
    assert page.locator("#cut-told").inner_text() == "6,69 tum"
    assert page.get_by_label("Ta isär").is_visible()
    watch.clean()


def test_without_webgl_the_piece_is_drawn(context: BrowserContext, cupboard: Served):
    context.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    page, watch = watched(context)
    job = re.search(r"/jobs/\d+", cupboard.address)[0]
    page.goto(f"{cupboard.root}{job}/solid/1")
    page.wait_for_selector("#solid-without:visible")
    assert page.locator("#solid-instead svg").first.is_visible()
    assert not page.locator("#solid-controls").is_visible()
    watch.clean()


def test_nothing_for_axe_to_find_by_day_and_by_night(browser: Browser, cupboard: Served):
    context = browser.new_context()
    page, watch = watched(context)
    faults = []
    for width, height in SIZES.items():
        for scheme in ("light", "dark"):
            page.set_viewport_size({"width": width, "height": height})
            page.emulate_media(color_scheme=scheme)
            solid_page(page, cupboard)
            page.check("#numbered")
            page.check("input[name=axis][value='1']")
            faults += [f"{width} {scheme}: {one}" for one in faults_of(page)]
            picture(page, f"solid-{width}-{scheme}")
    context.close()
    assert not faults, "\n".join(faults)
    watch.clean()
