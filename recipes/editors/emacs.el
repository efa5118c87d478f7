;; Emacs 29 or newer, or 28 with the package `eglot': Eglot on every design. `yaml-mode' is a package; without it the file is plain text, with all the help.
(define-derived-mode bore-yaml-mode text-mode "Bore"
  "Instrument designs in YAML."
  (setq-local comment-start "# ")
  (setq-local indent-tabs-mode nil))
(define-derived-mode bore-json-mode js-json-mode "Bore JSON"
  "Instrument designs in JSON.")
(add-to-list 'auto-mode-alist '("\\.bore\\.ya?ml\\'" . bore-yaml-mode))
(add-to-list 'auto-mode-alist '("\\.bore\\.json\\'" . bore-json-mode))
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               '((bore-yaml-mode bore-json-mode) . ("borewright" "serve" "--stdio"))))
(add-hook 'bore-yaml-mode-hook #'eglot-ensure)
(add-hook 'bore-json-mode-hook #'eglot-ensure)
