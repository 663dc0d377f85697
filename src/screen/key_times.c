// SDL stamps a key when it fetches it. A bench that was busy for a moment fetches several at once,
// and what a person typed would look like a scanner's burst. X stamps each key itself.

#include "screen_inner.h"

#include <SDL_syswm.h>

// The server's clock runs beside SDL's: the smallest distance seen is that of a key fetched at
// once.
static void place(struct key_times *times, Uint32 x_ms) {
    Uint32 offset = SDL_GetTicks() - x_ms;
    if (!times->known || (Sint32)(offset - times->offset) < 0) {
        times->offset = offset;
        times->known = true;
    }
    times->ms = x_ms + times->offset;
    times->fresh = true;
}

#ifdef SDL_VIDEO_DRIVER_X11
static bool x_key(const SDL_SysWMmsg *message, Uint32 *ret_ms) {
    if (message->subsystem != SDL_SYSWM_X11) {
        return false;
    }
    const XEvent *event = &message->msg.x11.event;
    *ret_ms = (Uint32)event->xkey.time;
    return event->type == KeyPress || event->type == KeyRelease;
}
#else
static bool x_key(const SDL_SysWMmsg *message, Uint32 *ret_ms) {
    (void)message;
    (void)ret_ms;
    return false;
}
#endif

// Asked about every event before it is queued. X's own, which come before SDL's, go no further.
static int stamp(void *data, SDL_Event *event) {
    struct key_times *times = data;
    Uint32 x_ms;
    if (event->type == SDL_SYSWMEVENT) {
        if (x_key(event->syswm.msg, &x_ms)) {
            place(times, x_ms);
        }
        return 0;
    }
    if ((event->type == SDL_KEYDOWN || event->type == SDL_KEYUP) && times->fresh) {
        event->key.timestamp = times->ms;
        times->fresh = false;
    }
    return 1;
}

void key_times_begin(struct screen *screen) {
    SDL_SetEventFilter(stamp, &screen->key_times);
    SDL_EventState(SDL_SYSWMEVENT, SDL_ENABLE);
}

void key_times_end(void) {
    SDL_SetEventFilter(NULL, NULL);
}
