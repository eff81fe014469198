"""The folder of documents is never half-written and never loses what is not ours.  Common practice, no source."""

import errno
import json
import os
import subprocess
import sys
import textwrap
import threading

import pytest

from tabside.documents.writing import staging
from tabside.documents.writing.staging import MANIFEST, replace_files
from tabside.errors import TabsideError

OLD = {"a.csv": b"old a", "b.csv": b"old b"}
NEW = {"a.csv": b"new a", "c.csv": b"new c"}


def everything(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def documents(folder):
    return {name: content for name, content in everything(folder).items() if name != MANIFEST}


def test_a_missing_folder_is_made_with_its_parents(tmp_path):
    replace_files(tmp_path / "x" / "y", OLD)
    assert documents(tmp_path / "x" / "y") == OLD


def test_the_manifest_names_each_file_with_its_sha256(tmp_path):
    replace_files(tmp_path, {"a.csv": b"abc"})
    # Source: FIPS 180-4 example, SHA-256 of "abc".
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    said = json.loads((tmp_path / MANIFEST).read_text())
    assert said == {"format": "tabside/manifest/1", "complete": True, "files": {"a.csv": digest}}


def test_a_document_that_stays_the_same_is_not_written_and_has_the_new_time(tmp_path):
    replace_files(tmp_path, OLD)
    for name in OLD:
        os.utime(tmp_path / name, (1, 1))
    was = (tmp_path / "a.csv").stat().st_ino
    replace_files(tmp_path, OLD | {"b.csv": b"new b"})
    assert documents(tmp_path) == OLD | {"b.csv": b"new b"}
    assert (tmp_path / "a.csv").stat().st_ino == was
    assert all((tmp_path / name).stat().st_mtime > 1 for name in OLD)


def test_files_no_longer_made_go_and_foreign_files_stay(tmp_path):
    (tmp_path / "notes.txt").write_text("mine")
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "boat.png").write_bytes(b"png")
    replace_files(tmp_path, OLD)
    replace_files(tmp_path, NEW)
    assert documents(tmp_path) == NEW | {"notes.txt": b"mine", "pictures/boat.png": b"png"}


def test_a_file_no_longer_made_stays_when_somebody_wrote_into_it(tmp_path):
    replace_files(tmp_path, OLD)
    (tmp_path / "b.csv").write_bytes(b"old b, measured 3 ohm")
    replace_files(tmp_path, NEW)
    assert documents(tmp_path) == NEW | {"b.csv": b"old b, measured 3 ohm"}
    # It is no longer ours then: the next export does not touch it either.
    replace_files(tmp_path, {"a.csv": b"newer"})
    assert (tmp_path / "b.csv").exists()


def test_a_file_of_that_name_that_is_not_ours_is_not_overwritten(tmp_path):
    (tmp_path / "a.csv").write_bytes(b"somebody else's")
    with pytest.raises(TabsideError, match=r"a\.csv: is not from an earlier export"):
        replace_files(tmp_path, NEW)
    assert everything(tmp_path) == {"a.csv": b"somebody else's"}


def test_a_file_of_that_name_with_the_same_content_is_taken_over(tmp_path):
    (tmp_path / "a.csv").write_bytes(NEW["a.csv"])
    replace_files(tmp_path, NEW)
    assert documents(tmp_path) == NEW


def test_a_target_that_is_a_file_is_one_clear_line(tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(TabsideError, match=r"file: is not a folder"):
        replace_files(tmp_path / "file", NEW)
    with pytest.raises(TabsideError, match=r"not a directory"):
        replace_files(tmp_path / "file" / "below", NEW)
    assert (tmp_path / "file").read_text() == "x"


def test_a_folder_in_place_of_a_document_is_one_clear_line(tmp_path):
    replace_files(tmp_path, OLD)
    (tmp_path / "a.csv").unlink()
    (tmp_path / "a.csv").mkdir()
    with pytest.raises(TabsideError, match=r"a\.csv"):
        replace_files(tmp_path, NEW)
    assert (tmp_path / "b.csv").read_bytes() == b"old b"


@pytest.mark.parametrize("text", ["", "{", "[]", '{"format": "x", "files": {}}', '{"format": "tabside/manifest/1"}'])
def test_a_manifest_that_is_none_is_one_clear_line_and_nothing_is_touched(tmp_path, text):
    (tmp_path / MANIFEST).write_text(text)
    with pytest.raises(TabsideError, match=r"tabside-manifest\.json: is no list of exported files"):
        replace_files(tmp_path, NEW)
    assert everything(tmp_path) == {MANIFEST: text.encode()}


@pytest.mark.parametrize("name", ["../victim", "/victim", "sub/victim", "..", ".", "", "..\\victim"])
def test_a_manifest_that_names_files_elsewhere_reaches_none_of_them(tmp_path, name):
    to = tmp_path / "to"
    (to / "sub").mkdir(parents=True)
    for victim in (tmp_path / "victim", to / "sub" / "victim"):
        victim.write_bytes(b"abc")
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"  # of "abc", as above
    files = {name: digest, str(tmp_path / "victim"): digest}
    (to / MANIFEST).write_text(json.dumps({"format": "tabside/manifest/1", "complete": True, "files": files}))
    replace_files(to, NEW)
    assert (tmp_path / "victim").read_bytes() == (to / "sub" / "victim").read_bytes() == b"abc"
    assert set(json.loads((to / MANIFEST).read_text())["files"]) == set(NEW)


def test_a_link_in_place_of_a_document_is_replaced_and_its_target_left_alone(tmp_path):
    replace_files(tmp_path / "to", OLD)
    (tmp_path / "elsewhere").write_bytes(b"mine")
    (tmp_path / "to" / "a.csv").unlink()
    (tmp_path / "to" / "a.csv").symlink_to(tmp_path / "elsewhere")
    replace_files(tmp_path / "to", NEW)
    assert (tmp_path / "elsewhere").read_bytes() == b"mine"
    assert (tmp_path / "to" / "a.csv").read_bytes() == b"new a"


@pytest.mark.parametrize("step", range(1, 5))
def test_when_a_step_fails_the_folder_is_as_it_was(tmp_path, monkeypatch, step):
    """Four moves: manifest, two documents, manifest."""
    replace_files(tmp_path, OLD)
    before = everything(tmp_path)
    moves = []
    move = os.replace

    def failing(source, target):
        moves.append(target)
        if len(moves) == step:
            raise OSError(errno.ENOSPC, "No space left on device", str(target))
        move(source, target)

    monkeypatch.setattr(staging.os, "replace", failing)
    with pytest.raises(TabsideError, match="no space left on device; nothing was changed"):
        replace_files(tmp_path, NEW)
    assert everything(tmp_path) == before
    assert not [path for path in tmp_path.iterdir() if path.is_dir()]


def test_when_the_disk_is_full_while_staging_nothing_is_touched(tmp_path, monkeypatch):
    def full(descriptor):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(staging.os, "fsync", full)
    with pytest.raises(TabsideError, match="no space left on device"):
        replace_files(tmp_path / "new", NEW)
    assert not (tmp_path / "new").exists()


def test_more_files_than_are_written_at_once_and_a_system_without_threads(tmp_path, monkeypatch):
    many = {f"{n}.csv": b"%d" % n for n in range(2 * staging._AT_ONCE + 1)}
    replace_files(tmp_path, many)

    def refused(thread):
        raise RuntimeError("can't start new thread")

    monkeypatch.setattr(threading.Thread, "start", refused)
    other = {name: content + b"x" for name, content in many.items()}
    replace_files(tmp_path, other)
    assert documents(tmp_path) == other


@pytest.mark.parametrize("step", range(1, 5))
def test_after_a_crash_each_file_is_whole_and_the_next_export_clears_up(tmp_path, step):
    """The process is killed in the middle, as by a power cut: nothing of it runs any more."""
    script = textwrap.dedent(f"""
        import os, sys
        from pathlib import Path
        from tabside.documents.writing import staging
        to = Path(sys.argv[1])
        staging.replace_files(to, {OLD!r})
        moves, move = [], os.replace
        def dying(source, target):
            moves.append(target)
            if len(moves) == {step}:
                os._exit(9)
            move(source, target)
        staging.os.replace = dying
        staging.replace_files(to, {NEW!r})
    """)
    died = subprocess.run([sys.executable, "-c", script, str(tmp_path)], check=False)
    assert died.returncode == 9
    for path in tmp_path.glob("*.csv"):
        assert path.read_bytes() in (OLD.get(path.name), NEW.get(path.name))
    replace_files(tmp_path, NEW)
    assert {p.name: p.read_bytes() for p in tmp_path.glob("*.csv")} == NEW
    assert json.loads((tmp_path / MANIFEST).read_text())["complete"] is True


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_folder_that_may_not_be_written_is_one_clear_line(tmp_path):
    (tmp_path / "locked").mkdir(mode=0o500)
    with pytest.raises(TabsideError, match="permission denied"):
        replace_files(tmp_path / "locked", NEW)


def test_a_refused_folder_is_one_clear_line(tmp_path, monkeypatch):
    """The same for the superuser: the system refuses."""

    def refused(*_, **__):
        raise PermissionError(errno.EACCES, "Permission denied", str(tmp_path))

    monkeypatch.setattr(staging.tempfile, "mkdtemp", refused)
    with pytest.raises(TabsideError) as error:
        replace_files(tmp_path, NEW)
    assert str(error.value).startswith(f"{tmp_path}: cannot write the documents: permission denied;")
    assert len(str(error.value).splitlines()) == 1


def test_the_same_files_leave_the_same_bytes(tmp_path):
    for folder in ("one", "two"):
        replace_files(tmp_path / folder, NEW)
    replace_files(tmp_path / "two", NEW)
    assert everything(tmp_path / "one") == everything(tmp_path / "two")


KILLED_AT_EACH_CALL = """
    import os, shutil, sys
    from pathlib import Path
    from tabside.documents.writing import staging
    to, last = Path(sys.argv[1]), int(sys.argv[2])
    calls = 0
    def counted(call):
        def counting(*arguments, **more):
            global calls
            calls += 1
            if calls == last:
                os._exit(9)
            return call(*arguments, **more)
        return counting
    for module, name in ((os, "replace"), (os, "fsync"), (os, "mkdir"), (shutil, "copy2"), (shutil, "rmtree")):
        setattr(module, name, counted(getattr(module, name)))
    Path.unlink = counted(Path.unlink)
    staging.replace_files(to, {new!r})
"""


def killed(tmp_path, at):
    """Whether an export was killed at its `at`-th call to the file system; False when it had fewer."""
    script = textwrap.dedent(KILLED_AT_EACH_CALL).replace("{new!r}", repr(NEW))
    done = subprocess.run([sys.executable, "-c", script, str(tmp_path), str(at)], check=False)
    assert done.returncode in (0, 9)
    return done.returncode == 9


def test_killed_at_any_moment_the_folder_is_of_one_build_after_the_next_look(tmp_path):
    """Documents of two builds never lie side by side once somebody has looked: the one or the other is whole."""
    at = 0
    while True:
        at += 1
        to = tmp_path / str(at)
        replace_files(to, OLD)
        before = everything(to)
        if not killed(to, at):
            break
        mixed = everything(to)
        told = staging.undo_broken_off(to)
        after = everything(to)
        assert after == before or documents(to) == NEW, (at, sorted(mixed))
        assert not [path for path in to.iterdir() if path.is_dir()]
        assert told or mixed == after
    assert at > 12  # it was killed at every one of them


def test_what_was_put_back_is_told_once(tmp_path):
    replace_files(tmp_path, OLD)
    at = 1
    while killed(tmp_path, at) and (tmp_path / "a.csv").read_bytes() == OLD["a.csv"]:
        staging.undo_broken_off(tmp_path)
        at += 1
    (said,) = replace_files(tmp_path, {"d.csv": b"d"})
    assert "was broken off" in said
    assert documents(tmp_path) == {"d.csv": b"d"}
    assert replace_files(tmp_path, NEW) == ()


@pytest.mark.parametrize("name", ["../victim", "/etc/x", "sub/victim", "..", "a\\b"])
def test_a_journal_that_names_files_elsewhere_reaches_none_of_them(tmp_path, name):
    to = tmp_path / "to"
    (to / "sub").mkdir(parents=True)
    for victim in (tmp_path / "victim", to / "sub" / "victim"):
        victim.write_bytes(b"abc")
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"  # of "abc", as above
    left = to / ".tabside-staging-x"
    left.mkdir()
    states = {name: [None, digest], str(tmp_path / "victim"): [None, digest], MANIFEST: [None, digest]}
    (left / "journal").write_text(json.dumps(states))
    replace_files(to, NEW)
    assert (tmp_path / "victim").read_bytes() == (to / "sub" / "victim").read_bytes() == b"abc"
    assert not left.exists()


def test_a_staging_folder_that_is_a_link_is_left_alone(tmp_path):
    (tmp_path / "mine").mkdir()
    (tmp_path / "to").mkdir()
    (tmp_path / "to" / ".tabside-staging-x").symlink_to(tmp_path / "mine")
    replace_files(tmp_path / "to", NEW)
    assert (tmp_path / "mine").is_dir()


def test_two_exports_at_once_do_not_mix(tmp_path):
    with staging._alone_in(tmp_path), pytest.raises(TabsideError, match="another Tabside is writing there"):
        replace_files(tmp_path, NEW)


def test_a_folder_of_somebody_elses_and_a_link_are_told(tmp_path):
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "letter.txt").write_text("mine")
    (tmp_path / "link").symlink_to("home")
    assert len(replace_files(tmp_path / "link", NEW)) == 2
    assert len(replace_files(tmp_path / "link", NEW)) == 1  # the folder is known by now
    (tmp_path / "nowhere").symlink_to("gone")
    with pytest.raises(TabsideError, match="is not a folder"):
        replace_files(tmp_path / "nowhere", NEW)


@pytest.mark.parametrize("ours", [True, False])
def test_a_document_of_an_impossible_size_is_told_and_not_read(tmp_path, ours):
    if ours:
        replace_files(tmp_path, NEW)
    name = next(iter(NEW))
    with (tmp_path / name).open("wb") as out:
        out.truncate(20 * 1024**3)
    with pytest.raises(TabsideError, match="too large"):
        replace_files(tmp_path, NEW)
    (tmp_path / name).unlink()
