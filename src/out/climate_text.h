/* What weather a job was given, as one line. */
#ifndef OUT_CLIMATE_TEXT_H
#define OUT_CLIMATE_TEXT_H

#include "out/message_text.h"

enum { PW_CLIMATE_TEXT = 2 * PW_MESSAGE_TEXT };

/* Makes the line of job/climate_of_job's two messages and returns text; said NULL: "". tongue NULL: English. */
const char *pw_climate_text(const pw_tongue *tongue, const pw_message said[],
                            char text[PW_CLIMATE_TEXT]);

#endif
