"""The command line: thin over the front doors. Heavy imports wait inside the command that needs them.

Exit codes: 0 fits, 1 clash, 2 measure first (or nothing could be asked), 3 fits with remedies, 64 malformed (usage
included), 70 our fault.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TextIO

import typer

if TYPE_CHECKING:
    from fitdb.model.problems import Problem
    from fitdb.steps.explain import Display

MALFORMED = 64
OUR_FAULT = 70

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    help="Does this part fit that one? Answers from numbers, for light electric ride-on boards.",
    rich_markup_mode=None,
)

Json = Annotated[bool, typer.Option("--json", help="The same document that the HTTP API gives.")]
Catalogue = Annotated[
    str, typer.Option("--catalogue", help="Database address; otherwise FITDB_URL, otherwise your own SQLite.")
]
Units = Annotated[str, typer.Option("--units", help="mm, in (decimal inches) or frac (inches in fractions).")]

Plan = Annotated[Path, typer.Argument(help="A swap plan: YAML or JSON; `fitdb new` writes one to fill in.")]
Readings = Annotated[
    list[str],
    typer.Option("--reading", help="SEAT.ATTRIBUTE=VALUE, taken since, e.g. rear_truck.size_a='31.6 mm'."),
]
Track = Annotated[
    Path | None,
    typer.Option("--track", help="A way that was ridden, as GPX or CSV: what it takes, and where it is hard."),
]
Rate = Annotated[float | None, typer.Option("--rate", min=0.0, help="A shop's labour in mu per hour: adds a quote.")]


@app.command()
def fit(
    parts: Annotated[
        list[str], typer.Argument(help="Part ids of the catalogue, or YAML/JSON files with parts of your own.")
    ],
    with_: Annotated[list[str], typer.Option("--with", help="ROLE=PART: one more part, or the role of one.")] = [],  # noqa: B006
    reading: Annotated[
        list[str], typer.Option("--reading", help="ROLE.ATTRIBUTE=VALUE, e.g. wheel.window_width='9.0 +-0.1 mm'.")
    ] = [],  # noqa: B006
    limit: Annotated[
        list[str], typer.Option("--limit", help="KEY=NUMBER: a limit of your own instead of the rule's.")
    ] = [],  # noqa: B006
    draw: Annotated[
        str, typer.Option("--draw", help="Write the drawing of the deciding finding to this SVG file.")
    ] = "",
    full: Annotated[bool, typer.Option("--full", help="Tell what holds in all its sentences, too.")] = False,
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """Does A fit B? Every joint where the named parts meet, with margins, reasons and sources."""
    from fitdb.fit import answer, ask
    from fitdb.model.verdict import EXIT_CODES
    from fitdb.rules import rulebook
    from fitdb.sheets.fit_report import fit_report

    display = _display(units)
    with _slow("reading the catalogue"):
        verdict = ask(catalogue or None, parts, with_, reading, limit)
    if draw:
        from fitdb.drawings import draw_verdict

        drawn = draw_verdict(verdict)
        if drawn:
            _write(Path(draw), drawn)
    told = answer(verdict, display)
    _say(told, json, lambda: fit_report(told, rulebook(), width=_width(), full=full))
    raise typer.Exit(EXIT_CODES[verdict.best_allowed])


@app.command()
def swap(
    plan: Plan,
    reading: Readings = [],  # noqa: B006
    compare: Annotated[
        Path | None, typer.Option("--compare", help="Another plan: both are judged and told side by side.")
    ] = None,
    bill: Annotated[Path | None, typer.Option("--bill", help="Write the parts to get to this CSV file.")] = None,
    keep: Annotated[
        bool, typer.Option("--keep", help="Write the readings back to the parts they were taken on.")
    ] = False,
    full: Annotated[bool, typer.Option("--full", help="Tell what holds, and every caution, too.")] = False,
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """A whole board before and after a swap: what clashes, what mends it, what to measure first."""
    from fitdb.model.verdict import EXIT_CODES
    from fitdb.sheets.swap_report import bill_text, comparison_report, swap_report
    from fitdb.swap import ask, compared

    display = _display(units)
    with _slow("judging the board"):
        told = ask(catalogue or None, plan, reading, display, keep)
        other = ask(catalogue or None, compare, [], display) if compare else None
    if bill:
        _write(bill, bill_text(told), "--bill")
    if other is None:
        _say(told, json, lambda: swap_report(told, width=_width(), full=full))
    else:
        both = compared(told, other)
        _say(both, json, lambda: comparison_report(both, width=_width()))
    raise typer.Exit(EXIT_CODES[told["verdict"]])


@app.command()
def ride(
    plan: Plan,
    reading: Readings = [],  # noqa: B006
    track: Track = None,
    full: Annotated[
        bool, typer.Option("--full", help="Tell every figure, with what ends it and what moves it most.")
    ] = False,
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """What the finished board will do: speed, pull, hill, range, brake; before and after, and what limits it."""
    from fitdb.ride import ask
    from fitdb.sheets.ride_report import ride_report

    with _slow("riding it on paper"):
        told = ask(catalogue or None, plan, reading, _display(units), track)
    _say(told, json, lambda: ride_report(told, width=_width(), full=full))


@app.command()
def settings(
    plan: Plan,
    reading: Readings = [],  # noqa: B006
    full: Annotated[bool, typer.Option("--full", help="Tell every link beside each line.")] = False,
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """What to set in the controllers, each value with the link that sets it."""
    from fitdb.settings import ask
    from fitdb.sheets.settings_report import settings_report

    with _slow("working out the settings"):
        told = ask(catalogue or None, plan, reading, _display(units))
    _say(told, json, lambda: settings_report(told, width=_width(), full=full))


@app.command()
def jobcard(
    plan: Plan,
    reading: Readings = [],  # noqa: B006
    rate: Rate = None,
    compare: Annotated[Path | None, typer.Option("--compare", help="Another plan: both cards side by side.")] = None,
    full: Annotated[bool, typer.Option("--full", help="Tell every step with all that belongs to it.")] = False,
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """In which order to take apart, check, alter, rebuild and test, with torques, minutes and cautions."""
    from fitdb.job_card import ask
    from fitdb.sheets.job_card_report import job_card_report

    with _slow("putting the steps in order"):
        told = ask(catalogue or None, plan, reading, _display(units), rate, compare)
    _say(told, json, lambda: job_card_report(told, width=_width(), full=full))


@app.command()
def sheet(
    plan: Plan,
    out: Annotated[Path, typer.Option("-o", "--out", help="The HTML file to write; it prints on A4 and Letter.")],
    reading: Readings = [],  # noqa: B006
    rate: Rate = None,
    track: Track = None,
    units: Units = "mm",
    catalogue: Catalogue = "",
) -> None:
    """One file for the bench: verdict, readings, bill, ride, settings, order of work with tick boxes, drawings."""
    from fitdb.sheet import page

    with _slow("writing the sheet"):
        told = page(catalogue or None, plan, reading, _display(units), rate, track)
    _write(out, told, "--out")
    _tell(f"wrote {out}: open it in a browser, tick it off there, or print it")


@app.command("options")
def options_(
    plan: Plan,
    seat: Annotated[str, typer.Argument(help="A seat by any of its names: wheel, rear_truck, belt.")],
    all_: Annotated[bool, typer.Option("--all", help="Tell every other open seat, too.")] = False,
    why: Annotated[str, typer.Option("--why", help="Why this part cannot stand there, and what would let it in.")] = "",
    alike_to: Annotated[
        str, typer.Option("--alike-to", help="All parts that are as this one in everything, one by one.")
    ] = "",
    sort: Annotated[
        str, typer.Option("--sort", help="best, price, mass, margin, difference or id; always within each verdict.")
    ] = "best",
    where: Annotated[
        list[str], typer.Option("--where", help="READING=VALUE, e.g. width=12mm..16mm: only such parts.")
    ] = [],  # noqa: B006
    limit: Annotated[int, typer.Option("--limit", help="So many parts on a page, at most 200.")] = 10,
    after: Annotated[str, typer.Option("--after", help="The mark at the end of the last page.")] = "",
    seconds: Annotated[float, typer.Option("--seconds", help="Work at most so long, up to 60.")] = 60.0,
    reading: Readings = [],  # noqa: B006
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """Which parts can stand in a seat of a board, each as part of a whole board on which nothing clashes?"""
    from fitdb.choose import ask, typed_conditions
    from fitdb.choosing.pages import Wanted
    from fitdb.sheets.options_report import options_report

    facets = () if json else None
    wanted = Wanted(limit, after, sort, typed_conditions(where), facets, all_, why, alike_to, 1000.0 * seconds)
    with _slow("looking for boards"):
        told = ask(catalogue or None, plan, seat, wanted, _display(units), reading)
    _say(told, json, lambda: options_report(told, width=_width()))
    counts = told["counts"]
    possible = counts["fits"] + counts["measure"] + sum(one["possible"] for one in told["options"])
    raise typer.Exit(0 if possible else 2 if counts["checking"] else 1)


@app.command()
def prepare(
    layout: Annotated[str, typer.Argument(help="A layout, e.g. two_wheel_belt.")],
    seconds: Annotated[float, typer.Option("--seconds", help="Work so long on it.")] = 60.0,
    seed: Annotated[int, typer.Option("--seed", help="Of the boards that are put together.")] = 1,
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """Put boards of a layout together ahead, so that questions for its seats are answered sooner."""
    from fitdb.choosing.prepared import prepare as prepared

    with _slow("putting boards together"):
        told = prepared(catalogue or None, layout, seconds, seed, _tell)
    _say(told, json, lambda: str(told["sentence"]))


@app.command()
def shelf(
    plan: Annotated[Path, typer.Argument(help="A plan whose `shelf` and `donors` list what is owned.")],
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """Which boards of the plan's layout could be built from what is owned? Each is judged, best first."""
    from fitdb.builds import ask_shelf
    from fitdb.sheets.swap_report import shelf_report

    with _slow("putting boards together"):
        told = ask_shelf(catalogue or None, plan, _display(units))
    _say(told, json, lambda: shelf_report(told, width=_width()))
    raise typer.Exit(0 if told["boards"] else 1)


@app.command()
def new(
    layout: Annotated[str, typer.Argument(help="A board layout, e.g. two_wheel_belt; nothing lists them all.")] = "",
    catalogue: Catalogue = "",
) -> None:
    """Write a commented swap plan for a board layout, to fill in."""
    from fitdb.swap import blank

    _tell(blank(catalogue or None, layout))


@app.command()
def find(
    part_class: Annotated[str, typer.Option("--class", help="The class of part wanted, e.g. wheel.")],
    fits: Annotated[
        str, typer.Option("--fits", help="The part, or part file, that it must fit; left out: list the class.")
    ] = "",
    with_: Annotated[list[str], typer.Option("--with", help="ROLE=PART: one more part of the question.")] = [],  # noqa: B006
    all_: Annotated[bool, typer.Option("--all", help="List those that clash as well.")] = False,
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """Which parts of a class fit this one? Each is judged, best first. Without one: all parts of the class."""
    from fitdb.search import find_fitting, listed_class
    from fitdb.sheets.fit_report import class_report, find_report

    if not fits:
        listed = listed_class(catalogue or None, part_class)
        _say(listed, json, lambda: class_report(listed, width=_width()))
        raise typer.Exit(0 if listed["parts"] else 1)
    with _slow(f"judging every {part_class}"):
        answer = find_fitting(catalogue or None, part_class, fits, with_, all_, _display(units))
    _say(answer, json, lambda: find_report(answer, width=_width()))
    raise typer.Exit(0 if answer["found"] else 1)


@app.command()
def show(
    part: Annotated[str, typer.Argument(help="A part id of the catalogue.")],
    units: Units = "mm",
    json: Json = False,
    catalogue: Catalogue = "",
) -> None:
    """Everything that is known of one part: readings with spans and sources, ports, and what nobody has read yet."""
    from fitdb.search import shown_part
    from fitdb.sheets.fit_report import part_report

    answer = shown_part(catalogue or None, part, _display(units))
    _say(answer, json, lambda: part_report(answer, width=_width()))


@app.command()
def rules(
    rule: Annotated[
        str, typer.Argument(help="A rule id such as core_windows.lugs_index, a joint kind, or a J number.")
    ] = "",
    write: Annotated[bool, typer.Option("--write", help="Write the rulebook page from the rule files.")] = False,
    json: Json = False,
) -> None:
    """The rulebook: every rule, or one with its formula, limits, sources and worked examples."""
    from fitdb.rules import rulebook
    from fitdb.search import rules_document
    from fitdb.sheets.rulebook import PAGE, rulebook_page, rules_report

    if write:
        PAGE.write_text(rulebook_page(rulebook()), encoding="utf-8")
        _tell(f"wrote {PAGE}: {len(rulebook().rules)} rules")
        return
    answer = rules_document(rule)
    _say(answer, json, lambda: rules_report(answer, rulebook()))


@app.command()
def tables(
    directory: Annotated[Path, typer.Argument(help="A folder of CSV tables in the form of seed_parts.")],
    check: Annotated[
        bool, typer.Option("--check", help="List every fault by file, row and column; store nothing.")
    ] = False,
    whole: Annotated[
        bool, typer.Option("--whole", help="Check the folder as a catalogue of its own, not as an addition.")
    ] = False,
    catalogue: Catalogue = "",
) -> None:
    """Check a folder of your own tables, or add it to the catalogue: all of it or nothing."""
    from fitdb.catalogue.exchange import check_import, import_directory
    from fitdb.catalogue.seed import check_seed
    from fitdb.catalogue.session import open_catalogue
    from fitdb.model.problems import Problem

    if directory.is_dir() and not any(directory.glob("*.csv")) and not any(directory.glob("*/*.csv")):
        where = "there is no table in this folder."
        _refuse(
            (Problem("nothing_to_read", where, file=str(directory), hint="Tables are CSV files, as in seed_parts."),)
        )
    if whole and not check:
        raise typer.BadParameter("--whole goes with --check")
    if whole:
        _refuse(check_seed(directory))
        _tell(f"{directory}: no faults")
        return
    engine = open_catalogue(catalogue or None)
    try:
        if check:
            _refuse(check_import(engine, directory))
            _tell(f"{directory}: no faults")
            return
        taken = import_directory(engine, directory)
    finally:
        engine.dispose()
    rows = ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in taken.items() if count)
    _tell(f"{directory}: added {rows or 'nothing'}")


def _refuse(faults: tuple[Problem, ...]) -> None:
    from fitdb.model.problems import Malformed

    if faults:
        raise Malformed(faults)


@app.command()
def demo(
    parts: Annotated[int, typer.Option("--parts", min=1, help="How many invented parts.")] = 10_000,
    seed: Annotated[int, typer.Option("--seed", help="The same seed gives the same parts.")] = 1,
    designs: Annotated[
        int | None, typer.Option("--designs", help="Of each class so many different parts; else they grow in number.")
    ] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Take away invented parts that are there first.")] = False,
    catalogue: Catalogue = "",
) -> None:
    """Fill a catalogue with invented parts, marked so, to try it at scale. Name a catalogue of its own."""
    from fitdb.demo import write_demo

    with _slow("inventing parts"):
        told = write_demo(catalogue or None, parts, seed, replace=replace, designs=designs)
    _tell(str(told["sentence"]))


@app.command()
def bench(
    folder: Annotated[Path, typer.Argument(help="Where growth curves (SVG) and figures (JSON) are written.")],
    parts: Annotated[list[int], typer.Option("--parts", help="Sizes of the catalogue, e.g. --parts 10000.")] = [],  # noqa: B006
    seed: Annotated[int, typer.Option("--seed", help="Of the invented parts.")] = 1,
    designs: Annotated[
        int | None, typer.Option("--designs", help="Of each class so many different parts; else they grow in number.")
    ] = None,
) -> None:
    """Measure lists and options on invented catalogues of growing size; minutes to hours, never part of the tests."""
    from fitdb.bench import SIZES, run

    def url_of(many: int) -> str:
        return f"sqlite:///{folder / (f'{many}.sqlite' if designs is None else f'{many}-of-{designs}.sqlite')}"

    run(tuple(parts) or SIZES, urls=[url_of], folder=folder, seed=seed, designs=designs)
    _tell(f"wrote {folder}")


@app.command()
def serve(
    host: Annotated[str, typer.Option(help="Address to listen on.")] = "127.0.0.1",
    port: Annotated[int, typer.Option(min=1, max=65535)] = 8480,
    catalogue: Catalogue = "",
) -> None:
    """Start the JSON API on a catalogue that creates, migrates and fills itself."""
    import uvicorn

    from fitdb.catalogue.session import default_url, open_catalogue

    address = catalogue or default_url()
    with _slow("preparing the catalogue"):
        open_catalogue(address).dispose()
    os.environ["FITDB_URL"] = address
    os.environ["FITDB_HOST"] = host
    base = f"http://{host}:{port}"
    _tell(f"fitdb answers at {base}/v1 (pages: {base}/ and {base}/rules). Try, in another terminal:")
    _tell(f"  curl -s '{base}/v1/parts?class=wheel&limit=3'")
    _tell(
        f"  curl -s {base}/v1/fits -H 'content-type: application/json' "
        '-d \'{"parts": [{"id": "wheel-90-six-window"}, {"id": "driven-36-six-lug"}]}\''
    )
    _tell("The same on whole boards: POST /v1/swaps; at the command line, fitdb swap seed_parts/plans/river-path.yaml")
    _tell("Stop it with Ctrl-C.")
    try:
        uvicorn.run("api.main:create_app", factory=True, host=host, port=port, log_level="warning", server_header=False)
    except SystemExit as stopped:  # uvicorn's own codes would read as verdicts
        if stopped.code:
            raise typer.Exit(MALFORMED) from stopped


def main() -> None:
    """Run the command line; every way of failing has its exit code and a message without a trace."""
    from typer.exceptions import TyperException

    from fitdb.model.problems import Malformed, OurFault

    try:
        code = app(standalone_mode=False)
    except Malformed as malformed:
        _tell_problems(malformed.problems)
        code = MALFORMED
    except typer.Abort:
        code = MALFORMED
    except TyperException as usage:
        told = str(getattr(usage, "format_message", usage.__str__)())
        _tell(told if told.startswith("Usage") else f"fitdb: {told}\nTry 'fitdb --help'.", err=True)
        code = MALFORMED
    except OurFault as fault:
        _tell(f"fitdb: our fault, not yours: {fault}", err=True)
        code = OUR_FAULT
    except Exception as fault:  # the last wall: a person never sees a trace
        _tell(f"fitdb: our fault, not yours ({type(fault).__name__}): {fault}", err=True)
        code = OUR_FAULT
    _close_quietly()
    sys.exit(code if isinstance(code, int) else 0)


def _tell(text: str, err: bool = False) -> None:
    """Prints; a reader who hangs up early changes nothing about the verdict in the exit code."""
    stream = sys.stderr if err else sys.stdout
    try:
        print(text, file=stream, flush=True)
    except BrokenPipeError:
        _discard(stream)


def _discard(stream: TextIO) -> None:
    """Sends what a closed stream still holds nowhere, so that the interpreter does not stumble over it when it ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


def _close_quietly() -> None:
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except BrokenPipeError:
            _discard(stream)


def _tell_problems(problems: tuple[Problem, ...]) -> None:
    count = f"{len(problems)} faults" if len(problems) > 1 else "1 fault"
    _tell(f"fitdb: cannot answer this as it stands ({count}):", err=True)
    for problem in problems:
        _tell(f"  {problem}", err=True)


def _write(file: Path, text: str, option: str = "--draw") -> None:
    from fitdb.model.problems import Malformed, Problem

    try:
        file.write_text(text, encoding="utf-8")
    except OSError as fault:
        why = f"{file} cannot be written ({fault.strerror})."
        raise Malformed([Problem("cannot_write", why, option, hint="Name a file in a folder of yours.")]) from fault


def _display(units: str) -> Display:
    from fitdb.model.problems import Malformed, Problem
    from fitdb.steps.explain import Display

    known = {"mm": Display(), "in": Display("inch"), "frac": Display("inch", True)}
    if units not in known:
        raise Malformed(
            [
                Problem(
                    "unknown_unit_system", f"there is no unit system {units!r}.", "--units", hint="Say mm, in or frac."
                )
            ]
        )
    return known[units]


def _say(answer: object, as_json: bool, report: object) -> None:
    if as_json:
        import json

        _tell(json.dumps(answer, ensure_ascii=False, indent=2))
    else:
        _tell(report())  # type: ignore[operator]


def _width() -> int:
    import shutil

    return min(shutil.get_terminal_size((80, 24)).columns, 120)


class _slow:
    """Says what is being done, on the error stream of a terminal, when it takes more than a second."""

    def __init__(self, what: str) -> None:
        self.what = what

    def __enter__(self) -> None:
        import threading

        self.timer = threading.Timer(1.0, self._say_so)
        self.timer.daemon = True
        self.timer.start()

    def _say_so(self) -> None:
        if sys.stderr.isatty():
            _tell(f"… {self.what}", err=True)

    def __exit__(self, *_: object) -> None:
        self.timer.cancel()
