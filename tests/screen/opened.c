#include "opened.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>

struct screen *opened_screen(struct screen_options options) {
    struct screen *screen = NULL;
    char message[256] = "";
    options.windowed = true;
    options.assets = KERFSIDE_SOURCE_DIR "/assets";
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    if (!screen_open(&options, &screen, message, sizeof message)) {
        fail_msg("%s", message);
    }
    return screen;
}
