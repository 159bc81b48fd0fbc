/* A fence around a helper program, where the kernel allows one.
 *
 * Files (landlock): read and run what lies under /usr, /lib*, /bin, the fonts' settings and cache, the
 * loader's cache and the helper's own folder; write only in its private folder. Calls (seccomp): no
 * socket but of the family AF_UNIX, no way out of the process group that is ended with the helper, no
 * io_uring, no look into other processes.
 */
#ifndef OUT_FENCE_H
#define OUT_FENCE_H

enum { PW_FENCE_FILES = 1, PW_FENCE_CALLS = 2, PW_FENCE_ALL = 3 };

/* The rules about files, to be made before the fork. Given what runs, the program it
 * runs (often the same), both absolute, and the private folder. Returns a descriptor to hand to pw_fence_enter and to close, or -1: the kernel has none. */
int pw_fence_rules(const char *program, const char *also, const char *private_folder);

/* In the child, between fork and exec: which of the fences hold, by PW_FENCE_ bits. */
int pw_fence_enter(int rules);

#endif
