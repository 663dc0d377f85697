#error "only src/store may include sqlite3.h"
