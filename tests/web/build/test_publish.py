"""The finished site: hashed names, the worker's index, headers for hosts, the service worker's list."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from pathlib import Path
from typing import Any

import pytest
from build.failure import BuildError
from build.host_files import APACHE_FILE, HEADERS_FILE, write_host_files
from build.publish import added_files, page_files, publish_runtime
from build.service import SERVICE_FILE, write_service
from build.size_table import first_visit_files, size_table, sizes

pytestmark = pytest.mark.native

POLICY = "default-src 'none'; script-src 'self'"
MEMORY = "snapshot/memory-0123456789abcdef.bin"
WHEELS = ("numpy-2-00123456789-py3.whl", "fpdf2-2-00123456789-py3.whl")


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A site as Vite leaves it, and a runtime put into it."""
    runtime, site = tmp_path / "runtime", tmp_path / "site"
    (runtime / "snapshot").mkdir(parents=True)
    (site / "assets").mkdir(parents=True)
    for name in ("pyodide.mjs", "pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip", *WHEELS, MEMORY):
        (runtime / name).write_text(name)
    (runtime / "pyodide-lock.json").write_text('{"info": {}}')
    (runtime / "snapshot.json").write_text('{"heap": 1}')
    (site / "index.html").write_text(f'<meta http-equiv="Content-Security-Policy" content="{POLICY}" />')
    (site / "assets" / "service-1a2b.js").write_text("self.go();")
    publish_runtime(runtime, site)
    return site


def names_in(folder: Path) -> set[str]:
    return {one.relative_to(folder).as_posix() for one in folder.rglob("*") if one.is_file()}


def test_every_file_of_the_runtime_has_its_hash_in_its_name_and_the_index_leads_there(site: Path) -> None:
    index: dict[str, Any] = json.loads((site / "runtime.json").read_text())
    assert index["lock"] == {"info": {}}
    assert index["snapshot"] == {"heap": 1}
    assert set(index["files"]) == {"pyodide.asm.js", "pyodide.asm.wasm", "python_stdlib.zip"}
    for name, entry in index["files"].items():
        digest = hashlib.sha256(name.encode())
        assert digest.hexdigest()[:16] in entry["file"]
        assert entry["integrity"] == f"sha256-{base64.b64encode(digest.digest()).decode()}"
        assert (site / "py" / entry["file"]).read_text() == name
    placed = {entry["file"] for entry in index["files"].values()}
    assert names_in(site / "py") == {*placed, *WHEELS, MEMORY}


def test_what_is_added_is_told_from_what_the_page_was_built_as(site: Path) -> None:
    write_host_files(site)
    write_service(site, late={"fpdf2"})
    (site / "index.html.br").write_text("")
    assert {one.name for one in page_files(site)} == {"index.html", "service-1a2b.js"}
    assert {HEADERS_FILE, APACHE_FILE, SERVICE_FILE, "runtime.json"} <= {
        one.name for one in added_files(site)
    }


def test_hosts_are_told_the_pages_policy_and_what_lasts(site: Path) -> None:
    write_host_files(site)
    headers = (site / HEADERS_FILE).read_text()
    apache = (site / APACHE_FILE).read_text()
    for text in (headers, apache):
        assert f"{POLICY}; frame-ancestors 'none'" in text
        assert "nosniff" in text
    blocks = re.split(r"^(?=/)", headers, flags=re.MULTILINE)[1:]
    assert [block.splitlines()[0] for block in blocks] == ["/*", "/assets/*", "/py/*"]
    assert ["immutable" in block for block in blocks] == [False, True, True]
    # Each element that is opened is closed.
    assert sorted(re.findall(r"<(\w+)", apache)) == sorted(re.findall(r"</(\w+)", apache))


def listed(site: Path) -> dict[str, Any]:
    head, _, program = (site / SERVICE_FILE).read_text().partition("\n")
    assert program == "self.go();"
    found: dict[str, Any] = json.loads(head.removeprefix("self.tuckfoldSite = ").removesuffix(";"))
    return found


def test_the_service_worker_knows_every_file_with_its_hash_and_the_start_that_needs_it(site: Path) -> None:
    write_host_files(site)
    (site / "index.html.gz").write_text("")
    write_service(site, late={"fpdf2"})
    files = {one["path"]: one for one in listed(site)["files"]}
    hosts = {HEADERS_FILE, APACHE_FILE, SERVICE_FILE, "assets/service-1a2b.js", "index.html.gz"}
    assert set(files) == names_in(site) - hosts
    starts = {path.partition("-")[0]: one["start"] for path, one in files.items()}
    assert starts["py/numpy"] == starts["py/python_stdlib"] == "plain"
    assert starts["py/snapshot/memory"] == "snapshot"
    assert starts["py/fpdf2"] == starts["py/pyodide.asm"] == starts["index.html"] == "both"
    assert [files["index.html"]["hashed"], files[f"py/{MEMORY}"]["hashed"]] == [False, True]


def test_another_build_has_another_version(site: Path) -> None:
    write_service(site, late=set())
    first = listed(site)["version"]
    write_service(site, late=set())
    assert listed(site)["version"] == first
    (site / "index.html").write_text("another")
    write_service(site, late=set())
    assert listed(site)["version"] != first


@pytest.mark.parametrize("text", ['import{a}from"./b.js";', 'import "./b.js";a();export{c}from"./d.js"'])
def test_a_service_worker_that_would_load_more_is_refused(site: Path, text: str) -> None:
    (site / "assets" / "service-1a2b.js").write_text(text)
    with pytest.raises(BuildError, match="loads another"):
        write_service(site, late=set())


def test_sizes_count_what_is_sent(site: Path) -> None:
    (site / "index.html.br").write_bytes(b"12")
    (site / "index.html.gz").write_bytes(b"123")
    plain = (site / "index.html").stat().st_size
    found = sizes([site / "index.html", site / "py" / WHEELS[0]])
    wheel = len(WHEELS[0])
    assert (found.plain, found.gzip, found.brotli) == (plain + wheel, 3 + wheel, 2 + wheel)
    first = {one.relative_to(site).as_posix().partition("-")[0] for one in first_visit_files(site)}
    assert first == {"index.html", "runtime.json", "py/pyodide.asm", "py/snapshot/memory"}
    # derived: page, service worker's program, index, three files of Pyodide, two wheels, the memory.
    assert size_table(site).splitlines()[-1].endswith("the whole site, 9 files")
