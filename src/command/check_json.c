#include "check_json.h"
#include "json.h"
#include "machine_facts.h"
#include "settings_file.h"

#include <string.h>
#include <time.h>

static int64_t now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void text(FILE *to, const char *key, const char *value) {
    fprintf(to, ",\"%s\":", key);
    json_string(to, value);
}

// -1 is null: not known, or there is none.
static void number(FILE *to, const char *key, int64_t value) {
    if (value < 0) {
        fprintf(to, ",\"%s\":null", key);
    } else {
        fprintf(to, ",\"%s\":%lld", key, (long long)value);
    }
}

static void truth(FILE *to, const char *key, int value) {
    fprintf(to, ",\"%s\":%s", key, value < 0 ? "null" : value == 0 ? "false" : "true");
}

static void put_settings(FILE *to, const struct settings_now *now) {
    truth(to, "settings_good", now->wrong == 0);
    text(to, "settings_problem", now->first);
    text(to, "settings_from",
         now->from == SETTINGS_FILE        ? "file"
         : now->from == SETTINGS_LAST_GOOD ? "last good"
                                           : "standards");
}

static void put_copies(FILE *to, const char *database, const char *folder, int64_t now) {
    int64_t last = 0;
    bool known = folder[0] != '\0' && store_backup_newest(database, folder, now, &last) && last > 0;
    truth(to, "backups_set_up", folder[0] != '\0');
    number(to, "backup_age_s", known ? (now - last) / 1000 : -1);
    if (folder[0] != '\0') {
        struct selfcheck_disk disk;
        machine_disk(folder, &disk);
        number(to, "backup_disk_free_bytes", disk.known ? disk.free : -1);
    } else {
        number(to, "backup_disk_free_bytes", -1);
    }
}

static void put_machine(FILE *to, const char *database) {
    struct selfcheck_disk disk;
    machine_disk(database, &disk);
    number(to, "disk_free_bytes", disk.known ? disk.free : -1);
    number(to, "disk_free_inodes", disk.known ? disk.files_free : -1);
    truth(to, "disk_read_only", disk.known ? disk.read_only : -1);
    number(to, "disk_life_used_percent", disk.used_percent);
    number(to, "disk_errors", disk.errors);
    truth(to, "clock_synchronised", machine_clock(MACHINE_CLOCK_TOLD));
}

void check_json(FILE *to, struct store *store, const struct check_said *said) {
    static struct settings_now now; // large
    int64_t wall_ms = now_ms();
    int64_t seq = 0;
    int64_t last_ms = 0;
    int64_t wanted = 0;
    int64_t ballast = 0;
    bool ended = store != NULL && store_last(store, &seq, &last_ms) == STORE_OK;
    settings_now_read("check", said->settings, said->database, &now);
    fputs("{\"version\":", to);
    json_string(to, KERFSIDE_VERSION);
    text(to, "database", said->database);
    number(to, "time_s", wall_ms / 1000);
    number(to, "schema", store != NULL ? store_schema() : -1);
    text(to, "looked_at",
         said->check == NULL ? "nothing"
         : said->quick       ? "the last entries"
                             : "all");
    truth(to, "whole", said->check == NULL ? -1 : said->whole);
    number(to, "entries", ended ? seq : -1);
    number(to, "first_bad",
           said->check != NULL && said->check->first_bad > 0 ? said->check->first_bad : -1);
    text(to, "problem", said->problem);
    number(to, "uncovered", said->uncovered);
    number(to, "last_entry_age_s", ended && wall_ms >= last_ms ? (wall_ms - last_ms) / 1000 : -1);
    truth(to, "clock_behind_log", ended ? last_ms > wall_ms : -1);
    if (store != NULL) {
        store_ballast(store, &wanted, &ballast);
    }
    truth(to, "reserve_there", store == NULL ? -1 : ballast >= wanted);
    number(to, "others", machine_others(said->database, 0));
    put_copies(to, said->database, now.settings.backup, wall_ms);
    put_machine(to, said->database);
    put_settings(to, &now);
    fputs("}\n", to);
    settings_now_release(&now);
}
