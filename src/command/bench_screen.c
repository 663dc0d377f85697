#include "bench_screen.h"

#include "tongue.h"

struct screen_options bench_screen_options(const struct bench_settings *settings) {
    // A button with a device of its own is read there alone, so that no press counts twice.
    return (struct screen_options){.theme = settings->theme,
                                   .distance_mm = settings->distance_mm,
                                   .diagonal_mm = settings->diagonal_mm,
                                   .mirrored = settings->mirrored,
                                   .button_code =
                                       settings->button[0] == '\0' ? settings->button_code : 0};
}

void bench_screen_far(const struct bench_settings *settings, int width, int height, FILE *to) {
    int far = screen_reach_mm(width, height, settings->diagonal_mm);
    // Less than a tenth is nobody's measure of where they stand.
    if (far * 11 / 10 < settings->distance_mm) {
        fprintf(to,
                _("[screen] distance_m: a screen of %.1f in is read from %.1f m; from %.1f m short "
                  "lines still are, long ones come out smaller.\n"),
                settings->diagonal_mm / 25.4, far / 1000.0, settings->distance_mm / 1000.0);
    }
}
