/* Lengths as the tape reads: inches and binary fractions of an inch. */
#ifndef BASE_TAPE_H
#define BASE_TAPE_H

#include <stddef.h>

/* Length as text, to the nearest 1/denominator in (8, 16, 32 or 64), fraction in lowest terms:
 * "35 1/2", "3/8", "0". A length that is not finite gives "-". No unit mark. */
void pw_tape_text(double length, int denominator, char text[], size_t size);

/* The largest multiple of 1/denominator in that is not above length (a hair of rounding noise, a
 * millionth of a step, is forgiven). m in, m out. */
double pw_tape_floor(double length, int denominator);

#endif
