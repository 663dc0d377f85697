#include "boot.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

#define BOOT_ID "/proc/sys/kernel/random/boot_id"

int64_t boot_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_BOOTTIME, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

void boot_id(char ret_boot[ENTRY_BOOT_MAX]) {
    FILE *file = fopen(BOOT_ID, "re");
    memset(ret_boot, 0, ENTRY_BOOT_MAX);
    if (file != NULL) {
        if (fgets(ret_boot, ENTRY_BOOT_MAX, file) != NULL) {
            ret_boot[strcspn(ret_boot, "\n")] = '\0';
        }
        fclose(file);
    }
}
