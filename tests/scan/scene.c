#include "scene.h"

#include "scene_label.h"

#include <math.h>
#include <stdlib.h>

#define FOCUS 2.2 // of the camera, in frame widths
#define PI 3.14159265358979323846

uint64_t scene_random(uint64_t *state) {
    uint64_t z = *state += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

double scene_between(uint64_t *state, double low, double high) {
    return low + (high - low) * (double)(scene_random(state) >> 11) / 9007199254740992.0;
}

// Twelve uniform numbers: quick, and as good as a sensor's noise.
double scene_normal(uint64_t *state) {
    double sum = -6;
    for (int i = 0; i < 3; i++) {
        uint64_t bits = scene_random(state);
        for (int k = 0; k < 4; k++, bits >>= 16) {
            sum += (double)(bits & 0xFFFF) / 65536.0;
        }
    }
    return sum;
}

// Where the label's plane is seen: rows of a turning matrix, columns x and y of the label.
struct view {
    double side[2];
    double down[2];
    double deep[2];
    double middle_x;
    double middle_y;
    double focus; // pixels
};

static struct view view_of(const struct scene *s) {
    double a = s->angle * PI / 180;
    double t = s->tilt * PI / 180;
    double u = s->turn * PI / 180;
    // First in the plane, then about the picture's own x and y axes.
    double x[3] = {cos(a), sin(a) * cos(t), sin(a) * sin(t)};
    double y[3] = {-sin(a), cos(a) * cos(t), cos(a) * sin(t)};
    return (struct view){
        .side = {x[0] * cos(u) + x[2] * sin(u), y[0] * cos(u) + y[2] * sin(u)},
        .down = {x[1], y[1]},
        .deep = {x[2] * cos(u) - x[0] * sin(u), y[2] * cos(u) - y[0] * sin(u)},
        .middle_x = s->x * s->width,
        .middle_y = s->y * s->height,
        .focus = FOCUS * s->width,
    };
}

// A point of the label's plane, pixels from its middle, as seen.
static void see(const struct view *v, double x, double y, double *ret_x, double *ret_y) {
    double scale = v->focus / (v->focus + v->deep[0] * x + v->deep[1] * y);
    *ret_x = v->middle_x + scale * (v->side[0] * x + v->side[1] * y);
    *ret_y = v->middle_y + scale * (v->down[0] * x + v->down[1] * y);
}

// The other way round.
static void unsee(const struct view *v, double sx, double sy, double *ret_x, double *ret_y) {
    double px = (sx - v->middle_x) / v->focus;
    double py = (sy - v->middle_y) / v->focus;
    double a = v->side[0] - px * v->deep[0];
    double b = v->side[1] - px * v->deep[1];
    double c = v->down[0] - py * v->deep[0];
    double d = v->down[1] - py * v->deep[1];
    double det = a * d - b * c;
    *ret_x = v->focus * (px * d - py * b) / det;
    *ret_y = v->focus * (a * py - c * px) / det;
}

// Wood and steel: slow waves, grain, and the scale of a ruler.
static double bench(const struct scene *s, double x, double y) {
    double seed = (double)(s->seed % 97);
    double grain = sin((x + 0.15 * y) * 0.35 + seed + 3 * sin(y * 0.011 + seed));
    double wave = sin(x * 0.004 + seed) + sin(y * 0.006 - seed);
    double grey = 95 + 18 * wave + 10 * grain;
    if (y < 0.08 * s->height && fmod(x, 14) < 2) {
        grey -= 45;
    }
    return grey;
}

struct canvas {
    const struct scene *scene;
    const struct label *label;
    struct view view;
    double left; // the label is within
    double right;
    double top;
    double bottom;
};

static struct canvas canvas_of(const struct scene *scene, const struct label *label) {
    struct canvas c = {scene, label, view_of(scene), INFINITY, -INFINITY, INFINITY, -INFINITY};
    double dot = scene->module / LABEL_DOTS;
    for (int i = 0; i < 4 && !scene->bare; i++) {
        double x;
        double y;
        see(&c.view, (i % 2 - 0.5) * dot * label->width, (i / 2 - 0.5) * dot * label->height, &x,
            &y);
        c.left = fmin(c.left, x - 2);
        c.right = fmax(c.right, x + 2);
        c.top = fmin(c.top, y - 2);
        c.bottom = fmax(c.bottom, y + 2);
    }
    return c;
}

// One point of the picture, before the camera spoils it.
static double look(const struct canvas *c, double sx, double sy) {
    const struct scene *s = c->scene;
    double dot = s->module / LABEL_DOTS;
    double light = 1;
    double x;
    double y;
    if (s->bare) {
        return bench(s, sx, sy);
    }
    unsee(&c->view, sx, sy, &x, &y);
    if (s->tube > 0) {
        double radius = s->tube * s->module;
        if (fabs(y) >= radius) {
            return bench(s, sx, sy);
        }
        light = sqrt(1 - y * y / (radius * radius));
        y = radius * asin(y / radius);
    }
    x = x / dot + c->label->width / 2.0;
    y = y / dot + c->label->height / 2.0;
    if (!(x >= 0 && y >= 0 && x < c->label->width && y < c->label->height)) {
        return s->tube > 0 ? 60 + 40 * light : bench(s, sx, sy);
    }
    return light * (s->paper +
                    (s->ink - s->paper) * (double)c->label->ink[(int)y * c->label->width + (int)x]);
}

// Nine points a pixel on and near the label; the bench has no sharp edges.
static double pixel(const struct canvas *c, int x, int y) {
    double sum = 0;
    if (x < c->left || x > c->right || y < c->top || y > c->bottom) {
        return look(c, x + 0.5, y + 0.5);
    }
    for (int k = 0; k < 9; k++) {
        sum += look(c, x + (k % 3 + 0.5) / 3, y + (k / 3 + 0.5) / 3);
    }
    return sum / 9;
}

static void paint(const struct canvas *c, float *grey) {
    const struct scene *s = c->scene;
    for (int y = 0; y < s->height; y++) {
        for (int x = 0; x < s->width; x++) {
            grey[(size_t)y * (size_t)s->width + (size_t)x] =
                (float)(pixel(c, x, y) * (1 - s->shade * x / s->width));
        }
    }
}

// One line of `count` values `step` apart, blurred by a Gaussian.
static void blur_line(float *line, int count, size_t step, const float *kernel, int reach,
                      float *spare) {
    for (int i = 0; i < count; i++) {
        float sum = 0;
        for (int k = -reach; k <= reach; k++) {
            int at = i + k < 0 ? 0 : i + k >= count ? count - 1 : i + k;
            sum += kernel[k + reach] * line[(size_t)at * step];
        }
        spare[i] = sum;
    }
    for (int i = 0; i < count; i++) {
        line[(size_t)i * step] = spare[i];
    }
}

static void blur(float *grey, int width, int height, double sigma) {
    static _Thread_local float spare[FRAME_SIDE_MAX];
    float kernel[65];
    int reach = (int)ceil(3 * sigma);
    double sum = 0;
    if (sigma <= 0 || reach > 32) {
        return;
    }
    for (int k = -reach; k <= reach; k++) {
        sum += exp(-k * k / (2 * sigma * sigma));
    }
    for (int k = -reach; k <= reach; k++) {
        kernel[k + reach] = (float)(exp(-k * k / (2 * sigma * sigma)) / sum);
    }
    for (int y = 0; y < height; y++) {
        blur_line(grey + (size_t)y * (size_t)width, width, 1, kernel, reach, spare);
    }
    for (int x = 0; x < width; x++) {
        blur_line(grey + x, height, (size_t)width, kernel, reach, spare);
    }
}

static void corners(const struct canvas *c, struct code_point *corner) {
    const struct label *l = c->label;
    double dot = c->scene->module / LABEL_DOTS;
    for (int i = 0; i < 4; i++) {
        double x = (l->symbol_left + (i == 1 || i == 2 ? l->symbol_width : 0) - l->width / 2.0);
        double y = (l->symbol_top + (i >= 2 ? l->symbol_height : 0) - l->height / 2.0);
        double sx;
        double sy;
        if (c->scene->tube > 0) {
            double radius = c->scene->tube * c->scene->module / dot;
            double turn = fmax(-PI / 2, fmin(PI / 2, y / radius));
            y = radius * sin(turn);
        }
        see(&c->view, x * dot, y * dot, &sx, &sy);
        corner[i] = (struct code_point){.x = (int)lround(sx), .y = (int)lround(sy)};
    }
}

bool scene_draw(const struct scene *scene, struct frame *ret_frame, struct code_point *ret_corner) {
    size_t count = (size_t)scene->width * (size_t)scene->height;
    uint64_t random = scene->seed;
    struct label label;
    if (!label_draw(scene, &random, &label)) {
        return false;
    }
    float *grey = malloc(count * sizeof grey[0]);
    uint8_t *pixels = malloc(count);
    if (grey == NULL || pixels == NULL) {
        free(grey);
        free(pixels);
        free(label.ink);
        return false;
    }
    struct canvas canvas = canvas_of(scene, &label);
    paint(&canvas, grey);
    blur(grey, scene->width, scene->height, scene->blur);
    for (size_t i = 0; i < count; i++) {
        double value =
            (double)grey[i] + (scene->noise > 0 ? scene->noise * scene_normal(&random) : 0);
        pixels[i] = (uint8_t)(value < 0 ? 0 : value > 255 ? 255 : value + 0.5);
    }
    if (ret_corner != NULL) {
        corners(&canvas, ret_corner);
    }
    *ret_frame = (struct frame){.width = scene->width, .height = scene->height, .pixels = pixels};
    free(grey);
    free(label.ink);
    return true;
}
