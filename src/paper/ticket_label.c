#include "ticket_label.h"
#include "ticket_code.h"
#include "ticket_wrap.h"

#include <math.h>

#define MM (72 / 25.4)
#define PAD (1.1 * MM)    // between the border and letters or bars
#define BORDER 0.4        // thickness
#define BARS_LEAST 0.2499 // millimetres a module
#define BARS_MOST 0.51
#define QR_MOST 0.7
#define WORDS_MOST 11.0 // points
#define WORDS_LEAST 2.5
#define WORDS_STEP 0.25
#define PITCH 1.25
#define TAIL 0.16 // of a Q below the line, of the height of capitals
#define BOXES_MAX (TICKET_CODE_ROWS_MAX * (TICKET_CODE_ROWS_MAX + 1) / 2)
// A printer may blacken each dot a bar as much as touches, and the page knows places to 1/256 point
// only: each bar keeps off its neighbours by this part of a dot.
#define BAR_INSET 0.05

struct drawing {
    struct page *page;
    double dot;
    struct page_box inner; // of the border
    const struct ticket_label *label;
    struct ticket_code bars;
    struct ticket_code qr;
};

// Width of `modules` in whole dots a module, as wide as there is room for up to `most` millimetres.
// 0: none is as wide as BARS_LEAST.
static double module_width(const struct drawing *drawing, int modules, double room, double most) {
    double dots = floor(fmin(room / modules, most * MM) / drawing->dot + 1e-6);
    return dots * drawing->dot >= BARS_LEAST * MM ? dots * drawing->dot : 0;
}

static double snap(const struct drawing *drawing, double place) {
    return round(place / drawing->dot) * drawing->dot;
}

static int bars_modules(const struct drawing *drawing) {
    return drawing->bars.width + 2 * TICKET_CODE_QUIET_BARS;
}

static int qr_modules(const struct drawing *drawing) {
    return drawing->qr.width + 2 * TICKET_CODE_QUIET_QR;
}

// --- codes -------------------------------------------------------------------------------------

static void draw_code(const struct drawing *drawing, const struct ticket_code *code, double left,
                      double top, double module, double height) {
    struct page_box boxes[BOXES_MAX];
    size_t count = 0;
    double inset = code->rows == 1 ? BAR_INSET * drawing->dot : 0;
    left = snap(drawing, left);
    top = snap(drawing, top);
    for (int y = 0; y < code->rows; y++) {
        for (int x = 0; x < code->width; x++) {
            int first = x;
            while (x < code->width && code->dark[y][x]) {
                x++;
            }
            if (x > first) {
                boxes[count++] = (struct page_box){left + first * module + inset, top + y * module,
                                                   (x - first) * module - 2 * inset, height};
            }
        }
    }
    page_fill_all(drawing->page, boxes, count);
}

// The quiet zone begins at `left`.
static void draw_bars(const struct drawing *drawing, double left, double top, double module,
                      double height) {
    draw_code(drawing, &drawing->bars, left + TICKET_CODE_QUIET_BARS * module, top, module, height);
}

static void draw_qr(const struct drawing *drawing, double left, double top, double module) {
    draw_code(drawing, &drawing->qr, left + TICKET_CODE_QUIET_QR * module,
              top + TICKET_CODE_QUIET_QR * module, module, module);
}

// --- words -------------------------------------------------------------------------------------

static const char *large(const struct ticket_label *label) {
    return label->title[0] != '\0' ? label->title : label->ticket;
}

static void draw_number(const struct drawing *drawing, double top, double cap) {
    double size = cap / PAGE_CAP(1.0);
    double width = page_width(drawing->page, PAGE_BOLD, size, large(drawing->label));
    size *= fmin(1, (drawing->inner.width - 2 * PAD) / width);
    page_text(drawing->page, PAGE_BOLD, size, PAGE_LEFT, drawing->inner.x + PAD,
              top + (cap + PAGE_CAP(size)) / 2, large(drawing->label));
}

struct words {
    const struct drawing *drawing;
    struct page_box box;
    double size;
    enum page_font font;
    size_t line;
};

static void draw_line(void *of, size_t index, const char *words) {
    const struct words *at = of;
    double y = at->box.y + at->size * PITCH * (double)(at->line + index);
    page_text(at->drawing->page, at->font, at->size, PAGE_LEFT, at->box.x, y + PAGE_CAP(at->size),
              words);
}

// Writes the words at at->size, or only counts their lines.
static size_t write_words(struct words *at, void (*each)(void *of, size_t index, const char *)) {
    at->line = 0;
    for (int i = 0; i < TICKET_LABEL_LINES && at->drawing->label->words[i][0] != '\0'; i++) {
        at->font = i == 0 ? PAGE_BOLD : PAGE_REGULAR;
        at->line += page_wrap(at->drawing->page, at->font, at->size, at->box.width,
                              at->drawing->label->words[i], each, at);
    }
    return at->line;
}

static void draw_words(const struct drawing *drawing, const struct page_box *box) {
    struct words at = {.drawing = drawing, .box = *box, .size = WORDS_MOST};
    while (at.size > WORDS_LEAST &&
           (double)write_words(&at, NULL) * at.size * PITCH > box->height) {
        at.size -= WORDS_STEP;
    }
    write_words(&at, draw_line);
}

// --- designs -----------------------------------------------------------------------------------

static bool draw_flat(const struct drawing *drawing) {
    const struct page_box *inner = &drawing->inner;
    double cap = 0.16 * inner->height;
    double qr = module_width(drawing, qr_modules(drawing), 0.5 * inner->height, QR_MOST);
    double bars = module_width(drawing, bars_modules(drawing), inner->width, BARS_MOST);
    if (qr == 0 || bars == 0) {
        return false;
    }
    double side = qr * qr_modules(drawing);
    double y = inner->y + PAD;
    draw_number(drawing, y, cap);
    y += cap * (1 + TAIL) + 0.4 * MM; // round digits hang a little below the line
    draw_qr(drawing, inner->x, y, qr);
    double beside = side + drawing->dot; // the code may have been moved by half of one
    draw_words(drawing, &(struct page_box){inner->x + beside, y + 1.2 * MM,
                                           inner->width - beside - PAD, side - 1.2 * MM});
    y += side;
    draw_bars(drawing, inner->x + (inner->width - bars * bars_modules(drawing)) / 2, y, bars,
              inner->y + inner->height - PAD - y);
    return true;
}

static bool draw_wrap(const struct drawing *drawing) {
    const struct page_box *inner = &drawing->inner;
    length_nm diameter = drawing->label->diameter;
    double most = (double)ticket_wrap_height(diameter) / LENGTH_MM * MM;
    double round = (double)ticket_wrap_round(diameter) / LENGTH_MM * MM;
    double height = fmin(inner->height, round) - 2 * PAD;
    double cap = 0.17 * height;
    double strip = fmin(most, 0.35 * height);
    double qr = module_width(drawing, drawing->qr.rows, strip, QR_MOST);
    double bars = module_width(drawing, bars_modules(drawing),
                               inner->width - qr * qr_modules(drawing), BARS_MOST);
    if (bars == 0) {
        qr = 0;
        bars = module_width(drawing, bars_modules(drawing), inner->width, BARS_MOST);
    }
    if (bars == 0) {
        return false;
    }
    double gap = fmax(TICKET_CODE_QUIET_QR * qr, 1 * MM) + drawing->dot; // dot: room to snap
    double width = bars * bars_modules(drawing) + qr * qr_modules(drawing);
    double x = inner->x + (inner->width - width) / 2;
    double y = inner->y + PAD;
    draw_number(drawing, y, cap);
    y += cap + gap;
    draw_bars(drawing, x, y, bars, strip);
    if (qr > 0) {
        draw_qr(drawing, x + bars * bars_modules(drawing), y - TICKET_CODE_QUIET_QR * qr, qr);
    }
    y += strip + gap;
    draw_words(drawing, &(struct page_box){inner->x + PAD, y, inner->width - 2 * PAD,
                                           inner->y + PAD + height - y});
    return true;
}

bool ticket_label_draw(struct page *page, const struct ticket_stock *stock,
                       const struct page_box *cell, const struct ticket_label *label) {
    struct drawing drawing = {.page = page, .dot = stock->dot, .label = label};
    struct page_box *inner = &drawing.inner;
    if (!ticket_code_bars(label->ticket, &drawing.bars) ||
        !ticket_code_qr(label->ticket, &drawing.qr)) {
        return false;
    }
    *inner = (struct page_box){cell->x + stock->margin, cell->y + stock->margin,
                               cell->width - 2 * stock->margin, cell->height - 2 * stock->margin};
    page_frame(page,
               &(struct page_box){inner->x - BORDER / 2, inner->y - BORDER / 2,
                                  inner->width + BORDER, inner->height + BORDER},
               BORDER);
    return label->wraps ? draw_wrap(&drawing) : draw_flat(&drawing);
}
