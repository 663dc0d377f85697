"""The workshop of kill9: many clubs of three kinds, and the script of a builder who cuts them."""
import csv
import pathlib

from stdnum.iso7064 import mod_37_2

DEMO = pathlib.Path(__file__).resolve().parents[2] / "db" / "demo"
INCH = 25400000
HALF_CUT = ("tip_shown", "tip_cut", "butt_shown", "butt_cut")

# Models of the demo workshop, and what README's rules make of them by hand. Lengths in inches:
# the butt is playing length - bore height - 1/8 for the grip cap; the tip is the chart's cell.
#        head model, weight, bore height; shaft model, flex, raw; playing; tip, butt
KINDS = (("Skerrow Crag driver", 210, "1 1/2", "Tarnbeck Reed 58", "S", 46, 45, 0.5, 43.375),
         ("Skerrow Crag 7", 230.4, "1 1/8", "Tarnbeck Reed 58", "S", 46, 41, 1.5, 39.75),
         ("Dunmallet Ridge iron 5", 256, "1", "Ullock Taper 105", "S", 39, 38, 0, 36.875))


def ticket(kind, number):
    """H-0001A; None if the check character is the asterisk, which no ticket uses."""
    body = f"{number:05d}"
    check = mod_37_2.calc_check_digit(kind + body)
    return None if check == "*" else f"{kind}-{body}{check}"


def words(inches):
    """43.375 as it is written on the screen, 43 3/8."""
    whole, eighths = divmod(round(inches * 8), 8)
    bottom = 8
    while eighths and eighths % 2 == 0:
        eighths, bottom = eighths // 2, bottom // 2
    parts = ([str(whole)] if whole or not eighths else []) + \
        ([f"{eighths}/{bottom}"] if eighths else [])
    return " ".join(parts)


class Club:
    def __init__(self, number, kind):
        self.build, self.name = f"{7000 + number // 100}", str(number % 100 + 1)
        self.head, self.shaft = ticket("H", number + 1), ticket("S", number + 1)
        self.raw, self.playing, self.tip, self.butt = kind[5:]
        self.kind = kind
        self.material = kind[3]
        self.stage = "pending"

    def states(self):
        """What the screen must show from here on, after the care reminder."""
        tip = ["TIP_CUT"] if self.tip else []
        return {"pending": tip + ["BUTT_CUT"],
                "tip_shown": ["RESUME", "TIP_CUT", "BUTT_CUT"],
                "tip_cut": ["BUTT_CUT"],
                "butt_shown": ["RESUME", "BUTT_CUT"],
                "butt_cut": []}[self.stage] + ["MEASURE", "LOGGED"]

    def resume_words(self):
        if self.stage == "tip_shown":
            return f"Tip not cut it is {words(self.raw)} in long; cut it is " \
                   f"{words(self.raw - self.tip)} in."
        return f"Butt not cut it is {words(self.raw - self.tip)} in long; cut it is " \
               f"{words(self.butt)} in."


def make_clubs(count):
    numbers = [n for n in range(2 * count) if ticket("H", n + 1) and ticket("S", n + 1)]
    return [Club(n, KINDS[i % len(KINDS)]) for i, n in enumerate(numbers[:count])]


def write_files(clubs, folder):
    """The CSV files to import."""
    rows = {
        "heads": [("ticket", "model", "weight_g", "dry_fit_overall", "dry_fit_raw", "bore_height")]
        + [(c.head, c.kind[0], c.kind[1], "", "", c.kind[2]) for c in clubs],
        "shafts": [("ticket", "model", "flex", "raw_length", "weight_g", "rack")]
        + [(c.shaft, c.kind[3], c.kind[4], c.raw, "", "") for c in clubs],
        "builds": [("build", "club", "due", "head", "shaft", "playing_length", "grip_cap",
                    "grip_weight_g", "swingweight", "step", "uniform_flex")]
        + [(c.build, c.name, "", c.head, c.shaft, c.playing, "1/8", "", "", "", "")
           for c in clubs]}
    for name, table in rows.items():
        with open(folder / f"{name}.csv", "w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(table)
    return [DEMO / f"{name}.csv" for name in ("shaft_models", "charts", "head_models", "workers")] \
        + [folder / f"{name}.csv" for name in rows]


def work(clubs, chance):
    """The steps of a shift that makes these clubs, and the states it must show, each with the
    club it is about."""
    steps = ["scan W-00029", "expect READY"]
    shown = [("SIGNED_OUT", None), ("READY", None)]
    cared = set()
    for club in clubs:
        states = ["PAIR"] + ([] if club.material in cared else ["CARE"]) + club.states()
        cared.add(club.material)
        steps.append(f"scan {club.head}")
        for state in states:
            shown.append((state, club))
            steps.append(f"expect {state}")
            steps += {
                "PAIR": [f"scan {club.shaft}"],
                "CARE": ["press"],
                "RESUME": [f"see {club.shaft}", f"see {club.resume_words()}",
                           f"action {chance.choice(('RESUME_CUT', 'RESUME_NOT_CUT'))}"],
                "TIP_CUT": [f"see {club.shaft}", f"see {words(club.tip)}", "press"],
                "BUTT_CUT": [f"see {club.shaft}", f"see {words(club.butt)}", "press"],
                "MEASURE": [f"see {club.shaft}", f"scan {club.butt}", "press"],
                "LOGGED": []}[state]
    return steps, shown
