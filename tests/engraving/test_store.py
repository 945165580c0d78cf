"""What is remembered is checked when it is read, bounded, and shared between builds."""

from __future__ import annotations

import threading
from dataclasses import replace
from pathlib import Path

import pytest

from engraver.engraving import Engine, Job
from engraver.engraving.costs import Costs
from engraver.engraving.job import Complaint, Engraved, Severity
from engraver.engraving.key import Keys
from engraver.engraving.store import LIMIT, Entry, Store
from engraver.errors import EngravingError

SAID = Complaint(Severity.WARNING, 2, 7, "barcheck failed at: 1/4")


def put(store: Store, key: str, content: bytes = b"%PDF- %%EOF") -> Entry:
    made = store.workplace / "made"
    made.mkdir()
    (made / "source.pdf").write_bytes(content)
    (made / "source.log").write_bytes(b"not to be kept")
    return store.write(key, made, Entry((made / "source.pdf",), (SAID,), 0.5))


@pytest.fixture
def store(tmp_path):
    store = Store(tmp_path / "store")
    store.open()
    yield store
    store.close()


def flip_a_bit(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)


def replace_in(path: Path, old: bytes, new: bytes) -> None:
    content = path.read_bytes()
    assert old in content
    path.write_bytes(content.replace(old, new))


DAMAGE = {
    "a bit of the PDF": lambda place: flip_a_bit(place / "source.pdf"),
    "the PDF cut short": lambda place: (place / "source.pdf").write_bytes(b"%PDF-"),
    "no PDF": lambda place: (place / "source.pdf").unlink(),
    "a bit of the card": lambda place: flip_a_bit(place / "card.json"),
    "a number on the card": lambda place: replace_in(place / "card.json", b"0.5", b"0.7"),
    "an empty card": lambda place: (place / "card.json").write_bytes(b""),
    "no card": lambda place: (place / "card.json").unlink(),
}


def test_what_was_written_is_read(store):
    written = put(store, "aa11")
    assert store.read("aa11") == written
    assert written.files[0].read_bytes() == b"%PDF- %%EOF"
    assert sorted(path.name for path in written.files[0].parent.iterdir()) == ["card.json", "source.pdf"]
    assert store.read("aa12") is None


@pytest.mark.parametrize("damage", DAMAGE.values(), ids=DAMAGE)
def test_a_damaged_entry_is_noticed_and_can_be_made_again(store, damage):
    place = put(store, "aa11").files[0].parent
    damage(place)
    assert store.read("aa11") is None
    assert put(store, "aa11") == store.read("aa11")


def test_a_damaged_page_is_engraved_again(shop):
    job = Job("page", '\\version "2.24.0"\n{ c\'4 }\n')
    with shop() as workshop:
        [first] = workshop.engrave([job])
        good = first.pdf.read_bytes()
        flip_a_bit(first.pdf)
        [second] = workshop.engrave([job])
    assert second.fresh and second.pdf.read_bytes() == good


def test_what_was_unused_longest_is_dropped_beyond_the_limit(tmp_path):
    for key in ("aa", "bb", "cc"):
        with_limit(tmp_path, 10**6, lambda store, key=key: put(store, key + "11", bytes(1000)))
    with_limit(tmp_path, 10**6, lambda store: store.read("aa11"))
    with_limit(tmp_path, 4000, lambda store: put(store, "dd11", bytes(1000)))
    left = sorted(path.parent.name for path in (tmp_path / "store" / "entries").glob("*/*"))
    assert left == ["aa", "cc", "dd"]  # cards take some 200 bytes each


def with_limit(tmp_path, limit, action):
    store = Store(tmp_path / "store", limit)
    store.open()
    try:
        action(store)
    finally:
        store.close()


def test_what_is_in_use_is_never_dropped(tmp_path):
    def fill(store):
        kept = [put(store, key) for key in ("aa11", "bb11")]
        store.close()
        assert all(entry.files[0].exists() for entry in kept)
        store.open()

    with_limit(tmp_path, 0, fill)


def test_a_store_that_others_use_is_not_tidied(tmp_path, store):
    put(store, "aa11")
    with_limit(tmp_path, 0, lambda other: put(other, "bb11"))
    assert store.read("aa11") and store.read("bb11")
    assert store.workplace.exists()


def test_what_a_killed_build_left_is_removed(tmp_path):
    (tmp_path / "store" / "work-left").mkdir(parents=True)
    with_limit(tmp_path, LIMIT, lambda store: put(store, "aa11"))
    assert list((tmp_path / "store").glob("work-*")) == []


def test_two_builds_may_make_the_same_at_once(shop):
    jobs = [Job(f"{n}", f'\\version "2.24.0"\n\\markup {{ {n} }}\n') for n in range(8)]
    results = {}

    def build(name):
        with shop(workers=1) as workshop:
            results[name] = workshop.engrave(jobs)

    threads = [threading.Thread(target=build, args=(name,)) for name in "ab"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [result.failure for result in results["a"] + results["b"]] == [""] * 16
    assert [result.pdf for result in results["a"]] == [result.pdf for result in results["b"]]


def test_a_limit_that_is_no_number_is_refused(monkeypatch, tmp_path):
    monkeypatch.setenv("ENGRAVER_STORE_LIMIT", "1G")
    with pytest.raises(EngravingError, match='"1G" in \\$ENGRAVER_STORE_LIMIT is not a number of bytes'):
        Store(tmp_path)


ENGINE = Engine(Path("/one/lilypond"), "2.24.3")


def test_a_key_depends_on_text_includes_and_version_and_on_no_place(tmp_path):
    for place in ("here", "there"):
        (tmp_path / place / "sub").mkdir(parents=True)
        (tmp_path / place / "sub" / "kit.ily").write_text("kit")
        (tmp_path / place / "notes.txt").write_text(place)
    here, there = (Keys(ENGINE, [tmp_path / place]).key("text") for place in ("here", "there"))
    assert here == there == Keys(replace(ENGINE, path=Path("/two")), [tmp_path / "here"]).key("text")
    (tmp_path / "there" / "sub" / "kit.ily").write_text("kit.")
    others = [
        Keys(ENGINE, [tmp_path / "here"]).key("text."),
        Keys(replace(ENGINE, version="2.24.4"), [tmp_path / "here"]).key("text"),
        Keys(ENGINE, [tmp_path / "there"]).key("text"),
        Keys(ENGINE, []).key("text"),
        Keys(ENGINE, [tmp_path / "here", tmp_path / "here"]).key("text"),
    ]
    assert len({here, *others}) == 6


def test_the_longest_come_first_by_what_they_cost_last_time(tmp_path):
    costs = Costs(tmp_path / "costs.json")
    for name, length, seconds in (("short but slow", 10, 3.0), ("long but quick", 100, 0.3)):
        costs.learn(Engraved(Job(name, "x" * length), (), None, (), seconds, True))
    costs.save()
    jobs = [Job("long but quick", "x" * 100), Job("new", "x" * 50), Job("short but slow", "x" * 10)]
    ordered = sorted(jobs, key=Costs(tmp_path / "costs.json").guess, reverse=True)
    assert [job.name for job in ordered] == ["short but slow", "new", "long but quick"]  # new: 50 * 3.3 s / 110
    ordered = sorted(jobs, key=Costs(tmp_path / "none.json").guess, reverse=True)
    assert [job.name for job in ordered] == ["long but quick", "new", "short but slow"]
