/* How a call went, and in one line what was wrong. */
#ifndef PANEWRIGHT_STATUS_H
#define PANEWRIGHT_STATUS_H

typedef enum pw_status {
  PW_OK = 0,
  PW_E_DOMAIN,   /* a value outside its range or not finite */
  PW_E_SHAPE,    /* a wrong count or size */
  PW_E_CONVERGE, /* an iteration did not settle */
  PW_E_NOMEM,    /* no memory */
  PW_E_DATA,     /* bad input data */
  PW_E_MISSING,  /* an input file is not there */
  PW_E_CREATE,   /* an output cannot be created */
  PW_E_IO,       /* reading or writing failed */
  PW_E_LACK      /* another program that is needed is not there */
} pw_status;

typedef struct pw_err {
  pw_status code;
  const char *field; /* static name of the offending parameter, or NULL */
  int line, column;  /* place in an input file, 0 when not from a file */
  char text[400];    /* one line, always terminated */
} pw_err;

/* Fills err (may be NULL) and returns code, so that a refusal is one line:
 *   if (!(t > 0.0)) return pw_fail(err, PW_E_DOMAIN, "t", "%g K, want above 0", t);
 * Control characters in the text become '?', so that the message stays one line.
 */
#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
pw_status
pw_fail(pw_err *err, pw_status code, const char *field, const char *format, ...);

/* As pw_fail, for a place in an input file: the text is led by "file:line:column: ". */
#if defined(__GNUC__)
__attribute__((format(printf, 6, 7)))
#endif
pw_status
pw_fail_at(pw_err *err, pw_status code, const char *file, int line, int column,
           const char *format, ...);

/* PW_OK when low <= v <= high, else PW_E_DOMAIN with "field v unit, want low to high"; NaN fails. unit may
 * be "" (else it begins with a blank). */
pw_status pw_in_range(double v, double low, double high, const char *field, const char *unit,
                      pw_err *err);

/* What a status means, in plain words; never NULL. */
const char *pw_status_text(pw_status code);

#endif
