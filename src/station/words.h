#ifndef WORDS_H
#define WORDS_H

// Every text of the bench that is not a plan's or a ticket's own. %1 %2 %3 stand for what is put
// in. Plain, short, the workshop's words: what happened, then what to do.

#include <stddef.h>
#include <stdint.h>

#define WORDS(X)                                                                                   \
    X(EMPTY, "")                                                                                   \
    /* header */                                                                                   \
    X(STATUS_SCANNER, "Scanner")                                                                   \
    X(STATUS_BUTTON, "Button")                                                                     \
    X(STATUS_CAMERA, "Camera")                                                                     \
    X(STATUS_SCALE, "Scale")                                                                       \
    X(STATUS_LOG, "Log")                                                                           \
    X(STATUS_SETTINGS, "Settings")                                                                 \
    X(NOBODY, "Nobody signed on")                                                                  \
    /* signed out, ready */                                                                        \
    X(SIGN_ON, "Scan your badge")                                                                  \
    X(SIGN_ON_MORE, "The bench starts when somebody is signed on.")                                \
    X(SIGN_ON_BAND, "Scan your badge to start.")                                                   \
    X(READY, "Scan a head or a shaft")                                                             \
    X(READY_MORE, "Either one first. Supervisor: scan your badge.")                                \
    X(READY_BAND, "Scan the first part of a club.")                                                \
    X(SETTINGS_LAST_GOOD, "The last good settings hold: %1")                                       \
    X(SETTINGS_STANDARD, "The standard settings hold: %1")                                         \
    X(READY_HINT, "Hold 2 seconds: something is wrong")                                            \
    X(HALF_CUT, "Half-cut shafts waiting: ")                                                       \
    X(HALF_CUT_ONE, "%1 (%2)")                                                                     \
    /* pair */                                                                                     \
    X(PAIR_SHAFT, "Now scan the shaft")                                                            \
    X(PAIR_HEAD, "Now scan the head")                                                              \
    X(PAIR_BUILD, "Build %1 · club %2 of %3")                                                      \
    X(PAIR_BAND_SHAFT, "Scan shaft %1.")                                                           \
    X(PAIR_BAND_HEAD, "Scan head %1.")                                                             \
    X(PAIR_HINT, "Hold 2 seconds: something is wrong")                                             \
    X(CARD_HEAD, "Head %1")                                                                        \
    X(CARD_SHAFT, "Shaft %1")                                                                      \
    X(CARD_SCAN_HEAD, "Scan head %1")                                                              \
    X(CARD_SCAN_SHAFT, "Scan shaft %1")                                                            \
    X(CARD_WEIGHT, "%1, sole says %2")                                                             \
    X(CARD_WEIGHT_ONLY, "%1")                                                                      \
    X(CARD_THROUGH, "Bored through the sole")                                                      \
    X(CARD_BORE, "Bore height %1")                                                                 \
    X(CARD_RAW, "Raw length %1")                                                                   \
    X(CARD_FLEX, "%1, flex %2")                                                                    \
    X(CARD_RACK, "Rack %1")                                                                        \
    X(CARD_NO_RACK, "No rack is noted for it.")                                                    \
    /* care; behind the lines: 29 CFR 1910.133 eyes, .134 breathing, .95 hearing, .138 gloves, */  \
    /* .212 and .215 guards and wheel; sparks, dust and burrs are common practice */               \
    X(CARE_STEEL, "Steel shaft at the cutoff wheel")                                               \
    X(CARE_GRAPHITE, "Graphite shaft at the cutoff wheel")                                         \
    X(CARE_LEAD, "Before the wheel turns:")                                                        \
    X(CARE_EYES, "Eye and face protection on")                                                     \
    X(CARE_BREATHING, "Respirator your programme assigns on; extraction running")                  \
    X(CARE_EARS, "Hearing protection on")                                                          \
    X(CARE_GUARD, "Guards in place; wheel sound, undamaged, rated for the saw's speed")            \
    X(CARE_CLAMP, "Shaft clamped; hands, hair and sleeves clear; gloves as the site's rules say")  \
    X(CARE_STOP, "Wait for the wheel to stop before you reach in")                                 \
    X(CARE_SPARKS, "No steel sparks into graphite dust: collector empty or separate")              \
    X(CARE_DUST, "Collector clear of steel sparks; take dust up by vacuum, never blow it")         \
    X(CARE_DEBURR, "Deburr the cut end: it is sharp")                                              \
    X(CARE_SPLINTERS, "Cut ends splinter: smooth them before you handle them")                     \
    X(CARE_FOOT, "A reminder only. The saw maker's manual, the site's risk assessment and local "  \
                 "codes come first. This program controls no machine and is no safety device.")    \
    X(CARE_BAND, "All in place? Press the button.")                                                \
    X(CARE_HINT, "Hold 2 seconds: not safe to cut")                                                \
    /* cut */                                                                                      \
    X(TIP_HEADING, "Tip end · cut off")                                                            \
    X(TIP_REST, "Tip end · still to cut off")                                                      \
    X(BUTT_HEADING, "Butt end · keep")                                                             \
    X(WASTE, "waste")                                                                              \
    X(KEEP, "keep this side")                                                                      \
    X(BLADE, "blade on the waste side of the mark")                                                \
    X(MEASURE_TIP, "Measure from the tip. Mark, then cut.")                                        \
    X(MEASURE_BUTT, "Measure from the new tip end. Mark, then cut.")                               \
    X(MEASURE_BUTT_UNCUT, "Measure from the tip. Mark, then cut.")                                 \
    X(CUT_HEAD, "Head %1 · %2")                                                                    \
    X(CUT_HEAD_SOLE, "Head %1 · %2 · sole says %3")                                                \
    X(CUT_SHAFT, "Shaft %1 · %2 · %3")                                                             \
    X(WHY, "Why %1")                                                                               \
    X(TOTAL_TIP, "Cut off at the tip")                                                             \
    X(TOTAL_BUTT, "Keep, from the tip end")                                                        \
    X(PLAYING, "Playing length")                                                                   \
    X(BORE, "Bore height")                                                                         \
    X(GRIP_CAP, "Grip cap")                                                                        \
    X(PROUD, "Ground off at the sole")                                                             \
    X(NEAREST, "To the nearest mark")                                                              \
    X(PARTLY, "Already cut off: %1. What is left to cut is %2.")                                   \
    X(MAYBE_CUT, "You said it is cut already. Measure once more, then press. Do not cut twice.")   \
    X(NEXT_BUTT, "Next: butt cut at %1")                                                           \
    X(NEXT_MEASURE, "Next: measure the shaft")                                                     \
    X(CUT_BAND, "Cut made? Press the button.")                                                     \
    X(CUT_BAND_MAYBE, "Already cut? Press the button.")                                            \
    X(CUT_HINT, "Hold 2 seconds: something is wrong")                                              \
    X(NEAREST_STEP, "nearest %1")                                                                  \
    /* numbers */                                                                                  \
    X(DRY_ASK, "Dry fit: how long are head and shaft together?")                                   \
    X(DRY_HELP, "Push shaft %1 home in head %2 without glue, sole the head, measure.")             \
    X(DRY_OVERALL, "Overall length")                                                               \
    X(DRY_RAW, "Length of the shaft used")                                                         \
    X(DRY_RESULT, "Bore height %1")                                                                \
    X(DRY_RANGE, "That makes the bore height %1. It must lie between 0 and 2 in: measure again.")  \
    X(DRY_BAND, "Right? Press the button.")                                                        \
    X(MADE_ASK, "How much is cut off the tip?")                                                    \
    X(MADE_HELP, "The mark is %1 from the tip. Uncut, the shaft is %2 long.")                      \
    X(MADE_FIELD, "Cut off the tip, all together")                                                 \
    X(MADE_LESS, "%1 less than the mark: it can be finished.")                                     \
    X(MADE_MORE, "%1 past the mark: a supervisor decides.")                                        \
    X(MADE_OUTCOME, " %1.")                                                                        \
    X(MADE_IN, "At the mark.")                                                                     \
    X(LEFT_ASK, "How long is the shaft now, tip end to butt end?")                                 \
    X(LEFT_HELP, "Uncut it is %1, cut it is %2.")                                                  \
    X(LEFT_FIELD, "Shaft length now")                                                              \
    X(MEASURE_ASK, "How long is the cut shaft?")                                                   \
    X(MEASURE_HELP, "Wait for the wheel to stop. Measure %1 from tip end to butt end.")            \
    X(MEASURE_EXTENDED,                                                                            \
      "Extend the butt by %1 first. Then measure %2, from tip end to the end of it.")              \
    X(MEASURE_FIELD, "Measured length")                                                            \
    X(MEASURE_BAND, "Measured? Enter it, then press.")                                             \
    X(MEASURE_BAND_READY, "Right? Press the button.")                                              \
    X(MEASURE_IN, "Within tolerance of %1.")                                                       \
    X(MEASURE_LONG, "%1 too long.")                                                                \
    X(MEASURE_SHORT, "%1 too short.")                                                              \
    X(MEASURE_AGAIN, "%1 too long: cut to the mark at %2, measure again.")                         \
    X(NUMBER_BAND, "Enter the length, then press.")                                                \
    X(NUMBER_EMPTY, "Nothing is entered yet. Enter the length, then press.")                       \
    X(NUMBER_NEGATIVE, "A length cannot be below zero. Measure again.")                            \
    X(NUMBER_ZERO, "A shaft has a length. Measure again.")                                         \
    X(NUMBER_PIECE, "That is longer than the piece on the saw, %1. Measure again.")                \
    X(NUMBER_OVERALL, "The overall length is less than the shaft alone. Measure again.")           \
    X(NUMBER_HINT, "Hold 2 seconds: something is wrong")                                           \
    /* resume */                                                                                   \
    X(RESUME, "Was shaft %1 cut?")                                                                 \
    X(RESUME_LINE, "This mark was already on the screen. Measure the shaft before you cut.")       \
    X(RESUME_TIP, "Tip not cut it is %1 long; cut it is %2.")                                      \
    X(RESUME_BUTT, "Butt not cut it is %1 long; cut it is %2.")                                    \
    X(RESUME_BAND, "Measure the shaft, then choose.")                                              \
    /* logged */                                                                                   \
    X(LOGGED, "Logged: build %1, club %2")                                                         \
    X(LOGGED_TIP, "Tip cut off %1")                                                                \
    X(LOGGED_BUTT, "Butt mark %1")                                                                 \
    X(LOGGED_MADE, "Measured %1, within tolerance")                                                \
    X(LOGGED_NEXT, "Next club: build %1, %2, head %3 and shaft %4.")                               \
    X(LOGGED_NO_NEXT, "No further club waits at this bench.")                                      \
    X(LOGGED_TODO, "What to do")                                                                   \
    X(LOGGED_MARK, "Write the club on the shaft and put it with its head.")                        \
    X(LOGGED_BAND, "Scan the next part, or press.")                                                \
    /* saving */                                                                                   \
    X(NOT_LOGGED, "NOT LOGGED")                                                                    \
    X(NOT_LOGGED_LINE, "The disk does not take the entry. It is tried again every 2 seconds.")     \
    X(NOT_LOGGED_MARK, "The mark stays hidden until the log has it. Do not cut.")                  \
    X(NOT_LOGGED_TITLE, "What to do")                                                              \
    X(NOT_LOGGED_WRITE, "Write it down: %1")                                                       \
    X(NOT_LOGGED_WAIT, "Start no other cut. Leave the bench running.")                             \
    X(NOT_LOGGED_CALL, "Call the supervisor if it lasts more than a minute.")                      \
    X(NOT_LOGGED_BAND, "NOT LOGGED. Write it down and wait.")                                      \
    X(TROUBLE, "The log cannot be opened")                                                         \
    X(TROUBLE_CUT_NOT, "Do not cut. What was logged before is not touched.")                       \
    X(TROUBLE_CALL, "Call the supervisor, or whoever set up this bench.")                          \
    X(TROUBLE_WAIT, "It is tried again every 5 seconds.")                                          \
    X(TROUBLE_BAND, "No log, no cutting.")                                                         \
    X(SAFE, "The bench keeps ending by itself")                                                    \
    X(SAFE_LINE, "It was started %1 times in a short while and did not last.")                     \
    X(SAFE_UNTOUCHED,                                                                              \
      "So it does nothing for now: the log is not opened, nothing is written to it.")              \
    X(SAFE_STILL, "The last time it stood still until it was ended.")                              \
    X(SAFE_SIGNAL, "The last time the system ended it with signal %1.")                            \
    X(SAFE_STATUS, "The last time it ended with status %1.")                                       \
    X(SAFE_MEMORY, "The last time the machine ran out of memory.")                                 \
    X(SAFE_UNKNOWN, "What ended it is not known. The machine's journal may say more.")             \
    X(SAFE_CUT_NOT, "Do not cut. Write down what was cut and is not logged yet.")                  \
    X(SAFE_PRESS, "Then press, and it starts as usual. If it ends again, this comes back.")        \
    X(SAFE_BAND, "Press to try again.")                                                            \
    X(CHECKING, "Checking the log")                                                                \
    X(CHECKING_LINE, "It is not known yet whether the last entry is on the disk. Looking it up.")  \
    X(CHECKING_BAND, "Checking. Wait, and start no other cut.")                                    \
    X(OPEN_TIP, "tip cut of shaft %1, build %2 club %3")                                           \
    X(OPEN_BUTT, "butt cut of shaft %1, build %2 club %3")                                         \
    X(OPEN_MEASURE, "measured length of shaft %1, build %2 club %3")                               \
    X(OPEN_FIT, "bore height of the head for build %2 club %3")                                    \
    X(OPEN_OTHER, "your badge and the time")                                                       \
    X(OPEN_CLUB, "what you just did with shaft %1, build %2 club %3")                              \
    X(MARK_TIP, "Cut off the tip")                                                                 \
    X(MARK_BUTT, "Butt mark")                                                                      \
    X(MARK_MEASURE, "Measured length")                                                             \
    X(MARK_FIT, "Bore height")                                                                     \
    /* holds: lines */                                                                             \
    X(WHAT_TO_DO, "What to do")                                                                    \
    X(STOP_LOGGED, "This stop is in the log.")                                                     \
    X(STOP_NOT_LOGGED, "The disk did not take this stop: it is NOT in the log.")                   \
    X(HOLD_READ, "Read: %1")                                                                       \
    X(FAULT_LABEL, "This code is %1, a maker's or carrier's label. Scan the ticket's own code.")   \
    X(FAULT_OTHER, "This code is %1, no ticket of this shop. Scan the ticket's own code.")         \
    X(FAULT_CONTROL, "A control character (%1) came with the code, and no ticket has one. Scan "   \
                     "the ticket's own code.")                                                     \
    X(HOLD_MAKERS, "%1 names a model, never one shaft or head.")                                   \
    X(HOLD_MAKERS_HEAD, "It is the head %1. Free in stock: %3.")                                   \
    X(HOLD_MAKERS_SHAFT, "It is the shaft %1 %2. Free in stock: %3.")                              \
    X(HOLD_UNKNOWN_HEAD, "No head here has ticket %1.")                                            \
    X(HOLD_UNKNOWN_SHAFT, "No shaft here has ticket %1.")                                          \
    X(HOLD_UNKNOWN_BADGE, "No badge here has ticket %1.")                                          \
    X(HOLD_FOR_HEAD, "Head %1 is for build %2, club %3.")                                          \
    X(HOLD_FOR_SHAFT, "Shaft %1 is for build %2, club %3.")                                        \
    X(HOLD_NO_CLUB_HEAD, "Head %1 is for no build.")                                               \
    X(HOLD_NO_CLUB_SHAFT, "Shaft %1 is for no build.")                                             \
    X(HOLD_DONE, "Build %1, club %2 was cut and measured.")                                        \
    X(HOLD_LEFT, "%1 is no raw stock any more: one shaft, one life.")                              \
    X(HOLD_BENCH, "Build %1, club %2 was started at %3.")                                          \
    X(HOLD_WAITS, "Build %1, club %2 waits for a supervisor's decision.")                          \
    X(HOLD_DRAFT, "Order %1 is a draft.")                                                          \
    X(HOLD_HELD, "Order %1 is held.")                                                              \
    X(HOLD_CANCELLED, "Order %1 is cancelled.")                                                    \
    X(HOLD_CLUB_CANCELLED, "Club %2 of order %1 is cancelled.")                                    \
    X(CHANGE_CLUB, "Club %1: %2")                                                                  \
    X(CHANGE_PART, "%1: %2")                                                                       \
    X(CHANGE_ORDER, "%1")                                                                          \
    X(CHANGE_WHO, ". %1, %2.")                                                                     \
    X(HOLD_ROOM, "A cut that cannot be logged must not be made.")                                  \
    X(HOLD_STORE, "The disk or the database does not answer.")                                     \
    X(HOLD_SCANNER, "The computer does not see the scanner any more.")                             \
    X(HOLD_IN_WORK, "Build %1, club %2 is on the saw.")                                            \
    X(HOLD_NOT_ON, "A club is cut by somebody who is signed on.")                                  \
    X(HOLD_REFUSED, "The log says this step was done already, or the club moved elsewhere.")       \
    X(HOLD_PAST, "%1 cut off, the mark is %2. %3 too much.")                                       \
    X(HOLD_STIFFER, "The shaft will play stiffer than planned.")                                   \
    X(OUTCOME, "%1.")                                                                              \
    X(HOLD_SHORT, "Measured %1, the mark is %2. %3 short.")                                        \
    X(HOLD_PLAYING, "The playing length becomes %1.")                                              \
    X(HOLD_WAIT_CALLED, "Leave the shaft where it is and wait for the supervisor.")                \
    X(HOLD_UNSAFE, "Something at the saw is not as it must be.")                                   \
    X(HOLD_WRONG_LINE, "The parts at the saw are not those on the screen.")                        \
    X(HOLD_GUARD_LINE, "The program stopped itself: what it must know before a mark is missing.")  \
    X(HOLD_MOVE_LINE, "It wanted to go from %1 to %2, which is not allowed.")                      \
    X(HOLD_COMMAND, "%1 is a command for another moment.")                                         \
    X(HOLD_NO_HEAD, "Build %1, club %2 has no head assigned.")                                     \
    X(HOLD_NO_SHAFT, "Build %1, club %2 has no shaft assigned.")                                   \
    /* holds: what to do */                                                                        \
    X(DO_AGAIN, "Scan it once more, straight on, one ticket at a time.")                           \
    X(DO_TYPE, "Or type all of it on the keyboard and end with Enter.")                            \
    X(DO_SHOP_TICKET, "Scan the shop's own ticket on the part.")                                   \
    X(DO_RECEIVE, "Check the ticket. If it is new, have the part entered first.")                  \
    X(DO_BADGE, "Scan your badge.")                                                                \
    X(DO_OTHER_BADGE, "Scan another badge, or ask the supervisor.")                                \
    X(DO_HEAD_OR_SHAFT, "Scan a head or a shaft of it.")                                           \
    X(DO_FINISH, "Finish this club first, or start over and come back to it.")                     \
    X(DO_PUT_BACK_HEAD, "Put head %1 back.")                                                       \
    X(DO_PUT_BACK_SHAFT, "Put shaft %1 back.")                                                     \
    X(DO_SCAN_HEAD, "Scan head %1.")                                                               \
    X(DO_SCAN_SHAFT, "Scan shaft %1.")                                                             \
    X(DO_SCAN_SHAFT_RACK, "Scan shaft %1, rack %2.")                                               \
    X(DO_NEXT_LIST, "Take a club from the list.")                                                  \
    X(DO_ASK_BUILD, "Ask for it to be put into a build.")                                          \
    X(DO_ASIDE_BOTH, "Lay both parts aside together.")                                             \
    X(DO_ASK_DESK, "Ask at the desk; orders are released there.")                                  \
    X(DO_UNDERSTOOD, "Read it, then press: what comes next is planned anew.")                      \
    X(DO_SAY_CUT, "If the last mark is cut already, say so on the next screen.")                   \
    X(DO_RAW, "Take a raw shaft.")                                                                 \
    X(DO_BENCH, "Take both parts to %1.")                                                          \
    X(DO_DECIDE, "Supervisor: scan your badge, open the log, decide.")                             \
    X(DO_ASIDE, "Lay the shaft aside with its head.")                                              \
    X(DO_CONSENT, "Or a supervisor agrees here: touch Supervisor.")                                \
    X(DO_ROOM, "Have old files moved off this computer.")                                          \
    X(DO_STORE, "Call the supervisor. Do not cut from memory.")                                    \
    X(DO_PLUG, "Check its plug and cable. This stop ends by itself.")                              \
    X(DO_TYPE_TICKETS, "Meanwhile type tickets on the keyboard and end with Enter.")               \
    X(DO_MEASURE_FIRST, "Measure the shaft before anything else.")                                 \
    X(DO_SCAN_BOTH, "Then scan head and shaft again.")                                             \
    X(DO_SAFE, "Stop the wheel. Make it safe, or call the supervisor.")                            \
    X(DO_CARE_AGAIN, "Then press: the care list comes again.")                                     \
    X(DO_BOTH_BACK, "Put the parts back and scan the right ones.")                                 \
    X(DO_START_OVER, "Press to start over.")                                                       \
    X(DO_PRESS_BACK, "Press to go back.")                                                          \
    X(DO_CHOOSE, "Choose below what is wrong.")                                                    \
    X(DO_SETTING, "Set the scanner as its page in the handbook says, then scan again.")            \
    /* bands of holds */                                                                           \
    X(BAND_START_OVER, "Scan the right part, or press to start over.")                             \
    X(BAND_START_OVER_ONLY, "Press to start over.")                                                \
    X(BAND_BACK, "Press to go back.")                                                              \
    X(BAND_BADGE, "Scan a badge, or press.")                                                       \
    X(BAND_CHOOSE, "Choose, or press to go back.")                                                 \
    X(BAND_UNDERSTOOD, "Understood")                                                               \
    X(BAND_CARE, "Safe again? Press the button.")                                                  \
    /* one button */                                                                               \
    X(LONE_TAKE, "%1: hold 2 seconds")                                                             \
    X(LONE_ENTER, "Enter %1")                                                                      \
    X(LONE_GO_ON, "Go on")                                                                         \
    X(LONE_NUMBER, "Measured? Press for the next length, or scan number tickets.")                 \
    X(LONE_ENTERED, "Entered? Press, then hold.")                                                  \
    X(LONE_CHOOSE, "Press until the right one has the ring.")                                      \
    X(LONE_FIRST, "Press: choose. Hold 2 seconds: something is wrong")                             \
    X(LONE_FIRST_ONLY, "Press: choose")                                                            \
    X(LONE_NEXT, "Press: the next one")                                                            \
    X(BAND_HINT, "Hold 2 seconds: call the supervisor")                                            \
    /* pin, consent */                                                                             \
    X(PIN_TITLE, "Supervisor: type your PIN")                                                      \
    X(PIN_BADGE, "Supervisor: scan your badge")                                                    \
    X(PIN_BADGE_BAND, "Scan a supervisor's badge.")                                                \
    X(PIN_BAND, "Type the PIN, then press.")                                                       \
    X(PIN_WRONG, "The PIN is wrong. Try again.")                                                   \
    X(PIN_LOCKED, "Locked. Another supervisor unlocks it here; without one, root does: "           \
                  "kerfside pin --recover")                                                        \
    X(PIN_UNLOCK, "To unlock %1: another supervisor scans the badge.")                             \
    X(PIN_UNLOCK_OWN, "Another supervisor must do that.")                                          \
    X(PIN_UNLOCKED, "Unlocked. Type the PIN.")                                                     \
    X(L_UNLOCK, "Another unlocks it")                                                              \
    X(PIN_NO_PEPPER, "The key file of the PINs is missing. Call whoever set up this bench.")       \
    X(PIN_NOT_SET, "%1 has no PIN yet. It is set on the command line.")                            \
    X(PIN_FAILED, "The PIN could not be checked: the log does not answer. Try again.")             \
    X(PIN_SCAN, "A scan is no PIN. Type the digits.")                                              \
    X(PIN_NO_SUPERVISOR, "%1 is no supervisor. Scan a supervisor's badge.")                        \
    X(PIN_UNKNOWN, "This badge is not known here. Scan a supervisor's badge.")                     \
    X(PIN_EMPTY, "Type the PIN first.")                                                            \
    X(CONSENT, "%1: what do you agree to?")                                                        \
    X(CONSENT_BAND, "Supervisor: choose.")                                                         \
    X(CONSENT_SHIM, "Agree to a shim")                                                             \
    X(CONSENT_EXTENSION, "Agree to an extension of the butt")                                      \
    X(TRIM_ASK, "%1: how much comes off the tip, in all?")                                         \
    X(TRIM_HELP, "%1 Counted from the tip its maker made.")                                        \
    X(TRIM_FIELD, "Tip trim")                                                                      \
    X(TRIM_RESULT, "The tip mark is %1 then, the butt mark %2.")                                   \
    X(TRIM_BAND, "Supervisor: enter it, then press.")                                              \
    X(CONSENT_COLUMN, "Column %1 · %2")                                                            \
    X(CONSENT_LINE, "What you choose goes into the log with your name.")                           \
    /* review */                                                                                   \
    X(REVIEW, "Cut log")                                                                           \
    X(REVIEW_DAY, "%1")                                                                            \
    X(REVIEW_SUM, " · %1 · %2 · %3")                                                               \
    X(REVIEW_ALL, "All entries")                                                                   \
    X(REVIEW_BUILD, "Build %1")                                                                    \
    X(REVIEW_WORKER, "Worker %1")                                                                  \
    X(REVIEW_VERDICT, "Verdict %1")                                                                \
    X(REVIEW_LIFE, "The life of %1")                                                               \
    X(REVIEW_EVERY_DAY, "Every day")                                                               \
    X(REVIEW_DAYS, "%1 to %2")                                                                     \
    X(REVIEW_BENCH, "%1")                                                                          \
    X(REVIEW_MATERIAL, "%1")                                                                       \
    X(REVIEW_BAND_FILTER, "Show what? Choose, or go back to the list: F3")                         \
    X(FILTER_TITLE, "Show only")                                                                   \
    X(FILTER_HINT, "A scanned or typed ticket shows the whole life of its part or build.")         \
    X(FILTER_TYPE, "Days may be typed too: 2026-03-31, or 2026-03-01/2026-03-31.")                 \
    X(FILTER_ANY, "any")                                                                           \
    X(FILTER_DAYS, "Days: %1")                                                                     \
    X(FILTER_WORKER, "Worker: %1")                                                                 \
    X(FILTER_BENCH, "Bench: %1")                                                                   \
    X(FILTER_MATERIAL, "Material: %1")                                                             \
    X(FILTER_VERDICT, "Verdict: %1")                                                               \
    X(FILTER_TODAY, "Today")                                                                       \
    X(FILTER_WEEK, "Last 7 days")                                                                  \
    X(FILTER_MONTH, "Last 30 days")                                                                \
    X(FILTER_YEAR, "Last 365 days")                                                                \
    X(FILTER_FROM_BACK, "First day back")                                                          \
    X(FILTER_FROM_ON, "First day on")                                                              \
    X(FILTER_TO_BACK, "Last day back")                                                             \
    X(FILTER_TO_ON, "Last day on")                                                                 \
    X(REVIEW_OPEN, "Waiting for a decision")                                                       \
    X(REVIEW_AND, " · ")                                                                           \
    X(REVIEW_BAND, "Choose a row. Arrow keys or touch.")                                           \
    X(REVIEW_BAND_OPEN, "This cut waits for a decision.")                                          \
    X(REVIEW_BAND_NOTE, "Press to save the note with entry %1.")                                   \
    X(REVIEW_NOTED, "The note is in the log, with entry %1.")                                      \
    X(REVIEW_NOT_NOTED, "The log did not take the note.")                                          \
    X(SAID, "%1 %2 %3, %4")                                                                        \
    X(SAID_NOTE, "%1 %2 %3, %4: %5")                                                               \
    X(REVIEW_BAND_SPARE, "Choose the shaft for the recut.")                                        \
    X(REVIEW_NO_SPARE, "No raw shaft of this model and flex is free.")                             \
    X(REVIEW_NOTE_FIRST, "Type a note first: why is it used or scrapped?")                         \
    X(REVIEW_DECIDED, "Decided and logged.")                                                       \
    X(REVIEW_RECUT, "Decided and logged. %1 is reserved: tip mark %2, butt mark %3.")              \
    X(REVIEW_RECUT_REFUSED, "Decided and logged. %1 is reserved, but has no plan: %2")             \
    X(REVIEW_EXPORTED, "Written to %1")                                                            \
    X(REVIEW_NOT_EXPORTED, "The file could not be written. Is there room on the disk?")            \
    X(REVIEW_NO_SCAN, "That is no ticket, build or day. Days: 2026-03-01/2026-03-31")              \
    X(REVIEW_GONE, "This entry waits for no decision any more.")                                   \
    X(REVIEW_FAILED, "The log does not answer. Try again.")                                        \
    X(REVIEW_EMPTY, "No entries here.")                                                            \
    X(COPIES_UNSET, "No copies of the log are set up")                                             \
    X(COPIES_NONE, "No copy of the log yet")                                                       \
    X(COPIES_NOW, "Last copy within the hour")                                                     \
    X(COPIES_HOUR, "Last copy an hour ago")                                                        \
    X(COPIES_HOURS, "Last copy %1 hours ago")                                                      \
    X(COPIES_DAYS, "Last copy %1 days ago")                                                        \
    X(COPIES_FAIL, "No copy of the log: %1")                                                       \
    X(COPIES_LATE, "The log has no fresh copy. Tell a supervisor.")                                \
    X(STATUS_COPIES, "Copies")                                                                     \
    X(DETAIL, "%1 %2, %3")                                                                         \
    X(DETAIL_PLAN, "Plan %1, made %2")                                                             \
    X(DETAIL_TOLERANCE, "Tolerance %1")                                                            \
    X(DETAIL_WHO, "%1, %2, %3")                                                                    \
    X(DETAIL_CAUSE, "Why: %1")                                                                     \
    X(DETAIL_NOTE, "Note: %1")                                                                     \
    X(DETAIL_REFERS, "About entry %1")                                                             \
    X(DETAIL_PLAYING, "Playing length becomes %1")                                                 \
    X(ENTRY_TITLE, "Entry %1: %2")                                                                 \
    X(FACT, "%1: %2")                                                                              \
    X(FACT_NO_PLAN, "No plan belongs to this entry.")                                              \
    X(FACT_BAD_PLAN, "The plan in this entry cannot be read: check the log.")                      \
    X(CHANGE_MADE, "New in %1")                                                                    \
    X(CHANGE_TAKEN, "Taken out of %1")                                                             \
    X(CHANGE_OF, "Changed in %1")                                                                  \
    X(CHANGE_CELL, "%1: %2, now %3")                                                               \
    X(CHANGE_ONE, "%1: %2")                                                                        \
    X(CHANGE_NONE, "not known")                                                                    \
    X(CHANGE_MORE, "and %1 more")                                                                  \
    X(SHOWN_TITLE, "As it was shown: entry %1, %2 %3")                                             \
    X(SHOWN_BAND, "Not for cutting. Back to the entry: F3")                                        \
    X(ENTRY_BAND, "Back to the list: F3")                                                          \
    /* scanner check */                                                                            \
    X(SELFCHECK, "Self-check")                                                                     \
    X(SELFCHECK_ALL_GOOD, "All of it is good.")                                                    \
    X(SELFCHECK_COUNTS, "Bad: %1. To look at: %2.")                                                \
    X(SELFCHECK_GOOD, "good")                                                                      \
    X(SELFCHECK_LOOK, "look")                                                                      \
    X(SELFCHECK_BAD, "bad")                                                                        \
    X(SELFCHECK_BAND, "Press to go on.")                                                           \
    X(SELFCHECK_STOP, "The log cannot be trusted. Cut nothing more.")                              \
    X(CHECK, "Scanner check")                                                                      \
    X(CHECK_MORE, "Scan any ticket, best the check card. Nothing is done with it.")                \
    X(CHECK_BAND, "Scan a ticket, or press to close.")                                             \
    /* statistics */                                                                               \
    X(STATS, "How well it was cut")                                                                \
    X(STATS_WHERE, "%1 · %2")                                                                      \
    X(STATS_CAUSE, "Stops")                                                                        \
    X(STATS_COUNT, "Times")                                                                        \
    X(STATS_OFF, "Off plan, 0.001 in")                                                             \
    X(STATS_RANGE, "Change from club to club")                                                     \
    X(STATS_HOURS, "Cuts by hour of the day")                                                      \
    X(STATS_MEASURED, "Clubs measured %1, cuts %2, shafts scrapped %3.")                           \
    X(STATS_MEAN, "Mean %1, limits %2 to %3 (individuals chart).")                                 \
    X(STATS_CAPABLE, "Cp %1, Cpk %2 against the tolerance of %3.")                                 \
    X(STATS_NOT_CAPABLE, "Capability not known yet.")                                              \
    X(STATS_CALM, "No run rule speaks up.")                                                        \
    X(STATS_LOOK, "Look at this bench: %1 (Western Electric rules).")                              \
    X(STATS_FEW, "A chart of lengths needs two measured clubs.")                                   \
    X(STATS_COVERS, "The newest %1 entries, from %2 on; older ones are left out.")                 \
    X(STATS_BAND, "Back to the list: F3")                                                          \
    /* day */                                                                                      \
    X(DAY, "The day")                                                                              \
    X(DAY_DONE, "Clubs done")                                                                      \
    X(DAY_CUTS, "Cuts")                                                                            \
    X(DAY_OUT, "Out of tolerance")                                                                 \
    X(DAY_STOPS, "Stops")                                                                          \
    X(DAY_OPEN, "To be decided, all days")                                                         \
    X(DAY_ENTRIES, "Entries of the whole log")                                                     \
    X(DAY_UNCOVERED, "Of those, after the last signature")                                         \
    X(DAY_NOT_SIGNED, "This day is not signed yet")                                                \
    X(DAY_SIGNED, "Signed by %1, %2 %3")                                                           \
    X(DAY_ASK, "Sign %1?")                                                                         \
    X(DAY_ASK_LINE, "You sign all %1 entries of the log as they are now. A note of it goes to "    \
                    "the witness.")                                                                \
    X(DAY_ASK_OPEN, "Cuts that still wait for a decision: %1.")                                    \
    X(DAY_ASK_CHECK, "The whole log is checked first, which takes a while with a large one.")      \
    X(DAY_CHECK, "Checking the log: %1 of %2 entries")                                             \
    X(DAY_CHECK_MILLIONS, "Checking the log: %1 of %2 million entries")                            \
    X(DAY_CHECK_REST, "Checking the log: all entries are read, now what belongs to them")          \
    X(DAY_CHECK_LINE, "It is signed when all is whole. Nothing is signed yet.")                    \
    X(DAY_CODE, "The code is the signed note. Scanned into a file, it is a witness too.")          \
    X(DAY_KEPT, "Signed: in the log and in the witness.")                                          \
    X(DAY_UNKEPT, "Signed in the log, but the witness does not have it.")                          \
    X(DAY_UNKNOWN, "Nobody can say yet whether the day was signed.")                               \
    X(DAY_REFUSED, "Not signed.")                                                                  \
    X(DAY_BAND, "Back to the list: F3")                                                            \
    X(DAY_BAND_ASK, "Sure? Sign it, or go back.")                                                  \
    X(DAY_BAND_CHECK, "Press to stop the check. Nothing is signed then.")                          \
    X(DAY_STOPPED, "Stopped. Not signed.")                                                         \
    X(DAY_NO_PAPER, "The file could not be written. Is there room on the disk?")                   \
    /* set */                                                                                      \
    X(SET_SUBTITLE, "Planned, and measured in brackets. All estimates but the length.")            \
    X(SET_CLUB, "Club")                                                                            \
    X(SET_HEAD, "Head")                                                                            \
    X(SET_SHAFT, "Shaft")                                                                          \
    X(SET_LENGTH, "Length")                                                                        \
    X(SET_WEIGHT, "Weight")                                                                        \
    X(SET_SWINGWEIGHT, "Swingweight")                                                              \
    X(SET_FREQUENCY, "Frequency")                                                                  \
    X(SET_RACK, "Rack")                                                                            \
    X(SET_RAW, "Raw length")                                                                       \
    X(SET_SHAFT_WEIGHT, "Weight")                                                                  \
    X(SET_REAL, " (%1)")                                                                           \
    X(SET_REAL_OUT, " (%1 out)")                                                                   \
    X(SET_UNKNOWN, "not known")                                                                    \
    X(SET_NO_SHAFT, "to be chosen")                                                                \
    X(SET_EVEN, "No club stands out from the line of the others.")                                 \
    X(SET_GAP, "Club %1: %2.")                                                                     \
    X(SET_BAND, "Scan a part of another build, or choose a club.")                                 \
    X(SET_BAND_ODD, "Look at what stands out before it is cut.")                                   \
    X(SET_BAND_FAILED, "This build cannot be read now. Try again.")                                \
    X(SET_GONE, "The set has changed: the club that was chosen is not in it any more.")            \
    X(SET_NO_BUILD, "%1 belongs to no build here.")                                                \
    X(SET_NO_SCAN, "Scan a head, a shaft or the ticket of a build.")                               \
    X(SET_FIRST, "This is the first build.")                                                       \
    X(SET_LAST, "This is the last build.")                                                         \
    X(KIT_TITLE, "Build %1 · shafts from stock")                                                   \
    X(KIT_SUBTITLE, "%1 of %2 clubs, %3 shafts in stock")                                          \
    X(KIT_SPREAD, "Spread %1: the least that this stock allows (estimate).")                       \
    X(KIT_BAND, "Accept the list, or choose by what it is matched.")                               \
    X(KIT_NONE, "No shaft in stock fits a club of this build.")                                    \
    X(KIT_ACCEPTED, "Accepted and logged. Fetch the shafts by their tickets.")                     \
    X(KIT_CHANGED,                                                                                 \
      "Not accepted: the stock or the build has changed. This is the list now; look at it first.") \
    X(KIT_REFUSED,                                                                                 \
      "Not accepted: a club or a shaft of the list has changed. Look at the new list.")            \
    X(KIT_NOT_SAVED,                                                                               \
      "NOT LOGGED: the disk did not take the list. Nothing is reserved; try again.")               \
    /* final */                                                                                    \
    X(FINAL_LENGTH, "How long is the finished club, ground to end of grip cap?")                   \
    X(FINAL_LENGTH_RULES,                                                                          \
      "How long is the finished club, sole against the 60-degree plane, to the end of the grip?")  \
    X(FINAL_SWINGWEIGHT, "What does the finished club show on the swingweight scale?")             \
    X(FINAL_FREQUENCY, "What is its frequency, clamped over the last 5 in?")                       \
    X(FINAL_LOFT, "What is its loft on the gauge?")                                                \
    X(FINAL_LIE, "What is its lie on the gauge?")                                                  \
    X(FINAL_IN, "Within %1 of what was planned.")                                                  \
    X(FINAL_OUT, "Out: more than %1 off what was planned.")                                        \
    X(FINAL_HELP, "Build %1, club %2. Planned: %3.")                                               \
    X(FINAL_FIELD_LENGTH, "Playing length")                                                        \
    X(FINAL_FIELD_SWINGWEIGHT, "As D2.3")                                                          \
    X(FINAL_FIELD_FREQUENCY, "Cycles a minute")                                                    \
    X(FINAL_FIELD_ANGLE, "Degrees")                                                                \
    X(FINAL_BAND, "Enter it, then press.")                                                         \
    X(FINAL_BAD_LENGTH, "A club is 10 to 70 in long. Enter it again.")                             \
    X(FINAL_BAD_SWINGWEIGHT, "A swingweight is a letter A to G and 0 to 9.9 points, as D2.3.")     \
    X(FINAL_BAD_FREQUENCY, "A frequency is 50 to 600 cycles a minute, with at most one decimal.")  \
    X(FINAL_BAD_LOFT, "A loft is 0 to 75 degrees, with at most one decimal.")                      \
    X(FINAL_BAD_LIE, "A lie is 45 to 80 degrees, with at most one decimal.")                       \
    X(FINAL_NO_SCAN, "That is not such a value. Enter what was measured.")                         \
    X(FINAL_LOGGED, "Logged.")                                                                     \
    X(FINAL_REFUSED, "Not logged: the club is not done, or it has changed.")                       \
    X(LESSON_STEP, "%1 · %2 of %3")                                                                \
    /* labels */                                                                                   \
    X(L_PRESS, "Button")                                                                           \
    X(L_HELD, "Something is wrong")                                                                \
    X(L_NOT_SAFE, "Not safe")                                                                      \
    X(L_SIGN_OUT, "Sign off")                                                                      \
    X(L_START_OVER, "Start over")                                                                  \
    X(L_BACK, "Back")                                                                              \
    X(L_DRY_FIT, "Dry fit again")                                                                  \
    X(L_REVIEW, "Cut log")                                                                         \
    X(BAND_DESK, "Choose what to do.")                                                             \
    X(L_DESK, "Desk")                                                                              \
    X(L_SUPERVISOR, "Supervisor")                                                                  \
    X(L_SELFCHECK, "Self-check")                                                                   \
    X(L_LOOK_AGAIN, "Look again")                                                                  \
    X(L_SOUNDS, "Play the sounds")                                                                 \
    X(L_MORE, "More")                                                                              \
    X(L_LESS, "Back up")                                                                           \
    X(L_CHECK, "Scanner check")                                                                    \
    X(L_CONSENT, "Supervisor")                                                                     \
    X(L_CALL, "Call supervisor")                                                                   \
    X(L_EARLY_TIP, "Pressed too early: tip not cut")                                               \
    X(L_EARLY_BUTT, "Pressed too early: butt not cut")                                             \
    X(L_TIP_OFF, "Tip is cut off the mark")                                                        \
    X(L_MEASURED_WRONG, "Measured wrong")                                                          \
    X(L_WRONG_PARTS, "Wrong parts")                                                                \
    X(L_NOT_CUT, "Not cut yet")                                                                    \
    X(L_CUT, "Cut at the mark")                                                                    \
    X(L_OTHER, "Cut somewhere else")                                                               \
    X(L_OLDER, "Older")                                                                            \
    X(L_NEWER, "Newer")                                                                            \
    X(L_DAY_BACK, "Day before")                                                                    \
    X(L_DAY_ON, "Day after")                                                                       \
    X(L_BUILD, "This build")                                                                       \
    X(L_FILTER, "Filter")                                                                          \
    X(L_OPEN, "Open only")                                                                         \
    X(L_CLEAR, "Clear filters")                                                                    \
    X(L_SHOWN, "As it was shown")                                                                  \
    X(L_ENTRY, "Open entry")                                                                       \
    X(L_USE, "Use as it is")                                                                       \
    X(L_RECUT, "Recut on a new shaft")                                                             \
    X(L_SCRAP, "Scrap")                                                                            \
    X(L_NOTE, "Type a note")                                                                       \
    X(L_NOTE_DONE, "Note done")                                                                    \
    X(L_EXPORT, "Export CSV")                                                                      \
    X(L_STATS, "Charts")                                                                           \
    X(L_LIFE, "Its log")                                                                           \
    X(L_TICKETS, "Tickets")                                                                        \
    X(L_SET, "The set")                                                                            \
    X(L_BUILD_BACK, "Build before")                                                                \
    X(L_BUILD_ON, "Build after")                                                                   \
    X(L_KIT, "Choose shafts")                                                                      \
    X(L_KIT_ACCEPT, "Accept the list")                                                             \
    X(L_KIT_SWINGWEIGHT, "By swingweight")                                                         \
    X(L_KIT_FLEX, "By flex")                                                                       \
    X(L_FINAL_LENGTH, "+ Length")                                                                  \
    X(L_FINAL_SWINGWEIGHT, "+ Swingweight")                                                        \
    X(L_FINAL_FREQUENCY, "+ Frequency")                                                            \
    X(L_FINAL_LOFT, "+ Loft")                                                                      \
    X(L_FINAL_LIE, "+ Lie")                                                                        \
    X(L_DAY, "The day")                                                                            \
    X(L_REPORT, "Day report")                                                                      \
    X(L_LEDGER, "Ledger CSV")                                                                      \
    X(L_SIGN, "Sign the day")                                                                      \
    X(L_SIGN_CONFIRM, "Sign it")                                                                   \
    X(L_STOP_CHECK, "Stop")                                                                        \
    X(L_LEAVE, "Back to the saw")                                                                  \
    X(L_CLOSE, "Close the log")

// The same about %1 things: for one, for more.
#define COUNTED_WORDS(Y)                                                                           \
    Y(WAITS, "%1 club waits", "%1 clubs wait")                                                     \
    Y(WAITS_PACE, "%1 club waits: %2 at this bench's pace",                                        \
      "%1 clubs wait: %2 at this bench's pace")                                                    \
    Y(DO_MORE_CHANGES, "And %1 more before: ask for it at the desk.",                              \
      "And %1 more before: ask for them at the desk.")                                             \
    Y(PIN_WAIT, "Too many tries. Wait %1 second, then try again.",                                 \
      "Too many tries. Wait %1 seconds, then try again.")                                          \
    Y(SAID_EARLIER, "%1 more entry before these.", "%1 more entries before these.")                \
    Y(SET_WAITING, "%1 club has no shaft yet.", "%1 clubs have no shaft yet.")                     \
    Y(SET_TITLE, "Build %2 · %1 club", "Build %2 · %1 clubs")                                      \
    Y(REVIEW_CUTS, "%1 cut", "%1 cuts")                                                            \
    Y(REVIEW_OUT, "%1 out of tolerance", "%1 out of tolerance")                                    \
    Y(REVIEW_STOPS, "%1 stop", "%1 stops")

enum word {
#define X(name, text) WORD_##name,
    WORDS(X)
#undef X
        WORD_COUNT
};

enum counted_word {
#define Y(name, one, more) WORDS_##name,
    COUNTED_WORDS(Y)
#undef Y
        COUNTED_WORD_COUNT
};

// In the shop's language.
const char *word(enum word which);

// The text with a, b, c for %1, %2, %3 (NULL: nothing); the buffer is filled up with zeros.
void words_fill(char *buffer, size_t size, enum word which, const char *a, const char *b,
                const char *c);

// The same in English whatever the language, for the log.
void words_source(char *buffer, size_t size, enum word which, const char *a, const char *b,
                  const char *c);
const char *word_source(enum word which);

// The same with `count` for %1, and b for %2.
void words_count(char *buffer, size_t size, enum counted_word which, int64_t count, const char *b);

// Copies plain text, cut at a whole character, the buffer filled up with zeros.
void words_copy(char *buffer, size_t size, const char *text);

// Adds to what stands there already.
void words_add(char *buffer, size_t size, enum word which, const char *a, const char *b,
               const char *c);

#define SAY(array, name, a, b, c) words_fill(array, sizeof(array), WORD_##name, a, b, c)
#define SET(array, text) words_copy(array, sizeof(array), text)

#endif
