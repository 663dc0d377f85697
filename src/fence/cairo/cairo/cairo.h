#error "only src/paper may include cairo.h"
