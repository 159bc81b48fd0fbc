#!/bin/sh
# Texts of the papers that have no words in a tongue, or words that lost a placeholder: sh .ci/tongue.sh BUILD [FILE...]
# (src/out/po). Prints them as entries of a catalogue, ready to be filled in; ends with 1 when there are any.
set -eu
build=$1
shift
[ $# -gt 0 ] || set -- $(grep -lE 'pw_html_put|pw_say|PW_TEXT|pw_tongue_(put|say|count)' src/*/*.c | sort)
t=$(mktemp -d /tmp/panewright-tongue-XXXXXX)
trap 'rm -rf "$t"' EXIT
xgettext --language=C --from-code=UTF-8 --no-wrap --no-location --add-comments=TRANSLATORS -o "$t/all.pot" \
  --keyword --keyword=pw_html_put:2 --keyword=pw_say:2 --keyword=PW_TEXT --keyword=pw_tongue_put:4 \
  --keyword=pw_tongue_say:2 --keyword=pw_tongue_count:2,3 \
  --flag=pw_html_put:2:c-format --flag=pw_tongue_put:4:c-format "$@"
msgmerge -q --no-fuzzy-matching --no-wrap -o "$t/es.po" "$build/gen/es.po" "$t/all.pot"
msgfmt --check-format -o "$t/es.mo" "$t/es.po" || exit 1
# Markup, marks and places alone say nothing: what is left must have a letter.
msgattrib --untranslated --no-obsolete --no-wrap "$t/es.po" | awk -v RS= '
  NR == 1 && /msgid ""\nmsgstr ""\n"/ { next }
  {
    s = $0
    sub(/\nmsgstr.*/, "", s); gsub(/(^|\n)#[^\n]*/, "", s); sub(/^\n?msgid /, "", s)
    gsub(/\\n/, " ", s); gsub(/\\"/, "\047", s)
    gsub(/"\n"/, "", s)
    gsub(/aria-label=\047/, ">", s)
    gsub(/<[^<>]*>/, "", s); gsub(/<[^>]*$/, "", s); gsub(/^[^<]*>/, "", s); gsub(/&[a-z#0-9]*;/, "", s)
    gsub(/%[-+ 0-9.$]*(z?[a-z]|%)/, "", s)
    if (s ~ /[A-Za-z][A-Za-z]/) { print; print ""; n++ }
  }
  END { exit n > 0 }'
