#include "ledger.h"
#include "csv.h"
#include "day_facts.h"
#include "days.h"
#include "record.h"
#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define CELL_MAX (2 * ENTRY_NOTE_MAX + 4) // every quote doubled, two around, an apostrophe, NUL
#define LIFE_MAX 100                      // entries about one shaft

static const char header[] = "date,build,club,head,head_model,shaft,shaft_model,flex,worker,name,"
                             "result,cause,decided_by,note,tip_off,butt_off,length\r\n";

struct ledger {
    struct store *store;
    FILE *file;
    int64_t rows;
    enum store_result result; // of what was looked up
};

struct row {
    int64_t wall_ms;
    const struct entry *about; // the cut or measure
    const char *result;
    const char *cause;
    const char *decided_by;
    const char *note;
};

// --- what is known of a shaft --------------------------------------------------------------------

static bool is_withdrawn(const struct log_line *lines, int count, int64_t seq) {
    for (int i = 0; i < count; i++) {
        if (lines[i].kind == ENTRY_WITHDRAW && lines[i].refers == seq) {
            return true;
        }
    }
    return false;
}

// What was cut off the tip for good; 0: nothing.
static length_nm tip_off(struct ledger *ledger, const struct entry *about) {
    static struct log_line lines[LIFE_MAX];
    struct log_filter filter = {0};
    memcpy(filter.ticket, about->shaft, sizeof filter.ticket);
    int count = store_log(ledger->store, &filter, 0, lines, LIFE_MAX);
    if (count < 0) {
        ledger->result = STORE_FAILED;
    }
    for (int i = 0; i < count; i++) {
        if (lines[i].kind == ENTRY_TIP_CUT && !is_withdrawn(lines, count, lines[i].seq)) {
            return lines[i].made;
        }
    }
    return 0;
}

// --- a row ---------------------------------------------------------------------------------------

static void put(struct ledger *ledger, const char *text) {
    char cell[CELL_MAX];
    size_t size = csv_cell(text, cell, sizeof cell);
    fputc(',', ledger->file);
    fwrite(cell, 1, size, ledger->file);
}

static void put_length(struct ledger *ledger, length_nm length) {
    char text[LENGTH_TEXT_MAX] = "";
    if (length != LENGTH_UNKNOWN) {
        length_text_exact(length, text);
    }
    put(ledger, text);
}

static void put_row(struct ledger *ledger, const struct row *row) {
    const struct entry *about = row->about;
    struct record record = {.raw_length = LENGTH_UNKNOWN};
    struct worker worker;
    char day[CHECKPOINT_DAY_MAX];
    bool measured = about->kind == ENTRY_MEASURE;
    bool planned = record_read(about->plan, &record);
    bool named = store_worker(ledger->store, about->worker, &worker) == STORE_OK;
    length_nm tip = tip_off(ledger, about);
    bool butt = planned && measured && record.raw_length != LENGTH_UNKNOWN;
    days_text(row->wall_ms, day);
    fputs(day, ledger->file);
    put(ledger, about->build);
    put(ledger, about->club);
    put(ledger, about->head);
    put(ledger, planned ? record.head_model : "");
    put(ledger, about->shaft);
    put(ledger, planned ? record.shaft_model : "");
    put(ledger, planned ? record.flex : "");
    put(ledger, about->worker);
    put(ledger, named ? worker.name : "");
    put(ledger, row->result);
    put(ledger, row->cause);
    put(ledger, row->decided_by);
    put(ledger, row->note);
    put_length(ledger, tip);
    put_length(ledger, butt ? record.raw_length - tip - about->made : LENGTH_UNKNOWN);
    put_length(ledger, measured ? about->made : LENGTH_UNKNOWN);
    fputs("\r\n", ledger->file);
    ledger->rows++;
}

static bool withdraws(void *context, const struct entry *entry) {
    bool *found = context;
    *found = *found || entry->kind == ENTRY_WITHDRAW;
    return true;
}

// A club that was used as it is, and whose measure still stands, is finished by the decision.
static bool stands(struct ledger *ledger, int64_t seq) {
    bool withdrawn = false;
    enum store_result result = store_log_about(ledger->store, seq, seq, withdraws, &withdrawn);
    if (result != STORE_OK) {
        ledger->result = result;
    }
    return !withdrawn;
}

static void decided(struct ledger *ledger, const struct day_fact *fact, const struct entry *about) {
    bool use = strcmp(fact->cause, "use") == 0;
    struct row row = {.wall_ms = fact->wall_ms,
                      .about = about,
                      .result = use                                 ? "used"
                                : strcmp(fact->cause, "recut") == 0 ? "recut"
                                                                    : "scrapped",
                      .cause = about->kind == ENTRY_TIP_CUT ? "tip past mark" : "too short",
                      .decided_by = fact->worker,
                      .note = fact->note};
    if (!use || (about->kind == ENTRY_MEASURE && stands(ledger, about->seq))) {
        put_row(ledger, &row);
    }
}

static void put_fact(struct ledger *ledger, const struct day_fact *fact) {
    struct entry about;
    bool finished = fact->kind == ENTRY_MEASURE && fact->verdict == VERDICT_IN && !fact->withdrawn;
    bool decision = fact->kind == ENTRY_DECIDE;
    if (!finished && !decision) {
        return;
    }
    enum store_result result =
        store_entry(ledger->store, decision ? fact->refers : fact->seq, &about);
    if (result != STORE_OK) {
        ledger->result = result;
    } else if (decision) {
        decided(ledger, fact, &about);
    } else {
        struct row row = {.wall_ms = fact->wall_ms,
                          .about = &about,
                          .result = "finished",
                          .cause = "",
                          .decided_by = "",
                          .note = ""};
        put_row(ledger, &row);
    }
}

bool ledger_write(struct store *store, int64_t from_ms, int64_t to_ms, int fd, int64_t *ret_rows,
                  char *message, size_t size) {
    struct ledger ledger = {.store = store, .result = STORE_OK};
    struct day_facts facts;
    if (day_facts_read(store, from_ms, to_ms, &facts) != STORE_OK) {
        snprintf(message, size, "%s", store_message(store));
        return false;
    }
    int own = dup(fd);
    ledger.file = own < 0 ? NULL : fdopen(own, "w");
    if (ledger.file == NULL || facts.no_memory) {
        snprintf(message, size, _("Could not write the file: %s."), strerror(ENOMEM));
        day_facts_release(&facts);
        if (ledger.file != NULL) {
            fclose(ledger.file);
        } else if (own >= 0) {
            close(own);
        }
        return false;
    }
    fputs(header, ledger.file);
    for (size_t i = 0; ledger.result == STORE_OK && !ferror(ledger.file) && i < facts.count; i++) {
        put_fact(&ledger, &facts.fact[i]);
    }
    day_facts_release(&facts);
    bool written = !ferror(ledger.file);
    written = fclose(ledger.file) == 0 && written;
    if (ledger.result != STORE_OK) {
        snprintf(message, size, "%s", store_message(store));
    } else if (!written) {
        snprintf(message, size, _("Could not write the file: %s. Is there room on the disk?"),
                 strerror(errno));
    } else {
        *ret_rows = ledger.rows;
    }
    return ledger.result == STORE_OK && written;
}
