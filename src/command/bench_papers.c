// Papers of an order made at the desk: worksheet, cards for the glue bench, certificate. Each is a
// new file beside the database.

#include "bench.h"
#include "build_papers.h"
#include "paper_size.h"
#include "planning.h"
#include "tongue.h"
#include "words.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static struct build_papers papers_of(const struct bench *bench) {
    const struct bench_settings *settings = bench->settings;
    return (struct build_papers){.rules = settings->station.rules,
                                 .assembly = settings->station.assembly,
                                 .tolerance = settings->station.finals,
                                 .shop = settings->shop,
                                 .shop_name = settings->shop_name,
                                 .method = settings->station.length_method,
                                 .paper = paper_size(settings->paper),
                                 .now_ms = bench_clock_wall_ms(&bench->clock)};
}

static bool worksheet(const struct bench *bench, const char *build, const char *path, char *message,
                      size_t size) {
    const struct bench_settings *settings = bench->settings;
    struct planning planning = {.store = bench->store,
                                .rules = settings->station.rules,
                                .assembly = settings->station.assembly};
    struct planning_sheet sheet = {
        .path = path, .paper = paper_size(settings->paper), .bench = settings->station.bench};
    size_t clubs;
    if (planning_pdf(&planning, build, &sheet, &clubs) == STORE_OK) {
        return true;
    }
    snprintf(message, size, "%s", _("This order has no worksheet: it has no clubs."));
    return false;
}

static bool write_paper(const struct bench *bench, enum desk_deed deed, const struct desk_ref *of,
                        const char *path, char *message, size_t size) {
    struct build_papers papers = papers_of(bench);
    const char *club = of->key[1][0] != '\0' ? of->key[1] : NULL;
    size_t pages;
    if (deed == DESK_DEED_WORKSHEET) {
        return worksheet(bench, of->key[0], path, message, size);
    }
    return deed == DESK_DEED_CARDS ? build_papers_card(bench->store, &papers, of->key[0], club,
                                                       path, &pages, message, size)
                                   : build_papers_certificate(bench->store, &papers, of->key[0],
                                                              false, path, message, size);
}

bool bench_order_paper(struct bench *bench, enum desk_deed deed, const struct desk_ref *of,
                       struct desk_said *ret_said) {
    const char *begin = deed == DESK_DEED_WORKSHEET ? "worksheet"
                        : deed == DESK_DEED_CARDS   ? "cards"
                                                    : "certificate";
    char name[64];
    char path[VIEW_TEXT_MAX];
    char message[VIEW_LONG_MAX] = "";
    snprintf(name, sizeof name, "%s-%.20s", begin, of->key[0]);
    int fd =
        bench_new_file(bench, name, bench_clock_wall_ms(&bench->clock), "pdf", path, sizeof path);
    if (fd < 0) {
        snprintf(ret_said->message, sizeof ret_said->message, "%s",
                 _("No file could be written beside the database."));
        return false;
    }
    close(fd); // the page takes its place
    if (!write_paper(bench, deed, of, path, message, sizeof message)) {
        unlink(path);
        words_copy(ret_said->message, sizeof ret_said->message, message);
        return false;
    }
    snprintf(ret_said->message, sizeof ret_said->message, _("Written: %.140s"), path);
    return true;
}
