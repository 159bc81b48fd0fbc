/* Two names of one folder change places in one step, where the system can do that. */
#ifndef OUT_NAME_SWAP_H
#define OUT_NAME_SWAP_H

/* 0 done; an errno: nothing has changed (ENOSYS: this system knows no such call). */
int pw_name_swap(const char *a, const char *b);

#endif
