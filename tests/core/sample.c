#include "sample.h"

struct sample sample_make(void) {
    return (struct sample){
        .head =
            {
                .ticket = "H-0001A",
                .model = "Heron 3 wood",
                .kind = HEAD_KIND_FAIRWAY,
                .engraved = "3",
                .weight = GRAMS(210),
                .hosel_bore = 8509000, // 0.335 in
                .insertion = IN(1, 1, 4),
                .bore_height = IN(1, 0, 1),
                .model_bore_height = LENGTH_UNKNOWN,
                .bore = BORE_BLIND,
                .loft = LENGTH_UNKNOWN,
                .lie = LENGTH_UNKNOWN,
            },
        .shaft =
            {
                .ticket = "S-0001S",
                .model = "Reed 60",
                .flex = "R",
                .raw_length = IN(46, 0, 1),
                .weight = GRAMS(62),
                .rack = "A1",
            },
        .model =
            {
                .name = "Reed 60",
                .material = MATERIAL_GRAPHITE,
                .tip = TIP_PARALLEL,
                .tip_diameter = 8509000,
                .butt_diameter = IN(0, 5, 8),
                .raw_length = IN(46, 0, 1),
                .weight = GRAMS(62),
                .tip_section = IN(6, 0, 1),
                .max_tip_trim = IN(3, 0, 1),
                .max_butt_trim = IN(6, 0, 1),
                .bore_note = BORE_NOTE_NONE,
                .bore_reference = LENGTH_UNKNOWN,
                .revision = 4,
            },
        .chart =
            {
                .kind = CHART_KIND_WOOD,
                .flex = "R",
                .revision = 7,
                .count = 4,
                .column =
                    {
                        {"1", GRAMS(200), 0},
                        {"3", GRAMS(210), IN(0, 1, 2)},
                        {"5", GRAMS(220), IN(1, 0, 1)},
                        {"7", GRAMS(230), IN(1, 1, 2)},
                    },
            },
        .order =
            {
                .build = "B-0001X",
                .club = "3W",
                .position = 2,
                .count = 4,
                .due = "2026-12-01",
                .playing_length = IN(43, 0, 1),
                .grip_cap = IN(0, 1, 8),
                .grip_weight = GRAMS(50),
                .swingweight = "D2",
                .uniform_reference = LENGTH_UNKNOWN,
                .given_trim = LENGTH_UNKNOWN,
                .trim_consent = LENGTH_UNKNOWN,
                .loft = LENGTH_UNKNOWN,
                .lie = LENGTH_UNKNOWN,
            },
        .rules = BENCH_RULES_DEFAULT,
        .tip_made = LENGTH_UNKNOWN,
    };
}

struct plan_input sample_input(const struct sample *sample) {
    return (struct plan_input){
        .head = &sample->head,
        .shaft = &sample->shaft,
        .model = &sample->model,
        .chart = &sample->chart,
        .order = &sample->order,
        .rules = &sample->rules,
        .tip_made = sample->tip_made,
    };
}

uint64_t sample_random(uint64_t *state) {
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return *state * 2685821657736338717u;
}

int64_t sample_between(uint64_t *state, int64_t low, int64_t high) {
    return low + (int64_t)(sample_random(state) % (uint64_t)(high - low + 1));
}
