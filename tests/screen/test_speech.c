// What every view there is says aloud.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pen.h"
#include "speech.h"
#include "views.h"

#include <string.h>

static void every_bench_view_says_what_to_do(void **state) {
    static struct view view;
    size_t count;
    const struct fixture *fixtures = views_all(&count);
    (void)state;
    for (size_t i = 0; i < count; i++) {
        char words[SPEECH_MAX];
        fixtures[i].fill(&view);
        speech_of(&view, words);
        if (seated_view(view.body) || view.body == VIEW_SHOWN || view.body == VIEW_SELFCHECK) {
            assert_string_equal(words, ""); // read by somebody who sits
            continue;
        }
        // A complaint may quote a fraction that no ruler has.
        bool slash = fixtures[i].use != FIXTURE_LONGEST && strchr(words, '/') != NULL;
        if (words[0] == '\0' || slash || strstr(words, "..") != NULL) {
            fail_msg("%s says: %s", fixtures[i].name, words);
        }
    }
}

static void says_the_mark(void **state) {
    static const char *const said[][2] = {
        {"tip-cut", "Tip end · cut off. two and five eighths inches. Cut made? Press the button."},
        {"hold", "Do not cut: these two do not belong together. Scan the right part, or press to "
                 "start over."},
        {"dry-fit", "Bore height one and one eighth inches. Right? Press the button."},
        {"lone-measure",
         "one eighth of an inch too short. Enter forty-one and five eighths inches: "
         "hold 2 seconds."},
    };
    (void)state;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        static struct view view;
        char words[SPEECH_MAX];
        views_fill(said[i][0], &view);
        speech_of(&view, words);
        assert_string_equal(words, said[i][1]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_bench_view_says_what_to_do),
        cmocka_unit_test(says_the_mark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
