"""Compares the program's check characters with Debian's python3-stdnum.

Usage: ticket_oracle.py PROGRAM. Fails, never skips, when python3-stdnum is missing.
"""
import random
import subprocess
import sys

from stdnum import ean
from stdnum.iso7064 import mod_37_2

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
TEXTS = 20000
NUMBERS = 20000

chance = random.Random(7064)
texts = ["".join(chance.choice(ALPHABET) for _ in range(chance.randint(1, 20)))
         for _ in range(TEXTS)]
numbers = ["".join(chance.choice("0123456789") for _ in range(chance.choice((7, 11, 12, 13))))
           for _ in range(NUMBERS)]
answer = subprocess.run([sys.argv[1]], input="\n".join(texts + numbers) + "\n",
                        capture_output=True, text=True, check=True).stdout.splitlines()
if len(answer) != TEXTS + NUMBERS:
    sys.exit(f"{len(answer)} answers to {TEXTS + NUMBERS} questions")

wrong = 0
for text, line in zip(texts + numbers, answer):
    iso, gs1 = line.split(" ")
    if iso != mod_37_2.calc_check_digit(text):
        print(f"MOD 37-2 of {text}: {iso}, stdnum {mod_37_2.calc_check_digit(text)}")
        wrong += 1
for number, line in zip(numbers, answer[TEXTS:]):
    gs1 = line.split(" ")[1]
    if gs1 != ean.calc_check_digit(number):
        print(f"mod 10 of {number}: {gs1}, stdnum {ean.calc_check_digit(number)}")
        wrong += 1
print(f"{TEXTS + NUMBERS} MOD 37-2 and {NUMBERS} mod-10 check characters compared, {wrong} differ")
sys.exit(1 if wrong else 0)
