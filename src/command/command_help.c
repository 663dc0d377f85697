#include "command.h"

#include <stdio.h>

static const char help[] =
    "kerfside: the screen beside the saw where golf club shafts are cut to length.\n"
    "\n"
    "  kerfside import FILE.csv... [--db F]\n"
    "      charts, models, parts, orders and people from CSV files: all of them or nothing.\n"
    "      Every bad cell is named by file, line and column.\n"
    "  kerfside plan BUILD-CLUB | BUILD | --all [--json | --csv] [--moments] [--mark-step STEP]\n"
    "                [--limit-46] [--ferrule G] [--epoxy G] [--settings F] [--db F]\n"
    "      the cut plan with its reasons, and estimates of weight, swingweight and frequency; of "
    "a\n"
    "      build, the whole set and the club that stands out. --moments: what makes the\n"
    "      swingweight. STEP: 1/16, 1/32, 1/64, 0.5 mm or 1 mm. G: grams on every club.\n"
    "      What is not given here is as the settings of the bench say: --settings, else\n"
    "      $KERFSIDE_SETTINGS.\n"
    "  kerfside plan BUILD --pdf F [--paper a4 | letter] [--bench NAME] [options as above]\n"
    "      the build's worksheet, one page to take to the saw.\n"
    "  kerfside match BUILD [--by swingweight | frequency] [--csv F | --json]\n"
    "                 [--settings F] [--db F]\n"
    "  kerfside match BUILD [--by ...] --accept --badge W-... [--settings F] [--db F]\n"
    "      which shafts from stock make the clubs of a build most alike. --accept: a supervisor\n"
    "      takes that kit list; the PIN is read from the terminal without showing it.\n"
    "  kerfside tickets BUILD | TICKET... | --workers | --commands | --stock MODEL,FLEX\n"
    "                   --pdf F [--on STOCK] [--from N] [--print [--queue NAME]] [--db F]\n"
    "      tickets with their codes; of a build, its own and those of all its heads and shafts.\n"
    "      STOCK: a4, letter (plain paper to be cut), 63.5x38.1 (mm, labels on A4), 62mm,\n"
    "      2.25x1.25 (in, single labels). --from: first free place of a used sheet. --print:\n"
    "      through lp, unscaled.\n"
    "  kerfside log [--from DAY] [--to DAY] [--csv F] [--db F]\n"
    "      the cut log, newest first; with --csv, oldest first into a new file (- for the\n"
    "      terminal). DAY: 2026-03-31, both days included.\n"
    "  kerfside check [--witness F --public KEY.pub] [--db F]\n"
    "      whether database and log are whole; the exit status tells. --witness: and whether the\n"
    "      log still is what was signed.\n"
    "  kerfside key KEY\n"
    "      makes the key that days are signed with, and KEY.pub to check by. Keep KEY away from "
    "the\n"
    "      database and its copies.\n"
    "  kerfside sign --badge W-... --witness F [--day DAY] [--key KEY] [--db F]\n"
    "      a supervisor signs the day (today): an entry in the log, and a signed note behind the\n"
    "      others in the witness F, to be kept elsewhere. KEY: else $KERFSIDE_KEY.\n"
    "  kerfside report [--day DAY | --from DAY --to DAY] --pdf F [--paper a4 | letter]\n"
    "                  [--witness F --public KEY.pub] [--settings F] [--db F]\n"
    "      the day (today) on paper: figures, charts, every cut, decisions, and the checkpoint\n"
    "      that was signed, as text and QR; with --witness, the whole signed note.\n"
    "  kerfside backup F | --into FOLDER [--keep N] [--gently] [--db F]\n"
    "      a complete, checked copy, while others work. --into: named after the moment; the\n"
    "      newest N (14) of the folder stay. --gently: everybody else goes first.\n"
    "  kerfside restore COPY [--db F]\n"
    "      goes on from a copy; what was there is set aside, and the log says so. End the bench\n"
    "      first.\n"
    "  kerfside demo [--db F]\n"
    "      a new database with an invented workshop to try.\n"
    "  kerfside read IMAGE... [--raw]\n"
    "      the codes in PNG, JPEG, PGM or Y4M files, as the camera would read them: file, "
    "symbology,\n"
    "      text. --raw: all that was seen in each frame, and whether it counts.\n"
    "  kerfside pin BADGE [--pepper F] [--db F]\n"
    "      sets a supervisor's PIN of 4 to 12 digits, read from the terminal without showing it.\n"
    "  kerfside pin --recover BADGE [--pepper F] [--db F]\n"
    "      the same for a PIN that is locked or forgotten; for root at the console.\n"
    "  kerfside pin --new-pepper F\n"
    "      makes a key file that PINs are mixed with. It is named with --pepper, in\n"
    "      $KERFSIDE_PEPPER, or in the bench's settings.\n"
    "  kerfside people [--csv] [--db F]\n"
    "      badges, names, roles, and whose PIN is locked.\n"
    "  kerfside people --unlock W-... | --withdraw W-... --badge W-... [--pepper F] [--db F]\n"
    "      a supervisor with badge and PIN unlocks another one's PIN, or takes somebody's name "
    "out\n"
    "      of view for good.\n"
    "  kerfside bench [--db F] [--settings F] [--windowed] [--size 1280x720] [--scanner PATH]\n"
    "                 [--button PATH] [--pepper F] [--script F [--shots DIR] [--trace]]\n"
    "      the bench itself. PATH: a device read past the window. --script: a file of events "
    "drives\n"
    "      it, for tests.\n"
    "  kerfside --help, kerfside --version\n"
    "\n"
    "The database: --db, else $KERFSIDE_DB, else $XDG_DATA_HOME/kerfside/kerfside.db, else\n"
    "~/.local/share/kerfside/kerfside.db. Exit status: 0 done, 1 refused or found wrong, 2 usage.\n"
    "\n"
    "Kerfside controls no machine and is no safety device. The saw maker's manual, the site's\n"
    "rules and local codes come first.\n";

int command_help(int argc, char **argv) {
    (void)argc;
    (void)argv;
    fputs(help, stdout);
    return COMMAND_DONE;
}

int command_version(int argc, char **argv) {
    (void)argc;
    (void)argv;
    puts("kerfside " KERFSIDE_VERSION);
    return COMMAND_DONE;
}
