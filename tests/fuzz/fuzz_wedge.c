#include "fuzz.h"
#include "wedge.h"

// Four bytes a key: code, flags, and the time since the last one in 256 us.

static void take(void *ctx, const struct wedge_output *output) {
    int *outputs = ctx;
    (*outputs)++;
    HOLDS(memchr(output->text, '\0', sizeof output->text) != NULL);
    HOLDS(memchr(output->aim, '\0', sizeof output->aim) != NULL);
    switch (output->kind) {
    case WEDGE_CODE:
    case WEDGE_LINE:
    case WEDGE_FAULT:
        HOLDS(output->text[0] != '\0' && output->key == '\0');
        break;
    case WEDGE_CHAR:
        HOLDS(output->text[0] == '\0');
        HOLDS(output->key == '\b' || output->key == '\t' ||
              (output->key >= ' ' && output->key <= '~'));
        break;
    case WEDGE_NOTHING:
        HOLDS(false);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static const char *const prefixes[] = {"", "~", "]", "AAAAAAA"};
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    struct wedge wedge;
    int64_t now = 0;
    int outputs = 0;
    uint8_t setting = size > 0 ? data[0] : 0;
    settings.dedicated = (setting & 1) != 0;
    settings.suffix_tab = (setting & 2) != 0;
    memcpy(settings.prefix, prefixes[setting >> 2 & 3], strlen(prefixes[setting >> 2 & 3]) + 1);
    wedge_init(&wedge, &settings);
    for (size_t i = 1; i + 4 <= size; i += 4) {
        struct wedge_key key = {.code = data[i], .down = (data[i + 1] & 1) != 0};
        now += ((int64_t)data[i + 2] << 8 | data[i + 3]) * 256 - (data[i + 1] & 2) * 100;
        key.time_us = now;
        outputs = 0;
        wedge_feed(&wedge, &key, take, &outputs);
        HOLDS(outputs <= WEDGE_TEXT_MAX);
        HOLDS(strlen(wedge_typed(&wedge)) < WEDGE_TEXT_MAX);
        HOLDS(!settings.dedicated || wedge_typed(&wedge)[0] == '\0');
    }
    wedge_tick(&wedge, now + 10000000, take, &outputs);
    HOLDS(wedge_deadline(&wedge) == -1);
    return 0;
}
