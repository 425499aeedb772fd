"""Files that use files: what is read, and what is told when it cannot be."""

from __future__ import annotations

import hashlib
import posixpath

import pytest

from logiccheck.base import limits
from logiccheck.lang.load import Loaded, Unreadable, load
from tests.lang.showing import show_all

VEHICLE = 'vehicle "Van"\nworld\n    horn contact\n'
Files = dict[str, bytes | str | Unreadable]


def load_files(files: Files, main: str = "van.circuit", also: tuple[str, ...] = ()) -> Loaded:
    """The vehicle of files by path; every path is read in its normal form, others are missing."""

    def reader(path: str) -> bytes | Unreadable:
        found = files.get(posixpath.normpath(path), Unreadable.MISSING)
        return found.encode() if isinstance(found, str) else found

    return load(main, reader, also)


def test_a_used_file_is_part_of_the_program() -> None:
    """Names of all files see each other, whatever uses what; each file is listed with what its bytes amount to."""
    used = "harness\n    wire horn_wire from plus when horn\n"
    loaded = load_files({"van.circuit": f'use "parts/horn.circuit"\n{VEHICLE}harness\n    source plus\n',
                         "parts/horn.circuit": used})  # fmt: skip
    assert loaded.program is not None, show_all(loaded)
    assert [wire.name for wire in loaded.program.wires] == ["horn_wire"]
    assert [file.path for file in loaded.files] == ["van.circuit", "parts/horn.circuit"]
    assert loaded.files[1].sha256 == hashlib.sha256(used.encode()).hexdigest()
    assert loaded.texts["parts/horn.circuit"] == used


def test_paths_are_relative_to_the_file_that_uses() -> None:
    """`parts/a` uses `b` beside it and `../c` above it; the main file may lie anywhere itself."""
    files: Files = {
        "home/van/main.circuit": f'use "parts/a.circuit"\n{VEHICLE}',
        "home/van/parts/a.circuit": 'use "b.circuit"\nuse "../c.circuit"\n',
        "home/van/parts/b.circuit": "world\n    b contact\n",
        "home/van/c.circuit": "world\n    c contact\n",
    }
    loaded = load_files(files, "home/van/main.circuit")
    assert loaded.program is not None, show_all(loaded)
    assert [switch.name for switch in loaded.program.switches] == ["horn", "b", "c"]


def test_a_file_used_twice_is_read_once() -> None:
    """Two files may use the same third one, under two spellings of its path."""
    files: Files = {
        "van.circuit": f'use "a.circuit"\nuse "b.circuit"\n{VEHICLE}',
        "a.circuit": 'use "c.circuit"\n',
        "b.circuit": 'use "./x/../c.circuit"\n',
        "c.circuit": "world\n    c contact\n",
    }
    loaded = load_files(files)
    assert loaded.program is not None, show_all(loaded)
    assert len(loaded.files) == 4


@pytest.mark.parametrize(
    "text",
    ["\ufeff" + VEHICLE, VEHICLE.replace("\n", "\r\n"), VEHICLE.replace("\n", "\r"), VEHICLE.rstrip("\n")],
    ids=["byte order mark", "CRLF", "CR", "no last line end"],
)
def test_encodings_that_are_read(text: str) -> None:
    """A byte order mark and all line ends are fine, and places count as if they were not there."""
    loaded = load_files({"van.circuit": text})
    assert loaded.program is not None, show_all(loaded)
    assert loaded.files[0].text.rstrip("\n") == VEHICLE.rstrip("\n")


def test_a_story_is_read_beside_the_main_file() -> None:
    """A file with a scenario only, that uses nothing, may lie outside the folder."""
    story = "scenario found\n    at 1 s horn is on\n"
    loaded = load_files(
        {"van/van.circuit": VEHICLE, "stories/s.circuit": story}, "van/van.circuit", ("stories/s.circuit",)
    )
    assert loaded.program is not None, show_all(loaded)
    assert [scenario.name for scenario in loaded.program.scenarios] == ["found"]


MANY: Files = {f"f{i}.circuit": f'use "f{i + 1}.circuit"\n' for i in range(limits.FILES + 5)}

CASES: dict[str, tuple[Files, str]] = {
    "the main file is missing": (
        {},
        "van.circuit:1:1 E101 cannot-open\n\n    ^\n"
        "  `van.circuit` cannot be read: there is no such file.\n"
        "  Name a file with the ending .circuit.",
    ),
    "a used file is a folder": (
        {"van.circuit": 'use "parts"\n' + VEHICLE, "parts": Unreadable.FOLDER},
        'van.circuit:1:1 E101 cannot-open\n    use "parts"\n    ^^^^^^^^^^^\n'
        "  `parts` cannot be read: it is a folder.\n"
        "  Name a file with the ending .circuit.",
    ),
    "names of a missing file are not asked for": (
        {"van.circuit": f'use "parts.circuit"\n{VEHICLE}harness\n    wire horn_wire from plus when bell\n'},
        'van.circuit:1:1 E101 cannot-open\n    use "parts.circuit"\n    ^^^^^^^^^^^^^^^^^^^\n'
        "  `parts.circuit` cannot be read: there is no such file.\n"
        "  Name a file with the ending .circuit.",
    ),
    "another encoding": (
        {"van.circuit": VEHICLE.encode("utf-16")},
        "van.circuit:1:1 E102 not-utf-8\n\n    ^\n"
        "  `van.circuit` is not text in UTF-8; it seems to be UTF-16.\n"
        "  Save it again with the encoding UTF-8: every editor can.",
    ),
    "bytes of no encoding": (
        {"van.circuit": b"vehicle \xff\xfe\xfa"},
        "van.circuit:1:1 E102 not-utf-8\n\n    ^\n"
        "  `van.circuit` is not text in UTF-8: in line 1 stands a byte that belongs to no letter (byte 9 of the file, FF in hexadecimal).\n"
        "  Save it again with the encoding UTF-8: every editor can.",
    ),
    "letters of an old encoding": (
        {
            "van.circuit": "\ufeff".encode()
            + VEHICLE.replace("\n", "\r\n").replace("horn", "t\u00fcr").encode("latin-1")
        },
        "van.circuit:1:1 E102 not-utf-8\n\n    ^\n"
        "  `van.circuit` is not text in UTF-8: in line 3 stands a byte that belongs to no letter (byte 31 of the file, FC in hexadecimal).\n"
        "  Save it again with the encoding UTF-8: every editor can.",
    ),
    "UTF-16 without a mark": (
        {"van.circuit": VEHICLE.encode("utf-16-be")},
        "van.circuit:1:1 E102 not-utf-8\n\n    ^\n"
        "  `van.circuit` is not text in UTF-8; it seems to be UTF-16.\n"
        "  Save it again with the encoding UTF-8: every editor can.",
    ),
    "a path of blanks": (
        {"van.circuit": 'use " "\n' + VEHICLE},
        'van.circuit:1:1 E105 strange-path\n    use " "\n    ^^^^^^^\n'
        "  Behind `use` stands no file.\n"
        '  Write for example `use "lights.circuit"`.',
    ),
    "a file too large": (
        {"van.circuit": b" " * (limits.FILE_BYTES + 1)},
        "van.circuit:1:1 E103 big-file\n\n    ^\n"
        "  `van.circuit` is larger than 1000000 bytes and was not read.\n"
        "  Cut it into several files and join them with `use`.",
    ),
    "a path out of the folder": (
        {"van/van.circuit": 'use "../lights.circuit"\n' + VEHICLE, "lights.circuit": ""},
        'van/van.circuit:1:1 E104 outside-project\n    use "../lights.circuit"\n    ^^^^^^^^^^^^^^^^^^^^^^^\n'
        "  `../lights.circuit` lies outside the folder of the main file.\n"
        "  Copy the file into the folder, and use it by its name there.",
    ),
    "a whole path": (
        {"van.circuit": 'use "/etc/passwd"\n' + VEHICLE},
        'van.circuit:1:1 E104 outside-project\n    use "/etc/passwd"\n    ^^^^^^^^^^^^^^^^^\n'
        "  `/etc/passwd` lies outside the folder of the main file.\n"
        "  Copy the file into the folder, and use it by its name there.",
    ),
    "a backslash": (
        {"van.circuit": 'use "parts\\lights.circuit"\n' + VEHICLE},
        'van.circuit:1:1 E105 strange-path\n    use "parts\\lights.circuit"\n    ^^^^^^^^^^^^^^^^^^^^^^^^^^\n'
        "  `parts\\lights.circuit` is not a path that reads the same on every machine.\n"
        '  Write `use "parts/lights.circuit"`.',
    ),
    "files that use each other": (
        {
            "van.circuit": 'use "a.circuit"\n' + VEHICLE,
            "a.circuit": 'use "b.circuit"\n',
            "b.circuit": 'use "a.circuit"',
        },
        'b.circuit:1:1 E106 use-circle\n    use "a.circuit"\n    ^^^^^^^^^^^^^^^\n'
        "  These files use each other: a.circuit -> b.circuit -> a.circuit.\n"
        "  Remove this line: all files of a project see each other's names.",
    ),
    "a file that uses itself": (
        {"van.circuit": 'use "./van.circuit"\n' + VEHICLE},
        'van.circuit:1:1 E106 use-circle\n    use "./van.circuit"\n    ^^^^^^^^^^^^^^^^^^^\n'
        "  These files use each other: van.circuit -> van.circuit.\n"
        "  Remove this line: all files of a project see each other's names.",
    ),
    "a second vehicle in a used file": (
        {"van.circuit": 'use "a.circuit"\n' + VEHICLE, "a.circuit": 'vehicle "Boat"\n'},
        'a.circuit:1:1 E603 two-vehicles\n    vehicle "Boat"\n    ^^^^^^^^^^^^^^\n'
        "  A project has one `vehicle` line, in its main file.\n"
        "  Remove this line.",
    ),
    "no vehicle": (
        {"van.circuit": "world\n    horn contact\n"},
        "van.circuit:1:1 E602 no-vehicle\n    world\n    ^\n"
        "  The file does not say which vehicle it describes.\n"
        '  Begin it with a line like `vehicle "Harbour coffee van"`.',
    ),
    "an empty file": (
        {"van.circuit": ""},
        "van.circuit:1:1 E602 no-vehicle\n\n    ^\n"
        "  The file does not say which vehicle it describes.\n"
        '  Begin it with a line like `vehicle "Harbour coffee van"`.',
    ),
    "a checklist as the main file": (
        {"van.circuit": 'checklist lamps "Lamps"\nroles\n    lamp "a lamp"\n'},
        'van.circuit:1:1 E115 block-of-checklist\n    checklist lamps "Lamps"\n    ^^^^^^^^^^^^^^^^^^^^^^^\n'
        "  `checklist` belongs in a checklist, not in the file of a vehicle.\n"
        "  To use a checklist write `use checklist NAME with ROLE = NAME`.",
    ),
    "too many files": (
        {"van.circuit": 'use "f0.circuit"\n' + VEHICLE} | MANY,
        'f98.circuit:1:1 E107 many-files\n    use "f99.circuit"\n    ^^^^^^^^^^^^^^^^^\n'
        "  The project has more than 100 files.\n"
        "  Put several of them together.",
    ),
    "accepted in a file that is used": (
        {"van.circuit": 'vehicle "Van"\nuse "a.circuit"\n', "a.circuit": "accepted\n"},
        "a.circuit:1:1 E701 accepted-elsewhere\n    accepted\n    ^^^^^^^^\n"
        "  `accepted` stands in the main file only.\n  Move its lines there.",
    ),
}
TOLD = {text.split()[2] for _, text in CASES.values()}


@pytest.mark.parametrize("title", CASES)
def test_what_is_told(title: str) -> None:
    """Each case is told once, and whole."""
    files, text = CASES[title]
    loaded = load_files(files, next(iter(files), "van.circuit"))
    assert show_all(loaded) == text
    assert loaded.program is None


def test_a_vehicle_line_with_a_mistake_is_not_missed() -> None:
    """What is wrong with it is told, and not that there is none."""
    loaded = load_files({"van.circuit": 'vehicle "Van" "red"\nworld\n    horn contact\n'})
    assert [each.name for each in loaded.diagnostics] == ["extra-text"]
