#include "out/pdf_pile.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#include "out/safe_file.h"

pw_status pw_pdf_pile_add(pw_pdf_pile *pile, const char *path, const char *html, size_t size,
                          const char *page, pw_err *err)
{
  pw_status status = pw_safe_check(path, err);
  if (status != PW_OK) return status;
  if (pile->n == PW_PDF_PILE_MAX)
    return pw_fail(err, PW_E_DOMAIN, NULL, "%.200s: more than %d papers", path,
                   PW_PDF_PILE_MAX);
  char *at = strdup(path), *of = strdup(page), *text = malloc(size + 1);
  if (!at || !of || !text) {
    free(at);
    free(of);
    free(text);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %.200s", path);
  }
  memcpy(text, html, size);
  pile->pdf[pile->n++] = (pw_pdf){.path = at, .page = of, .html = text, .html_size = size};
  return PW_OK;
}

/* ---------------------------------------------------------------- side by side */

/* Neighbours in the pile, by one converter that starts once for them. */
typedef struct share {
  pw_pdf *pdf;
  size_t n;
  pthread_t thread;
  int started;
  pw_status status;
  pw_err err;
} share;

static void *work(void *arg)
{
  share *s = arg;
  s->status = pw_pdf_make(s->pdf, s->n, &s->err);
  return NULL;
}

/* As even as can be; the first is this thread's. */
static pw_status make(pw_pdf_pile *pile, size_t n_share, pw_err *err)
{
  share s[PW_PDF_THREADS_MAX] = {{0}};
  size_t next = 0;
  for (size_t i = 0; i < n_share; i++) {
    s[i].pdf = pile->pdf + next;
    s[i].n = (pile->n - next) / (n_share - i);
    next += s[i].n;
  }
  for (size_t i = 1; i < n_share; i++)
    s[i].started = pthread_create(&s[i].thread, NULL, work, &s[i]) == 0;
  for (size_t i = 0; i < n_share; i++)
    if (!s[i].started) work(&s[i]);
  for (size_t i = 1; i < n_share; i++)
    if (s[i].started) pthread_join(s[i].thread, NULL);
  for (size_t i = 0; i < n_share; i++)
    if (s[i].status != PW_OK) {
      *err = s[i].err;
      return s[i].status;
    }
  return PW_OK;
}

pw_status pw_pdf_pile_put(pw_pdf_pile *pile, int n_thread, pw_err *err)
{
  size_t most = n_thread < PW_PDF_THREADS_MAX ? (size_t)n_thread : PW_PDF_THREADS_MAX;
  pw_status status = make(pile, pile->n < most ? pile->n : most, err);
  for (size_t i = 0; i < pile->n && status == PW_OK; i++)
    status = pw_safe_put(pile->pdf[i].path, pile->pdf[i].made, pile->pdf[i].size, err);
  return status;
}

void pw_pdf_pile_free(pw_pdf_pile *pile)
{
  for (size_t i = 0; i < pile->n; i++) {
    free((char *)(size_t)pile->pdf[i].path);
    free((char *)(size_t)pile->pdf[i].page);
    free((char *)(size_t)pile->pdf[i].html);
    free(pile->pdf[i].made);
  }
  pile->n = 0;
}
