// Suppliers' codes to models.

#include "gtin.h"
#include "query.h"
#include "tongue.h"

enum store_result store_model_of_code(struct store *store, const char *gtin,
                                      struct code_model *ret_model) {
    struct code_model model = {0};
    char normal[GTIN_TEXT_MAX];
    if (!gtin_normalise(gtin, normal)) {
        return connection_say(store, STORE_REFUSED,
                              _("This is no GTIN with a right check digit. Scan it again."));
    }
    struct query query = query_open(store, STATEMENT_CODE_MODEL);
    query_bind_text(&query, normal);
    if (query_step(&query)) {
        model.is_head = query_number(&query, 0) != 0;
        query_text(&query, 1, model.model, sizeof model.model);
        query_text(&query, 2, model.flex, sizeof model.flex);
        model.parts = query_number(&query, 3);
    }
    enum store_result result = query_end(&query, N_("look up a supplier's code"));
    if (result == STORE_OK) {
        *ret_model = model;
    }
    return result;
}
