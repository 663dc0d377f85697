// R4's reference: the bore height most clubs of the build share on one shaft model.

#include "plan.h"

struct tally {
    size_t clubs;
    size_t irons;
    length_nm bore_height;
};

static struct tally tally_of(const struct plan_bore *bores, size_t count, length_nm bore_height) {
    struct tally tally = {.bore_height = bore_height};
    for (size_t i = 0; i < count; i++) {
        if (bores[i].bore_height == bore_height) {
            tally.clubs++;
            tally.irons += bores[i].kind == HEAD_KIND_IRON ? 1 : 0;
        }
    }
    return tally;
}

static bool better(struct tally a, struct tally b) {
    if (a.clubs != b.clubs) {
        return a.clubs > b.clubs;
    }
    if (a.irons != b.irons) {
        return a.irons > b.irons;
    }
    return a.bore_height < b.bore_height;
}

length_nm plan_uniform_reference(const struct plan_bore *bores, size_t count) {
    struct tally best = {.bore_height = LENGTH_UNKNOWN};
    for (size_t i = 0; i < count; i++) {
        if (bores[i].bore_height != LENGTH_UNKNOWN) {
            struct tally tally = tally_of(bores, count, bores[i].bore_height);
            if (best.clubs == 0 || better(tally, best)) {
                best = tally;
            }
        }
    }
    return best.bore_height;
}
