#error "only src/screen may include SDL_ttf.h"
