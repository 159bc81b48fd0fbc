# Our comments as doxygen reads them: one before a declaration has its first line as what it is in brief and the rest as it
# stands (columns are kept); one behind a member belongs to it.
function plain(s) { gsub(/[\\@<>#%$&"]/, "\\\\&", s); return s }
function closing(s,   at) { at = index(s, "*/"); return at ? at : 0 }
BEGIN { first = 1 }
block { # within a comment before a declaration
  line = $0
  at = closing(line)
  sub(/^[ \t]*\*?/, "", line)
  if (at) {
    sub(/ ?\*\/.*/, "", line)
    print line "\n\\endverbatim */" substr($0, at + 2)
    block = 0
  } else print line
  next
}
behind { # a comment behind a member that runs on
  at = closing($0)
  line = $0
  sub(/^[ \t]*\*?/, "", line)
  if (at) { sub(/ ?\*\/.*/, "", line); print plain(line) " */" substr($0, at + 2); behind = 0 } else print plain(line)
  next
}
/^[ \t]*\/\*/ {
  line = $0
  sub(/^[ \t]*\/\* ?/, "", line)
  head = "/** " (first ? "\\file\n" : "") "\\brief "
  first = 0
  at = closing($0)
  if (at) { rest = substr($0, at + 2); sub(/ ?\*\/.*/, "", line); print head plain(line) " */" rest }
  else { print head plain(line) "\n\\verbatim"; block = 1 }
  next
}
/\/\*/ {
  at = index($0, "/*")
  line = substr($0, at + 2)
  stop = index(line, "*/")
  if (stop) print substr($0, 1, at - 1) "/**< " plain(substr(line, 1, stop - 1)) "*/" substr(line, stop + 2)
  else { print substr($0, 1, at - 1) "/**< " plain(line); behind = 1 }
  next
}
{ print }
