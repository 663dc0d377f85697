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

static void show_length(length_nm length) {
    char words[LENGTH_TEXT_MAX] = "";
    if (length != LENGTH_UNKNOWN) {
        length_text_fraction(length, words);
    }
    printf(" %10s", words);
}

static void show_line(const struct log_line *line) {
    char when[32] = "";
    struct tm date;
    time_t seconds = (time_t)(line->wall_ms / 1000);
    if (localtime_r(&seconds, &date) != NULL) {
        strftime(when, sizeof when, "%Y-%m-%d %H:%M:%S", &date);
    }
    printf("%7lld  %s  %-11s %-15s %-8s %-5s %-15s", (long long)line->seq, when,
           entry_kind_text(line->kind), line->worker, line->build, line->club, line->shaft);
    show_length(line->planned);
    show_length(line->made);
    printf("  %-5s %s%s\n", verdict_text(line->verdict), line->cause,
           line->open ? _("  to be decided") : "");
}

static bool show_log(struct store *store, const struct log_filter *filter) {
    static struct log_line lines[PAGE];
    int64_t before = 0;
    int count;
    printf("%7s  %-19s  %-11s %-15s %-8s %-5s %-15s %10s %10s  %-5s %s\n", "entry", "time", "kind",
           "worker", "build", "club", "shaft", "planned", "made", "", "cause");
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
