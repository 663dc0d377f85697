#ifndef IMPORT_CELL_H
#define IMPORT_CELL_H

// One cell of a CSV file into one typed value, or a complaint that names it. Private to src/store.

#include "csv.h"
#include "import_set.h"

struct import_cell {
    struct import_say *say;
    struct import_at at;
    const char *column;
    const char *text; // blanks around taken off, never empty
};

// What a column asks of its cells.
struct import_limits {
    size_t size; // of a text, with NUL
    int64_t low; // of a length, mass, angle or number, both included
    int64_t high;
    enum ticket_kind ticket; // of a ticket
};

// Each reads the cell into `to` and returns true, or complains and leaves `to` alone.
typedef bool import_reader(const struct import_cell *cell, const struct import_limits *limits,
                           void *to);

import_reader import_read_text;        // char[size]
import_reader import_read_length;      // length_nm; a bare number is inches
import_reader import_read_mass;        // mass_mg
import_reader import_read_angle;       // int64_t, thousandths of a degree
import_reader import_read_inertia;     // int64_t, g cm2
import_reader import_read_frequency;   // frequency_dcpm
import_reader import_read_stiffness;   // int64_t, thousandths of a newton square metre
import_reader import_read_ticket;      // char[TICKET_TEXT_MAX]
import_reader import_read_gtin;        // char[GTIN_TEXT_MAX], with zeros in front
import_reader import_read_build;       // char[PARTS_BUILD_MAX]; a ticket gives its body
import_reader import_read_date;        // char[12], YYYY-MM-DD
import_reader import_read_number;      // int
import_reader import_read_swingweight; // char[8]
import_reader import_read_yes;         // bool
import_reader import_read_answer;      // enum import_answer
import_reader import_read_material;
import_reader import_read_tip;
import_reader import_read_bore_note;
import_reader import_read_note_kinds; // struct shaft_model: note_kinds and note_not_through
import_reader import_read_chart_kind;
import_reader import_read_head_kind;
import_reader import_read_bore_kind;
import_reader import_read_role;
import_reader import_read_order_status;

#endif
