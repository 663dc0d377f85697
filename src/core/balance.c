#include "balance.h"

#include <math.h>

static double metres(length_nm length) {
    return (double)length * 1e-9;
}

static double kilograms(mass_mg mass) {
    return (double)mass * 1e-6;
}

// With m(x) = m0 + b (x - L/2): weight m0 L, and balance point L/2 + b L^2 / (12 m0).
bool balance_spread(mass_mg weight, length_nm length, length_nm balance,
                    struct balance_density *ret_density) {
    if (weight <= 0 || length <= 0) {
        return false;
    }
    double middle = metres(length) / 2;
    double mean = kilograms(weight) / metres(length);
    double off = balance > 0 ? metres(balance) - middle : 0;
    double slope = 3 * mean * off / (middle * middle);
    if (fabs(slope) * middle > mean) {
        return false;
    }
    *ret_density = (struct balance_density){.tip = mean - slope * middle, .slope = slope};
    return true;
}

static void add_point(struct balance_sum *sum, double mass, double from_butt) {
    sum->mass += mass;
    sum->moment += mass * from_butt;
    sum->inertia += mass * from_butt * from_butt;
}

// Two Gauss points integrate density times distance squared, a cubic, exactly.
static void add_shaft(struct balance_sum *sum, const struct balance_club *club, double finished) {
    double end = metres(club->grip_cap) + finished;
    for (int side = -1; side <= 1; side += 2) {
        double from_end = finished / 2 * (1 + side / sqrt(3));
        double from_tip = metres(club->tip_trim) + from_end;
        double density = club->shaft.tip + club->shaft.slope * from_tip;
        add_point(sum, density * finished / 2, end - from_end);
    }
}

static double head_place(const struct balance_club *club, double finished) {
    return metres(club->grip_cap) + finished + metres(club->cg_beyond);
}

static struct balance_sum add_club(const struct balance_club *club, double finished) {
    struct balance_sum sum = {0};
    double end = metres(club->grip_cap) + finished;
    add_point(&sum, kilograms(club->head), head_place(club, finished));
    add_point(&sum, kilograms(club->ferrule) + kilograms(club->epoxy), end);
    add_point(&sum, kilograms(club->grip), metres(club->grip_balance));
    add_shaft(&sum, club, finished);
    sum.inertia += club->head_inertia > 0 ? (double)club->head_inertia * 1e-7 : 0;
    return sum;
}

struct balance_sum balance_add(const struct balance_club *club) {
    return add_club(club, metres(club->finished));
}

double balance_swingweight(const struct balance_sum *sum) {
    return (sum->moment - sum->mass * metres(BALANCE_FULCRUM)) / BALANCE_INCH_OUNCE;
}

bool balance_head_change(const struct balance_club *club, double wished, double *ret_grams) {
    struct balance_sum sum = balance_add(club);
    double arm = head_place(club, metres(club->finished)) - metres(BALANCE_FULCRUM);
    double gain = (wished - balance_swingweight(&sum)) * BALANCE_INCH_OUNCE / arm;
    if (arm <= 0 || kilograms(club->head) + gain <= 0) {
        return false;
    }
    *ret_grams = gain * 1000;
    return true;
}

static double swingweight_at(const struct balance_club *club, double finished) {
    struct balance_sum sum = add_club(club, finished);
    return balance_swingweight(&sum);
}

// The moment rises with length: all but the grip moves away from the fulcrum, and that outweighs
// what comes in at the butt, a rod's few grams within the 14 in.
bool balance_length_change(const struct balance_club *club, double wished, double *ret_inches) {
    double low = metres(BALANCE_FULCRUM);
    double high = metres(club->raw_length - club->tip_trim);
    if (low >= high || swingweight_at(club, low) > wished || swingweight_at(club, high) < wished) {
        return false;
    }
    for (int i = 0; i < 60; i++) { // to the last bit of a double
        double middle = low + (high - low) / 2;
        if (swingweight_at(club, middle) < wished) {
            low = middle;
        } else {
            high = middle;
        }
    }
    *ret_inches = (low - metres(club->finished)) / 0.0254;
    return true;
}
