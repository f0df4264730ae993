"""Front door: how fitdb bears a large catalogue, measured on this machine and drawn as growth curves.

Every figure stands beside what the bare driver takes for the same statements, in the same run. The machine is shared
and warm or cold as it happens to be: read ratios and slopes, not milliseconds.
"""

from __future__ import annotations

import http.client
import json
import math
import os
import socket
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fitdb.asked_readings import readings_asked
from fitdb.catalogue import read
from fitdb.catalogue.asked import plan_of_file
from fitdb.catalogue.asked_before import forget_found
from fitdb.catalogue.find_parts import page_by_id, parts_with
from fitdb.catalogue.floor import driver_seconds, recorded
from fitdb.catalogue.part_conditions import Wanted
from fitdb.catalogue.paths import SEED
from fitdb.catalogue.session import open_catalogue
from fitdb.catalogue.snapshot import PartSnapshot
from fitdb.choosing.kept import opened
from fitdb.demo import write_demo
from fitdb.drawings.charts import chart_svg
from fitdb.fit_table import fill_fit_table
from fitdb.model.outlook import Chart, Series
from fitdb.model.plan import FitQuestion
from fitdb.model.problems import OurFault
from fitdb.options import Budget, options
from fitdb.part_search import PartSearch
from fitdb.rules import rulebook
from fitdb.search import classes_like

SIZES = (10_000, 100_000, 1_000_000)
QUESTIONS = 6  # parts that others are to fit, each asked for the first time and again
PAGE = 20
FILL_SECONDS = 30.0
LAYOUT = "two_wheel_belt"
BOARD, SEAT = "river-path.yaml", "motor"  # the board as it stands, and the seat that is opened
MOST_FOR_OPTIONS = 200_000  # parts that all differ: options look at each of them, and hold some 5 kB of it
OPTIONS = Budget(600_000)
SERVER_SECONDS = 120.0
FIGURES: dict[str, tuple[str, str]] = {
    "demo_parts_per_second": ("Invented parts written in a second", "1/s"),
    "page_driver_ms": ("First page, the bare driver with the same statements", "ms"),
    "page_sql_ms": ("First page, the same through fitdb, not judged", "ms"),
    "page_first_ms": ("First page of what fits, never asked before, over HTTP", "ms"),
    "page_again_ms": ("First page of what fits, asked again, over HTTP", "ms"),
    "http_floor_ms": ("An answer without a body, over HTTP", "ms"),
    "list_ms": ("First page of a class, over HTTP", "ms"),
    "list_driver_ms": ("First page of a class, the bare driver", "ms"),
    "fit_table_seconds": ("Table of pairs, asked anew", "s"),
    "options_first_ms": ("Motors that can stand on a whole board, never asked before", "ms"),
    "options_stored_ms": ("Motors that can stand on a whole board, asked by another process before", "ms"),
    "options_again_ms": ("Motors that can stand on a whole board, asked again", "ms"),
    "options_mb": ("Memory of a process that has answered it", "MB"),
    "snapshot_seconds": ("All parts of a layout's classes in memory", "s"),
    "snapshot_mb": ("Memory for them", "MB"),
    "signatures": ("Different parts among them", ""),
}


@dataclass(frozen=True, slots=True)
class Measured:
    """The figures of one catalogue: `database` is sqlite or postgresql, `figures` by the keys of FIGURES."""

    database: str
    parts: int
    figures: dict[str, float]


def run(
    parts: Sequence[int] = SIZES,
    *,
    urls: Sequence[Callable[[int], str]],
    folder: Path | None = None,
    seed: int = 1,
    keep: bool = True,
    designs: int | None = None,
    told: Callable[[str], None] = print,
) -> list[Measured]:
    """Measures every size on every database and writes growth curves as SVG and all figures as JSON into `folder`.

    designs: so many different parts of each class, however many parts there are; None lets them grow.
    urls: for each database the address of a catalogue of so many parts; it is filled unless it holds as many invented
    parts already (`keep`). OSError when the folder cannot be written.
    """
    found = []
    for many in parts:
        for url_of in urls:
            found.append(measured(url_of(many), many, seed, keep, told, designs))
            told(json.dumps({"database": found[-1].database, "parts": many, **found[-1].figures}))
    if folder is not None:
        write_curves(found, folder)
    return found


def measured(
    url: str, parts: int, seed: int, keep: bool, told: Callable[[str], None], designs: int | None = None
) -> Measured:
    """One catalogue, filled where it is not, and all that is measured of it."""
    figures: dict[str, float] = {}
    database = "postgresql" if url.startswith("postgresql") else "sqlite"
    if not keep or _invented(url) < parts:
        told(f"writing {parts} invented parts on {database}")
        figures["demo_parts_per_second"] = write_demo(url, parts, seed, replace=True, designs=designs)[
            "parts_per_second"
        ]
    told(f"asking pairs of interfaces, for {FILL_SECONDS:.0f} s at most")
    filled = fill_fit_table(url, FILL_SECONDS)
    if not filled.left and filled.stored:
        figures["fit_table_seconds"] = round(filled.seconds, 2)
    figures |= _pages(url)
    figures |= _over_http(url)
    figures |= _in_a_process_of_its_own(url, "snapshot_figures")
    if parts <= MOST_FOR_OPTIONS or designs is not None:
        _forget(url)
        figures |= _in_a_process_of_its_own(url, "options_figures")
        figures["options_stored_ms"] = _in_a_process_of_its_own(url, "options_figures")["options_first_ms"]
    return Measured(database, parts, figures)


def _invented(url: str) -> int:
    from fitdb.catalogue.bulk import marked
    from fitdb.demo.invented import MARK

    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            return marked(connection, MARK)
    finally:
        engine.dispose()


def _pages(url: str) -> dict[str, float]:
    """The statements of a first page, through fitdb and through the bare driver; nothing is judged."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            search = PartSearch(book, rulebook())
            classes = classes_like("wheel", book)
            known = _asked_parts(connection)
            ours, bare = [], []
            for own in known:
                part = read.part(connection, own)
                assert part is not None
                beside = search.beside_parts(FitQuestion((("", part),)), classes)
                wanted = search.narrowed(connection, Wanted(classes), beside, False, lambda: False)
                once, statements = _timed_page(connection, search, wanted)
                ours.append(once)
                bare.append(driver_seconds(connection, statements))
            _, statements = _timed_page(connection, search, Wanted(classes))
            return {
                "page_sql_ms": _ms(ours),
                "page_driver_ms": _ms(bare),
                "list_driver_ms": _ms([driver_seconds(connection, statements[:3])]),
            }
    finally:
        engine.dispose()


def _timed_page(connection: Any, search: PartSearch, wanted: Wanted) -> tuple[float, list[Any]]:
    """A page with its parts read whole, warm: the median of several, and the statements it takes."""

    def page() -> None:
        found = page_by_id(connection, wanted, search.shelf, "", PAGE + 1)
        interfaces = search.shelf.interfaces(connection)
        parts_with(connection, [one.id for one in found], search.book.table.sources, interfaces)

    page()
    with recorded(connection) as statements:
        page()
    taken = []
    for _ in range(9):
        begin = time.perf_counter()
        page()
        taken.append(time.perf_counter() - begin)
    return statistics.median(taken), list(statements)


def _forget(url: str) -> None:
    engine = open_catalogue(url)
    forget_found(engine)
    engine.dispose()


def options_figures(url: str) -> dict[str, float]:
    """Which parts can stand in one seat of a whole board, at first and then when all is known: thread time.

    What was found out is stored, so that another process that asks the same finds it there.
    """
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            plan = plan_of_file(connection, book, SEED / "plans" / BOARD)
        kept = opened(PartSnapshot(engine), book, rulebook(), book.patterns[plan.pattern], {})
        chosen = {piece.seat: piece.part for piece in plan.before if not piece.seat.endswith(SEAT)}
        taken = []
        for _ in range(2):
            begin = time.thread_time()
            options(
                book, rulebook(), kept.snapshot.pattern, kept.parts_of_class, chosen, SEAT,
                budget=OPTIONS, snapshot=kept.snapshot,
            )  # fmt: skip
            taken.append(round((time.thread_time() - begin) * 1e3, 1))
        kept.store()
        return {"options_first_ms": taken[0], "options_again_ms": taken[1], "options_mb": round(_resident_mb(), 1)}
    finally:
        engine.dispose()


def _asked_parts(connection: Any) -> list[str]:
    pulleys = read.parts(connection, classes=("driven_pulley",), limit=QUESTIONS * 3)
    return [part.id for part in pulleys if part.ports][:QUESTIONS]


def _over_http(url: str) -> dict[str, float]:
    """The same pages from a server of its own, one request at a time over one connection."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            known = _asked_parts(connection)
    finally:
        engine.dispose()
    with _server(url) as port:
        client = http.client.HTTPConnection("127.0.0.1", port, timeout=300)

        tags: list[str] = []

        def seconds(address: str, headers: dict[str, str] | None = None) -> float:
            begin = time.perf_counter()
            client.request("GET", address, headers=headers or {})
            response = client.getresponse()
            body = response.read()
            taken = time.perf_counter() - begin
            if response.status not in (200, 304):
                raise OurFault(f"{address} was answered with {response.status}: {body[:200]!r}")
            tags.append(response.headers["etag"])
            return taken

        seconds("/v1/parts?limit=1")
        seconds(f"/v1/parts?class=wheel&fits={known[-1]}&limit={PAGE}")  # the table of pairs is read once per server
        first, again = [], []
        for own in known[:-1]:
            address = f"/v1/parts?class=wheel&fits={own}&limit={PAGE}"
            first.append(seconds(address))
            again += [seconds(address) for _ in range(9)]
        listed = [seconds(f"/v1/parts?class=wheel&limit={PAGE}") for _ in range(20)]
        unchanged = [seconds(f"/v1/parts?class=wheel&limit={PAGE}", {"if-none-match": tags[-1]}) for _ in range(20)]
        client.close()
    return {
        "page_first_ms": _ms(first),
        "page_again_ms": _ms(again),
        "list_ms": _ms(listed),
        "http_floor_ms": _ms(unchanged),
    }


@contextmanager
def _server(url: str) -> Iterator[int]:
    """`fitdb serve` on a free port, ended by its own id."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        port = int(listening.getsockname()[1])
    command = [sys.executable, "-c", "from fitdb.cli import main; main()", "serve", "--port", str(port)]
    environment = {**os.environ, "FITDB_URL": url}
    with subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as process:
        try:
            ends = time.monotonic() + SERVER_SECONDS
            while time.monotonic() < ends and process.poll() is None:
                try:
                    socket.create_connection(("127.0.0.1", port), 1).close()
                    break
                except OSError:
                    time.sleep(0.1)
            yield port
        finally:
            process.terminate()
            process.wait(30)


def _in_a_process_of_its_own(url: str, figures: str) -> dict[str, float]:
    """Figures by the name of a function here: memory that a process has had before is no measure of what it needs."""
    program = f"import json, os; from fitdb.bench import {figures} as s; print(json.dumps(s(os.environ['FITDB_URL'])))"
    told = subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, "FITDB_URL": url},
        stdout=subprocess.PIPE,
        check=True,
    )
    return {key: float(value) for key, value in json.loads(told.stdout).items()}


def snapshot_figures(url: str) -> dict[str, float]:
    """All parts of the classes that a layout's seats take, as signatures of what its rules can read."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
        asked = readings_asked(book.patterns[LAYOUT], book, rulebook())
        snapshot = PartSnapshot(engine, asked.get)
        before, begin = _resident_mb(), time.perf_counter()
        count = sum(len(snapshot.parts_of_class(own)) for own, names in asked.items() if names)
        taken = time.perf_counter() - begin
        return {
            "snapshot_seconds": round(taken, 2),
            "snapshot_mb": round(_resident_mb() - before, 1),
            "signatures": float(count),
        }
    finally:
        engine.dispose()


def write_curves(found: Sequence[Measured], folder: Path) -> list[str]:
    """One chart per figure over the number of parts, and all figures as JSON; the names of the files."""
    folder.mkdir(parents=True, exist_ok=True)
    told = [{"database": one.database, "parts": one.parts, **one.figures} for one in found]
    (folder / "figures.json").write_text(json.dumps(told, indent=1) + "\n", "utf-8")
    written = ["figures.json"]
    for key, (title, unit) in FIGURES.items():
        series = []
        for database in dict.fromkeys(one.database for one in found):
            here = [one for one in found if one.database == database and key in one.figures]
            if here:
                x = tuple(math.log10(one.parts) for one in here)
                y = tuple(float(one.figures[key]) for one in here)
                series.append(Series(database, "as_asked", "main", x, y))
        if series:
            sentence = "Powers of ten: 4 is ten thousand parts, 6 is a million."
            chart = Chart(key, title, sentence, "parts, power of ten", "", title, unit, tuple(series))
            (folder / f"{key}.svg").write_text(chart_svg(chart), "utf-8")
            written.append(f"{key}.svg")
    return written


def _ms(seconds: Sequence[float]) -> float:
    return round(statistics.median(seconds) * 1e3, 3)


def _resident_mb() -> float:
    """Resident memory of this process; 0 where the system does not tell."""
    try:
        pages = int(Path("/proc/self/statm").read_text("ascii").split()[1])
    except (OSError, IndexError, ValueError):
        return 0.0
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
