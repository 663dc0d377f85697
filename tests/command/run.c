#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

static void read_file(const struct scratch *scratch, const char *name,
                      char buffer[SCRATCH_TEXT_MAX]) {
    FILE *file = fopen(scratch_path(scratch, name), "re");
    size_t size;
    assert_non_null(file);
    size = fread(buffer, 1, SCRATCH_TEXT_MAX - 1, file);
    buffer[size] = '\0';
    assert_true(size < SCRATCH_TEXT_MAX - 1);
    fclose(file);
}

void run(const struct scratch *scratch, struct ran *ret_ran, const char *format, ...) {
    char arguments[1024];
    char command[2048];
    va_list list;
    int status;
    va_start(list, format);
    vsnprintf(arguments, sizeof arguments, format, list);
    va_end(list);
    snprintf(command, sizeof command,
             "cd '%s' && KERFSIDE_DB='%s' '%s' </dev/null >stdout.txt 2>stderr.txt %s",
             scratch->folder, scratch->db, KERFSIDE_PROGRAM, arguments);
    status = system(command);
    ret_ran->status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    read_file(scratch, "stdout.txt", ret_ran->out);
    read_file(scratch, "stderr.txt", ret_ran->err);
}

void run_expect(const struct scratch *scratch, struct ran *ret_ran, int status,
                const char *arguments) {
    run(scratch, ret_ran, "%s", arguments);
    if (ret_ran->status != status) {
        fail_msg("%s: %d, %s%s", arguments, ret_ran->status, ret_ran->out, ret_ran->err);
    }
}

void run_says(const char *text, const char *words) {
    if (strstr(text, words) == NULL) {
        fail_msg("no \"%s\" in\n%s", words, text);
    }
}
