#include "columns.h"
#include "text_width.h"
#include "tongue.h"

#include <stdbool.h>

void columns_put(FILE *to, const char *words, int columns) {
    int taken = (int)text_columns(words);
    int before = columns - taken;
    int behind = -columns - taken;
    fprintf(to, "%*s%s%*s", before > 0 ? before : 0, "", words, behind > 0 ? behind : 0, "");
}

static int wider(int width, const char *english) {
    int words = english != NULL ? (int)text_columns(_(english)) : 0;
    return words > width ? words : width;
}

static int width(const struct column *column) {
    bool left = column->columns < 0;
    int columns = left ? -column->columns : column->columns;
    if (columns == 0) {
        return 0;
    }
    columns = wider(wider(wider(columns, column->head), column->fits[0]), column->fits[1]);
    return left ? -columns : columns;
}

void columns_cell(FILE *to, const struct column *column, const char *words) {
    columns_put(to, words, width(column));
    fputs(column->gap, to);
}

void columns_number(FILE *to, const struct column *column, long long number) {
    char digits[24];
    snprintf(digits, sizeof digits, "%lld", number);
    columns_cell(to, column, digits);
}

void columns_heads(FILE *to, const struct column *column, size_t count) {
    for (size_t i = 0; i < count; i++) {
        columns_put(to, _(column[i].head), width(&column[i]));
        fputs(i + 1 < count ? column[i].gap : "\n", to);
    }
}
