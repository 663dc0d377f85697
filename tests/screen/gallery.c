// Draws every fixture at one size and writes it as PNG: gallery FOLDER WIDTH HEIGHT

#include "screen.h"
#include "views.h"

#include <stdio.h>
#include <stdlib.h>

int main(int argc, char **argv) {
    struct screen_options options = {.windowed = true, .assets = KERFSIDE_SOURCE_DIR "/assets"};
    struct screen *screen;
    char message[4096];
    int found = 0;
    size_t fixture_count;
    const struct fixture *fixtures = views_all(&fixture_count);
    if (argc != 4) {
        fprintf(stderr, "usage: gallery FOLDER WIDTH HEIGHT\n");
        return 2;
    }
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    options.width = atoi(argv[2]);
    options.height = atoi(argv[3]);
    if (!screen_open(&options, &screen, message, sizeof message)) {
        fprintf(stderr, "%s\n", message);
        return 1;
    }
    for (size_t i = 0; i < fixture_count; i++) {
        static struct view view;
        char path[512];
        int count;
        fixtures[i].fill(&view);
        screen_draw(screen, &view);
        snprintf(path, sizeof path, "%s/%s-%sx%s.png", argv[1], fixtures[i].name, argv[2], argv[3]);
        screen_shot(screen, path);
        count = screen_problems(screen, message, sizeof message);
        if (count != 0) {
            printf("%s: %s\n", path, message);
        }
        found += count;
    }
    screen_close(screen);
    return found == 0 ? 0 : 1;
}
