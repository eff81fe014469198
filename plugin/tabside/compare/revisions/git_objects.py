"""The files of a git revision, read so that nothing of the repository can start a program or reach the network.

A repository's own configuration can name programs (`core.sshCommand`, `ext::` remotes, hooks, filters) and servers that
git asks for missing objects.  So git never sees that configuration here: it runs on a folder of ours that holds copies
of the references and a configuration that we wrote, and takes only the objects from the repository.  Without a
configured remote a missing object is simply missing; protocols are switched off all the same.  A bare repository that
lies inside a checkout is never taken for the repository: only a `.git` entry is.
"""

from __future__ import annotations

import os
import re
import stat
import subprocess
import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.ordinary_file import LARGEST_BYTES, read_ordinary
from tabside.read.saves import OF_A_DRAWING

_ENDINGS = tuple(ending.encode() for ending in OF_A_DRAWING)
_SECONDS = 8.0  # for one answer of git; a pipe in place of an object would never end
_LARGEST_LISTING = 64 * 1024**2  # of the names in a revision: a few trees in each other name thousands of millions
_MOST_FILES = 20_000
_NO_ANSWER = f"git did not answer within {_SECONDS:.0f} seconds; is the repository damaged?"
_NOTHING_FETCHED = "Tabside fetches nothing: run `git fetch` yourself"
_PLAIN_PART = re.compile(r"[^/\\:\0]+")
_DEVICE = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?")


class _Repository(NamedTuple):
    top: Path  # the folder that holds `.git`
    own: Path  # HEAD of this work tree
    common: Path  # objects and references


class _Blob(NamedTuple):
    path: str  # from the top of the repository
    name: str  # of the object
    size: int


def write_revision(revision: str, path: str, folder: Path) -> Path:
    """Write what belongs to drawings in that revision into `folder`; returns the copy of the file at `path`.

    `path` is one from the top of the repository, or one that begins with `./`, `../` or `/`.

    Raises: TabsideError when there is no repository, revision or file, when a name in it is no plain name, when
    something is damaged or too large, or when git cannot be run.
    """
    here = Path(path).parent if os.path.isabs(path) else Path.cwd()
    repository = _repository(here)
    with tempfile.TemporaryDirectory(prefix="tabside-") as own:
        git = _Git(repository, Path(own))
        said = git.run("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}", may_fail=True)
        if not said.strip():
            raise TabsideError(f'git knows no revision "{revision}"; look with `git log`')
        commit = said.decode("ascii", "replace").strip()
        blobs = list(_blobs(git, commit))
        root = _root(path, repository.top, {blob.path for blob in blobs}, revision)
        wanted = _within_bounds(blobs, root)
        _write(wanted, git.contents([blob.name for blob in wanted]), folder)
    return folder / root


def _repository(folder: Path) -> _Repository:
    folder = Path(os.path.realpath(folder))
    for top in (folder, *folder.parents):
        entry = top / ".git"
        if entry.is_dir():
            return _with_common(top, entry)
        if _is_ordinary(entry):
            said = _small_text(entry)
            if said.startswith("gitdir:"):
                return _with_common(top, top / said.removeprefix("gitdir:").strip())
    raise TabsideError(f"{folder} is in no git repository; run this inside the repository of the drawing")


def _with_common(top: Path, own: Path) -> _Repository:
    beside = own / "commondir"
    common = own / _small_text(beside).strip() if _is_ordinary(beside) else own
    if not (common / "objects").is_dir():
        raise TabsideError("is no git repository that can be read", file=own)
    return _Repository(top, own, common)


def _is_ordinary(path: Path) -> bool:
    try:
        return stat.S_ISREG(path.lstat().st_mode)
    except OSError:
        return False


def _small_text(path: Path, most_bytes: int = 64 * 1024) -> str:
    return os.fsdecode(read_ordinary(path, str(path), most_bytes))


class _Git:
    """git on a folder of our own, with the objects of the repository and nothing else of it."""

    def __init__(self, repository: _Repository, folder: Path) -> None:
        self._folder = folder
        self._program = _program()
        self._environment = {
            **{name: value for name, value in os.environ.items() if not name.upper().startswith("GIT_")},
            "GIT_DIR": str(folder),
            "GIT_OBJECT_DIRECTORY": os.path.realpath(repository.common / "objects"),
            "GIT_CONFIG_NOSYSTEM": "1",
            "GIT_CONFIG_SYSTEM": os.devnull,
            "GIT_CONFIG_GLOBAL": os.devnull,
            "GIT_ATTR_NOSYSTEM": "1",
            "GIT_ALLOW_PROTOCOL": "",
            "GIT_NO_LAZY_FETCH": "1",
            "GIT_NO_REPLACE_OBJECTS": "1",
            "GIT_OPTIONAL_LOCKS": "0",
            "GIT_TERMINAL_PROMPT": "0",
            "LC_ALL": "C",
        }
        _copy_references(repository, folder)
        (folder / "config").write_text(_configuration(repository.common), encoding="utf-8")

    def run(self, *arguments: str, stdin: bytes = b"", may_fail: bool = False) -> bytes:
        """What git prints.  Raises: TabsideError when it fails, or does not end."""
        try:
            done = subprocess.run(
                [self._program, "--no-pager", *arguments],
                input=stdin,
                capture_output=True,
                check=False,
                cwd=self._folder,
                env=self._environment,
                timeout=_SECONDS,
            )
        except subprocess.TimeoutExpired:
            raise TabsideError(_NO_ANSWER) from None
        except (OSError, ValueError) as error:
            raise TabsideError(f"git cannot be run ({error}); install it, or give two files") from None
        if done.returncode and not may_fail:
            raise _failed(done.stderr)
        return done.stdout

    def listing(self, *arguments: str) -> bytes:
        """The same for an answer that may never end.  Raises: TabsideError when it is too long, too."""
        words = [self._program, "--no-pager", *arguments]
        with tempfile.TemporaryFile() as errors:
            try:
                process = subprocess.Popen(
                    words,
                    stdin=subprocess.DEVNULL,
                    stdout=subprocess.PIPE,
                    stderr=errors,
                    cwd=self._folder,
                    env=self._environment,
                )
            except OSError as error:
                raise TabsideError(f"git cannot be run ({error}); install it, or give two files") from None
            impatient = threading.Timer(_SECONDS, process.kill)
            impatient.start()
            with process:
                assert process.stdout is not None
                out = process.stdout.read(_LARGEST_LISTING + 1)
                in_time = impatient.is_alive()
                process.stdout.close()
                if len(out) > _LARGEST_LISTING:
                    process.kill()
                status = process.wait()
            impatient.cancel()
            errors.seek(0)
            said = errors.read(2000)
        if len(out) > _LARGEST_LISTING:
            raise TabsideError(f"the names in that revision are more than {_LARGEST_LISTING // 1024**2} MB; not read")
        if not in_time:
            raise TabsideError(_NO_ANSWER)
        if status:
            raise _failed(said)
        return out

    def sizes(self, names: list[str]) -> list[int | None]:
        """How large the blobs of these names are; None for one that is missing or no blob."""
        out = self.run("cat-file", "--batch-check", stdin="".join(f"{name}\n" for name in names).encode())
        rows = [line.split() for line in out.splitlines()]
        if len(rows) != len(names):
            raise TabsideError(f"git: the objects cannot be told apart; {_NOTHING_FETCHED}")
        return [int(row[2]) if len(row) == 3 and row[1] == b"blob" and row[2].isdigit() else None for row in rows]

    def contents(self, names: list[str]) -> list[bytes]:
        """The blobs of these names, in order."""
        out = self.run("cat-file", "--batch", stdin="".join(f"{name}\n" for name in names).encode())
        contents, at = [], 0
        for name in names:
            end = out.find(b"\n", at)
            words = out[at:end].split()
            if end < 0 or len(words) != 3 or words[1] != b"blob" or not words[2].isdigit():
                raise TabsideError(f"git: object {name[:10]} is missing or damaged; {_NOTHING_FETCHED}")
            size = int(words[2])
            contents.append(out[end + 1 : end + 1 + size])
            at = end + 2 + size
        return contents


def _failed(said: bytes) -> TabsideError:
    lines = said.decode("utf-8", "replace").strip().splitlines()
    return TabsideError(
        f"git: {lines[0] if lines else 'failed'}; an object that is missing is not fetched: fetch it yourself"
    )


def _program() -> str:
    """git from a folder that the search path names outright, never from the folder that we happen to be in."""
    names = ["git.exe"] if os.name == "nt" else ["git"]
    for folder in os.environ.get("PATH", os.defpath).split(os.pathsep):
        if os.path.isabs(folder):
            for name in names:
                if os.access(os.path.join(folder, name), os.X_OK):
                    return os.path.join(folder, name)
    raise TabsideError("git is not installed; install it, or give two files")


def _configuration(common: Path) -> str:
    """A configuration of ours: the repository's says only how its objects and references are kept."""
    theirs = _small_text(common / "config", 1024**2) if _is_ordinary(common / "config") else ""
    extensions = []
    if re.search(r"(?im)^\s*objectformat\s*=\s*\"?sha256", theirs):
        extensions.append("objectformat = sha256")
    if (common / "reftable").is_dir():
        extensions.append("refstorage = reftable")
    lines = ["[core]", f"repositoryformatversion = {int(bool(extensions))}", "bare = true"]
    return "\n".join([*lines, *(["[extensions]", *extensions] if extensions else []), ""])


def _copy_references(repository: _Repository, folder: Path) -> None:
    (folder / "refs").mkdir()
    for source in (repository.own / "HEAD", repository.common / "packed-refs", repository.common / "shallow"):
        _copy(source, folder / source.name)
    if repository.own != repository.common:
        _copy(repository.own / "logs" / "HEAD", folder / "logs" / "HEAD")
    for kept in ("refs", "logs", "reftable"):
        for around, _, names in os.walk(repository.common / kept):
            for name in names:
                source = Path(around, name)
                target = folder / source.relative_to(repository.common)
                if not target.exists():
                    _copy(source, target)


def _copy(source: Path, target: Path) -> None:
    """Copy an ordinary file; what is none is left out."""
    if not _is_ordinary(source) or source.stat().st_size > LARGEST_BYTES:
        return
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(read_ordinary(source))
    except OSError as error:
        raise TabsideError(f"cannot be read: {(error.strerror or 'unknown reason').lower()}", file=source) from None


def _blobs(git: _Git, commit: str) -> Iterator[_Blob]:
    """The ordinary files of a commit that belong to drawings.  Raises: TabsideError for a name that is not plain."""
    found: list[tuple[str, str]] = []
    for entry in git.listing("ls-tree", "-r", "-z", "--full-tree", commit).split(b"\0"):
        described, _, raw = entry.partition(b"\t")
        words = described.split()
        if len(words) != 3 or words[0] == b"120000" or words[1] != b"blob" or not raw.endswith(_ENDINGS):
            continue
        path = os.fsdecode(raw)
        if not all(_is_plain(part) for part in path.split("/")):
            raise TabsideError(f'the revision holds "{path}", which is no plain file name; nothing was read')
        found.append((path, words[2].decode("ascii")))
    for (path, name), size in zip(found, git.sizes([name for _, name in found]), strict=True):
        if size is None:
            raise TabsideError(f"git: {path} of that revision is missing here; {_NOTHING_FETCHED}")
        yield _Blob(path, name, size)


def _is_plain(part: str) -> bool:
    return (
        bool(_PLAIN_PART.fullmatch(part))
        and part not in (".", "..")
        and part.lower() != ".git"
        and not _DEVICE.fullmatch(part)
    )


def _root(path: str, top: Path, there: set[str], revision: str) -> str:
    """The path from the top of the repository: as git has it, or as it is named from this folder."""
    from_here = os.path.relpath(os.path.join(os.path.realpath(os.getcwd()), path), os.path.realpath(top))
    here = from_here.replace(os.sep, "/")
    if os.path.isabs(path):
        # Links on the way to the file are followed up to its folder, which need not be there any more.
        here = os.path.relpath(os.path.join(os.path.realpath(os.path.dirname(path)), os.path.basename(path)), top)
    plain = os.path.normpath(path).replace(os.sep, "/")
    tries = [here] if os.path.isabs(path) or path.startswith(("./", "../")) else [plain, here]
    for tried in tries:
        if tried in there:
            return tried
    raise TabsideError(
        f"revision {revision[:40]} has no {path}; give the path of a .kicad_sch from the top of the repository"
    )


def _within_bounds(blobs: list[_Blob], root: str) -> list[_Blob]:
    """All of them, or, of a very large repository, those in the root's folder.  Raises: TabsideError if too much."""
    below = str(PurePosixPath(root).parent)
    near = [blob for blob in blobs if below == "." or blob.path.startswith(f"{below}/")]
    for chosen in (blobs, near):
        if len(chosen) <= _MOST_FILES and sum(blob.size for blob in chosen) <= LARGEST_BYTES:
            return chosen
    raise TabsideError(f"the drawings of that revision are larger than {LARGEST_BYTES // 1024**2} MB; not read")


def _write(blobs: list[_Blob], contents: list[bytes], folder: Path) -> None:
    for blob, content in zip(blobs, contents, strict=True):
        target = folder / blob.path
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            with target.open("xb") as out:
                out.write(content)
        except OSError as error:
            reason = (error.strerror or "unknown reason").lower()
            raise TabsideError(f'the revision holds "{blob.path}", which cannot be written: {reason}') from None
