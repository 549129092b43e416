"""The pocket page shows the verdict, the gaps, the steps and the counts of the other faces, on random crews."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from faces.test_agree import faces
from kitlist.base import clean
from kitlist.faces.pocket.build_pocket import build_pocket
from kitlist.outlook.procedure_words import why_barred, worded

SEEDS = range(0, 200, 20)  # a page checks itself by answers that take as long as ten judgements


class Page(HTMLParser):
    """The texts of a page by the class of what holds them."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: dict[str, list[str]] = {}
        self.open: list[tuple[str, str]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in ("meta", "input", "br", "link", "path", "line", "rect", "circle", "polyline", "polygon"):
            name = str(dict(attrs).get("class") or tag)
            self.open.append((tag, name))
            self.found.setdefault(name, []).append("")

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        for _, name in self.open:
            self.found[name][-1] += data


def plain(text: str) -> str:
    """Letters and figures alone: how they are set is the page's own."""
    return re.sub(r"\s+", " ", clean.typeset(clean.plain(text)).replace(" ", " ").replace(" ", " ")).strip()


@pytest.mark.parametrize("seed", SEEDS)
def test_the_pocket_page_says_what_ready_and_the_steps_say(seed: int) -> None:
    seen = faces(seed)
    page = Page(build_pocket(seen.readiness, on=seen.world.on)).found
    assert page["verdict"][0] == seen.readiness.word.upper()
    shown = [plain(text) for text in page.get("strong", [])]
    assert [plain(gap.what) for gap in seen.readiness.gaps] == shown[: len(seen.readiness.gaps)]
    if seen.procedure is None:
        return
    told = {plain(text) for text in page.get("told", [])}
    for why, cure in why_barred(seen.procedure):
        assert plain(f"Do not link it: {why} {cure}") in told
    steps = [plain(text) for text in page.get("step", [])]
    wanted = [
        plain(entry.text) for stage in worded(seen.procedure) for entry in stage.entries if hasattr(entry, "text")
    ]
    for text in wanted:
        assert any(step.startswith(text) for step in steps), text
    assert bool(steps) == bool(wanted)
