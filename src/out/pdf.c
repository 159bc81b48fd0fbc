#include "out/pdf.h"
#include "out/text_stream.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/text_file.h"
#include "out/safe_file.h"
#include "out/subprocess.h"
#include "out/whole.h"

static const char converter[] = "weasyprint";

static pw_status check(const pw_pdf pdf[], size_t n, pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    if (strcmp(pdf[i].page, "letter") != 0 && strcmp(pdf[i].page, "a4") != 0)
      return pw_fail(err, PW_E_DATA, "paper", "--paper %s: want letter or a4", pdf[i].page);
  return PW_OK;
}

/* What a run of the converter told, of the first path it was for. */
static pw_status told(pw_status status, const pw_subprocess_result *made, const char *path,
                      pw_err *err)
{
  if (status == PW_E_LACK)
    return pw_fail(err, PW_E_LACK, NULL,
                   "%s: weasyprint is not installed, so no PDF; install it (Debian: apt-get "
                   "install weasyprint), or write .html and print that",
                   path);
  if (status == PW_OK && made->exit_status != 0)
    return pw_fail(err, PW_E_IO, NULL, "%.100s: weasyprint failed: %.200s", path, made->said);
  return status;
}

static pw_status not_whole(const pw_subprocess_result *made, const char *path, pw_err *err)
{
  return pw_fail(err, PW_E_IO, NULL, "%.100s: weasyprint made no whole PDF: %.200s", path,
                 made->said);
}

/* ---------------------------------------------------------------- by its own Python */

/* The Python that the converter's first line names ("#!/usr/bin/python3"); 0: it is no such script. */
static int python_of(char python[PW_PATH_SIZE])
{
  char path[PW_PATH_SIZE], line[PW_PATH_SIZE];
  if (pw_subprocess_find(converter, path, NULL) != PW_OK) return 0;
  FILE *f = fopen(path, "re");
  int got = f && fgets(line, sizeof line, f) && line[0] == '#' && line[1] == '!';
  if (f) fclose(f);
  if (!got) return 0;
  const char *at = line + 2 + strspn(line + 2, " \t");
  size_t n = strcspn(at, " \t\n");
  if (at[n] != '\n' || at[0] != '/') return 0;
  snprintf(python, PW_PATH_SIZE, "%.*s", (int)n, at);
  return strncmp(strrchr(python, '/'), "/python", 7) == 0;
}

static char *all_html(const pw_pdf pdf[], size_t n, size_t *size)
{
  pw_text_stream s;
  if (!pw_text_stream_open(&s)) return NULL;
  for (size_t i = 0; i < n; i++) {
    fprintf(s.f, "%s %zu\n", strcmp(pdf[i].page, "a4") == 0 ? "A4" : "letter",
            pdf[i].html_size);
    fwrite(pdf[i].html, 1, pdf[i].html_size, s.f);
  }
  pw_text_stream_close(&s);
  *size = s.size;
  return s.text;
}

/* Where the next PDF begins and how long it is, 0: there is no whole one. A line with the size stands before each. */
static size_t next_pdf(const pw_subprocess_result *made, const char **at)
{
  const char *end = made->out + made->size;
  char *after = NULL;
  size_t size = *at < end ? strtoull(*at, &after, 10) : 0;
  if (size == 0 || *after != '\n' || size > (size_t)(end - after - 1)) return 0;
  *at = after + 1;
  return size;
}

/* Which of them it stopped at. */
static size_t stopped_at(const pw_subprocess_result *made, size_t n)
{
  const char *at = made->out;
  size_t i = 0, size;
  while (at && i + 1 < n && (size = next_pdf(made, &at)) > 0)
    at += size, i++;
  return i;
}

static pw_status part(const pw_subprocess_result *made, pw_pdf pdf[], size_t n, pw_err *err)
{
  const char *at = made->out;
  for (size_t i = 0; i < n; i++) {
    size_t size = next_pdf(made, &at);
    if (size == 0 || !pw_whole(PW_WHOLE_PDF, at, size))
      return not_whole(made, pdf[i].path, err);
    pdf[i].made = malloc(size);
    if (!pdf[i].made)
      return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %.200s", pdf[i].path);
    memcpy(pdf[i].made, at, size);
    pdf[i].size = size;
    at += size;
  }
  return PW_OK;
}

static pw_status make_together(const char *python, pw_pdf pdf[], size_t n, pw_err *err)
{
  const char *const argv[] = {python, "-c", pw_text_file_find("plots/convert.py"), NULL};
  pw_subprocess_result made = {0};
  size_t size;
  char *html = all_html(pdf, n, &size);
  if (!html) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %.200s", pdf[0].path);
  const pw_subprocess_call call = {
      .by = python, .name = converter, .argv = argv, .n_piece = n, .input = html, .size = size};
  pw_status status = pw_subprocess_run_by(&call, &made, err);
  status = told(status, &made, pdf[stopped_at(&made, n)].path, err);
  if (status == PW_OK) status = part(&made, pdf, n, err);
  pw_subprocess_free(&made);
  free(html);
  return status;
}

/* ---------------------------------------------------------------- one by one */

static pw_status make_one(pw_pdf *pdf, pw_err *err)
{
  static const char *const sheet[] = {"data:text/css,@page{size:letter}",
                                      "data:text/css,@page{size:A4}"};
  int a4 = strcmp(pdf->page, "a4") == 0;
  /* PDF/UA: tagged, with title and language, for those who have it read to them. */
  const char *const argv[] = {converter, "-q", "--pdf-variant", "pdf/ua-1", "-e",
                              "utf-8",   "-s", sheet[a4],       "-",        "-",
                              NULL};
  pw_subprocess_result made = {0};
  pw_status status = pw_subprocess_run(argv, pdf->html, pdf->html_size, &made, err);
  status = told(status, &made, pdf->path, err);
  if (status == PW_OK && !pw_whole(PW_WHOLE_PDF, made.out, made.size))
    status = not_whole(&made, pdf->path, err);
  if (status == PW_OK) {
    pdf->made = made.out;
    pdf->size = made.size;
    made.out = NULL;
  }
  pw_subprocess_free(&made);
  return status;
}

pw_status pw_pdf_make(pw_pdf pdf[], size_t n, pw_err *err)
{
  char python[PW_PATH_SIZE];
  for (size_t i = 0; i < n; i++) {
    pdf[i].made = NULL;
    pdf[i].size = 0;
  }
  pw_status status = check(pdf, n, err);
  if (status == PW_OK && n > 0 && python_of(python)) {
    status = make_together(python, pdf, n, err);
  } else {
    for (size_t i = 0; status == PW_OK && i < n; i++)
      status = make_one(&pdf[i], err);
  }
  for (size_t i = 0; status != PW_OK && i < n; i++) {
    free(pdf[i].made);
    pdf[i].made = NULL;
    pdf[i].size = 0;
  }
  return status;
}

pw_status pw_pdf_write(const char *html, size_t size, const char *page, const char *path,
                       pw_err *err)
{
  pw_pdf pdf = {.path = path, .page = page, .html = html, .html_size = size};
  pw_status status = pw_safe_check(path, err);
  if (status == PW_OK) status = pw_pdf_make(&pdf, 1, err);
  if (status == PW_OK) status = pw_safe_put(path, pdf.made, pdf.size, err);
  free(pdf.made);
  return status;
}
