#error "only src/screen may include SDL.h"
