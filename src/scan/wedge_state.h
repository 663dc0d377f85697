#ifndef WEDGE_STATE_H
#define WEDGE_STATE_H

// Private to wedge.c; complete so that it can live on the stack.

struct wedge {
    struct wedge_settings settings;
};

#endif
