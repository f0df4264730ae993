"""The application: `uvicorn api.main:create_app --factory`, or `fitdb serve`."""

from __future__ import annotations

import os
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from anyio import to_thread
from fastapi import FastAPI
from starlette.middleware.cors import CORSMiddleware

from api import (
    boards,
    classes,
    fits,
    interfaces,
    jobcards,
    layouts,
    options,
    pages,
    part_readings,
    parts,
    patterns,
    plans,
    rides,
    rules,
    schemas,
    settings_sheets,
    sources,
    swaps,
    words,
)
from api.desk import Desk
from api.guards import BodyLimit, HeadAsGet, LastWall, SecurityHeaders
from api.openapi import described, parameters_of
from api.problems import install_handlers
from api.replies import VERSION
from api.writes import BOUND_TO
from fitdb.choosing.kept import Snapshots

# More threads than cores only lengthen the worst answers; a pool of connections never has to hold more either.
MOST_AT_ONCE = 8
RESOURCES = (
    pages,
    classes,
    parts,
    part_readings,
    interfaces,
    fits,
    swaps,
    options,
    rides,
    settings_sheets,
    jobcards,
    layouts,
    boards,
    plans,
    patterns,
    rules,
    sources,
    words,
    schemas,
)


def create_app(url: str | None = None) -> FastAPI:
    """The API on the catalogue at `url` (none: FITDB_URL, else the default place), opened when the server starts.

    FITDB_CORS_ORIGINS names the origins whose pages may ask, separated by commas; without it none may.
    FITDB_HOST says which address the server listens on: on any but this machine's own it takes no changes.
    """

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        to_thread.current_default_thread_limiter().total_tokens = MOST_AT_ONCE
        desk = await to_thread.run_sync(Desk, url)
        app.state.desk = desk
        app.state.snapshots = Snapshots(desk.ask)
        try:
            yield
        finally:
            await to_thread.run_sync(app.state.snapshots.close)
            desk.close()

    app = FastAPI(
        title="fitdb",
        version=VERSION,
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        redirect_slashes=False,
        lifespan=lifespan,
    )
    for resource in RESOURCES:
        app.include_router(resource.router)
    install_handlers(app)
    document = described(app)
    app.openapi = lambda: document  # type: ignore[method-assign]
    app.state.bound_to = os.environ.get(BOUND_TO, "").strip()
    app.state.parameters = parameters_of(document)
    # The last one added stands outermost.
    app.add_middleware(BodyLimit)
    app.add_middleware(LastWall)
    app.add_middleware(HeadAsGet)
    origins = [origin.strip() for origin in os.environ.get("FITDB_CORS_ORIGINS", "").split(",") if origin.strip()]
    if origins:
        app.add_middleware(
            CORSMiddleware,
            allow_origins=origins,
            allow_methods=["GET", "HEAD", "POST", "PUT", "DELETE"],
            allow_headers=["content-type", "if-match", "if-none-match"],
            expose_headers=["etag", "link", "location"],
        )
    app.add_middleware(SecurityHeaders)
    return app
