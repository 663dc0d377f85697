#include "fuzz.h"
#include "import_check.h"
#include "import_file.h"

#include <fcntl.h>
#include <unistd.h>

// The first line says which file it is: `heads`. The rest is the file.

static char folder[] = "/tmp/kerfside-fuzz-XXXXXX";
static char path[sizeof folder + 64];

static void clean(void) {
    unlink(path);
    rmdir(folder);
}

static bool put_file(const char *name, const uint8_t *data, size_t size) {
    static bool made;
    if (!made) {
        HOLDS(mkdtemp(folder) != NULL);
        made = true;
        atexit(clean);
    }
    for (int kind = 0; kind < IMPORT_KIND_COUNT; kind++) {
        if (strcmp(import_kind_name((enum import_kind)kind), name) == 0) {
            unlink(path);
            snprintf(path, sizeof path, "%s/%s.csv", folder, name);
            int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
            HOLDS(fd >= 0 && write(fd, data, size) == (ssize_t)size && close(fd) == 0);
            return true;
        }
    }
    return false;
}

static bool between(int64_t value, int64_t low, int64_t high) {
    return value == LENGTH_UNKNOWN || (value >= low && value <= high);
}

// The checks of db/*.sql.
static void expect_fit(enum import_kind kind, const union import_row *row) {
    struct ticket ticket;
    if (kind == IMPORT_HEADS) {
        HOLDS(ticket_parse(row->HEADS.ticket, &ticket) == TICKET_OK && ticket.kind == TICKET_HEAD);
        HOLDS(row->HEADS.model[0] != '\0');
        HOLDS(between(row->HEADS.weight, 1, INT64_MAX));
    } else if (kind == IMPORT_SHAFTS) {
        const struct shaft *shaft = &row->SHAFTS.shaft;
        HOLDS(ticket_parse(shaft->ticket, &ticket) == TICKET_OK && ticket.kind == TICKET_SHAFT);
        HOLDS(between(shaft->raw_length, 1, LENGTH_LIMIT));
        HOLDS(between(shaft->weight, 1, INT64_MAX));
    } else if (kind == IMPORT_BUILDS) {
        const struct order *order = &row->BUILDS.order;
        HOLDS(order->build[0] != '\0' && order->club[0] != '\0');
        HOLDS(between(order->playing_length, 1, LENGTH_LIMIT));
        HOLDS(between(order->grip_cap, 0, LENGTH_LIMIT));
        HOLDS(order->step >= -99 && order->step <= 99);
    } else if (kind == IMPORT_WORKERS) {
        HOLDS(ticket_parse(row->WORKERS.worker.badge, &ticket) == TICKET_OK);
    } else if (kind == IMPORT_GTINS) {
        const struct import_gtin *gtin = &row->GTINS;
        HOLDS(strlen(gtin->gtin) == 14 && ticket_gtin_valid(gtin->gtin));
        HOLDS((gtin->head_model[0] == '\0') != (gtin->shaft_model[0] == '\0'));
        HOLDS(gtin->flex[0] == '\0' || gtin->shaft_model[0] != '\0');
    }
}

static void expect_rows(const struct import_set *set, bool good) {
    for (int i = 0; i < IMPORT_KIND_COUNT; i++) {
        enum import_kind kind = (enum import_kind)i;
        for (size_t row = 0; row < set->table[kind].count; row++) {
            const union import_row *found = import_set_row(set, kind, row);
            const void *first = import_set_find(set, kind, found);
            HOLDS(first != NULL && import_set_same(kind, first, found));
            HOLDS(strcmp(found->at.file, path) == 0 && found->at.line >= 2);
            if (good) {
                expect_fit(kind, found);
            }
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char name[32] = "";
    const uint8_t *end = memchr(data, '\n', size < sizeof name ? size : sizeof name);
    if (end == NULL) {
        return 0;
    }
    memcpy(name, data, (size_t)(end - data));
    if (!put_file(name, end + 1, size - (size_t)(end - data) - 1)) {
        return 0;
    }
    char *said = NULL;
    size_t said_size = 0;
    struct import_set set = import_set_init();
    struct import_say say = {.messages = open_memstream(&said, &said_size)};
    HOLDS(say.messages != NULL);
    HOLDS(import_file(path, &set, &say));
    HOLDS(import_set_sort(&set));
    expect_rows(&set, say.complaints == 0);
    HOLDS(import_check_set(&set, &say));
    import_say_end(&say);
    fclose(say.messages);
    HOLDS((say.complaints + say.remarks == 0) == (said_size == 0));
    import_set_release(&set);
    free(said);
    return 0;
}
