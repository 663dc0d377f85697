#include "match_sample.h"

#include "check.h"

static void make_profile(struct profile *profile) {
    *profile = (struct profile){
        .count = 2,
        .point = {{.from_tip = 0, .stiffness = 12000},
                  {.from_tip = IN(46, 0, 1), .stiffness = 60000}},
    };
}

void match_sample_make(struct match_sample *sample, size_t clubs, size_t shafts) {
    struct sample one = sample_make();
    *sample = (struct match_sample){
        .model = one.model,
        .chart = one.chart,
        .rules = one.rules,
        .assembly = ASSEMBLY_DEFAULT,
    };
    for (size_t i = 0; i < clubs; i++) {
        struct club *club = &sample->club[i];
        *club = (struct club){.head = one.head, .order = one.order};
        club->order.club[0] = (char)('1' + i);
        club->order.club[1] = '\0';
        club->order.position = (int)i + 1;
        club->order.swingweight[0] = '\0';
    }
    for (size_t i = 0; i < shafts; i++) {
        sample->shaft[i] = one.shaft;
        memcpy(sample->shaft[i].ticket, "S-1", 4);
        sample->shaft[i].ticket[2] = (char)('1' + i);
        make_profile(&sample->profile[i]);
        sample->stock[i] = (struct match_shaft){
            .shaft = &sample->shaft[i],
            .model = &sample->model,
            .chart[CHART_KIND_WOOD] = &sample->chart,
            .profile = &sample->profile[i],
        };
    }
    sample->request = (struct match_request){
        .by = MATCH_BY_SWINGWEIGHT,
        .clubs = sample->club,
        .club_count = clubs,
        .stock = sample->stock,
        .shaft_count = shafts,
        .rules = &sample->rules,
        .assembly = &sample->assembly,
    };
}

struct match_result match_sample_build(const struct match_sample *sample) {
    static struct match_work work;
    struct match_result result;
    assert_true(match_build(&sample->request, &work, &result));
    return result;
}
