// The log as a file for a spreadsheet. The plans stay out: they are whole pages.

#include "connection.h"
#include "csv.h"
#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define CELL_MAX (2 * ENTRY_NOTE_MAX + 4) // every quote doubled, two around, an apostrophe, NUL

static void put_text(FILE *file, const char *text) {
    char cell[CELL_MAX];
    size_t size = csv_cell(text, cell, sizeof cell);
    fputc(',', file);
    fwrite(cell, 1, size, file);
}

static void put_number(FILE *file, int64_t number) {
    if (number == 0) {
        fputc(',', file);
    } else {
        fprintf(file, ",%lld", (long long)number);
    }
}

static void put_length(FILE *file, length_nm length) {
    char text[LENGTH_TEXT_MAX] = "";
    if (length != LENGTH_UNKNOWN) {
        length_text_exact(length, text);
    }
    put_text(file, text);
}

static void put_time(FILE *file, int64_t wall_ms) {
    char text[32] = "";
    struct tm date;
    time_t seconds = wall_ms / 1000;
    if (wall_ms >= 0 && gmtime_r(&seconds, &date) != NULL) {
        strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &date);
    }
    put_text(file, text);
}

static void put_entry(FILE *file, const struct entry *entry) {
    fprintf(file, "%lld", (long long)entry->seq);
    put_time(file, entry->wall_ms);
    put_text(file, entry_kind_text(entry->kind));
    put_text(file, entry->bench);
    put_text(file, entry->worker);
    put_text(file, entry->build);
    put_text(file, entry->club);
    put_text(file, entry->head);
    put_text(file, entry->shaft);
    put_number(file, entry->attempt);
    put_number(file, entry->refers);
    put_length(file, entry->planned);
    put_length(file, entry->made);
    put_text(file, verdict_text(entry->verdict));
    put_text(file, entry->cause);
    put_text(file, entry->note);
    put_number(file, entry->chart_revision);
    put_text(file, entry->confirm_id);
    fputs("\r\n", file);
}

struct rows {
    FILE *file;
    int64_t count;
};

static bool put_row(void *context, const struct entry *entry) {
    struct rows *rows = context;
    put_entry(rows->file, entry);
    rows->count++;
    return !ferror(rows->file);
}

enum store_result store_log_csv(struct store *store, const struct log_filter *filter, int fd,
                                int64_t *ret_rows) {
    enum store_result result;
    int own = dup(fd);
    FILE *file = own < 0 ? NULL : fdopen(own, "w");
    if (file == NULL) {
        result = connection_say(store, STORE_FAILED, _("Could not write the file: %s."),
                                strerror(errno));
        if (own >= 0) {
            close(own);
        }
        return result;
    }
    fputs("seq,time,kind,bench,worker,build,club,head,shaft,attempt,refers,planned,made,verdict,"
          "cause,note,chart_revision,confirm_id\r\n",
          file);
    struct rows rows = {.file = file};
    result = store_log_each(store, filter, put_row, &rows);
    bool written = !ferror(file);
    if ((fclose(file) != 0 || !written) && result == STORE_OK) {
        result = connection_say(store, errno == ENOSPC ? STORE_FULL : STORE_FAILED,
                                _("Could not write the file: %s. Is there room on the disk?"),
                                strerror(errno));
    }
    if (result == STORE_OK) {
        *ret_rows = rows.count;
    }
    return result;
}
