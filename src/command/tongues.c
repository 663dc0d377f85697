#include "tongues.h"

#include "assets.h"
#include "language.h"

#include <libintl.h>
#include <limits.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define DOMAIN "kerfside"
#define BUILT KERFSIDE_BINARY_DIR "/locale"

static const struct language *now; // NULL: English

static const char *text(const char *english) {
    return dgettext(DOMAIN, english);
}

static const char *plural(const char *one, const char *many, unsigned long count) {
    return dngettext(DOMAIN, one, many, count);
}

static bool choose(const struct language *language) {
    static struct tongue tongue;
    if (language->own_font && access(LANGUAGE_FONT, R_OK) != 0) {
        fprintf(stderr,
                "kerfside: the font for the language %s is missing; texts are English. Install it: "
                "apt-get install fonts-ipaexfont-gothic\n",
                language->code);
        tongue_use(NULL);
        now = NULL;
        return false;
    }
    tongue = (struct tongue){.text = text,
                             .plural = plural,
                             .decimal_point = language->decimal_point,
                             .dates = language->dates};
    // glibc takes LANGUAGE for any locale but C, and this one is there without locales made.
    setlocale(LC_MESSAGES, "C.UTF-8");
    setenv("LANGUAGE", language->code, 1);
    char installed[PATH_MAX];
    bindtextdomain(DOMAIN, assets_locale(installed, sizeof installed) ? installed : BUILT);
    bind_textdomain_codeset(DOMAIN, "UTF-8");
    bind_textdomain_codeset("libc", "UTF-8"); // what strerror says; else ? for what is not ASCII
    tongue_use(language == language_at(0) ? NULL : &tongue);
    now = language;
    return true;
}

void tongues_begin(void) {
    static const char *const names[] = {"LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"};
    const struct language *language = NULL;
    for (size_t i = 0; i < sizeof names / sizeof names[0] && language == NULL; i++) {
        const char *value = getenv(names[i]);
        language = value != NULL ? language_named(value) : NULL;
    }
    choose(language != NULL ? language : language_at(0));
}

bool tongues_use(unsigned setting) {
    return setting == 0 || choose(language_at(setting - 1));
}

const char *tongues_code(void) {
    return now != NULL ? now->code : language_at(0)->code;
}
