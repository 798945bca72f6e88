"""What every test runs under: nothing may leave this machine."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterator
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tests.standin import guard

if TYPE_CHECKING:
    from tests.standin.server import StandIn

# How long an example takes says more of the machine than of the code: speed is the benchmark's affair.
settings.register_profile("steelyard", deadline=None)
settings.load_profile("steelyard")


@pytest.fixture(autouse=True, scope="session")
def no_network() -> Iterator[None]:
    """Refuse connections beyond loopback for the whole session."""
    with guard.guarded():
        yield


@pytest.fixture(autouse=True)
def stays_local(no_network: None) -> Iterator[None]:
    """Fail the test that tried, even when the code under test swallowed the error."""
    before = len(guard.attempts)
    yield
    assert guard.attempts[before:] == [], "a test tried to reach the network"


@pytest.fixture
async def standin() -> AsyncIterator[StandIn]:
    """A loopback Discord; the test fails at its end when the bot broke one of the platform's limits."""
    from tests.standin.server import StandIn  # late: tests of core need no web server

    async with StandIn() as world:
        yield world
