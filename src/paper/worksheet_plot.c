// The set at a glance: each value by club, planned and measured, against the straight line.

#include "text.h"
#include "tongue.h"
#include "worksheet_inner.h"

#include <math.h>
#include <stdio.h>

#define BETWEEN 16.0
#define TITLE 8.0
#define SMALL 6.5
#define AREA_LEAST 38.0
#define AREA_MOST 110.0
#define ODD_LINES 2.0 // room for the words about the odd club
#define LEGEND 12.0

struct plot {
    struct sheet *sheet;
    enum set_value value;
    struct page_box area; // of the dots
    double low;           // of the axis
    double high;
    double size; // of small writing
};

static double size_of(double scale) {
    return SMALL * fmax(scale, 0.75);
}

static double around(double scale) { // title, words, clubs, legend
    return 6 + TITLE * 1.3 + size_of(scale) * (1.3 * ODD_LINES + 2.6) + LEGEND;
}

double plots_least(double scale) {
    return around(scale) + AREA_LEAST;
}

double plots_most(double scale) {
    return around(scale) + AREA_MOST;
}

// --- the axis ----------------------------------------------------------------------------------

// Swingweight is read in points of the scale, all else in its unit.
static double shown(enum set_value value, double amount) {
    return value == SET_SWINGWEIGHT ? (amount - BALANCE_A0) / BALANCE_POINT : amount;
}

static void include(struct plot *plot, double amount) {
    plot->low = fmin(plot->low, shown(plot->value, amount));
    plot->high = fmax(plot->high, shown(plot->value, amount));
}

// A set that is all but straight must not look wild: the axis spans some of what is worth a word.
static bool find_axis(struct plot *plot) {
    const struct set *set = plot->sheet->of->set;
    const struct set_line *line = &set->line[plot->value];
    plot->low = INFINITY;
    plot->high = -INFINITY;
    for (size_t i = 0; i < set->count; i++) {
        const struct set_point *point = &set->club[i].point[plot->value];
        if (point->gap == ESTIMATE_GAP_NONE) {
            include(plot, point->planned);
        }
        if (point->measured_known) {
            include(plot, point->measured);
        }
    }
    if (!(plot->low <= plot->high)) {
        return false;
    }
    if (line->known) {
        include(plot, line->at_first);
        include(plot, line->at_first + line->slope * (double)(set->count - 1));
    }
    double unit = plot->value == SET_SWINGWEIGHT ? 1 : set_odd_beyond(plot->value);
    double least = 4 * unit;
    double short_of = fmax(least - (plot->high - plot->low), 0);
    double room = short_of / 2 + 0.08 * (plot->high - plot->low);
    plot->low -= room;
    plot->high += room;
    return true;
}

static double y_of(const struct plot *plot, double amount) {
    return plot->area.y + plot->area.height * (plot->high - amount) / (plot->high - plot->low);
}

static double x_of(const struct plot *plot, double index) {
    double count = (double)plot->sheet->of->set->count;
    return plot->area.x + plot->area.width * (index + 0.5) / count;
}

// 1, 2 or 5 times a power of ten, two to five to the axis.
static double tick_step(const struct plot *plot) {
    static const double steps[] = {1, 2, 5, 10};
    double rough = (plot->high - plot->low) / 4;
    double power = pow(10, floor(log10(rough)));
    for (size_t i = 0; i < 3; i++) {
        if (rough <= steps[i] * power) {
            return steps[i] * power;
        }
    }
    return 10 * power;
}

static void tick_text(const struct plot *plot, double tick, double step, char buffer[32]) {
    char scale[BALANCE_SCALE_TEXT_MAX];
    if (plot->value == SET_SWINGWEIGHT &&
        balance_scale_text(BALANCE_A0 + tick * BALANCE_POINT, scale)) {
        snprintf(buffer, 32, "%.*s", step < 1 ? 4 : 2, scale); // `D2.0` or `D2`
    } else {
        snprintf(buffer, 32, "%.*f", step < 0.1 ? 2 : step < 1 ? 1 : 0, tick);
    }
}

static double ticks(const struct plot *plot, bool draw) {
    struct page *page = plot->sheet->page;
    double step = tick_step(plot);
    double widest = 0;
    char words[32];
    double first = ceil(plot->low / step);
    for (int i = 0; (first + i) * step <= plot->high; i++) {
        double tick = (first + i) * step;
        tick_text(plot, tick, step, words);
        widest = fmax(widest, page_width(page, PAGE_REGULAR, plot->size, words));
        if (draw) {
            double y = y_of(plot, tick);
            page_line(page, plot->area.x, y, plot->area.x + plot->area.width, y, 0.3, 0.75);
            page_text(page, PAGE_REGULAR, plot->size, PAGE_RIGHT, plot->area.x - 3,
                      y + PAGE_CAP(plot->size) / 2, words);
        }
    }
    return widest;
}

// --- clubs -------------------------------------------------------------------------------------

static bool names_fit(const struct plot *plot, size_t every) {
    const struct set *set = plot->sheet->of->set;
    double right = -INFINITY;
    for (size_t i = 0; i < set->count; i += every) {
        double half =
            page_width(plot->sheet->page, PAGE_REGULAR, plot->size, set->club[i].club) / 2;
        double x = x_of(plot, (double)i);
        if (x - half < right + 3 || x - half < plot->area.x - 3 ||
            x + half > plot->area.x + plot->area.width + 3) {
            return false;
        }
        right = x + half;
    }
    return true;
}

// As many club names as have room, at even distances; none when even one is too long.
static void draw_names(const struct plot *plot) {
    const struct set *set = plot->sheet->of->set;
    size_t every = 1;
    while (every <= set->count && !names_fit(plot, every)) {
        every++;
    }
    for (size_t i = 0; every <= set->count && i < set->count; i += every) {
        page_text(plot->sheet->page, PAGE_REGULAR, plot->size, PAGE_CENTRE, x_of(plot, (double)i),
                  plot->area.y + plot->area.height + 3 + plot->size, set->club[i].club);
    }
}

static void draw_points(const struct plot *plot) {
    const struct set *set = plot->sheet->of->set;
    const struct set_line *line = &set->line[plot->value];
    double radius = fmin(2.2, plot->area.width / (double)set->count / 3);
    if (line->known) {
        double last = (double)(set->count - 1);
        page_line(plot->sheet->page, x_of(plot, 0), y_of(plot, shown(plot->value, line->at_first)),
                  x_of(plot, last),
                  y_of(plot, shown(plot->value, line->at_first + line->slope * last)), 0.8, 0.45);
    }
    for (size_t i = 0; i < set->count; i++) {
        const struct set_point *point = &set->club[i].point[plot->value];
        double x = x_of(plot, (double)i);
        double y = y_of(plot, shown(plot->value, point->planned));
        if (point->gap == ESTIMATE_GAP_NONE) {
            page_dot(plot->sheet->page, x, y, radius, true);
        }
        if (line->odd == (int)i) {
            page_frame(plot->sheet->page,
                       &(struct page_box){x - 2 * radius, y - 2 * radius, 4 * radius, 4 * radius},
                       0.8);
        }
        if (point->measured_known) {
            page_dot(plot->sheet->page, x, y_of(plot, shown(plot->value, point->measured)),
                     radius * 1.2, false);
        }
    }
}

// --- words -------------------------------------------------------------------------------------

struct words_at {
    const struct plot *plot;
    double x;
    double y;
    double width;
};

static void draw_line(void *of, size_t index, const char *words) {
    const struct words_at *at = of;
    page_text(at->plot->sheet->page, PAGE_BOLD, at->plot->size, PAGE_LEFT, at->x,
              at->y + at->plot->size * (1 + 1.3 * (double)index), words);
}

// Smaller when it would take more lines than there is room for.
static void draw_odd(struct plot *plot, const struct words_at *at) {
    char words[SET_TEXT_MAX];
    double whole = plot->size;
    if (set_odd_text(plot->sheet->of->set, plot->value, words, sizeof words)) {
        while (plot->size > 2 && (double)page_wrap(plot->sheet->page, PAGE_BOLD, plot->size,
                                                   at->width, words, NULL, NULL) > ODD_LINES) {
            plot->size -= 0.1;
        }
        page_wrap(plot->sheet->page, PAGE_BOLD, plot->size, at->width, words, draw_line,
                  (void *)(uintptr_t)at);
    }
    plot->size = whole;
}

static void draw_plot(struct sheet *sheet, enum set_value value, const struct page_box *box) {
    struct plot plot = {.sheet = sheet, .value = value, .size = size_of(sheet->at.scale)};
    static const char *const titles[SET_VALUE_COUNT] = {
        [SET_LENGTH] = N_("Length, in"),
        [SET_WEIGHT] = N_("Weight, g"),
        [SET_SWINGWEIGHT] = N_("Swingweight, scale"),
        [SET_FREQUENCY] = N_("Frequency, cpm"),
    };
    page_text(sheet->page, PAGE_BOLD, TITLE, PAGE_LEFT, box->x, box->y + TITLE, _(titles[value]));
    struct words_at at = {&plot, box->x, box->y + TITLE * 1.3, box->width};
    double top = at.y + plot.size * 1.3 * ODD_LINES + plot.size * 0.6;
    plot.area =
        (struct page_box){box->x, top, box->width, box->y + box->height - plot.size * 2 - top};
    if (!find_axis(&plot)) {
        page_text(sheet->page, PAGE_REGULAR, plot.size, PAGE_LEFT, box->x, at.y + plot.size,
                  _("not known"));
        return;
    }
    draw_odd(&plot, &at);
    double left = ticks(&plot, false) + 4;
    plot.area.x += left;
    plot.area.width -= left;
    ticks(&plot, true);
    draw_names(&plot);
    draw_points(&plot);
}

static void draw_legend(struct sheet *sheet, double y) {
    double size = size_of(sheet->at.scale);
    double x = PAGE_MARGIN;
    double middle = y - PAGE_CAP(size) / 2;
    page_dot(sheet->page, x + 3, middle, 2.2, true);
    page_text(sheet->page, PAGE_REGULAR, size, PAGE_LEFT, x + 9, y, _("planned"));
    x += 9 + page_width(sheet->page, PAGE_REGULAR, size, _("planned")) + 12;
    page_dot(sheet->page, x + 3, middle, 2.6, false);
    page_text(sheet->page, PAGE_REGULAR, size, PAGE_LEFT, x + 9, y, _("measured"));
    x += 9 + page_width(sheet->page, PAGE_REGULAR, size, _("measured")) + 12;
    page_line(sheet->page, x, middle, x + 14, middle, 0.8, 0.45);
    page_text(sheet->page, PAGE_REGULAR, size, PAGE_LEFT, x + 18, y,
              _("straight line by club, without the one that stands out"));
}

void plots_draw(struct sheet *sheet, double y) {
    double width = sheet->at.sheet.width - 2 * PAGE_MARGIN;
    double each = (width - BETWEEN * (SET_VALUE_COUNT - 1)) / SET_VALUE_COUNT;
    double height = sheet->at.plots - LEGEND;
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        struct page_box box = {PAGE_MARGIN + (each + BETWEEN) * value, y + 6, each, height - 6};
        draw_plot(sheet, (enum set_value)value, &box);
    }
    draw_legend(sheet, y + sheet->at.plots - 3);
}
