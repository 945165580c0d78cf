;; A LilyPond that has started and waits: it forks its workers, and they fork a child for each line that they read, which
;; engraves one folder. `lines`, which is set before, has for each worker the open files that it reads from, writes to, and
;; holds open as long as it or a child lives.
;;   in    FOLDER collect|grow CPU-SECONDS WALL-SECONDS MEBIBYTES   (FOLDER: a plain name below the working directory)
;;   out   ready PID                                     once; the worker leads the group of its processes
;;         start PID                                     the child runs
;;         done exit|signal NUMBER MILLISECONDS          the child ended, after so much processor time
(use-modules (ice-9 rdelim) (srfi srfi-1) (system foreign))

;; What every source would read and no source changes is read here, once: LilyPond's own declarations, its fonts, and the
;; file ahead.ily if an include folder has one. It may set no text: Pango starts threads for that, which a fork loses.
(define init (format #f "init-~a.ly" (getpid)))
(define init-text "\\include \"declarations-init.ly\"
#(if (ly:find-file \"ahead.ily\") (ly:parser-include-string \"\\\\include \\\"ahead.ily\\\"\"))
#(session-save)
")
(define (read-ahead)
  (call-with-output-file init (lambda (port) (display init-text port)))
  (ly:reset-all-fonts)
  (ly:parse-init init)
  (delete-file init))
;; A child touches most of its memory for the first time. In large pages that takes a fraction of the time: Linux gives
;; them to who asks for an area (madvise(2)), and the heap of Scheme is one area from the beginning (see `environment`).
(define MADV_HUGEPAGE 14)
(define smallest-area (expt 2 24))
(define (anonymous-areas)
  (filter-map
    (lambda (line)
      (let ((words (string-tokenize line)))  ; FROM-TO MODE OFFSET DEVICE INODE [FILE], proc_pid_maps(5)
        (and (= 5 (length words)) (string=? "rw-p" (cadr words))
             (map (lambda (place) (string->number place 16)) (string-split (car words) #\-)))))
    (string-split (call-with-input-file "/proc/self/maps" read-string) #\newline)))
(define (ask-for-large-pages)
  (let ((madvise (pointer->procedure int (dynamic-func "madvise" (dynamic-link)) (list '* size_t int))))
    (for-each
      (lambda (area)
        (let ((size (- (cadr area) (car area))))
          (if (>= size smallest-area) (madvise (make-pointer (car area)) size MADV_HUGEPAGE))))
      (anonymous-areas))))

(gc-disable)  ; nothing of it is garbage
(false-if-exception (ask-for-large-pages))  ; elsewhere there is no /proc
(read-ahead)
(gc-enable)

(define (limit-child cpu wall mebibytes)
  (alarm wall)
  (setrlimit 'cpu cpu cpu)
  (setrlimit 'as (* mebibytes 1048576) (* mebibytes 1048576)))

(define (redirect name flags ports)
  (let ((file (open-fdes name flags #o644)))
    (for-each (lambda (port) (dup2 file port)) ports)
    (close-fdes file)))

(define (engrave-here)
  (catch #t
    (lambda () (ly:parse-file "source.ly") 0)
    (lambda (key . args)
      (if (not (eq? key 'ly-file-failed))
          (format (current-error-port) "fatal error: ~a ~s\n" key args))
      1)))

(define (child folder memory limits)
  (chdir folder)
  (redirect "/dev/null" O_RDONLY '(0))
  (redirect "source.log" (logior O_WRONLY O_CREAT O_TRUNC) '(1 2))
  (apply limit-child limits)
  (if (string=? memory "grow") (gc-disable))  ; most pages are made before collecting would pay
  (let ((code (engrave-here)))
    (flush-all-ports)  ; also those the source opened: the exit that keeps away from the parent's does not
    (primitive-_exit code)))

(define (say out . words)
  (apply format out words)
  (force-output out))

;; In the music namespace `times` is a music function.
(define (children-milliseconds)
  (let ((now ((@ (guile) times))))
    (quotient (* 1000 (+ (tms:cutime now) (tms:cstime now))) internal-time-units-per-second)))

(define (serve-one line in out)
  (let* ((words (string-split line #\space))
         (before (children-milliseconds))
         (pid (primitive-fork)))
    (if (= pid 0)
        (begin (close in)
               (close out)
               (child (car words) (cadr words) (map string->number (cddr words)))))
    (say out "start ~a\n" pid)
    (let* ((status (cdr (waitpid pid)))
           (killed (status:term-sig status)))
      (say out "done ~a ~a ~a\n" (if killed "signal" "exit") (or killed (status:exit-val status))
           (- (children-milliseconds) before)))))

(define (serve in out)
  (setpgid 0 0)
  (say out "ready ~a\n" (getpid))
  (let loop ((line (read-line in)))
    (if (not (eof-object? line))
        (begin (serve-one line in out)
               (loop (read-line in)))))
  (primitive-_exit 0))

(define (fork-worker line)
  (let ((pid (primitive-fork)))
    (if (= pid 0)
        (begin (for-each (lambda (other) (if (not (eq? other line)) (for-each close-fdes other))) lines)
               (serve (fdopen (car line) "r") (fdopen (cadr line) "w")))
        pid)))
(define workers (map fork-worker lines))
(for-each (lambda (line) (for-each close-fdes line)) lines)
(read-line)  ; to the end: as long as nobody has waited for a worker, its number is given to no other process
(for-each waitpid workers)
(primitive-_exit 0)
