// Runs a fuzz target as an ordinary test: every file of its kept corpus, then seeded random
// mutations of them. The same inputs on every run.
//
// Usage: fuzz_NAME CORPUS_DIR [THOUSANDS]

#include "fuzz.h"

#include <dirent.h>

#define FILES_MAX 512
#define SIZE_MAX_BYTES 8192
#define THOUSANDS 100

struct input {
    size_t size;
    uint8_t bytes[SIZE_MAX_BYTES];
};

static struct input *files[FILES_MAX];
static size_t file_count;
static uint64_t seed = 20261125;

static size_t chance(size_t below) {
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (size_t)((seed * 2685821657736338717u) >> 32) % below;
}

static int by_name(const struct dirent **a, const struct dirent **b) {
    return strcmp((*a)->d_name, (*b)->d_name);
}

static int load(const char *folder) {
    struct dirent **names;
    int count = scandir(folder, &names, NULL, by_name);
    for (int i = 0; i < count; i++) {
        char path[1024];
        FILE *file;
        int length = snprintf(path, sizeof path, "%s/%s", folder, names[i]->d_name);
        if (names[i]->d_name[0] != '.' && length < (int)sizeof path && file_count < FILES_MAX &&
            (file = fopen(path, "rb")) != NULL) {
            files[file_count] = calloc(1, sizeof *files[0]);
            HOLDS(files[file_count] != NULL);
            files[file_count]->size = fread(files[file_count]->bytes, 1, SIZE_MAX_BYTES, file);
            file_count++;
            fclose(file);
        }
        free(names[i]);
    }
    if (count >= 0) {
        free(names);
    }
    return file_count > 0;
}

static void insert(struct input *input, size_t at, const uint8_t *bytes, size_t size) {
    if (input->size + size > SIZE_MAX_BYTES) {
        size = SIZE_MAX_BYTES - input->size;
    }
    memmove(input->bytes + at + size, input->bytes + at, input->size - at);
    memcpy(input->bytes + at, bytes, size);
    input->size += size;
}

static void cut(struct input *input, size_t at, size_t size) {
    memmove(input->bytes + at, input->bytes + at + size, input->size - at - size);
    input->size -= size;
}

static void mutate(struct input *input) {
    static struct input other;
    size_t at = input->size > 0 ? chance(input->size) : 0;
    uint8_t byte = (uint8_t)chance(256);
    size_t from;
    if (input->size == 0) {
        insert(input, 0, &byte, 1);
        return;
    }
    switch (chance(7)) {
    case 0:
        input->bytes[at] ^= (uint8_t)(1u << chance(8));
        break;
    case 1:
        input->bytes[at] = byte;
        break;
    case 2:
        insert(input, at, &byte, 1);
        break;
    case 3:
        cut(input, at, 1 + chance(input->size - at));
        break;
    case 4:
        cut(input, at, 1);
        break;
    case 5: // a piece of itself again
        other = *input;
        insert(input, at, other.bytes + at, 1 + chance(other.size - at));
        break;
    default: // a piece of another file
        other = *files[chance(file_count)];
        from = other.size > 0 ? chance(other.size) : 0;
        insert(input, at, other.bytes + from, other.size > 0 ? 1 + chance(other.size - from) : 0);
        break;
    }
}

int main(int argc, char **argv) {
    size_t rounds = 1000 * (argc > 2 ? strtoul(argv[2], NULL, 10) : THOUSANDS);
    static struct input input;
    if (argc < 2 || !load(argv[1])) {
        fprintf(stderr, "no corpus files in %s\n", argc < 2 ? "(no folder given)" : argv[1]);
        return 1;
    }
    for (size_t i = 0; i < file_count; i++) {
        LLVMFuzzerTestOneInput(files[i]->bytes, files[i]->size);
    }
    for (size_t i = 0; i < rounds; i++) {
        input = *files[chance(file_count)];
        for (size_t times = 1 + chance(4); times > 0; times--) {
            mutate(&input);
        }
        LLVMFuzzerTestOneInput(input.bytes, input.size);
    }
    printf("%zu corpus files, %zu mutations of them\n", file_count, rounds);
    for (size_t i = 0; i < file_count; i++) {
        free(files[i]);
    }
    return 0;
}
