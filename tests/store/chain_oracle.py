# Recomputes the log's chain with Python's own sqlite3 and hashlib (SHA-256, FIPS 180-4) from the
# encoding as src/core/entry.h describes it, and prints the last hash. Fails at the first bad row.
import hashlib
import sqlite3
import struct
import sys

UNKNOWN = -(2**63)
NUMBERS = {"seq", "wall_ms", "mono_ms", "club_id", "attempt", "refers", "planned", "made",
           "chart_revision"}

db = sqlite3.connect("file:%s?mode=ro" % sys.argv[1], uri=True)
db.row_factory = sqlite3.Row
previous = bytes(32)
for row in db.execute("SELECT * FROM log ORDER BY seq"):
    encoded = b"kerfside/log/1\0" + previous
    for name in row.keys():
        value = row[name]
        if name == "hash":
            continue
        if name in NUMBERS:
            if value is None:
                value = UNKNOWN if name in ("planned", "made") else 0
            data = struct.pack(">q", value)
        else:
            data = value.encode()
        encoded += struct.pack(">q", len(data)) + data
    previous = hashlib.sha256(encoded).digest()
    if previous != row["hash"]:
        sys.exit("row %d" % row["seq"])
print(previous.hex())
