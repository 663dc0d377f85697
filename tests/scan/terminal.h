#ifndef TERMINAL_H
#define TERMINAL_H

// A serial device that is a pseudo terminal, found by a symbolic link as a real one is by its id.
// Waits are bounded: a test that would wait for ever fails.

#include <stddef.h>
#include <stdint.h>

#define TERMINAL_WAIT_MS 5000

struct terminal {
    char folder[64];
    char path[96];
    int master; // -1: unplugged
};

void terminal_init(struct terminal *terminal);
void terminal_destroy(struct terminal *terminal);
void terminal_plug_in(struct terminal *terminal);
// As udev does: the link goes with the device.
void terminal_plug_out(struct terminal *terminal);
// Until the reader has it open and its line set, so that nothing is flushed away or cooked.
void terminal_wait_raw(const struct terminal *terminal);
void terminal_send(const struct terminal *terminal, const char *bytes, size_t size);

void wait_ms(int ms);
int64_t processor_us(void); // used by this program

#endif
