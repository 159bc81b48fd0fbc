/* What a run that was killed left behind: found by the next one, told, and not touched. */
#ifndef OUT_LEFT_OVER_H
#define OUT_LEFT_OVER_H

/* Who is to be told of a path; NULL (at the start): nobody. */
void pw_left_over_tell(void (*tell)(const char *path));

/* Looks in folder for names that begin with prefix, go on with the number of a process that is no
 * more, and with '-'. */
void pw_left_over_look(const char *folder, const char *prefix);

#endif
