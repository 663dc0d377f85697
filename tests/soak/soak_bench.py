"""One real bench, driven: what it is told, what it says, what it holds."""
import os
import queue
import subprocess
import threading
import time

PATIENCE = 180  # seconds for anything that must come


class Wrong(Exception):
    pass


class Bench:
    """The lines of its trace come one by one; `saved` keeps every entry that it acknowledged."""

    def __init__(self, program, arguments, environment, errors, saved):
        self.saved = saved
        self.errors = errors
        self.lines = queue.Queue()
        self.state = ""
        self.process = subprocess.Popen(
            [program, "bench", *map(str, arguments)], stdout=subprocess.PIPE, stderr=errors,
            env=environment, text=True)
        threading.Thread(target=self.listen, daemon=True).start()

    def listen(self):
        for line in self.process.stdout:
            self.lines.put(line.rstrip("\n"))
        self.lines.put(None)

    def next_line(self, seconds):
        line = self.lines.get(timeout=seconds)
        if line is None:
            self.lines.put(None)
            raise Wrong(f"the bench ended with {self.process.wait()}")
        word, _, rest = line.partition(" ")
        if word == "saved":
            seq, kind, confirm = rest.split()
            self.saved.append((int(seq), kind, confirm))
        elif word == "state":
            self.state = rest
        return line

    def wait_for(self, wanted, seconds=PATIENCE):
        """Until a line is what is wanted; returns it."""
        until = time.monotonic() + seconds
        while True:
            try:
                line = self.next_line(max(0.0, until - time.monotonic()))
            except queue.Empty:
                raise Wrong(f"no {wanted} after {seconds} s, the state is {self.state}") from None
            if wanted(line) if callable(wanted) else line == wanted:
                return line

    def rest(self):
        """What it said before it ended."""
        try:
            while True:
                self.next_line(PATIENCE)
        except Wrong:
            pass

    def holds(self):
        """Resident KiB, handles, threads."""
        folder = f"/proc/{self.process.pid}"
        with open(f"{folder}/status", encoding="ascii") as file:
            status = dict(line.split(":", 1) for line in file)
        return (int(status["VmRSS"].split()[0]), len(os.listdir(f"{folder}/fd")),
                int(status["Threads"]))

    def kill(self):
        self.process.kill()
        self.rest()
        self.process.wait()


def slope_within(groups):
    """Least squares, each group of points from its own level: how much more of y for one more of x."""
    together = square = 0.0
    for points in groups:
        mean_x = sum(x for x, _ in points) / len(points)
        mean_y = sum(y for _, y in points) / len(points)
        square += sum((x - mean_x) ** 2 for x, _ in points)
        together += sum((x - mean_x) * (y - mean_y) for x, y in points)
    return together / square if square else 0.0
