# The numbers of a day report, counted anew from the CSV of the whole log.
#
#     report_oracle.py LOG.csv REPORT.pdf DAY
#
# Sources of the formulas: NIST/SEMATECH e-Handbook 6.3.2.2 (individuals and moving range) and 6.1.6
# (capability). What counts as what: README, "A day on paper".
import collections, csv, datetime, decimal, fractions, re, statistics, subprocess, sys

rows = list(csv.DictReader(open(sys.argv[1], newline="", encoding="utf-8")))
text = subprocess.run(["pdftotext", "-layout", sys.argv[2], "-"], capture_output=True, check=True).stdout.decode()
raw = " ".join(subprocess.run(["pdftotext", "-raw", sys.argv[2], "-"], capture_output=True, check=True).stdout.decode().split())

def local(row):
    return datetime.datetime.strptime(row["time"], "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=datetime.timezone.utc).astimezone()

by_seq = {int(row["seq"]): row for row in rows}
withdrawn = {int(row["refers"]) for row in rows if row["kind"] == "withdraw"}
decided = {int(row["refers"]): row["cause"] for row in rows if row["kind"] == "decide"}
day = [row for row in rows if local(row).strftime("%Y-%m-%d") == sys.argv[3]]
stands = [row for row in day if int(row["seq"]) not in withdrawn]

def those(*kinds):
    return [row for row in stands if row["kind"] in kinds]

short = [row for row in those("tip_cut", "measure") if row["verdict"] == "short"]
done = [row for row in those("measure")
        if row["verdict"] == "in" or (row["verdict"] == "short" and decided.get(int(row["seq"])) == "use")]
lost = [row for row in those("decide") if row["cause"] != "use"]
figures = [len(done), len(those("tip_cut", "butt_cut")), len(short), len(those("hold")), len(lost),
           len([row for row in short if int(row["seq"]) not in decided])]
line = re.search(r"\n *((?:\d+ +){5}\d+) *\n+ *clubs done +cuts +out of tolerance +stops +shafts lost +to be decided", text)
assert line, "no figures"
assert [int(word) for word in line.group(1).split()] == figures, (line.group(1), figures)

stops = collections.Counter(row["cause"].replace("_", " ") for row in those("hold"))
for cause, count in stops.items():
    assert re.search(rf"\b{cause} +{count}\b", text), ("stop", cause, count)
scrap = collections.Counter(
    ("tip past mark, " if by_seq[int(row["refers"])]["kind"] == "tip_cut" else "too short, ") + row["cause"] for row in lost)
for cause, count in scrap.items():
    assert re.search(rf"{cause} +{count}\b", text), ("lost", cause, count)
hours = collections.Counter(local(row).hour for row in those("tip_cut", "butt_cut"))
assert sum(hours.values()) == figures[1]

# Control limits and capability of the newest 60 measured, in thousandths of an inch; 1/16 in.
off = [float((decimal.Decimal(row["made"]) - decimal.Decimal(row["planned"])) * 1000) for row in those("measure")]
assert f"{len(off)} clubs measured" in raw, len(off)
off = off[-60:]
mean = statistics.fmean(off)
mean_range = statistics.fmean(abs(b - a) for a, b in zip(off, off[1:]))
deviation = statistics.stdev(off)

def near(pattern, value, digits):
    found = [float(word) for word in re.findall(pattern, raw)]
    assert any(abs(word - value) <= 0.5001 * 10 ** -digits for word in found), (pattern, value, found)

near(r"mean (-?[\d.]+)", mean, 1)
near(r"mean (-?[\d.]+)", mean_range, 1)
near(r"high (-?[\d.]+)", mean + 3 / 1.128 * mean_range, 1)
near(r"low (-?[\d.]+)", mean - 3 / 1.128 * mean_range, 1)
near(r"high (-?[\d.]+)", 3.267 * mean_range, 1)
near(r"Cp (-?[\d.]+),", 2 * 62.5 / (6 * deviation), 2)
near(r"Cpk (-?[\d.]+)\.", min(62.5 - mean, mean + 62.5) / (3 * deviation), 2)

# Every cut is a row, in the log's order.
def fraction(inches):
    value = fractions.Fraction(inches)
    whole, rest = divmod(value.numerator, value.denominator)
    part = f"{rest}/{value.denominator}" if rest else ""
    return " ".join(word for word in (str(whole) if whole or not rest else "", part) if word)

wanted = []
for row in day:
    if row["kind"] in ("tip_cut", "butt_cut", "measure"):
        seq = int(row["seq"])
        verdict = "withdrawn" if seq in withdrawn else \
            "short, to be decided" if row["verdict"] == "short" and seq not in decided else row["verdict"]
        kind = {"tip_cut": "tip", "butt_cut": "butt", "measure": "measured"}[row["kind"]]
        off = decimal.Decimal(row["made"]) - decimal.Decimal(row["planned"])
        wanted.append(" ".join(f"{local(row):%H:%M} {row['worker']} {row['build']}-{row['club']} {row['shaft']} {kind} "
                               f"{fraction(row['planned'])} {fraction(row['made'])} "
                               f"{'+' if off > 0 else ''}{off.quantize(decimal.Decimal('0.001'), decimal.ROUND_HALF_UP)} "
                               f"{verdict}".split()))
got = [" ".join(line.split()) for line in text.splitlines() if re.match(r"\s*\d\d:\d\d +W-", line)]
assert len(got) == len(wanted), (len(got), len(wanted))
for have, want in zip(got, wanted):
    assert have == want, (have, want)
for row in those("decide"):
    note = " ".join(row["note"].lstrip("'").split())
    assert note in raw, ("why", note)
for row in those("note"):
    words = f"About entry {row['refers']}, "
    assert words in raw, words
    assert " ".join(row["note"].lstrip("'").split()) in raw, ("note", row["note"])
assert those("note"), "no note in this day"
print("agreed")
