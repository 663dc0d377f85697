#include "tongue.h"

#include <stddef.h>
#include <string.h>

const struct tongue tongue_english = {.decimal_point = '.', .dates = TONGUE_DATES_ISO};
static const struct tongue *now = &tongue_english;

void tongue_use(const struct tongue *tongue) {
    now = tongue != NULL ? tongue : &tongue_english;
}

const struct tongue *tongue_now(void) {
    return now;
}

static const char *plain(const char *text) {
    const char *context_end = strchr(text, '\004');
    return context_end != NULL ? context_end + 1 : text;
}

const char *tongue_text(const char *english) {
    if (now->text == NULL || english[0] == '\0') {
        return plain(english);
    }
    return plain(now->text(english));
}

const char *tongue_plural(const char *one, const char *many, unsigned long count) {
    if (now->plural == NULL) {
        return count == 1 ? one : many;
    }
    return now->plural(one, many, count);
}
