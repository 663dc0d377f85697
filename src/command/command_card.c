// `kerfside card` and `kerfside certificate`: the papers of a build.

#include "build_papers.h"
#include "club_name.h"
#include "command.h"
#include "database.h"
#include "options.h"
#include "paper_size.h"
#include "settings_file.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

struct asked {
    const char *db, *path, *paper, *file;
    bool draft;
    char *build;
};

static int usage(const char *command, const char *what) {
    fprintf(stderr, _("kerfside %s: %s See kerfside --help.\n"), command, what);
    return COMMAND_USAGE;
}

// The paper is the settings' unless it is given.
static bool take_papers(const char *command, const struct asked *asked,
                        struct bench_settings *settings, struct build_papers *ret_papers) {
    if (!settings_file_read(command, asked->file, settings)) {
        return false;
    }
    *ret_papers = (struct build_papers){
        .rules = settings->station.rules,
        .assembly = settings->station.assembly,
        .tolerance = settings->station.finals,
        .shop = settings->shop,
        .shop_name = settings->shop_name,
        .method = settings->station.length_method,
        .now_ms = (int64_t)time(NULL) * 1000,
    };
    paper_size_take(asked->paper, settings->paper, &ret_papers->paper);
    return true;
}

static int read_asked(int argc, char **argv, bool may_draft, struct asked *asked) {
    const struct option options[] = {{"--db", &asked->db, NULL},
                                     {"--pdf", &asked->path, NULL},
                                     {"--paper", &asked->paper, NULL},
                                     {"--settings", &asked->file, NULL},
                                     {"--draft", NULL, &asked->draft}};
    size_t known = sizeof options / sizeof options[0] - (may_draft ? 0 : 1);
    int count;
    if (!options_read_plain(argc, argv, options, known, 1, 1, N_("the build"), &count)) {
        return COMMAND_USAGE;
    }
    asked->build = argv[1];
    if (asked->path == NULL) {
        return usage(argv[0], _("name the file with --pdf."));
    }
    enum page_paper paper;
    if (!paper_size_take(asked->paper, 0, &paper)) {
        return usage(argv[0], _("the paper can be a4 or letter."));
    }
    return COMMAND_DONE;
}

static int tell(const char *command, bool done, const char *path, size_t pages,
                const char *message) {
    if (!done) {
        fprintf(stderr, "kerfside %s: %s\n", command, message);
        return COMMAND_REFUSED;
    }
    printf(tongue_plural("%s: %zu page\n", "%s: %zu pages\n", pages), path, pages);
    return COMMAND_DONE;
}

int command_card(int argc, char **argv) {
    struct asked asked = {0};
    struct bench_settings settings;
    struct build_papers papers;
    struct store *store;
    char message[1200];
    size_t pages = 0;
    int status = read_asked(argc, argv, false, &asked);
    if (status != COMMAND_DONE) {
        return status;
    }
    if (!take_papers(argv[0], &asked, &settings, &papers) ||
        !database_open(argv[0], asked.db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    const char *build = asked.build, *club = NULL;
    if (!club_name_is_build(asked.build)) {
        club_name_split(asked.build, &build, &club);
    }
    bool done =
        build_papers_card(store, &papers, build, club, asked.path, &pages, message, sizeof message);
    store_close(store);
    return tell(argv[0], done, asked.path, pages, message);
}

int command_certificate(int argc, char **argv) {
    struct asked asked = {0};
    struct bench_settings settings;
    struct build_papers papers;
    struct store *store;
    char message[1200];
    int status = read_asked(argc, argv, true, &asked);
    if (status != COMMAND_DONE) {
        return status;
    }
    if (!take_papers(argv[0], &asked, &settings, &papers) ||
        !database_open(argv[0], asked.db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = build_papers_certificate(store, &papers, asked.build, asked.draft, asked.path,
                                         message, sizeof message);
    store_close(store);
    return tell(argv[0], done, asked.path, 1, message);
}
