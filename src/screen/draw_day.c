// A day for someone sitting: its figures, and beside them what is to be said of its signature, with
// the note as a code when there is one.

#include "pen.h"

#define QUIET 4 // modules around a code (ISO/IEC 18004; from memory)

static void draw_facts(struct screen *screen, SDL_Rect box, const struct view_day *day) {
    struct flow flow = {.floor = FLOOR_DESK};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    for (size_t i = 0; i < day->fact_count; i++) {
        flow_add(&flow, (struct flow_line){.text = day->fact[i].name,
                                           .right = day->fact[i].value,
                                           .face = FACE_REGULAR,
                                           .size = 34,
                                           .colour = screen->theme->ink,
                                           .before = i == 0 ? 0 : 16,
                                           .rule = i > 0});
    }
    flow_draw(screen, inset(box, px(screen, 30)), &flow);
}

static void draw_code(struct screen *screen, SDL_Rect box, const struct view_code *code) {
    int side = box.w < box.h ? box.w : box.h;
    int module = side / (code->side + 2 * QUIET);
    SDL_Rect paper = {0, 0, module * (code->side + 2 * QUIET), module * (code->side + 2 * QUIET)};
    paper.x = box.x + (box.w - paper.w) / 2;
    paper.y = box.y + (box.h - paper.h) / 2;
    pen_fill(screen, paper, screen->theme->panel);
    for (int y = 0; y < code->side; y++) {
        for (int x = 0; x < code->side; x++) {
            int first = x;
            while (x < code->side && code->dark[y][x]) {
                x++;
            }
            if (x > first) {
                pen_fill(screen,
                         (SDL_Rect){paper.x + (QUIET + first) * module,
                                    paper.y + (QUIET + y) * module, (x - first) * module, module},
                         screen->theme->ink);
            }
        }
    }
}

static void draw_verdict(struct screen *screen, SDL_Rect box, const struct view_day *day) {
    struct flow flow = {.floor = FLOOR_DESK};
    struct style brief = {.face = FACE_MONO_BOLD,
                          .size = 30,
                          .floor = FLOOR_DESK,
                          .colour = screen->theme->ink,
                          .align = ALIGN_CENTRE,
                          .one_line = true};
    bool plain = day->tone == TONE_PLAIN;
    pen_panel(screen, box, plain ? screen->theme->panel : theme_tone(screen->theme, day->tone).pale,
              plain ? screen->theme->line : theme_tone(screen->theme, day->tone).line,
              px(screen, 4));
    box = inset(box, px(screen, 28));
    if (day->code.side > 0) {
        SDL_Rect code = cut_bottom(&box, box.h * 64 / 100);
        if (day->brief[0] != '\0') {
            pen_text(screen, cut_bottom(&code, px(screen, 48)), &brief, day->brief);
        }
        draw_code(screen, code, &day->code);
        cut_bottom(&box, px(screen, 10));
    } else if (day->brief[0] != '\0') {
        pen_text(screen, cut_bottom(&box, px(screen, 60)), &brief, day->brief);
    }
    flow_add(&flow, (struct flow_line){.text = day->verdict,
                                       .face = FACE_BOLD,
                                       .size = 42,
                                       .colour = screen->theme->ink,
                                       .bullet = plain ? BULLET_NONE : BULLET_SIGN,
                                       .tone = day->tone});
    for (size_t i = 0; i < day->line_count; i++) {
        flow_add(&flow, (struct flow_line){.text = day->line[i],
                                           .face = FACE_REGULAR,
                                           .size = 30,
                                           .colour = screen->theme->ink,
                                           .before = 14});
    }
    flow_draw(screen, box, &flow);
}

void draw_day(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_day *day = &view->day;
    struct style title = {
        .face = FACE_BOLD, .size = 50, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct style line = {
        .face = FACE_REGULAR, .size = 34, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    SDL_Rect head = cut_top(&body, px(screen, 70));
    int gap = px(screen, 18);
    pen_text(screen, cut_left(&head, pen_width(screen, &title, day->title) + px(screen, 30)),
             &title, day->title);
    pen_text(screen, head, &line, day->subtitle);
    cut_top(&body, px(screen, 8));
    buttons_draw(screen, &body, view, band_action);
    SDL_Rect facts = screen->portrait ? cut_top(&body, body.h * 34 / 100)
                                      : cut_off_hand(screen, &body, body.w * 40 / 100);
    if (screen->portrait) {
        cut_top(&body, gap);
    } else {
        cut_off_hand(screen, &body, gap);
    }
    draw_facts(screen, facts, day);
    draw_verdict(screen, body, day);
}
