#define _GNU_SOURCE /* syscall, O_PATH, realpath */
#include "out/fence.h"

#include <fcntl.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "out/target.h"

#ifdef __linux__
#include <errno.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/syscall.h>

/* ---------------------------------------------------------------- files */

/* From Linux' landlock.h, whose newer parts an older header lacks. */
enum {
  NR_CREATE_RULESET = 444,
  NR_ADD_RULE = 445,
  NR_RESTRICT_SELF = 446,
  ASK_VERSION = 1,
  RULE_PATH_BENEATH = 1
};
#define FS_EXECUTE (1ULL << 0)
#define FS_WRITE_FILE (1ULL << 1)
#define FS_READ_FILE (1ULL << 2)
#define FS_READ_DIR (1ULL << 3)
#define FS_MAKE_CHAR (1ULL << 6)
#define FS_MAKE_SOCK (1ULL << 9)
#define FS_MAKE_BLOCK (1ULL << 11)

typedef struct ruleset {
  uint64_t files, ports, scoped;
} ruleset;

typedef struct beneath {
  uint64_t allowed;
  int32_t folder;
} __attribute__((packed)) beneath;

/* What each version of the rules can hold back. */
static ruleset all_of(long version)
{
  ruleset r = {.files = (1ULL << 13) - 1};
  if (version >= 2) r.files |= 1ULL << 13; /* refer */
  if (version >= 3) r.files |= 1ULL << 14; /* truncate */
  if (version >= 4) r.ports = 3;           /* bind and connect by TCP */
  if (version >= 5) r.files |= 1ULL << 15; /* ioctl of devices */
  if (version >= 6) r.scoped = 3;          /* abstract sockets, signals */
  return r;
}

static void allow(int rules, const char *path, uint64_t what)
{
  int fd = open(path, O_PATH | O_CLOEXEC);
  if (fd < 0) return; /* what is not there need not be reached */
  const beneath rule = {what, fd};
  syscall(NR_ADD_RULE, rules, RULE_PATH_BENEATH, &rule, 0);
  close(fd);
}

/* The folder a helper brings along: where it lies, or what holds its bin; never all there is. */
static void allow_own(int rules, const char *program)
{
  char real[PW_PATH_SIZE], *slash;
  if (!realpath(program, real) || strncmp(real, "/usr/", 5) == 0) return;
  slash = strrchr(real, '/');
  if (slash == real) return;
  *slash = '\0';
  const char *home = getenv("HOME");
  slash = strrchr(real, '/');
  if (strcmp(slash, "/bin") == 0 && slash != real &&
      !(home && strlen(home) == (size_t)(slash - real) &&
        strncmp(home, real, strlen(home)) == 0))
    *slash = '\0';
  allow(rules, real, FS_EXECUTE | FS_READ_FILE | FS_READ_DIR);
}

int pw_fence_rules(const char *program, const char *also, const char *private_folder)
{
  static const char *const tree[] = {"/usr", "/lib", "/lib32", "/lib64", "/bin"};
  static const char *const settings[] = {"/etc/fonts", "/var/cache/fontconfig",
                                         "/etc/ld.so.cache"};
  long version = syscall(NR_CREATE_RULESET, NULL, 0, ASK_VERSION);
  if (version < 1) return -1;
  const ruleset r = all_of(version);
  size_t size = version >= 6 ? sizeof r : version >= 4 ? 16 : 8;
  int rules = (int)syscall(NR_CREATE_RULESET, &r, size, 0);
  if (rules < 0) return -1;
  for (size_t i = 0; i < sizeof tree / sizeof tree[0]; i++)
    allow(rules, tree[i], FS_EXECUTE | FS_READ_FILE | FS_READ_DIR);
  for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++)
    allow(rules, settings[i], i == 2 ? FS_READ_FILE : FS_READ_FILE | FS_READ_DIR);
  allow_own(rules, program);
  allow_own(rules, also);
  allow(rules, "/dev/null", FS_READ_FILE | FS_WRITE_FILE);
  allow(rules, "/dev/urandom", FS_READ_FILE);
  allow(rules, private_folder,
        r.files & ~(FS_EXECUTE | FS_MAKE_CHAR | FS_MAKE_SOCK | FS_MAKE_BLOCK));
  return rules;
}

/* ---------------------------------------------------------------- calls */

#if defined(__x86_64__)
#define OUR_ARCH AUDIT_ARCH_X86_64
#elif defined(__aarch64__)
#define OUR_ARCH AUDIT_ARCH_AARCH64
#endif

#ifdef OUR_ARCH
#define LOAD(field) BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, field))
#define REFUSE(why) BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | (why))
#define UNLESS(value) BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (value), 0, 1)
#define REFUSE_CALL(number) UNLESS(number), REFUSE(EPERM)

static int enter_calls(void)
{
  struct sock_filter step[] = {
      LOAD(arch),
      BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, OUR_ARCH, 1, 0), /* no other numbering of calls */
      REFUSE(ENOSYS),
      LOAD(nr),
      BPF_JUMP(BPF_JMP | BPF_JGE | BPF_K, 0x40000000u, 0, 1),
      REFUSE(ENOSYS),
      REFUSE_CALL(__NR_setsid),
      REFUSE_CALL(__NR_setpgid),
      REFUSE_CALL(__NR_ptrace),
      REFUSE_CALL(__NR_process_vm_readv),
      REFUSE_CALL(__NR_process_vm_writev),
      REFUSE_CALL(425), /* io_uring_setup: sockets by another door */
      BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, __NR_socket, 1, 0),
      BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, __NR_socketpair, 0, 3),
      LOAD(args[0]), /* the low half of the family: both machines are little-endian */
      BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, AF_UNIX, 1, 0),
      REFUSE(EACCES),
      BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
  };
  const struct sock_fprog filter = {sizeof step / sizeof step[0], step};
  return syscall(__NR_seccomp, SECCOMP_SET_MODE_FILTER, 0, &filter) == 0;
}
#else
static int enter_calls(void) { return 0; }
#endif

int pw_fence_enter(int rules)
{
  int held = 0;
  if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) return 0;
  if (rules >= 0 && syscall(NR_RESTRICT_SELF, rules, 0) == 0) held |= PW_FENCE_FILES;
  if (enter_calls()) held |= PW_FENCE_CALLS;
  return held;
}

#else /* no Linux, no such fences */

int pw_fence_rules(const char *program, const char *also, const char *private_folder)
{
  (void)program;
  (void)also;
  (void)private_folder;
  return -1;
}

int pw_fence_enter(int rules)
{
  (void)rules;
  return 0;
}

#endif
