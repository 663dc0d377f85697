#ifndef DECODE_H
#define DECODE_H

// One frame to the codes in it, by ZBar behind a preparation of our own. Cheap ways first: places
// that look like bars or a QR symbol are cut out, turned upright and read alone; the whole frame
// is read only when that found nothing.
//
// The same frame gives the same codes, as long as the budget cuts no step off.

#include "frame.h"

struct decoder; // opaque, for one thread

struct decoder *decoder_init(void);            // NULL on no memory
void decoder_destroy(struct decoder *decoder); // takes NULL

#define DECODE_PATIENT INT64_MAX // every step there is

// At most FRAME_CODES_MAX codes, each symbology and text once, best first; returns how many.
// While nothing was found, dearer steps are begun until budget_us have passed.
size_t decoder_read(struct decoder *decoder, const struct frame *frame, int64_t budget_us,
                    struct code *ret_codes);

#endif
