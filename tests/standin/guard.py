"""Refuses every connection that leaves this machine, and remembers that it was tried."""

from __future__ import annotations

import ipaddress
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

SENTENCE = "a connection beyond this machine was refused"
attempts: list[str] = []


class NetworkUsedError(ConnectionError):
    """Something tried to reach the outside. A ConnectionError, so that a client fails as if offline."""


def is_local(host: object) -> bool:
    """Loopback addresses and names, and the empty host (bind to any)."""
    name = host.decode("ascii", "replace") if isinstance(host, bytes) else str(host or "")
    if name in ("", "localhost"):
        return True
    try:
        return ipaddress.ip_address(name.partition("%")[0]).is_loopback
    except ValueError:
        return False


def _check(host: object) -> None:
    if not is_local(host):
        attempts.append(str(host))
        raise NetworkUsedError(f"{SENTENCE}: {host}")


def _guarded(method: Callable[..., Any]) -> Callable[..., Any]:
    def call(self: socket.socket, *args: Any) -> Any:
        address = args[-1]
        if self.family in (socket.AF_INET, socket.AF_INET6) and isinstance(address, tuple):
            _check(address[0])
        return method(self, *args)

    return call


def install() -> Callable[[], None]:
    """Put the guard in place; returns what takes it away again."""
    names = ("connect", "connect_ex", "sendto")
    kept = {name: getattr(socket.socket, name) for name in names}
    resolve = socket.getaddrinfo

    def getaddrinfo(host: Any, *args: Any, **more: Any) -> Any:
        _check(host)
        return resolve(host, *args, **more)

    for name, method in kept.items():
        setattr(socket.socket, name, _guarded(method))
    socket.getaddrinfo = getaddrinfo

    def restore() -> None:
        # the methods belong to the C class below; taking ours away uncovers them
        for name in names:
            delattr(socket.socket, name)
        socket.getaddrinfo = resolve

    return restore


@contextmanager
def guarded() -> Iterator[list[str]]:
    """The guard for a while; gives the list of refused hosts."""
    restore = install()
    try:
        yield attempts
    finally:
        restore()
