#error "only src/paper may include zint.h"
