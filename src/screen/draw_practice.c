// What tells practice from work on every view: a broad hatched frame round everything, the word in
// the header and on the mark's panel, and above the view what the lesson says.

#include "pen.h"

#include <stdio.h>

#define FRAME 26  // design pixels
#define STRIPE 34 // of one colour and the next, along the frame
#define CAPTION 150
#define CAPTION_UPRIGHT 340
#define BUTTON 230

static Uint32 pixel(SDL_Color colour) {
    return 0xFFu << 24 | (Uint32)colour.r << 16 | (Uint32)colour.g << 8 | colour.b;
}

static SDL_Surface *paint(const struct screen *screen, int width, int height) {
    SDL_Surface *surface =
        SDL_CreateRGBSurfaceWithFormat(0, width, height, 32, SDL_PIXELFORMAT_ARGB8888);
    Uint32 one = pixel(screen->theme->caution.fill);
    Uint32 other = pixel(screen->theme->dark);
    int stripe = px(screen, STRIPE);
    for (int y = 0; surface != NULL && y < height; y++) {
        Uint32 *row = (Uint32 *)(void *)((Uint8 *)surface->pixels + y * surface->pitch);
        for (int x = 0; x < width; x++) {
            row[x] = (x + y) / stripe % 2 == 0 ? one : other;
        }
    }
    return surface;
}

static void hatch(struct screen *screen, SDL_Rect box) {
    char key[48];
    if (screen->dry) {
        return;
    }
    snprintf(key, sizeof key, "hatch %dx%d", box.w, box.h);
    SDL_Texture *texture = images_find(screen, key, NULL);
    if (texture == NULL) {
        texture = images_keep(screen, key, paint(screen, box.w, box.h));
    }
    if (texture != NULL) {
        SDL_RenderCopy(screen->renderer, texture, NULL, &box);
    }
}

void practice_frame(struct screen *screen, SDL_Rect *all, const struct view *view) {
    int size = px(screen, FRAME);
    if (view->lesson.word[0] == '\0') {
        return;
    }
    hatch(screen, cut_top(all, size));
    hatch(screen, cut_bottom(all, size));
    hatch(screen, cut_left(all, size));
    hatch(screen, cut_right(all, size));
    screen->page = (SDL_Point){all->w, all->h};
}

void practice_word(struct screen *screen, SDL_Rect box, const struct view *view, bool right) {
    const char *word = view->lesson.word;
    struct theme_tone tone = screen->theme->caution;
    struct style style = {.face = FACE_BOLD,
                          .size = 36,
                          .floor = FLOOR_BENCH,
                          .colour = tone.text,
                          .align = ALIGN_CENTRE,
                          .one_line = true};
    if (word[0] == '\0') {
        return;
    }
    int width = practice_word_width(screen, view);
    SDL_Rect panel = right ? cut_right(&box, width) : cut_left(&box, width);
    int height = panel.h < px(screen, 52) ? panel.h : px(screen, 52);
    panel.y += (panel.h - height) / 2;
    panel.h = height;
    pen_panel(screen, panel, tone.fill, tone.fill, 0);
    pen_text(screen, panel, &style, word);
}

int practice_word_width(struct screen *screen, const struct view *view) {
    struct style style = {.face = FACE_BOLD, .size = 36, .floor = FLOOR_BENCH};
    return view->lesson.word[0] == '\0'
               ? 0
               : pen_width(screen, &style, view->lesson.word) + px(screen, 28);
}

bool lesson_action(const struct view_action *action) {
    return action->id == ACTION_LESSON_SCAN || action->id == ACTION_LESSON_NEXT ||
           action->id == ACTION_LESSON_BACK || action->id == ACTION_LESSON_LIST ||
           action->id == ACTION_LESSON_END;
}

static int count_buttons(const struct view *view) {
    int count = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        count += lesson_action(&view->action[i]) ? 1 : 0;
    }
    return count;
}

static void draw_buttons(struct screen *screen, SDL_Rect box, const struct view *view, int count) {
    int at = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        if (lesson_action(&view->action[i])) {
            SDL_Rect cell = cell_across(box, count, at++, px(screen, 14));
            button_draw(screen, cell, &view->action[i]);
        }
    }
}

static void draw_text(struct screen *screen, SDL_Rect box, const struct view_lesson *lesson) {
    struct flow flow = {.floor = FLOOR_BENCH};
    flow_add(&flow, (struct flow_line){.text = lesson->title,
                                       .face = FACE_BOLD,
                                       .size = 34,
                                       .colour = screen->theme->ink,
                                       .bullet = lesson->done ? BULLET_SIGN : BULLET_NONE,
                                       .tone = TONE_FINE});
    flow_add(&flow, (struct flow_line){.text = lesson->text,
                                       .face = FACE_REGULAR,
                                       .size = 31,
                                       .colour = screen->theme->ink,
                                       .before = 4});
    flow_draw(screen, box, &flow);
}

// What is left is laid out as a window of that size would be, header and all.
void practice_caption(struct screen *screen, SDL_Rect *all, const struct view *view) {
    struct theme_tone tone = screen->theme->caution;
    int buttons = count_buttons(view);
    int header = px(screen, screen->portrait ? 132 : 88);
    if (view->lesson.title[0] == '\0') {
        return;
    }
    int margin = px(screen, 16);
    SDL_Rect box = cut_top(all, px(screen, screen->portrait ? CAPTION_UPRIGHT : CAPTION) + margin);
    int page = all->h + header;
    cut_top(&box, margin);
    cut_left(&box, 2 * margin);
    cut_right(&box, 2 * margin);
    pen_panel(screen, box, tone.pale, tone.line, px(screen, 3));
    box = inset(box, px(screen, 14));
    if (buttons > 0) {
        SDL_Rect side = screen->portrait ? cut_bottom(&box, touch_size(screen, 96))
                                         : cut_right(&box, buttons * px(screen, BUTTON));
        if (!screen->portrait) {
            int height = touch_size(screen, 96);
            side.y += (side.h - height) / 2;
            side.h = height;
            cut_right(&box, px(screen, 20));
        }
        draw_buttons(screen, side, view, buttons);
    }
    draw_text(screen, box, &view->lesson);
    screen->page = (SDL_Point){all->w, page};
}
