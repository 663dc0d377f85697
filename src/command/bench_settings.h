#ifndef BENCH_SETTINGS_H
#define BENCH_SETTINGS_H

// What a shop sets for one bench: kiosk/settings.ini, which says what each key means.

#include "assembly_card.h"
#include "page.h"
#include "scale.h"
#include "screen.h"
#include "station.h"
#include "store.h"
#include "ticket_stock.h"
#include "wedge.h"

#include <stdio.h>

#define BENCH_PATH_MAX 256
#define BENCH_QUEUE_MAX 128 // what CUPS allows, and NUL
#define BENCH_SCANNERS_MAX 4
#define BENCH_SERIALS_MAX 2
#define BENCH_BUTTON_ANY UINT16_MAX // any key of the button's own device

struct bench_settings {
    struct station_settings station;
    struct wedge_settings wedge;
    char scanner[BENCH_SCANNERS_MAX][BENCH_PATH_MAX]; // keyboards read apart, empty: none
    char serial[BENCH_SERIALS_MAX][BENCH_PATH_MAX];   // serial lines
    int baud;
    char scale[BENCH_PATH_MAX]; // serial line of a scale, empty: none
    int scale_baud;
    enum scale_format scale_format;
    enum scale_unit scale_unit; // of lines without one
    char button[BENCH_PATH_MAX];
    char camera[BENCH_PATH_MAX]; // node, folder of nodes, Y4M file or FIFO, empty: none
    int camera_width;            // asked of it
    int camera_height;
    char pepper[BENCH_PATH_MAX];   // key file of the PINs, empty: none
    char backup[BENCH_PATH_MAX];   // folder for copies of the database, empty: none are made
    int backup_hours;              // from one to the next
    int backup_keep;               // how many stay
    char sign_key[BENCH_PATH_MAX]; // days are signed with, empty: not at the bench
    char sign_witness[BENCH_PATH_MAX];
    struct pin_rules pin;
    struct shop_assembly shop;
    char shop_name[SHOP_TEXT_MAX]; // on papers for customers, may be empty
    uint16_t button_code;
    unsigned language;                       // 0: that of the computer, else language_at, from 1
    unsigned paper;                          // of tickets and reports, see paper_size.h
    const struct ticket_stock *labels_stock; // of labels printed at once, NULL: plain paper
    char labels_queue[BENCH_QUEUE_MAX];      // of CUPS, empty: the default one
    bool labels_print;                       // else a file is made
    int hold_ms;
    bool spoken; // prompts are read out
    enum screen_theme theme;
    int distance_mm; // from the eyes to the screen
    int diagonal_mm; // of the screen
    bool mirrored;
    int blank_minutes; // until the screen is dark, 0: never
    int volume;
};

struct bench_settings bench_settings_default(void);

// The same as text, setting by setting, in the order of the table.
#define BENCH_KEYS_MAX 96
#define BENCH_VALUE_MAX 200      // what a line holds
#define BENCH_FILE_MAX (1 << 20) // bytes of a file
struct bench_lines {
    char value[BENCH_KEYS_MAX][BENCH_VALUE_MAX];
    int line[BENCH_KEYS_MAX];      // in the file, 0: it has none, the value is the standard
    char *own[BENCH_KEYS_MAX + 1]; // lines of a person's own before it, behind the last, or NULL
};
void bench_lines_init(struct bench_lines *lines); // all standards
void bench_lines_release(struct bench_lines *lines);
bool bench_lines_same(const struct bench_lines *a, const struct bench_lines *b); // their values

// What stands in a line becomes a comment before it: `# not taken: line 5: units = mm`.
void bench_lines_keep(struct bench_lines *lines, size_t index);

// Reads `file` over *settings. False when a line is wrong: every wrong line is then named on
// `complaints` with file, line, key and what is allowed; *settings is void.
bool bench_settings_read(FILE *file, const char *name, struct bench_settings *settings,
                         FILE *complaints);
// The same, and the text of every line into *lines (initialised), with wrong ones among the
// person's own: `# not taken: line 12: mark_step = 1/7`.
bool bench_settings_read_lines(FILE *file, const char *name, struct bench_settings *settings,
                               struct bench_lines *lines, FILE *complaints);

// The table, for those who go through all of it: bench_set.h.
struct bench_key;
size_t bench_settings_count(void);
const struct bench_key *bench_settings_key(size_t index);
bool bench_settings_find(const char *section, const char *key, size_t *ret_index);

#endif
