/* Around a GSL call that can raise: GSL's handler, which by default ends the program, is held off, and the call's status or
 * NULL is looked at instead. GSL keeps one handler for all threads: a host that calls the library from several turns it
 * off once itself (gsl_set_error_handler_off), as the command does; with one thread nothing is asked of it. */
#ifndef BASE_GSL_QUIET_H
#define BASE_GSL_QUIET_H

#include <gsl/gsl_errno.h>

static inline gsl_error_handler_t *pw_gsl_hold(void) { return gsl_set_error_handler_off(); }
static inline void pw_gsl_release(gsl_error_handler_t *held) { gsl_set_error_handler(held); }

#endif
