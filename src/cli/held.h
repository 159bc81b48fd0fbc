/* What a command prints on standard output, held back until its end: a run that fails, for want of memory too, prints
 * nothing there. Rows of a batch do not come through here: they go out as they are made. */
#ifndef CLI_HELD_H
#define CLI_HELD_H

/* From now on what is printed is kept; 0: no memory. Where the C library cannot exchange stdout (only glibc can), nothing is held. */
int cli_hold(void);

typedef enum cli_held { CLI_HELD_OUT, CLI_HELD_NO_MEMORY, CLI_HELD_NOT_WRITTEN } cli_held;

/* Lets all of it go out; errno says why it was not written. Called once, at the end. */
cli_held cli_let_go(void);

#endif
