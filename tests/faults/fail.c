/* fail.c - lets one file operation of a program fail, to see what the program makes of it.
 *
 * Preloaded (LD_PRELOAD). Every call on a file that is the program's concern has a number, from 1:
 *   FAULT_TOLD=FILE    each is told there, a line `KIND PATH`, in their order
 *   FAULT_AT=N         the N-th fails, and where FAULT_ON=1 all later ones of its kind do too
 *   FAULT_WITH=ERRNO   with this number; or `short`: half of the bytes are read or written
 * Standard input and output count, as <in> and <out>; standard error and the system's own files do
 * not. What fails is not done, but for close(), after which the file is closed all the same.
 */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/mman.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

enum verdict { PASS, FAIL, SHORT };

static int told = -1;
static long at, seen;
static int with, is_short, goes_on;
static char failing[32];
static FILE *in_stream, *out_stream;

#define REAL(name) ((__typeof__(&name))real(#name))

static void* real(const char* name) {
  void* found = dlsym(RTLD_NEXT, name);
  if (found == NULL) _exit(99);
  return found;
}

static int begins(const char* path, const char* start) {
  return strncmp(path, start, strlen(start)) == 0;
}

/* The loader's, the locale's and the kernel's own files are none of the program's concern. */
static int is_concern(const char* path) {
  static const char* const system[] = {"/lib/", "/lib64/", "/usr/lib/", "/usr/share/locale",
                                       "/etc/", "/proc/",  "/sys/",     "/dev/"};
  for (size_t i = 0; i < sizeof system / sizeof *system; ++i)
    if (begins(path, system[i])) return begins(path, "/dev/shm/");
  return 1;
}

/* Counts a call, and says what becomes of it. */
static enum verdict judge(const char* kind, const char* path) {
  if (path == NULL || !is_concern(path)) return PASS;
  const long number = __atomic_add_fetch(&seen, 1, __ATOMIC_SEQ_CST);
  if (told >= 0) dprintf(told, "%s %s\n", kind, path);
  if (at == 0 || number < at) return PASS;
  if (number == at) strncpy(failing, kind, sizeof failing - 1);
  if (number > at && !(goes_on && strcmp(kind, failing) == 0)) return PASS;
  errno = with;
  return is_short ? SHORT : FAIL;
}

/* The path of an open file; nothing for what is no file of the program. */
static const char* path_of(int fd, char* room) {
  if (fd == STDIN_FILENO) return "<in>";
  if (fd == STDOUT_FILENO) return "<out>";
  if (fd == STDERR_FILENO || fd == told) return NULL;
  char link[64];
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  const ssize_t n = REAL(readlink)(link, room, PATH_MAX - 1);
  if (n <= 0) return NULL;
  room[n] = '\0';
  return *room == '/' ? room : NULL;
}

static enum verdict judge_fd(const char* kind, int fd) {
  char room[PATH_MAX];
  const int before = errno;
  const char* const path = path_of(fd, room);
  errno = before;
  return judge(kind, path);
}

static size_t half(size_t n) { return n > 1 ? n / 2 : n; }

/* --- reading and writing ---------------------------------------------------------------------- */

ssize_t read(int fd, void* to, size_t n) {
  const enum verdict v = judge_fd("read", fd);
  return v == FAIL ? -1 : REAL(read)(fd, to, v == SHORT ? half(n) : n);
}

ssize_t write(int fd, const void* from, size_t n) {
  const enum verdict v = judge_fd("write", fd);
  return v == FAIL ? -1 : REAL(write)(fd, from, v == SHORT ? half(n) : n);
}

ssize_t writev(int fd, const struct iovec* parts, int n) {
  const enum verdict v = judge_fd("write", fd);
  if (v == FAIL) return -1;
  return v == SHORT ? REAL(write)(fd, parts->iov_base, half(parts->iov_len))
                    : REAL(writev)(fd, parts, n);
}

#define AT_AN_OFFSET(name, offset)                                                  \
  ssize_t p##name(int fd, void* to, size_t n, offset where) {                       \
    const enum verdict v = judge_fd("read", fd);                                    \
    return v == FAIL ? -1 : REAL(p##name)(fd, to, v == SHORT ? half(n) : n, where); \
  }
#define TO_AN_OFFSET(name, offset)                                                    \
  ssize_t p##name(int fd, const void* from, size_t n, offset where) {                 \
    const enum verdict v = judge_fd("write", fd);                                     \
    return v == FAIL ? -1 : REAL(p##name)(fd, from, v == SHORT ? half(n) : n, where); \
  }
AT_AN_OFFSET(read, off_t)
AT_AN_OFFSET(read64, off64_t)
TO_AN_OFFSET(write, off_t)
TO_AN_OFFSET(write64, off64_t)

ssize_t sendfile(int to, int from, off_t* where, size_t n) {
  const enum verdict v = judge_fd("write", to);
  return v == FAIL ? -1 : REAL(sendfile)(to, from, where, v == SHORT ? half(n) : n);
}

ssize_t copy_file_range(int from, off64_t* at_from, int to, off64_t* at_to, size_t n,
                        unsigned flags) {
  const enum verdict v = judge_fd("write", to);
  return v == FAIL
             ? -1
             : REAL(copy_file_range)(from, at_from, to, at_to, v == SHORT ? half(n) : n, flags);
}

/* --- opening and closing ---------------------------------------------------------------------- */

#define MODE_OF(flags, mode)               \
  mode_t mode = 0;                         \
  if ((flags) & (O_CREAT | __O_TMPFILE)) { \
    va_list more;                          \
    va_start(more, flags);                 \
    mode = va_arg(more, mode_t);           \
    va_end(more);                          \
  }

static const char* kind_of(int flags) {
  return (flags & (O_WRONLY | O_RDWR | O_CREAT)) ? "open-to-write" : "open";
}

#define OPENS(name)                                     \
  int name(const char* path, int flags, ...) {          \
    MODE_OF(flags, mode)                                \
    if (judge(kind_of(flags), path) == FAIL) return -1; \
    return REAL(name)(path, flags, mode);               \
  }
#define OPENS_AT(name)                                     \
  int name(int folder, const char* path, int flags, ...) { \
    MODE_OF(flags, mode)                                   \
    if (judge(kind_of(flags), path) == FAIL) return -1;    \
    return REAL(name)(folder, path, flags, mode);          \
  }
OPENS(open)
OPENS(open64)
OPENS_AT(openat)
OPENS_AT(openat64)

int creat(const char* path, mode_t mode) {
  return judge("open-to-write", path) == FAIL ? -1 : REAL(creat)(path, mode);
}

int close(int fd) {
  const enum verdict v = judge_fd("close", fd);
  const int done = REAL(close)(fd);
  if (v != FAIL) return done;
  errno = with;
  return -1;
}

int mkstemp(char* path) { return judge("mkstemp", path) == FAIL ? -1 : REAL(mkstemp)(path); }
int mkstemp64(char* path) { return judge("mkstemp", path) == FAIL ? -1 : REAL(mkstemp64)(path); }
int dup(int fd) { return judge_fd("dup", fd) == FAIL ? -1 : REAL(dup)(fd); }

/* A stream of the C library reads and writes by calls that cannot be caught: so it is given ours.
 */
static ssize_t cookie_read(void* fd, char* to, size_t n) { return read((int)(long)fd, to, n); }
static ssize_t cookie_write(void* fd, const char* from, size_t n) {
  size_t done = 0;
  while (done < n) {
    const ssize_t now = write((int)(long)fd, from + done, n - done);
    if (now <= 0) return 0; /* how a stream is told of an error */
    done += (size_t)now;
  }
  return (ssize_t)n;
}
static int cookie_close(void* fd) { return close((int)(long)fd); }

static FILE* stream_of(int fd, const char* mode) {
  const cookie_io_functions_t ours = {cookie_read, cookie_write, NULL, cookie_close};
  return fopencookie((void*)(long)fd, mode, ours);
}

FILE* fopen(const char* path, const char* mode) {
  if (!is_concern(path) || *mode != 'r') return REAL(fopen)(path, mode);
  const int fd = open(path, O_RDONLY);
  return fd < 0 ? NULL : stream_of(fd, mode);
}

/* libstdc++ opens by this, and then reads by read(). */
FILE* fopen64(const char* path, const char* mode) {
  if (judge(kind_of(*mode == 'r' ? O_RDONLY : O_WRONLY), path) == FAIL) return NULL;
  return REAL(fopen64)(path, mode);
}

int fclose(FILE* stream) {
  const int fd = fileno(stream);
  const enum verdict v = fd > STDERR_FILENO ? judge_fd("close", fd) : PASS;
  const int done = REAL(fclose)(stream);
  if (v != FAIL) return done;
  errno = with;
  return EOF;
}

int fileno(FILE* stream) {
  if (stream == in_stream) return STDIN_FILENO;
  if (stream == out_stream) return STDOUT_FILENO;
  return REAL(fileno)(stream);
}

/* --- names, sizes, locks ---------------------------------------------------------------------- */

#define BY_PATH(name, kind, arguments, call) \
  int name arguments { return judge(kind, path) == FAIL ? -1 : REAL(name) call; }
#define BY_FILE(name, kind, arguments, call) \
  int name arguments { return judge_fd(kind, fd) == FAIL ? -1 : REAL(name) call; }

BY_FILE(fsync, "fsync", (int fd), (fd))
BY_FILE(fdatasync, "fsync", (int fd), (fd))
BY_FILE(ftruncate, "ftruncate", (int fd, off_t size), (fd, size))
BY_FILE(ftruncate64, "ftruncate", (int fd, off64_t size), (fd, size))
BY_FILE(fchmod, "fchmod", (int fd, mode_t mode), (fd, mode))
BY_FILE(flock, "lock", (int fd, int what), (fd, what))
BY_FILE(fstat, "stat", (int fd, struct stat* to), (fd, to))
BY_FILE(fstat64, "stat", (int fd, struct stat64* to), (fd, to))
BY_PATH(rename, "rename", (const char* path, const char* to), (path, to))
BY_PATH(renameat, "rename", (int from, const char* path, int at_to, const char* to),
        (from, path, at_to, to))
BY_PATH(mkdir, "mkdir", (const char* path, mode_t mode), (path, mode))
BY_PATH(unlink, "unlink", (const char* path), (path))
BY_PATH(unlinkat, "unlink", (int folder, const char* path, int flags), (folder, path, flags))
BY_PATH(remove, "unlink", (const char* path), (path))
BY_PATH(access, "access", (const char* path, int how), (path, how))
BY_PATH(stat, "stat", (const char* path, struct stat* to), (path, to))
BY_PATH(stat64, "stat", (const char* path, struct stat64* to), (path, to))
BY_PATH(lstat, "stat", (const char* path, struct stat* to), (path, to))
BY_PATH(lstat64, "stat", (const char* path, struct stat64* to), (path, to))
BY_PATH(fstatat, "stat", (int folder, const char* path, struct stat* to, int flags),
        (folder, path, to, flags))
BY_PATH(statx, "stat", (int folder, const char* path, int flags, unsigned mask, struct statx* to),
        (folder, path, flags, mask, to))

/* A lock may be refused, but not that it is released or weakened. */
static int takes_a_lock(int fd, int what, const struct flock* lock) {
  static char writes[1024];
  if (what == F_GETLK) return 1;
  if ((what != F_SETLK && what != F_SETLKW) || fd >= (int)sizeof writes) return 0;
  const int weakens = lock->l_type == F_UNLCK || (lock->l_type == F_RDLCK && writes[fd]);
  if (lock->l_len > 1 || weakens) writes[fd] = lock->l_type == F_WRLCK;
  return !weakens;
}

#define LOCKS(name)                                                                  \
  int name(int fd, int what, ...) {                                                  \
    va_list more;                                                                    \
    va_start(more, what);                                                            \
    void* const argument = va_arg(more, void*);                                      \
    va_end(more);                                                                    \
    if (takes_a_lock(fd, what, argument) && judge_fd("lock", fd) == FAIL) return -1; \
    return REAL(name)(fd, what, argument);                                           \
  }
LOCKS(fcntl)
LOCKS(fcntl64)

char* realpath(const char* path, char* to) {
  return judge("realpath", path) == FAIL ? NULL : REAL(realpath)(path, to);
}

DIR* opendir(const char* path) {
  return judge("opendir", path) == FAIL ? NULL : REAL(opendir)(path);
}
struct dirent* readdir(DIR* folder) {
  return judge_fd("readdir", dirfd(folder)) == FAIL ? NULL : REAL(readdir)(folder);
}
struct dirent64* readdir64(DIR* folder) {
  return judge_fd("readdir", dirfd(folder)) == FAIL ? NULL : REAL(readdir64)(folder);
}

#define MAPS(name, offset)                                                      \
  void* name(void* where, size_t n, int allows, int how, int fd, offset from) { \
    if (fd >= 0 && judge_fd("mmap", fd) == FAIL) return MAP_FAILED;             \
    return REAL(name)(where, n, allows, how, fd, from);                         \
  }
MAPS(mmap, off_t)
MAPS(mmap64, off64_t)

__attribute__((constructor)) static void begin(void) {
  const char* const file = getenv("FAULT_TOLD");
  if (file != NULL) {
    const int opened = REAL(open)(file, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    /* High up, so that the program's own files have the numbers that they always have. */
    told = REAL(fcntl)(opened, F_DUPFD_CLOEXEC, 200);
    REAL(close)(opened);
  }
  const char* const error = getenv("FAULT_WITH");
  is_short = error != NULL && strcmp(error, "short") == 0;
  with = error != NULL && !is_short ? atoi(error) : 0;
  at = getenv("FAULT_AT") != NULL ? atol(getenv("FAULT_AT")) : 0;
  goes_on = getenv("FAULT_ON") != NULL;
  stdin = in_stream = stream_of(STDIN_FILENO, "r");
  stdout = out_stream = stream_of(STDOUT_FILENO, "w");
}
