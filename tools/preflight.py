"""Name a missing system piece with the one line to type; run by make before and after the packages are installed.

Runs on any Python 3, also one that is too old for athwart: that is one of the things it has to say.
"""

import sys

OLDEST = (3, 11)


def before(version=sys.version_info, load=__import__):
    """Complaints about the interpreter that shall make the virtual environment."""
    if tuple(version[:2]) < OLDEST:
        found = "%d.%d" % tuple(version[:2])
        return [
            "Python %s is too old, athwart needs 3.11 or newer. With a newer one installed beside it type: "
            "make PY=python3.11 setup" % found
        ]
    for name in ("venv", "ensurepip"):
        try:
            load(name)
        except ImportError:
            return ["Python's module %s is missing. On Debian type: apt-get install python3-venv" % name]
    return []


def after(load=__import__):
    """Complaints about packages that are installed and yet cannot be loaded."""
    for name in ("numpy", "pydantic_core", "typst"):  # the compiled ones; numpy needs the C++ run-time library
        try:
            load(name)
        except ImportError as error:
            if "libstdc++" in str(error):
                return ["The C++ run-time library is missing. On Debian type: apt-get install libstdc++6"]
            return ["The package %s is installed but cannot be loaded: %s" % (name, error)]
    return []


if __name__ == "__main__":
    complaints = {"before": before, "after": after}[sys.argv[1]]()
    for complaint in complaints:
        print(complaint, file=sys.stderr)
    sys.exit(1 if complaints else 0)
