"""A file is saved whole or not at all."""

import os
import signal
import subprocess
import sys
import time

import pytest

from hushwright.document.save import digest, save_atomically
from hushwright.errors import UnreadableDocument

OLD = "people: 4\n"
NEW = "people: 5\n"


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "van.yaml"
    path.write_bytes(OLD.encode())
    return path


def names(path):
    return sorted(item.name for item in path.parent.iterdir())


def test_the_new_text_is_written_byte_for_byte(path):
    text = "\ufeffpeople: 5\r\ntitle: Käse\r\n"
    save_atomically(path, text, digest(OLD))
    assert path.read_bytes() == text.encode("utf-8")
    assert names(path) == ["van.yaml"]


@pytest.mark.skipif(os.name == "nt", reason="modes of files are those of POSIX")
def test_the_mode_of_the_file_stays(path):
    path.chmod(0o640)
    save_atomically(path, NEW)
    assert path.stat().st_mode & 0o777 == 0o640


@pytest.mark.skipif(os.name == "nt", reason="links need rights on other systems")
def test_a_link_is_followed(path):
    link = path.with_name("link.yaml")
    link.symlink_to(path)
    save_atomically(link, NEW)
    assert link.is_symlink()
    assert path.read_text() == NEW


def test_a_new_file_is_made(tmp_path):
    save_atomically(tmp_path / "new.yaml", NEW)
    assert (tmp_path / "new.yaml").read_text() == NEW


def test_a_file_that_someone_else_has_changed_is_not_overwritten(path):
    path.write_text("people: 6\n")
    with pytest.raises(UnreadableDocument) as refused:
        save_atomically(path, NEW, digest(OLD))
    assert refused.value.diagnostics[0].reference == "file-changed"
    assert path.read_text() == "people: 6\n"
    path.unlink()
    with pytest.raises(UnreadableDocument):
        save_atomically(path, NEW, digest(OLD))
    assert names(path) == []


@pytest.mark.parametrize("step", ["os.fsync", "pathlib.Path.replace", "pathlib.Path.chmod"])
def test_a_save_that_breaks_down_leaves_the_old_file_and_nothing_else(path, monkeypatch, step):
    def fail(*_args, **_kwargs):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(step, fail)
    with pytest.raises(UnreadableDocument) as refused:
        save_atomically(path, NEW)
    monkeypatch.undo()
    assert refused.value.diagnostics[0].reference == "file-not-written"
    assert "No space left" in refused.value.diagnostics[0].note
    assert path.read_text() == OLD
    assert names(path) == ["van.yaml"]


SAVER = """
import sys
from hushwright.document.save import save_atomically
texts = [letter * 200_000 + "\\n" for letter in "ab"]
print("ready", flush=True)
while True:
    for text in texts:
        save_atomically(sys.argv[1], text)
"""


@pytest.mark.skipif(os.name == "nt", reason="a process is killed differently there")
def test_a_save_killed_at_any_moment_leaves_one_whole_text(path):
    whole = {letter * 200_000 + "\n" for letter in "ab"}
    for pause in (0.0, 0.003, 0.011, 0.02):
        saver = subprocess.Popen([sys.executable, "-c", SAVER, str(path)], stdout=subprocess.PIPE)
        saver.stdout.readline()
        time.sleep(0.05 + pause)
        saver.send_signal(signal.SIGKILL)
        saver.wait()
        saver.stdout.close()
        assert path.read_text() in whole
