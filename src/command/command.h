#ifndef COMMAND_H
#define COMMAND_H

// One function a subcommand. argv[0] is the subcommand's name. Each returns the exit status, and
// says on stderr what, where and what to do when it is not COMMAND_DONE.

enum command_status {
    COMMAND_DONE = 0,
    COMMAND_REFUSED = 1, // refused, failed, or something was found wrong
    COMMAND_USAGE = 2
};

int command_backup(int argc, char **argv);
int command_bench(int argc, char **argv);
int command_card(int argc, char **argv);
int command_certificate(int argc, char **argv);
int command_check(int argc, char **argv);
int command_demo(int argc, char **argv);
int command_help(int argc, char **argv);
int command_import(int argc, char **argv);
int command_key(int argc, char **argv);
int command_ledger(int argc, char **argv);
int command_log(int argc, char **argv);
int command_match(int argc, char **argv);
int command_people(int argc, char **argv);
int command_pick(int argc, char **argv);
int command_pin(int argc, char **argv);
int command_practice(int argc, char **argv);
int command_plan(int argc, char **argv);
int command_queue(int argc, char **argv);
int command_read(int argc, char **argv);
int command_report(int argc, char **argv);
int command_restore(int argc, char **argv);
int command_settings(int argc, char **argv);
int command_sign(int argc, char **argv);
int command_stock(int argc, char **argv);
int command_decoder(int argc, char **argv);
int command_tickets(int argc, char **argv);
int command_version(int argc, char **argv);

#endif
