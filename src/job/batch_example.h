/* Valid, varied rows to start a batch from and to measure with. Invented, the same every time. */
#ifndef JOB_BATCH_EXAMPLE_H
#define JOB_BATCH_EXAMPLE_H

#include <stddef.h>

enum { PW_BATCH_EXAMPLE_MAX = 512 };

/* The header line and row i (from 0), each with its line end; text[PW_BATCH_EXAMPLE_MAX]. Returns the
 * length. Row i does not depend on how many are asked for. */
size_t pw_batch_example_header(char text[]);
size_t pw_batch_example(unsigned long i, char text[]);

#endif
