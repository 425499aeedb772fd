"""How much memory this process holds, asked of the machine without any library."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

MEGABYTE = 1_000_000
STATM = Path("/proc/self/statm")  # Linux: sizes in pages, the second is what is held in memory now


def holds_more_than(megabytes: float) -> Callable[[], bool]:
    """A question that is true while the process holds more; never true where the machine does not say how much."""
    bound = megabytes * MEGABYTE
    return lambda: held() > bound


def held() -> int:
    """The bytes that this process holds in memory now, or where only that is told, the most it ever held."""
    if sys.platform == "win32":
        return _windows()
    try:
        return int(STATM.read_bytes().split()[1]) * os.sysconf("SC_PAGE_SIZE")
    except OSError:
        return _most()


def _most() -> int:
    """POSIX: `getrusage`, in bytes on macOS and in units of 1024 bytes anywhere else."""
    import resource

    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most if sys.platform == "darwin" else most * 1024


def _windows() -> int:
    """`GetProcessMemoryInfo`, its structure as in the reference of the Windows API, from memory: `WorkingSetSize`."""
    import ctypes
    from ctypes import wintypes

    class Counters(ctypes.Structure):
        _fields_ = (
            ("cb", wintypes.DWORD),
            ("PageFaultCount", wintypes.DWORD),
            ("PeakWorkingSetSize", ctypes.c_size_t),
            ("WorkingSetSize", ctypes.c_size_t),
            ("QuotaPeakPagedPoolUsage", ctypes.c_size_t),
            ("QuotaPagedPoolUsage", ctypes.c_size_t),
            ("QuotaPeakNonPagedPoolUsage", ctypes.c_size_t),
            ("QuotaNonPagedPoolUsage", ctypes.c_size_t),
            ("PagefileUsage", ctypes.c_size_t),
            ("PeakPagefileUsage", ctypes.c_size_t),
        )

    counters = Counters(cb=ctypes.sizeof(Counters))
    kernel = ctypes.WinDLL("kernel32")  # type: ignore[attr-defined,unused-ignore]
    ask = kernel.K32GetProcessMemoryInfo
    ask.argtypes = (wintypes.HANDLE, ctypes.POINTER(Counters), wintypes.DWORD)
    kernel.GetCurrentProcess.restype = wintypes.HANDLE
    return counters.WorkingSetSize if ask(kernel.GetCurrentProcess(), ctypes.byref(counters), counters.cb) else 0
