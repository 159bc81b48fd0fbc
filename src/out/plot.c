#include "out/plot.h"

#include <errno.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "job/text_file.h"
#include "out/safe_file.h"
#include "out/subprocess.h"

/* Size of letters: a picture in a document is small, so its letters are not. */
enum { FILE_POINTS = 11, INLINE_POINTS = 12 };

struct pw_plot {
  const char *body; /* template text, static */
  const char *name; /* its path, static or caller's */
  char *script;     /* owned: variables and data blocks so far */
  size_t size;
  FILE *f; /* memory stream over script */
};

pw_plot *pw_plot_new(const char *template_path)
{
  pw_plot *plot = calloc(1, sizeof *plot);
  if (!plot) return NULL;
  plot->name = template_path;
  plot->body = pw_text_file_find(template_path);
  plot->f = open_memstream(&plot->script, &plot->size);
  if (!plot->f) {
    free(plot);
    return NULL;
  }
  return plot;
}

void pw_plot_free(pw_plot *plot)
{
  if (!plot) return;
  fclose(plot->f);
  free(plot->script);
  free(plot);
}

/* Quotes are doubled for '...' strings and dropped to ' in "..." cells; control marks go. */
static void put_quoted(FILE *f, const char *text, char quote)
{
  fputc(quote, f);
  for (; *text; text++) {
    unsigned char c = (unsigned char)*text;
    if (c < 32 || c == 127)
      fputc(' ', f);
    else if (quote == '\'' && c == '\'')
      fputs("''", f);
    else if (quote == '"' && (c == '"' || c == '\\' || c == '`'))
      fputc('\'', f);
    else
      fputc(c, f);
  }
  fputc(quote, f);
}

void pw_plot_text(pw_plot *plot, const char *name, const char *text)
{
  if (!plot) return;
  fprintf(plot->f, "%s = ", name);
  put_quoted(plot->f, text, '\'');
  fputc('\n', plot->f);
}

void pw_plot_number(pw_plot *plot, const char *name, double v)
{
  if (!plot) return;
  if (isfinite(v))
    fprintf(plot->f, "%s = %.12g\n", name, v);
  else
    fprintf(plot->f, "%s = NaN\n", name);
}

void pw_plot_block(pw_plot *plot, const char *name)
{
  if (plot) fprintf(plot->f, "$%s << EOD\n", name);
}

void pw_plot_row(pw_plot *plot, const char *kinds, ...)
{
  if (!plot) return;
  va_list args;
  va_start(args, kinds);
  for (const char *k = kinds; *k; k++) {
    if (k != kinds) fputc(' ', plot->f);
    if (*k == 's') {
      put_quoted(plot->f, va_arg(args, const char *), '"');
    } else {
      double v = va_arg(args, double);
      if (isfinite(v))
        fprintf(plot->f, "%.9g", v);
      else
        fputs("NaN", plot->f);
    }
  }
  va_end(args);
  fputc('\n', plot->f);
}

void pw_plot_blank(pw_plot *plot)
{
  if (plot) fputc('\n', plot->f);
}

void pw_plot_end_block(pw_plot *plot)
{
  if (plot) fputs("EOD\n", plot->f);
}

/* The line that sets the terminal by the ending of path; 0: an ending that is not known. */
static int terminal(char term[], size_t room, const char *path, int points, int width,
                    int height)
{
  const char *dot = strrchr(path, '.');
  char font[32];
  snprintf(font, sizeof font, "DejaVu Sans,%d", points);
  if (dot && (strcmp(dot, ".svg") == 0 || strcmp(dot, ".png") == 0))
    snprintf(term, room,
             "set term %s noenhanced size %d,%d font '%s' background '#ffffff' linewidth 1.2\n",
             dot[1] == 's' ? "svg" : "pngcairo", width, height, font);
  else if (dot && strcmp(dot, ".pdf") == 0)
    snprintf(term, room,
             "set term pdfcairo noenhanced size %.3fin,%.3fin font '%s' linewidth 1.2\n",
             width / 96.0, height / 96.0, font);
  else
    return 0;
  return 1;
}

/* The whole script of a picture: terminal, output, palette, data, template. NULL: no memory. */
static char *script_of(const pw_plot *plot, const char *term, const char *output, size_t *size)
{
  char *script = NULL;
  FILE *f = open_memstream(&script, size);
  if (!f) return NULL;
  fputs(term, f);
  if (output) {
    fputs("set output ", f);
    put_quoted(f, output, '\'');
  }
  fputs("\nset encoding utf8\n", f);
  const char *palette = pw_text_file_find("plots/palette.gp");
  if (palette) fputs(palette, f);
  fflush(plot->f);
  fwrite(plot->script, 1, plot->size, f);
  fputs(plot->body, f);
  fputs("\nset output\n", f);
  if (fclose(f) == 0) return script;
  free(script);
  return NULL;
}

/* Runs gnuplot on a script; the result is to be freed also after a failure. */
static pw_status run(const char *script, size_t size, pw_subprocess_result *result, pw_err *err)
{
  static const char *const argv[] = {"gnuplot", "-", NULL};
  pw_status status = pw_subprocess_run(argv, script, size, result, err);
  if (status == PW_E_LACK)
    return pw_fail(err, PW_E_LACK, NULL, "gnuplot is not installed: no picture");
  if (status == PW_OK && result->exit_status != 0)
    return pw_fail(err, PW_E_IO, NULL, "gnuplot failed: %.200s", result->said);
  return status;
}

static pw_status usable(const pw_plot *plot, pw_err *err)
{
  if (!plot) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  if (!plot->body) return pw_fail(err, PW_E_MISSING, NULL, "no template %s", plot->name);
  return PW_OK;
}

pw_status pw_plot_write(const pw_plot *plot, const char *path, int width, int height,
                        pw_err *err)
{
  char term[200];
  pw_status status = usable(plot, err);
  if (status != PW_OK) return status;
  if (!terminal(term, sizeof term, path, FILE_POINTS, width, height))
    return pw_fail(err, PW_E_DATA, "path", "%s: a picture ends in .svg, .png or .pdf", path);
  pw_safe_file file;
  status = pw_safe_reserve(&file, path, err);
  if (status != PW_OK) return status;
  size_t size = 0;
  char *script = script_of(plot, term, file.temp, &size);
  pw_subprocess_result made = {0};
  status = script ? run(script, size, &made, err)
                  : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  free(script);
  struct stat there;
  if (status == PW_OK && (stat(file.temp, &there) != 0 || there.st_size == 0))
    status = pw_fail(err, PW_E_IO, NULL, "%s: gnuplot drew nothing: %.200s", path, made.said);
  pw_subprocess_free(&made);
  if (status != PW_OK) {
    pw_safe_drop(&file);
    return status;
  }
  return pw_safe_commit(&file, err);
}

pw_status pw_plot_folder(const char *dir, pw_err *err)
{
  if (mkdir(dir, 0777) == 0 || errno == EEXIST) return PW_OK;
  return pw_fail(err, PW_E_CREATE, "plots", "%s: cannot make the folder: %s", dir,
                 strerror(errno));
}

pw_status pw_plot_write_both(const pw_plot *plot, const char *dir, const char *name, int width,
                             int height, pw_err *err)
{
  static const char *const ending[] = {"svg", "png"};
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < 2; i++) {
    char path[4200];
    snprintf(path, sizeof path, "%.4000s/%.80s.%s", dir, name, ending[i]);
    status = pw_plot_write(plot, path, width, height, err);
  }
  return status;
}

pw_status pw_plot_svg(const pw_plot *plot, int width, int height, char **svg, pw_err *err)
{
  char term[200];
  pw_status status = usable(plot, err);
  if (status != PW_OK) return status;
  terminal(term, sizeof term, ".svg", INLINE_POINTS, width, height);
  size_t size = 0;
  char *script = script_of(plot, term, NULL, &size);
  pw_subprocess_result made = {0};
  status = script ? run(script, size, &made, err)
                  : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  free(script);
  if (status == PW_OK && made.size == 0)
    status = pw_fail(err, PW_E_IO, NULL, "gnuplot drew nothing: %.200s", made.said);
  if (status != PW_OK) {
    pw_subprocess_free(&made);
    return status;
  }
  *svg = made.out;
  return PW_OK;
}
