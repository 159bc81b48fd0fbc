#define _GNU_SOURCE /* pipe2, syscall */
#include "out/subprocess.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#ifdef __linux__
#include <sys/prctl.h>
#include <sys/syscall.h>
#endif

#include "out/fence.h"
#include "out/private_folder.h"
#include "out/stop.h"

enum { IN = 0, OUT, SAID, REPORT, N_PIPE };
enum { ENV_MAX = 16, DESCRIPTORS = 4096, TICK_MS = 100 };

static pw_subprocess_settings settings = {.seconds = 30.0};

void pw_subprocess_set(const pw_subprocess_settings *s) { settings = *s; }

/* What a child has to tell before it becomes the helper. */
typedef struct report {
  int fences, why; /* why: errno of exec */
} report;

typedef struct helper {
  char program[PW_PATH_SIZE], folder[PW_PATH_SIZE];
  char env_text[ENV_MAX][PW_PATH_SIZE + 32];
  char *env[ENV_MAX + 1];
  int pipes[N_PIPE][2];
  int rules; /* of the fence, -1 none */
} helper;

/* ---------------------------------------------------------------- before the fork */

/* Only absolute folders: what lies in the folder one happens to stand in is not taken. */
static int find_program(const char *name, char path[PW_PATH_SIZE])
{
  const char *list = getenv("PATH");
  if (!list) list = "/usr/local/bin:/usr/bin:/bin";
  for (const char *at = list; *at;) {
    size_t n = strcspn(at, ":");
    if (at[0] == '/' && n + strlen(name) + 2 <= PW_PATH_SIZE) {
      struct stat is;
      memcpy(path, at, n);
      path[n] = '/';
      strcpy(path + n + 1, name);
      if (access(path, X_OK) == 0 && stat(path, &is) == 0 && S_ISREG(is.st_mode)) return 1;
    }
    at += n + (at[n] == ':');
  }
  return 0;
}

/* path: where it may find programs of its own. */
static void make_environment(helper *h, const char *path)
{
  static const char *const fixed[] = {"LC_ALL=C.UTF-8", "LANG=C.UTF-8", "TZ=UTC0",
                                      "PYTHONDONTWRITEBYTECODE=1", "PYTHONNOUSERSITE=1"};
  static const char *const folder[] = {"HOME", "TMPDIR", "XDG_CACHE_HOME", "XDG_CONFIG_HOME",
                                       "XDG_DATA_HOME"};
  size_t n = 0;
  snprintf(h->env_text[n++], sizeof h->env_text[0], "PATH=%.4000s", path ? path : "/usr/bin");
  for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++)
    snprintf(h->env_text[n++], sizeof h->env_text[0], "%s", fixed[i]);
  for (size_t i = 0; i < sizeof folder / sizeof folder[0]; i++)
    snprintf(h->env_text[n++], sizeof h->env_text[0], "%s=%s", folder[i], h->folder);
  for (size_t i = 0; i < n; i++)
    h->env[i] = h->env_text[i];
  h->env[n] = NULL;
}

static void shut(int *fd)
{
  if (*fd >= 0) close(*fd);
  *fd = -1;
}

static pw_status open_pipes(helper *h, pw_err *err)
{
  for (int i = 0; i < N_PIPE; i++)
    h->pipes[i][0] = h->pipes[i][1] = -1;
  for (int i = 0; i < N_PIPE; i++)
    if (pipe2(h->pipes[i], O_CLOEXEC) != 0)
      return pw_fail(err, PW_E_IO, NULL, "pipe: %s", strerror(errno));
  return PW_OK;
}

pw_status pw_subprocess_find(const char *name, char path[PW_PATH_SIZE], pw_err *err)
{
  return find_program(name, path) ? PW_OK
                                  : pw_fail(err, PW_E_LACK, NULL, "%s is not installed", name);
}

static pw_status prepare(helper *h, const char *name, const char *by, pw_err *err)
{
  char found[PW_PATH_SIZE];
  pw_status status = open_pipes(h, err);
  if (status == PW_OK) status = pw_subprocess_find(name, found, err);
  if (status == PW_OK) snprintf(h->program, sizeof h->program, "%s", by ? by : found);
  if (status == PW_OK) status = pw_private_folder(h->folder, err);
  if (status != PW_OK) {
    h->folder[0] = '\0';
    return status;
  }
  /* An interpreter is where it is; its libraries would else be looked for by a compiler, each for a tenth of a second. */
  make_environment(h, by ? h->folder : getenv("PATH"));
  h->rules = pw_fence_rules(h->program, found, h->folder);
  return PW_OK;
}

static void clear(helper *h)
{
  for (int i = 0; i < N_PIPE; i++) {
    shut(&h->pipes[i][0]);
    shut(&h->pipes[i][1]);
  }
  shut(&h->rules);
  if (h->folder[0]) pw_private_folder_remove(h->folder);
  free(h);
}

/* ---------------------------------------------------------------- in the child */

/* All of them but one, also those that somebody forgot to mark. */
static void close_others(int keep)
{
#if defined(__linux__) && defined(SYS_close_range)
  if ((keep == 3 || syscall(SYS_close_range, 3u, (unsigned)keep - 1, 0u) == 0) &&
      syscall(SYS_close_range, (unsigned)keep + 1, ~0u, 0u) == 0)
    return;
#endif
  for (int fd = 3; fd < DESCRIPTORS; fd++)
    if (fd != keep) close(fd);
}

/* Only what may be called between fork and exec. */
static void become(helper *h, const char *const argv[])
{
  static const int usual[] = {SIGINT, SIGTERM, SIGHUP, SIGPIPE, SIGXFSZ};
  report r = {0, 0};
  sigset_t none;
  sigemptyset(&none);
  setpgid(0, 0);
  for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++)
    signal(usual[i], SIG_DFL);
  sigprocmask(SIG_SETMASK, &none, NULL);
#ifdef __linux__
  prctl(PR_SET_PDEATHSIG, SIGKILL, 0, 0, 0); /* killed with us */
#endif
  const struct rlimit no_core = {0, 0};
  setrlimit(RLIMIT_CORE, &no_core);
  int there = chdir(h->folder) == 0;
  dup2(h->pipes[IN][0], 0);
  dup2(h->pipes[OUT][1], 1);
  dup2(h->pipes[SAID][1], 2);
  r.fences = pw_fence_enter(h->rules);
  close_others(h->pipes[REPORT][1]);
  if (write(h->pipes[REPORT][1], &r, sizeof r) == (ssize_t)sizeof r && there)
    execve(h->program, (char *const *)(size_t)argv, h->env); /* argv is not changed */
  r.why = errno;
  if (write(h->pipes[REPORT][1], &r, sizeof r) < 0) _exit(126);
  _exit(127);
}

/* ---------------------------------------------------------------- in the parent */

/* Appends what a read gave. Returns 0 when there is no memory. */
static int keep(pw_subprocess_result *r, const char *text, size_t n)
{
  char *bigger = realloc(r->out, r->size + n + 1);
  if (!bigger) return 0;
  r->out = bigger;
  memcpy(r->out + r->size, text, n);
  r->size += n;
  r->out[r->size] = '\0';
  return 1;
}

static void keep_said(pw_subprocess_result *r, const char *text, size_t n)
{
  size_t have = strlen(r->said);
  if (n > sizeof r->said - 1 - have) n = sizeof r->said - 1 - have;
  memcpy(r->said + have, text, n);
  r->said[have + n] = '\0';
}

static double now(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int open_pidfd(pid_t pid)
{
#if defined(__linux__) && defined(SYS_pidfd_open)
  return (int)syscall(SYS_pidfd_open, pid, 0);
#else
  (void)pid;
  return -1;
#endif
}

typedef struct talk {
  helper *h;
  const char *input;
  size_t size, done;
  pw_subprocess_result *result;
  const char *name;
  double seconds; /* that it may take */
} talk;

static void feed(talk *t)
{
  int *in = &t->h->pipes[IN][1];
  ssize_t n = write(*in, t->input + t->done, t->size - t->done);
  if (n > 0) t->done += (size_t)n;
  if (t->done == t->size || (n < 0 && errno != EAGAIN && errno != EINTR)) shut(in);
}

static pw_status take(talk *t, int from, pw_err *err)
{
  char chunk[65536];
  int *fd = &t->h->pipes[from][0];
  ssize_t n = read(*fd, chunk, sizeof chunk);
  if (n > 0 && from == SAID) keep_said(t->result, chunk, (size_t)n);
  if (n > 0 && from == OUT) {
    if (t->result->size + (size_t)n > PW_MADE_MAX)
      return pw_fail(err, PW_E_IO, NULL, "%s made more than %d MB and was ended", t->name,
                     PW_MADE_MAX >> 20);
    if (!keep(t->result, chunk, (size_t)n))
      return pw_fail(err, PW_E_NOMEM, NULL, "no memory for what %s made", t->name);
  }
  if (n == 0 || (n < 0 && errno != EINTR && errno != EAGAIN)) shut(fd);
  return PW_OK;
}

/* Seconds for which the helper would have run and others had the processor (Linux; 0 elsewhere). */
static double waited(pid_t pid)
{
  char path[64], text[96];
  unsigned long long ran = 0, waiting = 0;
  snprintf(path, sizeof path, "/proc/%ld/schedstat", (long)pid);
  int fd = open(path, O_RDONLY | O_CLOEXEC);
  if (fd < 0) return 0.0;
  ssize_t n = read(fd, text, sizeof text - 1);
  close(fd);
  text[n > 0 ? n : 0] = '\0';
  return sscanf(text, "%llu %llu", &ran, &waiting) == 2 ? 1e-9 * (double)waiting : 0.0;
}

static int has_ended(pid_t pid)
{
  siginfo_t info = {0};
  return waitid(P_PID, (id_t)pid, &info, WEXITED | WNOHANG | WNOWAIT) == 0 && info.si_pid != 0;
}

/* Feeds and reads at once, so that neither side waits for the other with a full pipe, until the helper
 * has ended and its pipes hold nothing more, whoever else may have them open. A pause of the whole
 * process (a stop by the user, a machine that sleeps) counts as one second, and time in which others
 * kept the processor from the helper does not count. */
static pw_status exchange(talk *t, pid_t pid, int pidfd, pw_err *err)
{
  helper *h = t->h;
  double spent = 0.0, last = now();
  int ended = 0;
  for (;;) {
    struct pollfd p[] = {{h->pipes[IN][1], POLLOUT, 0},
                         {h->pipes[OUT][0], POLLIN, 0},
                         {h->pipes[SAID][0], POLLIN, 0},
                         {ended ? -1 : pidfd, POLLIN, 0}};
    int n = poll(p, 4, ended ? 0 : TICK_MS);
    if (n < 0 && errno != EINTR)
      return pw_fail(err, PW_E_IO, NULL, "poll: %s", strerror(errno));
    if (n < 0) continue;
    if (p[IN].revents) feed(t);
    for (int i = OUT; i <= SAID; i++) {
      pw_status status = p[i].revents ? take(t, i, err) : PW_OK;
      if (status != PW_OK) return status;
    }
    if (ended && !p[OUT].revents && !p[SAID].revents) return PW_OK;
    if (!ended) ended = has_ended(pid);
    double here = now();
    spent += here - last < 1.0 ? here - last : 1.0;
    last = here;
    if (spent > t->seconds && spent - waited(pid) > t->seconds)
      return pw_fail(err, PW_E_IO, NULL,
                     "%s took longer than %g s and was ended (--helper-seconds gives it more)",
                     t->name, t->seconds);
  }
}

/* How the fences stand, said once a run. */
static void say_fences(const char *name, const report *r)
{
  static atomic_flag said = ATOMIC_FLAG_INIT;
  char line[200];
  if (!settings.say || atomic_flag_test_and_set(&said)) return;
  snprintf(line, sizeof line, "%s runs in a private folder; files: %s; network: %s", name,
           r->fences & PW_FENCE_FILES ? "fenced" : "NOT fenced (the kernel has no landlock)",
           r->fences & PW_FENCE_CALLS ? "none" : "NOT fenced (the kernel has no seccomp)");
  settings.say(line);
}

/* What the child told: its fences, then nothing when it became the helper. */
static pw_status hear(const helper *h, const char *name, pw_err *err)
{
  report r[2] = {{0, 0}, {0, 0}};
  ssize_t n = read(h->pipes[REPORT][0], r, sizeof r);
  if (n >= (ssize_t)sizeof r[0]) say_fences(name, &r[0]);
  if (n != (ssize_t)sizeof r) return PW_OK;
  return pw_fail(err, r[1].why == ENOENT ? PW_E_LACK : PW_E_IO, NULL, "%s cannot be run: %s",
                 h->program, strerror(r[1].why));
}

static pw_status watch(talk *t, pid_t pid, pw_err *err)
{
  helper *h = t->h;
  int place = pw_stop_helper((int)pid), pidfd = open_pidfd(pid), state = 0;
  shut(&h->pipes[IN][0]);
  for (int i = OUT; i < N_PIPE; i++)
    shut(&h->pipes[i][1]);
  fcntl(h->pipes[IN][1], F_SETFL, O_NONBLOCK);
  if (t->size == 0) shut(&h->pipes[IN][1]);
  pw_status status = keep(t->result, "", 0) ? exchange(t, pid, pidfd, err)
                                            : pw_fail(err, PW_E_NOMEM, NULL,
                                                      "no memory for what %s makes", t->name);
  kill(-pid, SIGKILL); /* its number is ours until we have waited for it */
  pw_stop_helper_gone(place);
  while (waitpid(pid, &state, 0) < 0 && errno == EINTR)
    ;
  if (pidfd >= 0) close(pidfd);
  t->result->exit_status = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
  pw_status started = hear(h, t->name, status == PW_OK ? err : NULL);
  return status == PW_OK ? started : status;
}

pw_status pw_subprocess_run_by(const pw_subprocess_call *call, pw_subprocess_result *result,
                               pw_err *err)
{
  memset(result, 0, sizeof *result);
  helper *h = calloc(1, sizeof *h);
  if (!h) return pw_fail(err, PW_E_NOMEM, NULL, "no memory to run %s", call->name);
  h->rules = -1;
  pw_stop_hold();
  pw_status status = pw_stop_asked()
                         ? pw_fail(err, PW_E_IO, NULL, "%s: stopped before it ran", call->name)
                         : prepare(h, call->name, call->by, err);
  if (status == PW_OK) {
    pid_t pid = fork();
    if (pid == 0) become(h, call->argv);
    if (pid < 0) {
      status = pw_fail(err, PW_E_IO, NULL, "fork: %s", strerror(errno));
    } else {
      talk t = {h,
                call->input,
                call->size,
                0,
                result,
                call->name,
                settings.seconds * (double)call->n_piece};
      setpgid(pid, pid);
      status = watch(&t, pid, err);
    }
  }
  clear(h);
  pw_stop_release();
  return status;
}

pw_status pw_subprocess_run(const char *const argv[], const char *input, size_t size,
                            pw_subprocess_result *result, pw_err *err)
{
  const pw_subprocess_call call = {
      .name = argv[0], .argv = argv, .n_piece = 1, .input = input, .size = size};
  return pw_subprocess_run_by(&call, result, err);
}

void pw_subprocess_free(pw_subprocess_result *result)
{
  if (!result) return;
  free(result->out);
  result->out = NULL;
  result->size = 0;
}
