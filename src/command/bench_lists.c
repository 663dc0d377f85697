// Lists of the desk as files beside the database.

#include "bench.h"
#include "stock_csv.h"
#include "text.h"
#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static bool fill(struct bench *bench, enum desk_deed deed, const char *build, FILE *file) {
    bool good = deed == DESK_DEED_STOCK_CSV ? stock_csv(bench->store, file)
                                            : pick_csv(bench->store, build, file);
    return good && fflush(file) == 0 && fsync(fileno(file)) == 0;
}

static bool failed(const char *path, const char *why, struct desk_said *ret_said) {
    if (path[0] != '\0') {
        unlink(path);
    }
    struct text said = text_open(ret_said->message, sizeof ret_said->message);
    text_say(&said, _("No file was written: %1."), why);
    ret_said->tone = TONE_STOP;
    return false;
}

bool bench_list_csv(struct bench *bench, enum desk_deed deed, const char *build,
                    struct desk_said *ret_said) {
    char path[VIEW_TEXT_MAX] = "";
    int fd = bench_new_file(bench, deed == DESK_DEED_STOCK_CSV ? "stock" : "pick",
                            bench_clock_wall_ms(&bench->clock), "csv", path, sizeof path);
    FILE *file = fd < 0 ? NULL : fdopen(fd, "w");
    if (file == NULL) {
        int why = errno;
        if (fd >= 0) {
            close(fd);
        }
        return failed(fd >= 0 ? path : "", strerror(why), ret_said);
    }
    errno = 0;
    bool good = fill(bench, deed, build, file);
    int why = errno;
    if (fclose(file) != 0 || !good) {
        return failed(path, why != 0 ? strerror(why) : store_message(bench->store), ret_said);
    }
    const char *slash = strrchr(path, '/');
    snprintf(ret_said->message, sizeof ret_said->message, _("Written beside the database: %.80s."),
             slash != NULL ? slash + 1 : path);
    ret_said->tone = TONE_FINE;
    return true;
}
