// A form: labelled fields on the left, what may stand in the active one and what follows from all
// of them on the right; letters and digits to be touched below when they are asked for.

#include "pen.h"

#include <stdio.h>
#include <string.h>

#define ROW_LEAST 42 // a field that can be read and touched by someone sitting
#define ROW_MOST 62
#define TEXT_LEAST FLOOR_DESK

// --- fields --------------------------------------------------------------------------------------

// Which fields are on the screen: all of them in one column, in two, or those around the active
// one.
struct grid {
    int columns;
    int rows;
    int first;
    int gap;
    bool part; // there are more
};

static struct grid grid_of(const struct screen *screen, SDL_Rect box,
                           const struct view_form *form) {
    int count = (int)form->field_count;
    struct grid grid = {.columns = 1, .gap = px(screen, 10)};
    int fit = (box.h + grid.gap) / (px(screen, ROW_LEAST) + grid.gap);
    fit = fit > 1 ? fit : 1;
    if (count > fit) {
        grid.columns = 2;
        grid.gap = px(screen, 6);
        fit = (box.h + grid.gap) / (px(screen, ROW_LEAST) + grid.gap);
        fit = fit > 1 ? fit : 1;
    }
    grid.rows = (count + grid.columns - 1) / grid.columns;
    if (grid.rows > fit) {
        grid.rows = fit > 2 ? fit - 1 : 1; // a line says which
        grid.part = true;
        grid.first = form->active / (grid.rows * grid.columns) * grid.rows * grid.columns;
    }
    return grid;
}

// As much of a text as one line takes at the least size: its end while it is typed, else its
// beginning.
static const char *shortened(struct screen *screen, const struct style *style, const char *text,
                             int width, bool end, char *buffer, size_t size) {
    struct style least = *style;
    size_t length = strlen(text);
    least.size = TEXT_LEAST;
    if (pen_width(screen, &least, text) <= width) {
        return text;
    }
    for (size_t cut = 1; cut < length; cut++) {
        const char *from = end ? text + cut : text;
        size_t left = length - cut;
        if (((unsigned char)(end ? from[0] : from[left]) & 0xC0) == 0x80) {
            continue; // in the middle of a character
        }
        snprintf(buffer, size, end ? "…%.*s" : "%.*s…", (int)left, from);
        if (pen_width(screen, &least, buffer) <= width) {
            break;
        }
    }
    return buffer;
}

static void draw_text(struct screen *screen, SDL_Rect box, const struct view_form *form, int at) {
    bool active = at == form->active;
    bool fixed = form->field[at].fixed;
    char buffer[VIEW_TEXT_MAX + 8];
    struct style style = {.face = form->field[at].changed ? FACE_BOLD : FACE_REGULAR,
                          .size = 32,
                          .floor = TEXT_LEAST,
                          .colour = fixed ? screen->theme->soft : screen->theme->ink,
                          .one_line = true};
    SDL_Rect inner = inset(box, px(screen, 6));
    SDL_Color fill = fixed ? screen->theme->ground : screen->theme->panel;
    bool wrong = form->field[at].tone == TONE_STOP;
    pen_panel(screen, box, wrong ? screen->theme->stop.pale : fill,
              wrong    ? screen->theme->stop.fill
              : active ? screen->theme->work.fill
                       : screen->theme->line,
              px(screen, active || wrong ? 4 : 2));
    cut_left(&inner, px(screen, 6));
    if (wrong) {
        int size = inner.h < px(screen, 36) ? inner.h : px(screen, 36);
        SDL_Rect sign = cut_right(&inner, size);
        pen_sign(screen, (SDL_Rect){sign.x, sign.y + (sign.h - size) / 2, size, size}, TONE_STOP);
    }
    int room = inner.w - px(screen, 10); // for the cursor
    const char *text = shortened(screen, &style, form->field[at].text, room,
                                 active && !form->field[at].selected, buffer, sizeof buffer);
    int width = pen_width(screen, &style, text);
    if (active && form->field[at].selected && text[0] != '\0') {
        SDL_Rect behind = inner;
        behind.w = width + px(screen, 8) < inner.w ? width + px(screen, 8) : inner.w;
        pen_fill(screen, behind, screen->theme->work.pale);
    }
    pen_text(screen, (SDL_Rect){inner.x, inner.y, room, inner.h}, &style, text);
    if (active && !form->field[at].selected) {
        int x = inner.x + (width < room ? width : room);
        pen_fill(screen, (SDL_Rect){x + px(screen, 3), inner.y, px(screen, 4), inner.h},
                 screen->theme->work.fill);
    }
}

static void draw_field(struct screen *screen, SDL_Rect box, const struct view_form *form, int at,
                       bool units) {
    struct style label = {.face = FACE_REGULAR,
                          .size = 26,
                          .floor = TEXT_LEAST,
                          .colour = screen->theme->soft,
                          .align = ALIGN_RIGHT};
    struct style unit = {
        .face = FACE_REGULAR, .size = 22, .floor = TEXT_LEAST, .colour = screen->theme->soft};
    SDL_Rect left = cut_left(&box, box.w * (units ? 30 : 36) / 100);
    cut_right(&left, px(screen, 12));
    pen_text(screen, left, &label, form->field[at].label);
    if (units) {
        SDL_Rect right = cut_right(&box, box.w * 30 / 100);
        cut_left(&right, px(screen, 12));
        pen_text(screen, right, &unit, form->field[at].unit);
    }
    if (!form->field[at].fixed) {
        touch_add(screen, box, ACTION_FIELD, at);
    }
    draw_text(screen, box, form, at);
}

// Two columns leave no room for units: that of the active field stands at the side.
static bool units_beside(const struct grid *grid) {
    return grid->columns == 1;
}

static void draw_fields(struct screen *screen, SDL_Rect box, const struct view_form *form,
                        const struct grid *grid) {
    int count = (int)form->field_count - grid->first;
    int most = px(screen, ROW_MOST) * grid->rows + grid->gap * (grid->rows - 1);
    if (grid->part) {
        struct style style = {.face = FACE_REGULAR,
                              .size = 24,
                              .floor = TEXT_LEAST,
                              .colour = screen->theme->soft,
                              .align = ALIGN_CENTRE};
        char words[48];
        int shown = grid->rows * grid->columns;
        count = count < shown ? count : shown;
        snprintf(words, sizeof words, "%d – %d / %zu", grid->first + 1, grid->first + count,
                 form->field_count);
        pen_text(screen, cut_bottom(&box, px(screen, 32)), &style, words);
    }
    box.h = box.h < most ? box.h : most;
    for (int i = 0; i < count; i++) {
        SDL_Rect column = cell_across(box, grid->columns, i / grid->rows, px(screen, 20));
        draw_field(screen, cell_down(column, grid->rows, i % grid->rows, grid->gap), form,
                   grid->first + i, units_beside(grid));
    }
}

// --- side ----------------------------------------------------------------------------------------

// Three beside each other when there are many, and short.
static int choices_across(struct screen *screen, const struct style *style, int width,
                          const struct view_form *form) {
    struct style least = *style;
    least.size = 20;
    for (size_t i = 0; i < form->choice_count; i++) {
        if (pen_width(screen, &least, form->choice[i]) > width / 3 - px(screen, 32)) {
            return 2;
        }
    }
    return form->choice_count > 4 ? 3 : 2;
}

static void draw_choices(struct screen *screen, SDL_Rect *side, const struct view_form *form) {
    struct style style = {.face = FACE_BOLD,
                          .size = 28,
                          .floor = TEXT_LEAST,
                          .colour = screen->theme->ink,
                          .align = ALIGN_CENTRE};
    int count = (int)form->choice_count;
    int across = choices_across(screen, &style, side->w, form);
    int rows = (count + across - 1) / across;
    int gap = px(screen, 10);
    if (count == 0) {
        return;
    }
    int height = rows * px(screen, 54) + (rows - 1) * gap;
    int most = form->note_count > 0 ? side->h * 62 / 100 : side->h; // some room for notes
    SDL_Rect area = cut_top(side, height < most ? height : most);
    cut_top(side, px(screen, 18));
    for (int i = 0; i < count; i++) {
        SDL_Rect box = cell_across(cell_down(area, rows, i / across, gap), across, i % across, gap);
        bool now = strcmp(form->choice[i], form->field[form->active].text) == 0;
        pen_panel(screen, box, now ? screen->theme->work.pale : screen->theme->ground,
                  now ? screen->theme->work.fill : screen->theme->soft, px(screen, now ? 4 : 2));
        touch_add(screen, box, ACTION_CHOICE, i);
        pen_text(screen, inset(box, px(screen, 4)), &style, form->choice[i]);
    }
}

static struct flow notes_flow(const struct screen *screen, const struct view_form *form,
                              size_t count) {
    struct flow flow = {.floor = TEXT_LEAST};
    for (size_t i = 0; i < count; i++) {
        enum view_tone tone = form->note_tone[i];
        flow_add(&flow, (struct flow_line){.text = form->note[i],
                                           .face = tone == TONE_STOP ? FACE_BOLD : FACE_REGULAR,
                                           .size = 28,
                                           .colour = screen->theme->ink,
                                           .before = i == 0 ? 0 : 8,
                                           .bullet = tone == TONE_PLAIN ? BULLET_NONE : BULLET_SIGN,
                                           .tone = tone});
    }
    return flow;
}

// What matters most stands first: what there is no room for is counted.
static void draw_notes(struct screen *screen, SDL_Rect box, const struct view_form *form) {
    struct flow flow = notes_flow(screen, form, form->note_count);
    size_t shown = form->note_count;
    SDL_Rect rest = {0};
    while (shown > 1 && flow_scale(screen, box, &flow) == 0) {
        if (rest.h == 0) {
            rest = cut_bottom(&box, px(screen, 30));
        }
        flow = notes_flow(screen, form, --shown);
    }
    flow_draw(screen, box, &flow);
    if (shown < form->note_count) {
        struct style style = {.face = FACE_BOLD,
                              .size = 24,
                              .floor = TEXT_LEAST,
                              .colour = screen->theme->soft,
                              .align = ALIGN_RIGHT};
        char words[32];
        snprintf(words, sizeof words, "+%zu", form->note_count - shown);
        pen_text(screen, rest, &style, words);
    }
}

static void draw_side(struct screen *screen, SDL_Rect box, const struct view_form *form,
                      const struct grid *grid) {
    const char *unit = form->active < (int)form->field_count ? form->field[form->active].unit : "";
    struct style style = {
        .face = FACE_REGULAR, .size = 24, .floor = TEXT_LEAST, .colour = screen->theme->soft};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 20));
    if (!units_beside(grid) && unit[0] != '\0') {
        pen_text(screen, cut_top(&box, px(screen, 36)), &style, unit);
        cut_top(&box, px(screen, 8));
    }
    draw_choices(screen, &box, form);
    if (form->plot_count > 0) {
        SDL_Rect plots = cut_bottom(&box, box.h * 45 / 100);
        cut_bottom(&box, px(screen, 12));
        for (size_t i = 0; i < form->plot_count; i++) {
            plot_draw(screen, cell_across(plots, (int)form->plot_count, (int)i, px(screen, 14)),
                      &form->plot[i]);
        }
    }
    draw_notes(screen, box, form);
}

// --- keys ----------------------------------------------------------------------------------------

// The US layout, since that is what scanners and the typed fields go by.
static void draw_keys(struct screen *screen, SDL_Rect box) {
    static const char *const rows[] = {"1234567890-", "QWERTYUIOP/", "ASDFGHJKL.,", "ZXCVBNM \b\n"};
    struct style style = {.face = FACE_BOLD,
                          .size = 34,
                          .floor = FLOOR_DESK,
                          .colour = screen->theme->ink,
                          .align = ALIGN_CENTRE};
    for (int row = 0; row < 4; row++) {
        SDL_Rect line = cell_down(box, 4, row, px(screen, 8));
        int count = (int)strlen(rows[row]);
        for (int i = 0; i < count; i++) {
            char text[2] = {rows[row][i], '\0'};
            SDL_Rect key = cell_across(line, count, i, px(screen, 8));
            const char *label = text[0] == '\b'   ? "<"
                                : text[0] == '\n' ? "OK"
                                : text[0] == ' '  ? "_"
                                                  : text;
            pen_panel(screen, key, screen->theme->panel, screen->theme->soft, px(screen, 2));
            touch_add(screen, key, ACTION_KEY, text[0]);
            pen_text(screen, key, &style, label);
        }
    }
}

void draw_form(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_form *form = &view->form;
    struct style title = {
        .face = FACE_BOLD, .size = 50, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct style line = {
        .face = FACE_REGULAR, .size = 34, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    SDL_Rect head = cut_top(&body, px(screen, 70));
    pen_text(screen, cut_left(&head, pen_width(screen, &title, form->title) + px(screen, 30)),
             &title, form->title);
    pen_text(screen, head, &line, form->subtitle);
    cut_top(&body, px(screen, 8));
    buttons_draw(screen, &body, view, band_action);
    if (form->keys) {
        draw_keys(screen, cut_bottom(&body, px(screen, screen->portrait ? 380 : 280)));
        cut_bottom(&body, px(screen, 16));
    }
    SDL_Rect side = screen->portrait ? cut_bottom(&body, body.h * 42 / 100)
                                     : cut_hand(screen, &body, body.w * 36 / 100);
    if (screen->portrait) {
        cut_bottom(&body, px(screen, 18));
    } else {
        cut_hand(screen, &body, px(screen, 20));
    }
    struct grid grid = grid_of(screen, body, form);
    draw_fields(screen, body, form, &grid);
    draw_side(screen, side, form, &grid);
}
