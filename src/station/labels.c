#include "labels.h"

#include "tongue.h"

static const char *const labels[VIEW_LABEL_COUNT] = {
#define X(name, words) [LABEL_##name] = words,
    VIEW_LABELS(X)
#undef X
};

const char *view_label(enum view_label label) {
    return _(labels[label]);
}
