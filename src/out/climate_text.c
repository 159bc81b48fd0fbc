#include "out/climate_text.h"

#include <stdio.h>

const char *pw_climate_text(const pw_tongue *tongue, const pw_message said[],
                            char text[PW_CLIMATE_TEXT])
{
  char place[PW_MESSAGE_TEXT], height[PW_MESSAGE_TEXT];
  text[0] = '\0';
  if (said)
    snprintf(text, PW_CLIMATE_TEXT, "%s; %s",
             pw_message_text(tongue, &said[0], place, sizeof place),
             pw_message_text(tongue, &said[1], height, sizeof height));
  return text;
}
