#ifndef LABELS_H
#define LABELS_H

// Fixed words around a view, the same on every one of its kind: column heads, step names. The
// screen asks for them here, so that no wording lives in drawing code.

// name, words
// clang-format off
#define VIEW_LABELS(X)                                                                             \
    X(PROGRAM, "Kerfside")                                                                         \
    X(STEP_PAIR, "Pair") X(STEP_CARE, "Care") X(STEP_TIP, "Tip cut")                               \
    X(STEP_BUTT, "Butt cut") X(STEP_MEASURE, "Measure") X(STEP_LOGGED, "Logged")                   \
    X(NEXT_HERE, "Next at this bench") X(NOTHING_NEXT, "No clubs are waiting.")                    \
    X(MORE_WAIT, "%1 more wait")                    \
    X(BUILD, "Build") X(CLUB, "Club") X(HEAD, "Head") X(SHAFT, "Shaft") X(DUE, "Due")              \
    X(TODAY, "Today") X(CLUBS_CUT, "Clubs cut") X(CUTS_LOGGED, "Cuts logged")                      \
    X(OUT, "Out of tolerance") X(HOLDS, "Holds")                                                   \
    X(TIME, "Time") X(CUT, "Cut") X(PLAN, "Plan") X(MADE, "Made") X(VERDICT, "Verdict")            \
    X(SELECT, "Select a line to see it here.") X(NO_ENTRIES, "No entries.") X(NOTE, "Note")        \
    X(WARNING, "!") X(WHY_PLAN, "The plan as it was shown")                                        \
    X(SAID, "Said about it later")
// clang-format on
enum view_label {
#define X(name, words) LABEL_##name,
    VIEW_LABELS(X)
#undef X
        VIEW_LABEL_COUNT
};

const char *view_label(enum view_label label);

#endif
