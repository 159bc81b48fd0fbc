/* Writes jobs of chance as folders, for tests/page/engine.mjs: write_jobs N DIR -> DIR/0 ... DIR/N-1, each an existing
 * folder. */
#include "../random_job.h"

#include <stdlib.h>

int main(int argc, char **argv)
{
  if (argc != 3) return 64;
  for (int i = 0; i < atoi(argv[1]); i++) {
    static draft d;
    char dir[200];
    snprintf(dir, sizeof dir, "%.180s/%d", argv[2], i);
    draft_of(i, &d);
    write_job(&d, dir, 0);
  }
  return 0;
}
