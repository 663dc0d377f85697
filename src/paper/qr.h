#ifndef QR_H
#define QR_H

// QR codes of longer texts as plain modules: of a signed note, which a phone or the camera reads
// back byte by byte.

#include <stdbool.h>

#define QR_SIDE_MAX 97 // version 20, 666 bytes with error correction M
#define QR_QUIET 4     // modules all around, as in ticket_code.h

struct qr {
    int side; // modules, without the quiet zone
    bool dark[QR_SIDE_MAX][QR_SIDE_MAX];
};

// Error correction M. UTF-8 is marked as such. False: too long, or no memory.
bool qr_make(const char *text, struct qr *ret_qr);

#endif
