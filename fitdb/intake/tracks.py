"""A ridden way from a file: GPX (an open standard) or a table, told apart by what stands in them.

Everything is read as a stream and thinned on the way in, so that a file of any length takes bounded memory; a file
of more than a million points is refused, because cutting it silently would shorten the ride.
"""

from __future__ import annotations

import codecs
import io
from collections.abc import Iterator
from contextlib import ExitStack
from itertools import chain
from pathlib import Path
from typing import BinaryIO

from fitdb.intake.csv_tracks import read_csv
from fitdb.intake.gpx_tracks import read_gpx
from fitdb.intake.track_drafts import Faults, Stop
from fitdb.model.problems import Malformed, Problem
from fitdb.model.track import Track

MOST_BYTES = 500_000_000
"""A million points with all that recorders put beside them, at 500 bytes each."""
CHUNK_BYTES = 65_536
PACKED = {b"PK\x03\x04": "zip", b"\x1f\x8b": "gzip"}
MARKS = {codecs.BOM_UTF8: "utf-8-sig", codecs.BOM_UTF16_LE: "utf-16", codecs.BOM_UTF16_BE: "utf-16"}

TrackAndProblems = tuple[Track | None, tuple[Problem, ...]]


def read_track(
    text_or_bytes_or_path: str | bytes | Path, *, file_name: str = "", most_bytes: int = MOST_BYTES
) -> TrackAndProblems:
    """The track in a text, in bytes or at a Path; or None and every fault, at most twenty and how many more there are.

    A str is always the text itself, never a path. `file_name` names the file in faults and, without its ending, a track
    that has no name of its own; a Path has its own. `most_bytes` is how large the file may be. Never raises for
    what stands in a file.
    """
    content = text_or_bytes_or_path
    file_name = file_name or (content.name if isinstance(content, Path) else "")
    faults = Faults(file_name)
    with ExitStack() as opened:
        try:
            stream, encoding = _opened(content, opened)
            track = _read(_chunks(stream, most_bytes, faults), encoding, file_name, faults)
        except OSError as error:
            hint = "Look at its name and at who may read it."
            what = f"The file cannot be read: {error.strerror or error}."
            return None, (faults.problem("unreadable_file", what, hint=hint),)
        except Stop as stop:
            return None, (*faults.all(), stop.problem)
    return (None, faults.all()) if faults.found else (track, ())


def track_of_file(path: Path) -> Track:
    """The track in a file; Malformed with every fault where there is none."""
    track, problems = read_track(path)
    if track is None:
        raise Malformed(problems)
    return track


def _opened(content: str | bytes | Path, opened: ExitStack) -> tuple[BinaryIO, str | None]:
    """The bytes of what was handed over, and their encoding where it is known: a text is decoded already."""
    if isinstance(content, Path):
        return opened.enter_context(content.open("rb")), None
    if isinstance(content, bytes):
        return io.BytesIO(content), None
    return io.BytesIO(content.removeprefix("\N{ZERO WIDTH NO-BREAK SPACE}").encode("utf-8", "replace")), "utf-8"


def _chunks(stream: BinaryIO, most_bytes: int, faults: Faults) -> Iterator[bytes]:
    size = 0
    while chunk := stream.read(CHUNK_BYTES):
        size += len(chunk)
        if size > most_bytes:
            what = f"The file is larger than {most_bytes / 1e6:g} MB."
            hint = "Export it with fewer points (one each 5 m is all that is used), or split it into its rides."
            raise Stop(faults.problem("too_large", what, hint=hint))
        yield chunk


def _read(chunks: Iterator[bytes], encoding: str | None, file_name: str, faults: Faults) -> Track | None:
    head = next(chunks, b"")
    for mark, kind in PACKED.items():
        if head.startswith(mark):
            what = f"The file is packed ({kind})."
            raise Stop(faults.problem("packed_file", what, hint="Unpack it and hand over the GPX or CSV file inside."))
    marked = next((name for mark, name in MARKS.items() if head.startswith(mark)), None)
    shown = head[:CHUNK_BYTES].decode(encoding or marked or "utf-8", "replace").lstrip()
    title = Path(file_name).stem if file_name else "track"
    everything = chain((head,), chunks)
    if shown.startswith("<"):
        return read_gpx(everything, file_name=file_name, title=title, encoding=encoding, faults=faults)
    return read_csv(everything, file_name=file_name, title=title, encoding=encoding or marked, faults=faults)
