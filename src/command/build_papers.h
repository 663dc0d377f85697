#ifndef BUILD_PAPERS_H
#define BUILD_PAPERS_H

// The papers of a build: the cards its cut shafts go to the glue bench with, and the certificate of
// the finished set. What the command line and the desk share.

#include "assembly_card.h"
#include "page.h"
#include "store.h"

struct build_papers {
    struct bench_rules rules;
    struct assembly assembly;
    struct assembly_tolerance tolerance;
    struct shop_assembly shop;
    const char *shop_name; // may be empty
    enum length_method method;
    enum page_paper paper;
    int64_t now_ms;
};

// A page a club, in the order of the build; `club` NULL: all that are not cancelled and have head,
// shaft and a plan. False: `message` says why, and no file was written. More than SET_CLUBS_MAX
// clubs: the first ones.
bool build_papers_card(struct store *store, const struct build_papers *papers, const char *build,
                       const char *club, const char *path, size_t *ret_pages, char *message,
                       size_t size);

// One page. A build that is not done is refused with what is missing, or stamped as a draft when
// `draft` allows it.
bool build_papers_certificate(struct store *store, const struct build_papers *papers,
                              const char *build, bool draft, const char *path, char *message,
                              size_t size);

#endif
