#include "flex_tube.h"

#include <math.h>

#define PI 3.14159265358979323846

double flex_tube_diameter(const struct flex_tube *tube, double from_tip) {
    double tapered = fmax(from_tip - tube->parallel, 0) / (tube->length - tube->parallel);
    return tube->tip_diameter + (tube->butt_diameter - tube->tip_diameter) * tapered;
}

static double wall(const struct flex_tube *tube, double from_tip) {
    return tube->tip_wall + (tube->butt_wall - tube->tip_wall) * from_tip / tube->length;
}

double flex_tube_area(const struct flex_tube *tube, double from_tip) {
    double thick = wall(tube, from_tip);
    return PI * (flex_tube_diameter(tube, from_tip) - thick) * thick;
}

double flex_tube_second_moment(const struct flex_tube *tube, double from_tip) {
    double outer = flex_tube_diameter(tube, from_tip);
    double inner = outer - 2 * wall(tube, from_tip);
    return PI / 64 * (pow(outer, 4) - pow(inner, 4));
}

// The area is a quadratic on either side of the parallel tip's end, so two Gauss points a side
// integrate area times distance exactly.
double flex_tube_balance(const struct flex_tube *tube) {
    const double ends[] = {0, tube->parallel, tube->length};
    double volume = 0;
    double moment = 0;
    for (int piece = 0; piece < 2; piece++) {
        double half = (ends[piece + 1] - ends[piece]) / 2;
        for (int side = -1; side <= 1; side += 2) {
            double at = ends[piece] + half * (1 + side / sqrt(3));
            volume += half * flex_tube_area(tube, at);
            moment += half * flex_tube_area(tube, at) * at;
        }
    }
    return moment / volume;
}
