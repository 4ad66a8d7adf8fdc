"""SVG drawings: what gets through unchanged, what is left out, and what is refused with its line."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from builder.formula import Fault
from builder.pictures.svg import Drawing, read_drawing
from tests.pictures.making import published, refused
from tests.site.building import CONTENT

SVG = 'xmlns="http://www.w3.org/2000/svg"'
LINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def drawing(inner: str, root: str = 'viewBox="0 0 40 20"') -> bytes:
    return f"<svg {SVG} {LINK} {root}>\n{inner}\n</svg>".encode()


def fault(data: bytes) -> Fault:
    found = read_drawing(data, "d.svg")
    assert isinstance(found, Fault), found
    return found


def kept(data: bytes) -> Drawing:
    found = read_drawing(data, "d.svg")
    assert isinstance(found, Drawing), found
    return found


UNSAFE = {
    "<script>alert(1)</script>": "<script>",
    "<SCRIPT/>": "<SCRIPT>",
    '<script href="x.js"/>': "<script>",
    '<h:script xmlns:h="http://www.w3.org/1999/xhtml"/>': "<script>",
    '<h:iframe xmlns:h="http://www.w3.org/1999/xhtml" src="x"/>': "<iframe>",
    "<foreignObject><p/></foreignObject>": "<foreignObject>",
    "<metadata><script/></metadata>": "<script>",
    '<image href="x.png"/>': "<image>",
    '<image href="data:image/png;base64,AA"/>': "<image>",
    '<a href="x.html"><path/></a>': "<a>",
    '<animate attributeName="href" to="x"/>': "<animate>",
    "<set/>": "<set>",
    '<filter id="f"><feImage href="x"/></filter>': "<filter>",
    '<path onload="x()"/>': 'the event "onload" on <path>',
    '<path ONCLICK="x()"/>': 'the event "ONCLICK" on <path>',
    '<use href="other.svg#a"/>': 'a link to "other.svg#a" on <use>',
    '<use xlink:href="https://example.org/a.svg#b"/>': 'a link to "https://example.org/a.svg#b" on <use>',
    '<use href="data:image/svg+xml,x#a"/>': 'a link to "data:image/svg+xml,x#a" on <use>',
    '<use href=" #a"/>': 'a link to " #a" on <use>',
    '<path fill="url(https://example.org/x)"/>': 'fill="url(https://example.org/x)" on <path>',
    '<path fill="URL( \'x.svg#a\' )"/>': "fill=\"URL( 'x.svg#a' )\" on <path>",
    '<path fill="u\\72l(x)"/>': 'fill="u\\72l(x)" on <path>',
    '<path style="background: image-set(\'x\' 1x)"/>': "style=\"background: image-set('x' 1x)\" on <path>",
    '<path style="@import \'x\'"/>': "style=\"@import 'x'\" on <path>",
    '<g xml:base="https://example.org/"/>': "xml:base on <g>",
    "<style>@import 'x.css';</style>": "\"@import 'x.css';\" in its <style>",
    "<style>@font-face { src: url(x) }</style>": '"url(x) }" in its <style>',
    "<style>path { fill: url(x.svg#a) }</style>": '"url(x.svg#a) }" in its <style>',
    "<style>path { fill: u\\72l(x) }</style>": '"\\72l(x) }" in its <style>',
    "<style><![CDATA[@im]]><![CDATA[port 'x']]></style>": "\"@import 'x'\" in its <style>",
    "<style>a { fill: u<style>b</style>rl(https://example.org/x) }</style>": "<style> in a <style>",
    "<style>@im<g/>port 'x.css'</style>": "<g> in a <style>",
    "<style>u<m:x xmlns:m='y'>b</m:x>rl(x)</style>": '"url(x)" in its <style>',
    "<?xml-stylesheet href='x.css'?>": "a style sheet from elsewhere",
}


@pytest.mark.parametrize("inner", UNSAFE)
def test_what_could_act_or_fetch_is_refused_with_its_line(inner: str) -> None:
    found = fault(drawing(f"<g>\n{inner}</g>"))
    assert found.code.id == "P607"
    assert found.message == f"d.svg holds {UNSAFE[inner]}, line 3"


DOCTYPES = {
    "entities": '<!DOCTYPE svg [<!ENTITY a "b">]>',
    "a definition elsewhere": '<!DOCTYPE svg SYSTEM "https://example.org/svg.dtd">',
    "a file of this machine": '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]>',
    "the laugh a billion times": "<!DOCTYPE svg [<!ENTITY a 'ha'>"
    + "".join(f"<!ENTITY a{at} '{f'&a{at - 1 if at else str()};' * 10}'>" for at in range(9)) + "]>",
}  # fmt: skip


@pytest.mark.parametrize("name", DOCTYPES)
def test_a_document_type_is_refused_before_anything_in_it_is_read(name: str) -> None:
    found = fault(DOCTYPES[name].encode() + drawing("<text>&a;</text>"))
    assert (found.code.id, found.message) == ("P607", "d.svg holds a document type (DOCTYPE), line 1")


def test_what_repeats_itself_is_refused() -> None:
    """Ten repeats of ten repeats, nine times over, would keep a phone busy for good."""
    nested = "".join(
        f'<g id="g{at}">' + f'<use href="#g{at - 1}"/>' * 10 + "</g>\n" for at in range(1, 10)
    )  # fmt: skip
    found = fault(drawing(f'<g id="g0"><path d="M0 0H9"/></g>\n{nested}'))
    assert (found.code.id, found.message) == ("P607", 'd.svg holds <use> of "g1", which itself holds a <use>, line 4')
    itself = fault(drawing('<g id="a"><use href="#a"/></g>'))
    assert itself.message == 'd.svg holds <use> of "a", which itself holds a <use>, line 2'


def test_a_drawing_gets_through_as_it_was_drawn() -> None:
    inner = (
        '<defs><pattern id="h" width="7" height="7"><path class="thin" d="M0 0V7"/></pattern></defs>'
        '<style>.thin { stroke: #16171b } @media (prefers-color-scheme: dark) { .thin { stroke: white } }</style>'
        '<title>Cut &amp; joint</title><g id="a" transform="rotate(9)"><path fill="url(#h)" d="M0 0H9"/></g>'
        '<use xlink:href="#a" x="3"/><text xml:space="preserve" aria-label="x">a &lt; b</text>'
    )  # fmt: skip
    written = kept(drawing(inner)).written(1600, 800)
    first, again = ET.fromstring(drawing(inner)), ET.fromstring(written)
    assert [element.tag for element in first.iter()] == [element.tag for element in again.iter()]
    assert [element.text for element in first.iter()] == [element.text for element in again.iter()]
    plain = [{key.rpartition("}")[2]: value for key, value in element.items()} for element in first.iter()][1:]
    assert plain == [{key.rpartition("}")[2]: value for key, value in element.items()} for element in again.iter()][1:]
    assert dict(again.items()) == {"width": "1600", "height": "800", "viewBox": "0 0 40 20"}


def test_what_an_editor_keeps_for_itself_is_left_out() -> None:
    data = b'<?xml version="1.0"?><!-- drawn by Ada --><?pi x?>' + drawing(
        '<e:view e:path="/home/ada/x.svg" xmlns:e="https://example.org/e"><e:grid/><path/></e:view>'
        '<metadata><r:RDF xmlns:r="https://example.org/r"><r:by>Ada</r:by></r:RDF></metadata><!-- Ada -->'
        '<path e:label="Ada" d="M0 0" xmlns:e="https://example.org/e"/>'
    )
    written = kept(data).written(40, 20).decode()
    assert '<path d="M0 0"></path>' in written
    for word in ("Ada", "ada", "RDF", "grid", "pi", "example.org", "<!--"):
        assert word not in written, word
    assert written.count("<path") == 1


@pytest.mark.parametrize(
    ("root", "size", "view_box"),
    [
        ('viewBox="0 0 40 20"', (40, 20), "0 0 40 20"),
        ('viewBox="-5,-5 12.5 10" width="100mm" height="80mm"', (12.5, 10), "-5,-5 12.5 10"),
        ('width="30" height="60px"', (30, 60), "0 0 30 60"),
    ],
)
def test_a_size_is_read(root: str, size: tuple[float, float], view_box: str) -> None:
    found = kept(drawing("<path/>", root))
    assert ((found.width, found.height), found.view_box) == (size, view_box)


@pytest.mark.parametrize(
    "root",
    ["", 'width="100%" height="100%"', 'width="30mm" height="60mm"', 'viewBox="0 0 0 20"', 'viewBox="0 0 40"',
     'viewBox="0 0 nan 20"', 'viewBox="0 0 1 900"', 'width="30"', 'viewBox="0 0 -4 20"'],
)  # fmt: skip
def test_without_a_size_it_is_refused(root: str) -> None:
    assert fault(drawing("<path/>", root)).code.id == "P608"


@pytest.mark.parametrize(
    ("data", "code", "said"),
    [
        (b"<svg", "P605", "d.svg is no well-formed SVG, line 1"),
        (b"", "P605", "d.svg is no well-formed SVG, line 1"),
        (drawing("<g>\n"), "P605", "d.svg is no well-formed SVG, line 4"),
        (drawing("&nothing;"), "P605", "d.svg is no well-formed SVG, line 2"),
        (b"<?xml version='1.0' encoding='nonsense'?>" + drawing(""), "P605", "d.svg is no well-formed SVG, line 1"),
        (b"<svg viewBox='0 0 9 9'/>", "P605", "d.svg does not begin with an <svg> of its namespace"),
        (b"<html/>", "P605", "d.svg does not begin with an <svg> of its namespace"),
        (drawing("<g>" * 99 + "</g>" * 99), "P603", "d.svg has too many elements, or too deep ones"),
        (drawing("<e:e xmlns:e='x'>" * 99 + "</e:e>" * 99), "P603", "d.svg has too many elements, or too deep ones"),
        (drawing("<path/>" * 20_001), "P603", "d.svg has too many elements, or too deep ones"),
        (drawing(" " * 2_000_001), "P603", "d.svg is larger than 2 MB"),
    ],
)  # fmt: skip
def test_what_is_no_drawing_is_refused(data: bytes, code: str, said: str) -> None:
    found = fault(data)
    assert (found.code.id, found.message) == (code, said)


@pytest.mark.parametrize("encoding", ["utf-8-sig", "iso-8859-1"])
def test_any_common_encoding_is_read(encoding: str) -> None:
    head = f"<?xml version='1.0' encoding='{encoding.removesuffix('-sig')}'?>"
    text = head + drawing("<text>Größe</text>").decode()
    assert "Größe" in kept(text.encode(encoding)).written(1, 1).decode("utf-8")


def test_a_drawing_is_published_once_and_at_any_size(tmp_path: Path) -> None:
    picture, files = published(tmp_path, "cut.svg", drawing("<path/>"), "drawing")
    assert (picture.full, picture.small) == (("assets/pictures/cut.svg", 1600, 800), None)
    assert list(files) == ["assets/pictures/cut.svg"]
    assert b'width="1600" height="800"' in files["assets/pictures/cut.svg"]
    assert refused(tmp_path, "bad.svg", drawing("<script/>"), "drawing").code.id == "P607"


@pytest.mark.parametrize("path", sorted((CONTENT / "figures").glob("*.svg")), ids=lambda path: path.stem)
def test_the_library_s_drawings_have_the_house_look(path: Path) -> None:
    """Ink on white, violet for film alone; nothing is left out of them, so what is published is what was drawn."""
    text = path.read_text("utf-8")
    colours = set(re.findall(r"(?:fill|stroke): ([^;]+);", text))
    assert {"#16171b", "none"} < colours <= {"#16171b", "#ffffff", "#7a35b8", "#5a2a86", "none"}
    written = kept(path.read_bytes()).written(1600, 1000)
    assert [one.tag for one in ET.fromstring(text).iter()] == [one.tag for one in ET.fromstring(written).iter()]
