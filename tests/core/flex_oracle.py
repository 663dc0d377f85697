"""Compares the program's frequencies with CalculiX, Debian's calculix-ccx.

Usage: flex_oracle.py PROGRAM. Fails, never skips, when ccx is missing.

The same shafts in another way: quadratic beam elements that CalculiX expands to solids, with shear
and rotary inertia, each element of one material; the head is two masses on a stiff
rod without weight, one of them at the shaft's end, with its weight, centre and inertia.
"""
import bisect
import math
import pathlib
import random
import subprocess
import sys
import tempfile

CLAMP = 0.127      # 5 in
ELEMENTS = 160
SIDE = 0.005       # of the square section: shear hardly counts, and ccx still computes well
STEEL = 200e9
STIFF = 2e3        # N m2: the head
WEIGHTLESS = 1e-6  # kg/m
ROD = 16           # elements
CASES = 8          # of each kind
LIMIT = 6e-5       # relative

chance = random.Random(125)


def stepped():
    """A shaft of five to nine even steps, stiffer towards the butt; ramps a micrometre long."""
    points, stiffness, place = [], chance.uniform(12, 25), 0
    for _ in range(chance.randint(5, 9)):
        points.append((place, round(stiffness * 1000)))
        place += chance.randint(70_000_000, 130_000_000)
        points.append((place, round(stiffness * 1000)))
        place += 1000
        stiffness *= chance.uniform(1.05, 1.3)
    return points


def tapered():
    """Six straight pieces, not always rising."""
    stiffness = chance.uniform(12, 25)
    return [(i * 200_000_000, round(1000 * stiffness * (1 + 0.5 * i * chance.uniform(0.6, 1.1))))
            for i in range(7)]


def case(profile, dimensions, head):
    raw = chance.randint(900_000_000, 1_180_000_000)
    tip_trim = chance.randint(0, 80_000_000)
    weight = chance.randint(50_000, 125_000)
    return {
        "raw": raw, "weight": weight, "tip_trim": tip_trim,
        "balance": chance.choice([0, round(raw * chance.uniform(0.45, 0.55))]),
        "dimensions": dimensions, "finished": raw - tip_trim - chance.randint(0, 60_000_000),
        "head": chance.randint(190_000, 300_000), "point": chance.randint(0, 6000),
        "beyond": chance.randint(5_000_000, 45_000_000) if head else 0,
        "inertia": chance.randint(300, 4000) if head else 0, "profile": profile,
    }


def question(c):
    numbers = [c["raw"], c["weight"], c["balance"], *c["dimensions"], c["tip_trim"], c["finished"],
               c["head"], c["beyond"], c["inertia"], c["point"], len(c["profile"])]
    for at, stiffness in c["profile"]:
        numbers += [at, stiffness]
    return " ".join(map(str, numbers))


def stiffness_at(c, x):
    """EI in N m2 at x metres from the uncut tip."""
    if not c["profile"]:
        tip, butt, wall, parallel = (value * 1e-9 for value in c["dimensions"])
        along = max(0, (x - parallel) / (c["raw"] * 1e-9 - parallel))
        outer = tip + (butt - tip) * along
        return STEEL * math.pi / 64 * (outer ** 4 - (outer - 2 * wall) ** 4)
    places = [at * 1e-9 for at, _ in c["profile"]]
    values = [value / 1000 for _, value in c["profile"]]
    i = bisect.bisect_right(places, x)
    if i in (0, len(places)):
        return values[min(i, len(values) - 1)]
    share = (x - places[i - 1]) / (places[i] - places[i - 1])
    return values[i - 1] + (values[i] - values[i - 1]) * share


def density_at(c, x):
    """kg/m: the straight line with the shaft's weight and balance point."""
    length, weight = c["raw"] * 1e-9, c["weight"] * 1e-6
    if c["balance"]:
        centre = c["balance"] * 1e-9
    elif c["profile"]:
        centre = length / 2
    else:  # of the tube, from 100 000 slices
        tip, butt, wall, parallel = (value * 1e-9 for value in c["dimensions"])
        area = moment = 0
        for i in range(100_000):
            at = (i + 0.5) / 100_000 * length
            slice_ = tip + (butt - tip) * max(0, (at - parallel) / (length - parallel)) - wall
            area += slice_
            moment += slice_ * at
        centre = moment / area
        c["balance"] = centre * 1e9
    # m(x) = a + b x; weight a L + b L^2 / 2; moment a L^2 / 2 + b L^3 / 3
    slope = (weight * centre - weight * length / 2) / (length ** 3 / 3 - length ** 3 / 4)
    return weight / length - slope * length / 2 + slope * x


def ends_of_elements(c):
    clamp = (c["tip_trim"] + c["finished"]) * 1e-9 - CLAMP
    tip = c["tip_trim"] * 1e-9
    inside = [clamp - at * 1e-9 for at, _ in c["profile"]]
    if not c["profile"]:
        inside = [clamp - c["dimensions"][3] * 1e-9]
    ends = [0.0]
    for end in sorted(x for x in inside if 1e-4 < x < clamp - tip - 1e-4) + [clamp - tip]:
        if end - ends[-1] < 1e-4:
            continue
        parts = math.ceil((end - ends[-1]) / (clamp - tip) * ELEMENTS)
        start = ends[-1]
        ends += [start + (end - start) * i / parts for i in range(1, parts + 1)]
    return clamp, ends


class Deck:
    """CalculiX input, beams only: nodes, elements with their own material, masses at nodes."""

    def __init__(self):
        self.nodes, self.elements, self.masses = [0.0], [], {}

    def beam(self, start, end, stiffness, density):
        """From node `start` (counted from 1) to the place `end`; returns the new node."""
        self.nodes += [(self.nodes[start - 1] + end) / 2, end]
        last = len(self.nodes)
        self.elements.append((start, last - 1, last, stiffness, density))
        return last

    def text(self):
        lines = ["*NODE, NSET=ALL"]
        lines += [f"{i},{x:.15g},0,0" for i, x in enumerate(self.nodes, 1)]
        second = SIDE ** 4 / 12
        for i, (a, b, c, stiffness, density) in enumerate(self.elements, 1):
            lines += [f"*ELEMENT, TYPE=B32R, ELSET=E{i}", f"{i},{a},{b},{c}",
                      f"*MATERIAL, NAME=M{i}", "*ELASTIC", f"{stiffness / second:.15g},0.0",
                      "*DENSITY", f"{density / SIDE ** 2:.15g}",
                      f"*BEAM SECTION, SECTION=RECT, ELSET=E{i}, MATERIAL=M{i}",
                      f"{SIDE},{SIDE}", "0,0,1"]
        for i, (node, mass) in enumerate(self.masses.items(), len(self.elements) + 1):
            lines += [f"*ELEMENT, TYPE=MASS, ELSET=P{i}", f"{i},{node}",
                      f"*MASS, ELSET=P{i}", f"{mass:.15g}"]
        lines += ["*BOUNDARY", "1,1,6", "*STEP", "*FREQUENCY", "1", "*NODE FILE", "U", "*END STEP"]
        return "\n".join(lines) + "\n"


def deck(c):
    clamp, ends = ends_of_elements(c)
    result = Deck()
    node = 1
    for start, end in zip(ends, ends[1:]):
        x = clamp - (start + end) / 2
        node = result.beam(node, end, stiffness_at(c, x), density_at(c, x))
    head, beyond = c["head"] * 1e-6, c["beyond"] * 1e-9
    head, beyond, inertia = c["head"] * 1e-6, c["beyond"] * 1e-9, c["inertia"] * 1e-7
    about_end = head * beyond ** 2 + inertia
    far = head * (head * beyond ** 2) / about_end if beyond else 0
    result.masses[node] = c["point"] * 1e-6 + head - far
    if far:
        arm = head * beyond / far
        for i in range(1, ROD + 1):
            node = result.beam(node, ends[-1] + arm * i / ROD, STIFF, WEIGHTLESS)
        result.masses[node] = far
    return result


def ccx(c, folder):
    """Lowest frequency in cpm; CalculiX prints seven digits."""
    (folder / "case.inp").write_text(deck(c).text())
    subprocess.run(["ccx", "case"], cwd=folder, stdout=subprocess.DEVNULL, check=True)
    for line in (folder / "case.dat").read_text().splitlines():
        words = line.split()
        if len(words) == 5 and words[0] == "1":
            return float(words[3]) * 60
    sys.exit("CalculiX found no frequency")


NONE = (0, 0, 0, 0)
KINDS = (
    ("stepped shaft, point head", lambda: case(stepped(), NONE, False)),
    ("stepped shaft, offset and inertia", lambda: case(stepped(), NONE, True)),
    ("tapered shaft, point head", lambda: case(tapered(), NONE, False)),
    ("tapered shaft, offset and inertia", lambda: case(tapered(), NONE, True)),
    ("steel tube, offset and inertia",
     lambda: case([], (9_398_000, 15_240_000, chance.randint(280_000, 420_000),
                       chance.randint(0, 250_000_000)), True)),
)

cases = [(name, make()) for name, make in KINDS for _ in range(CASES)]
answer = subprocess.run([sys.argv[1]], input="\n".join(question(c) for _, c in cases) + "\n",
                        capture_output=True, text=True, check=True).stdout.split()
if len(answer) != len(cases):
    sys.exit(f"{len(answer)} answers to {len(cases)} questions")
worst = {}
with tempfile.TemporaryDirectory() as folder:
    for (name, c), cpm in zip(cases, answer):
        reference = ccx(c, pathlib.Path(folder))
        off = float(cpm) / reference - 1
        worst[name] = max(worst.get(name, 0), abs(off))
        if abs(off) > LIMIT:
            print(f"{name}: {cpm} cpm, CalculiX {reference:.4f}, off {off:.1e}: {question(c)}")
for name, off in worst.items():
    print(f"{name}: {CASES} compared, worst relative difference {off:.1e}")
sys.exit(1 if max(worst.values()) > LIMIT else 0)
