// Numbers, tickets and dates. Words with a fixed list are in import_words.c.

#include "import_cell.h"
#include "text.h"
#include "tongue.h"

#include <stdlib.h>
#include <string.h>

static bool complain(const struct import_cell *cell, const char *what) {
    char quoted[IMPORT_QUOTED_MAX];
    import_complain(cell->say, cell->at, cell->column, "%s %s", import_quote(cell->text, quoted),
                    what);
    return false;
}

// C1 controls; the CSV reader refuses the others but the line ends in quoted cells.
static bool control_inside(const char *text) {
    for (const unsigned char *at = (const unsigned char *)text; *at != '\0'; at++) {
        if (*at < 0x20 || *at == 0x7F || (*at == 0xC2 && at[1] >= 0x80 && at[1] <= 0x9F)) {
            return true;
        }
    }
    return false;
}

bool import_read_text(const struct import_cell *cell, const struct import_limits *limits,
                      void *to) {
    size_t size = strlen(cell->text);
    char quoted[IMPORT_QUOTED_MAX];
    if (control_inside(cell->text)) {
        return complain(cell, _("has a line end or another control character in it; take it out"));
    }
    if (size >= limits->size) {
        import_complain(cell->say, cell->at, cell->column,
                        _("%s has %zu bytes, at most %zu fit; shorten it"),
                        import_quote(cell->text, quoted), size, limits->size - 1);
        return false;
    }
    memcpy(to, cell->text, size + 1);
    return true;
}

bool import_read_length(const struct import_cell *cell, const struct import_limits *limits,
                        void *to) {
    struct length_error error;
    length_nm length;
    char words[IMPORT_QUOTED_MAX];
    char low[LENGTH_TEXT_MAX];
    char high[LENGTH_TEXT_MAX];
    if (length_parse(cell->text, LENGTH_UNIT_INCH, &length, &error) != LENGTH_OK) {
        length_error_text(cell->text, &error, words, sizeof words);
        import_complain(cell->say, cell->at, cell->column, "%s", words);
        return false;
    }
    if (length < limits->low || length > limits->high) {
        length_text_exact(limits->low, low);
        length_text_exact(limits->high, high);
        import_complain(cell->say, cell->at, cell->column,
                        _("%s is not between %s and %s in; measure again (a bare number is inches, "
                          "write mm behind millimetres)"),
                        import_quote(cell->text, words), low, high);
        return false;
    }
    memcpy(to, &length, sizeof length);
    return true;
}

bool import_read_mass(const struct import_cell *cell, const struct import_limits *limits,
                      void *to) {
    mass_mg mass;
    char words[IMPORT_QUOTED_MAX];
    if (!mass_parse(cell->text, &mass)) {
        return complain(cell,
                        _("is not a weight in grams; write it as 203 or 203.5, with no unit"));
    }
    if (mass < limits->low || mass > limits->high) {
        import_complain(cell->say, cell->at, cell->column,
                        _("%s is not between %lld and %lld g; weigh again"),
                        import_quote(cell->text, words), (long long)(limits->low / MASS_GRAM),
                        (long long)(limits->high / MASS_GRAM));
        return false;
    }
    memcpy(to, &mass, sizeof mass);
    return true;
}

// Degrees and stiffness are written as grams are: up to three decimals.
bool import_read_angle(const struct import_cell *cell, const struct import_limits *limits,
                       void *to) {
    mass_mg thousandths;
    if (!mass_parse(cell->text, &thousandths) || thousandths < limits->low ||
        thousandths > limits->high) {
        return complain(cell, _("is not an angle from 0 to 90 degrees; write it as 10.5"));
    }
    memcpy(to, &thousandths, sizeof thousandths);
    return true;
}

bool import_read_inertia(const struct import_cell *cell, const struct import_limits *limits,
                         void *to) {
    int number;
    if (!import_read_number(cell, limits, &number)) {
        return false;
    }
    memcpy(to, &(int64_t){number}, sizeof(int64_t));
    return true;
}

bool import_read_frequency(const struct import_cell *cell, const struct import_limits *limits,
                           void *to) {
    frequency_dcpm frequency;
    (void)limits;
    if (!entry_frequency(cell->text, &frequency)) {
        return complain(cell,
                        _("is not a frequency between 50 and 600 cycles a minute; write it as "
                          "305 or 261.5, or measure again"));
    }
    memcpy(to, &frequency, sizeof frequency);
    return true;
}

bool import_read_stiffness(const struct import_cell *cell, const struct import_limits *limits,
                           void *to) {
    int64_t thousandths;
    char words[IMPORT_QUOTED_MAX];
    if (!mass_parse(cell->text, &thousandths) || thousandths < limits->low ||
        thousandths > limits->high) {
        import_complain(cell->say, cell->at, cell->column,
                        _("%s is not a stiffness between %lld and %lld newton square metres; write "
                          "it as 45 or 12.375"),
                        import_quote(cell->text, words), (long long)(limits->low / 1000),
                        (long long)(limits->high / 1000));
        return false;
    }
    memcpy(to, &thousandths, sizeof thousandths);
    return true;
}

bool import_read_ticket(const struct import_cell *cell, const struct import_limits *limits,
                        void *to) {
    struct ticket ticket;
    char words[IMPORT_QUOTED_MAX];
    enum ticket_error error = ticket_parse(cell->text, &ticket);
    if (error != TICKET_OK) {
        ticket_error_text(cell->text, error, words, sizeof words);
        import_complain(cell->say, cell->at, cell->column, "%s", words);
        return false;
    }
    if (ticket.kind != limits->ticket) {
        import_complain(cell->say, cell->at, cell->column,
                        _("%s is the ticket of a %s; a %s belongs here"),
                        import_quote(cell->text, words), ticket_kind_name(ticket.kind),
                        ticket_kind_name(limits->ticket));
        return false;
    }
    memcpy(to, ticket.text, sizeof ticket.text);
    return true;
}

bool import_read_gtin(const struct import_cell *cell, const struct import_limits *limits,
                      void *to) {
    size_t size = strspn(cell->text, "0123456789");
    (void)limits;
    if (gtin_normalise(cell->text, to)) {
        return true;
    }
    if (cell->text[size] == '\0' && (size == 8 || (size >= 12 && size <= 14))) {
        return complain(cell, _("has a wrong check digit; read it off the package again"));
    }
    return complain(cell, _("is no GTIN, which has 8, 12, 13 or 14 digits; read it off the package "
                            "again (spreadsheets drop zeros in front)"));
}

static bool plain_build(const char *text, char build[PARTS_BUILD_MAX]) {
    size_t size = strlen(text);
    if (size == 0 || size > TICKET_BODY_MAX) {
        return false;
    }
    for (size_t i = 0; i <= size; i++) {
        build[i] = text[i];
        if (text[i] >= 'a' && text[i] <= 'z') {
            build[i] = (char)(text[i] - 'a' + 'A');
        }
    }
    return strspn(build, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ") == size;
}

bool import_read_build(const struct import_cell *cell, const struct import_limits *limits,
                       void *to) {
    const struct import_limits build_ticket = {.ticket = TICKET_BUILD};
    char build[TICKET_TEXT_MAX];
    struct ticket ticket = {.kind = TICKET_BUILD};
    (void)limits;
    if (strchr(cell->text, '-') != NULL) {
        if (!import_read_ticket(cell, &build_ticket, ticket.text)) {
            return false;
        }
        ticket_body(&ticket, build);
    } else if (!plain_build(cell->text, build)) {
        return complain(cell, _("is no build; write 1 to 12 digits or letters A to Z, or a ticket "
                                "that begins with B-"));
    }
    memcpy(to, build, PARTS_BUILD_MAX);
    return true;
}

bool import_read_date(const struct import_cell *cell, const struct import_limits *limits,
                      void *to) {
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const char *text = cell->text;
    bool shape = strlen(text) == 10 && text[4] == '-' && text[7] == '-';
    int year, month, day;
    (void)limits;
    for (int i = 0; shape && i < 10; i++) {
        shape = i == 4 || i == 7 || (text[i] >= '0' && text[i] <= '9');
    }
    if (!shape) {
        return complain(cell, _("is not a day; write it as 2026-03-31"));
    }
    year = atoi(text);
    month = atoi(text + 5);
    day = atoi(text + 8);
    if (year < 2000 || month < 1 || month > 12 || day < 1 || day > days[month - 1] ||
        (month == 2 && day == 29 && (year % 4 != 0 || (year % 100 == 0 && year % 400 != 0)))) {
        return complain(cell, _("is no day of the calendar; check year, month and day"));
    }
    memcpy(to, text, 11);
    return true;
}

bool import_read_number(const struct import_cell *cell, const struct import_limits *limits,
                        void *to) {
    const char *digits = cell->text + (*cell->text == '-' || *cell->text == '+' ? 1 : 0);
    char words[IMPORT_QUOTED_MAX];
    size_t size = strspn(digits, "0123456789");
    int number = 0;
    if (size > 0 && size <= 6 && digits[size] == '\0') {
        number = atoi(cell->text);
    }
    if (size == 0 || size > 6 || digits[size] != '\0' || number < limits->low ||
        number > limits->high) {
        import_complain(
            cell->say, cell->at, cell->column, _("%s is not a whole number from %lld to %lld"),
            import_quote(cell->text, words), (long long)limits->low, (long long)limits->high);
        return false;
    }
    memcpy(to, &number, sizeof number);
    return true;
}

bool import_read_swingweight(const struct import_cell *cell, const struct import_limits *limits,
                             void *to) {
    const char *text = cell->text;
    size_t size = strlen(text);
    bool good = (size == 2 || (size == 4 && text[2] == '.' && text[3] >= '0' && text[3] <= '9')) &&
                text[0] >= 'A' && text[0] <= 'G' && text[1] >= '0' && text[1] <= '9';
    (void)limits;
    if (!good) {
        return complain(cell, _("is not a swingweight; write it as D2 or C9.5"));
    }
    memcpy(to, text, size + 1);
    return true;
}
