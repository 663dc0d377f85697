// Texts in another language: from the log's English, figures, days, plurals.

#include "assembly_check.h"
#include "cause_text.h"
#include "check.h"
#include "day_text.h"
#include "estimate_text.h"
#include "language.h"
#include "reword.h"
#include "sample.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>

// A language of a few words, decimal comma.
static const char *said(const char *english) {
    static const char *const words[][2] = {
        {"Bore %a, chart is written for %b", "%b steht in der Tabelle, Bohrung %a"},
        {"%d %n, column %B", "%B: %d %n"},
        {"Soft-step", "Weicher"},
        {"Without the step: %1 (estimate)", "Ohne Schritt: %1 (Sch\u00E4tzung)"},
        {"about %1 cpm stiffer", "etwa %1 cpm steifer"},
        {"verdict\004in", "drin"},
        {"tip cut", "Tipp geschnitten"},
        {"month\004Nov", "Nov."},
        {"day and month\004%1 %2", "%1. %2"},
    };
    for (size_t i = 0; i < COUNT(words); i++) {
        if (strcmp(words[i][0], english) == 0) {
            return words[i][1];
        }
    }
    return english;
}
static const char *both(const char *one, const char *many, unsigned long count) {
    return count < 2 ? one : many; // as French has it
}
static const struct tongue german = {
    .text = said, .plural = both, .decimal_point = ',', .dates = TONGUE_DATES_POINTS};

static int speak(void **state) {
    (void)state;
    tongue_use(&german);
    return 0;
}

static int hush(void **state) {
    (void)state;
    tongue_use(NULL);
    return 0;
}

// Both ways of a plan's line: straight into the language, and from what the log has of it.
static void a_line_of_the_log_is_said_in_the_language(void **state) {
    static const struct {
        enum plan_code code;
        int64_t a;
        int64_t b;
        const char *source;
        const char *words;
    } rows[] = {
        {PLAN_R_BORE_REFERENCE, 3 * LENGTH_INCH / 2, 25908000,
         "Bore 1 1/2 in, chart is written for 1.0200 in",
         "1,0200 in steht in der Tabelle, Bohrung 1 1/2 in"},
        {PLAN_R_STEP, -1, 0, "Soft-step 1, column 1 (200.5 g)", "1 (200,5 g): Weicher 1"},
        {PLAN_R_GIVEN, 0, 0, "Given by a supervisor", "Given by a supervisor"},
    };
    struct sample sample = sample_make();
    (void)state;
    sample.chart.column[0].weight = 200500;
    struct plan_input input = sample_input(&sample);
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct plan_line line = {.code = rows[i].code, .a = rows[i].a, .b = rows[i].b};
        char text[PLAN_LINE_TEXT_MAX];
        plan_line_source(&input, &line, text, sizeof text);
        assert_string_equal(text, rows[i].source);
        char again[PLAN_LINE_TEXT_MAX];
        plan_line_reword(rows[i].code, text, again, sizeof again);
        assert_string_equal(again, rows[i].words);
        plan_line_text(&input, &line, text, sizeof text);
        assert_string_equal(text, rows[i].words);
    }
}

// Every code, with the longest names: what is said from the log is what is said at once.
static void every_line_comes_out_the_same_from_the_log(void **state) {
    struct sample sample = sample_make();
    struct plan_input input = sample_input(&sample);
    (void)state;
    for (int code = PLAN_NONE + 1; code < PLAN_CODE_COUNT; code++) {
        struct plan_line line = {.code = (enum plan_code)code, .a = 1, .b = 2};
        char source[PLAN_SOURCE_TEXT_MAX];
        char at_once[PLAN_LINE_TEXT_MAX];
        char from_log[PLAN_LINE_TEXT_MAX];
        plan_line_source(&input, &line, source, sizeof source);
        plan_line_text(&input, &line, at_once, sizeof at_once);
        plan_line_reword(line.code, source, from_log, sizeof from_log);
        assert_string_equal(from_log, at_once);
    }
}

static void what_is_no_line_of_today_stays(void **state) {
    char text[PLAN_LINE_TEXT_MAX];
    (void)state;
    plan_line_reword(PLAN_R_STEP, "One step softer", text, sizeof text);
    assert_string_equal(text, "One step softer");
    struct text out = text_open(text, sizeof text);
    assert_false(estimate_reword(&out, "About as stiff"));
    assert_string_equal(text, "About as stiff");
}

static void an_estimate_is_said_whole(void **state) {
    char text[ESTIMATE_TEXT_MAX];
    struct text out = text_open(text, sizeof text);
    (void)state;
    assert_true(estimate_reword(&out, "Without the step: about 1.1 cpm stiffer (estimate)"));
    assert_string_equal(text, "Ohne Schritt: etwa 1,1 cpm steifer (Sch\u00E4tzung)");
}

static void contexts_are_never_shown(void **state) {
    (void)state;
    assert_string_equal(verdict_words(VERDICT_IN), "drin");
    assert_string_equal(verdict_words(VERDICT_SHORT), "short"); // not translated here
    assert_string_equal(verdict_text(VERDICT_IN), "in");        // the log's word
    assert_string_equal(entry_kind_words(ENTRY_TIP_CUT), "Tipp geschnitten");
    assert_string_equal(cause_text("a word of an older version"), "a word of an older version");
    assert_string_equal(_(""), "");
}

// What has no words of its own is handed back as it is.
static void expect_words(const char *word) {
    char copy[32];
    snprintf(copy, sizeof copy, "%s", word);
    if (cause_text(copy) == copy) {
        fail_msg("no words for %s", word);
    }
}

static void every_word_of_the_log_has_words(void **state) {
    static const char *const pins[] = {"set", "recovered", "locked", "unlocked", "withdrawn"};
    (void)state;
    for (int i = 0; i < CONSENT_COUNT; i++) {
        expect_words(consent_text((enum consent)i));
    }
    for (int i = LENGTH_METHOD_UNKNOWN + 1; i < LENGTH_METHOD_COUNT; i++) {
        expect_words(length_method_text((enum length_method)i));
    }
    for (size_t i = 0; i < sizeof pins / sizeof pins[0]; i++) {
        expect_words(pins[i]);
    }
}

static void figures_and_days(void **state) {
    char text[64];
    struct text out = text_open(text, sizeof text);
    (void)state;
    text_add_decimal(&out, -1234.56, 1);
    text_add(&out, " ");
    text_add_mass(&out, 203500);
    assert_string_equal(text, "-1234,6 203,5 g");
    out = text_open(text, sizeof text);
    out.source = true;
    text_add_decimal(&out, 0.25, 2);
    assert_string_equal(text, "0.25");
    day_text(&(struct day){2026, 11, 30}, text, sizeof text);
    assert_string_equal(text, "30.11.2026");
    day_text_short(&(struct day){2026, 11, 3}, text, sizeof text);
    assert_string_equal(text, "3. Nov.");
    day_text_iso("2026-03-01", text, sizeof text);
    assert_string_equal(text, "01.03.2026");
    day_text_iso("soon", text, sizeof text);
    assert_string_equal(text, "soon");
    assert_ptr_equal(strstr(tongue_plural("one", "many", 0), "one"),
                     tongue_plural("one", "many", 0));
}

// Against the C library's own locales, LC_NUMERIC and LC_TIME of glibc's localedata (Debian's
// package locales): the decimal point, and the order and signs of d_fmt, where `//` stands for `/`.
static void as_the_c_library_has_them(void **state) {
    static const struct {
        const char *code;
        const char *locale;
    } rows[] = {{"es", "es_ES"}, {"de", "de_DE"}, {"fr", "fr_FR"}, {"ja", "ja_JP"}};
    static const char *const formats[] = {[TONGUE_DATES_POINTS] = "\"%d.%m.%Y\"",
                                          [TONGUE_DATES_SLASHES] = "\"%d//%m//%",
                                          [TONGUE_DATES_JAPANESE] =
                                              "\"%Y<U5E74>%m<U6708>%d<U65E5>\""};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        const struct language *language = language_named(rows[i].code);
        char path[64];
        char line[200];
        bool point = false;
        bool date = false;
        assert_non_null(language);
        snprintf(path, sizeof path, "/usr/share/i18n/locales/%s", rows[i].locale);
        FILE *file = fopen(path, "re");
        assert_non_null(file); // the package locales
        while (fgets(line, sizeof line, file) != NULL) {
            char sign[4] = {'"', language->decimal_point, '"', '\0'};
            point =
                point || (strncmp(line, "decimal_point", 13) == 0 && strstr(line, sign) != NULL);
            date = date || (strncmp(line, "d_fmt", 5) == 0 &&
                            strstr(line, formats[language->dates]) != NULL);
        }
        fclose(file);
        if (!point || !date) {
            fail_msg("%s: decimal point or date is another", rows[i].locale);
        }
    }
}

// glibc's localedata says how high paper is, or which locale to look into.
static int paper_height(const char *locale, int depth) {
    char path[64];
    char line[200];
    char other[32];
    bool inside = false;
    int height = 0;
    snprintf(path, sizeof path, "/usr/share/i18n/locales/%s", locale);
    FILE *file = fopen(path, "re");
    assert_non_null(file); // the package locales
    while (height == 0 && fgets(line, sizeof line, file) != NULL) {
        inside = strncmp(line, "LC_PAPER", 8) == 0 || (inside && strncmp(line, "END", 3) != 0);
        if (inside && sscanf(line, "height %d", &height) == 1) {
            break;
        }
        if (inside && depth < 5 && sscanf(line, "copy \"%31[^\"]\"", other) == 1) {
            height = paper_height(other, depth + 1);
        }
    }
    fclose(file);
    return height;
}

static void papers_are_those_of_the_territory(void **state) {
    static const char *const locales[] = {
        "en_US", "en_CA", "fr_CA", "es_MX", "es_US", "es_BO", "es_CL", "es_CO", "es_CR", "es_GT",
        "es_NI", "es_PA", "es_PR", "es_SV", "es_VE", "en_PH", "en_GB", "en_AU", "en_NZ", "en_IE",
        "en_ZA", "es_ES", "es_AR", "es_PE", "es_UY", "es_EC", "es_PY", "es_DO", "es_HN", "es_CU",
        "de_DE", "de_AT", "de_CH", "fr_FR", "fr_BE", "fr_CH", "ja_JP"};
    (void)state;
    for (size_t i = 0; i < sizeof locales / sizeof locales[0]; i++) {
        int height = paper_height(locales[i], 0);
        assert_true(height == 279 || height == 297);
        if (language_on_letter(locales[i]) != (height == 279)) {
            fail_msg("%s: paper is %d mm high", locales[i], height);
        }
    }
    assert_true(language_on_letter("es_MX.UTF-8") && language_on_letter("en_US"));
    assert_false(language_on_letter("C.UTF-8") || language_on_letter("en") ||
                 language_on_letter("") || language_on_letter("de_"));
}

static void languages_by_name(void **state) {
    (void)state;
    assert_string_equal(language_named("de_AT.UTF-8")->code, "de");
    assert_string_equal(language_named("ja")->code, "ja");
    assert_string_equal(language_named("fr:en")->code, "fr");
    assert_string_equal(language_named("C.UTF-8")->code, "en");
    assert_string_equal(language_named("POSIX")->code, "en");
    assert_null(language_named(""));
    assert_null(language_named("nl_NL"));
    assert_null(language_named("d"));
    assert_null(language_at(5));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_line_of_the_log_is_said_in_the_language, speak, hush),
        cmocka_unit_test_setup_teardown(every_line_comes_out_the_same_from_the_log, speak, hush),
        cmocka_unit_test_setup_teardown(what_is_no_line_of_today_stays, speak, hush),
        cmocka_unit_test_setup_teardown(an_estimate_is_said_whole, speak, hush),
        cmocka_unit_test_setup_teardown(contexts_are_never_shown, speak, hush),
        cmocka_unit_test(every_word_of_the_log_has_words),
        cmocka_unit_test_setup_teardown(figures_and_days, speak, hush),
        cmocka_unit_test(as_the_c_library_has_them),
        cmocka_unit_test(languages_by_name),
        cmocka_unit_test(papers_are_those_of_the_territory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
