"""A revision is read from its objects alone: nothing that the repository configures is run, asked or followed.

The attacks are those that git's own manual describes as reasons for `safe.bareRepository`, `protocol.allow` and
partial clones (git-config, gitremote-helpers, partial-clone: documents of the git project); git itself makes the
repositories here.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tabside.compare.revisions.git_objects import write_revision
from tabside.compare.revisions.sources import load
from tabside.errors import TabsideError

BOAT = Path(__file__).parents[3] / "fixtures" / "survey_boat" / "rev_b"
NAME = "survey_boat.kicad_sch"
WHO = ["-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false"]


def git(*arguments, cwd, stdin=None):
    done = subprocess.run(["git", *WHO, *arguments], cwd=cwd, input=stdin, capture_output=True, check=True)
    return done.stdout.decode().strip()


@pytest.fixture(autouse=True)
def own_settings(tmp_path, monkeypatch):
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    monkeypatch.setenv("HOME", str(tmp_path))


@pytest.fixture
def repository(tmp_path, monkeypatch):
    top = tmp_path / "repo"
    shutil.copytree(BOAT, top)
    git("init", "-q", cwd=top)
    git("add", ".", cwd=top)
    git("commit", "-q", "-m", "x", cwd=top)
    monkeypatch.chdir(top)
    return top


@pytest.fixture
def bait(tmp_path):
    """A program that leaves a mark when it is run."""
    program, mark = tmp_path / "bait.sh", tmp_path / "it-ran"
    program.write_text(f"#!/bin/sh\ntouch '{mark}'\nexit 1\n")
    program.chmod(0o755)
    return program, mark


def lose(repository, path):
    blob = git("rev-parse", f"HEAD:{path}", cwd=repository)
    (repository / ".git" / "objects" / blob[:2] / blob[2:]).unlink()


def promise(repository, url, bait):
    """A partial clone whose missing objects git would fetch from `url`."""
    for key, value in {
        "core.repositoryformatversion": "1",
        "extensions.partialClone": "origin",
        "remote.origin.promisor": "true",
        "remote.origin.partialclonefilter": "blob:none",
        "remote.origin.url": url,
        "remote.origin.fetch": "+refs/heads/*:refs/remotes/origin/*",
        "remote.origin.uploadpack": str(bait),
        "core.sshCommand": str(bait),
        "core.gitProxy": str(bait),
        "core.fsmonitor": str(bait),
        "core.hooksPath": str(bait.parent),
        "core.alternateRefsCommand": str(bait),
        "core.pager": str(bait),
        "protocol.allow": "always",
        "protocol.ext.allow": "always",
    }.items():
        git("config", key, value, cwd=repository)


@pytest.mark.parametrize(
    "url", ["ssh://nowhere.invalid/x", "ext::{bait}", "{bait.parent}", "file://{bait.parent}", "x::y"]
)
@pytest.mark.parametrize("lost", [NAME, "survey_boat.craft.toml"])
def test_a_missing_object_is_missing_and_nothing_is_run_for_it(repository, bait, url, lost):
    program, mark = bait
    promise(repository, url.format(bait=program), program)
    lose(repository, lost)
    with pytest.raises(TabsideError, match="fetch"):
        load(f"HEAD:{NAME}")
    assert not mark.exists()


def test_the_bait_is_taken_by_a_git_that_reads_the_configuration(repository, bait):
    # Else the tests above would pass for a bait that no git ever takes.
    program, mark = bait
    promise(repository, "ssh://nowhere.invalid/x", program)
    lose(repository, NAME)
    subprocess.run(["git", "cat-file", "-p", f"HEAD:{NAME}"], cwd=repository, capture_output=True, check=False)
    assert mark.exists()


def test_a_missing_commit_or_tree_is_not_fetched_either(repository, bait):
    program, mark = bait
    promise(repository, "ssh://nowhere.invalid/x", program)
    tree = git("rev-parse", "HEAD^{tree}", cwd=repository)
    (repository / ".git" / "objects" / tree[:2] / tree[2:]).unlink()
    with pytest.raises(TabsideError):
        load(f"HEAD:{NAME}")
    assert not mark.exists()


def test_a_bare_repository_inside_a_folder_is_not_the_repository(repository, bait, monkeypatch):
    program, mark = bait
    inner = repository / "drawings"
    shutil.copytree(repository / ".git", inner)
    promise(inner, "ssh://nowhere.invalid/x", program)
    monkeypatch.chdir(inner)
    assert load(f"HEAD:{NAME}").terminations
    assert not mark.exists()


def test_outside_of_a_repository_that_is_said(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(TabsideError, match="is in no git repository"):
        load(f"HEAD:{NAME}")


def commit_of(repository, entries):
    """A commit whose tree has exactly these (name, content) entries, whatever git thinks of the names."""
    raw = b""
    for name, content in entries:
        blob = git("hash-object", "-w", "--stdin", cwd=repository, stdin=content)
        raw += b"100644 " + name.encode() + b"\0" + bytes.fromhex(blob)
    tree = git("hash-object", "-w", "-t", "tree", "--literally", "--stdin", cwd=repository, stdin=raw)
    return git("commit-tree", tree, "-m", "x", cwd=repository)


@pytest.mark.parametrize(
    "name",
    [
        "../../x.kicad_sch",
        "/abs/x.kicad_sch",
        "a/../../x.kicad_sch",
        "..\\x.kicad_sch",
        "C:x.kicad_sch",
        "./x.kicad_sch",
        "a//x.kicad_sch",
        ".git/x.kicad_sch",
        "nul.kicad_sch",
    ],
)
def test_a_name_that_is_no_plain_name_is_refused_and_nothing_is_written(repository, tmp_path, name):
    sheet = (BOAT / NAME).read_bytes()
    commit = commit_of(repository, [(NAME, sheet), (name, b"(kicad_sch)")])
    folder = tmp_path / "a" / "b" / "into"
    folder.mkdir(parents=True)
    with pytest.raises(TabsideError, match="no plain file name"):
        write_revision(commit, NAME, folder)
    assert list((tmp_path / "a").rglob("*.kicad_sch")) == []


def test_one_name_twice_is_refused(repository):
    commit = commit_of(repository, [(NAME, b"(kicad_sch)"), (NAME, b"(kicad_sch )")])
    with pytest.raises(TabsideError, match="cannot be written"):
        load(f"{commit}:{NAME}")


@pytest.mark.parametrize("place", ["packed-refs", "shallow", "config", "refs/heads/extra", "logs/HEAD"])
def test_a_pipe_in_place_of_a_file_of_git_does_not_hang(repository, place):
    file = repository / ".git" / place
    file.unlink(missing_ok=True)
    os.mkfifo(file)
    assert load(f"HEAD:{NAME}").terminations


def test_replaced_objects_are_not_followed(repository):
    blob = git("rev-parse", f"HEAD:{NAME}", cwd=repository)
    other = git("hash-object", "-w", "--stdin", cwd=repository, stdin=b"(kicad_sch)")
    git("replace", blob, other, cwd=repository)
    assert load(f"HEAD:{NAME}").terminations


@pytest.mark.parametrize("kept", ["packed", "tag", "worktree", "reflog", "absolute", "sha256"])
def test_revisions_are_found_however_they_are_kept(repository, tmp_path, monkeypatch, kept):
    text = f"HEAD:{NAME}"
    if kept == "packed":
        git("gc", "-q", cwd=repository)
    elif kept == "tag":
        git("tag", "-a", "v1.0", "-m", "x", cwd=repository)
        text = f"v1.0:{NAME}"
    elif kept == "worktree":
        git("worktree", "add", "-q", str(tmp_path / "beside"), cwd=repository)
        monkeypatch.chdir(tmp_path / "beside")
    elif kept == "reflog":
        text = f"HEAD@{{0}}:{NAME}"
    elif kept == "absolute":
        monkeypatch.chdir(tmp_path)
        text = f"HEAD:{repository / NAME}"
    elif kept == "sha256":
        shutil.rmtree(repository / ".git")
        git("init", "-q", "--object-format=sha256", cwd=repository)
        git("add", ".", cwd=repository)
        git("commit", "-q", "-m", "x", cwd=repository)
    assert len(load(text).leads) == 55


def test_an_error_in_a_revisions_file_names_the_revision(repository):
    commit = commit_of(repository, [(NAME, b"(kicad_sch")])
    with pytest.raises(TabsideError) as error:
        load(f"{commit}:{NAME}")
    assert error.value.file == f"{commit}:{NAME}"


def test_a_git_in_the_folder_itself_is_not_run(repository, bait, monkeypatch):
    program, mark = bait
    shutil.copy(program, repository / "git")
    monkeypatch.setenv("PATH", f".{os.pathsep}{os.pathsep}{os.environ['PATH']}")
    assert load(f"HEAD:{NAME}").terminations
    assert not mark.exists()


def test_the_command_says_it_in_one_line(repository):
    script = "import sys; from tabside.cli import main; sys.exit(main())"
    done = subprocess.run(
        [sys.executable, "-c", script, "compare", "HEAD:/nowhere/x.kicad_sch", NAME],
        cwd=repository,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout, len(done.stderr.splitlines())) == (2, "", 1)


def test_trees_that_name_thousands_of_millions_of_files_are_not_listed_to_the_end(repository):
    tree = git("write-tree", cwd=repository)
    for _ in range(9):
        tree = git("mktree", cwd=repository, stdin="".join(f"040000 tree {tree}\td{k}\n" for k in range(10)).encode())
    git("update-ref", "refs/heads/bomb", git("commit-tree", tree, "-m", "x", cwd=repository), cwd=repository)
    with pytest.raises(TabsideError, match=r"more than 64 MB|did not answer"):
        load("bomb:" + "d0/" * 9 + NAME)
    load(f"HEAD:{NAME}")


def test_a_missing_file_is_said_without_the_name_of_a_folder_of_ours(repository):
    git("rm", "-rq", "--cached", "boards", cwd=repository)
    git("commit", "-q", "-m", "x", cwd=repository)
    with pytest.raises(TabsideError, match="fits no file") as error:
        load(f"HEAD:{NAME}")
    assert "tabside-" not in str(error.value)


def test_a_revision_alone_is_told_how_it_is_written(repository):
    with pytest.raises(TabsideError) as raised:
        load("HEAD")
    assert raised.value.what == 'is no file; of a git revision write "HEAD:path/to/ROOT.kicad_sch"'
