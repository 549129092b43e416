"""First paint of the check-off against a bare Starlette response of the same HTML: `python tests/benchmarks/phone.py`.

Bar: 3. Both are served by uvicorn on this machine and painted by the same headless Chromium; medians of `TIMES`.
"""

from __future__ import annotations

import socket
import statistics
import sys
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import uvicorn
from playwright.sync_api import Page, sync_playwright
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from chromium import launched
from kitlist.base import resources
from kitlist.store import start
from kitlist.store.importing import import_toml
from phone.conftest import DEMO, served

TIMES = 15
PAINT = """() => new Promise(told => {
    setTimeout(() => told(null), 3000);  // a page that the browser did not paint is left out
    new PerformanceObserver((list) => {
        for (const e of list.getEntriesByName('first-contentful-paint')) told(e.startTime);
    }).observe({type: 'paint', buffered: true});
})"""
SERVER = "() => { const n = performance.getEntriesByType('navigation')[0]; return n.responseEnd - n.requestStart; }"


@dataclass
class Times:
    """First contentful paints and the server's answers, ms."""

    paints: list[float] = field(default_factory=list)
    answers: list[float] = field(default_factory=list)

    def take(self, shown: Page, url: str) -> None:
        """Open the page once more."""
        shown.goto(url)
        paint = shown.evaluate(PAINT)
        if paint is not None:
            self.paints.append(paint)
            self.answers.append(shown.evaluate(SERVER))


def bare(html: str) -> str:
    """Serve the same HTML and its two files from a Starlette app that does nothing else; returns its address."""

    async def page(request: Request) -> Response:
        return HTMLResponse(html)

    async def a_file(request: Request) -> Response:
        name = request.path_params["name"]
        if name == "favicon.ico":
            return Response(status_code=404)
        kind = "text/css" if name.endswith(".css") else "text/javascript"
        return Response((resources.folder("templates") / name).read_bytes(), media_type=kind)

    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    listening.listen()
    app = Starlette(routes=[Route("/check-off", page), Route("/{name}", a_file)])
    server = uvicorn.Server(uvicorn.Config(app, log_config=None, lifespan="off"))
    threading.Thread(target=lambda: server.run(sockets=[listening]), daemon=True).start()
    time.sleep(1)
    return f"http://127.0.0.1:{listening.getsockname()[1]}/check-off"


def main() -> None:
    """Measure and print the two ratios."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        store = start(Path(folder) / "kit.db")
        import_toml(store, DEMO)
        browser = launched(playwright.chromium)
        with served(store.path) as ours:
            shown = browser.new_page()
            shown.goto(ours.url)
            shown.goto(f"{ours.base}/check-off")
            shown.get_by_label("Who checks").fill("Ada")
            shown.get_by_role("button", name="Begin").click()
            shown.wait_for_load_state()
            plain, own, other = bare(shown.content()), Times(), Times()
            for _ in range(TIMES):  # by turns: what else the machine does weighs on both
                own.take(shown, f"{ours.base}/check-off")
                other.take(shown, plain)
        browser.close()
    paint = statistics.median(own.paints) / statistics.median(other.paints)
    answer = statistics.median(own.answers) / statistics.median(other.answers)
    print(f"first contentful paint {paint:.2f} of a bare page (bar 3), {len(own.paints)} and {len(other.paints)} times")
    print(f"the server's answer    {answer:.2f}")


if __name__ == "__main__":
    main()
