/* For the analyzers alone: a refusal gives back the code that it was given, and no PW_OK. */
#include "panewright/status.h"
#define pw_fail(err, code, ...) (pw_fail(err, code, __VA_ARGS__), (code))
#define pw_fail_at(err, code, ...) (pw_fail_at(err, code, __VA_ARGS__), (code))
