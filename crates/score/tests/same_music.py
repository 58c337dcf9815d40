#!/usr/bin/env python3
"""Holds a score into which marks were written against its source: same_music.py SOURCE MARKED [SOURCE MARKED]…

Three readers outside this project judge: the schema of MusicXML 4.0 (W3C Community Group; as the PyPI package musicxml
brings it; judged by lxml), music21, and verovio. MARKED must be valid where SOURCE is, and both must have the same notes at
the same times. Ends with 0 where all is as it should be, else with 1 and what is not. requirements.txt beside this file
names the versions. Before the first pair the readers must tell a score in which one note was changed.
"""
import io
import pathlib
import sys
import tempfile
import zipfile
from xml.etree import ElementTree

import lxml.etree
import music21
import musicxml
import verovio

# The schema imports two small ones that the package does not bring: the attributes of XML itself and of XLink (W3C, XML
# 1.0 and XML Linking Language 1.1). Those that MusicXML uses are declared here.
XML = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="http://www.w3.org/XML/1998/namespace">
  <xs:attribute name="lang" type="xs:language"/>
  <xs:attribute name="space"><xs:simpleType><xs:restriction base="xs:NCName"><xs:enumeration value="default"/>
    <xs:enumeration value="preserve"/></xs:restriction></xs:simpleType></xs:attribute>
</xs:schema>"""
XLINK = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="http://www.w3.org/1999/xlink">
  <xs:attribute name="href" type="xs:anyURI"/><xs:attribute name="type" type="xs:string" fixed="simple"/>
  <xs:attribute name="role" type="xs:token"/><xs:attribute name="title" type="xs:token"/>
  <xs:attribute name="show"><xs:simpleType><xs:restriction base="xs:token"><xs:enumeration value="new"/>
    <xs:enumeration value="replace"/><xs:enumeration value="embed"/><xs:enumeration value="other"/>
    <xs:enumeration value="none"/></xs:restriction></xs:simpleType></xs:attribute>
  <xs:attribute name="actuate"><xs:simpleType><xs:restriction base="xs:token"><xs:enumeration value="onRequest"/>
    <xs:enumeration value="onLoad"/><xs:enumeration value="other"/><xs:enumeration value="none"/>
    </xs:restriction></xs:simpleType></xs:attribute>
</xs:schema>"""


def schema():
    """The schema, with its imports beside it: it names places on the network, where nobody is asked."""
    brought = pathlib.Path(musicxml.__file__).parent / "generate_classes"
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        text = (brought / "musicxml_4_0.xsd").read_text(encoding="utf-8")
        for name in ("xml.xsd", "xlink.xsd"):
            text = text.replace(f"http://www.musicxml.org/xsd/{name}", name)
        (folder / "musicxml.xsd").write_text(text, encoding="utf-8")
        (folder / "xml.xsd").write_text(XML, encoding="utf-8")
        (folder / "xlink.xsd").write_text(XLINK, encoding="utf-8")
        return lxml.etree.XMLSchema(lxml.etree.parse(str(folder / "musicxml.xsd"), lxml.etree.XMLParser(no_network=True)))


def score_bytes(path):
    """The score itself, out of its archive where it is in one."""
    data = pathlib.Path(path).read_bytes()
    if not data.startswith(b"PK"):
        return data
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        container = ElementTree.fromstring(archive.read("META-INF/container.xml"))
        root = next(element for element in container.iter() if element.tag.split("}")[-1] == "rootfile")
        return archive.read(root.get("full-path"))


def plain(data):
    """The score's tree without its document type, so that nobody goes looking for it."""
    parser = lxml.etree.XMLParser(no_network=True, load_dtd=False, resolve_entities=False)
    return lxml.etree.fromstring(data, parser)


def wrong_in(judge, tree):
    """What the schema finds wrong, or nothing."""
    document = lxml.etree.ElementTree(tree)
    return "" if judge.validate(document) else str(judge.error_log.last_error)


def as_music21_reads(text):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "score.musicxml"
        path.write_text(text, encoding="utf-8")
        score = music21.converter.parseFile(path, forceSource=True, storePickle=False)
    found = []
    for nth, part in enumerate(score.parts):
        for place, measure in enumerate(part.getElementsByClass("Measure")):
            for note in measure.recurse().notes:
                at = note.getOffsetInHierarchy(measure)
                ties = [member.tie.type if member.tie else "" for member in getattr(note, "notes", [note])]
                pitches = sorted(pitch.nameWithOctave for pitch in note.pitches)
                found.append((nth, place, str(at), str(note.quarterLength), note.duration.isGrace, pitches, ties))
    return sorted(found, key=str)


def as_verovio_reads(text):
    toolkit = verovio.toolkit()
    toolkit.setOptions({"breaks": "none", "xmlIdSeed": 1})
    if not toolkit.loadData(text):
        raise RuntimeError("verovio does not read it")
    tree = ElementTree.fromstring(toolkit.getMEI())
    found = []
    for place, measure in enumerate(element for element in tree.iter() if element.tag.endswith("}measure")):
        for staff in (element for element in measure if element.tag.endswith("}staff")):
            for element in staff.iter():
                if element.tag.split("}")[-1] in ("note", "rest", "chord", "space", "mRest", "beam", "tuplet", "layer"):
                    kept = ("n", "pname", "oct", "dur", "dots", "grace", "num", "numbase", "accid.ges")
                    accidentals = [sub.get("accid") or sub.get("accid.ges") for sub in element if sub.tag.endswith("}accid")]
                    values = [element.get(name) for name in kept]
                    found.append((place, staff.get("n"), element.tag.split("}")[-1], *values, *accidentals))
    times = [(event["qstamp"], len(event.get("on", [])), len(event.get("off", []))) for event in toolkit.renderToTimemap()]
    return found, times


READERS = {"music21": as_music21_reads, "verovio": as_verovio_reads}


def text_of(tree):
    return lxml.etree.tostring(tree, encoding="unicode")


def sees_a_changed_note(tree):
    """Each reader must tell the score from one in which the middle note is an octave higher."""
    before = text_of(tree)
    octaves = tree.findall(".//{*}pitch/{*}octave")
    if not octaves:
        return "there is no note in it"
    octave = octaves[len(octaves) // 2]
    octave.text = str(int(octave.text) % 8 + 1)
    after = text_of(tree)
    blind = [name for name, reads in READERS.items() if reads(before) == reads(after)]
    return f"{' and '.join(blind)} took a changed note for the same" if blind else ""


def compared(judge, source, marked):
    """-> what is not as it should be, and a line about both."""
    before, after = plain(score_bytes(source)), plain(score_bytes(marked))
    wrong_before, wrong_after = wrong_in(judge, before), wrong_in(judge, after)
    troubles = []
    if wrong_after and not wrong_before:
        troubles.append(f"no longer valid: {wrong_after}")
    texts = text_of(before), text_of(after)
    counts = []
    for name, reads in READERS.items():
        old, new = (reads(text) for text in texts)
        heads = len(old) if name == "music21" else sum(event[1] for event in old[1])
        counts.append(f"{name} {heads}")
        if old != new:
            troubles.append(f"{name} reads other notes")
    added = len(after.findall(".//{*}direction")) - len(before.findall(".//{*}direction"))
    valid = "no valid MusicXML 4.0 before" if wrong_before else "valid MusicXML 4.0"
    return troubles, f"{added} marks; {', '.join(counts)} notes or chords; {valid}"


def main(paths):
    verovio.enableLog(verovio.LOG_OFF)
    judge = schema()
    failed = sees_a_changed_note(plain(score_bytes(paths[1])))
    if failed:
        print(f"FAILED  {paths[1]}: {failed}")
    for source, marked in zip(paths[::2], paths[1::2]):
        troubles, about = compared(judge, source, marked)
        print(f"{'FAILED  ' if troubles else 'ok      '}{marked}: {'; '.join([about, *troubles])}")
        failed = failed or troubles
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) < 3 or len(sys.argv) % 2 == 0:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1:]))
