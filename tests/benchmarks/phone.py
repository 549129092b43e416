"""First paint of the check-off against a bare Starlette response of the same HTML: `python tests/benchmarks/phone.py`.

Bar: 3. Both are served by uvicorn on this machine and painted by the same headless Chromium; medians of `TIMES`.
"""

from __future__ import annotations

import shutil
import socket
import statistics
import sys
import tempfile
import threading
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import uvicorn
from playwright.sync_api import Page, sync_playwright
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

from kitlist import resources
from kitlist.store import start
from kitlist.store.importing import import_toml
from page.conftest import DEMO, served

TIMES = 15
PAINT = """() => new Promise(told => new PerformanceObserver((list) => {
    for (const e of list.getEntriesByName('first-contentful-paint')) told(e.startTime);
}).observe({type: 'paint', buffered: true}))"""
SERVER = "() => { const n = performance.getEntriesByType('navigation')[0]; return n.responseEnd - n.requestStart; }"


def timed(shown: Page, url: str) -> tuple[float, float]:
    """Medians of first contentful paint and of the server's answer, ms."""
    paints, answers = [], []
    for _ in range(TIMES):
        shown.goto(url)
        paints.append(shown.evaluate(PAINT))
        answers.append(shown.evaluate(SERVER))
    return statistics.median(paints), statistics.median(answers)


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
        chromium = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        with served(store.path) as ours:
            shown = chromium.new_page()
            shown.goto(ours.url)
            shown.goto(f"{ours.base}/check-off")
            shown.get_by_label("Who checks").fill("Ada")
            shown.get_by_role("button", name="Begin").click()
            html = shown.content()
            paint, answer = timed(shown, f"{ours.base}/check-off")
            bare_paint, bare_answer = timed(chromium.new_page(), bare(html))
        chromium.close()
    print(f"first contentful paint {paint / bare_paint:.2f} of a bare page (bar 3)")
    print(f"the server's answer    {answer / bare_answer:.2f}")


if __name__ == "__main__":
    main()
