/* What has to stand before any command runs. */
#ifndef CLI_START_H
#define CLI_START_H

/* Descriptors 0 to 2 are open (a closed one becomes one on which reading or writing fails, so that no
 * file of ours takes its number and nothing that was to be printed is lost in silence), signals are
 * taken over, what a killed run left behind will be told, what is printed is held (held.h). 0: not even that can be had. */
int cli_start(void);

#endif
