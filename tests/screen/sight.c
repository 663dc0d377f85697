#include "sight.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

const char *const sight_names[SIGHT_COUNT] = {"protanopia",           "deuteranopia",
                                              "protanopia (Machado)", "deuteranopia (Machado)",
                                              "tritanopia (Machado)", "grey"};

// IEC 61966-2-1, sRGB.
static double linear(Uint8 value) {
    double c = value / 255.0;
    return c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static Uint8 encoded(double c) {
    c = fmin(fmax(c, 0.0), 1.0);
    c = c <= 0.0031308 ? c * 12.92 : 1.055 * pow(c, 1.0 / 2.4) - 0.055;
    return (Uint8)lround(c * 255.0);
}

static void linear_of(SDL_Color colour, double ret[3]) {
    ret[0] = linear(colour.r);
    ret[1] = linear(colour.g);
    ret[2] = linear(colour.b);
}

static SDL_Color encoded_of(const double c[3]) {
    return (SDL_Color){encoded(c[0]), encoded(c[1]), encoded(c[2]), 255};
}

static void times(const double m[3][3], const double v[3], double ret[3]) {
    for (int i = 0; i < 3; i++) {
        ret[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    }
}

// Cramer's rule.
static void solve(const double m[3][3], const double v[3], double ret[3]) {
    double whole = 0.0;
    for (int column = -1; column < 3; column++) {
        double a[3][3];
        double det;
        memcpy(a, m, sizeof a);
        for (int i = 0; i < 3 && column >= 0; i++) {
            a[i][column] = v[i];
        }
        det = a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) -
              a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
              a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
        if (column < 0) {
            whole = det;
        } else {
            ret[column] = det / whole;
        }
    }
}

static double luminance(SDL_Color colour) {
    return 0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b);
}

double sight_contrast(SDL_Color a, SDL_Color b) {
    double la = luminance(a);
    double lb = luminance(b);
    return la > lb ? (la + 0.05) / (lb + 0.05) : (lb + 0.05) / (la + 0.05);
}

static double lab_f(double t) {
    const double d = 6.0 / 29.0;
    return t > d * d * d ? cbrt(t) : t / (3.0 * d * d) + 4.0 / 29.0;
}

static struct lab lab_of(SDL_Color colour) {
    static const double to_xyz[3][3] = {{0.4124564, 0.3575761, 0.1804375},
                                        {0.2126729, 0.7151522, 0.0721750},
                                        {0.0193339, 0.1191920, 0.9503041}};
    double rgb[3];
    double xyz[3];
    double y;
    linear_of(colour, rgb);
    times(to_xyz, rgb, xyz);
    y = lab_f(xyz[1]);
    return (struct lab){116.0 * y - 16.0, 500.0 * (lab_f(xyz[0] / 0.95047) - y),
                        200.0 * (y - lab_f(xyz[2] / 1.08883))};
}

static double hue(double b, double a) {
    double h = a == 0.0 && b == 0.0 ? 0.0 : atan2(b, a);
    return h < 0.0 ? h + 2.0 * PI : h;
}

double sight_difference_lab(struct lab x, struct lab y) {
    double mean = (hypot(x.a, x.b) + hypot(y.a, y.b)) / 2.0;
    double seventh = pow(mean, 7.0);
    double g = 0.5 * (1.0 - sqrt(seventh / (seventh + pow(25.0, 7.0))));
    double c1 = hypot((1.0 + g) * x.a, x.b);
    double c2 = hypot((1.0 + g) * y.a, y.b);
    double h1 = hue(x.b, (1.0 + g) * x.a);
    double h2 = hue(y.b, (1.0 + g) * y.a);
    double dh = c1 * c2 == 0.0 ? 0.0 : h2 - h1;
    double h = c1 * c2 == 0.0 ? h1 + h2 : (h1 + h2) / 2.0;
    double l = (x.l + y.l) / 2.0 - 50.0;
    double c = (c1 + c2) / 2.0;
    double t;
    double sl;
    double sc;
    double sh;
    double rt;
    double dl = y.l - x.l;
    double dc = c2 - c1;
    if (fabs(dh) > PI) {
        h += h1 + h2 < 2.0 * PI ? PI : -PI;
        dh += dh > 0.0 ? -2.0 * PI : 2.0 * PI;
    }
    dh = 2.0 * sqrt(c1 * c2) * sin(dh / 2.0);
    t = 1.0 - 0.17 * cos(h - PI / 6.0) + 0.24 * cos(2.0 * h) + 0.32 * cos(3.0 * h + PI / 30.0) -
        0.20 * cos(4.0 * h - 63.0 * PI / 180.0);
    sl = 1.0 + 0.015 * l * l / sqrt(20.0 + l * l);
    sc = 1.0 + 0.045 * c;
    sh = 1.0 + 0.015 * c * t;
    seventh = pow(c, 7.0);
    rt = -2.0 * sqrt(seventh / (seventh + pow(25.0, 7.0))) *
         sin(PI / 3.0 * exp(-pow((h * 180.0 / PI - 275.0) / 25.0, 2.0)));
    return sqrt(dl / sl * dl / sl + dc / sc * dc / sc + dh / sh * dh / sh + rt * dc / sc * dh / sh);
}

double sight_difference(SDL_Color a, SDL_Color b) {
    return sight_difference_lab(lab_of(a), lab_of(b));
}

static SDL_Color without_cone(bool protan, SDL_Color colour) {
    static const double to_lms[3][3] = {
        {17.8824, 43.5161, 4.11935}, {3.45565, 27.1554, 3.86714}, {0.0299566, 0.184309, 1.46709}};
    double rgb[3];
    double lms[3];
    linear_of(colour, rgb);
    times(to_lms, rgb, lms);
    if (protan) {
        lms[0] = 2.02344 * lms[1] - 2.52581 * lms[2];
    } else {
        lms[1] = 0.494207 * lms[0] + 1.24827 * lms[2];
    }
    solve(to_lms, lms, rgb);
    return encoded_of(rgb);
}

SDL_Color sight_of(enum sight sight, SDL_Color colour) {
    static const double machado[3][3][3] = {{{0.152286, 1.052583, -0.204868},
                                             {0.114503, 0.786281, 0.099216},
                                             {-0.003882, -0.048116, 1.051998}},
                                            {{0.367322, 0.860646, -0.227968},
                                             {0.280085, 0.672501, 0.047413},
                                             {-0.011820, 0.042940, 0.968881}},
                                            {{1.255528, -0.076749, -0.178779},
                                             {-0.078411, 0.930809, 0.147602},
                                             {0.004733, 0.691367, 0.303900}}};
    double rgb[3];
    double seen[3];
    if (sight == SIGHT_PROTAN || sight == SIGHT_DEUTAN) {
        return without_cone(sight == SIGHT_PROTAN, colour);
    }
    if (sight == SIGHT_GREY) {
        seen[0] = seen[1] = seen[2] = luminance(colour);
        return encoded_of(seen);
    }
    linear_of(colour, rgb);
    times(machado[sight - SIGHT_MACHADO_PROTAN], rgb, seen);
    return encoded_of(seen);
}
