"""A disk whose syncs take time, for all kinds alike: their order by speed hangs on it.

A sync that returns at once, as on some virtual machines, favours whoever syncs most often. Here a
library is put before the C library's `fsync` and `fdatasync` that waits before each; so the files
of SQLite and of a Redis server started from here are as slow as one another. It needs a C compiler.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Final

_ASKED: Final = "--sync-ms"
_WAIT: Final = "WALLSIDE_BENCH_SYNC_US"
_SOURCE: Final = """
#define _GNU_SOURCE
#include <dlfcn.h>
#include <stdlib.h>
#include <time.h>

static void hold(void) {
    const char *set = getenv("%s");
    long us = set ? atol(set) : 0;
    struct timespec wait = {us / 1000000, (us %% 1000000) * 1000};
    nanosleep(&wait, 0);
}

int fsync(int file) {
    static int (*real)(int);
    if (!real) real = dlsym(RTLD_NEXT, "fsync");
    hold();
    return real(file);
}

int fdatasync(int file) {
    static int (*real)(int);
    if (!real) real = dlsym(RTLD_NEXT, "fdatasync");
    hold();
    return real(file);
}
"""


def asked() -> str:
    """Return what the command line says of it, for the table; empty where it says nothing."""
    if _ASKED not in sys.argv:
        return ""
    return f", each sync {float(sys.argv[sys.argv.index(_ASKED) + 1]):g} ms longer"


def begin_anew(module: str) -> None:
    """Run a module of the bench in a process with such a disk, if the command line asks for one.

    Raises:
        SystemExit: It has run, or there is no C compiler.
    """
    if not asked() or _WAIT in os.environ:
        return
    compiler = shutil.which("cc")
    if compiler is None:
        sys.exit("There is no C compiler, `cc`, to slow syncs down with.")
    wait = float(sys.argv[sys.argv.index(_ASKED) + 1]) * 1000
    with tempfile.TemporaryDirectory() as folder:
        source, library = Path(folder) / "slow.c", Path(folder) / "slow.so"
        source.write_text(_SOURCE % _WAIT, encoding="ascii")
        subprocess.run(
            [compiler, "-shared", "-fPIC", "-O2", "-o", library, source, "-ldl"], check=True
        )
        environment = os.environ | {"LD_PRELOAD": str(library), _WAIT: str(int(wait))}
        command = [sys.executable, "-m", module, *sys.argv[1:]]
        raise SystemExit(subprocess.run(command, env=environment, check=False).returncode)
