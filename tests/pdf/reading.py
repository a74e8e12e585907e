"""Read the words back out of a PDF, page by page, by each face's own table of letters."""

import base64
import re
import zlib


def pages_of(pdf: bytes) -> list[str]:
    """The words of each page, one line of text a line."""
    objects = {
        int(number): _unpacked(body) for number, body in re.findall(rb"(\d+) 0 obj\n(.*?)endobj", pdf, re.DOTALL)
    }
    faces = {name: _letters(objects, int(at)) for name, at in re.findall(rb"/(F[\d+]+) (\d+) 0 R", pdf)}
    shown = [int(at) for at in re.findall(rb"/Contents (\d+) 0 R", pdf)]
    return ["\n".join(_pieces(objects[at], faces)) for at in shown]


def _unpacked(body: bytes) -> bytes:
    """An object with its stream as it was before it was packed; a face's own file stays as it is."""
    packed = re.search(rb"/Filter \[ (/ASCII85Decode )?/FlateDecode \].*?stream\n(.*?)endstream", body, re.DOTALL)
    if packed is None or b"/Length1" in body:
        return body
    return zlib.decompress(base64.a85decode(b"<~" + packed[2].strip(), adobe=True) if packed[1] else packed[2])


def _letters(objects: dict[int, bytes], at: int) -> dict[int, str]:
    told = re.search(rb"/ToUnicode (\d+) 0 R", objects[at])
    if told is None:
        return {}
    body = objects[int(told[1])]
    return {
        int(code, 16): bytes.fromhex(letter.decode()).decode("utf-16-be")
        for block in re.findall(rb"beginbfchar\n(.*?)endbfchar", body, re.DOTALL)
        for code, letter in re.findall(rb"<(\w+)> <(\w+)>", block)
    } | _ranged(body)


def _ranged(body: bytes) -> dict[int, str]:
    found: dict[int, str] = {}
    for block in re.findall(rb"beginbfrange\n(.*?)endbfrange", body, re.DOTALL):
        for first, letters in re.findall(rb"<(\w+)> <\w+>\s*\[(.*?)\]", block, re.DOTALL):
            for step, letter in enumerate(re.findall(rb"<(\w+)>", letters)):
                found[int(first, 16) + step] = bytes.fromhex(letter.decode()).decode("utf-16-be")
    return found


def _pieces(content: bytes, faces: dict[bytes, dict[int, str]]) -> list[str]:
    face: dict[int, str] = {}
    lines = [""]
    step = rb"/(F[\d+]+) [\d.]+ Tf|\(((?:\\.|[^\\)])*)\) Tj|(T\*|ET)"
    for name, said, is_over in re.findall(step, content, re.DOTALL):
        if name:
            face = faces[name]
        elif is_over:
            lines.append("")
        else:
            lines[-1] += "".join(face.get(code, chr(code)) for code in _codes(said))
    return [line.strip() for line in lines if line.strip()]


def _codes(said: bytes) -> bytes:
    plain = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}

    def one(found: re.Match[bytes]) -> bytes:
        return bytes([int(found[1], 8)]) if found[1].isdigit() else plain.get(found[1], found[1])

    return re.sub(rb"\\([0-7]{1,3}|.)", one, said, flags=re.DOTALL)
