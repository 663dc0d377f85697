#ifndef LEDGER_H
#define LEDGER_H

// The ledger: a row for each club finished and each shaft lost in some days, for whoever keeps the
// books. RFC 4180 and UTF-8 with a header; lengths in decimal inches.
//
//   date        local day of the measure or of the decision that made it so
//   build, club the order and the club of it
//   head, head_model, shaft, shaft_model, flex
//   worker, name   badge of who measured or cut, and the name if it is still known
//   result      finished; used (out of tolerance, used as it is); recut, scrapped (a shaft is lost)
//   cause       of the last three: tip past mark, too short
//   decided_by, note   of the decision
//   tip_off, butt_off  cut off either end, butt only when the shaft was measured
//   length      of the cut shaft, measured

#include "store.h"

// False: `message` says why.
bool ledger_write(struct store *store, int64_t from_ms, int64_t to_ms, int fd, int64_t *ret_rows,
                  char *message, size_t size);

#endif
