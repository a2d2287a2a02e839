"""Places on the drawings: touched with a finger, a mouse or the keyboard they lead to their entry."""

from browser.app import Served, picture, settled, watched
from playwright.sync_api import BrowserContext, expect


def test_touching_the_drawing_leads_to_its_entry(context: BrowserContext, shared_app: Served):
    page, watch = watched(context)
    page.goto(f"{shared_app.root}/jobs/1/parts/1.1")
    settled(page)
    places = {
        "Facing": "Facing",
        "Edging width, front": "Edging width",
        "Edging width, left": "Edging width",
        "Corner radius, front left": "Corner radius",
        "Corner radius, rear right": "Corner radius, rear right",  # written by itself
        "Cut-out basin, from the left": "Cut-out basin, from the left",
    }
    plan, form = page.locator("#plan"), page.locator("#entries")
    for place, label in places.items():
        spot = plan.get_by_role("link", name=place, exact=True)
        box = spot.bounding_box()
        assert box is not None
        spot.click()
        expect(form.get_by_label(label, exact=True)).to_be_focused()
    layers = page.locator("#details figure").first
    layers.get_by_role("link", name="Carrier", exact=True).click()
    expect(form.get_by_label("Carrier", exact=True)).to_be_focused()
    plan.get_by_role("link", name="Edging width, right", exact=True).focus()
    picture(page, "part-spot")
    page.keyboard.press("Enter")
    expect(form.get_by_label("Edging width", exact=True)).to_be_focused()
    watch.clean()
