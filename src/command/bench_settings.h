#ifndef BENCH_SETTINGS_H
#define BENCH_SETTINGS_H

// What a shop sets for one bench: kiosk/settings.ini, which says what each key means.

#include "assembly_card.h"
#include "page.h"
#include "scale.h"
#include "station.h"
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
    struct shop_assembly shop;
    char shop_name[SHOP_TEXT_MAX]; // on papers for customers, may be empty
    uint16_t button_code;
    enum page_paper paper;                   // of tickets and reports
    const struct ticket_stock *labels_stock; // of labels printed at once, NULL: plain paper
    char labels_queue[BENCH_QUEUE_MAX];      // of CUPS, empty: the default one
    bool labels_print;                       // else a file is made
    int hold_ms;
    int volume;
};

struct bench_settings bench_settings_default(void);

// Reads `file` over *settings. False when a line is wrong: every wrong line is then named on
// `complaints` with file, line, key and what is allowed; *settings is void.
bool bench_settings_read(FILE *file, const char *name, struct bench_settings *settings,
                         FILE *complaints);

#endif
