#ifndef SELFCHECK_H
#define SELFCHECK_H

// What a bench is made of, looked at: facts in, findings out, the worst first. Whoever gathers the
// facts says what is not known; that is never taken for right or wrong. Pure functions.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define SELFCHECK_TEXT_MAX 160

// In the order they are shown when all are as good.
// clang-format off
#define SELFCHECKS(X)                                                                              \
    X(LOG) X(DISK) X(SETTINGS) X(CLOCK) X(COPIES) X(COPIES_DISK) X(SIGNED) X(RESERVE) X(BENCHES)   \
    X(SCANNER) X(BUTTON) X(SCALE) X(CAMERA) X(PRINTER) X(SCREEN) X(SOUND)
// clang-format on
enum selfcheck_which {
#define X(name) SELFCHECK_##name,
    SELFCHECKS(X)
#undef X
        SELFCHECK_COUNT
};

enum selfcheck_state { SELFCHECK_GOOD, SELFCHECK_LOOK, SELFCHECK_BAD };

struct selfcheck_devices {
    int named; // in the settings; 0: it types into the window
    int there;
};
struct selfcheck_disk {
    bool known;
    bool read_only;
    int64_t free; // bytes for this program
    int64_t total;
    int64_t files_free; // inodes, -1: this kind of disk has no such limit
    int used_percent;   // of its life, as an eMMC says (JESD84-B51), -1: not known
    int64_t errors;     // that its file system has met, as ext4 counts them, -1: not known
};

enum selfcheck_sound { SOUND_OFF, SOUND_UNTRIED, SOUND_PLAYED, SOUND_MISSING };
enum selfcheck_printer {
    PRINTER_UNWANTED,
    PRINTER_ASKED,
    PRINTER_THERE,
    PRINTER_MISSING,
    PRINTER_SILENT
};
enum selfcheck_chain { CHAIN_UNKNOWN, CHAIN_READING, CHAIN_WHOLE, CHAIN_BROKEN };

struct selfcheck_facts {
    int64_t now_ms; // Unix
    struct {
        int width;
        int height;
        int hertz; // 0: not known
        const char *driver;
    } screen;
    enum selfcheck_sound sound;
    struct selfcheck_devices scanner;
    struct selfcheck_devices button;
    struct selfcheck_devices scale;
    struct selfcheck_devices camera;
    bool camera_frames; // pictures come
    enum selfcheck_printer printer;
    const char *printer_queue; // empty: the default one
    struct {
        int64_t entries;
        enum selfcheck_chain tail; // the chain of the last `tail_count`
        int64_t tail_count;
        enum selfcheck_chain whole; // everything that `kerfside check` looks at
        int64_t read;               // entries, while it is read
        int64_t whole_ms;           // when all was last found whole, 0: never
        const char *problem;        // of the broken one
    } log;
    struct {
        bool wanted;
        int64_t last_ms;   // 0: never
        int64_t uncovered; // entries since
    } signing;
    struct {
        bool wanted;
        bool late;
        bool failing;
        int64_t last_ms; // 0: there is none
        const char *why; // it fails
    } copies;
    struct selfcheck_disk disk;
    struct selfcheck_disk copies_disk;
    bool same_disk; // copies lie on the database's
    int64_t reserve_wanted;
    int64_t reserve;
    struct {
        int synchronised;    // 1 yes, 0 no, -1 not known
        int64_t set_back_ms; // the last entry is of so much later than now; 0: it is not
    } clock;
    struct {
        bool named; // a file of settings
        const char *wrong;
        bool last_good;
    } settings;
    int others; // programs that keep this database open as well, -1: not known
};

struct selfcheck_finding {
    enum selfcheck_which which;
    enum selfcheck_state state;
    bool tell; // worth a screen of its own at the start
    char name[48];
    char value[SELFCHECK_TEXT_MAX]; // in figures
    char todo[SELFCHECK_TEXT_MAX];  // empty when it is good
};

// Always all of them: bad ones first, then those to look at.
void selfcheck_judge(const struct selfcheck_facts *facts,
                     struct selfcheck_finding ret_findings[SELFCHECK_COUNT]);

// The log cannot be trusted: nothing more must be cut.
bool selfcheck_stops(const struct selfcheck_facts *facts);

// `12.4 GB`, `650 MB`, powers of ten as disks are sold.
void selfcheck_bytes(int64_t bytes, char *buffer, size_t size);

#endif
