#include "import_file.h"
#include "import_columns.h"
#include "import_row.h"
#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FILE_BYTES_MAX ((size_t)64 << 20)

struct file {
    const char *path;
    enum import_kind kind;
    const struct import_column *column;
    size_t column_count;
    size_t cell_count;
    size_t of_cell[CSV_COLUMNS_MAX]; // which column the n-th cell of a row belongs to
    struct import_table *table;
    struct import_say *say;
};

static struct import_at at(const struct file *file, size_t line) {
    return (struct import_at){.file = file->path, .line = line};
}

// The bytes of the file, to be freed by the caller; NULL after a complaint.
static char *read_all(const struct file *file, size_t *ret_size) {
    int fd = open(file->path, O_RDONLY | O_CLOEXEC);
    struct stat stat;
    char *bytes = NULL;
    size_t size = 0;
    ssize_t got = 1;
    if (fd < 0 || fstat(fd, &stat) != 0) {
        import_complain(file->say, at(file, 0), NULL, _("cannot be read: %s"), strerror(errno));
        goto close_file;
    }
    if (!S_ISREG(stat.st_mode) || (size_t)stat.st_size > FILE_BYTES_MAX) {
        import_complain(file->say, at(file, 0), NULL,
                        _("is not a file of at most 64 MiB; give a CSV file"));
        goto close_file;
    }
    bytes = malloc((size_t)stat.st_size + 1);
    while (bytes != NULL && got > 0 && size < (size_t)stat.st_size) {
        got = read(fd, bytes + size, (size_t)stat.st_size - size);
        size += got > 0 ? (size_t)got : 0;
    }
    if (bytes == NULL || got < 0) {
        import_complain(file->say, at(file, 0), NULL, _("cannot be read: %s"), strerror(errno));
        free(bytes);
        bytes = NULL;
    }
    *ret_size = size;
close_file:
    if (fd >= 0) {
        close(fd);
    }
    return bytes;
}

// "heads.csv", "2026-heads.csv", "spare_heads.csv".
static bool kind_of(const char *path, enum import_kind *ret_kind) {
    const char *slash = strrchr(path, '/');
    const char *base = slash != NULL ? slash + 1 : path;
    for (int kind = 0; kind < IMPORT_KIND_COUNT; kind++) {
        const char *name = import_kind_name((enum import_kind)kind);
        size_t size = strlen(name) + strlen(".csv");
        const char *tail = strlen(base) >= size ? base + strlen(base) - size : NULL;
        if (tail != NULL && strncmp(tail, name, strlen(name)) == 0 &&
            strcmp(tail + strlen(name), ".csv") == 0 &&
            (tail == base || tail[-1] == '-' || tail[-1] == '_')) {
            *ret_kind = (enum import_kind)kind;
            return true;
        }
    }
    return false;
}

// Cuts the blanks around off, in place.
static const char *trim(char *text) {
    size_t size;
    text += strspn(text, " ");
    size = strlen(text);
    while (size > 0 && text[size - 1] == ' ') {
        size--;
    }
    text[size] = '\0';
    return text;
}

static void read_header_cell(struct file *file, const struct csv_row *row, const char *name,
                             bool seen[CSV_COLUMNS_MAX]) {
    size_t column = 0;
    while (column < file->column_count && strcmp(file->column[column].name, name) != 0) {
        column++;
    }
    if (column == file->column_count) {
        import_complain(file->say, at(file, row->line), name,
                        _("is no column of %s.csv; take it out or correct its name"),
                        import_kind_name(file->kind));
        return;
    }
    if (seen[column]) {
        import_complain(file->say, at(file, row->line), name, _("is there twice; take one out"));
    }
    seen[column] = true;
    file->of_cell[file->cell_count] = column;
}

// True when every row can be read by it.
static bool read_header(struct file *file, struct csv_row *row) {
    size_t complaints = file->say->complaints;
    bool seen[CSV_COLUMNS_MAX] = {false};
    for (file->cell_count = 0; file->cell_count < row->count; file->cell_count++) {
        read_header_cell(file, row, trim(row->cell[file->cell_count]), seen);
    }
    for (size_t i = 0; i < file->column_count; i++) {
        if (!seen[i] && !file->column[i].optional) {
            import_complain(file->say, at(file, row->line), file->column[i].name,
                            _("is missing; add it (cells may be empty where nothing is known)"));
        }
    }
    return complaints == file->say->complaints;
}

// False: this row cannot be told from others.
static bool read_cell(const struct file *file, size_t line, size_t index, char *text,
                      union import_row *row) {
    const struct import_column *column = &file->column[file->of_cell[index]];
    const struct import_cell cell = {
        .say = file->say, .at = at(file, line), .column = column->name, .text = trim(text)};
    bool good = true;
    if (*cell.text != '\0') {
        good = column->read(&cell, &column->limits, (unsigned char *)row + column->offset);
    } else if (column->needed) {
        import_complain(file->say, cell.at, column->name, _("is empty; fill it in"));
        good = false;
    }
    return good || !column->key;
}

// False: no memory.
static bool read_row(const struct file *file, struct csv_row *cells, struct import_set *set) {
    union import_row row;
    bool known = true;
    if (cells->count != file->cell_count) {
        import_complain(file->say, at(file, cells->line), NULL,
                        _("the row has %zu cells, the header %zu; look for a missing or an extra "
                          "comma"),
                        cells->count, file->cell_count);
        file->table->partial = true;
        return true;
    }
    import_row_clear(file->kind, &row);
    row.at = at(file, cells->line);
    for (size_t i = 0; i < cells->count; i++) {
        known = read_cell(file, cells->line, i, cells->cell[i], &row) && known;
    }
    import_row_finish(file->kind, &row, file->say);
    if (!known) {
        file->table->partial = true;
        return true;
    }
    return import_set_add(set, file->kind, &row);
}

// What the reader could not read, named by its column where the header told it.
static void broken(const struct file *file, const struct csv_reader *reader,
                   enum csv_result result) {
    size_t index = reader->error_column - 1;
    const char *column = index < file->cell_count ? file->column[file->of_cell[index]].name : NULL;
    import_complain(file->say, at(file, reader->error_line), column, "%s", csv_result_text(result));
}

// False: no memory.
static bool read_rows(struct file *file, const char *bytes, size_t size, struct import_set *set) {
    struct csv_reader reader = csv_open(bytes, size);
    struct csv_row row;
    enum csv_result result = csv_next(&reader, &row);
    if (result == CSV_ROW) {
        if (!read_header(file, &row)) {
            file->table->partial = true;
            return true;
        }
        result = csv_next(&reader, &row);
    } else if (result == CSV_END) {
        import_complain(file->say, at(file, 0), NULL,
                        _("is empty; its first row names the columns"));
    }
    for (; result == CSV_ROW; result = csv_next(&reader, &row)) {
        if (!read_row(file, &row, set)) {
            return false;
        }
    }
    if (result != CSV_END) {
        broken(file, &reader, result);
        file->table->partial = true;
    }
    return true;
}

bool import_file(const char *path, struct import_set *set, struct import_say *say) {
    struct file file = {.path = path, .say = say};
    size_t size = 0;
    char *bytes;
    bool memory;
    if (!kind_of(path, &file.kind)) {
        import_complain(
            say, at(&file, 0), NULL,
            _("is no name this shop knows; name it shaft_models.csv, charts.csv, "
              "profiles.csv, head_models.csv, heads.csv, shafts.csv, builds.csv, "
              "workers.csv, gtins.csv, orders.csv or stock_levels.csv, with anything in front "
              "that ends in - or _"));
        return true;
    }
    file.column = import_columns(file.kind, &file.column_count);
    file.table = &set->table[file.kind];
    bytes = read_all(&file, &size);
    if (bytes == NULL) {
        file.table->partial = true;
        return true;
    }
    memory = read_rows(&file, bytes, size, set);
    free(bytes);
    return memory;
}
