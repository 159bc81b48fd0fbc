/* Runs a program on a kernel that has neither landlock nor seccomp: both calls are answered with ENOSYS. */
#define _GNU_SOURCE
#include <errno.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#define REFUSE(number)                                                                         \
  BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, (number), 0, 1),                                         \
      BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | ENOSYS)

int main(int argc, char **argv)
{
  struct sock_filter step[] = {
      BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr)),
      REFUSE(444), /* landlock_create_ruleset */
      REFUSE(__NR_seccomp),
      BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
  };
  struct sock_fprog filter = {sizeof step / sizeof step[0], step};
  if (argc < 2 || prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 ||
      syscall(__NR_seccomp, SECCOMP_SET_MODE_FILTER, 0, &filter) != 0)
    return 70;
  execvp(argv[1], argv + 1);
  return 127;
}
