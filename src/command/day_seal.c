#include "day_seal.h"
#include "days.h"
#include "text.h"
#include "tongue.h"
#include "witness.h"

#include <stdio.h>
#include <string.h>

void day_seal_who(struct store *store, const char *badge, char *buffer, size_t size) {
    struct worker worker;
    bool known = store_worker(store, badge, &worker) == STORE_OK;
    struct text text = text_open(buffer, size);
    text_add(&text, known ? worker.name : "");
    text_add(&text, known ? ", " : "");
    text_add(&text, badge);
}

static int64_t newest_seq(struct store *store) {
    struct log_filter all = {0};
    struct log_line line;
    return store_log(store, &all, 0, &line, 1) == 1 ? line.seq : 0;
}

static int64_t covered_by(const struct witness *witness) {
    return witness->count > 0 ? witness->mark[witness->count - 1].note.checkpoint.size : 0;
}

// --- words ---------------------------------------------------------------------------------------

static void say_unsigned(struct store *store, const struct witness *witness, struct text *text) {
    struct day_signature last = {.checkpoint.size = 0};
    int64_t covered;
    if (witness != NULL) {
        covered = covered_by(witness);
    } else {
        store_signature(store, NULL, NULL, &last);
        covered = last.checkpoint.size;
    }
    int64_t open = newest_seq(store) - covered;
    unsigned long count = open > 0 ? (unsigned long)open : 0;
    text_say(text,
             witness != NULL
                 ? tongue_plural("Not signed yet. The witness does not cover the last entry of "
                                 "the log.",
                                 "Not signed yet. The witness covers none of the last %1 entries "
                                 "of the log.",
                                 count)
                 : tongue_plural("Not signed yet. No signature covers the last entry of the log.",
                                 "Not signed yet. No signature covers the last %1 entries of the "
                                 "log.",
                                 count),
             text_number((int64_t)count).digits);
}

static int64_t entries_after(const struct day_facts *facts, int64_t seq) {
    int64_t count = 0;
    for (size_t i = facts->count; i > 0 && facts->fact[i - 1].seq > seq; i--) {
        count++;
    }
    return count;
}

static void say_signed(struct store *store, const struct day_facts *facts,
                       const struct day_signature *signature, bool own, struct text *text) {
    char who[PARTS_NAME_MAX + TICKET_TEXT_MAX];
    char time[32];
    int64_t after = entries_after(facts, signature->checkpoint.size);
    day_seal_who(store, signature->worker, who, sizeof who);
    days_time(signature->wall_ms, true, time, sizeof time);
    // TRANSLATORS: %1 a day, %2 a person, %3 a time.
    text_say(text,
             own ? _("%1 was signed by %2, %3.")
                 : _("No signature of its own; a later one stands for it. %1 was signed by %2, "
                     "%3."),
             signature->checkpoint.day, who, time);
    if (after > 0) {
        text_say(text,
                 tongue_plural(" The last cut, stop or decision of this report came later and is "
                               "not covered.",
                               " The last %1 cuts, stops and decisions of this report came later "
                               "and are not covered.",
                               (unsigned long)after),
                 text_number(after).digits);
    }
}

// --- the code ------------------------------------------------------------------------------------

// The whole note if the witness has it, else what it says without the signature.
static void fill_code(struct day_report_seal *seal, const struct witness *witness,
                      struct text *text) {
    const struct checkpoint_note *note =
        witness != NULL ? witness_note(witness, seal->checkpoint.size) : NULL;
    if (note != NULL &&
        memcmp(note->checkpoint.head, seal->checkpoint.head, sizeof seal->checkpoint.head) == 0) {
        checkpoint_write(note, seal->code);
        text_add(text, _(" The code holds the signed note: saved to a file, it is a witness for "
                         "`kerfside check`."));
        return;
    }
    checkpoint_body(&seal->checkpoint, seal->code);
    text_add(text,
             note != NULL
                 ? _(" THE WITNESS SAYS OTHERWISE: look at it with `kerfside check --witness`.")
             : witness != NULL
                 ? _(" Its note is not in the witness; the code holds it without a signature.")
                 : _(" The witness was not at hand; the code holds the note without a "
                     "signature."));
}

static enum store_result find(struct store *store, const struct day_papers *papers,
                              const struct day_facts *facts, struct day_signature *ret_signature,
                              bool *ret_own) {
    char from[CHECKPOINT_DAY_MAX];
    char to[CHECKPOINT_DAY_MAX];
    days_text(papers->from_ms, from);
    days_text(papers->to_ms - 1, to);
    *ret_own = true;
    enum store_result result = store_signature(store, from, to, ret_signature);
    if (result == STORE_NONE && facts->entries > 0) {
        *ret_own = false;
        result = store_signature_over(store, facts->last_seq, ret_signature);
    }
    return result;
}

bool day_seal_make(struct store *store, const struct day_papers *papers,
                   const struct day_facts *facts, struct day_report_seal *ret_seal, char *message,
                   size_t size) {
    struct day_report_seal seal = {.is_signed = false};
    struct text text = text_open(seal.words, sizeof seal.words);
    uint8_t public[WITNESS_PUBLIC_SIZE];
    struct witness read = {.fd = -1};
    struct day_signature signature;
    bool own;
    if (papers->witness != NULL &&
        (!witness_key_read_public(papers->public, public, message, size) ||
         witness_read(papers->witness, public, &read, message, size) != WITNESS_OK)) {
        witness_release(&read);
        return false;
    }
    const struct witness *witness = papers->witness != NULL ? &read : NULL;
    enum store_result result = find(store, papers, facts, &signature, &own);
    if (result == STORE_OK) {
        seal.is_signed = true;
        seal.checkpoint = signature.checkpoint;
        say_signed(store, facts, &signature, own, &text);
        fill_code(&seal, witness, &text);
    } else if (result == STORE_NONE) {
        say_unsigned(store, witness, &text);
    } else {
        snprintf(message, size, "%s", store_message(store));
    }
    witness_release(&read);
    if (result != STORE_OK && result != STORE_NONE) {
        return false;
    }
    *ret_seal = seal;
    return true;
}
