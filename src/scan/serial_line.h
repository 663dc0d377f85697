#ifndef SERIAL_LINE_H
#define SERIAL_LINE_H

// A terminal made a line of bytes, for scanners and scales.

#include <stdbool.h>

// 1200 to 921600 in the usual steps. CDC-ACM takes no notice of it.
bool serial_baud_known(int baud);

// Raw, 8 data bits, no parity, no flow control, so that every byte arrives as it was sent; reads
// that do not wait; nobody else may open it meanwhile (TIOCEXCL). What had come before is flushed.
// False: it is no terminal, or does not take this.
bool serial_line_open(int fd, int baud);

#endif
