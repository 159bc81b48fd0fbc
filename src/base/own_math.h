/* Functions of the year and of what feeds it. The C library's differ in their last digits from machine to machine
 * (and in a page); these are + - * /, root, choice and bits alone, so a year has the same bits everywhere. Internal.
 *
 * Errors, in units of the last place, held by tests/test_own_math.c against 80-bit functions of the C library:
 *   pw_exp, pw_power, pw_root3                                            below 1
 *   pw_sin, pw_cos (|x| < 1e6), pw_atan, pw_atan2                         below 1.5
 *   pw_log, pw_log10, pw_expm1, pw_hypot, pw_tan, pw_asin, pw_acos        below 2.5
 *   pw_tanh                                                               below 4
 * Angles in radians. Outside their domain they give NaN; nothing sets errno. */
#ifndef BASE_OWN_MATH_H
#define BASE_OWN_MATH_H

double pw_exp(double x);
double pw_expm1(double x); /* e^x - 1 */
double pw_log(double x);   /* natural */
double pw_log10(double x);
double pw_tanh(double x);
double pw_power(double x, double e); /* x^e, x >= 0 */
double pw_root3(double x);           /* cube root */
double pw_hypot(double a, double b); /* root of a2 + b2; squares must not overflow */
double pw_sin(double x);
double pw_cos(double x);
void pw_sin_cos(double x, double *sine, double *cosine);
double pw_tan(double x);
double pw_asin(double x);
double pw_acos(double x);
double pw_atan(double x);
double pw_atan2(double y, double x);

#endif
