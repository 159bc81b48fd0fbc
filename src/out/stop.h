/* The end that a signal brings (interrupt, terminate, hang up): temporary files go, helpers end, then
 * the process dies by that signal. Caught only where the caller of the program did not ignore it. */
#ifndef OUT_STOP_H
#define OUT_STOP_H

/* Takes the signals over; writing to a closed pipe or beyond a size limit becomes an error of the
 * write instead of a signal. Called once, at the start. */
void pw_stop_catch(void);

/* Between hold and release a signal is only remembered (a helper is ended at once); release then lets it
 * take effect. May be nested. */
void pw_stop_hold(void);
void pw_stop_release(void);

/* A helper runs in this process group, from any thread, until pw_stop_helper_gone of what is returned; it ends with us. */
int pw_stop_helper(int group);
void pw_stop_helper_gone(int place);

/* Whether a signal is waiting to take effect: nothing new need be begun. */
int pw_stop_asked(void);

/* What else to do before the end; it must call only what a signal handler may. One is kept. */
void pw_stop_clean(void (*clean)(void));

#endif
