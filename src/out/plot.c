#include "out/plot.h"

#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "out/safe_file.h"
#include "out/text_file.h"

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

static int terminal(FILE *f, const char *path, int width, int height)
{
  const char *dot = strrchr(path, '.');
  const char *font = "DejaVu Sans,11";
  if (dot && strcmp(dot, ".svg") == 0)
    fprintf(f,
            "set term svg noenhanced size %d,%d font '%s' background '#ffffff' linewidth 1.2\n",
            width, height, font);
  else if (dot && strcmp(dot, ".png") == 0)
    fprintf(f,
            "set term pngcairo noenhanced size %d,%d font '%s' background '#ffffff' linewidth "
            "1.2\n",
            width, height, font);
  else if (dot && strcmp(dot, ".pdf") == 0)
    fprintf(f, "set term pdfcairo noenhanced size %.3fin,%.3fin font '%s' linewidth 1.2\n",
            width / 96.0, height / 96.0, font);
  else
    return 0;
  return 1;
}

/* Runs gnuplot with script on its input; the first line it says on stderr goes to said. */
static pw_status run(const char *script, size_t size, char said[], size_t room, pw_err *err)
{
  int in[2], out[2];
  if (pipe(in) != 0) return pw_fail(err, PW_E_IO, NULL, "pipe: %s", strerror(errno));
  if (pipe(out) != 0) {
    close(in[0]);
    close(in[1]);
    return pw_fail(err, PW_E_IO, NULL, "pipe: %s", strerror(errno));
  }
  pid_t pid = fork();
  if (pid == 0) {
    dup2(in[0], 0);
    dup2(out[1], 1);
    dup2(out[1], 2);
    close(in[0]);
    close(in[1]);
    close(out[0]);
    close(out[1]);
    execlp("gnuplot", "gnuplot", "-", (char *)NULL);
    _exit(127);
  }
  close(in[0]);
  close(out[1]);
  if (pid < 0) {
    close(in[1]);
    close(out[0]);
    return pw_fail(err, PW_E_IO, NULL, "fork: %s", strerror(errno));
  }
  struct sigaction ignore = {.sa_handler = SIG_IGN}, before;
  sigaction(SIGPIPE, &ignore, &before);
  for (size_t done = 0; done < size;) {
    ssize_t n = write(in[1], script + done, size - done);
    if (n <= 0) break;
    done += (size_t)n;
  }
  close(in[1]);
  sigaction(SIGPIPE, &before, NULL);
  size_t have = 0;
  char sink[512];
  for (;;) {
    ssize_t n = read(out[0], sink, sizeof sink);
    if (n <= 0) break;
    for (ssize_t i = 0; i < n && have + 1 < room; i++)
      said[have++] = sink[i];
  }
  said[have] = '\0';
  close(out[0]);
  int state = 0;
  waitpid(pid, &state, 0);
  if (WIFEXITED(state) && WEXITSTATUS(state) == 127)
    return pw_fail(err, PW_E_LACK, NULL, "gnuplot is not installed: no picture");
  if (!WIFEXITED(state) || WEXITSTATUS(state) != 0)
    return pw_fail(err, PW_E_IO, NULL, "gnuplot failed: %.200s", said);
  return PW_OK;
}

pw_status pw_plot_write(const pw_plot *plot, const char *path, int width, int height,
                        pw_err *err)
{
  if (!plot) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  if (!plot->body) return pw_fail(err, PW_E_MISSING, NULL, "no template %s", plot->name);
  char *script = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&script, &size);
  if (!f) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  pw_safe_file file;
  if (!terminal(f, path, width, height)) {
    fclose(f);
    free(script);
    return pw_fail(err, PW_E_DATA, "path", "%s: a picture ends in .svg, .png or .pdf", path);
  }
  pw_status status = pw_safe_reserve(&file, path, err);
  if (status != PW_OK) {
    fclose(f);
    free(script);
    return status;
  }
  fputs("set output ", f);
  put_quoted(f, file.temp, '\'');
  fprintf(f, "\nset encoding utf8\n");
  const char *palette = pw_text_file_find("plots/palette.gp");
  if (palette) fputs(palette, f);
  fflush(plot->f);
  fwrite(plot->script, 1, plot->size, f);
  fputs(plot->body, f);
  fputs("\nset output\n", f);
  if (fclose(f) != 0) {
    pw_safe_drop(&file);
    free(script);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a picture");
  }
  char said[512];
  status = run(script, size, said, sizeof said, err);
  free(script);
  struct stat made;
  if (status == PW_OK && (stat(file.temp, &made) != 0 || made.st_size == 0))
    status = pw_fail(err, PW_E_IO, NULL, "%s: gnuplot drew nothing: %.200s", path, said);
  if (status != PW_OK) {
    pw_safe_drop(&file);
    return status;
  }
  return pw_safe_commit(&file, err);
}
