#include "columns.h"
#include "command.h"
#include "csv_file.h"
#include "database.h"
#include "days.h"
#include "options.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>
#include <time.h>

#define PAGE 100

enum { ENTRY, TIME, KIND, WORKER, BUILD, CLUB, SHAFT, PLANNED, MADE, VERDICT, CAUSE, COLUMNS };

static const struct column columns[COLUMNS] = {
    [ENTRY] = {NT_("log", "entry"), 7, "  ", {NULL}},
    [TIME] = {NT_("log", "time"), -19, "  ", {NULL}},
    [KIND] = {NT_("log", "kind"), -11, " ", {NULL}},
    [WORKER] = {NT_("log", "worker"), -15, " ", {NULL}},
    [BUILD] = {NT_("log", "build"), -8, " ", {NULL}},
    [CLUB] = {NT_("log", "club"), -5, " ", {NULL}},
    [SHAFT] = {NT_("log", "shaft"), -15, " ", {NULL}},
    [PLANNED] = {NT_("log", "planned"), 10, " ", {NULL}},
    [MADE] = {NT_("log", "made"), 10, "  ", {NULL}},
    [VERDICT] = {"", -5, " ", {NULL}},
    [CAUSE] = {NT_("log", "cause"), 0, "", {NULL}},
};

static void show_length(const struct column *column, length_nm length) {
    char words[LENGTH_TEXT_MAX] = "";
    if (length != LENGTH_UNKNOWN) {
        length_text_fraction(length, words);
    }
    columns_cell(stdout, column, words);
}

static void show_line(const struct log_line *line) {
    char when[32] = "";
    struct tm date;
    time_t seconds = (time_t)(line->wall_ms / 1000);
    if (localtime_r(&seconds, &date) != NULL) {
        strftime(when, sizeof when, "%Y-%m-%d %H:%M:%S", &date);
    }
    columns_number(stdout, &columns[ENTRY], line->seq);
    columns_cell(stdout, &columns[TIME], when);
    columns_cell(stdout, &columns[KIND], entry_kind_text(line->kind));
    columns_cell(stdout, &columns[WORKER], line->worker);
    columns_cell(stdout, &columns[BUILD], line->build);
    columns_cell(stdout, &columns[CLUB], line->club);
    columns_cell(stdout, &columns[SHAFT], line->shaft);
    show_length(&columns[PLANNED], line->planned);
    show_length(&columns[MADE], line->made);
    columns_cell(stdout, &columns[VERDICT], verdict_text(line->verdict));
    printf("%s%s%s\n", line->cause, line->open ? "  " : "", line->open ? _("to be decided") : "");
}

static bool show_log(struct store *store, const struct log_filter *filter) {
    static struct log_line lines[PAGE];
    int64_t before = 0;
    int count;
    columns_heads(stdout, columns, COLUMNS);
    do {
        count = store_log(store, filter, before, lines, PAGE);
        for (int i = 0; i < count; i++) {
            show_line(&lines[i]);
            before = lines[i].seq;
        }
    } while (count == PAGE && before > 1);
    if (count < 0) {
        database_complain("log", store);
    }
    return count >= 0;
}

struct wish {
    struct store *store;
    const struct log_filter *filter;
};

static bool fill(void *context, int fd, int64_t *ret_rows, char *message, size_t size) {
    const struct wish *wish = context;
    bool done = store_log_csv(wish->store, wish->filter, fd, ret_rows) == STORE_OK;
    if (!done) {
        snprintf(message, size, "%s", store_message(wish->store));
    }
    return done;
}

int command_log(int argc, char **argv) {
    const char *db = NULL, *from = NULL, *to = NULL, *csv = NULL;
    const struct option options[] = {
        {"--db", &db, NULL}, {"--from", &from, NULL}, {"--to", &to, NULL}, {"--csv", &csv, NULL}};
    struct log_filter filter = {0};
    struct store *store;
    int count;
    if (!options_read_plain(argc, argv, options, 4, 0, 0, "", &count) ||
        !days_take(argv[0], "--from", from, 0, &filter.from_ms) ||
        !days_take(argv[0], "--to", to, 1, &filter.to_ms)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = csv != NULL
                    ? csv_file_write(argv[0], csv, "entries", fill, &(struct wish){store, &filter})
                    : show_log(store, &filter);
    store_close(store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}
