#include "command.h"
#include "database.h"
#include "day_papers.h"
#include "days.h"
#include "options.h"
#include "paper_size.h"
#include "settings_file.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static int usage(const char *what) {
    fprintf(stderr, _("kerfside report: %s See kerfside --help.\n"), what);
    return COMMAND_USAGE;
}

int command_report(int argc, char **argv) {
    const char *db = NULL, *day = NULL, *from = NULL, *to = NULL, *path = NULL, *paper = NULL;
    const char *file = NULL;
    char today[CHECKPOINT_DAY_MAX];
    char message[1200];
    struct bench_settings settings;
    struct day_papers papers = {.now_ms = (int64_t)time(NULL) * 1000};
    struct store *store;
    size_t pages;
    const struct option options[] = {{"--db", &db, NULL},
                                     {"--day", &day, NULL},
                                     {"--from", &from, NULL},
                                     {"--to", &to, NULL},
                                     {"--pdf", &path, NULL},
                                     {"--paper", &paper, NULL},
                                     {"--settings", &file, NULL},
                                     {"--witness", &papers.witness, NULL},
                                     {"--public", &papers.public, NULL}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    if (path == NULL || (from == NULL) != (to == NULL) || (day != NULL && from != NULL)) {
        return usage(path == NULL ? _("name the file with --pdf.")
                                  : _("name one --day, or --from and --to."));
    }
    if ((papers.witness == NULL) != (papers.public == NULL)) {
        return usage(_("--witness and --public belong together."));
    }
    if (!paper_size_take(paper, 0, &papers.paper)) {
        return usage(_("the paper can be a4 or letter."));
    }
    days_text(papers.now_ms, today);
    day = day == NULL ? today : day;
    if (!days_take(argv[0], from == NULL ? "--day" : "--from", from == NULL ? day : from, 0,
                   &papers.from_ms) ||
        !days_take(argv[0], to == NULL ? "--day" : "--to", to == NULL ? day : to, 1,
                   &papers.to_ms)) {
        return COMMAND_USAGE;
    }
    if (papers.to_ms <= papers.from_ms) {
        return usage(_("--to lies before --from."));
    }
    if (!settings_file_read(argv[0], file, &settings) ||
        !database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    paper_size_take(paper, settings.paper, &papers.paper);
    papers.tolerance = settings.station.rules.tolerance;
    papers.metric = settings.station.metric_first;
    bool done = day_papers_report(store, &papers, path, &pages, message, sizeof message);
    store_close(store);
    if (!done) {
        fprintf(stderr, "kerfside report: %s\n", message);
        return COMMAND_REFUSED;
    }
    printf(tongue_plural("%s: %zu page\n", "%s: %zu pages\n", pages), path, pages);
    return COMMAND_DONE;
}
