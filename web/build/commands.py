"""Running other programs: found first, shown while they run, and explained in one line when they fail."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from build.failure import BuildError

#: What npm and pip print when a registry cannot be reached. Common practice, from memory of their messages.
_NO_NETWORK = (
    "ENOTFOUND",
    "EAI_AGAIN",
    "ECONNREFUSED",
    "ECONNRESET",
    "ENETUNREACH",
    "ETIMEDOUT",
    "NewConnectionError",
    "ConnectTimeoutError",
    "Connection refused",
    "Failed to establish a new connection",
    "Name or service not known",
    "Temporary failure in name resolution",
    "network is unreachable",
)


def find_node(*, oldest: tuple[int, int]) -> tuple[str, str]:
    """Find Node.js and npm.

    Parameters
    ----------
    oldest : tuple of int
        The oldest version that will do: major, minor.

    Returns
    -------
    tuple of str
        The programs `node` and `npm`.

    Raises
    ------
    BuildError
        One of them is missing, or Node.js is too old.
    """
    wanted = f"Node.js {oldest[0]}.{oldest[1]} or newer"
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        missing = "Node.js" if node is None else "npm"
        raise BuildError(
            f"{missing} is missing", f"install {wanted} with npm (on Debian: apt-get install nodejs npm)"
        )
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout.strip()
    try:
        major, minor = (int(part) for part in said.lstrip("v").split(".")[:2])
    except ValueError:
        raise BuildError(f"Node.js gave no version ({said or 'nothing'})", f"install {wanted}") from None
    if (major, minor) < oldest:
        raise BuildError(f"Node.js {said} is too old", f"install {wanted}")
    return node, npm


def need_pip() -> None:
    """Make sure that this Python has pip.

    Raises
    ------
    BuildError
        It has none.
    """
    if subprocess.run(
        [sys.executable, "-m", "pip", "--version"], capture_output=True, check=False
    ).returncode:
        raise BuildError(
            "this Python has no pip",
            "install it (on Debian: apt-get install python3-pip; elsewhere: python -m ensurepip)",
        )


def run(command: Sequence[str | Path], *, cwd: Path, what: str, env: Mapping[str, str] | None = None) -> None:
    """Run a program to its end and show what it prints.

    Parameters
    ----------
    command : sequence of str or Path
        The program and its arguments.
    cwd : Path
        Where it runs.
    what : str
        What it does, for the message when it fails.
    env : mapping, optional
        Its environment; this process's own when absent.

    Raises
    ------
    BuildError
        It could not be run, or ended with a failure.
    """
    tail: list[str] = []
    try:
        with subprocess.Popen(
            [str(part) for part in command],
            cwd=cwd,
            env=env,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            stdin=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
            errors="replace",
        ) as process:
            for line in process.stdout or ():
                tail = [*tail[-199:], line]
                print(f"    {line.rstrip()}", flush=True)
    except OSError as wrong:
        raise BuildError(f"{what} could not be started ({wrong})", "install the program again") from wrong
    if process.returncode == 0:
        return
    said = "".join(tail)
    if any(sign.lower() in said.lower() for sign in _NO_NETWORK):
        raise BuildError(
            f"{what} failed, for there is no network", "connect, then run the same command again"
        )
    raise BuildError(f"{what} failed (exit status {process.returncode})", "see what it printed above")
