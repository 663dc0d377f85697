# Reads a witness with Python alone: notes as c2sp.org/signed-note describes them, Ed25519 verified
# as RFC 8032, 5.1.7 does, key ids and heads by hashlib, each head held against the log by sqlite3.
# Prints how many notes fit; fails at the first that does not.
# Usage: witness_oracle.py DATABASE WITNESS PUBLIC
import base64
import hashlib
import sqlite3
import sys

P = 2**255 - 19
Q = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, -1, P) % P


def add(a, b):
    x = D * a[0] * b[0] * a[1] * b[1]
    return ((a[0] * b[1] + b[0] * a[1]) * pow(1 + x, -1, P) % P,
            (a[1] * b[1] + a[0] * b[0]) * pow(1 - x, -1, P) % P)


def times(scalar, point):
    result = (0, 1)
    while scalar > 0:
        if scalar & 1:
            result = add(result, point)
        point = add(point, point)
        scalar >>= 1
    return result


def point_of(data):
    y = int.from_bytes(data, "little")
    sign, y = y >> 255, y & (2**255 - 1)
    square = (y * y - 1) * pow(D * y * y + 1, -1, P) % P
    x = pow(square, (P + 3) // 8, P)
    if (x * x - square) % P != 0:
        x = x * pow(2, (P - 1) // 4, P) % P
    if (x * x - square) % P != 0:
        sys.exit("no point")
    return (P - x if x & 1 != sign else x, y)


BASE = point_of(bytes([0x58]) + bytes([0x66]) * 31)


def verify(public, message, signature):
    s = int.from_bytes(signature[32:], "little")
    h = int.from_bytes(hashlib.sha512(signature[:32] + public + message).digest(), "little") % Q
    return s < Q and times(s, BASE) == add(point_of(signature[:32]), times(h, point_of(public)))


db = sqlite3.connect("file:%s?mode=ro" % sys.argv[1], uri=True)
bench, incarnation = db.execute("SELECT bench, note FROM log WHERE seq = 1").fetchone()
public = base64.b64decode(open(sys.argv[3]).read().split()[1])
lines = open(sys.argv[2], encoding="utf-8").read().split("\n")
count = 0
while lines != [""]:
    origin, size, head, day, blank, signed = lines[:6]
    lines = lines[6:]
    stored, = db.execute("SELECT hash FROM log WHERE seq = ?", (int(size),)).fetchone()
    dash, name, data = signed.split(" ")
    data = base64.b64decode(data)
    message = "".join(line + "\n" for line in (origin, size, head, day)).encode()
    key_id = hashlib.sha256(name.encode() + b"\n\x01" + public).digest()[:4]
    if not (base64.b64decode(head) == stored and blank == "" and dash == "\u2014"
            and origin == name == "kerfside/%s/%s" % (bench.replace(" ", "%20"), incarnation)
            and data[:4] == key_id and verify(public, message, data[4:])):
        sys.exit("note %d" % (count + 1))
    count += 1
print(count)
