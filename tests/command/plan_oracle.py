"""plan_oracle.py PROGRAM DEMO: plans of the demo and of random workshops, computed a second time.

The rules R1 to R9 as DEVELOPERS.md words them, over exact fractions of an inch and straight from
the CSV files, so that notation, import, database, plan and output are checked together. The second
opinion shares no code with the program; it does share its reader of the rules.
Tickets: python3-stdnum's ISO/IEC 7064 MOD 37-2.

The swingweight is static moments about a point 14 in from the butt end, the trade's definition, with
the shaft's weight spread along a straight line through its balance point; a steel tube's balance
point is summed up slice by slice. A head whose centre of gravity is not known counts at the ground
line, which is playing length. Ferrule 2 g, epoxy 3 g, grip balanced 4 in from its end: settings.
"""
import csv
import json
import os
import random
import re
import subprocess
import sys
import tempfile
from decimal import Decimal
from fractions import Fraction

from stdnum.iso7064 import mod_37_2

PROGRAM, DEMO = sys.argv[1:3]
MM = Fraction(10, 254)
STEPS = {"1/16": Fraction(1, 16), "1/32": Fraction(1, 32), "1/64": Fraction(1, 64),
         "0.5 mm": MM / 2, "1 mm": MM}
WOODS = ("driver", "fairway")
FILES = ("shaft_models", "charts", "head_models", "heads", "shafts", "builds", "workers")


def length(text):
    if text == "":
        return None
    number = text.replace("mm", "").strip()
    whole = sum(Fraction(part) for part in number.split())
    return whole * MM if "mm" in text else whole


def rounded(value, step, up):
    whole, rest = divmod(value, step)
    return (whole + (1 if rest * 2 > step or (up and rest * 2 == step) else 0)) * step


class Refused(Exception):
    pass


def need(value, why):
    if value is None:
        raise Refused(why)
    return value


def column_of(columns, weight):  # R1
    weights = [w for _, w, _ in columns]
    if len(weights) > 1:
        if (weights[0] - weight) * 2 > weights[1] - weights[0]:
            raise Refused("beyond")
        if (weight - weights[-1]) * 2 > weights[-1] - weights[-2]:
            raise Refused("beyond")
    return min(range(len(weights)), key=lambda i: (abs(weights[i] - weight), i))


class Shop:
    def __init__(self, folder):
        rows = {}
        for name in FILES:
            with open(os.path.join(folder, name + ".csv"), newline="") as file:
                rows[name] = list(csv.DictReader(file))
        self.rows = rows
        self.shaft_models = {row["model"]: row for row in rows["shaft_models"]}
        self.head_models = {row["model"]: row for row in rows["head_models"]}
        self.heads = {row["ticket"]: row for row in rows["heads"]}
        self.shafts = {row["ticket"]: row for row in rows["shafts"]}
        self.charts = {}
        for row in rows["charts"]:
            chart = self.charts.setdefault((row["model"], row["flex"], row["kind"]), [])
            chart.append((row["column"], Fraction(row["column_weight_g"]), length(row["tip_trim"])))
        for chart in self.charts.values():
            chart.sort(key=lambda column: column[1])

    def bore(self, head):  # R11; where the shaft passes the sole its end is at the ground line
        if self.head_models[head["model"]].get("bore") == "through":
            return Fraction(0)
        if head["bore_height"] != "":
            return length(head["bore_height"])
        if head["dry_fit_overall"] == "":
            return None
        return length(head["dry_fit_overall"]) - length(head["dry_fit_raw"])

    def proud(self, head_model):  # R7: 1/4 in past the sole, to be ground off
        return Fraction(1, 4) if head_model.get("bore") == "through" else Fraction(0)

    def reference(self, order):  # R4
        model = self.shafts[order["shaft"]]["model"]
        mates = [(self.bore(self.heads[row["head"]]),
                  self.head_models[self.heads[row["head"]]["model"]]["kind"])
                 for row in self.rows["builds"]
                 if row["build"] == order["build"] and row["head"] and row["shaft"]
                 and self.shafts[row["shaft"]]["model"] == model]
        heights = {height for height, _ in mates if height is not None}
        return min(heights, key=lambda height: (
            -sum(h == height for h, _ in mates),
            -sum(h == height and kind == "iron" for h, kind in mates), height))

    def note(self, model, head_model, bore):  # R3: None when the note does not mean this head
        kinds = re.split("[ ;]+", model["bore_note_kinds"])
        spare = "not_through" in kinds
        kinds = {k for k in kinds if k not in ("", "not_through")}
        if "wood" in kinds:
            kinds |= set(WOODS)
        if model["bore_note"] == "none" or (kinds and head_model["kind"] not in kinds):
            return None
        if spare:
            if head_model.get("bore", "") == "":
                raise Refused("bored through")
            if head_model["bore"] == "through":
                return None
        if model["bore_note"] == "add_height":
            return bore
        return bore - need(length(model["bore_reference"]), "written for a bore height")

    def plan(self, order, step):
        if order["head"] == "" or order["shaft"] == "":
            raise Refused("is reserved")
        head, shaft = self.heads[order["head"]], self.shafts[order["shaft"]]
        head_model, model = self.head_models[head["model"]], self.shaft_models[shaft["model"]]
        bore = need(self.bore(head), "bore height of this head")
        raw = need(length(shaft["raw_length"]), "raw length")
        playing = need(length(order["playing_length"]), "playing length")
        cap = need(length(order["grip_cap"]), "grip cap")
        tip = need(length(model["tip_diameter"]), "Tip diameter")
        hosel = need(length(head_model["hosel_bore"]), "hosel bore")
        if abs(tip - hosel) > Fraction(2, 1000):  # R8
            raise Refused("does not go into" if tip > hosel else "is smaller than")
        given = length(order.get("given_trim") or "")
        cut = length(shaft.get("tip_cut") or "") or Fraction(0)
        column, trim = ("", given) if given is not None else self.by_chart(order, bore)
        trim = max(trim, Fraction(0))  # R6
        if (cut - trim) * 2 >= step:
            raise Refused("tip already, more than")
        trim = max(trim - cut, Fraction(0))
        mark = rounded(trim, step, up=False)  # R9
        limit = length(model["max_tip_trim"])
        if model["tip"] == "taper":
            if mark + cut > 0 and not limit:
                raise Refused("taper tip")
        if limit is not None and mark + cut > limit:
            raise Refused("maker's maximum")
        if model["tip"] == "parallel" and model["tip_section"] != "":
            insertion = need(length(head_model["insertion"]), "insertion depth")
            if length(model["tip_section"]) - mark - cut < insertion + self.proud(head_model):
                raise Refused("parallel tip would be left")
        finished = playing - bore - cap + self.proud(head_model)  # R7
        missing = finished - (raw - mark)
        extension = Fraction(0)
        if missing > 0:
            if order.get("extension") != "yes":
                raise Refused("too short by")
            if missing > 1:
                raise Refused("a butt is extended by")
            extension = missing
        return {"column": column, "tip_trim": trim, "tip_mark": mark,
                "finished_length": finished, "butt_mark": rounded(finished, step, up=True),
                "butt_trim": raw + extension - mark - finished}, extension

    def by_chart(self, order, bore):
        head, shaft = self.heads[order["head"]], self.shafts[order["shaft"]]
        head_model, model = self.head_models[head["model"]], self.shaft_models[shaft["model"]]
        kind = "wood" if head_model["kind"] in WOODS else head_model["kind"]
        columns = need(self.charts.get((shaft["model"], shaft["flex"], kind)), "No chart")
        weight = Fraction(need(head["weight_g"] or None, "weighed"))
        index = column_of(columns, weight) + int(order["step"] or 0)  # R5
        if not 0 <= index < len(columns):
            raise Refused("runs off")
        trim = need(columns[index][2], "does not offer")  # R2
        note = self.note(model, head_model, bore)
        if note is not None:
            trim += note
        elif order["uniform_flex"] == "yes":
            trim += bore - self.reference(order)
        return columns[index][0], trim


def number(row, key):
    return float(row[key]) if row.get(key) else None


def inches(row, key):
    return float(length(row[key])) if row.get(key) else None


def tube_balance(model, raw, offcut):
    """From the tip end, in inches; None unless it is a steel tube of known dimensions."""
    sizes = [inches(model, key) for key in ("tip_diameter", "butt_diameter", "tip_wall", "butt_wall")]
    if model["material"] != "steel" or None in sizes:
        return None
    tip, butt, tip_wall, butt_wall = sizes
    parallel = (inches(model, "tip_section") or 0) - offcut
    if parallel < 0 and offcut:
        return None
    slices = 20000
    mass = moment = 0
    for i in range(slices):
        x = (i + 0.5) * raw / slices
        outer = tip + (butt - tip) * max(x - parallel, 0) / (raw - parallel)
        inner = outer - 2 * (tip_wall + (butt_wall - tip_wall) * x / raw)
        mass += outer ** 2 - inner ** 2
        moment += (outer ** 2 - inner ** 2) * x
    return moment / mass


OUNCE = 28.349523125  # g, exact (NIST SP 811)


def swingweight(shop, order, plan, extension):
    """In in oz, or why it is not known."""
    head, shaft = shop.heads[order["head"]], shop.shafts[order["shaft"]]
    head_model, model = shop.head_models[head["model"]], shop.shaft_models[shaft["model"]]
    weight, grip = number(shaft, "weight_g"), number(order, "grip_weight_g")
    if not head["weight_g"]:  # a given trim asks for none
        return "head weight not known"
    if weight is None:
        return "shaft weight not known"
    if grip is None:
        return "grip weight not known"
    proud = float(shop.proud(head_model))  # as it is once ground flush
    raw, tip = inches(shaft, "raw_length"), float(plan["tip_mark"]) + proud
    # What is added at the butt weighs nothing here: the shaft begins that much further down.
    finished = float(plan["finished_length"]) - proud - float(extension)
    cap = inches(order, "grip_cap") + float(extension)
    balance = inches(shaft, "balance")
    offcut = inches(shaft, "tip_cut") or 0
    if not offcut and balance is None and inches(model, "balance") and inches(model, "raw_length"):
        balance = inches(model, "balance") * raw / inches(model, "raw_length")
    balance = balance or tube_balance(model, raw, offcut) or raw / 2
    # Grams an inch at x from the uncut tip: a + b x, with integrals weight and weight * balance.
    b = 12 * weight * (balance - raw / 2) / raw ** 3
    a = weight / raw - b * raw / 2
    end = cap + tip + finished - 14  # arm of x is end - x
    left, right = tip, tip + finished

    def integral(x):
        return a * end * x + (b * end - a) * x ** 2 / 2 - b * x ** 3 / 3

    at = cap + finished - 14
    beyond = inches(head_model, "cg_beyond")
    place = inches(order, "playing_length") if beyond is None else cap + finished + beyond
    total = number(head, "weight_g") * (place - 14)
    total += (2 + 3) * at + grip * (4 - 14) + integral(right) - integral(left)
    return total / OUNCE


def compare_swingweight(row, wanted, reach_assumed, tally, where):
    if isinstance(wanted, str):
        assert row["swingweight_in_oz"] == row["swingweight"] == row["weight_g"] == "", where
        assert wanted in row["estimate_gaps"], f"{where}\nwanted: {wanted}"
        tally["no swingweight"] = tally.get("no swingweight", 0) + 1
        return
    assert ("head centre of gravity: not known" in row["estimate_gaps"]) == reach_assumed, where
    assert abs(float(row["swingweight_in_oz"]) - wanted) < 0.01, f"{where}\nwanted: {wanted}"
    if row["swingweight"]:  # ten points of 1.75 in oz a letter, A0 161, to the nearest tenth
        scale = "ABCDEFG".index(row["swingweight"][0]) * 10 + float(row["swingweight"][1:])
        assert abs(161 + 1.75 * scale - wanted) <= 1.75 / 20 + 0.001, where
    tally["swingweights"] = tally.get("swingweights", 0) + 1


def run(*words):
    ran = subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=False)
    if ran.returncode != 0:
        sys.exit(f"{words}: {ran.returncode}\n{ran.stderr}")
    return ran.stdout


def same(got, wanted):  # nine decimals name a nanometre
    return abs(Fraction(got) - wanted) <= Fraction(1, 2 * 10 ** 9)


def compare(row, shop, order, step, tally):
    where = f"{order['build']}-{order['club']} {step}: {row}"
    try:
        wanted, extension = shop.plan(order, STEPS[step])
    except Refused as why:
        assert str(why) in row["refusal"], f"{where}\nwanted: {why}"
        assert all(row[key] == "" for key in ("column", "tip_trim", "tip_mark", "finished_length",
                                              "butt_mark", "butt_trim")), where
        assert row["swingweight_in_oz"] == row["frequency_cpm"] == "", where
        assert row["estimate_gaps"] == "estimates: no valid plan", where
        tally[str(why)] = tally.get(str(why), 0) + 1
        return
    assert row["refusal"] == "", f"{where}\nwanted: {wanted}"
    assert row["column"] == wanted["column"], where
    for key, value in wanted.items():
        assert key == "column" or same(row[key], value), f"{where}\nwanted {key}: {float(value)}"
    head_model = shop.head_models[shop.heads[order["head"]]["model"]]
    compare_swingweight(row, swingweight(shop, order, wanted, extension), not head_model.get("cg_beyond"), tally,
                        where)
    tally["planned"] = tally.get("planned", 0) + 1


def check(db, shop, tally):
    for step in STEPS:
        words = ("plan", "--all", "--db", db, "--mark-step", step)
        rows = list(csv.DictReader(run(*words, "--csv").splitlines()))
        objects = json.loads(run(*words, "--json"), parse_float=Decimal)
        orders = {(row["build"], row["club"]): row for row in shop.rows["builds"]}
        assert len(rows) == len(objects) == len(orders)
        for row, plan in zip(rows, objects):
            compare(row, shop, orders[row["build"], row["club"]], step, tally)
            for key in ("build", "club", "column"):
                assert plan[key] == row[key]
            for key in ("tip_trim", "tip_mark", "finished_length", "butt_mark", "butt_trim"):
                assert (plan[key] is None and row[key] == "") or Decimal(row[key]) == plan[key]
            assert (plan["refusal"] or {"text": ""})["text"] == row["refusal"]
            assert "; ".join(line["text"] for line in plan["warnings"]) == row["warnings"]
            assert (plan["swingweight"] or "") == row["swingweight"]
            for key in ("weight_g", "swingweight_in_oz", "inertia_kg_cm2", "frequency_cpm"):
                assert (plan[key] is None and row[key] == "") or Decimal(row[key]) == plan[key]
            assert "; ".join(plan["estimate_gaps"]) == row["estimate_gaps"]
            if plan["refusal"] is None:
                assert sum(line["amount"] for line in plan["reasons"]) == plan["tip_mark"]


def ticket(letter, number):
    body = f"{number:05d}"
    check_char = mod_37_2.calc_check_digit(letter + body)
    return None if check_char == "*" else f"{letter}-{body}{check_char}"


def random_shop(folder, seed):
    rand = random.Random(seed)

    def some(value, of=25):  # sometimes not known
        return "" if rand.randrange(of) == 0 else value

    def fraction(low, high, parts=64):
        value = Fraction(rand.randrange(low * parts, high * parts + 1), parts)
        whole, rest = divmod(value, 1)
        return rand.choice([f"{whole} {rest}" if rest else f"{whole}", f"{float(value)}"])

    def tickets(letter, count):
        numbers = rand.sample(range(100000), 2 * count)
        return [t for t in (ticket(letter, n) for n in numbers) if t][:count]

    sizes = ("0.335",) * 14 + ("8.5 mm", "0.350", "0.370")
    kinds = ("driver", "fairway", "hybrid", "iron", "wedge", "putter")
    models = [f"Rod {i}" for i in range(12)]
    head_models = [f"Knob {i}" for i in range(30)]
    data = {name: [] for name in FILES}
    for model in models:
        tip = rand.choice(("parallel", "parallel", "taper"))
        note = rand.choice(("none", "none", "add_height", "above_reference"))
        words = rand.sample(("wood", "driver", "hybrid", "iron", "not_through"), rand.randrange(3))
        data["shaft_models"].append([
            model, rand.choice(("steel", "graphite")), tip, some(rand.choice(sizes), 30), "0.600",
            "", "", some(fraction(3, 9)), some(fraction(2, 6)), some("5"), note,
            some("1 1/2", 8), rand.choice((" ", ";")).join(words)])
        for kind in ("wood", "hybrid", "iron", "wedge"):
            weights = sorted(rand.sample(range(190, 320), rand.randrange(1, 9)))
            for i, weight in enumerate(weights):
                if rand.randrange(15) > 0:
                    data["charts"].append([model, "R", kind, f"c{i}", weight,
                                           some(fraction(0, 3, 16), 15)])
    for model in head_models:
        data["head_models"].append([model, rand.choice(kinds), "", "", some(rand.choice(sizes), 30),
                                    some("1 1/4"), "1", "", "",
                                    rand.choice(("", "blind", "through", "short"))])
    count = 250
    heads, shafts = tickets("H", count), tickets("S", count)
    for name in heads:
        fitted = rand.randrange(2) == 0
        height = Fraction(rand.randrange(0, 129), 64)
        data["heads"].append([
            name, rand.choice(head_models), some(rand.choice((rand.randrange(190, 320),
                                                              rand.randrange(380, 640) / 2))),
            float(44 + height) if fitted else "", "44" if fitted else "",
            "" if fitted else some(rand.choice(("1", "3/4", "1 1/2", fraction(0, 2))))])
    for name in shafts:
        raw = rand.choice((fraction(40, 50), f"{rand.randrange(10200, 12700) / 10} mm"))
        data["shafts"].append([name, rand.choice(models), "R", some(raw),
                               some(rand.randrange(400, 1300) / 10, 8), "", "", "", "",
                               "" if rand.randrange(8) else fraction(0, 2, 16)])
    for i, (head, shaft) in enumerate(zip(heads, shafts)):
        data["builds"].append([f"{i // 12}", f"{i % 12}", "", some(head, 40), some(shaft, 40),
                               some(fraction(34, 46, 32), 30), some("1/8", 30), "50", "",
                               rand.choice(("", "0", "0", "1", "-1", "-2")),
                               rand.choice(("", "no", "yes")), "", "",
                               "" if rand.randrange(8) else fraction(0, 4, 32),
                               rand.choice(("", "no", "yes"))])
    for name in FILES:
        with open(os.path.join(DEMO, name + ".csv"), newline="") as file:
            header = next(csv.reader(file))[:max(map(len, data[name]), default=None)]
        with open(os.path.join(folder, name + ".csv"), "w", newline="") as file:
            csv.writer(file).writerows([header, *data[name]])


def main():
    os.environ["KERFSIDE_ROOM_MB"] = "0"
    os.environ["KERFSIDE_DATA"] = DEMO
    tally = {}
    with tempfile.TemporaryDirectory() as folder:
        db = os.path.join(folder, "demo.db")
        run("demo", "--db", db)
        check(db, Shop(DEMO), tally)
    for seed in range(12):
        with tempfile.TemporaryDirectory() as folder:
            random_shop(folder, seed)
            db = os.path.join(folder, "random.db")
            run("import", *(os.path.join(folder, name + ".csv") for name in FILES), "--db", db)
            check(db, Shop(folder), tally)
    assert tally["planned"] > 2000, tally
    assert tally["swingweights"] > 2000 and tally["no swingweight"] > 200, tally
    # Every refusal the rules above know was met.
    assert len(tally) == 3 + 23, tally
    print(", ".join(f"{count} {what}" for what, count in sorted(tally.items())))


main()
