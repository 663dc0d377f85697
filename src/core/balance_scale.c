#include "balance.h"

#include "tongue.h"

#include <math.h>
#include <stdio.h>

#define TENTHS_MAX 699 // G9.9

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

static const char *past_blanks(const char *text) {
    while (*text == ' ' || *text == '\t') {
        text++;
    }
    return text;
}

enum balance_scale_error balance_scale_parse(const char *text, double *ret_inch_ounces) {
    const char *at = past_blanks(text);
    if (*at == '\0') {
        return BALANCE_SCALE_EMPTY;
    }
    int letter = *at >= 'a' ? *at - 'a' : *at - 'A';
    if (letter < 0 || letter > 'G' - 'A') {
        return BALANCE_SCALE_LETTER;
    }
    at++;
    if (!digit(at[0]) || digit(at[1])) {
        return BALANCE_SCALE_POINTS;
    }
    int tenths = letter * 100 + (*at - '0') * 10;
    at++;
    if ((at[0] == '.' || at[0] == ',') && digit(at[1])) {
        tenths += at[1] - '0';
        at += 2;
    }
    if (*past_blanks(at) != '\0') {
        return BALANCE_SCALE_DECIMALS;
    }
    *ret_inch_ounces = BALANCE_A0 + tenths * BALANCE_POINT / 10;
    return BALANCE_SCALE_OK;
}

const char *balance_scale_error_text(enum balance_scale_error error) {
    static const char *const texts[] = {
        [BALANCE_SCALE_OK] = "",
        [BALANCE_SCALE_EMPTY] = N_("no swingweight"),
        [BALANCE_SCALE_LETTER] = N_("a swingweight begins with a letter from A to G, like D2"),
        [BALANCE_SCALE_POINTS] = N_("a swingweight has 0 to 9 points after its letter, like D2"),
        [BALANCE_SCALE_DECIMALS] = N_("a swingweight has one decimal at most, like D1.4"),
    };
    return _(texts[error]);
}

bool balance_scale_text(double inch_ounces, char buffer[BALANCE_SCALE_TEXT_MAX]) {
    double points = round((inch_ounces - BALANCE_A0) / BALANCE_POINT * 10);
    buffer[0] = '\0';
    if (!(points >= 0 && points <= TENTHS_MAX)) {
        return false;
    }
    int tenths = (int)points;
    snprintf(buffer, BALANCE_SCALE_TEXT_MAX, "%c%d.%d", 'A' + tenths / 100, tenths / 10 % 10,
             tenths % 10);
    return true;
}
