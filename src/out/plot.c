#include "out/plot.h"
#include "out/text_stream.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/text_file.h"
#include "out/safe_file.h"
#include "out/subprocess.h"
#include "out/whole.h"

/* Size of letters: a picture in a document is small, so its letters are not. */
enum { FILE_POINTS = 11, INLINE_POINTS = 12 };

struct pw_plot {
  const char *body;      /* template text, static */
  const char *name;      /* its path, static or caller's */
  pw_text_stream script; /* variables and data blocks so far; its text stays the plot's */
};

pw_plot *pw_plot_new(const char *template_path)
{
  pw_plot *plot = calloc(1, sizeof *plot);
  if (!plot) return NULL;
  plot->name = template_path;
  plot->body = pw_text_file_find(template_path);
  if (!pw_text_stream_open(&plot->script)) {
    free(plot);
    return NULL;
  }
  return plot;
}

void pw_plot_free(pw_plot *plot)
{
  if (!plot) return;
  pw_text_stream_close(&plot->script);
  free(plot->script.text);
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
  fprintf(plot->script.f, "%s = ", name);
  put_quoted(plot->script.f, text, '\'');
  fputc('\n', plot->script.f);
}

void pw_plot_number(pw_plot *plot, const char *name, double v)
{
  if (!plot) return;
  if (isfinite(v))
    fprintf(plot->script.f, "%s = %.12g\n", name, v);
  else
    fprintf(plot->script.f, "%s = NaN\n", name);
}

void pw_plot_block(pw_plot *plot, const char *name)
{
  if (plot) fprintf(plot->script.f, "$%s << EOD\n", name);
}

void pw_plot_row(pw_plot *plot, const char *kinds, ...)
{
  if (!plot) return;
  va_list args;
  va_start(args, kinds);
  for (const char *k = kinds; *k; k++) {
    if (k != kinds) fputc(' ', plot->script.f);
    if (*k == 's') {
      put_quoted(plot->script.f, va_arg(args, const char *), '"');
    } else {
      double v = va_arg(args, double);
      if (isfinite(v))
        fprintf(plot->script.f, "%.9g", v);
      else
        fputs("NaN", plot->script.f);
    }
  }
  va_end(args);
  fputc('\n', plot->script.f);
}

void pw_plot_blank(pw_plot *plot)
{
  if (plot) fputc('\n', plot->script.f);
}

void pw_plot_end_block(pw_plot *plot)
{
  if (plot) fputs("EOD\n", plot->script.f);
}

/* The kind of picture by the ending of path; -1: an ending that is not known. */
static int kind_of(const char *path)
{
  static const char *const ending[] = {
      [PW_WHOLE_SVG] = ".svg", [PW_WHOLE_PNG] = ".png", [PW_WHOLE_PDF] = ".pdf"};
  const char *dot = strrchr(path, '.');
  for (int k = 0; dot && k < (int)(sizeof ending / sizeof ending[0]); k++)
    if (strcmp(dot, ending[k]) == 0) return k;
  return -1;
}

/* The line that sets the terminal. */
static void put_terminal(FILE *f, pw_whole_kind kind, int points, int width, int height)
{
  if (kind == PW_WHOLE_PDF)
    fprintf(f,
            "set term pdfcairo noenhanced size %.3fin,%.3fin font 'DejaVu Sans,%d' linewidth "
            "1.2\n",
            width / 96.0, height / 96.0, points);
  else
    fprintf(f,
            "set term %s noenhanced size %d,%d font 'DejaVu Sans,%d' background '#ffffff' "
            "linewidth 1.2\n",
            kind == PW_WHOLE_SVG ? "svg" : "pngcairo", width, height, points);
}

/* The whole script of a picture: terminal, palette, data, template; there is no output in it, since
 * the picture comes by standard output. NULL: no memory. */
static char *script_of(const pw_plot *plot, pw_whole_kind kind, int points, int width,
                       int height, size_t *size)
{
  pw_text_stream script;
  if (!pw_text_stream_open(&script)) return NULL;
  FILE *f = script.f;
  put_terminal(f, kind, points, width, height);
  fputs("set encoding utf8\n", f);
  const char *palette = pw_text_file_find("plots/palette.gp");
  if (palette) fputs(palette, f);
  int lost = fflush(plot->script.f) != 0 || ferror(plot->script.f);
  fwrite(plot->script.text, 1, plot->script.size, f);
  fputs(plot->body, f);
  fputs("\nset output\n", f); /* ends the picture */
  if (!pw_text_stream_close(&script)) return NULL;
  *size = script.size;
  if (!lost) return script.text;
  free(script.text);
  return NULL;
}

static pw_status usable(const pw_plot *plot, pw_err *err)
{
  if (!plot) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  if (!plot->body) return pw_fail(err, PW_E_MISSING, NULL, "no template %s", plot->name);
  return PW_OK;
}

/* The picture itself, whole; made is to be freed also after a failure. gnuplot reads no settings of
 * the user's (-d) and gets no path. */
static pw_status draw(const pw_plot *plot, pw_whole_kind kind, int points, int width,
                      int height, pw_subprocess_result *made, pw_err *err)
{
  static const char *const argv[] = {"gnuplot", "-d", "-", NULL};
  size_t size = 0;
  char *script = script_of(plot, kind, points, width, height, &size);
  if (!script) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  pw_status status = pw_subprocess_run(argv, script, size, made, err);
  free(script);
  if (status == PW_E_LACK)
    return pw_fail(err, PW_E_LACK, NULL, "gnuplot is not installed: no picture");
  if (status != PW_OK) return status;
  if (made->exit_status != 0)
    return pw_fail(err, PW_E_IO, NULL, "gnuplot failed: %.200s", made->said);
  if (!pw_whole(kind, made->out, made->size))
    return pw_fail(err, PW_E_IO, NULL, "gnuplot drew no whole picture: %.200s", made->said);
  return PW_OK;
}

pw_status pw_plot_write(const pw_plot *plot, const char *path, int width, int height,
                        pw_err *err)
{
  pw_status status = usable(plot, err);
  if (status != PW_OK) return status;
  int kind = kind_of(path);
  if (kind < 0)
    return pw_fail(err, PW_E_DATA, "path", "%s: a picture ends in .svg, .png or .pdf", path);
  status = pw_safe_check(path, err);
  if (status != PW_OK) return status;
  pw_subprocess_result made = {0};
  status = draw(plot, (pw_whole_kind)kind, FILE_POINTS, width, height, &made, err);
  if (status == PW_OK) status = pw_safe_put(path, made.out, made.size, err);
  pw_subprocess_free(&made);
  return status;
}

pw_status pw_plot_folder(const char *dir, pw_err *err) { return pw_safe_folder(dir, err); }

pw_status pw_plot_write_both(const pw_plot *plot, const char *dir, const char *name, int width,
                             int height, pw_err *err)
{
  static const char *const ending[] = {"svg", "png"};
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < 2; i++) {
    char path[4096];
    int n = snprintf(path, sizeof path, "%s/%s.%s", dir, name, ending[i]);
    if (n < 0 || (size_t)n >= sizeof path)
      return pw_fail(err, PW_E_CREATE, "path", "%.80s...: name too long", dir);
    status = pw_plot_write(plot, path, width, height, err);
  }
  return status;
}

pw_status pw_plot_svg(const pw_plot *plot, int width, int height, char **svg, pw_err *err)
{
  pw_status status = usable(plot, err);
  if (status != PW_OK) return status;
  pw_subprocess_result made = {0};
  status = draw(plot, PW_WHOLE_SVG, INLINE_POINTS, width, height, &made, err);
  if (status != PW_OK) {
    pw_subprocess_free(&made);
    return status;
  }
  *svg = made.out;
  return PW_OK;
}
