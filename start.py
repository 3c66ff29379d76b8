"""Start Hushwright: `python3 start.py` makes the environment, installs, and judges the demo van.

python3 start.py              check the demo build and say where to look next
python3 start.py test [...]   run every test (with arguments: pytest alone, with these)
python3 start.py bench [...]  run the benchmarks (with arguments: only those whose name contains one)
python3 start.py ANYTHING     hand ANYTHING to hushwright, for example `check my-van.yaml`

Standard library only. The version check comes first and the file parses on older Pythons, so that they get a sentence
instead of a traceback. Children are waited for rather than replaced by, because replacing a process is not the same
thing on every system.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import time
from importlib.util import find_spec
from pathlib import Path

OLDEST_PYTHON = (3, 11)
if sys.version_info < OLDEST_PYTHON:
    _newer = [name for name in ("python3.14", "python3.13", "python3.12", "python3.11") if shutil.which(name)]
    sys.exit(
        "Hushwright needs Python 3.11 or newer; this is Python {}.{}. {}".format(
            sys.version_info[0],
            sys.version_info[1],
            f"Start it with {_newer[0]} instead." if _newer else "Install one and start it with that.",
        )
    )

ROOT = Path(__file__).resolve().parent
ENVIRONMENT = ROOT / ".venv"
PYTHON = ENVIRONMENT / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
MARK = ENVIRONMENT / "hushwright-installed.txt"
INSTALLED_FROM = ("pyproject.toml", "constraints.txt")
DEMO = Path("examples") / "archive-van.yaml"

# The command line through its function, not its script: a script's first line breaks when the folder is moved.
HAND_OVER = "import sys; sys.argv[0] = 'hushwright'; from hushwright.cli.main import run; sys.exit(run())"
COULD_NOT_START = 2

UNREACHABLE = (
    "name resolution", "NewConnectionError", "Network is unreachable", "Failed to fetch", "dns error",
    "Connection refused", "ConnectTimeout", "ProxyError", "Could not fetch URL", "(from versions: none)",
)  # fmt: skip
FULL = ("No space left", "Disk quota exceeded")
"""Words by which pip and uv tell what stands in the way."""


def say(text: str) -> None:
    """One line on the error stream, so that `--json` on the output stream stays clean."""
    print(text, file=sys.stderr, flush=True)


def mark_of_this_installation() -> str:
    """What the environment was installed from; a changed file or a moved folder changes it."""
    digest = hashlib.sha256()
    for name in INSTALLED_FROM:
        digest.update((ROOT / name).read_bytes())
    digest.update(os.fsencode(ROOT))
    return digest.hexdigest()


def is_installed() -> bool:
    """Whether the environment is there and belongs to the present files in the present folder."""
    try:
        return PYTHON.exists() and MARK.read_text(encoding="utf-8") == mark_of_this_installation()
    except (OSError, UnicodeDecodeError):
        return False


def installation_steps(uv: "str | None") -> "list[list[str]]":
    """Return the commands that make the environment, in order."""
    wanted = ["--constraint", str(ROOT / "constraints.txt"), "--editable", f"{ROOT}[dev]"]
    if uv:
        make = [uv, "venv", "--quiet", "--python", sys.executable, str(ENVIRONMENT)]
        install = [uv, "pip", "install", "--quiet", "--python", str(PYTHON), *wanted]
    else:
        make = [sys.executable, "-m", "venv", str(ENVIRONMENT)]
        install = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *wanted]
    if not PYTHON.exists():
        return [make, install]
    if uv:
        return [install]
    return [[str(PYTHON), "-m", "ensurepip"], install]  # an environment that uv made holds no pip


def what_is_missing() -> str:
    """What this Python lacks to make an environment, as a sentence; Debian keeps these in a package of their own."""
    missing = [name for name in ("venv", "ensurepip") if find_spec(name) is None]
    if not missing:
        return ""
    package = "python{}.{}-venv".format(*sys.version_info[:2])
    return (
        f"This Python ({sys.executable}) has no module {missing[0]}, which makes the environment. "
        f"On Debian and Ubuntu: apt install {package}; then start again."
    )


def advice(problem: str) -> str:
    """Say what to do about what the installer said."""
    if any(word in problem for word in UNREACHABLE):
        return "The packages could not be reached: the network is needed for this once, and never after it."
    if any(word in problem for word in FULL):
        return "There is no room left on the disk; about 1 GB is needed."
    return "It needs the network once, room on the disk, and Python's venv module (Debian: package python3-venv)."


def run_steps(steps: "list[list[str]]") -> str:
    """Run the commands; return what the first failing one said, or nothing."""
    for step in steps:
        done = subprocess.run(
            step, cwd=ROOT, stdin=subprocess.DEVNULL, capture_output=True, text=True, errors="replace"
        )
        if done.returncode:
            return (done.stderr or done.stdout).strip() or f"{step[0]} ended with {done.returncode}"
    return ""


def install() -> int:
    """Make or refresh the environment; return 0, or 2 after saying what stood in the way."""
    if not os.access(ROOT, os.W_OK):
        say(f"{ROOT} cannot be written to, and the environment has to be made in it (.venv).")
        say("Copy the folder to a place of your own and start it there.")
        return COULD_NOT_START
    uv = shutil.which("uv")
    missing = "" if uv or PYTHON.exists() else what_is_missing()
    if missing:
        say(missing)
        return COULD_NOT_START
    if MARK.exists():
        say("The environment in .venv is of other files or of another place; it is brought up to date ...")
    else:
        say("Installing Hushwright into .venv; the first time takes about a minute ...")
    begun = time.monotonic()
    problem = run_steps(installation_steps(uv))
    if problem and uv:  # uv reads other settings than pip does; where it fails pip may still get through
        problem = run_steps(installation_steps(None))
    if problem:
        say("\n".join(problem.splitlines()[-12:]))
        say("Hushwright could not be installed; the lines above are the installer's own.")
        say(advice(problem))
        return COULD_NOT_START
    try:
        MARK.write_text(mark_of_this_installation(), encoding="utf-8")
    except OSError as error:
        say(f"Installed, but {MARK} cannot be written ({error.strerror}); the next start will install again.")
    say(f"Installed in {time.monotonic() - begun:.0f} s.")
    return 0


def run(command: "list[str]", folder: "Path | None" = None) -> int:
    """Run a command to its end and return its exit code; a break from the keyboard is the command's to answer."""
    child = subprocess.Popen(command, cwd=folder)
    while True:
        try:
            return child.wait()
        except KeyboardInterrupt:
            continue


def hand_over(arguments: "list[str]", folder: "Path | None" = None) -> int:
    """Give the arguments to the command line; -P keeps the caller's folder from shadowing a module."""
    return run([str(PYTHON), "-P", "-c", HAND_OVER, *arguments], folder)


def check_demo() -> int:
    """Judge the demo build; a verdict that fails is a result, so 0 and 1 both count as having run."""
    if not (ROOT / DEMO).is_file():
        say(f"{DEMO} is missing; this copy of Hushwright is not complete.")
        return COULD_NOT_START
    code = hand_over(["check", str(DEMO)], ROOT)
    if code not in (0, 1):
        return code
    print(f"""
Where to look next
  {DEMO}   the build file just judged; change a value and check it again
  python3 start.py new my-van.yaml     a commented build file of your own
  python3 start.py --help              every command
  README.md, docs/                     what is computed, after which source, and how well it fits measurements""")
    return 0


def test(arguments: "list[str]") -> int:
    """Style, types, then the tests (which hold the import order too); with arguments only pytest."""
    pytest = [str(PYTHON), "-m", "pytest"]
    if arguments:
        return run([*pytest, *arguments], ROOT)
    codes = {
        "ruff": run([str(PYTHON), "-m", "ruff", "check", "--quiet", "."], ROOT),
        "mypy": run([str(PYTHON), "-m", "mypy"], ROOT),
        "pytest": run([*pytest, "-q", "-n", "2", "--dist", "worksteal"], ROOT),
    }
    failed = [name for name, code in codes.items() if code]
    if failed:
        say(f"Not passed: {', '.join(failed)}.")
    return 1 if failed else 0


def bench(arguments: "list[str]") -> int:
    """Run the benchmarks one after the other, so that they do not disturb each other."""
    scripts = [
        path
        for path in sorted((ROOT / "benchmarks").glob("bench_*.py"))
        if not arguments or any(word in path.stem for word in arguments)
    ]
    if not scripts:
        say(f"No benchmark is called like that: {' '.join(arguments)}")
        return COULD_NOT_START
    failed = []
    for script in scripts:
        print(f"\n== {script.stem.removeprefix('bench_').replace('_', ' ')}", flush=True)
        # One thread of linear algebra: the matrices are small, and more threads only wait for each other.
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        if run([str(PYTHON), str(script)], ROOT):
            failed.append(script.name)
    if failed:
        say(f"Broke off: {', '.join(failed)}.")
    return 1 if failed else 0


def main(arguments: "list[str]") -> int:
    """Install when needed, then do what the first argument says."""
    if not is_installed():
        code = install()
        if code:
            return code
    if not arguments:
        return check_demo()
    if arguments[0] == "test":
        return test(arguments[1:])
    if arguments[0] == "bench":
        return bench(arguments[1:])
    return hand_over(arguments)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
