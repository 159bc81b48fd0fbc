#include "job/text_file.h"

#include <string.h>

const char *pw_text_file_find(const char *path)
{
  for (unsigned i = 0; i < pw_text_file_count; i++)
    if (strcmp(pw_text_files[i].path, path) == 0) return pw_text_files[i].text;
  return NULL;
}
