#include "fake_clock.h"

#include <stdio.h>

int64_t fake_clock_ms;
static char boot[ENTRY_BOOT_MAX];

static int64_t since_boot(void) {
    return fake_clock_ms;
}

static void this_boot(char ret_boot[ENTRY_BOOT_MAX]) {
    memcpy(ret_boot, boot, ENTRY_BOOT_MAX);
}

void fake_clock_use(struct store *store) {
    store->clock = (struct store_clock){since_boot, this_boot};
}

void fake_clock_reboot(int number, int64_t ms) {
    memset(boot, 0, sizeof boot);
    snprintf(boot, sizeof boot, "boot %d", number);
    fake_clock_ms = ms;
}
