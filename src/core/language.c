#include "language.h"

#include <string.h>

// Decimal points and days: LC_NUMERIC and d_fmt of es_ES, de_DE, fr_FR and ja_JP in glibc 2.36
// (localedata/locales); English as the shops of this program write it since its first day, ISO
// 8601.
static const struct language languages[] = {
    {"en", '.', TONGUE_DATES_ISO, false, false},    {"es", ',', TONGUE_DATES_SLASHES, false, false},
    {"de", ',', TONGUE_DATES_POINTS, false, false}, {"fr", ',', TONGUE_DATES_SLASHES, false, false},
    {"ja", '.', TONGUE_DATES_JAPANESE, true, true},
};

const struct language *language_at(size_t index) {
    return index < sizeof languages / sizeof languages[0] ? &languages[index] : NULL;
}

const struct language *language_named(const char *name) {
    size_t size = strcspn(name, "_-.@:");
    if (strncmp(name, "C", size) == 0 || strncmp(name, "POSIX", size) == 0) {
        return size > 0 ? &languages[0] : NULL;
    }
    for (size_t i = 0; i < sizeof languages / sizeof languages[0]; i++) {
        if (strlen(languages[i].code) == size && strncmp(languages[i].code, name, size) == 0) {
            return &languages[i];
        }
    }
    return NULL;
}

bool language_on_letter(const char *locale) {
    static const char territories[][3] = {"BO", "CA", "CL", "CO", "CR", "GT", "MX",
                                          "NI", "PA", "PH", "PR", "SV", "US", "VE"};
    const char *territory = strchr(locale, '_');
    for (size_t i = 0; territory != NULL && i < sizeof territories / sizeof territories[0]; i++) {
        if (strncmp(territory + 1, territories[i], 2) == 0) {
            return true;
        }
    }
    return false;
}
