#error "only src/scan may include zbar.h"
