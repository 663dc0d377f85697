#include "pen.h"
#include "screen_inner.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// Without this SDL loads a whole OpenGL just to show a software frame; on drivers without a plain
// framebuffer the same hint would leave no renderer at all.
static void prefer_plain_framebuffer(void) {
    const char *driver = SDL_GetCurrentVideoDriver();
    if (driver != NULL && (strcmp(driver, "x11") == 0 || strcmp(driver, "dummy") == 0 ||
                           strcmp(driver, "offscreen") == 0)) {
        SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    }
}

// Full screen from the start: with no window manager nobody would move the window there.
static SDL_Rect window_place(const struct screen_options *options) {
    SDL_Rect place = {SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED,
                      options->width > 0 ? options->width : 1280,
                      options->height > 0 ? options->height : 720};
    if (!options->windowed) {
        SDL_GetDisplayBounds(0, &place);
    }
    return place;
}

static bool open_window(struct screen *screen, const struct screen_options *options, char *message,
                        size_t size) {
    SDL_Rect place;
    Uint32 flags = SDL_WINDOW_ALLOW_HIGHDPI;
    flags |= options->windowed ? SDL_WINDOW_RESIZABLE : SDL_WINDOW_FULLSCREEN_DESKTOP;
    SDL_SetHint(SDL_HINT_NO_SIGNAL_HANDLERS, "1");
    SDL_SetHint(SDL_HINT_VIDEO_ALLOW_SCREENSAVER, "0");
    SDL_SetHint(SDL_HINT_APP_NAME, "Kerfside");
    if (SDL_Init(SDL_INIT_VIDEO) != 0) {
        snprintf(message, size,
                 "Cannot open a display: %s. Start it on a desktop, or set "
                 "SDL_VIDEODRIVER=dummy to run without one.",
                 SDL_GetError());
        return false;
    }
    prefer_plain_framebuffer();
    place = window_place(options);
    screen->window = SDL_CreateWindow("Kerfside", place.x, place.y, place.w, place.h, flags);
    if (screen->window != NULL) {
        screen->renderer = SDL_CreateRenderer(screen->window, -1, SDL_RENDERER_SOFTWARE);
    }
    if (screen->renderer == NULL) {
        snprintf(message, size, "Cannot open a window: %s.", SDL_GetError());
        return false;
    }
    SDL_StopTextInput();
    SDL_ShowCursor(SDL_DISABLE);
    screen->wake_event = SDL_RegisterEvents(1);
    key_times_begin(screen);
    return true;
}

bool screen_open(const struct screen_options *options, struct screen **ret_screen, char *message,
                 size_t size) {
    struct screen *screen = calloc(1, sizeof *screen);
    if (screen == NULL || !images_init(screen)) {
        snprintf(message, size, "Not enough memory for the window.");
        free(screen);
        return false;
    }
    screen->distance_mm = options->distance_mm > 0 ? options->distance_mm : SCREEN_DISTANCE_MM;
    screen->diagonal_mm = options->diagonal_mm > 0 ? options->diagonal_mm : SCREEN_DIAGONAL_MM;
    screen->mirrored = options->mirrored;
    screen->theme = theme_named(options->theme);
    screen->volume = options->volume;
    screen->button_code = options->button_code;
    if (!open_window(screen, options, message, size) ||
        !fonts_init(screen, options->assets, message, size)) {
        screen_close(screen);
        return false;
    }
    *ret_screen = screen;
    return true;
}

void screen_close(struct screen *screen) {
    if (screen == NULL) {
        return;
    }
    key_times_end();
    sound_close(screen);
    images_destroy(screen);
    fonts_destroy(screen);
    if (screen->renderer != NULL) {
        SDL_DestroyRenderer(screen->renderer);
    }
    if (screen->window != NULL) {
        SDL_DestroyWindow(screen->window);
    }
    SDL_Quit();
    free(screen);
}

void screen_size(struct screen *screen, int *ret_width, int *ret_height) {
    SDL_GetRendererOutputSize(screen->renderer, ret_width, ret_height);
}

void screen_wake(struct screen *screen) {
    SDL_Event event = {.type = screen->wake_event};
    SDL_PushEvent(&event);
}

bool screen_shot(struct screen *screen, const char *path) {
    int pitch = screen->width * 3;
    void *pixels = malloc((size_t)pitch * (size_t)screen->height);
    bool written =
        pixels != NULL &&
        SDL_RenderReadPixels(screen->renderer, NULL, SDL_PIXELFORMAT_RGB24, pixels, pitch) == 0 &&
        png_write(path, pixels, screen->width, screen->height, pitch);
    free(pixels);
    return written;
}

void screen_tell(const struct screen *screen, struct screen_facts *ret_facts) {
    const char *driver = SDL_GetCurrentVideoDriver();
    struct screen_facts facts = {.driver = driver == NULL ? "" : driver,
                                 .mute = screen->audio_failed,
                                 .played = screen->audio_played};
    SDL_DisplayMode mode;
    int display = SDL_GetWindowDisplayIndex(screen->window);
    SDL_GetRendererOutputSize(screen->renderer, &facts.width, &facts.height);
    if (display >= 0 && SDL_GetCurrentDisplayMode(display, &mode) == 0) {
        facts.hertz = mode.refresh_rate;
    }
    *ret_facts = facts;
}
