# The ledger, made anew from the CSV of the whole log and of the parts; row by row the same.
#
#     ledger_oracle.py LOG.csv LEDGER.csv DAY RAW WORKERS.csv
#
# RAW: inches that every shaft has uncut. What makes a row: README, "The ledger".
import csv, datetime, decimal, sys

def read(path):
    return list(csv.DictReader(open(path, newline="", encoding="utf-8")))

def plain(text):  # without what guards it from a spreadsheet
    return text[1:] if text[:2] in ("'=", "'+", "'-", "'@") else text

raw_bytes = open(sys.argv[2], "rb").read()
assert raw_bytes.count(b"\r\n") == raw_bytes.count(b"\n"), "RFC 4180: lines end in CRLF"
log = read(sys.argv[1])
names = {row["badge"]: row["name"] for row in read(sys.argv[5])}
by_seq = {int(row["seq"]): row for row in log}
withdrawn = {int(row["refers"]) for row in log if row["kind"] == "withdraw"}
tips = {}
for row in log:
    if row["kind"] == "tip_cut" and int(row["seq"]) not in withdrawn:
        tips[row["shaft"]] = row["made"]

def day(row):
    time = datetime.datetime.strptime(row["time"], "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=datetime.timezone.utc)
    return time.astimezone().strftime("%Y-%m-%d")

wanted = []
for row in log:
    seq = int(row["seq"])
    decision = row["kind"] == "decide"
    if day(row) != sys.argv[3]:
        continue
    about = by_seq[int(row["refers"])] if decision else row
    if row["kind"] == "measure" and row["verdict"] == "in" and seq not in withdrawn:
        result, cause = "finished", ""
    elif decision and row["cause"] == "use" and about["kind"] == "measure" and int(about["seq"]) not in withdrawn:
        result, cause = "used", "too short"
    elif decision and row["cause"] in ("recut", "scrap"):
        result = {"recut": "recut", "scrap": "scrapped"}[row["cause"]]
        cause = "tip past mark" if about["kind"] == "tip_cut" else "too short"
    else:
        continue
    measured = about["kind"] == "measure"
    tip = decimal.Decimal(tips.get(about["shaft"], "0"))
    wanted.append([day(row), about["build"], about["club"], about["head"], "Knob", about["shaft"], "Rod", "R",
                   about["worker"], names[about["worker"]], result, cause,
                   row["worker"] if decision else "", plain(row["note"]) if decision else "",
                   tip, decimal.Decimal(sys.argv[4]) - tip - decimal.Decimal(about["made"]) if measured else "",
                   decimal.Decimal(about["made"]) if measured else ""])
got = read(sys.argv[2])
assert len(got) == len(wanted), (len(got), len(wanted))
for have, want in zip(got, wanted):
    cells = [plain(cell) for cell in have.values()]
    for i in (14, 15, 16):
        cells[i] = decimal.Decimal(cells[i]) if cells[i] else ""
    assert cells == want, (cells, want)
    for cell in have.values():  # nothing that a spreadsheet would run
        assert cell[:1] not in ("=", "+", "@") and not (cell[:1] == "-" and not cell[1:2].isdigit()), cell
kinds = {row["result"] for row in got}
print("agreed on", len(got), "rows:", *sorted(kinds))
