;; A LilyPond that has started and waits: for each line it reads it forks a child that engraves one folder.
;;   in    FOLDER collect|grow CPU-SECONDS WALL-SECONDS MEBIBYTES   (FOLDER: a plain name below the working directory)
;;   out   ready                                         once
;;         start PID                                     the child runs
;;         done exit|signal NUMBER MILLISECONDS          the child ended, after so much processor time
(use-modules (ice-9 rdelim))

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
(gc-disable)  ; nothing of it is garbage
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

(define (say . args)
  (apply format (current-output-port) args)
  (force-output (current-output-port)))

;; In the music namespace `times` is a music function.
(define (children-milliseconds)
  (let ((now ((@ (guile) times))))
    (quotient (* 1000 (+ (tms:cutime now) (tms:cstime now))) internal-time-units-per-second)))

(define (serve-one line)
  (let* ((words (string-split line #\space))
         (before (children-milliseconds))
         (pid (primitive-fork)))
    (if (= pid 0)
        (child (car words) (cadr words) (map string->number (cddr words))))
    (say "start ~a\n" pid)
    (let* ((status (cdr (waitpid pid)))
           (killed (status:term-sig status)))
      (say "done ~a ~a ~a\n" (if killed "signal" "exit") (or killed (status:exit-val status))
           (- (children-milliseconds) before)))))

(say "ready\n")
(let loop ((line (read-line (current-input-port))))
  (if (not (eof-object? line))
      (begin (serve-one line)
             (loop (read-line (current-input-port))))))
(primitive-_exit 0)
