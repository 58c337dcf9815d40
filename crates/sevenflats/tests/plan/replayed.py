"""Plans replayed by another reader: the command plans, music21 reads, and every note must sound.

    python replayed.py COMMAND FILE[::PART] …

PART is a part's number from 1 (1 where it is not said). Each file is planned with `--json
--no-repeats` for a harp of 47 strings, and read again with music21 10.5.1, which shares nothing with the
reader of this project. Then the plan is gone through bar by bar: each note that is plucked must find a
string that stands there, pedals must stand where a change says they come from, no foot may move twice
within the least time. Each plan is also spoiled, in several ways, and every one must be found out. One line a
file; it ends with 1 where anything is wrong, or nothing was read.

A harmonic that is written as a chord is taken to have its base lowest.
"""

import copy
import json
import re
import subprocess
import sys
from collections import Counter
from fractions import Fraction

import music21
from music21 import articulations, chord, converter, harmony, note

READER = "10.5.1"
# --tau; two notches take half as long again (docs/planning.md)
TAU_S = 0.4
# at_s has whole microseconds
ROUNDED_S = 2e-6
FEET = {"D": "left", "C": "left", "B": "left", "E": "right", "F": "right", "G": "right", "A": "right"}
STEPS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
ALTERS = {"flat": -1, "natural": 0, "sharp": 1}
# strings without discs of a harp of 47 strings, common practice; and its compass, C1 to G7
BY_KEY = {"C1", "D1", "G7"}
LOWEST, HIGHEST = (1, "C"), (7, "G")


def spelled(text):
    """Letter, alteration and octave of a pitch as the command writes it: Cn4, F##3, Bb0."""
    letter, signs, octave = re.fullmatch(r"([A-G])(n|b*|#*)(-?\d+)", text).groups()
    return letter, signs.count("#") - signs.count("b"), int(octave)


def key_number(pitch):
    letter, alter, octave = pitch
    return 12 * (octave + 1) + STEPS[letter] + alter


class Head:
    """A note head that is plucked."""

    def __init__(self, measure, beat, pitch, grace, octaves):
        self.measure, self.beat, self.grace = measure, beat, grace
        # a quarter tone is read as the semitone nearest to the letter
        self.pitch = (pitch.step, int(pitch.alter), pitch.octave + octaves)

    def where(self):
        return f"measure {self.measure}, beat {self.beat}: {self.pitch}"


def heads_of(path, number):
    """The plucked heads of a part, and how many measures it has."""
    score = converter.parse(path, forceSource=True)
    groups = {}
    for part in score.parts:
        # the staves of one part are parts of their own here: P1-Staff1, P1-Staff2
        groups.setdefault(re.sub(r"-Staff\d+$", "", str(part.id)), []).append(part)
    staves = list(groups.values())[number - 1]
    heads, bars = [], 0
    for staff in staves:
        staff = staff.toSoundingPitch()
        measures = list(staff.getElementsByClass("Measure"))
        bars = max(bars, len(measures))
        for index, measure in enumerate(measures, 1):
            for element in measure.recurse().notes:
                if isinstance(element, harmony.Harmony):
                    continue
                beat = 1 + Fraction(element.getOffsetInHierarchy(measure))
                heads += plucked(element, index, beat)
    return heads, bars


def plucked(element, measure, beat):
    single = list(element.notes) if isinstance(element, chord.Chord) else [element]
    marks = [mark for mark in element.articulations if isinstance(mark, articulations.StringHarmonic)]
    octaves = 0
    if marks and len(single) > 1:
        single = [min(single, key=lambda one: one.pitch.ps)]
    elif marks and marks[0].pitchType == "sounding":
        octaves = -1
    for one in single:
        tie = one.tie or (element.tie if len(single) == 1 else None)
        if not isinstance(one, note.Note) or (tie and tie.type in ("stop", "continue")):
            continue
        yield Head(measure, beat, one.pitch, element.duration.isGrace, octaves)


class Replay:
    """A plan gone through."""

    def __init__(self, plan, heads, bars):
        self.plan, self.heads, self.bars = plan, heads, bars
        self.faults = []
        self.changes = [(c["measure"], Fraction(c["beat"]), c) for c in plan["changes"]]
        self.lost = 0

    def fault(self, words):
        self.faults.append(words)

    def run(self):
        self.pedals()
        self.feet()
        self.notes()
        self.settings()
        self.sums()
        return self.faults

    def pedals(self):
        """Each pedal comes from where it stood; foot and order are as they must be."""
        stands = dict(self.plan["opening_setting"])
        if sorted(stands) != sorted(FEET):
            self.fault(f"opening {stands}")
        places = [(measure, beat) for measure, beat, _ in self.changes]
        if places != sorted(places):
            self.fault("changes are not in order")
        for measure, beat, change in self.changes:
            pedal, came, goes = change["pedal"], ALTERS[change["from"]], ALTERS[change["to"]]
            where = f"measure {measure}, beat {beat}: {pedal}"
            if stands[pedal] != came or came == goes:
                self.fault(f"{where} stands at {stands[pedal]}, said to come from {came}")
            if change["foot"] != FEET[pedal]:
                self.fault(f"{where} by the {change['foot']} foot")
            stands[pedal] = goes

    def feet(self):
        for foot in ("left", "right"):
            moves = [c for *_, c in self.changes if c["foot"] == foot]
            moves.sort(key=lambda change: change["at_s"])
            for before, after in zip(moves, moves[1:]):
                notches = abs(ALTERS[after["from"]] - ALTERS[after["to"]])
                least = TAU_S * (1 if notches == 1 else 1.5)
                gap = after["at_s"] - before["at_s"]
                if gap < least - ROUNDED_S:
                    self.fault(f"the {foot} foot moves after {gap:.3f} s at measure {after['measure']}")

    def standing(self, measure, beat, before=False):
        """Where the pedals stand for the notes of a place; with `before`, without its own changes."""
        stands = dict(self.plan["opening_setting"])
        for at, at_beat, change in self.changes:
            due = (at, at_beat) < (measure, beat) if before else (at, at_beat) <= (measure, beat)
            if due:
                stands[change["pedal"]] = ALTERS[change["to"]]
        return stands

    def tuned(self, string, measure):
        """What a string without discs sounds from a measure on."""
        told = [t for t in self.plan["discless"] if t["string"] == string and t["measure"] <= measure]
        return key_number(spelled(told[-1]["pitch"])) if told else None

    def notes(self):
        names = {}
        for line in self.plan["respelled"]:
            place = (line["measure"], Fraction(line["beat"]), spelled(line["written"]))
            names.setdefault(place, []).append(spelled(line["played"]))
        cannot = Counter(
            (line["measure"], Fraction(line["beat"]), spelled(line["pitch"])) for line in self.plan["cannot"]
        )
        seen, settings = Counter(), {}
        for head in self.heads:
            place = (head.measure, head.beat, head.pitch)
            seen[place] += 1
            if cannot[place]:
                cannot[place] -= 1
                self.lost += 1
                continue
            played = names.get(place, [head.pitch])[0]
            if key_number(played) != key_number(head.pitch):
                self.fault(f"{head.where()} played as {played}")
            key = place[:2]
            if key not in settings:
                settings[key] = (self.standing(*key), self.standing(*key, before=True))
            if not self.sounds(head, played, settings[key]):
                self.fault(f"{head.where()} finds no string as {played}")
        for place, count in cannot.items():
            if count:
                self.fault(f"{place} cannot be had, and is not written")
        for place, others in names.items():
            if seen[place] < len(others):
                self.fault(f"{place} is respelled, and is not written so often")

    def sounds(self, head, played, stands):
        letter, alter, octave = played
        string = f"{letter}{octave}"
        if string in BY_KEY:
            return self.tuned(string, head.measure) == key_number(played)
        if not on_the_harp(letter, octave):
            return False
        now, before = stands
        # a grace note comes before what its main note's change does
        return now[letter] == alter or (head.grace and before[letter] == alter)

    def settings(self):
        told = {line["measure"]: line for line in self.plan["settings"]}
        if sorted(told) != list(range(1, self.bars + 1)):
            self.fault(f"settings for {len(told)} measures of {self.bars}")
        graces = {head.measure for head in self.heads if head.grace and head.beat == 1}
        for measure, line in told.items():
            now = self.standing(measure, 1)
            before = self.standing(measure, 1, before=True) if measure in graces else now
            for pedal, alter in line["setting"].items():
                if alter not in (now[pedal], before[pedal]):
                    self.fault(f"measure {measure}: {pedal} is said to stand at {alter}")

    def sums(self):
        plan, cost = self.plan, self.plan["cost"]
        # what is set in the pause between movements costs nothing
        priced = [change for change in plan["changes"] if "before_movement" not in change]
        if plan["moves"] != len(plan["changes"]) or cost["moved"]["count"] != len(priced):
            self.fault(f"{plan['moves']} moves for {len(plan['changes'])} changes")
        if cost["lost"]["count"] != len(plan["cannot"]) or self.lost != len(plan["cannot"]):
            self.fault(f"{self.lost} notes lost for {len(plan['cannot'])} that cannot be had")
        if cost["respelled"]["count"] != len(plan["respelled"]):
            self.fault("respelled heads do not agree with the cost")
        total = sum(item["price"] for word, item in cost.items() if word != "total")
        if cost["total"] != total:
            self.fault("the cost is not the sum of its items")


def on_the_harp(letter, octave):
    def place(octave, letter):
        return 7 * octave + "CDEFGAB".index(letter)

    return place(*LOWEST) <= place(octave, letter) <= place(*HIGHEST)


def spoiled(plan, heads):
    """The plan with one thing wrong in it, in several ways; each with its name."""

    def other(name, change):
        wrong = copy.deepcopy(plan)
        change(wrong)
        return name, wrong

    letter = heads[0].pitch[0]

    def turn(wrong):
        now = wrong["opening_setting"][letter]
        wrong["opening_setting"][letter] = -1 if now == 1 else now + 1

    yield other("another opening", turn)
    yield other("a note lost", lambda wrong: wrong["cannot"].append(
        {"measure": 1, "beat": "1/7", "pitch": "Dn4"}))
    yield other("one move more", lambda wrong: wrong.update(moves=wrong["moves"] + 1))
    if plan["changes"]:
        yield other("a change left out", lambda wrong: wrong["changes"].pop(0))
    by_foot = {}
    for place, change in enumerate(plan["changes"]):
        by_foot.setdefault(change["foot"], []).append((change["at_s"], place))
    for moves in by_foot.values():
        if len(moves) > 1:
            (_, first), (at_s, _) = sorted(moves)[:2]
            yield other("a foot in two places", lambda wrong, first=first, at_s=at_s: wrong["changes"][first].update(at_s=at_s))


def check(command, argument):
    path, _, number = argument.partition("::")
    number = int(number or 1)
    words = [command, "plan", path, "--json", "--no-repeats", "--part", str(number), "--tau", str(TAU_S)]
    run = subprocess.run(words, capture_output=True, text=True, check=False)
    if run.returncode:
        print(f"FAULT {argument}: {run.stderr.strip()}")
        return False
    plan = json.loads(run.stdout)
    heads, bars = heads_of(path, number)
    replay = Replay(plan, heads, bars)
    faults = replay.run()
    if heads:
        for spoil, wrong in spoiled(plan, heads):
            if not Replay(wrong, heads, bars).run():
                faults.append(f"{spoil} is not found out")
    name = "/".join(path.split("/")[-2:])
    counted = f"{bars} bars, {len(heads)} heads, {plan['moves']} moves, {len(plan['respelled'])} respelled, {replay.lost} lost"
    if not heads:
        faults.append("no note was read")
    print(f"{'FAULT' if faults else 'ok   '} {name}: {counted}")
    for fault in faults[:5]:
        print(f"      {fault}")
    if len(faults) > 5:
        print(f"      and {len(faults) - 5} more")
    return not faults


def main():
    if music21.__version__ != READER:
        sys.exit(f"music21 {music21.__version__} is here, {READER} is wanted")
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    command, *files = sys.argv[1:]
    good = sum(check(command, file) for file in files)
    print(f"{good} of {len(files)} plans replayed without fault")
    sys.exit(0 if good == len(files) else 1)


if __name__ == "__main__":
    main()
