#define _GNU_SOURCE /* renameat2 */
#include "out/name_swap.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>

int pw_name_swap(const char *a, const char *b)
{
#ifdef RENAME_EXCHANGE
  return renameat2(AT_FDCWD, a, AT_FDCWD, b, RENAME_EXCHANGE) == 0 ? 0 : errno;
#else
  (void)a;
  (void)b;
  return ENOSYS;
#endif
}
