/* Small words on top of jansson, so that every command writes JSON alike. */
#ifndef OUT_JSON_H
#define OUT_JSON_H

#include <jansson.h>
#include <stdio.h>

#include "panewright/status.h"

/* A number, or null when it is not finite. */
json_t *pw_json_real(double v);
void pw_json_set(json_t *object, const char *key, double v);
void pw_json_set_text(json_t *object, const char *key,
                      const char *text); /* bad UTF-8 becomes '?' */

/* An array of n numbers. */
json_t *pw_json_array(const double v[], size_t n);

/* Prints with two-space indent, 12 digits and a newline, and releases root. PW_E_IO on failure. */
pw_status pw_json_print(json_t *root, FILE *f, pw_err *err);

#endif
