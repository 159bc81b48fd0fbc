/* Preloaded: a division by zero, an invalid operation or an overflow of floating point is noted, once a place, in the
 * file that TRAPS_LOG names, and the program goes on: the instruction is stepped over with the traps off. Only
 * programs under the folder TRAPS_WITHIN are watched. x86-64 and glibc.
 *
 * A comparison is no fault: what is not given is NaN (panewright/given.h), and compares false. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <fenv.h>
#include <link.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <ucontext.h>
#include <unistd.h>

enum { WATCHED = FE_DIVBYZERO | FE_INVALID | FE_OVERFLOW, MASKS = 0x1f80, STEP = 0x100 };
enum { PLACES = 1024 };

static void *seen[PLACES];
static int log_fd = -1;
static char self[4096]; /* the program */

/* The same mistake in the same place is told once; 1 when it is new. */
static int is_new(void *at)
{
  for (int i = 0; i < PLACES; i++) {
    void *none = NULL;
    if (__atomic_compare_exchange_n(&seen[i], &none, at, 0, __ATOMIC_RELAXED, __ATOMIC_RELAXED))
      return 1;
    if (none == at) return 0;
  }
  return 0;
}

static const char *kind(int code)
{
  return code == FPE_FLTDIV ? "divide" : code == FPE_FLTOVF ? "overflow" : "invalid";
}

/* Opcodes 2F (comis), C2 (cmp), 5D and 5F (min, max: they choose by a comparison), behind the prefixes of SSE, AVX
 * and AVX-512. */
static int compares(const unsigned char *i)
{
  while (*i == 0x66 || *i == 0xF2 || *i == 0xF3 || (*i & 0xF0) == 0x40)
    i++;
  if (*i == 0xC5)
    i += 2;
  else if (*i == 0xC4)
    i += 3;
  else if (*i == 0x62)
    i += 4;
  else if (*i == 0x0F)
    i += 1;
  else
    return 0;
  return *i == 0x2F || *i == 0xC2 || *i == 0x5D || *i == 0x5F;
}

static void note(void *at, int code)
{
  Dl_info module;
  char line[512];
  if (code == FPE_FLTINV && compares(at)) return;
  if (!is_new(at) || !dladdr(at, &module)) return;
  int n = snprintf(line, sizeof line, "%s %.200s %.200s 0x%lx\n", kind(code), self,
                   module.dli_fname, (unsigned long)((char *)at - (char *)module.dli_fbase));
  if (n > 0 && write(log_fd, line, (size_t)n) != n) _exit(70);
}

/* The kernel gives back what stands in the context: there the traps are off for one step. */
static void fault(int signal, siginfo_t *info, void *context)
{
  ucontext_t *c = context;
  (void)signal;
  note(info->si_addr, info->si_code);
  c->uc_mcontext.fpregs->mxcsr = (c->uc_mcontext.fpregs->mxcsr | MASKS) & ~0x3fu;
  c->uc_mcontext.fpregs->cwd |= 0x3f;
  c->uc_mcontext.fpregs->swd &= 0x7f00;
  c->uc_mcontext.gregs[REG_EFL] |= STEP;
}

static void stepped(int signal, siginfo_t *info, void *context)
{
  ucontext_t *c = context;
  (void)signal, (void)info;
  c->uc_mcontext.fpregs->mxcsr &= ~(unsigned)(WATCHED << 7 | 0x3f);
  c->uc_mcontext.fpregs->cwd &= (unsigned short)~WATCHED;
  c->uc_mcontext.gregs[REG_EFL] &= ~STEP;
}

static void catch (int signal, void (*handler)(int, siginfo_t *, void *))
{
  struct sigaction a = {.sa_sigaction = handler, .sa_flags = SA_SIGINFO | SA_RESTART};
  sigaction(signal, &a, NULL);
}

/* A test library wants the signal for itself. */
void (*signal(int number, void (*handler)(int)))(int)
{
  void (*(*next)(int, void (*)(int)))(int) =
      (void (*(*)(int, void (*)(int)))(int))dlsym(RTLD_NEXT, "signal");
  return number == SIGFPE && log_fd >= 0 ? SIG_DFL : next(number, handler);
}

__attribute__((constructor)) static void watch(void)
{
  const char *path = getenv("TRAPS_LOG"), *within = getenv("TRAPS_WITHIN");
  ssize_t n = readlink("/proc/self/exe", self, sizeof self - 1);
  if (!path || !within || n < 0) return;
  self[n] = '\0';
  if (strncmp(self, within, strlen(within)) != 0) return;
  int fd = open(path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  log_fd = fcntl(fd, F_DUPFD_CLOEXEC, 3); /* the first three may be closed on purpose */
  close(fd);
  catch (SIGFPE, fault);
  catch (SIGTRAP, stepped);
  feenableexcept(WATCHED);
}
