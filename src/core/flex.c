#include "flex.h"

#include <math.h>
#include <string.h>

#define BAND 4 // a node's two unknowns meet those of the next node and no others
#define NODES_MAX (FLEX_ELEMENTS_MAX + FLEX_BREAKS_MAX + 1)
#define UNKNOWNS_MAX (2 * NODES_MAX)
#define ROUNDS_MAX 40
#define SETTLED 1e-12 // relative; one more round would gain three digits that doubles lack
#define GAUSS 4

// Symmetric and banded: row[i][k] is entry (i, i - k).
struct banded {
    double row[UNKNOWNS_MAX][BAND];
};

struct mesh {
    int nodes;
    double at[NODES_MAX]; // m from the clamp
};

// Abscissae and weights on -1 to 1; Abramowitz and Stegun, table 25.4, n = 4.
static const double gauss_at[GAUSS] = {-0.861136311594052575, -0.339981043584856265,
                                       0.339981043584856265, 0.861136311594052575};
static const double gauss_weight[GAUSS] = {0.347854845137453857, 0.652145154862546143,
                                           0.652145154862546143, 0.347854845137453857};

static void mesh_span(struct mesh *mesh, double to, int elements, double length) {
    double from = mesh->at[mesh->nodes - 1];
    int parts = (int)ceil((to - from) / length * elements - 1e-9);
    for (int i = 1; i <= parts; i++) {
        mesh->at[mesh->nodes] = from + (to - from) * i / parts;
        mesh->nodes++;
    }
}

// A break that all but touches the one before would make an element too stiff to compute with.
static void mesh_make(struct mesh *mesh, const struct flex_beam *beam, int elements) {
    double least = beam->length / 1000;
    mesh->nodes = 1;
    mesh->at[0] = 0;
    for (size_t i = 0; i < beam->break_count; i++) {
        double at = beam->breaks[i];
        if (at > mesh->at[mesh->nodes - 1] + least && at < beam->length - least) {
            mesh_span(mesh, at, elements, beam->length);
        }
    }
    mesh_span(mesh, beam->length, elements, beam->length);
}

// Cubic Hermite functions and their second derivatives at t (0 to 1) of an element of length h;
// the unknowns are deflection and slope at its two ends.
static void shape(double t, double h, double value[4], double curve[4]) {
    value[0] = 1 - 3 * t * t + 2 * t * t * t;
    value[1] = h * (t - 2 * t * t + t * t * t);
    value[2] = 3 * t * t - 2 * t * t * t;
    value[3] = h * (t * t * t - t * t);
    curve[0] = (12 * t - 6) / (h * h);
    curve[1] = (6 * t - 4) / h;
    curve[2] = (6 - 12 * t) / (h * h);
    curve[3] = (6 * t - 2) / h;
}

static void add_outer(struct banded *matrix, int first, const double vector[4], double factor) {
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j <= i; j++) {
            matrix->row[first + i][i - j] += factor * vector[i] * vector[j];
        }
    }
}

static bool add_element(const struct flex_beam *beam, const struct mesh *mesh, int element,
                        struct banded *stiffness, struct banded *mass) {
    double from = mesh->at[element];
    double h = mesh->at[element + 1] - from;
    for (int i = 0; i < GAUSS; i++) {
        double t = (1 + gauss_at[i]) / 2;
        double weight = gauss_weight[i] * h / 2;
        double value[4];
        double curve[4];
        struct flex_section section = beam->section(beam->of, from + t * h);
        if (!(section.stiffness > 0) || !(section.mass >= 0)) {
            return false;
        }
        shape(t, h, value, curve);
        add_outer(stiffness, 2 * element, curve, weight * section.stiffness);
        add_outer(mass, 2 * element, value, weight * section.mass);
    }
    return true;
}

// The body moves with the end: its centre by w + beyond w', and it turns by w'.
static void add_tip(const struct flex_tip *tip, int last, struct banded *mass) {
    mass->row[last][0] += tip->point + tip->mass;
    mass->row[last + 1][1] += tip->mass * tip->beyond;
    mass->row[last + 1][0] += tip->mass * tip->beyond * tip->beyond + tip->inertia;
}

// L D L^T in place, unknowns from `first` (those before it are clamped). False unless every pivot
// is above 0, which says that the matrix is positive definite.
static bool factor(struct banded *matrix, int first, int size) {
    for (int i = first; i < size; i++) {
        for (int k = BAND - 1; k >= 0; k--) {
            int j = i - k;
            if (j < first) {
                continue;
            }
            double sum = matrix->row[i][k];
            for (int m = k + 1; m < BAND && i - m >= first && m - k < BAND; m++) {
                double pivot = matrix->row[i - m][0];
                sum -= matrix->row[i][m] * matrix->row[j][m - k] * pivot;
            }
            matrix->row[i][k] = k > 0 ? sum / matrix->row[j][0] : sum;
        }
        if (!(matrix->row[i][0] > 0)) {
            return false;
        }
    }
    return true;
}

static void solve(const struct banded *factored, int first, int size, double *vector) {
    for (int i = first; i < size; i++) {
        for (int k = 1; k < BAND && i - k >= first; k++) {
            vector[i] -= factored->row[i][k] * vector[i - k];
        }
    }
    for (int i = size - 1; i >= first; i--) {
        vector[i] /= factored->row[i][0];
        for (int k = 1; k < BAND && i + k < size; k++) {
            vector[i] -= factored->row[i + k][k] * vector[i + k];
        }
    }
}

static void multiply(const struct banded *matrix, int first, int size, const double *vector,
                     double *ret_product) {
    memset(ret_product, 0, sizeof(double) * (size_t)size);
    for (int i = first; i < size; i++) {
        ret_product[i] += matrix->row[i][0] * vector[i];
        for (int k = 1; k < BAND && i - k >= first; k++) {
            ret_product[i] += matrix->row[i][k] * vector[i - k];
            ret_product[i - k] += matrix->row[i][k] * vector[i];
        }
    }
}

static double dot(int first, int size, const double *a, const double *b) {
    double sum = 0;
    for (int i = first; i < size; i++) {
        sum += a[i] * b[i];
    }
    return sum;
}

// With y = K^-1 M x, the quotient y.Mx / y.My tends to the lowest omega squared from above, its
// error shrinking by (omega1 / omega2)^4 a round. A beam without any mass never settles.
static bool iterate(const struct banded *factored, const struct banded *mass, int first, int size,
                    double *vector, double *ret_square) {
    double product[UNKNOWNS_MAX];
    double before = 0;
    multiply(mass, first, size, vector, product);
    for (int round = 0; round < ROUNDS_MAX; round++) {
        double next[UNKNOWNS_MAX];
        memcpy(vector, product, sizeof(double) * (size_t)size);
        solve(factored, first, size, vector);
        multiply(mass, first, size, vector, next);
        double square = dot(first, size, vector, product) / dot(first, size, vector, next);
        if (fabs(square - before) <= SETTLED * square) {
            *ret_square = square;
            return true;
        }
        before = square;
        for (int i = first; i < size; i++) {
            product[i] = next[i] * square; // keeps the numbers' size from round to round
        }
    }
    return false;
}

bool flex_frequency(const struct flex_beam *beam, int elements, double *ret_cpm) {
    struct banded stiffness = {0};
    struct banded mass = {0};
    struct mesh mesh;
    double vector[UNKNOWNS_MAX] = {0};
    double square = 0;
    if (!(beam->length > 0) || elements < 1 || elements > FLEX_ELEMENTS_MAX) {
        return false;
    }
    mesh_make(&mesh, beam, elements);
    for (int i = 0; i + 1 < mesh.nodes; i++) {
        if (!add_element(beam, &mesh, i, &stiffness, &mass)) {
            return false;
        }
    }
    int size = 2 * mesh.nodes;
    add_tip(&beam->tip, size - 2, &mass);
    for (int i = 0; i < mesh.nodes; i++) {
        vector[2 * i] = mesh.at[i] * mesh.at[i];
        vector[2 * i + 1] = 2 * mesh.at[i];
    }
    if (!factor(&stiffness, 2, size) || !iterate(&stiffness, &mass, 2, size, vector, &square)) {
        return false;
    }
    *ret_cpm = sqrt(square) / (2 * acos(-1)) * 60;
    return true;
}
