/* The two places where the program meets the world by other means than files, for the page: a helper
 * program is a function of the worker's that runs to its end at once, and progress is posted, not drawn.
 * Linked before the libraries, so that their own are left out. */
#include <emscripten.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/progress.h"
#include "out/subprocess.h"

enum { LACK = -2 };

void pw_subprocess_set(const pw_subprocess_settings *settings) { (void)settings; }

/* Gives the helper's exit status, its output in *out (malloc) and what it said in said; LACK: there is none
 * of that name. */
// cppcheck-suppress unknownMacro
EM_JS(int, seam_helper,
      (const char *name, const char *input, size_t size, char **out, size_t *n, char *said,
       size_t room),
      {
        const helper = Module.helper && Module.helper(UTF8ToString(name));
        if (!helper) return -2;
        const made = helper(HEAPU8.slice(input, input + size));
        const at = _malloc(made.out.length + 1);
        if (!at) return -3;
        HEAPU8.set(made.out, at);
        HEAPU8[at + made.out.length] = 0;
        HEAPU32[out >> 2] = at;
        HEAPU32[n >> 2] = made.out.length;
        stringToUTF8(made.said, said, room);
        return made.status;
      })

pw_status pw_subprocess_find(const char *name, char path[PW_PATH_SIZE], pw_err *err)
{
  path[0] = '\0';
  return pw_fail(err, PW_E_LACK, NULL, "%s is not installed", name);
}

pw_status pw_subprocess_run(const char *const argv[], const char *input, size_t size,
                            pw_subprocess_result *result, pw_err *err)
{
  memset(result, 0, sizeof *result);
  int status = seam_helper(argv[0], input, size, &result->out, &result->size, result->said,
                           sizeof result->said);
  if (status == LACK) return pw_fail(err, PW_E_LACK, NULL, "%s is not installed", argv[0]);
  if (status < LACK)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for what %s makes", argv[0]);
  result->exit_status = status;
  return PW_OK;
}

/* An interpreter is nowhere. */
pw_status pw_subprocess_run_by(const pw_subprocess_call *call, pw_subprocess_result *result,
                               pw_err *err)
{
  if (!call->by) return pw_subprocess_run(call->argv, call->input, call->size, result, err);
  memset(result, 0, sizeof *result);
  return pw_fail(err, PW_E_LACK, NULL, "%s is not installed", call->name);
}

void pw_subprocess_free(pw_subprocess_result *result)
{
  if (!result) return;
  free(result->out);
  result->out = NULL;
  result->size = 0;
}

EM_JS(void, seam_progress, (const char *what, int percent), {
  if (Module.progress) Module.progress(UTF8ToString(what), percent);
})

void cli_progress_begin(cli_progress *bar, const char *what)
{
  *bar = (cli_progress){what, 0.0, 0, -1};
}

int cli_progress_step(void *context, size_t done, size_t all)
{
  cli_progress *bar = context;
  int percent = all ? (int)(100 * done / all) : 100;
  if (percent != bar->percent) seam_progress(bar->what, bar->percent = percent);
  return 0;
}

void cli_progress_end(cli_progress *bar) { bar->shown = 0; }

/* Emscripten's own leaves nobody any right. */
mode_t umask(mode_t mask)
{
  static mode_t now = 022;
  mode_t before = now;
  now = mask & 0777u;
  return before;
}
