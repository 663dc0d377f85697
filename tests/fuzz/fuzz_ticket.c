#include "fuzz.h"
#include "ticket.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char *text = fuzz_string(data, size);
    struct ticket ticket;
    char sentence[160];
    enum ticket_error error = ticket_parse(text, &ticket);
    if (error == TICKET_OK) {
        struct ticket again;
        char body[TICKET_TEXT_MAX];
        HOLDS(ticket_parse(ticket.text, &again) == TICKET_OK);
        HOLDS(again.kind == ticket.kind && strcmp(again.text, ticket.text) == 0);
        ticket_body(&ticket, body);
        HOLDS(ticket_make(ticket.kind, body, &again) && strcmp(again.text, ticket.text) == 0);
    } else {
        ticket_error_text(text, error, sentence, sizeof sentence);
        HOLDS(strlen(sentence) > 0);
    }
    char check = ticket_check_char(text, strlen(text));
    HOLDS(check == 0 || check == '*' || (check >= '0' && check <= '9') ||
          (check >= 'A' && check <= 'Z'));
    if (ticket_gtin_valid(text)) {
        HOLDS(error == TICKET_NOT_A_TICKET); // a model's number never passes for a part's
    }
    free(text);
    return 0;
}
