"""The bench as a kiosk runs it, in real time: its own loop, a serial scanner and a button read by its
threads, copies on their schedule, and a service manager that counts its signs of life."""
import collections
import fcntl
import os
import pty
import socket
import sqlite3
import struct
import subprocess
import threading
import time

from soak_bench import PATIENCE, Bench, Wrong

WATCHDOG_S = 10
CLUBS = 3000
KILL_EVERY = 40  # clubs
F13 = 183


class Live:
    def __init__(self, program, work, chance, shop):
        self.program, self.work, self.chance, self.shop = program, work, chance, shop
        self.db, self.serial, self.button = work / "live.db", work / "serial", work / "button"
        self.clubs = shop.make_clubs(CLUBS)
        self.count = collections.Counter()
        self.saved, self.gaps = [], []
        self.going = threading.Event()
        self.going.set()
        self.wrong = None
        self.master = self.bench = None
        self.cared = set()

    def environment(self):
        return {**{name: value for name, value in os.environ.items() if name != "WATCHDOG_PID"},
                "SDL_VIDEODRIVER": "dummy", "SDL_AUDIODRIVER": "dummy", "KERFSIDE_ROOM_MB": "1",
                "NOTIFY_SOCKET": str(self.work / "notify"),
                "WATCHDOG_USEC": str(WATCHDOG_S * 1000000)}

    # --- the service manager ---------------------------------------------------------------------

    def listen(self):
        self.last = None
        while self.going.is_set() or self.bench is not None:
            try:
                message = self.manager.recv(4096).decode()
            except (socket.timeout, OSError):
                continue
            if "WATCHDOG=1" in message:
                now = time.monotonic()
                if self.last is not None:
                    self.gaps.append(now - self.last)
                self.last = now
                self.count["signs of life"] += 1

    # --- devices ---------------------------------------------------------------------------------

    def plug(self):
        self.master, line = pty.openpty()
        self.serial.symlink_to(os.ttyname(line))
        self.line = line

    def unplug(self):
        self.serial.unlink()
        os.close(self.line)
        os.close(self.master)

    def scan(self, text):
        os.write(self.master, text.encode() + b"\r")

    def press(self):
        for value in (1, 0):
            now = time.monotonic()
            for event in ((1, F13, value), (0, 0, 0)):
                os.write(self.fifo, struct.pack("qqHHi", int(now), int(now % 1 * 1e6), *event))
            time.sleep(0.06)

    # --- a club ----------------------------------------------------------------------------------

    def start(self):
        (self.work / "live.db.starts").unlink(missing_ok=True)  # as if some minutes had passed
        self.last = None
        self.bench = Bench(self.program, ["--db", self.db, "--settings", self.work / "settings.ini",
                                          "--windowed", "--size", "640x480", "--trace"],
                           self.environment(), self.errors, self.saved)
        self.bench.wait_for("ready")
        self.fifo = os.open(self.button, os.O_WRONLY)
        self.cared = set()
        time.sleep(0.5)  # the terminal is opened by a thread
        self.scan("W-00029")
        self.bench.wait_for("state READY")

    def make(self, club):
        bench = self.bench
        self.scan(club.head)
        bench.wait_for("state PAIR")
        self.scan(club.shaft)
        for state in ([] if club.material in self.cared else ["CARE"]) + club.states():
            if bench.state != state:
                bench.wait_for(f"state {state}")
            time.sleep(0.45)  # the button is dead so long after a mark has come
            if state == "MEASURE":
                self.measure(club)
            elif state != "LOGGED":
                self.press()
        self.press()
        bench.wait_for("state READY")
        self.cared.add(club.material)
        club.stage = "done"
        self.count["clubs"] += 1

    def measure(self, club):
        """The length comes by one thread and the press by another: one that came first took nothing."""
        self.scan(self.shop.words(club.butt))
        time.sleep(0.15)
        until = time.monotonic() + PATIENCE
        while self.bench.state == "MEASURE" and time.monotonic() < until:
            self.press()
            try:
                self.bench.wait_for("state LOGGED", 5)
            except Wrong:
                continue

    def trouble(self, club):
        kind = self.chance.choice(("unplugged", "wrong pair", "locked"))
        self.count[kind] += 1
        if kind == "unplugged":
            self.unplug()
            self.bench.wait_for("state HOLD scanner_gone")
            time.sleep(0.5)
            self.plug()
        elif kind == "wrong pair":
            self.scan(club.head)
            self.bench.wait_for("state PAIR")
            self.scan(self.clubs[-1].shaft)
            self.bench.wait_for("state HOLD wrong_pair")
            time.sleep(0.45)
            self.press()
        else:
            with open(f"{self.db}.lock", "rb") as lock:
                fcntl.flock(lock, fcntl.LOCK_EX)
                time.sleep(1.5)
            return
        self.bench.wait_for("state READY")

    def work_off(self):
        files = self.shop.write_files(self.clubs, self.work)
        subprocess.run([self.program, "import", "--db", self.db, *files], check=True,
                       stdout=subprocess.DEVNULL, env={**os.environ, "KERFSIDE_ROOM_MB": "1"})
        (self.work / "copies").mkdir()
        (self.work / "settings.ini").write_text(
            f"[serial]\ndevice = {self.serial}\n[button]\ndevice = {self.button}\n"
            f"[backup]\nfolder = {self.work / 'copies'}\nevery_h = 1\n", encoding="utf-8")
        os.mkfifo(self.button)
        self.plug()
        self.start()
        for number, club in enumerate(self.clubs[:-1]):
            if not self.going.is_set():
                break
            if self.chance.random() < 0.05:
                self.trouble(club)
            self.make(club)
            if number % KILL_EVERY == KILL_EVERY - 1:
                self.bench.kill()
                os.close(self.fifo)
                self.count["kill -9"] += 1
                self.start()

    def run(self):
        self.manager = socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM)
        self.manager.bind(str(self.work / "notify"))
        self.manager.settimeout(0.5)
        listener = threading.Thread(target=self.listen, daemon=True)
        listener.start()
        with open(self.work / "said", "w", encoding="utf-8") as self.errors:
            try:
                self.work_off()
            except (Wrong, OSError, subprocess.CalledProcessError) as wrong:
                self.wrong = wrong
            bench, self.bench = self.bench, None
            if bench is not None:
                bench.process.terminate()
                bench.rest()
                bench.process.wait()
        self.going.clear()
        listener.join()

    def finish(self):
        self.going.clear()

    def check(self):
        if self.wrong is not None:
            raise Wrong(f"the live bench: {self.wrong}")
        result = subprocess.run([self.program, "check", "--db", self.db], capture_output=True,
                                text=True)
        if result.returncode:
            raise Wrong(f"check of the live bench: {result.stderr}")
        connection = sqlite3.connect(f"file:{self.db}?mode=ro", uri=True)
        found = collections.Counter(connection.execute("SELECT seq, kind, confirm_id FROM log"))
        done = connection.execute("SELECT count(*) FROM club WHERE stage = 'done'").fetchone()[0]
        connection.close()
        lost = [entry for entry in self.saved if found[entry] != 1]
        if lost or done != self.count["clubs"]:
            raise Wrong(f"the live bench: lost {lost[:5]}, done {done} of {self.count['clubs']}")
        self.count["copies"] = len(list((self.work / "copies").glob("*.db")))
        longest = max(self.gaps, default=0.0)
        print("live: " + ", ".join(f"{name} {number}" for name, number in sorted(
            self.count.items())) + f"; longest between two signs of life {longest:.2f} s of "
            f"{WATCHDOG_S} s allowed")
        if longest >= WATCHDOG_S:
            raise Wrong(f"{longest:.1f} s without a sign of life")
